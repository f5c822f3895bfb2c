"""Where runs start and stop: lean walls, corners, open ends, what stands there already."""

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
    joints,
    kitchen,
    laid_out,
    run,
    run_named,
    tall,
    wall,
)
from tests.tape import inch

from setline.job.job import Job
from setline.lengths import Units, show


def _plumb(end: str, *pairs: tuple[str, str], out: str | None = None) -> Table:
    """Return plumb offsets at heights up from the subfloor, read back as given."""
    more = {} if out is None else {"out": out}
    return {
        "end": end,
        "offsets": [{"height": {"up": up, "from": "subfloor"}, "back": back, **more} for up, back in pairs],
    }


LEANING = [
    _plumb("left", ("0", "1"), ("34 5/8", "5/8"), ("84", "3/8")),
    _plumb("right", ("0", "3/8"), ("34 5/8", "3/4"), ("84", "1")),
]
"""Both end walls lean to the right by 5/8 over 84: every length between them is the same."""


def _between(one: Table, plumb: list[Table], lengths: list[Table] | None = None) -> Job:
    """Return a run of one box between two fillers on a wall of 120."""
    room = {"name": "A", "lengths": lengths or [{"length": 120}], "plumb": plumb}
    return kitchen(
        [room],
        [run("A", [41, one["number"], 42])],
        boxes=[one],
        fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
    )


def _ends(job: Job) -> tuple[str, str]:
    """Return the usable ends of base run A in tape notation."""
    plan = run_named(laid_out(job), "A base")
    assert plan.left_end.value is not None
    assert plan.right_end.value is not None
    return show(plan.left_end.value, Units.INCH), show(plan.right_end.value, Units.INCH)


@pytest.mark.arithmetic("two walls that lean together: 120 - 3/8 at the foot, 1/4 more at the top of a tall")
def test_what_is_usable_between_walls_that_lean_together() -> None:
    """Bases have 119 5/8 and a tall 119 3/8, though every length read is 120 and 120 1/8 at the faces."""
    lengths: list[Table] = [
        {"length": 120},
        {"length": 120, "height": {"up": 4, "from": "subfloor"}},
        {"length": 120, "height": {"up": 84, "from": "subfloor"}},
        {"length": "120 1/8", "at": "face"},
    ]
    base = laid_out(_between(box(1, 30), LEANING, lengths))
    high = laid_out(_between(tall(1, 30), LEANING, lengths))
    plan = run_named(base, "A base")
    assert (plan.left_end.value, plan.right_end.value) == (0, inch("119 5/8"))
    plan = run_named(high, "A base")
    assert (plan.left_end.value, plan.right_end.value) == (inch("1/4"), inch("119 5/8"))
    assert codes(base).isdisjoint({"no-plumb", "lengths-disagree", "faces-narrower"})


def test_an_end_says_what_it_rests_on() -> None:
    """The right end names the length, the offset it stands out at and the one that ties it to the datum."""
    end = run_named(laid_out(_between(box(1, 30), LEANING)), "A base").right_end
    assert end.readings == (
        "A length: 120",
        "A right plumb 34 5/8 up from subfloor: 3/4",
        "A right plumb 0 up from subfloor: 3/8",
    )
    assert end.working == ("right end stands out most at 0 up from subfloor: 120 - 3/8 = 119 5/8",)
    assert end.within is not None
    assert end.within > inch("1/16")


def test_without_offsets_the_least_length_counts_and_they_are_asked_for() -> None:
    """Of the lengths within the boxes' height the least is usable, and a watch asks for the offsets."""
    lengths: list[Table] = [
        {"length": 120},
        {"length": "119 13/16", "height": {"up": 4, "from": "subfloor"}},
        {"length": "119 1/2", "height": {"up": 84, "from": "subfloor"}},
    ]
    assert _ends(_between(box(1, 30), [], lengths)) == ("0", "119 13/16")
    assert _ends(_between(tall(1, 30), [], lengths)) == ("0", "119 1/2")
    asked = finding(laid_out(_between(box(1, 30), [], lengths)), "no-plumb")
    assert "left and right ends" in asked.text
    assert asked.remedies[0].kind == "more-readings"


def test_one_end_read_gives_the_other_by_the_lengths() -> None:
    """With the left end read alone, each length tells where the right end stands at its own height."""
    lengths: list[Table] = [{"length": 120}, {"length": 120, "height": {"up": "0", "from": "subfloor"}}]
    job = _between(box(1, 30), LEANING[:1], lengths)
    assert _ends(job) == ("0", "119 5/8")
    assert "its right end" in finding(laid_out(job), "no-plumb").text


def test_the_other_way_round() -> None:
    """With the right end read alone, a longer length above it moves no end, a shorter one moves the left."""
    lengths: list[Table] = [{"length": 120}, {"length": "119 1/4", "height": {"up": "0", "from": "subfloor"}}]
    assert _ends(_between(box(1, 30), LEANING[1:], lengths)) == ("3/8", "119 5/8")


def test_an_offset_out_at_the_faces_counts_within_the_depth() -> None:
    """An end wall that comes in over the depth is met where the box is deepest, in proportion."""
    at_wall = _plumb("right", ("34 5/8", "1"))
    at_faces = {"height": {"up": "34 5/8", "from": "subfloor"}, "out": 32, "back": "1/2"}
    at_wall["offsets"].append(at_faces)
    assert _ends(_between(box(1, 30), [LEANING[0], at_wall])) == ("0", "119 5/8")


def test_less_room_at_the_faces_is_taken_off_and_asked_about() -> None:
    """Less room at the faces, with no offset to say at which end, is taken off the right and asked about."""
    plumb = [_plumb("left", ("34 5/8", "1")), _plumb("right", ("34 5/8", "1"))]
    lengths: list[Table] = [{"length": 120}, {"length": "119 3/4", "at": "face"}]
    job = _between(box(1, 30), plumb, lengths)
    assert _ends(job) == ("0", "119 3/4")
    assert finding(laid_out(job), "faces-narrower").by_how_much == inch("1/4")


def test_a_length_that_belies_the_offsets_is_asked_about() -> None:
    """A length more than its doubt short of what the offsets say counts, and a watch says so."""
    lengths: list[Table] = [{"length": 120}, {"length": "119 1/2", "height": {"up": 4, "from": "subfloor"}}]
    plumb = [_plumb("left", ("34 5/8", "1")), _plumb("right", ("34 5/8", "1"))]
    job = _between(box(1, 30), plumb, lengths)
    assert finding(laid_out(job), "lengths-disagree").by_how_much == inch("1/2")
    assert _ends(job) == ("0", "119 1/2")


def test_offsets_that_end_far_below_a_tall_are_asked_for() -> None:
    """A tall box that reaches over 12 past the highest offset brings a watch."""
    low = [_plumb("left", ("4", "1"), ("34 5/8", "1")), _plumb("right", ("4", "1"), ("34 5/8", "1"))]
    found = [each for each in laid_out(_between(tall(1, 30), low)).findings if each.code == "plumb-far"]
    assert [each.text.split(" at its ")[1].split()[0] for each in found] == ["left", "right"]
    assert "plumb-far" not in codes(laid_out(_between(box(1, 30), low)))


def _corner(blind: Table, other_depth: str, most_pull: str, visible: str = "15") -> Job:
    """Return a blind box on wall B beside the corner, and a run on wall A that ends at its faces."""
    return kitchen(
        [wall("A", 144), wall("B", 120)],
        [
            run("A", [41, 1, 42], right={"kind": "corner", "run": "B base"}),
            run("B", [2, 3], right={"kind": "open"}),
        ],
        boxes=[
            box(1, 30, depth=other_depth),
            box(2, 42, blind={"side": "left", "visible": visible, "most_pull": most_pull}, **blind),
            box(3, 18),
        ],
        fillers=[filler(41, 1, scribed=True), filler(42, 2)],
        rules={"corner-filler": "2"},
    )


@pytest.mark.arithmetic("42 - 15 >= 24 7/8 + 2 - pull; 144 - (24 3/4 + 2) = 117 1/4")
def test_a_blind_box_may_be_pulled_within_its_limits() -> None:
    """The pull runs from 0 to 6; the run round the corner keeps its filler before the blind box's face."""
    layout = laid_out(_corner({}, "24 1/8", "6"))
    start = run_named(layout, "B base").joints[0]
    assert (start.earliest, start.latest, start.chosen) == (0, inch("6"), 0)
    around = run_named(layout, "A base")
    assert around.right_end.value == inch("144") - inch("24 3/4")
    assert around.joints[2].latest == inch("117 1/4")


@pytest.mark.arithmetic("42 - 15 = 27, and 26 + 2 = 28 must be passed: 1 of pull, 3/4 allowed")
def test_a_blind_box_that_cannot_be_pulled_far_enough() -> None:
    """With deeper faces round the corner it would need 1 of pull, may have 3/4, and is told 1/4 short."""
    layout = laid_out(_corner({}, "25 1/4", "3/4"))
    assert not run_named(layout, "B base").solved
    found = finding(layout, "places-conflict")
    assert found.by_how_much == inch("1/4")
    assert "pulled from its corner 3/4 at most" in found.text
    assert run_named(layout, "A base").solved


def test_a_blind_box_without_a_run_round_its_corner() -> None:
    """In a room that does not close nothing lies round the first left corner: the pull alone counts."""
    job = kitchen(
        [wall("A", 120), wall("B", 120)],
        [run("A", [2, 3], right={"kind": "open"}), run("B", [41, 1], right={"kind": "open"})],
        boxes=[
            box(1, 60, depth=40),
            box(2, 42, blind={"side": "left", "visible": 40, "most_pull": 3}),
            box(3, 18),
        ],
        fillers=[filler(41, 1, scribed=True)],
    )
    start = run_named(laid_out(job), "A base").joints[0]
    assert (start.earliest, start.latest) == (0, inch(3))


def test_a_corner_box_takes_so_much_of_the_next_wall() -> None:
    """A run round the corner of a corner box starts where that box stops."""
    layout = laid_out(
        kitchen(
            [wall("A", 100), wall("B", 100)],
            [
                run("A", [41, 1]),
                run("B", [2, 42], left={"kind": "corner", "run": "A base"}),
            ],
            boxes=[box(1, 36, corner={"along_next": "36 1/2"}), box(2, 30)],
            fillers=[filler(41, 1), filler(42, 1)],
        )
    )
    assert joints(layout, "B base")[0] == "36 1/2"
    assert "corner box 1" in run_named(layout, "B base").left_end.working[-1]


def test_only_boxes_near_the_corner_set_its_faces() -> None:
    """A deep box at the far end of the other run does not push the corner out."""
    layout = laid_out(
        kitchen(
            [wall("A", 140), wall("B", 100)],
            [run("A", [41, 1, 2, 3]), run("B", [42, 4, 43], left={"kind": "corner", "run": "A base"})],
            boxes=[box(1, 30, depth=27), box(2, 24), box(3, 24), box(4, 30)],
            fillers=[filler(41, 1), filler(42, 1), filler(43, 1)],
        )
    )
    assert joints(layout, "B base")[0] == "24 3/4"


@pytest.mark.parametrize(("at", "last"), [("100", "92 1/2"), ("92 1/2", "92 1/2")])
def test_an_open_end_may_stop_short_of_its_limit(at: str, last: str) -> None:
    """An open end goes no farther than its items ask, and reaches its limit if it must."""
    job = kitchen(
        [wall("A", 144)],
        [run("A", [41, 1, 2, 3], right={"kind": "open", "at": at})],
        boxes=[framed(1, 30), framed(2, 30), framed(3, 30)],
        fillers=[filler(41, 1, 4, scribed=True)],
    )
    assert joints(laid_out(job), "A base")[-1] == last


def test_an_open_end_without_a_limit_stays_on_its_wall() -> None:
    """A run that is open anywhere may move as far as the wall goes, and its end is where it came to end."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [1, 2], left={"kind": "open"}, right={"kind": "open"})],
        boxes=[box(1, 30), box(2, 30)],
    )
    plan = run_named(laid_out(job), "A base")
    assert (plan.joints[-1].earliest, plan.joints[-1].latest) == (inch("60"), inch("100"))
    assert plan.right_end.value == plan.joints[-1].chosen == inch("60")


def test_something_that_stands_there_is_a_fact() -> None:
    """A run that ends at an existing thing ends at its edge as read, whatever the wall's length says."""
    stove: Table = {"number": 91, "name": "chimney", "wall": "A", "left": "70 1/2", "right": "99 1/4"}
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1, 42, 91])],
        boxes=[box(1, 60)],
        fillers=[filler(41, 1, scribed=True), filler(42, 1)],
        existing=[stove],
    )
    layout = laid_out(job)
    assert joints(layout, "A base")[-2:] == ["70 1/2", "99 1/4"]
    assert run_named(layout, "A base").right_end.readings == ("chimney 91 right: 99 1/4",)


def test_a_second_run_on_a_wall_has_names_of_its_own() -> None:
    """Two base runs on one wall never share the name of a mark."""
    one: dict[str, Any] = {"right": {"kind": "open", "at": 40}}
    two: dict[str, Any] = {"left": {"kind": "open", "at": 70}}
    job = kitchen(
        [wall("A", 120)],
        [run("A", [41, 1], **one), run("A", [2, 42], **two)],
        boxes=[box(1, 30), box(2, 30)],
        fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
    )
    layout = laid_out(job)
    names = [mark.name for plan in layout.runs for mark in plan.marks]
    assert [plan.name for plan in layout.runs] == ["A base", "A base 2"]
    assert len(names) == len(set(names))
    assert "A base 2 end" in names
