"""Listen at an address, say where to look, and serve until Ctrl-C."""

import asyncio
import contextlib
import os
import secrets
import shlex
import socket
import sys
from collections.abc import Sequence
from pathlib import Path

from aiohttp import web

from diagnose.casefile import read_case
from diagnose.command.output import Exit, data, talk
from diagnose.command.serve.server import GRACE_S, PRIVATE, ScreensServer
from diagnose.language import _
from diagnose.problems import BadInputError, Problem, shown

EVERY_ADDRESS = {"0.0.0.0": "127.0.0.1", "::": "::1"}  # noqa: S104 - known, so that it can be warned of
"""An address that means all of the machine's -> one of these that a browser here can open."""


def serve(host: str, port: int, case: Path | None, house: Sequence[Path], journal: Path | None) -> Exit:
    """Serve the screens at an address until Ctrl-C.

    Raises:
        BadInputError: no such case, no such address, or the port is taken.

    """
    if case is not None:
        read_case(case)
    listening = _listen(host, port)
    address, port = listening.getsockname()[:2]
    token = None if address in PRIVATE else secrets.token_urlsafe(32)  # 256 bits
    opened_at = f"http://{_in_address(EVERY_ADDRESS.get(address, address))}:{port}/"
    if token is not None:
        talk(_warning(address))
        opened_at += f"?token={token}"
    talk(_("Ctrl-C ends it."))
    with contextlib.suppress(KeyboardInterrupt):  # pressed before the server listens for it
        data(_("Open {address}").format(address=opened_at))
        sys.stdout.flush()  # into a pipe too, before the long wait
        _run(listening, _screens(case, house, journal), token)
    talk(_("Stopped."))
    return Exit.DONE


def _listen(host: str, port: int) -> socket.socket:
    if not 0 <= port <= 65535:
        raise _bad("--port", str(port), _("a number from 0 to 65535"))
    try:
        family, *_kinds, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except (OSError, UnicodeError):
        raise _bad(
            "--host",
            shown(host),
            _("an address of this machine"),
            _("leave it out for this machine alone"),
        ) from None
    try:
        return socket.create_server(place[:2], family=family)
    except PermissionError:
        found = _("port {port}, kept for the system").format(port=port)
        raise _bad("--port", found, _("one you may use"), _("try 8000")) from None
    except OSError as error:
        found = _("that {host} port {port} cannot be used ({reason})").format(
            host=host, port=port, reason=os.strerror(error.errno or 0).lower()
        )
        expected = _("a free port at an address of this machine")
        raise _bad(_("--host and --port"), found, expected, _("try --port 0")) from None


def _run(listening: socket.socket, command: str, token: str | None) -> None:
    server = ScreensServer(command, listening.getsockname()[1], token)
    loop = asyncio.new_event_loop()
    web.run_app(
        server.application(),
        sock=listening,
        loop=loop,
        print=None,
        access_log=None,
        shutdown_timeout=GRACE_S,
    )


def _screens(case: Path | None, house: Sequence[Path], journal: Path | None) -> str:
    """Return the shell command that runs the screens of one page."""
    command = [sys.executable, "-m", "diagnose.command.serve"]
    for folder in house:
        command += ["--rules", str(folder)]
    if journal:
        command += ["--journal", str(journal)]
    return "exec " + shlex.join([*command, *(["--", str(case)] if case else [])])  # no shell stays in between


def _warning(address: str) -> str:
    if address not in EVERY_ADDRESS:
        return _(
            "Warning: the page is open to all that reaches {address}. Whoever has the address below, with its token, "
            "can read and change what you can, and the connection is not encrypted: use it only in a network you "
            "trust."
        ).format(address=address)
    return _(
        "Warning: the page is open to any other device that reaches this machine. Whoever has the address below, with "
        "its token, can read and change what you can, and the connection is not encrypted: use it only in a network "
        "you trust. On another device, put this machine's own address in its place."
    )


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def _bad(key: str, found: str, expected: str, mend: str = "") -> BadInputError:
    return BadInputError([Problem(None, None, key, found, expected, mend)])
