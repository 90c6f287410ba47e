"""The page that `diagnose serve` shows, in a real Chromium: what stands in its terminal, its keys and its mouse."""

from contextlib import contextmanager

from playwright.sync_api import sync_playwright

from needed import program
from waiting import wait_for

SWITCHES = [
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--no-first-run",
]
TERMINAL = ".xterm-helper-textarea"


@contextmanager
def chromium():
    """Run the system's Chromium without a window; without its sandbox too, which root and containers cannot have."""
    path = program("browser", "chromium", "chromium-browser", "google-chrome")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=SWITCHES, chromium_sandbox=False)
        try:
            yield browser
        finally:
            browser.close()


class Visit:
    """One visitor, with cookies of its own; keeps a list of everything the page asked for."""

    def __init__(self, browser):
        self._context = browser.new_context(viewport={"width": 1300, "height": 800})
        self.page = self._context.new_page()
        self.asked_for, self.complaints = [], []
        self._context.on("request", lambda request: self.asked_for.append(request.url))
        self.page.on("websocket", lambda socket: self.asked_for.append(socket.url))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._context.close()

    def cookies(self):
        """Return what the page may remember."""
        return self._context.cookies()

    def screen(self):
        """Return what stands in the terminal: all of it selected with Shift and the mouse, as a reader would."""
        self.page.evaluate(f"document.querySelector('{TERMINAL}').value = ''")
        box = self.page.locator(".xterm-screen").bounding_box()
        self.page.keyboard.down("Shift")
        self.page.mouse.move(box["x"] + 1, box["y"] + 1)
        self.page.mouse.down()
        self.page.mouse.move(box["x"] + box["width"] - 1, box["y"] + box["height"] - 1)
        self.page.mouse.up()
        self.page.keyboard.up("Shift")
        return self.page.input_value(TERMINAL)

    def see(self, *texts):
        """Wait until all the texts stand in the terminal; return all of it."""
        self.page.wait_for_selector(TERMINAL, state="attached")
        last = [""]

        def shown():
            last[0] = self.screen()
            return last[0] if all(text in last[0] for text in texts) else ""

        return wait_for(shown, lambda: f"expected {texts} on:\n{last[0]}", every_s=0.5)

    def click(self, text):
        """Click on a text in the terminal."""
        lines = self.see(text).splitlines()
        row = next(number for number, line in enumerate(lines) if text in line)
        box = self.page.locator(".xterm-screen").bounding_box()
        wide, high = box["width"] / max(map(len, lines)), box["height"] / len(lines)
        self.page.mouse.click(box["x"] + (lines[row].index(text) + 1.5) * wide, box["y"] + (row + 0.5) * high)
