"""What differs between two plans, told row by row; what a yes, a struck mark and a set box write down."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from tests.changed_job import with_changes
from tests.rooms import plain_room
from tests.tape import inch

from setline import plan
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.lengths import Units, show
from setline.result import Change, ItemPlace, Mark, Plan, Rank
from setline.stages.changes import ChangeKind, PlanChange, changes, edge_said
from setline.stages.other_ways import other_ways
from setline.stages.recording import (
    EdgeAsSet,
    agree_all,
    edge_to_read,
    item_in,
    set_box,
    stray_marks,
    strike,
    strike_line,
    strike_out,
    take_out,
)
from setline.told import wall_differs


def _mark(planned: Plan, name: str) -> Mark:
    return next(mark for run in planned.runs for mark in run.marks if mark.name == name)


def _width(item: ItemPlace) -> int:
    assert item.left is not None
    assert item.right is not None
    return item.right - item.left


@cache
def room(*, framed: bool = False) -> tuple[Job, Plan]:
    """Return the plain room with everything agreed, the line and every mark struck, and its plan."""
    document = plain_room()
    if framed:
        for each in document["order"]["boxes"]:
            each |= {"overhang_left": "1/8", "overhang_right": "1/8"}
    job = job_from_dict(document)
    planned = plan(job)
    written = [*agree_all(planned, job.record), *strike_line(planned)]
    written += [change for run in planned.runs for mark in run.marks for change in strike(mark, Units.INCH)]
    job = with_changes(job, written)
    return job, plan(job)


def with_first_box(by: str = "1/16", *, framed: bool = False) -> tuple[Job, Plan, Plan]:
    """Return the room with box 1 set that much wide at its right edge, its plan before and after."""
    job, before = room(framed=framed)
    planned = {side: edge_to_read(before, 1, side) for side in ("left", "right")}
    assert planned["left"] is not None
    assert planned["right"] is not None
    right = show(inch(planned["right"].at) + inch(by), Units.INCH)
    edges = (planned["left"], replace(planned["right"], at=right, how="read"))
    job = with_changes(job, set_box(before, 1, edges))
    return job, before, plan(job)


def rows_of(rows: tuple[PlanChange, ...], kind: ChangeKind) -> list[PlanChange]:
    """Return the rows of one kind."""
    return [row for row in rows if row.kind is kind]


def test_a_plan_agreed_and_struck_as_it_is_changes_nothing() -> None:
    """A yes to everything and every mark on the wall: the plan says the same, and the wall agrees with it."""
    job = job_from_dict(plain_room())
    assert changes(plan(job), room()[1]) == ()
    assert wall_differs(room()[1]) == ()


def test_the_level_line_stays_as_agreed() -> None:
    """The line that was agreed and struck is the one that the plan had."""
    job, planned = room()
    before = plan(job_from_dict(plain_room()))
    assert planned.level_line.tops.value == before.level_line.tops.value
    assert job.record.agreed_line is not None
    assert job.record.struck_lines[0].down.ticks == before.level_line.set_ups[0].printed_strike


def test_a_wide_box_is_told_with_all_that_it_moves() -> None:
    """First the box with its width, then the marks on the wall that move, each with what to write."""
    _, before, after = with_first_box()
    rows = changes(before, after)
    assert rows[0].kind is ChangeKind.SET
    assert rows[0].text.startswith("Box 1 went in 18 1/16 wide: right edge ")
    marks = rows_of(rows, ChangeKind.MARK)
    assert marks
    for row in marks:
        assert row.was is not None
        assert row.now == row.was + inch("1/16")
        assert row.on_wall
        assert row.text.startswith(f"ON THE WALL: strike out {show(row.was, Units.INCH)}, write ")
    assert {row.name for row in rows_of(rows, ChangeKind.MARK)} == {
        mark.name
        for run in after.runs
        for mark in run.marks
        if mark.printed != mark.struck and mark.name != "A base 2 left"
    }


def test_a_mark_where_a_box_stands_has_no_row() -> None:
    """Nobody sets anything to the right edge of box 1 again: it is told with the box, not as a mark."""
    _, before, after = with_first_box()
    assert "A base 2 left" not in {row.name for row in changes(before, after)}
    assert _mark(after, "A base 2 left").printed != _mark(before, "A base 2 left").printed


def test_widths_that_change_are_told_with_what_they_may_be() -> None:
    """Every opening and filler of another width has a row with its window, and no other thing has one."""
    _, before, after = with_first_box()
    rows = {
        int(row.name): row
        for row in changes(before, after)
        if row.kind in (ChangeKind.OPENING, ChangeKind.FILLER)
    }
    was = {item.number: _width(item) for run in before.runs for item in run.items}
    now = {item.number: _width(item) for run in after.runs for item in run.items}
    assert set(rows) == {number for number in now if now[number] != was[number]} - {1}
    assert all((row.was, row.now) == (was[number], now[number]) for number, row in rows.items())
    assert all(row.text.startswith(("wants ", "may be ")) for row in rows.values())


def test_the_wall_says_other_numbers_until_they_are_struck() -> None:
    """One sentence a wall: how far they differ and from where on; gone once the new numbers are struck."""
    job, before, after = with_first_box()
    (differs,) = wall_differs(after)
    rows = rows_of(changes(before, after), ChangeKind.MARK)
    first = min(row.was for row in rows if row.was is not None)
    assert differs.text == f"Wall A: plan and wall differ by 1/16 from {show(first, Units.INCH)} on."
    assert {mark.name for mark in differs.marks} == {row.name for row in rows}
    anew = [change for mark in differs.marks for change in strike(mark, Units.INCH)]
    assert wall_differs(plan(with_changes(job, anew))) == ()


def test_a_yes_writes_only_what_differs() -> None:
    """Agreed once, a second yes writes nothing; after a box was set it writes the marks that moved."""
    job, before = room()
    assert agree_all(before, job.record) == ()
    job, _, after = with_first_box()
    written = agree_all(after, job.record)
    assert {change.place[2] for change in written} == {
        mark.name for run in after.runs for mark in run.marks if mark.printed != mark.agreed
    }
    agreed = with_changes(job, written)
    assert agree_all(plan(agreed), agreed.record) == ()


def test_a_yes_lets_go_of_marks_that_are_gone() -> None:
    """What was agreed of an item that stands in no run any more is taken back; on the wall it is told."""
    job, _ = room()
    place = ("runs", "A base", "items")
    kept = [number for number in job.runs[0].items if number != 4]
    job = with_changes(job, [Change(place=place, value=kept)])
    planned = plan(job)
    gone = {change.place[2] for change in agree_all(planned, job.record) if change.value is None}
    assert gone == {"A base 4 left"}
    assert [name for name, _ in stray_marks(planned, job.record)] == ["A base 4 left"]
    after = with_changes(job, strike_out("A base 4 left"))
    assert stray_marks(planned, after.record) == ()


def test_an_edge_that_was_not_read_is_agreed_as_planned() -> None:
    """Set without a reading and without a mark, a box stands where the plan had it."""
    job = job_from_dict(plain_room())
    before = plan(job)
    after_job = with_changes(job, set_box(before, 2, below_line_left="1/8", screwed=True))
    found = item_in(plan(after_job), 2)
    was = item_in(before, 2)
    assert found is not None
    assert was is not None
    assert (found[1].left, found[1].right, found[1].is_set) == (was[1].left, was[1].right, True)
    assert {each.name for each in after_job.record.agreed} == {"A base 2 left", "A base 3 left"}
    assert after_job.record.set[0].screwed


def test_the_edge_to_read_is_the_one_that_the_mark_names() -> None:
    """Beside a filler it is the body's, between two boxes the frame's."""
    _, planned = room(framed=True)
    left, right = edge_to_read(planned, 1, "left"), edge_to_read(planned, 1, "right")
    assert left is not None
    assert right is not None
    assert (left.of, right.of) == ("body", "frame")
    assert inch(left.at) == _mark(planned, "A base 1 left").printed
    assert edge_to_read(planned, 999, "left") is None


def test_taking_a_box_out_restores_the_plan() -> None:
    """All that was recorded goes, and with it every change."""
    job, before, _ = with_first_box()
    back = with_changes(job, take_out(1))
    assert back.record.set == ()
    assert changes(before, plan(back)) == ()
    _, _, after = with_first_box()
    assert next(row.text for row in changes(after, plan(back))) == "Box 1 came out again."


def test_shims_of_a_set_box_are_done() -> None:
    """They are asked for no more, and no row tells of them."""
    _, before, after = with_first_box()
    assert {shim.box for shim in after.shims if shim.is_done} == {1}
    assert not any(shim.is_done for shim in before.shims)
    assert all(not row.name.startswith("1 ") for row in rows_of(changes(before, after), ChangeKind.SHIM))


@pytest.mark.parametrize(
    ("below", "rank", "words"),
    [
        ("1/8", None, ""),
        ("5/32", None, ""),
        ("3/16", Rank.WATCH, "Box 1 stands 1/16 below the level line at its front left."),
        ("5/16", Rank.DECIDE, "Box 1 stands 3/16 below the level line at its front left."),
        ("0", Rank.WATCH, "Box 1 stands 1/8 above the level line at its front left."),
    ],
)
def test_a_top_off_the_line_is_told_with_what_to_do(below: str, rank: Rank | None, words: str) -> None:
    """The line is struck 1/8 above the tops: what is read beyond the rule is a watch, then a choice."""
    job, before = room()
    after = plan(with_changes(job, set_box(before, 1, below_line_left=below)))
    found = [each for each in after.findings if each.code == "set-top-off"]
    assert [each.rank for each in found] == ([] if rank is None else [rank])
    for each in found:
        assert each.text == words
        assert [remedy.kind for remedy in each.remedies] == ["lift-set-box"]


def test_marks_are_called_by_the_edge_they_name() -> None:
    """The last mark of a run is the last item's right edge; beside a filler it is the box's body."""
    _, planned = room(framed=True)
    base = planned.runs[0]
    said = [edge_said(base, place) for place in range(len(base.marks))]
    assert said[1] == "box 1 left edge"
    assert said[-1].endswith(" right edge")


def test_other_ways_keep_what_the_plan_gives_up() -> None:
    """A planed stile leaves every mark and the sink where they were; the last way is to take the box out."""
    job, before, after = with_first_box(framed=True)
    ways = other_ways(job, before, after)
    assert ways[0].kind == "scribe-stile"
    assert ways[0].text == "Take 1/16 off the stile of box 2."
    assert "Every mark stays." in ways[0].keeps
    assert ways[-1].kind == "take-out-box"
    for way in ways:
        assert plan(with_changes(job, way.change)) == way.plan
        assert all(run.solved for run in way.plan.runs)
    assert rows_of(changes(before, ways[0].plan), ChangeKind.MARK) == []


def test_where_nothing_moved_there_is_no_other_way() -> None:
    """A box set on its marks leaves nothing to choose."""
    job, before = room()
    edges = [edge for side in ("left", "right") if (edge := edge_to_read(before, 1, side))]
    assert all(isinstance(edge, EdgeAsSet) for edge in edges)
    job = with_changes(job, set_box(before, 1, edges))
    after = plan(job)
    assert [row.text for row in changes(before, after)] == ["Box 1 stands on its marks."]
    assert other_ways(job, before, after) == ()


def test_a_run_that_fits_no_more_says_why() -> None:
    """A box set far too far right leaves no room for the rest; the row is the conflict's own sentence."""
    _, before, after = with_first_box("9")
    (row,) = rows_of(changes(before, after), ChangeKind.RUN)
    assert row.name == "A base"
    assert "box 1 (set: " in row.text
