"""Places as people say them."""

from __future__ import annotations

import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.field_book.jobs import documents
from tests.field_book.writing import SPOT, entry

from setline.field_book.fold import fold
from setline.field_book.place_words import place_words, places_words
from setline.field_book.places import to_places
from setline.field_book.unsettled import unsettled_findings
from setline.job.read import load_job
from setline.job.write import to_dict
from setline.result import Rank


@pytest.mark.parametrize(
    ("place", "words"),
    [
        ("/floor/set_ups/S1/readings/A/toe/48/1", "wall A, 48 from the left corner, toe line, down from S1"),
        (
            "/floor/set_ups/S1/readings/A/wall, bare/0/2",
            "wall A, 0 from the left corner, at the wall, down from S1, on the bare floor, take 2",
        ),
        (
            "/floor/set_ups/S2/readings/B/12/3 1~12/1",
            "wall B, 3 1/2 from the left corner, 12 out, down from S2",
        ),
        ("/floor/set_ups/S1/closing", "set-up S1, closing"),
        ("/floor/set_ups/S1/marks/window casing/up", "set-up S1, mark window casing, up"),
        ("/floor/set_ups", "order of set-ups"),
        ("/floor/set_ups/S1/readings", "order of set-up S1, readings"),
        ("/floor/coverings/oak/thickness", "covering oak, thickness"),
        ("/floor/use", "set-up in use"),
        ("/room/walls/A/lengths/wall/line/1", "wall A, length at the struck line"),
        (
            "/room/walls/A/lengths/face/up 4 from subfloor/1",
            "wall A, length 4 up from the subfloor, at the line of the faces",
        ),
        (
            "/room/walls/A/plumb/left/1/down 3 from laser S1/24/1",
            "wall A, left end, plumb line 1, 3 down from laser S1, 24 out",
        ),
        ("/room/walls/B/windows/over the sink/left", "wall B, window over the sink, left edge"),
        ("/room/ceiling/S2/A/14/wall/1", "ceiling at wall A, 14 from the left corner, up from S2"),
        ("/order/boxes/3/width", "box 3, width"),
        ("/order/boxes/3/may_trim", "box 3, how much may be cut off its foot"),
        ("/order/appliances/31/height_to", "opening 31, what its height is measured to"),
        ("/order/tops/thickness", "tops, thickness"),
        ("/runs/A base/items", "run A base, items"),
        ("/record/struck_lines/line 1/down", "struck line line 1, down"),
        ("/record/struck/A base 3 left/at", "struck mark A base 3 left, place along the wall"),
        ("/record/set/3/off_wall", "box 3 as set, off the wall"),
        ("/job/name", "job, name"),
        ("/rules/toe-line", "rules, toe-line"),
        ("/format", "format"),
        ("/walk/set/3", "setting box 3"),
        ("/walk/first-row", "which row is set first"),
        ("/walk/of its own", "of its own"),
    ],
)
def test_a_place_is_said_as_people_say_it(place: str, words: str) -> None:
    """The thing first, then where on it, then which of its readings or fields."""
    assert place_words(place) == words


@pytest.mark.parametrize("path", ["examples/larkspur-street.toml", "examples/mill-row.toml"])
def test_no_two_places_of_a_kitchen_sound_alike(path: str) -> None:
    """Every place of a sample has words of its own, and none that only a program would use."""
    places = to_places(to_dict(load_job(path)))
    words = {place_words(place): place for place in places}
    assert len(words) == len(places)
    assert not [said for said in words if re.search(r"_|~|^/|\b1/1\b", said)]


@given(documents())
@settings(max_examples=40, deadline=None)
def test_every_place_of_any_job_has_words(document: dict[str, Any]) -> None:
    """Whatever things are called, a place has words."""
    assert all(place_words(place) for place in to_places(document))


@given(
    st.text(max_size=40)
    | st.lists(
        st.sampled_from(
            ["floor", "set_ups", "S1", "readings", "room", "walls", "A", "plumb", "order", "boxes", "", "~"]
        )
    ).map(lambda steps: "/" + "/".join(steps))
)
@settings(max_examples=200, deadline=None)
def test_a_place_that_is_none_is_shown_as_it_is(place: str) -> None:
    """Words are for showing: nothing that stands in an entry trips them."""
    assert isinstance(place_words(place), str)


def test_several_places_are_named_up_to_a_few() -> None:
    """Each once, three by name, the others by their count."""
    places = [f"/order/boxes/{number}/width" for number in (1, 2, 2, 3, 4, 5)]
    assert places_words(places[:3]) == "box 1, width; box 2, width"
    assert places_words(places) == "box 1, width; box 2, width; box 3, width and 2 more"


def test_two_values_are_told_as_a_finding() -> None:
    """Who read what where, and what is used meanwhile: a finding that somebody must decide."""
    book = [
        entry(0, "/job/tape", "inch"),
        entry(1, SPOT, "48 3/16"),
        entry(1, SPOT, "48 1/4", device="phone"),
    ]
    (finding,) = unsettled_findings(fold(book).unsettled)
    assert (finding.code, finding.rank, finding.readings) == ("two-values", Rank.DECIDE, (SPOT,))
    assert finding.text == (
        "There are two values for wall B, 24 from the left corner, toe line, down from S1: "
        "48 1/4 (phone) and 48 3/16 (truck). The middle, 48 7/32, is used until one of them is read again."
    )


def test_two_orders_of_a_run_are_told_short() -> None:
    """Where nothing lies half-way, what is used is named; a long list is cut."""
    items = "/runs/A base/items"
    book = [entry(1, items, list(range(1, 40))), entry(1, items, [2, 1], device="phone")]
    (finding,) = unsettled_findings(fold(book).unsettled)
    assert "[2, 1] is used until somebody says which one holds" in finding.text
    assert "... (truck)" in finding.text


def test_what_is_settled_is_no_finding() -> None:
    """One value that stands over both leaves nothing to decide."""
    book = [
        entry(1, SPOT, "48"),
        entry(1, SPOT, "47", device="phone"),
        entry(2, SPOT, "47 1/2", over=("truck.1", "phone.1")),
    ]
    assert unsettled_findings(fold(book).unsettled) == ()
