"""The page and its guard: textual-serve runs the screens, and nothing goes in or out that should not."""

import asyncio
import secrets
from pathlib import Path
from urllib.parse import urlsplit

import jinja2
from aiohttp import web
from aiohttp.typedefs import Handler
from textual_serve.app_service import AppService
from textual_serve.server import Server

from diagnose.language import _, spoken

PRIVATE = ("127.0.0.1", "::1")
"""Addresses that only browsers of this machine reach."""
GRACE_S = 10.0  # for screens to end; common practice, no source
_PAGE = Path(__file__).parent / "page"
HEADERS = {
    # scripts, fonts, pictures and connections from this address alone; the terminal sets styles on its own elements
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data:; font-src 'self'; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
}


class ScreensServer(Server):
    """Runs `command` for each page that is opened. With a token, every request must carry it."""

    def __init__(self, command: str, port: int, token: str | None) -> None:
        super().__init__(command, port=port)
        self._token = token
        self._cookie = f"diagnose_{port}"  # cookies do not tell ports apart
        self._open: set[asyncio.Task[web.WebSocketResponse]] = set()
        self._page = jinja2.Template((_PAGE / "page.html").read_text(encoding="utf-8"), autoescape=True)

    async def application(self) -> web.Application:
        """Return the web application, guarded."""
        app = await self._make_app()
        app.router.add_static("/page", _PAGE)
        app.middlewares.append(self.guard)
        app.on_response_prepare.append(_add_headers)
        return app

    @web.middleware
    async def guard(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Let through only what comes from this page itself, with its token."""
        origin = request.headers.get("Origin")
        if origin is not None and urlsplit(origin).netloc != request.host:
            return _refused(_("Another page asked for this one; open its address itself."))
        if self._token is None:
            if urlsplit(f"//{request.host}").hostname not in (*PRIVATE, "localhost"):
                return _refused(_("This page answers only to 127.0.0.1, ::1 and localhost."))
            return await handler(request)
        in_address = self._is_token(request.query.get("token"))
        if not in_address and not self._is_token(request.cookies.get(self._cookie)):
            return _refused(
                _("The token is missing or wrong; open the address that 'diagnose serve' printed.")
            )
        if in_address and request.path == "/":  # keep the token out of what the browser shows and remembers
            moved = web.Response(status=303, headers={"Location": "/"})
            moved.set_cookie(self._cookie, self._token, httponly=True, samesite="Strict")
            return moved
        return await handler(request)

    async def handle_index(self, request: web.Request) -> web.StreamResponse:
        """Answer with the page, which opens its socket at the address it was asked for."""
        page = self._page.render(
            host=request.host,
            language=spoken(),
            opening=_("Opening the screens …"),
            closed=_("This page is closed. Every answer is kept."),
            again=_("Open it again"),
        )
        return web.Response(text=page, content_type="text/html")

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """Run the screens for one page, in a task that the end of the server can stop."""
        page = asyncio.create_task(super().handle_websocket(request))
        self._open.add(page)
        try:
            return await page
        finally:
            self._open.discard(page)

    async def _process_messages(self, websocket: web.WebSocketResponse, app_service: AppService) -> None:
        """Pass on what the page sends; when it has gone, see its screens out."""
        try:
            await super()._process_messages(websocket, app_service)
        finally:
            await _see_out(app_service)

    async def on_startup(self, app: web.Application) -> None:
        """Print nothing; the command has said where to look."""

    async def on_shutdown(self, app: web.Application) -> None:  # noqa: ARG002 - aiohttp's signature
        """End the screens of all open pages."""
        pages = tuple(self._open)
        for page in pages:
            page.cancel()
        await asyncio.gather(*pages, return_exceptions=True)

    def _is_token(self, given: str | None) -> bool:
        """Compare in constant time."""
        return given is not None and secrets.compare_digest(
            given.encode("utf-8", "replace"), (self._token or "").encode()
        )


async def _see_out(screens: AppService) -> None:
    """Ask the screens to end and wait until their process has; end it if it does not."""
    process = screens._process  # noqa: SLF001 - nothing public waits for it
    if process is None:
        return
    try:
        async with asyncio.timeout(GRACE_S):
            await screens.stop()
            await process.wait()
    except TimeoutError:
        process.kill()
        await process.wait()


async def _add_headers(_request: web.Request, response: web.StreamResponse) -> None:
    response.headers.update(HEADERS)


def _refused(why: str) -> web.Response:
    return web.Response(status=403, text=why + "\n")
