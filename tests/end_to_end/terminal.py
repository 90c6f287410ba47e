"""A real terminal: tmux with a server of its own, so that no test meets another's, nor a developer's."""

import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

from textual.color import Color

from diagnose.screens.themes import THEMES
from needed import program
from processes import children
from waiting import wait_for

DIAGNOSE = str(Path(sys.executable).with_name("diagnose"))

DARK = next(theme for theme in THEMES if theme.name == "dark")
CHOSEN_ROW = "48;2;{};{};{}m".format(*Color.parse(DARK.variables["block-cursor-background"]).rgb)
"""How the row that keys act on is drawn, once its list takes keys."""
HINT = "A number answers"
"""Stands below a list in which no row is chosen yet; muted until the list takes keys."""
MUTED = "38;2;{};{};{}m".format(*Color.parse(DARK.variables["muted"]).rgb)
OPEN_FIELD = "38;2;{};{};{}m╭".format(*Color.parse(DARK.accent).rgb)
"""How the field that keys go to is drawn."""


class Terminal:
    """One command in one pane. What stands on the screen is text; keys are tmux's names of keys, or typed text."""

    def __init__(self, columns=80, rows=24):
        self._tmux = [program("terminal", "tmux"), "-u", "-f", "/dev/null", "-S"]
        self._folder = tempfile.TemporaryDirectory(prefix="tmux")  # short: a socket's path has little room
        self._tmux.append(f"{self._folder.name}/socket")
        self._size = ["-x", str(columns), "-y", str(rows)]

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.kill()
        self._folder.cleanup()

    def start(self, *arguments, **environment):
        """Run `diagnose`; when it ends, the screen shows its exit code."""
        named = [f"{name}={value}" for name, value in ({"COLORTERM": "truecolor"} | environment).items()]
        command = shlex.join(["env", *named, DIAGNOSE, *map(str, arguments)])
        self._run("new-session", "-d", *self._size, f'{command}; echo "left with $?"; exec cat')

    def screen(self, *, styled=False):
        """Return what stands on the screen, with its escape sequences if `styled`."""
        return self._run("capture-pane", "-p", *(["-e"] if styled else []))

    def see(self, *texts):
        """Wait until all the texts stand on the screen; return the screen."""

        def shown():
            screen = self.screen()
            return screen if all(text in screen for text in texts) else ""

        return wait_for(shown, lambda: f"expected {texts} on:\n{self.screen()}")

    def asked(self, *texts):
        """Wait until a question with all the texts stands there and its field takes keys (in true colour)."""

        def ready():
            styled = self.screen(styled=True)
            hint = next((line for line in styled.splitlines() if HINT in line), MUTED)
            return CHOSEN_ROW in styled or OPEN_FIELD in styled or MUTED not in hint

        self.see(*texts)
        wait_for(ready, lambda: f"expected a field that takes keys on:\n{self.screen(styled=True)}")
        return self.see(*texts)

    def gone(self, text):
        """Wait until a text no longer stands on the screen."""
        wait_for(lambda: text not in self.screen(), lambda: f"expected no {text!r} on:\n{self.screen()}")

    def press(self, *keys):
        """Press keys by their names."""
        self._run("send-keys", *keys)

    def type(self, text):
        """Type text as it is."""
        self._run("send-keys", "-l", "--", text)

    def paste(self, text):
        """Paste text as a terminal pastes it, control characters and all."""
        buffer = Path(self._folder.name) / "pasted"
        buffer.write_text(text, encoding="utf-8")
        self._run("load-buffer", str(buffer))
        self._run("paste-buffer", "-p", "-r")

    def process(self):
        """Return the id of the running command, the shell's only child."""
        shell = self._run("display-message", "-p", "#{pane_pid}").strip()
        (command,) = children(shell)
        return command

    def kill(self):
        """End the terminal with all that runs in it."""
        subprocess.run([*self._tmux, "kill-server"], capture_output=True, check=False)

    def _run(self, *words):
        done = subprocess.run(
            [*self._tmux, *words], capture_output=True, text=True, encoding="utf-8", check=False
        )
        assert done.returncode == 0, f"tmux {words[0]}: {done.stderr}"
        return done.stdout
