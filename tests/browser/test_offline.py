"""No signal: what a phone keeps, in what order it sends it, and what it says meanwhile."""

from __future__ import annotations

import json
import re
import time
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from setline.field_book.entry import Entry
from tests.browser.conftest import PHONE, Desk, Served, open_desk, settles
from tests.browser.test_keypad import begin_floor, kept, press, walk

pytestmark = pytest.mark.system

START = "/floor/set_ups/S1/readings/A/"
FRACTIONS = ("1/8", "3/16", "1/4", "5/16", "3/8")


def floor_entries(served: Served, job: str) -> list[Entry]:
    """Return the floor readings of a job in the order they arrived."""
    return [entry for entry in served.site.store.entries(job) if entry.place.startswith(START)]


def wait_for_entries(page: Page, served: Served, job: str, count: int) -> list[Entry]:
    """Wait until so many floor readings are there, and a little longer for one too many."""
    settles(page, lambda: len(floor_entries(served, job)) >= count)
    page.wait_for_timeout(300)
    return floor_entries(served, job)


def read_some(page: Page, count: int, *, first: bool = True) -> list[str]:
    """Read so many floor spots with the keys; return what was typed."""
    typed = []
    for number in range(count):
        prompt = page.locator("#stand").inner_text()
        fraction = FRACTIONS[number % len(FRACTIONS)]
        press(page, *(["4", "8"] if first and number == 0 else []), fraction, "next")
        expect(page.locator("#stand")).not_to_have_text(prompt)
        typed.append(f"48 {fraction}")
    return typed


KEPT = """async () => {
    const pages = await (await caches.open("setline-pages-1")).keys();
    return pages.map((each) => new URL(each.url).pathname);
}"""


def kept_on_phone(page: Page, job: str) -> None:
    """Wait until the worker has kept the job's pages."""
    wanted = {f"/j/{job}/readings", f"/j/{job}/room", f"/j/{job}/carry", "/not-on-phone"}
    assert settles(page, lambda: wanted <= set(page.evaluate(KEPT))), page.evaluate(KEPT)


def test_killed_between_next_and_sent_nothing_is_lost_and_nothing_doubled(
    phone: Desk, served: Served
) -> None:
    """The server answers nothing; the page is closed; opened again, each reading comes once, in order."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    phone.context.route("**/entries", lambda route: route.abort())
    typed = read_some(page, 4)
    expect(page.locator("#kept")).to_have_text("saved, 4 to send")
    page.close()
    phone.context.unroute("**/entries")
    page = phone.page = phone.context.new_page()
    walk(phone, served, job)
    entries = wait_for_entries(page, served, job, 4)
    assert [entry.value for entry in entries] == typed
    assert [entry.n for entry in entries] == sorted(entry.n for entry in entries)
    expect(page.locator("#kept")).to_have_text("saved, sent")


def test_an_answer_that_got_lost_doubles_nothing(phone: Desk, served: Served) -> None:
    """The server kept the entries and the phone never heard: sent again, they are the same ones."""
    job = begin_floor(served)
    page = walk(phone, served, job)

    lost: list[Route] = []

    def deliver_and_say_nothing(route: Route) -> None:
        if lost:
            route.continue_()
        else:
            lost.append(route)
            route.fetch()
            route.abort()

    phone.context.route("**/entries", deliver_and_say_nothing)
    typed = read_some(page, 2)
    assert settles(page, lambda: lost)
    assert [entry.value for entry in wait_for_entries(page, served, job, 2)] == typed
    expect(page.locator("#kept")).to_have_text("saved, sent")
    assert [entry.value for entry in floor_entries(served, job)] == typed


def test_without_signal_pages_are_read_and_readings_wait(phone: Desk, served: Served) -> None:
    """Cut the network: the pages open, ten readings are kept over a reload, and go out once each in order."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    kept_on_phone(page, job)
    page.reload()  # now through the worker
    expect(page.locator("html.keys")).to_be_attached()
    phone.context.set_offline(True)
    for path, words in (("/readings", "Corner to corner"), ("/room", "A 253 1/4"), ("/carry", "SAVE")):
        page.goto(f"{served.address}/j/{job}{path}")
        expect(page.locator("main")).to_contain_text(re.compile(words, re.IGNORECASE))
        expect(page.locator("#phone-store .said")).to_contain_text("No server since")
    walk(phone, served, job)
    typed = read_some(page, 5)
    page.reload()
    expect(page.locator("html.keys")).to_be_attached()
    expect(page.locator("#kept")).to_have_text("saved, 5 to send")
    expect(page.locator("#phone-store .said")).to_contain_text("Entries are kept here.")
    typed += read_some(page, 5, first=False)
    assert floor_entries(served, job) == []
    phone.context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    entries = wait_for_entries(page, served, job, 10)
    assert [entry.value for entry in entries] == typed
    assert len({entry.place for entry in entries}) == 10
    expect(page.locator("#phone-store .said")).to_have_text("10 entries sent. The plan is being worked out.")


def test_a_page_that_is_not_kept_says_which_are(phone: Desk, served: Served) -> None:
    """Without signal a page that was never opened here names those that were."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    kept_on_phone(page, job)
    page.reload()
    phone.context.set_offline(True)
    page.goto(f"{served.address}/j/{job}/readings/history?place=/nowhere")
    expect(page.locator("h1")).to_have_text("Not on this phone")
    expect(page.locator(f'main a[href="/j/{job}/readings"]')).to_be_visible()


def test_over_plain_http_the_open_page_works_on_and_says_what_it_cannot_do(
    phone: Desk, served: Served
) -> None:
    """No worker there: the readings still wait in the phone's own store, and the carried file is offered."""
    job = begin_floor(served)
    page = phone.page
    page.goto(f"{served.lan_address}/j/{job}/walk")
    expect(page.locator("html.keys")).to_be_attached()
    assert page.evaluate("[isSecureContext, 'serviceWorker' in navigator]") == [False, False]
    expect(page.locator("#plain-http")).to_contain_text("It cannot be opened anew without the server.")
    expect(page.locator("#plain-http a")).to_have_attribute("href", f"/j/{job}/carry")
    phone.context.set_offline(True)
    typed = read_some(page, 3)
    expect(page.locator("#kept")).to_have_text("saved, 3 to send")
    phone.context.set_offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")
    assert [entry.value for entry in wait_for_entries(page, served, job, 3)] == typed


def test_a_certificate_that_is_not_trusted_is_told(chromium: Browser, served: Served) -> None:
    """A clicked-through warning gives no worker: the words say so."""
    desk = open_desk(chromium, PHONE)
    refuse = "() => Promise.reject(new DOMException('An SSL certificate', 'SecurityError'))"
    desk.context.add_init_script(f"navigator.serviceWorker.register = {refuse};")
    page = walk(desk, served, begin_floor(served))
    expect(page.locator("#not-trusted")).to_contain_text("This phone does not trust the certificate here")
    desk.context.close()


def test_a_phone_that_keeps_nothing_says_so_and_sends_at_once(chromium: Browser, served: Served) -> None:
    """A private window: the bar says to write on paper; what can be sent is sent."""
    desk = open_desk(chromium, PHONE)
    desk.context.add_init_script(
        "Object.defineProperty(window, 'indexedDB', {get() { throw new Error('blocked'); }});"
    )
    job = begin_floor(served)
    page = walk(desk, served, job)
    expect(page.locator("#phone-store .said")).to_contain_text("This phone will not keep readings")
    typed = read_some(page, 2)
    assert [entry.value for entry in wait_for_entries(page, served, job, 2)] == typed
    desk.context.close()


def test_one_entry_that_is_refused_does_not_hold_up_the_others(phone: Desk, served: Served) -> None:
    """The rest goes through; the words say what was wrong, and it can be shown as text."""
    job = begin_floor(served)
    page = walk(phone, served, job)

    def refuse_one(route: Route) -> None:
        sent: list[dict[str, Any]] = json.loads(route.request.post_data or "[]")
        if any(entry["value"] == "48 3/16" for entry in sent):
            told = {"ok": False, "errors": [{"text": "That one was not taken."}]}
            route.fulfill(status=422, json=told)
        else:
            route.continue_()

    phone.context.route("**/entries", refuse_one)
    read_some(page, 3)
    entries = wait_for_entries(page, served, job, 2)
    assert [entry.value for entry in entries] == ["48 1/8", "48 1/4"]
    expect(page.locator("#phone-store .said")).to_have_text(
        "1 entries were not taken: That one was not taken."
    )
    page.locator("#phone-store .show").tap()
    expect(page.locator("#phone-store .text")).to_have_value(re.compile('"48 3/16"'))


@pytest.mark.parametrize("days", [-1, 1])
def test_a_clock_a_day_off_changes_no_order(phone: Desk, served: Served, days: int) -> None:
    """Order goes by the phone's own count: a correction after a reading stays the later one."""
    job = begin_floor(served)
    today = time.strftime("%Y-%m-%d", time.gmtime())
    phone.page.clock.install(time=time.time() + days * 86400)
    page = walk(phone, served, job)
    press(page, "4", "8", "1/8", "next")
    kept(page, "48 and 1 eighth")
    press(page, "undo")
    kept(page, "Took back")
    press(page, "4", "8", "1/4", "next")
    kept(page, "Kept 48 and 1 quarter")
    entries = wait_for_entries(page, served, job, 3)
    assert served.values(job, START) == {f"{START}wall/1/1": "48 1/4"}
    assert [entry.n for entry in entries] == sorted(entry.n for entry in entries)
    assert all(not entry.at.startswith(today) for entry in entries)


def test_two_phones_that_read_one_spot_keep_both(chromium: Browser, served: Served) -> None:
    """Neither knew of the other: both values live, and the readings page asks."""
    job = begin_floor(served)
    desks = [open_desk(chromium, PHONE) for _ in range(2)]
    for desk in desks:
        walk(desk, served, job)
    for desk, fraction in zip(desks, ("1/8", "5/8"), strict=True):
        press(desk.page, "4", "8", fraction, "next")
        kept(desk.page, "Kept 48")
    page = desks[0].page
    entries = wait_for_entries(page, served, job, 2)
    assert {entry.value for entry in entries} == {"48 1/8", "48 5/8"}
    page.goto(f"{served.address}/j/{job}/readings?show=asks")
    expect(page.locator(".ask.card")).to_contain_text("The middle, 48 3/8, is used until one of them")
    for desk in desks:
        desk.context.close()
