"""Arranging, striking, setting, printing in a browser: by keyboard, by touch, without scripts or signal."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import LAPTOP, PHONE, Desk, Served, open_desk, settles
from tests.browser.test_every_page import FAULTS, LEAST_TARGET, LEAST_TEXT, scan_of
from tests.browser.test_keypad import press
from tests.rooms import box, plain_room

pytestmark = pytest.mark.system

RUN = "/runs/A base/items"
LISTED = """() => [...document.querySelectorAll(".items li[data-number]")].map((e) =>
    [Number(e.dataset.number), e.dataset.from, e.dataset.to])"""
NOT_SHOWN = """() => [...document.querySelectorAll("main .items *, main .boxes *, main .marks-list *")]
    .filter((e) => e.checkVisibility() && getComputedStyle(e).overflow === "hidden" && !e.closest(".heard")
        && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1))
    .map((e) => e.outerHTML.slice(0, 120))"""


def list_agrees(page: Page, served: Served, job: str) -> list[int]:
    """Assert that list and strip show what the server has; return the base run's numbers in order."""
    runs = page.request.get(f"{served.address}/j/{job}/run/A/data").json()["runs"]
    wanted = [[item["number"], item["from"], item["to"]] for run in runs for item in run["items"]]
    assert settles(page, lambda: page.evaluate(LISTED) == wanted), page.evaluate(LISTED)
    taps = page.locator(".drawing .tap").evaluate_all("all => all.map((e) => e.getAttribute('href'))")
    shown = {int(tap.rpartition("item=")[2].partition("#")[0].partition("&")[0]) for tap in taps}
    assert shown == {number for number, *_ in wanted}
    return [item["number"] for run in runs if run["name"] == "A base" for item in run["items"]]


def changed(page: Page, served: Served, job: str, place: str, before: Any) -> Any:
    """Wait until a place has another value than before; return it."""
    return settles(page, lambda: (now := served.values(job).get(place)) != before and now)


def test_a_run_is_arranged_by_keyboard_alone(laptop: Desk, served: Served) -> None:
    """Arrows walk the list, the brackets move the chosen box, Undo takes it back; list and strip agree."""
    job = served.start(plain_room())
    page = laptop.page
    page.goto(f"{served.address}/j/{job}/run/A?run=A+base&item=1")
    order = list_agrees(page, served, job)
    before = served.values(job)[RUN]
    page.focus("#pick-A-base-1")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#pick-A-base-2")).to_be_focused()
    page.keyboard.press("[")
    moved = changed(page, served, job, RUN, before)
    assert list_agrees(page, served, job) == [*order[:1], 2, 1, *order[3:]]
    page.focus("#undo")
    page.keyboard.press("Enter")
    expect(page.locator("#told")).to_be_visible()
    assert changed(page, served, job, RUN, moved) == before
    assert list_agrees(page, served, job) == order


def test_a_run_is_arranged_by_touch_alone(phone: Desk, served: Served) -> None:
    """Tap an item, put it after another, pin it, take it back; list and strip agree after each."""
    job = served.start(plain_room())
    page = phone.page
    page.goto(f"{served.address}/j/{job}/run/A")
    before = served.values(job)[RUN]
    page.locator("#pick-A-base-2").tap()
    page.locator("#put-after").tap()
    places = page.locator("#chosen form button:not([disabled])", has_text="a")
    expect(places.first).to_be_visible()
    places.first.tap()
    put = changed(page, served, job, RUN, before)
    assert put
    list_agrees(page, served, job)
    page.locator("#pick-A-base-3").tap()
    page.locator("#pin-centre").tap()
    expect(page.locator("#chosen input[name=where]").first).to_be_attached()
    page.locator("#undo").tap()
    expect(page.locator("#told")).to_be_visible()
    assert changed(page, served, job, RUN, put) == before
    list_agrees(page, served, job)


def test_marks_are_struck_one_by_one(phone: Desk, served: Served) -> None:
    """One number fills the screen; Struck is kept at once and leads to the next."""
    job = served.start(plain_room())
    page = phone.page
    page.goto(f"{served.address}/j/{job}/marks/A")
    page.get_by_role("link", name="one by one").tap()
    card = page.locator(".card:target")
    for _ in range(2):
        said = card.get_attribute("aria-label")
        assert float(card.locator(".huge").evaluate("e => parseFloat(getComputedStyle(e).fontSize)")) >= 64
        card.get_by_role("button", name="Struck").tap()
        expect(card).not_to_have_attribute("aria-label", said or "")
    struck = settles(page, lambda: len(found := served.values(job, "/record/struck")) >= 2 and found)
    assert struck


def set_first_box(page: Page, served: Served, job: str) -> None:
    """Say that box 1 stands 1/16 past its plan, by the keys, and everything else on its mark."""
    page.goto(f"{served.address}/j/{job}/set/1#right")
    page.locator("#right a.button", has_text="Type it").tap()
    expect(page.locator("html.keys")).to_be_attached()
    planned = page.locator("#right-typed form").get_attribute("data-planned") or ""
    whole, _, part = planned.partition(" ")
    past = {"": "1/16", "1/2": "9/16", "1/4": "5/16", "3/4": "13/16", "1/8": "3/16"}[part]
    press(page, *([] if page.locator(".pad[data-face=fraction]").count() else whole), past, "next")


def test_a_box_is_set_by_a_thumb_and_what_changed_is_shown(phone: Desk, served: Served) -> None:
    """Typed with the keys; then what it changes; the box stands in the list."""
    job = served.start(plain_room())
    page = phone.page
    set_first_box(page, served, job)
    assert settles(page, lambda: any("/record/set/1/" in place for place in served.values(job)))
    for _ in range(6):
        step = page.locator(".step:target, .step.show").first
        answer = step.locator("form.three button").first
        if "changes" in page.url or not answer.is_visible():
            break
        url = page.url
        answer.tap()
        settles(page, lambda before=url: page.url != before)
    page.goto(f"{served.address}/j/{job}/set")
    expect(page.locator(".boxes .set")).to_have_count(1)
    page.goto(f"{served.address}/j/{job}/set/1#on")
    expect(page.locator("#on .changed")).to_contain_text("box 3 left edge")


def test_without_signal_sheets_are_read_and_a_box_is_set_once(phone: Desk, served: Served) -> None:
    """Opened before, they open without the network; as set waits on the phone and goes out once."""
    job = served.start(plain_room())
    page = phone.page
    page.goto(f"{served.address}/j/{job}/set/1")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    kept = """async () => (await (await caches.open("setline-pages-1")).keys())
        .map((each) => new URL(each.url).pathname)"""
    wanted = {f"/j/{job}/{path}" for path in ("marks/A", "shims", "set", "set/1")}
    assert settles(page, lambda: wanted <= set(page.evaluate(kept))), page.evaluate(kept)
    page.reload()
    phone.context.set_offline(True)
    for path, words in (("marks/A", "STRIKE"), ("shims", "Shims"), ("set", "Box 1")):
        page.goto(f"{served.address}/j/{job}/{path}")
        expect(page.locator("main")).to_contain_text(words)
    set_first_box(page, served, job)
    expect(page.locator("#kept")).to_have_text("saved, 3 to send")  # begun, screwed, the edge
    assert served.values(job, "/record/set/1/") == {}
    phone.context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    assert settles(page, lambda: served.values(job, "/record/set/1/"))
    sent = [entry.place for entry in served.site.store.entries(job) if "/set/1" in entry.place]
    assert sorted(sent) == ["/record/set/1/edges", "/record/set/1/screwed", "/walk/set/1"]


def test_a_packet_is_made_while_the_page_waits_and_can_be_taken(laptop: Desk, served: Served) -> None:
    """The page turns by itself from being made to ready; what is taken is a PDF."""
    job = served.start(plain_room())
    page = laptop.page
    page.goto(f"{served.address}/j/{job}/print")
    page.locator("button[value=others]").click()
    link = page.locator("a.row[href$='.pdf']")
    expect(link).to_be_visible()
    answer = page.request.get(served.address + (link.get_attribute("href") or ""))
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF")


def test_without_scripts_a_run_is_moved_marks_struck_a_box_set_and_a_packet_made(
    chromium: Browser, served: Served
) -> None:
    """Everything works by plain posts."""
    desk = open_desk(chromium, PHONE, java_script_enabled=False)
    page, job = desk.page, served.start(plain_room())
    page.goto(f"{served.address}/j/{job}/run/A?run=A+base&item=2")
    before = served.values(job)[RUN]
    page.locator("#move-left").tap()
    assert changed(page, served, job, RUN, before)
    page.locator("#undo").tap()
    expect(page.locator("#told")).to_be_visible()
    page.goto(f"{served.address}/j/{job}/marks/A")
    page.locator("form.sheet input[name=struck]").first.check()
    page.locator(".keep-sheet button").tap()
    expect(page.locator("form.sheet input[name=struck]").first).to_be_checked()
    page.goto(f"{served.address}/j/{job}/set/1#right-typed")
    form = page.locator("#right-typed form")
    planned = form.get_attribute("data-planned") or ""
    form.locator("input[name=text]").fill(planned)
    form.locator("button.keep").tap()
    assert settles(page, lambda: served.values(job, "/record/set/1/"))
    page.goto(f"{served.address}/j/{job}/print")
    page.locator("button[value=others]").tap()
    link = page.locator("a.row[href$='.pdf']")
    expect(page.locator("#making section").or_(link).first).to_be_visible()

    def is_ready() -> bool:
        page.goto(f"{served.address}/j/{job}/print")
        return link.count() > 0

    assert settles(page, is_ready)
    desk.context.close()


def test_forty_boxes_with_long_names_clip_nothing(phone: Desk, served: Served) -> None:
    """31 ft 11 15/16 of wall, names of one long word: no number is cut off, no page scrolls sideways."""
    names = "Hochschrankinnenauszugsblende nummer"
    boxes = [box(number, "9", f"{names} {number}") for number in range(1, 41)]
    document = plain_room(
        job={"name": "Umbau Kirchgassenobergeschoss 1234567", "tape": "inch"},
        room={"walls": [{"name": "A", "lengths": [{"length": "383 15/16"}]}]},
        order={"boxes": boxes, "fillers": [{"number": 99, "width": {"least": "3/4"}}]},
        runs=[{"wall": "A", "row": "base", "items": [*range(1, 41), 99]}],
    )
    job = served.start(document)
    page = phone.page
    page.set_viewport_size({"width": 320, "height": 640})
    for path in ("", "/run/A?run=A+base&item=40", "/set", "/marks/A", "/shims", "/readings"):
        page.goto(f"{served.address}/j/{job}{path}")
        assert page.evaluate(FAULTS, [LEAST_TARGET, LEAST_TEXT]) == [], path
        assert page.evaluate(NOT_SHOWN) == [], path


@pytest.mark.parametrize(
    "looks", [{"forced_colors": "active"}, {"reduced_motion": "reduce"}, {"contrast": "more"}], ids=str
)
def test_pages_stand_other_settings_of_the_phone(chromium: Browser, served: Served, looks: Any) -> None:
    """Forced colours, no motion, more contrast: the scan of the first page finds nothing."""
    desk = open_desk(chromium, LAPTOP, **looks)
    desk.page.goto(f"{served.address}/j/{served.start(plain_room())}")
    assert scan_of(desk.page) == []
    desk.context.close()


def test_dim_light_can_be_read(phone: Desk, served: Served) -> None:
    """In a crawl space: light on dark, with the contrast that the scan asks for."""
    job = served.start(plain_room())
    phone.page.goto(f"{served.address}/jobs")
    phone.page.evaluate("localStorage.setItem('dim', 'yes')")
    for path in ("", "/walk", "/set/1", "/marks/A", "/run/A"):
        phone.page.goto(f"{served.address}/j/{job}{path}")
        expect(phone.page.locator("html[data-light=dim]")).to_be_attached()
        assert scan_of(phone.page) == [], path
