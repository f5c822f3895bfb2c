"""What items ask for: widths, overhangs, heights, and who may give."""

from __future__ import annotations

import pytest
from tests.stages.layout.kitchens import (
    Table,
    box,
    filler,
    framed,
    kitchen,
    opening,
    run,
    tall,
    wall,
    wall_box,
)
from tests.tape import inch

from setline.job.job import Job
from setline.lengths import Units
from setline.result import ItemKind
from setline.rules import rule_book
from setline.stages.layout.items import Item, items_of, ordered_things


def _items(job: Job, place: int = 0, bottom: str = "19 1/2") -> tuple[Item, ...]:
    """Return the items of one run of a job."""
    return items_of(job.runs[place], ordered_things(job), rule_book(), units=Units.INCH, bottom=inch(bottom))


def _one(thing: Table, kind: str) -> Item:
    """Return one thing of the order as an item of a run of its own."""
    parts = {"boxes": [], "fillers": [], "openings": [], "panels": [], kind: [thing]}
    return _items(kitchen([wall("A", 100)], [run("A", [thing["number"]])], **parts))[0]  # type: ignore[arg-type]


def test_a_measured_box_is_as_wide_as_measured() -> None:
    """The measured width stands over the ordered one; the drawing still calls it by its ordered width."""
    item = _one(framed(3, 33, measured="33 1/32", name="sink"), "boxes")
    assert item.least == item.most == item.wished == inch("33 1/32")
    assert (item.name, item.said) == ("sink 33", "sink box 3")
    assert (item.overhang_left, item.overhang_right) == (inch("1/4"), inch("1/4"))


@pytest.mark.parametrize(
    ("span", "wished"),
    [
        ({"least": 24, "most": "24 1/4"}, "24 1/8"),
        ({"least": 24, "most": "24 1/4", "wish": "24 1/4"}, "24 1/4"),
        ({"least": 24}, "24"),
    ],
    ids=["middle of the window", "the sheet's wish", "the least without a limit"],
)
def test_what_an_opening_is_wished_at(span: Table, wished: str) -> None:
    """An opening is wished at its sheet's wish, else at the middle of its window, else at its least."""
    item = _one({"number": 21, "kind": "dishwasher", "width": span}, "openings")
    assert item.wished == inch(wished)
    assert item.kind is ItemKind.OPENING
    assert not item.gives


def test_a_filler_gives_unless_it_is_told_not_to() -> None:
    """A filler takes up slack unless the order says that it does not."""
    assert _one(filler(41, 1), "fillers").gives
    assert not _one(filler(41, 1, gives=False), "fillers").gives
    assert _one(filler(41, 1, scribed=True), "fillers").said == "scribed filler 41"


def test_heights_are_counted_from_the_level_line() -> None:
    """A base box hangs under the level line, a tall stands on the bases' foot, wall boxes end at one top."""
    job = kitchen(
        [wall("A", 200)],
        [run("A", [1, 2]), run("A", [1, 3, 4], row="wall")],
        boxes=[tall(1, 24), box(2, 30), wall_box(3, 30), wall_box(4, 30, height=15)],
    )
    pantry, base = _items(job)
    assert (base.bottom, base.top) == (-inch("34 1/2"), 0)
    assert (pantry.bottom, pantry.top) == (-inch("34 1/2"), inch("49 1/2"))
    _, full, short = _items(job, 1)
    assert (full.bottom, full.top) == (inch("19 1/2"), inch("49 1/2"))
    assert (short.bottom, short.top) == (inch("34 1/2"), inch("49 1/2"))


def test_what_has_no_height_of_its_own_stands_as_the_lower_box_beside_it() -> None:
    """A filler between a tall and a base box is as high and as deep as the base box."""
    job = kitchen(
        [wall("A", 200)],
        [run("A", [1, 41, 2])],
        boxes=[tall(1, 24, depth=25), box(2, 30)],
        fillers=[filler(41, 1)],
    )
    _, between, base = _items(job)
    assert (between.bottom, between.top, between.depth) == (base.bottom, base.top, base.depth)
    assert base.face == inch("24 3/4")


def test_an_opening_stands_as_high_as_it_needs() -> None:
    """A dishwasher ends under the tops, a refrigerator stands above them by its own clear height."""
    washer = opening(21, "dishwasher", 24, height={"least": "34 1/8"})
    cold = opening(22, "refrigerator", 36, height={"least": 70})
    job = kitchen([wall("A", 200)], [run("A", [21, 22])], openings=[washer, cold])
    low, high = _items(job)
    assert low.top == 0
    assert high.top == inch("70") - inch("34 1/2")


def test_most_boxes_set_the_depth_of_a_row() -> None:
    """A gap in a wall row is as deep as most of its boxes, not as the one deep box over a refrigerator."""
    job = kitchen(
        [wall("A", 200)],
        [run("A", [1, 21, 2, 3], row="wall")],
        boxes=[wall_box(1, 36, depth=24), wall_box(2, 30), wall_box(3, 30)],
        openings=[opening(21, "hood", 30)],
    )
    assert _items(job)[1].depth == inch("12")
