"""What else is to be known of a layout: pieces, stretches that cannot give, marks that fall together."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.layout.kitchens import (
    Table,
    box,
    codes,
    filler,
    finding,
    framed,
    kitchen,
    laid_out,
    opening,
    run,
    wall,
    wall_box,
)
from tests.tape import inch

from setline.result import Rank


def _one_box(thing: Table, **parts: Any) -> Any:
    """Return the layout of one box between two fillers on a wall of 100."""
    return laid_out(
        kitchen(
            [wall("A", 100)],
            [run("A", [41, thing["number"], 42], **parts)],
            boxes=[thing],
            fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
        )
    )


def test_a_measured_width_that_differs_is_noted() -> None:
    """The note says what was measured, what was ordered, and by how much they differ."""
    found = finding(_one_box(box(4, 24, measured="23 15/16")), "box-measured-differs")
    assert found.text == "Box 4 measured 23 15/16, ordered 24: 1/16 under. The measured width counts."
    assert found.rank is Rank.NOTE
    assert found.by_how_much == inch("1/16")
    assert "box-measured-differs" not in codes(_one_box(box(4, 24, measured=24)))


@pytest.mark.parametrize(
    ("delivery", "code", "rank"),
    [("not here", "box-not-here", Rank.WATCH), ("damaged", "box-damaged", Rank.DECIDE)],
)
def test_a_box_that_is_not_here_or_damaged_is_said(delivery: str, code: str, rank: Rank) -> None:
    """A box that has not come is watched; a damaged one needs somebody to choose."""
    found = finding(_one_box(box(4, 24, delivery=delivery)), code)
    assert found.rank is rank
    assert "24" in found.text


def test_a_general_sheet_is_asked_for_but_not_for_a_mere_gap() -> None:
    """An appliance at general sizes brings a watch with a way to settle it; a gap under a window does not."""

    def found(kind: str) -> Any:
        return laid_out(
            kitchen(
                [wall("A", 100)],
                [run("A", [41, 21, 1])],
                boxes=[box(1, 60)],
                fillers=[filler(41, 1, scribed=True)],
                openings=[opening(21, kind, 24, "24 1/4", sheet="general, check the sheet")],
            )
        )

    asked = finding(found("dishwasher"), "sheet-general")
    assert asked.text.startswith("Dishwasher 21 stands at a general size, 24 to 24 1/4 clear.")
    assert [way.kind for way in asked.remedies] == ["check-sheet"]
    assert "sheet-general" not in codes(found("other"))


def test_a_wall_row_without_a_height_of_its_own_says_which_it_takes() -> None:
    """Its underside stands by the rule, and the note names it."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1], row="wall")],
        boxes=[wall_box(1, 60)],
        fillers=[filler(41, 1, scribed=True)],
    )
    found = finding(laid_out(job), "wall-row-no-bottom")
    assert found.rule == "wall-box-bottom"
    assert "19 1/2 above the level line" in found.text
    own: Table = {"bottom": {"up": 54, "from": "subfloor"}}
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1], row="wall", **own)],
        boxes=[wall_box(1, 60)],
        fillers=[filler(41, 1, scribed=True)],
    )
    layout = laid_out(job)
    assert "wall-row-no-bottom" not in codes(layout)
    assert layout.runs[0].items[1].bottom == inch("19 1/2")


def test_a_stretch_between_two_pins_without_a_giver_is_told() -> None:
    """Two pinned boxes with only a box between them leave nothing for what the boxes grow."""
    pins = [
        {"item": 1, "edge": "left", "at": 10},
        {"item": 3, "edge": "right", "at": 76},
    ]

    def layout(between: list[int]) -> Any:
        return laid_out(
            kitchen(
                [wall("A", 100)],
                [run("A", [41, 1, *between, 3, 42], pins=pins)],
                boxes=[box(1, 24), box(2, 18), box(3, 24)],
                fillers=[filler(41, 1), filler(42, 1), filler(43, 0, 3)],
            )
        )

    found = finding(layout([2]), "nothing-gives")
    assert found.text.startswith("A base: nothing between box 1 and box 3 can give.")
    assert "nothing-gives" not in codes(layout([2, 43]))


def test_an_end_that_boxes_fill_to_the_wall_is_a_stretch_too() -> None:
    """A box hard between the wall and a pinned box cannot give either; an opening beside the pin can."""
    pins = [{"item": 2, "edge": "right", "at": 54}]

    def found(items: list[int], **more: Any) -> set[str]:
        job = kitchen(
            [wall("A", 100)],
            [run("A", items, pins=pins)],
            boxes=[box(1, 24), box(2, 30)],
            fillers=[filler(42, 1)],
            **more,
        )
        return codes(laid_out(job))

    assert "nothing-gives" in found([1, 2, 42])
    assert "nothing-gives" not in found([21, 2, 42], openings=[opening(21, "dishwasher", 20, 26)])


def test_a_filler_wider_than_stock_or_too_narrow_at_a_wall_is_told() -> None:
    """Over the stock width it takes two strips; under the least at a wall a door may not clear."""
    wide = finding(_one_box(box(1, 90, name="")), "filler-over-stock")
    assert wide.by_how_much == inch("9") - inch("6")
    assert wide.rule == "filler-stock"
    job = kitchen(
        [wall("A", 62)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 60)],
        fillers=[filler(41, "1/2", 1, wish="1/2"), filler(42, "1/2", scribed=True)],
    )
    narrow = finding(laid_out(job), "filler-narrow")
    assert narrow.text.startswith("Filler 41 comes to 1/2, under 1:")
    assert narrow.rule == "filler-at-wall"


def test_two_marks_in_one_place_are_struck_as_one() -> None:
    """A filler of 1/16 between two boxes puts their marks so near that one stroke is both."""
    job = kitchen(
        [wall("A", "60 1/16")],
        [run("A", [1, 41, 2])],
        boxes=[box(1, 30), box(2, 30)],
        fillers=[filler(41, "0", 1)],
    )
    found = finding(laid_out(job), "marks-joined")
    assert found.text == "A base 41 left and A base 2 left are 1/16 apart: strike them as one."


def test_an_opening_that_misses_its_wish_is_noted() -> None:
    """An opening whose sheet wishes a width it cannot have says what it comes to."""
    job = kitchen(
        [wall("A", 90)],
        [run("A", [1, 21, 2])],
        boxes=[box(1, 30), box(2, "29 7/8")],
        openings=[opening(21, "range", 30, "30 1/4", wish="30 1/4")],
    )
    assert finding(laid_out(job), "opening-wish-missed").text == (
        "Range 21 comes to 30 1/8 clear; 30 1/4 was wished."
    )


def test_a_wish_missed_by_less_than_a_mark_is_only_noted() -> None:
    """A miss within a sixteenth is a note, a greater one a watch; both say which way."""

    def found(at: str) -> Any:
        pins = [{"item": 1, "edge": "left", "at": at, "strength": "wish"}]
        job = kitchen(
            [wall("A", 61)], [run("A", [41, 1], pins=pins)], boxes=[framed(1, 60)], fillers=[filler(41, 1)]
        )
        return finding(laid_out(job), "wish-missed")

    assert (found("1 1/16").rank, found("1 1/8").rank) == (Rank.NOTE, Rank.WATCH)
    assert "comes 1/8 left of 1 1/8" in found("1 1/8").text


def test_no_sentence_shouts_or_blames() -> None:
    """Nothing that the layout says has an exclamation mark, or one of the words nobody wants to hear."""
    from setline.wording.layout import SENTENCES

    for key, text in SENTENCES.items():
        assert "!" not in text, key
        assert not {"error", "invalid", "please", "oops"} & set(text.lower().split()), key
