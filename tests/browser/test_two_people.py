"""Two people on one job: let in by a code, told what the other did, never changed under a thumb."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.conftest import LAPTOP, PHONE, Desk, Served, open_desk, settles
from tests.browser.test_keypad import begin_floor, press, walk
from tests.rooms import plain_room

pytestmark = pytest.mark.system


@pytest.fixture
def helper(chromium: Browser) -> Iterator[Desk]:
    """Return the phone of a second person, who comes over the network."""
    desk = open_desk(chromium, PHONE, extra_http_headers={"x-forwarded-for": "10.0.0.8"})
    yield desk
    desk.context.close()
    assert desk.troubles == []


def test_a_second_phone_pairs_by_the_code_and_is_let_in_no_more_once_revoked(
    laptop: Desk, helper: Desk, served: Served
) -> None:
    """The host shows a code, the phone types it, reads the job; revoked, it stands before the door again."""
    job = served.start(plain_room())
    host, page = laptop.page, helper.page
    host.goto(f"{served.address}/j/{job}/phones")
    host.get_by_role("button", name="Show a code").click()
    code = host.locator(".code .big").inner_text()
    page.goto(f"{served.address}/j/{job}")
    expect(page).to_have_url(f"{served.address}/pair")
    page.fill("#code", "0000 0000")
    page.fill("#name", "Ana's phone")
    page.locator("main button").tap()
    expect(page.get_by_role("alert")).to_be_visible()
    assert page.input_value("#name") == "Ana's phone"
    page.fill("#code", code)
    page.locator("main button").tap()
    expect(page).to_have_url(f"{served.address}/jobs")
    page.goto(f"{served.address}/j/{job}/run/A")
    expect(page.locator("h1")).to_have_text("Wall A")
    host.goto(f"{served.address}/j/{job}/phones")
    host.locator(".row", has_text="Ana's phone").get_by_role("button").click()
    expect(host.locator(".row", has_text="Ana's phone")).to_have_count(0)
    page.reload()
    expect(page).to_have_url(f"{served.address}/pair")


def test_what_another_phone_kept_is_told_and_changes_nothing_under_a_thumb(
    phone: Desk, laptop: Desk, served: Served
) -> None:
    """A thin line says that there is a newer plan; the page stays as it is until Show is pressed."""
    job = begin_floor(served)
    watching = laptop.page
    watching.goto(f"{served.address}/j/{job}/readings")
    before = watching.locator("main").inner_html()
    press(walk(phone, served, job), "4", "8", "1/4", "next")
    expect(watching.locator("#newer")).to_be_visible()
    assert watching.locator("main").inner_html() == before
    watching.locator("#newer a").click()
    expect(watching.locator("main")).to_contain_text("48 1/4")
    expect(watching.locator("#newer")).to_be_hidden()


def test_what_a_phone_kept_itself_is_no_news_to_it(phone: Desk, served: Served) -> None:
    """The line about a newer plan is for what others did."""
    job = begin_floor(served)
    page = walk(phone, served, job)
    revision = page.evaluate("document.body.dataset.revision")
    press(page, "4", "8", "1/4", "next")
    assert settles(page, lambda: page.evaluate("document.body.dataset.revision") != revision)
    page.wait_for_timeout(800)  # longer than the page itself waits before it would tell
    expect(page.locator("#newer")).to_be_hidden()


def test_two_who_move_one_box_are_both_shown_what_the_other_did(
    chromium: Browser, laptop: Desk, served: Served
) -> None:
    """The later one sees who changed what and chooses; nothing merges by itself."""
    job = served.start(plain_room())
    other = open_desk(chromium, LAPTOP)
    address = f"{served.address}/j/{job}/run/A?run=A+base&item=2"
    for desk in (laptop, other):
        desk.page.goto(address)
    place = "/runs/A base/items"
    first = served.values(job)[place]
    other.page.click("#move-right")
    moved = settles(other.page, lambda: (now := served.values(job)[place]) != first and now)
    laptop.page.click("#move-left")
    expect(laptop.page.locator("#mine")).to_be_visible()
    assert served.values(job)[place] == moved
    laptop.page.click("#drop-mine")
    expect(laptop.page.locator("#editor")).to_be_visible()
    assert served.values(job)[place] == moved
    other.context.close()
