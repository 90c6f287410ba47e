"""`diagnose serve` without a browser: who is let in, what every answer carries, and how bad input is told."""

import re
import socket
import subprocess
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import Request, urlopen

import pytest

from serving import DIAGNOSE, Served

OTHER = "127.0.0.2"
"""An address of this machine alone that is not the usual one, so a token is needed."""
UPGRADE = {
    "Connection": "Upgrade",
    "Upgrade": "websocket",
    "Sec-WebSocket-Version": "13",
    "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==",  # RFC 6455, section 1.3
}


@pytest.fixture(scope="module")
def with_token():
    with Served("--host", OTHER) as served:
        yield served


@pytest.fixture(scope="module")
def private():
    with Served() as served:
        yield served


def status(address, **headers):
    """The status of a request, and what came with it."""
    request = Request(address, headers={name.replace("_", "-"): value for name, value in headers.items()})  # noqa: S310
    try:
        with urlopen(request, timeout=10) as answer:  # noqa: S310
            return answer.status, answer.headers, answer.read().decode()
    except HTTPError as error:
        with error:
            return error.code, error.headers, error.read().decode()


def socket_status(address, path, **headers):
    """The first line that the server answers to a web socket's greeting."""
    where = urlsplit(address)
    greeting = UPGRADE | {"Host": where.netloc} | headers
    lines = [f"GET {path} HTTP/1.1", *(f"{name}: {value}" for name, value in greeting.items()), "", ""]
    with socket.create_connection((where.hostname, where.port), timeout=10) as connection:
        connection.sendall("\r\n".join(lines).encode())
        return connection.recv(4096).decode().splitlines()[0]


def token_of(served):
    return served.address.partition("?token=")[2]


def root(served):
    return served.address.partition("?")[0]


PATHS = ["", "ws", "static/js/textual.js", "page/page.css", "download/x", "no-such-page"]


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize(
    "wrong", ["", "?token=", "?token=wrong", "?token=%C3%A9%00", "?Token={token}", "?token={token}x"]
)
def test_without_the_token_nothing_is_told(with_token, path, wrong):
    code, _, text = status(root(with_token) + path + wrong.format(token=token_of(with_token)))
    assert code == 403
    assert text.count("\n") == 1
    assert token_of(with_token) not in text


def test_the_token_is_long_and_new_every_time(with_token):
    with Served("--host", OTHER) as second:
        assert len(token_of(second)) >= 43  # 256 bits in base 64
        assert token_of(second) != token_of(with_token)


def test_the_web_socket_needs_the_token_too(with_token):
    token, port = token_of(with_token), urlsplit(with_token.address).port
    cookie = f"diagnose_{port}={token}"
    assert " 403 " in socket_status(with_token.address, "/ws")
    assert " 403 " in socket_status(with_token.address, "/ws", Cookie=cookie + "x")
    assert " 101 " in socket_status(with_token.address, "/ws", Cookie=cookie)
    assert " 101 " in socket_status(with_token.address, f"/ws?token={token}")


def test_the_right_token_opens_the_page_and_leaves_the_address(with_token):
    address = urlsplit(with_token.address)
    with socket.create_connection((address.hostname, address.port), timeout=10) as connection:
        connection.sendall(f"GET /?{address.query} HTTP/1.1\r\nHost: {address.netloc}\r\n\r\n".encode())
        head = connection.recv(4096).decode()
    assert " 303 " in head.splitlines()[0]
    assert "Location: /\r\n" in head
    assert re.search(r"Set-Cookie: diagnose_\d+=\S+; HttpOnly; Path=/; SameSite=Strict\r\n", head)


def test_a_warning_comes_with_the_token():
    with Served("--host", OTHER) as served:
        code, said = served.interrupt()
    assert code == 0
    assert said.startswith("Warning: the page is open to all that reaches 127.0.0.2.")
    assert "not encrypted" in said


def test_alone_on_this_machine_there_is_no_warning_and_no_token():
    with Served() as served:
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/", served.address)
        assert served.interrupt() == (0, "Ctrl-C ends it.\nStopped.\n")


def test_other_pages_and_other_names_are_refused(private):
    port = urlsplit(private.address).port
    assert status(private.address)[0] == 200
    assert status(private.address, Host=f"localhost:{port}")[0] == 200
    assert status(private.address, Host=f"rebound.example:{port}")[0] == 403
    assert status(private.address, Origin="http://other.example")[0] == 403
    assert status(private.address, Origin="null")[0] == 403
    assert " 403 " in socket_status(private.address, "/ws", Origin="http://other.example")
    assert " 403 " in socket_status(private.address, "/ws", Origin=f"http://127.0.0.1:{port + 1}")
    assert " 101 " in socket_status(private.address, "/ws", Origin=f"http://127.0.0.1:{port}")


@pytest.mark.parametrize("path", ["", "static/js/textual.js", "page/page.css", "no-such-page"])
def test_every_answer_forbids_outside_sources(private, path):
    _, headers, _ = status(private.address + path)
    policy = dict(part.strip().split(" ", 1) for part in headers["Content-Security-Policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert {word for words in policy.values() for word in words.split()} == {
        "'none'",
        "'self'",
        "'unsafe-inline'",
        "data:",
    }
    assert [name for name, words in policy.items() if "unsafe" in words] == ["style-src"]
    assert headers["Referrer-Policy"] == "no-referrer"


def test_the_page_names_no_outside_address(private):
    port = urlsplit(private.address).port
    for path in ("", "page/page.css", "page/page.js"):
        text = status(private.address + path)[2]
        assert set(re.findall(r"\w+://[^/\"]+", text)) <= {f"ws://127.0.0.1:{port}"}


def test_a_hostile_host_stays_text(with_token):
    text = status(f"{root(with_token)}?x", Host='"><script>', Cookie=cookie_of(with_token))[2]
    assert "<script>" not in text.replace('<script src="/', "")


def cookie_of(served):
    return f"diagnose_{urlsplit(served.address).port}={token_of(served)}"


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["no-such.toml"], "no-such.toml: found no such file"),
        (["--host", "203.0.113.7"], "203.0.113.7"),  # RFC 5737: an address for examples, no machine's own
        (["--host", "no such host"], "--host: found 'no such host'"),
        (["--port", "70000"], "--port: found 70000"),
        (["--port", "-1"], "--port: found -1"),
    ],
)
def test_bad_input_is_one_sentence(arguments, told, tmp_path):
    done = subprocess.run(
        [DIAGNOSE, "serve", *arguments], cwd=tmp_path, capture_output=True, text=True, timeout=60, check=False
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1
    assert told in done.stderr


def test_a_port_in_use_is_one_sentence(private):
    port = urlsplit(private.address).port
    done = subprocess.run(
        [DIAGNOSE, "serve", "--port", str(port)], capture_output=True, text=True, timeout=60, check=False
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1
    assert f"port {port} cannot be used (address already in use)" in done.stderr
