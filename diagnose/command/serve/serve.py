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
from diagnose.problems import BadInputError, Problem, shown

EVERY_ADDRESS = {"0.0.0.0": "127.0.0.1", "::": "::1"}  # noqa: S104 - known, so that it can be warned of
"""An address that means all of the machine's -> one of these that a browser here can open."""


def serve(host: str, port: int, case: Path | None, house: Sequence[Path]) -> Exit:
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
    talk("Ctrl-C ends it.")
    with contextlib.suppress(KeyboardInterrupt):  # pressed before the server listens for it
        data(f"Open {opened_at}")
        sys.stdout.flush()  # into a pipe too, before the long wait
        _run(listening, _screens(case, house), token)
    talk("Stopped.")
    return Exit.DONE


def _listen(host: str, port: int) -> socket.socket:
    if not 0 <= port <= 65535:
        raise _bad("--port", str(port), "a number from 0 to 65535")
    try:
        family, *_, place = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    except (OSError, UnicodeError):
        raise _bad(
            "--host", shown(host), "an address of this machine", "leave it out for this machine alone"
        ) from None
    try:
        return socket.create_server(place[:2], family=family)
    except PermissionError:
        raise _bad("--port", f"port {port}, kept for the system", "one you may use", "try 8000") from None
    except OSError as error:
        found = f"that {host} port {port} cannot be used ({os.strerror(error.errno or 0).lower()})"
        raise _bad(
            "--host and --port", found, "a free port at an address of this machine", "try --port 0"
        ) from None


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


def _screens(case: Path | None, house: Sequence[Path]) -> str:
    """Return the shell command that runs the screens of one page."""
    command = [sys.executable, "-m", "diagnose.command.serve"]
    for folder in house:
        command += ["--rules", str(folder)]
    return "exec " + shlex.join([*command, *(["--", str(case)] if case else [])])  # no shell stays in between


def _warning(address: str) -> str:
    reach = (
        "any other device that reaches this machine"
        if address in EVERY_ADDRESS
        else f"all that reaches {address}"
    )
    also = (
        " On another device, put this machine's own address in its place." if address in EVERY_ADDRESS else ""
    )
    return (
        f"Warning: the page is open to {reach}. Whoever has the address below, with its token, can read and change "
        f"what you can, and the connection is not encrypted: use it only in a network you trust.{also}"
    )


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def _bad(key: str, found: str, expected: str, mend: str = "") -> BadInputError:
    return BadInputError([Problem(None, None, key, found, expected, mend)])
