"""In a real browser: no serious fault of accessibility, no stranger asked by the text of a scenario, none answered."""

from __future__ import annotations

import socket
from typing import Any

import pytest

from appraisal.dashboard import drafts
from appraisal.dashboard.places import OPENING, PLACES
from tests.browser.acts import soon
from tests.browser.served import Server, Watched
from tests.dashboard.windows import draft_of_demo

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]
SERIOUS = ("serious", "critical")


@pytest.mark.parametrize("width", [1280, 390])
def test_every_screen_is_free_of_serious_faults_of_accessibility(browser: Any, server: Server, width: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    window = Watched(browser, server, width=width)
    window.open(f"?draft={draft_of_demo().id}&reader=bank")
    found = []
    for place in (*PLACES, OPENING):
        window.go(place.title)
        told = Axe().run(window.page).response["violations"]
        found += [
            (place.name, each["id"], node["html"][:160])
            for each in told
            if each["impact"] in SERIOUS
            for node in each["nodes"]
        ]
        assert window.page.evaluate("document.documentElement.scrollWidth") <= width, place.name
    window.close()
    assert found == []
    assert (window.errors, window.strangers) == ([], [])


def test_a_picture_wider_than_a_phone_is_moved_by_the_keyboard(browser: Any, server: Server) -> None:
    window = Watched(browser, server, width=390)
    page = window.open(f"?draft={draft_of_demo().id}&reader=bank")
    frame = page.locator(".st-key-scroll_cover")
    soon(lambda: frame.get_attribute("tabindex") == "0")
    frame.focus()
    page.keyboard.press("ArrowRight")
    soon(lambda: frame.evaluate("frame => frame.scrollLeft") > 0)
    window.close()
    assert (window.errors, window.strangers) == ([], [])


def test_text_of_a_scenario_asks_no_stranger_and_draws_no_picture(watched: Watched) -> None:
    kept = draft_of_demo()
    evil = "<img src='http://stranger.invalid/a.png'> ![x](http://stranger.invalid/b.png) :red[x] <script>alert(1)</script>"
    text = kept.text.replace('name = "Hollow Creek Dairy (invented)"', f'name = "{evil}"', 1)
    text = text.replace('label = "', f'label = "{evil} ')
    drafts.save(kept.id, text, name=evil, revision=1)
    page = watched.open(f"?draft={kept.id}")
    for place in (*PLACES, OPENING):
        watched.go(place.title)
        assert (
            page.locator("[data-testid=stMain] img[src*=stranger], [data-testid=stSidebar] img[src*=stranger]").count()
            == 0
        )
    assert page.get_by_text("<img src=").first.is_visible()


@pytest.mark.parametrize(
    ("host", "origin", "code"),
    [
        ("localhost:{port}", "http://localhost:{port}", 101),
        ("stranger.invalid", "http://stranger.invalid", 403),
        ("localhost:{port}", "http://stranger.invalid", 403),
        ("stranger.invalid", "http://localhost:{port}", 403),
    ],
)
def test_strangers_are_refused(server: Server, host: str, origin: str, code: int) -> None:
    """Only the way in counts: nothing of a farm is sent by any other."""
    host, origin = (text.format(port=server.port) for text in (host, origin))
    lines = (
        "GET /_stcore/stream HTTP/1.1", f"Host: {host}", f"Origin: {origin}", "Upgrade: websocket", "Connection: Upgrade",
        "Sec-WebSocket-Version: 13", "Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==", "", "",
    )  # fmt: skip
    with socket.create_connection(("127.0.0.1", server.port), timeout=10) as way:
        way.sendall("\r\n".join(lines).encode())
        told = way.recv(64).decode()
    assert told.split()[1] == str(code)


def test_no_other_address_of_this_computer_answers(server: Server) -> None:
    other = socket.gethostbyname(socket.gethostname())
    if other.startswith("127."):
        pytest.skip("this computer has no other address")
    with pytest.raises(OSError), socket.create_connection((other, server.port), timeout=3):
        pass
