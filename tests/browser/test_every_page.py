"""Every page the app has, on a phone and on a laptop, as crew and as guest: all can read and press it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Page

from setline.web.session import COOKIE
from tests.browser.conftest import LAPTOP, PHONE, Desk, Served, open_desk
from tests.web.app import App
from tests.web.every_page import GET_ROUTES, addresses, fill

pytestmark = pytest.mark.system

NARROW: Any = {"width": 320, "height": 640}
LEAST_TARGET = 44
LEAST_TEXT = 16

FAULTS = """([target, text]) => {
    const found = [];
    const shown = {checkOpacity: true, checkVisibilityCSS: true};
    const seen = (e) => e.checkVisibility(shown) && !e.closest(".heard, .skip");
    const name = (e) => e.outerHTML.replace(/\\s+/g, " ").slice(0, 110);
    const {scrollWidth, clientWidth} = document.documentElement;
    const wide = scrollWidth - clientWidth;
    if (wide > 0) {
        const frames = ".drawing, .wide, .table, .strip";
        const out = [...document.querySelectorAll("main *")].filter((e) =>
            seen(e) && !e.closest(frames) && e.getBoundingClientRect().right > clientWidth + 1);
        found.push(`scrolls sideways by ${wide}: ${out.slice(0, 3).map(name).join(" | ")}`);
    }
    const inSentence = (e) => e.matches("a") && getComputedStyle(e).display === "inline"
        && e.parentElement.textContent.trim().length > e.textContent.trim().length + 1;
    const pressed = "a[href], button, select, textarea, summary, input:not([type=hidden]), [role=button]";
    for (const e of document.querySelectorAll(pressed)) {
        if (!seen(e) || e.closest("svg") || inSentence(e)) continue;
        const touched = e.matches("[type=radio], [type=checkbox]") ? e.closest("label") || e : e;
        const {width, height} = touched.getBoundingClientRect();
        if (width < target - 0.5 || height < target - 0.5)
            found.push(`${width.toFixed(0)} x ${height.toFixed(0)}: ${name(e)}`);
    }
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const small = new Set();
    while (walker.nextNode()) {
        const e = walker.currentNode.parentElement;
        if (!walker.currentNode.data.trim() || !seen(e) || e.closest("script, style, title, desc")) continue;
        const on = e instanceof SVGElement && e.getScreenCTM ? e.getScreenCTM() : null;
        const scale = on ? Math.hypot(on.a, on.b) : 1;
        const size = parseFloat(getComputedStyle(e).fontSize) * scale;
        if (size < text - 0.3) small.add(`text of ${size.toFixed(1)} px: ${name(e)}`);
    }
    found.push(...[...small].slice(0, 5));
    return found;
}"""


ROWS = 8
SHORTEN = """(rows) => {
    for (const list of document.querySelectorAll("main ul, main ol, main tbody"))
        while (list.children.length > rows) list.lastElementChild.remove();
}"""


@dataclass(frozen=True)
class Crowd:
    """A filled job and who looks at it.

    Attributes:
        parts: What stands for each part of an address.
        phone: The crew's phone.
        laptop: The crew's laptop.
        guest: A guest's phone.
    """

    parts: dict[str, str]
    phone: Desk
    laptop: Desk
    guest: Desk


@pytest.fixture(scope="module")
def crowd(chromium: Browser, served: Served) -> Iterator[Crowd]:
    """Return three browsers that stay open for every page, and the job they look at."""
    job = served.sample("larkspur-street")
    parts = fill(App(TestClient(served.app, base_url="http://localhost"), served.site, job))
    link = served.site.sessions.add_link(job, days=1)
    phone, laptop, guest = (
        open_desk(chromium, kind, service_workers="block") for kind in (PHONE, LAPTOP, PHONE)
    )
    guest.context.set_extra_http_headers({"x-forwarded-for": "10.0.0.9"})
    guest.context.add_cookies([{"name": COOKIE, "value": link, "url": served.address}])
    yield Crowd(parts, phone, laptop, guest)
    for desk in (phone, laptop, guest):
        desk.context.close()


def scan_of(page: Page) -> list[str]:
    """Return what the accessibility scan finds, each with where; of a list its first rows stand for all."""
    page.evaluate(SHORTEN, ROWS)
    options = {"resultTypes": ["violations"], "preload": False}
    found: dict[str, Any] = Axe().run(page, options=options).response
    return [
        f"{violation['id']}: {node['html'][:160]}: {node['failureSummary'][:200]}"
        for violation in found["violations"]
        for node in violation["nodes"][:3]
    ]


def faults_of(desk: Desk, address: str, *, narrow: bool = False) -> list[str]:
    """Open a page with all its folds and return what is wrong with it."""
    page = desk.page
    desk.troubles.clear()
    page.goto(address)
    page.evaluate("document.querySelectorAll('main details').forEach((each) => (each.open = true))")
    found: list[str] = page.evaluate(FAULTS, [LEAST_TARGET, LEAST_TEXT])
    if narrow:
        page.set_viewport_size(NARROW)
        found += [f"at 320: {fault}" for fault in page.evaluate(FAULTS, [LEAST_TARGET, LEAST_TEXT])]
        page.set_viewport_size(PHONE["viewport"])
    found += scan_of(page)
    return [f"{address} {fault}" for fault in found + desk.troubles]


@pytest.mark.parametrize("route", GET_ROUTES)
def test_every_page_can_be_read_and_pressed(crowd: Crowd, served: Served, route: str) -> None:
    """No violation in the scan, no sideways scroll, targets of 44 px, text of 16 px; else it is no page."""
    given = addresses(route, crowd.parts)
    assert given
    found = []
    for number, address in enumerate(given):
        head = served.head(address)
        if head.is_file or not head.kind.startswith("text/html"):
            assert head.status in {200, 204, 303, 307, 404}, (address, head)
            continue
        assert head.status == 200, address
        found += faults_of(crowd.phone, served.address + address, narrow=True)
        if number == 0:
            found += [f"laptop {fault}" for fault in faults_of(crowd.laptop, served.address + address)]
            found += [f"guest {fault}" for fault in faults_of(crowd.guest, served.address + address)]
    assert not found, "\n".join(found)


def test_the_file_to_carry_reads_alone(crowd: Crowd, served: Served, tmp_path: Path) -> None:
    """Opened from the phone's own store it passes the same checks, and asks for no other file."""
    client = TestClient(served.app, base_url="http://localhost")
    answer = client.get(f"/j/{crowd.parts['j']}/carry/file")
    saved = tmp_path / "carried.html"
    saved.write_bytes(answer.content)
    asked: list[str] = []
    crowd.phone.page.on("request", lambda request: asked.append(request.url))
    found = faults_of(crowd.phone, saved.as_uri(), narrow=True)
    assert not found, "\n".join(found)
    assert asked == [saved.as_uri()]
