"""Boxes that are set: facts of the layout, as wide as they came to stand, whatever else was planned."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.changed_job import with_changes
from tests.stages.layout.invented import SIXTEENTH, Invented, invented
from tests.stages.layout.kitchens import (
    box,
    codes,
    filler,
    finding,
    framed,
    joints,
    kitchen,
    laid_out,
    mark,
    opening,
    run,
    run_named,
    wall,
)
from tests.stages.layout.recorded import as_set, places_of, printed_marks, struck, with_record, with_set
from tests.tape import inch

from setline.job.job import Job
from setline.lengths import Rounding, Units, round_to, show
from setline.result import ItemKind, Rank
from setline.stages.layout import Layout


def row(make: Any = box, **more: Any) -> Job:
    """Return a wall of 102 3/4 with a sink wished on its window, an opening, and a filler at both ends."""
    pins = [{"item": 3, "edge": "centre", "window": "yard", "strength": more.pop("strength", "wish")}]
    return kitchen(
        [wall("A", "102 3/4", windows=[{"name": "yard", "centre": "51 1/4"}])],
        [run("A", [41, 1, 2, 3, 5, 4, 42], pins=pins)],
        boxes=[make(1, 21), make(2, 12), make(3, 33, name="sink"), make(4, "9")],
        fillers=[filler(41, "3/4", 3), filler(42, "3/4", 3, scribed=True)],
        openings=[opening(5, "dishwasher", 24, "24 1/4")],
    )


PLANNED = ["0", "1 3/4", "22 3/4", "34 3/4", "67 3/4", "91 7/8", "100 7/8", "102 3/4"]


def test_the_row_is_planned_as_these_tests_think() -> None:
    """Nothing set: the sink stands on the window, the opening at the middle of what it wants."""
    assert joints(laid_out(row()), "A base") == PLANNED


def test_a_box_with_both_edges_read_is_as_wide_as_that() -> None:
    """Its ordered width is not asked again, and how much it grew is told."""
    layout = laid_out(with_set(row(), as_set(1, "1 3/4", "22 13/16")))
    item = run_named(layout, "A base").items[1]
    assert places_of(run_named(layout, "A base"), 1) == ("1 3/4", "22 13/16")
    assert item.as_set is not None
    assert item.as_set.growth == inch("1/16")
    assert item.wished == inch(21)
    assert finding(layout, "set-width-differs").text == (
        "Box 1 went in 21 1/16 wide. It is 21: 1/16 over. What stands counts."
    )


def test_a_box_with_one_edge_read_reaches_its_width_from_there() -> None:
    """Read at the right edge alone, the filler beside it takes what the left edge moved."""
    layout = laid_out(with_set(row(), as_set(1, right="22 7/8")))
    assert places_of(run_named(layout, "A base"), 1) == ("1 7/8", "22 7/8")


@pytest.mark.arithmetic("body read at 2 and 22 1/2; the frame stands 1/4 past it: 1 3/4 and 22 3/4")
def test_what_was_read_at_the_body_stands_at_the_frame() -> None:
    """The overhang is added: 1/4 to the left of the left edge, 1/4 to the right of the right one."""
    layout = laid_out(with_set(row(framed), as_set(1, "2", "22 1/2", of="body")))
    assert places_of(run_named(layout, "A base"), 1) == ("1 3/4", "22 3/4")
    assert mark(layout, "A base 1 left").at.working[0].endswith("read: 2")


def test_boxes_side_by_side_share_what_was_read_at_their_joint() -> None:
    """Both edges of the second are known by the first one's right edge and its own: its width is theirs."""
    layout = laid_out(with_set(row(), as_set(1, "1 3/4", "22 3/4"), as_set(2, right="34 13/16")))
    base = run_named(layout, "A base")
    assert places_of(base, 2) == ("22 3/4", "34 13/16")
    assert places_of(base, 3)[0] == "34 13/16"


def test_a_joint_read_twice_stands_half_way() -> None:
    """The first one's right edge and the second one's left differ by 1/16: 1/32 from both."""
    layout = laid_out(
        with_set(row(), as_set(1, "1 3/4", "22 3/4"), as_set(2, left="22 13/16", right="34 13/16"))
    )
    assert places_of(run_named(layout, "A base"), 2)[0] == "22 25/32"


def test_boxes_between_known_edges_share_the_stretch() -> None:
    """Two boxes of 21 and 12 between 1 3/4 and 34 27/32 are each as much wider as they are wide."""
    layout = laid_out(with_set(row(), as_set(1, left="1 3/4"), as_set(2, right="34 27/32")))
    base = run_named(layout, "A base")
    at = base.items[1].right
    assert at is not None
    grown = inch("34 27/32") - inch("34 3/4")
    assert at == inch("1 3/4") + (inch(33) + grown) * 21 // 33


def test_a_box_set_without_a_reading_stands_on_its_struck_mark() -> None:
    """What was struck holds it, whatever the rest would like; else it is planned like any other."""
    marks = printed_marks(laid_out(row()))
    moved = {**marks, "A base 2 left": "22 5/8", "A base 1 left": "1 5/8"}
    layout = laid_out(with_set(struck(row(), moved), {"box": 1}))
    assert places_of(run_named(layout, "A base"), 1) == ("1 5/8", "22 5/8")
    assert finding(layout, "set-not-read").rank is Rank.NOTE
    free = laid_out(with_set(row(), {"box": 1}))
    assert joints(free, "A base") == PLANNED
    assert not run_named(free, "A base").items[1].is_set


def test_wishes_on_a_set_box_are_past_and_told() -> None:
    """The sink set 1/4 off its window asks for no way back; how far it came is in the pin."""
    layout = laid_out(with_set(row(), as_set(3, "35", "68")))
    base = run_named(layout, "A base")
    assert base.solved
    assert base.pins[0].missed == inch("1/4")
    assert finding(layout, "wish-missed").remedies == ()
    assert finding(layout, "wish-missed").rank is Rank.NOTE


def test_a_must_on_a_set_box_is_met_within_what_two_readings_differ_by() -> None:
    """1/16 off its window a set sink holds its must; 1/4 off it is a conflict, cured by pin or by hand."""
    near = laid_out(with_set(row(strength="must"), as_set(3, "34 13/16", "67 13/16")))
    assert run_named(near, "A base").solved
    far = laid_out(with_set(row(strength="must"), as_set(3, "35", "68")))
    (stop,) = [found for found in far.findings if found.rank is Rank.STOP]
    assert "set" in stop.text
    assert [remedy.kind for remedy in stop.remedies] == ["move-pin", "take-out-box"]


def test_a_conflict_names_the_set_box_as_a_fact_and_taking_it_out_comes_last() -> None:
    """Both set boxes are named with their edges; the last ways out are to take one of them out."""
    job = with_set(row(framed), as_set(1, "1 3/4", "22 13/16"), as_set(3, "34 1/2", "67 1/2"))
    stop = finding(laid_out(job), "run-too-short")
    assert stop.text == (
        "A base: from the right edge of box 1 (set: 22 13/16) to the left edge of sink box 3 (set: 34 1/2) "
        "you have 11 11/16. The pieces need 12: box 2 (12). 5/16 short."
    )
    assert [remedy.kind for remedy in stop.remedies] == ["scribe-stile", "take-out-box", "take-out-box"]
    for remedy in stop.remedies:
        assert run_named(laid_out(with_changes(job, remedy.change)), "A base").solved


def test_a_set_box_at_the_end_stands_where_it_stands() -> None:
    """A first box 3/16 off the wall is no conflict; that it stands off is told."""
    job = kitchen(
        [wall("A", 60)],
        [run("A", [1, 2, 41])],
        boxes=[box(1, 24), box(2, 30)],
        fillers=[filler(41, 1, 8, scribed=True)],
    )
    layout = laid_out(with_set(job, as_set(1, right="24 3/16")))
    assert joints(layout, "A base") == ["3/16", "24 3/16", "54 3/16", "60"]
    assert finding(layout, "set-off-end").text == "Box 1 stands 3/16 off the left wall."
    past = laid_out(with_set(job, as_set(1, right="23 7/8")))
    assert finding(past, "set-off-end").text.startswith("Box 1 stands 1/8 past the left wall")


def test_beside_what_stands_already_the_joint_is_its_edge() -> None:
    """A box set beside an old chimney is as wide as from there to its own right edge."""
    job = kitchen(
        [wall("A", 60)],
        [run("A", [71, 1, 41])],
        boxes=[box(1, 30)],
        fillers=[filler(41, 1, 12, scribed=True)],
        existing=[{"number": 71, "name": "chimney", "wall": "A", "left": "0", "right": "18"}],
    )
    layout = laid_out(with_set(job, as_set(1, "18 1/16", "48 1/16")))
    assert joints(layout, "A base") == ["0", "18", "48 1/16", "60"]


def test_an_edge_far_from_the_width_asks_to_be_read_again() -> None:
    """21 for 12 between two edges is kept, and somebody has to look."""
    layout = laid_out(with_set(row(), as_set(1, "1 3/4", "23 1/4")))
    found = finding(layout, "set-width-odd")
    assert found.rank is Rank.DECIDE
    assert found.rule == "as-set-asks"
    assert found.by_how_much == inch("1/2")


def test_a_reading_that_leaves_no_box_is_not_taken_for_its_width() -> None:
    """A right edge left of the left one stands aside: the box reaches its width from the left edge."""
    layout = laid_out(with_set(row(), as_set(1, "1 3/4", "1 1/2")))
    assert places_of(run_named(layout, "A base"), 1) == ("1 3/4", "22 3/4")


def test_what_was_read_of_levels_and_the_wall_is_handed_on() -> None:
    """Tops below the line, distance off the wall and screws stand with the item."""
    read = {**as_set(1, "1 3/4"), "below_line_left": "1/8", "off_wall": "3/8", "screwed": True}
    item = run_named(laid_out(with_set(row(), read)), "A base").items[1]
    assert item.as_set is not None
    assert (item.as_set.below_line_left, item.as_set.below_line_right) == (inch("1/8"), None)
    assert (item.as_set.off_wall, item.as_set.screwed) == (inch("3/8"), True)
    assert item.as_set.right is None


def test_taking_a_box_out_restores_the_plan() -> None:
    """With the record of a set box gone the layout is what it was before."""
    job = row()
    there = with_set(job, as_set(1, "1 3/4", "22 13/16"))
    assert laid_out(with_record(there, set=[])) == laid_out(job)


# --- laws on invented kitchens ----------------------------------------------------------------------------


def _solved_boxes(layout: Layout) -> list[tuple[int, int, int]]:
    """Return number and joints of every box that has a place."""
    return [
        (item.number, item.left, item.right)
        for plan in layout.runs
        for item in plan.items
        if item.kind is ItemKind.BOX and item.left is not None and item.right is not None
    ]


@st.composite
def rooms_with_set_boxes(draw: st.DrawFn) -> tuple[Job, dict[int, tuple[int, int]]]:
    """Return an invented kitchen with some boxes set off where they were planned, and where those stand."""
    room: Invented = draw(invented())
    job = room.job()
    boxes = _solved_boxes(laid_out(job))
    assume(boxes)
    chosen = draw(st.lists(st.sampled_from(boxes), min_size=1, max_size=3, unique_by=lambda each: each[0]))
    stands, tables = {}, []
    for number, left, right in chosen:
        off = draw(st.integers(-4, 4)) * SIXTEENTH
        grown = draw(st.integers(-1, 2)) * SIXTEENTH // 2
        read_left, read_right = (
            max(0, round_to(place, SIXTEENTH // 4, Rounding.NEAREST_UP))  # what a tape can show
            for place in (left + off, right + off + grown)
        )
        stands[number] = (read_left, read_right)
        tables.append(as_set(number, *(show(place, Units.INCH) for place in stands[number])))
    return with_set(job, *tables), stands


@settings(deadline=None, max_examples=60)
@given(rooms_with_set_boxes())
def test_a_set_box_never_moves(room: tuple[Job, dict[int, tuple[int, int]]]) -> None:
    """Wherever a run can be solved its set boxes stand as read; at a shared joint within the two readings."""
    job, stands = room
    for number, left, right in _solved_boxes(laid_out(job)):
        if number not in stands:
            continue
        for at, read in zip((left, right), stands[number], strict=True):
            others = [edge for other, edges in stands.items() if other != number for edge in edges]
            reach = max((abs(read - edge) for edge in others if abs(read - edge) < 12 * SIXTEENTH), default=0)
            assert abs(at - read) <= reach


@settings(deadline=None, max_examples=40)
@given(rooms_with_set_boxes())
def test_a_run_with_set_boxes_is_solved_or_told(room: tuple[Job, dict[int, tuple[int, int]]]) -> None:
    """A run without places has a stop, and every other keeps its widths."""
    layout = laid_out(room[0])
    for plan in layout.runs:
        if not plan.solved:
            assert codes(layout) & {"run-too-short", "run-too-long", "rows-conflict", "places-conflict"}
            continue
        for item in plan.items:
            assert item.left is not None
            assert item.right is not None
            assert item.right - item.left >= item.least
            assert item.most is None or item.right - item.left <= item.most
