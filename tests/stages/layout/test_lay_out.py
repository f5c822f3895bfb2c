"""Whole layouts of one row: worked cases, pins, slack, facts."""

from __future__ import annotations

import pytest
from tests.stages.layout.kitchens import (
    Table,
    box,
    filler,
    finding,
    framed,
    joints,
    kitchen,
    laid_out,
    mark,
    opening,
    printed,
    run,
    run_named,
    wall,
)
from tests.tape import inch

from setline.lengths import Units, show


def _sink_run(length: str, centre: str, *, left: Table, right: Table, **more: Table) -> Table:
    """Return a run with a sink box pinned to a window's centre, boxes left of it, an opening right of it."""
    return {
        "walls": [wall("A", length, windows=[{"name": "yard", "centre": centre}])],
        "runs": [run("A", [41, 1, 2, 3, 21, 4, 42], pins=[{"item": 3, "edge": "centre", "window": "yard"}])],
        "boxes": [box(1, 18), box(2, 12), box(3, 33, name="sink"), box(4, 9)],
        "fillers": [left, right],
        "openings": [opening(21, "dishwasher", "24 1/8", "24 3/8")],
        **more,
    }


@pytest.mark.arithmetic("48 5/8 - 16 1/2 - 12 - 18 = 2 1/8; 65 1/8 + 24 1/8 .. 24 3/8")
def test_solved_outward_from_a_window_centre() -> None:
    """Joints left of the sink have one place, those right of the opening a window of 1/4."""
    job = kitchen(**_sink_run("100 3/8", "48 5/8", left=filler(41, "3/4", 3), right=filler(42, "3/4", 3)))
    plan = run_named(laid_out(job), "A base")
    windows = [(joint.earliest, joint.latest) for joint in plan.joints]
    assert windows[1:5] == [(inch(at), inch(at)) for at in ("2 1/8", "20 1/8", "32 1/8", "65 1/8")]
    assert windows[5] == (inch("89 1/4"), inch("89 1/2"))
    assert windows[6] == (inch("98 1/4"), inch("98 1/2"))


@pytest.mark.arithmetic("3/4 + 24 + 18 + 1 1/8 + 18 = 61 7/8 where 61 3/8 is")
def test_a_short_run_is_told_from_place_to_place() -> None:
    """The sentence names both places, the room, the pieces with half the sink box, and what is missing."""
    job = kitchen(
        [wall("A", 103, windows=[{"name": "yard", "centre": "61 3/8"}])],
        [run("A", [41, 1, 2, 42, 3, 43], pins=[{"item": 3, "edge": "centre", "window": "yard"}])],
        boxes=[box(1, 24), box(2, 18), box(3, 36, name="sink")],
        fillers=[filler(41, "3/4", scribed=True), filler(42, "1 1/8"), filler(43, "3/4")],
    )
    layout = laid_out(job)
    found = finding(layout, "run-too-short")
    assert found.text.startswith(
        "A base: from the left wall to the window centre you have 61 3/8. The pieces need 61 7/8: "
        "scribed filler 41 at least 3/4, box 1 (24), box 2 (18), filler 42 at least 1 1/8, "
        "half of sink box 3 (18). 1/2 short."
    )
    assert found.by_how_much == inch("1/2")
    assert found.readings == ("A length: 103", "A window yard centre: 61 3/8")[1:]
    plan = run_named(layout, "A base")
    assert (plan.solved, plan.overrun) == (False, inch("1/2"))
    assert {item.left for item in plan.items} == {None}
    assert {each.printed for each in plan.marks} == {None}
    assert {each.chosen for each in plan.joints} == {None}
    assert plan.marks[0].write == "? |41>"


@pytest.mark.arithmetic("103 - 61 3/8 = 41 5/8, less 18 leaves 23 5/8; at most 6 fills it")
def test_too_little_room_is_told_before_too_much() -> None:
    """Short on the left and with room left over on the right are two stops, the short one first."""
    job = kitchen(
        [wall("A", 103, windows=[{"name": "yard", "centre": "61 3/8"}])],
        [run("A", [41, 1, 2, 42, 3, 43], pins=[{"item": 3, "edge": "centre", "window": "yard"}])],
        boxes=[box(1, 24), box(2, 18), box(3, 36, name="sink")],
        fillers=[filler(41, "3/4", scribed=True), filler(42, "1 1/8"), filler(43, "3/4", 6)],
    )
    short, over = [each for each in laid_out(job).findings if each.rank == "stop"]
    assert (short.code, over.code) == ("run-too-short", "run-too-long")
    assert "from the window centre to the right wall you have 41 5/8" in over.text
    assert "half of sink box 3 (18), filler 43 at most 6. 17 5/8 left over." in over.text


def test_one_filler_takes_what_a_metric_box_leaves_off_the_sixteenths() -> None:
    """A box of 600 mm among sixteenths puts one joint off them: that of the scribed filler at the wall."""
    job = kitchen(
        [wall("A", 57)],
        [run("A", [41, 1, 2, 42])],
        boxes=[box(1, "600 mm"), box(2, 30)],
        fillers=[filler(41, 1, 3, scribed=True, wish=2), filler(42, 1, 5, wish=2)],
    )
    layout = laid_out(job)
    exact = [mark(layout, name).at.value for name in ("A base 1 left", "A base 42 left")]
    assert exact[1] == inch(55)
    assert exact[0] is not None
    assert exact[0] % inch("1/16") != 0


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        ({"scribed": True}, {"scribed": True}, ("2", "4")),
        ({"scribed": True}, {}, ("4", "2")),
        ({}, {}, ("2", "4")),
        ({"scribed": True}, {"scribed": True, "gives": False}, ("4", "2")),
        ({"group": "ends"}, {"group": "ends"}, ("3", "3")),
    ],
    ids=[
        "the right of two",
        "the scribed one",
        "the right one of two plain",
        "only who may",
        "equal in a group",
    ],
)
def test_who_takes_the_slack(left: Table, right: Table, expected: tuple[str, str]) -> None:
    """Slack goes to the scribed filler at a wall, the right one of two; equally only within a group."""
    job = kitchen(
        [wall("A", 66)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 60)],
        fillers=[filler(41, 1, 5, wish=2, **left), filler(42, 1, 5, wish=2, **right)],
    )
    _, start, stop, end = (joint.chosen or 0 for joint in run_named(laid_out(job), "A base").joints)
    assert (show(start, Units.INCH), show(end - stop, Units.INCH)) == expected


@pytest.mark.arithmetic("2 1/8 over three is 17/24 each: 11/16, 11/16, 3/4 on sixteenths")
def test_equal_fillers_on_whole_sixteenths() -> None:
    """Three fillers that stay equal share 2 1/8 on sixteenths; the first to give takes the odd one."""
    job = kitchen(
        [wall("A", "62 1/8")],
        [run("A", [41, 1, 42, 2, 43])],
        boxes=[box(1, 30), box(2, 30)],
        fillers=[filler(number, "1/4", 2, wish="1/4", group="all") for number in (41, 42, 43)],
    )
    assert joints(laid_out(job), "A base") == ["0", "11/16", "30 11/16", "31 3/8", "61 3/8", "62 1/8"]


def test_wishes_go_by_their_rank() -> None:
    """Of two wishes that cannot both be met, the first in rank is, and the other is missed by how much."""
    pins = [
        {"item": 1, "edge": "left", "at": 4, "strength": "wish", "rank": 2},
        {"item": 2, "edge": "right", "at": 66, "strength": "wish", "rank": 1},
    ]
    job = kitchen(
        [wall("A", 70)],
        [run("A", [41, 1, 2, 42], pins=pins)],
        boxes=[box(1, 30), box(2, 30)],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    layout = laid_out(job)
    assert joints(layout, "A base") == ["0", "6", "36", "66", "70"]
    missed = finding(layout, "wish-missed")
    assert missed.text == "A base: left of 1 comes 2 right of 4, where it was wished."
    assert missed.by_how_much == inch(2)
    (way,) = missed.remedies
    assert (way.kind, way.text) == ("drop-wish", "Let the wish go that the right of 2 stands at 66.")


def test_a_wish_never_stops_a_run() -> None:
    """A wish that cannot be met is followed as nearly as can be."""
    job = kitchen(
        [wall("A", 64)],
        [run("A", [41, 1, 42], pins=[{"item": 1, "edge": "centre", "at": 10, "strength": "wish"}])],
        boxes=[box(1, 60)],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    assert joints(laid_out(job), "A base") == ["0", "1", "61", "64"]


def test_the_centre_of_an_opening_may_be_pinned() -> None:
    """An opening whose width may vary is centred by both its joints, and keeps its wished width."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1, 21, 2, 42], pins=[{"item": 21, "edge": "centre", "at": 48}])],
        boxes=[framed(1, 30), framed(2, 30)],
        fillers=[filler(41, 1, 4), filler(42, 1, 8)],
        openings=[opening(21, "range", 30, "30 1/2")],
    )
    layout = laid_out(job)
    assert joints(layout, "A base")[2:4] == ["32 7/8", "63 1/8"]
    assert printed(layout, "A base 21 left") == "32 5/8"


def test_an_opening_gives_a_sixteenth_to_come_onto_the_tape() -> None:
    """An opening beside a box measured off the sixteenths takes a width that puts both its marks on them."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [1, 21, 2, 42])],
        boxes=[box(1, 30), box(2, 30)],
        fillers=[filler(42, 1, scribed=True)],
        openings=[opening(21, "dishwasher", 24, "24 5/16")],
    )
    layout = laid_out(job)
    left, right = (mark(layout, f"A base {number} left") for number in (21, 2))
    assert left.printed == left.at.value == inch(30)
    assert right.printed == right.at.value
    assert right.at.value == inch("54 3/16")


@pytest.mark.arithmetic("1 1/2, 19 9/16 as read; 12, 33, then 24 1/16 where 24 1/8 was")
def test_a_box_that_stands_already_moves_what_hangs_on_it() -> None:
    """A box set 1/16 wide is a fact: the boxes beside it move by 1/16 and the opening takes it."""
    pins: list[Table] = [{"item": 4, "edge": "left", "at": "88 5/8"}]
    job = kitchen(
        [wall("A", 99)],
        [run("A", [41, 91, 2, 3, 21, 4, 42], pins=pins)],
        boxes=[box(2, 12), box(3, 33, name="sink"), box(4, 9)],
        fillers=[filler(41, "3/4", 3, scribed=True), filler(42, "3/4", 3, scribed=True)],
        openings=[opening(21, "dishwasher", 24, "24 1/4")],
        existing=[{"number": 91, "name": "box as set", "wall": "A", "left": "1 1/2", "right": "19 9/16"}],
    )
    expected = ["0", "1 1/2", "19 9/16", "31 9/16", "64 9/16", "88 5/8", "97 5/8", "99"]
    assert joints(laid_out(job), "A base") == expected


def test_the_same_job_gives_the_same_layout() -> None:
    """Laying out twice gives equal results."""
    job = kitchen(**_sink_run("100 3/8", "48 5/8", left=filler(41, "3/4", 3), right=filler(42, "3/4", 3)))
    assert laid_out(job) == laid_out(job)
