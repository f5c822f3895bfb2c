"""What is struck and written: which edge, which rounding, what words."""

from __future__ import annotations

import pytest
from tests.stages.layout.kitchens import (
    Table,
    box,
    filler,
    framed,
    kitchen,
    laid_out,
    mark,
    opening,
    printed,
    run,
    run_named,
    wall,
)
from tests.stages.layout.test_items import _items
from tests.tape import inch, mm

from setline.lengths import Units, show
from setline.result import Edge
from setline.stages.layout.mark_places import mark_places
from setline.stages.layout.marks import printed_marks, what_to_write


def _printed(runs_items: Table, at: list[str]) -> list[str]:
    """Return the printed marks of a run whose marks stand at the given places."""
    items = _items(kitchen([wall("A", 200)], **runs_items))
    found = printed_marks(items, mark_places(items, ()), [inch(each) for each in at], Units.INCH)
    return [show(each, Units.INCH) for each in found]


def test_a_mark_stands_at_the_joint_only_where_frames_touch_or_no_box_stands() -> None:
    """Between frames and between things without a frame it is the joint; beside a box its body's edge."""
    job = kitchen(
        [wall("A", 200)],
        [run("A", [41, 1, 2, 21, 42])],
        boxes=[framed(1, 30), framed(2, 30)],
        fillers=[filler(41, 1), filler(42, 1)],
        openings=[opening(21, "dishwasher", 24)],
    )
    places = mark_places(_items(job), ())
    assert [place.edge for place in places] == [
        Edge.JOINT,
        Edge.BODY,
        Edge.JOINT,
        Edge.BODY,
        Edge.JOINT,
        Edge.JOINT,
    ]
    assert [place.offset for place in places] == [0, inch("1/4"), 0, -inch("1/4"), 0, 0]
    assert [place.box.number if place.box else None for place in places] == [None, 1, None, 2, None, None]
    assert [place.is_fine for place in places] == [False, False, False, True, True, False]


def test_halves_go_away_from_the_left_corner() -> None:
    """A mark half-way between two sixteenths goes to the greater, one below it to the lesser."""
    parts: Table = {"runs": [run("A", [1, 2, 3])], "boxes": [box(1, 30), box(2, 30), box(3, 30)]}
    assert _printed(parts, ["0", "30 1/32", "60 1/64", "90 3/64"]) == ["0", "30 1/16", "60", "90 1/16"]


@pytest.mark.parametrize(
    ("most", "at", "expected"),
    [
        ("24 1/2", ["30 1/64", "54 11/64"], ["30", "54 3/16"]),
        ("24 5/32", ["30 1/64", "54 11/64"], ["30 1/32", "54 3/16"]),
        ("24 1/2", ["30 1/16", "54 3/16"], ["30 1/16", "54 3/16"]),
    ],
    ids=["away from the opening", "to the nearest, or it would pass its most", "on whole sixteenths"],
)
def test_marks_of_an_opening_open_it(most: str, at: list[str], expected: list[str]) -> None:
    """They print to 1/32 away from the opening, unless the opening would then pass its window's most."""
    parts: Table = {
        "runs": [run("A", [1, 21, 2])],
        "boxes": [box(1, 30), box(2, 30)],
        "openings": [opening(21, "dishwasher", 24, most)],
    }
    assert _printed(parts, ["0", *at, "84"])[1:3] == expected


def test_a_pinned_item_off_the_sixteenths_prints_to_the_nearest_thirty_second() -> None:
    """A box of 33 1/16 centred on 48 stands 1/32 off the sixteenths on both sides, and prints so."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1, 42], pins=[{"item": 1, "edge": "centre", "at": 48}])],
        boxes=[box(1, "33 1/16")],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    layout = laid_out(job)
    assert printed(layout, "A base 1 left") == "31 15/32"
    assert printed(layout, "A base 42 left") == "64 17/32"


def test_what_stands_on_the_wall_is_literal() -> None:
    """The arrow points to the box that goes on that side; an opening's name and clear width follow."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1, 2, 21, 3])],
        boxes=[framed(1, 18), framed(2, 12), framed(3, 24)],
        fillers=[filler(41, 1, scribed=True)],
        openings=[opening(21, "dishwasher", 24, "24 1/4")],
    )
    marks = run_named(laid_out(job), "A base").marks
    assert [each.write for each in marks] == [
        "0 |41>",
        "22 1/8 |1>",
        "39 7/8 |2>",
        "51 5/8 <2| dishwasher 24 1/8",
        "76 1/4 |3>",
        "99 3/4 <3|",
    ]
    (place, *_) = mark_places(_items(job), ())
    assert what_to_write(place, None, Units.INCH) == "? |41>"


def test_a_mark_answers_why() -> None:
    """Its figure carries the readings and the arithmetic from the datum; overhang and rounding last."""
    job = kitchen(
        [wall("A", 100, windows=[{"name": "yard", "left": 32, "right": "64 1/32"}])],
        [run("A", [41, 1, 2, 42], pins=[{"item": 2, "edge": "centre", "window": "yard"}])],
        boxes=[framed(1, 18, measured="18 1/32"), framed(2, 33, name="sink")],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    figure = mark(laid_out(job), "A base 1 left").at
    assert figure.value == inch("48 1/64") - inch("16 1/2") - inch("18 1/32") + inch("1/4")
    assert figure.readings == (
        "A window yard left: 32",
        "A window yard right: 64 1/32",
        "box 1 measured: 18 1/32",
    )
    assert figure.working == (
        "window centre, half-way from 32 to 64 1/32: 48 1/64",
        "half of sink box 2, 33: 48 1/64 - 16 1/2 = 31 33/64",
        "box 1, 18 1/32: 31 33/64 - 18 1/32 = 13 31/64",
        "frame stands 1/4 past the body of box 1: 13 31/64 + 1/4 = 13 47/64",
        "13 47/64 prints as 13 3/4",
    )


def test_doubt_grows_with_the_boxes_nobody_has_measured() -> None:
    """A joint is less sure the more unmeasured boxes lie before it; measured ones add nothing."""

    def within(measured: Table) -> list[int | None]:
        job = kitchen(
            [wall("A", 100)],
            [run("A", [1, 2, 41])],
            boxes=[box(1, 18, **measured), box(2, 18, **measured)],
            fillers=[filler(41, 1, scribed=True)],
        )
        return [each.at.within for each in run_named(laid_out(job), "A base").marks]

    first, second, third, end = within({})
    assert first == 0
    assert second == 1992  # 1.96 times 1/64 in, rounded up to a tick
    assert third in (2817, 2818)  # the same by the square root of 2, rounded up once more
    assert end == 3983  # 1.96 times the 1/32 in of a length
    assert within({"measured": 18}) == [0, 0, 0, 3983]


def test_a_metric_mark_is_a_whole_millimetre_or_a_half() -> None:
    """On a metric tape marks print to 1 mm, an opening's that cannot to 1/2 mm, away from it."""
    job = kitchen(
        [wall("A", 2400)],
        [run("A", [41, 1, 21, 2, 42], pins=[{"item": 1, "edge": "left", "at": "30.3"}])],
        boxes=[box(1, 600, height=870, depth=560), box(2, 600, height=870, depth=560)],
        fillers=[filler(41, 20), filler(42, 20)],
        openings=[opening(21, "dishwasher", 600, 602)],
        tape="metric",
    )
    marks = run_named(laid_out(job, tops=-mm(350)), "A base").marks
    assert [each.write for each in marks] == [
        "0 |41>",
        "30.5 |1>",
        "630 <1| dishwasher 601",
        "1231 |2>",
        "1831 <2|",
        "2400 <42|",
    ]
