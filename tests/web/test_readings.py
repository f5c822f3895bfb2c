"""Readings: seen, corrected, taken back, settled; and the history of every place."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from setline.field_book.entry import Entry
from setline.web.walk.walk_plan import walk_of
from tests.web.app import EXAMPLES, App, open_app, text_of

SPOT = "/floor/set_ups/S1/readings/B/toe/24/1"


@pytest.fixture
def larkspur(tmp_path: Path) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


def live(app: App, place: str) -> list[Entry]:
    """Return what stands at a place."""
    return list(walk_of(app.standing).context.live.get(place, ()))


def ids(app: App, place: str) -> str:
    """Return what the page's form says stands at a place."""
    return " ".join(entry.id for entry in live(app, place))


def read_elsewhere(app: App, value: Any, *, place: str = SPOT, over: tuple[str, ...] = ()) -> None:
    """Keep an entry from another phone."""
    entry = Entry(
        id="phone-1", job=app.job, device="phone", n=1, over=over, by="Ines", at="2020-05-06T09:14:00",
        place=place, value=value,
    )  # fmt: skip
    app.site.store.add([entry])


def two_values(app: App) -> None:
    """Have two people read one spot, neither knowing of the other."""
    before = tuple(entry.id for entry in live(app, SPOT))
    app.post("/readings/correct", place=SPOT, text="47 3/4", over=" ".join(before))
    read_elsewhere(app, "47 1/2", over=before)


def test_every_reading_is_listed_as_typed_with_its_value(larkspur: App) -> None:
    """Strong and shy stand as said, with what they come to beside."""
    page = text_of(larkspur.get("/readings?wall=A"))
    assert "A 64, 24 out from the wall, ceiling (laser S2) 46 13/16 strong" in page
    assert "= 46 53/64" in page
    assert "B 24" not in page


def test_a_correction_stands_over_the_reading_and_keeps_its_history(larkspur: App) -> None:
    """Who, when, as typed: both stand in the history, one counts."""
    larkspur.post("/readings/correct", place=SPOT, text="47 11/16", over=ids(larkspur, SPOT))
    assert [entry.value for entry in live(larkspur, SPOT)] == ["47 11/16"]
    page = text_of(larkspur.get(f"/readings/history?place={SPOT}"))
    assert "47 5/8 replaced" in page
    assert "47 11/16 counts" in page
    assert "this machine" in page


def test_a_correction_that_could_be_two_things_returns_buttons(larkspur: App) -> None:
    """The text comes back in its field, nothing is replaced."""
    page = larkspur.post("/readings/correct", 422, place=SPOT, text="4 7 5/8", over=ids(larkspur, SPOT))
    assert '<button name="choice" value="4&#39; 7 5/8">' in page
    assert 'value="4 7 5/8"' in page
    assert [entry.value for entry in live(larkspur, SPOT)] == ["47 5/8"]


def test_a_corrected_height_keeps_its_zero(larkspur: App) -> None:
    """A sill read from the laser stays a height down from that laser."""
    sill = "/room/walls/B/windows/over the sink/sill"
    larkspur.post("/readings/correct", place=sill, text="11 3/8", over=ids(larkspur, sill))
    assert live(larkspur, sill)[0].value == {"down": "11 3/8", "from": "laser S1"}


def test_a_reading_taken_back_counts_no_more_and_is_not_erased(larkspur: App) -> None:
    """Its history shows it, and that it was taken back."""
    larkspur.post("/readings/take-back", place=SPOT, over=ids(larkspur, SPOT))
    assert "B 24, TOE line (laser S1)" not in text_of(larkspur.get("/readings?wall=B"))
    page = text_of(larkspur.get(f"/readings/history?place={SPOT}"))
    assert "47 5/8 replaced" in page
    assert "took it back" in page


def test_two_people_s_values_ask_until_one_is_settled(larkspur: App) -> None:
    """Both values, names and what is used stand on one card."""
    two_values(larkspur)
    page = larkspur.get("/readings?show=asks")
    told = text_of(page)
    assert "47 3/4 (this machine)" in told
    assert "47 1/2 (Ines)" in told
    assert "The middle, 47 5/8, is used until one of them is read again." in told
    assert "Read again" in told


@pytest.mark.parametrize(
    ("which", "value"), [("first", "47 3/4"), ("second", "47 1/2"), ("middle", "47 5/8")]
)
def test_one_press_settles_two_values(larkspur: App, which: str, value: str) -> None:
    """First, second or middle: one value stands, and nothing asks any more."""
    two_values(larkspur)
    page = larkspur.get("/readings?show=asks")
    names = [unescape(found) for found in re.findall(r'<button name="which" value="([^"]*)"', page)]
    pressed = dict(zip(("first", "second", "middle"), names, strict=True))
    by_value = {entry.id: entry.value for entry in live(larkspur, SPOT)}
    chosen = next((name for name in names if by_value.get(name) == value), pressed["middle"])
    larkspur.post("/readings/settle", place=SPOT, which=chosen, over=ids(larkspur, SPOT))
    assert [entry.value for entry in live(larkspur, SPOT)] == [value]
    assert "Nothing asks." in text_of(larkspur.get("/readings?show=asks"))


def test_what_was_settled_meanwhile_is_told(larkspur: App) -> None:
    """A button of a page that is no longer so changes nothing."""
    told = larkspur.post("/readings/settle", 409, place=SPOT, which="gone-1")
    assert "There is nothing at that place." in text_of(told)


def test_an_odd_reading_asks_until_somebody_lets_it_stand(larkspur: App) -> None:
    """It's right, keep: asked once. Read anew, it would ask again."""
    larkspur.post("/readings/correct", place=SPOT, text="46 5/8", over=ids(larkspur, SPOT))
    page = text_of(larkspur.get("/readings?show=asks"))
    assert "46 5/8 is 1 1/32 less than the spots beside it" in page
    larkspur.post("/walk/let-stand", place=SPOT, typed="46 5/8")
    assert "Nothing asks." in text_of(larkspur.get("/readings?show=asks"))


def test_a_window_whose_centre_is_known_two_ways_that_differ_asks(larkspur: App) -> None:
    """Edges and centre are one reading too many, and that is what they are for."""
    centre = "/room/walls/B/windows/over the sink/centre"
    larkspur.post("/readings/correct", place=centre, text="71 5/8", over=ids(larkspur, centre))
    page = text_of(larkspur.get("/readings?show=asks"))
    assert "Edges 51 5/8 and 90 5/8 put the centre at 71 1/8; it was read as 71 5/8: 1/2 apart." in page


def test_a_place_with_nothing_has_no_history(larkspur: App) -> None:
    """A made-up place is told."""
    assert "There is nothing at that place." in text_of(
        larkspur.get("/readings/history?place=/floor/nowhere", 404)
    )
    larkspur.post("/readings/correct", 404, place="/floor/nowhere", text="1")


def test_entries_that_make_no_sense_leave_the_page_standing(larkspur: App) -> None:
    """Whatever a broken phone sends, the readings can still be seen and put right."""
    odd: dict[str, Any] = {
        "/order": "nothing",
        "/walk/unheard-of": 5,
        "/floor/set_ups/S1/readings/B/toe/here/1": {"up": []},
        "/room/walls/Z/lengths/wall/line/1": [],
        "/room/ceiling/S1": True,
        "/runs": 3,
    }
    entries = [
        Entry(id=f"odd-{n}", job=larkspur.job, device="odd", n=n, place=place, value=value)
        for n, (place, value) in enumerate(odd.items())
    ]
    larkspur.site.store.add(entries)
    for page in ("/readings", "/readings?show=asks", "/walk", "/room"):
        larkspur.get(page)
