"""The screens on a page, in a real browser: they work as in a terminal, and the page asks nobody else for anything."""

import datetime as dt
import socket
import time
from urllib.parse import urlsplit

import pytest
import tomli

from browsing import Visit, chromium
from diagnose import locations
from processes import children, lives
from serving import Served
from waiting import wait_for

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def browser():
    with chromium() as running:
        yield running


@pytest.fixture
def visit(browser):
    with Visit(browser) as one:
        yield one


def hosts(visit):
    return {urlsplit(address).netloc for address in visit.asked_for if not address.startswith("data:")}


def knocks(listening):
    """What was sent to a listening socket, one text a connection."""
    listening.settimeout(0.2)
    sent = []
    while True:
        try:
            connection, _ = listening.accept()
        except TimeoutError:
            return sent
        with connection:
            connection.settimeout(0.2)
            try:
                sent.append(connection.recv(4096).decode(errors="replace"))
            except TimeoutError:
                sent.append("")


def test_a_few_answers_and_a_ranking(visit):
    with Served() as served:
        visit.page.goto(served.address)
        visit.see("Start a new case", "rules weigh the evidence")
        visit.page.keyboard.press("n")
        visit.click("type a few letters")
        visit.page.keyboard.type("alocasia")
        visit.see("alocasia", "Alocasia (elephant ear)")
        visit.page.keyboard.press("Enter")
        visit.see("Which town or city")
        visit.page.keyboard.press("F4")
        visit.see("When did the plant come to your home?")
        visit.page.keyboard.press("F5")  # the question before; the page is not loaded again
        visit.see("Which town or city")
        visit.page.keyboard.press("F6")
        visit.see("When did the plant come to your home?")
        visit.click("╭")  # into the field
        visit.page.keyboard.type("3 weeks ago")
        visit.see("that is")
        visit.page.keyboard.press("Enter")
        visit.click("a parcel in the post")
        visit.click("soft or mushy")
        visit.click("only plants of the same kind")
        visit.see("How many plants share the pot?", "So far", "Rotting roots", "%")
        assert hosts(visit) == {urlsplit(served.address).netloc}
        assert len([address for address in visit.asked_for if address.endswith("/")]) == 1, visit.asked_for
        assert visit.complaints == []
    (path,) = locations.user_cases().glob("*.toml")
    case = tomli.loads(path.read_text(encoding="utf-8"))
    assert case["plant"]["profile"] == "alocasia"
    assert case["answers"] == {
        "days_since_brought_home": case["date"] - dt.timedelta(weeks=3),
        "came_from": "post",
        "stem_base": "soft",
        "neighbours_affected": "same_kind",
    }


def test_a_case_named_on_the_command_line_is_shown(visit):
    with Served(locations.demo_cases() / "soggy_after_the_big_pot.toml") as served:
        visit.page.goto(served.address)
        visit.see("So far", "Rotting roots", "%")


def test_with_a_token_only_its_bearer_gets_in(browser, visit):
    with Served("--host", "127.0.0.2") as served:
        root, _, token = served.address.partition("?token=")
        assert visit.page.goto(root).status == 403
        assert visit.page.goto(f"{root}?token={token}x").status == 403
        assert visit.page.goto(served.address).status == 200
        assert visit.page.url == root, "the token leaves the address"
        visit.see("Start a new case", "rules weigh the evidence")
        (cookie,) = visit.cookies()
        assert (cookie["value"], cookie["httpOnly"], cookie["sameSite"]) == (token, True, "Strict")
        assert visit.page.evaluate("document.cookie") == ""
        assert hosts(visit) == {urlsplit(root).netloc}
        with Visit(browser) as stranger:
            assert stranger.page.goto(root).status == 403
            assert "token is missing or wrong" in stranger.page.inner_text("body")


def test_what_would_leave_the_page_is_stopped(visit):
    """Pictures, styles, scripts, frames and connections elsewhere: the browser refuses each."""
    with Served() as served, socket.create_server(("127.0.0.1", 0)) as elsewhere:
        visit.page.goto(served.address)
        visit.see("Start a new case")
        visit.page.evaluate(
            """async (there) => {
              window.refused = [];
              document.addEventListener("securitypolicyviolation", e => refused.push(e.effectiveDirective));
              for (const [tag, key] of [["img", "src"], ["script", "src"], ["iframe", "src"], ["link", "href"]]) {
                const made = document.createElement(tag);
                if (tag === "link") made.rel = "stylesheet";
                made[key] = `http://${there}/${tag}`;
                document.body.append(made);
              }
              await fetch(`http://${there}/fetch`).catch(() => {});
              try { new WebSocket(`ws://${there}/socket`); } catch {}
              const inline = document.createElement("script");
              inline.textContent = "window.ran = true";
              document.body.append(inline);
            }""",
            f"127.0.0.1:{elsewhere.getsockname()[1]}",
        )
        kinds = [
            "connect-src",
            "connect-src",
            "frame-src",
            "img-src",
            "script-src-elem",
            "script-src-elem",
            "style-src-elem",
        ]
        wait_for(
            lambda: sorted(visit.page.evaluate("window.refused")) == kinds,
            lambda: f"refused: {visit.page.evaluate('window.refused')}",
        )
        assert not visit.page.evaluate("window.ran")
        assert (
            "".join(knocks(elsewhere)) == ""
        )  # for a frame Chromium connects before it asks the policy, and says nothing


def test_ctrl_c_ends_open_pages_and_their_screens(visit):
    with Served() as served:
        visit.page.goto(served.address)
        visit.see("Start a new case")
        screens = children(served.process.pid)
        assert len(screens) == 1
        begin = time.monotonic()
        assert served.interrupt() == (0, "Ctrl-C ends it.\nStopped.\n")
        assert time.monotonic() - begin < 15
        visit.page.get_by_text("This page is closed.").wait_for(state="visible")
        wait_for(lambda: not any(map(lives, screens)), lambda: f"still running: {screens}")


def test_leaving_the_page_ends_its_screens(visit):
    with Served() as served:
        visit.page.goto(served.address)
        visit.see("Start a new case")
        screens = children(served.process.pid)
        visit.page.goto("about:blank")
        wait_for(lambda: not any(map(lives, screens)), lambda: f"still running: {screens}")


def test_a_server_that_is_killed_leaves_no_screens_behind(visit):
    with Served() as served:
        visit.page.goto(served.address)
        visit.see("Start a new case")
        screens = children(served.process.pid)
        assert len(screens) == 1
        served.process.kill()
        served.process.communicate()
        wait_for(lambda: not any(map(lives, screens)), lambda: f"still running: {screens}")
