"""Why a run cannot be, by hand and for runs at random."""

from __future__ import annotations

from itertools import count

import pytest
from tests.stages.layout.random_runs import random_run
from tests.stages.layout.referees import graph_of
from tests.tape import inch

from setline.stages.layout.conflict import Conflict, Trouble, conflicts
from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly
from setline.stages.layout.windows import windows


def sink_run(right_filler_most: str) -> list[Row]:
    """Return filler, 24, 18, filler, a 36 sink centred at 61 3/8 and a filler to the wall at 105 3/4."""
    return [
        at_least(0, 1, inch("3/4"), "scribe filler at least 3/4", "filler 1 least", Gives.FILLER_LEAST),
        *exactly(1, 2, inch(24), "24", "box 2", Gives.WIDTH),
        *exactly(2, 3, inch(18), "18", "box 3", Gives.WIDTH),
        at_least(3, 4, inch("1 1/8"), "pull filler at least 1 1/8", "filler 4 least", Gives.FILLER_LEAST),
        *exactly(4, 5, inch(18), "half of the 36 sink box (18)", "box 5", Gives.WIDTH),
        *exactly(0, 5, inch("61 3/8"), "window centre", "pin", Gives.PIN),
        *exactly(5, 6, inch(18), "half of the 36 sink box (18)", "box 5", Gives.WIDTH),
        at_most(6, 7, inch(right_filler_most), "right filler at most", "filler 6 most", Gives.FILLER_MOST),
        at_least(6, 7, inch("3/4"), "right filler at least 3/4", "filler 6 least", Gives.FILLER_LEAST),
        *exactly(0, 7, inch("105 3/4"), "the wall", "wall", Gives.FACT),
    ]


@pytest.mark.arithmetic("3/4 + 24 + 18 + 1 1/8 + 18 = 61 7/8, 1/2 more than 61 3/8")
def test_a_run_before_a_pinned_sink_is_half_an_inch_short() -> None:
    """The pieces between wall and window centre are told from left to right with what they miss."""
    (found,) = conflicts(sink_run("30"), 8)
    assert (found.trouble, found.shortfall) == (Trouble.SHORT, inch("1/2"))
    assert (found.room, found.needed) == (inch("61 3/8"), inch("61 7/8"))
    assert [row.label for row in found.rows] == [
        "scribe filler at least 3/4",
        "24",
        "18",
        "pull filler at least 1 1/8",
        "half of the 36 sink box (18)",
        "window centre",
    ]


@pytest.mark.arithmetic("105 3/4 - 61 3/8 - 18 - 6 = 20 3/8 left over on the right")
def test_both_conflicts_of_a_run_are_told_and_too_little_room_comes_first() -> None:
    """A filler too narrow on the right does not hide that the left is short."""
    short, over = conflicts(sink_run("6"), 8)
    assert (short.trouble, short.shortfall) == (Trouble.SHORT, inch("1/2"))
    assert (over.trouble, over.shortfall) == (Trouble.OVER, inch("20 3/8"))
    assert (over.room, over.needed) == (inch("44 3/8"), inch(24))


@pytest.mark.arithmetic("96 - 2 x 33 1/4 = 29 1/2, 1/2 less than 30; the edge counts twice, so 1/4 of edge")
def test_a_centred_opening_says_what_it_lacks_in_width() -> None:
    """The doubled circle of a held centre counts the shortfall once and the edge that closes it twice."""
    rows = [
        at_least(1, 2, inch(30), "opening at least 30", "least", Gives.WINDOW_LEAST),
        at_most(1, 2, inch(31), "opening at most 31", "most", Gives.WINDOW_MOST),
        *centred(1, 2, 2 * inch(48), "centre at 48", "centre", Gives.PIN),
        at_least(0, 1, inch("33 1/4"), "left edge at least 33 1/4", "left", Gives.FACT),
    ]
    (found,) = conflicts(rows, 3)
    assert (found.trouble, found.shortfall) == (Trouble.SHORT, inch("1/2"))
    assert {row.piece: uses for row, uses in zip(found.rows, found.uses, strict=True)} == {
        "least": 1,
        "centre": 1,
        "left": 2,
    }


@pytest.mark.arithmetic("26 + 2 - (42 - 15) = 1, 1/4 more than the 3/4 it may be pulled")
def test_a_blind_corner_that_cannot_be_pulled_far_enough_is_a_quarter_short() -> None:
    """The pull and what is to be seen contradict each other by a quarter."""
    rows = [
        at_most(0, 1, inch("3/4"), "pull at most 3/4", "pull", Gives.WINDOW_MOST),
        at_least(0, 1, inch(26) + inch(2) - inch(27), "15 to be seen", "blind", Gives.FACT),
    ]
    (found,) = conflicts(rows, 2)
    assert found.shortfall == inch("1/4")


def test_two_pins_that_contradict_each_other_are_a_conflict_without_pieces() -> None:
    """Where only places contradict each other, the room is short by their difference."""
    rows = [
        *exactly(0, 1, inch(30), "pin at 30", "pin 1", Gives.PIN),
        *exactly(0, 1, inch(31), "pin at 31", "pin 2", Gives.PIN),
    ]
    found = conflicts(rows, 2)
    assert [(each.trouble, each.shortfall) for each in found] == [(Trouble.SHORT, inch(1))]


def test_conflicts_of_runs_that_share_nothing_are_all_told() -> None:
    """Each of two short runs is told, whichever comes first."""
    one = sink_run("30")
    other = [
        row._replace(low=row.low and row.low + 7, high=row.high and row.high + 7, piece=f"{row.piece} B")
        for row in one
    ]
    assert [each.shortfall for each in conflicts([*one, *other], 15)] == [inch("1/2")] * 2


def _assert_irreducible(found: Conflict, nodes: int) -> None:
    """Assert that rows cannot hold together and can with any one of their pieces lifted."""
    assert found.shortfall > 0
    assert windows(found.rows, nodes) is None
    for piece in found.pieces:
        assert windows([row for row in found.rows if row.piece != piece], nodes) is not None


def _assert_exact(found: Conflict, nodes: int) -> None:
    """Assert that each row cures the conflict by giving its part of the shortfall, and by no less.

    Beside a held centre rows between two joints count in even numbers of ticks.
    """
    has_centre = any(row.form for row in found.rows)
    for number, (row, uses) in enumerate(zip(found.rows, found.uses, strict=True)):
        enough = -(-found.shortfall // uses)
        for by in (enough, enough - 1):
            rows = list(found.rows)
            rows[number] = row._replace(at_most=row.at_most + by)
            if not (has_centre and rows[number].at_most % 2):
                assert (windows(rows, nodes) is not None) is (by == enough)


BATCHES = [range(start, start + 50) for start in range(0, 500, 50)]


@pytest.mark.parametrize("seeds", BATCHES, ids=lambda seeds: f"runs {seeds.start} to {seeds.stop - 1}")
def test_every_conflict_is_closed_negative_and_irreducible(seeds: range) -> None:
    """In 500 runs at random every conflict is real and as short as can be, and lifting ends them all."""
    for seed in seeds:
        run = random_run(seed)
        found = conflicts(run.rows, run.nodes)
        assert bool(found) is (windows(run.rows, run.nodes) is None)
        assert [each.trouble for each in found] == sorted((each.trouble for each in found), reverse=True)
        for each in found:
            _assert_irreducible(each, run.nodes)
            _assert_exact(each, run.nodes)
        lifted = {each.softest for each in found}
        assert windows([row for row in run.rows if row.piece not in lifted], run.nodes) is not None


@pytest.mark.parametrize("seeds", BATCHES[:4], ids=lambda seeds: f"runs {seeds.start} to {seeds.stop - 1}")
def test_the_first_conflict_has_the_fewest_rows(seeds: range) -> None:
    """No circle of fewer rows is negative: paths of fewer steps, lengthened one by one, close none."""
    for seed in seeds:
        run = random_run(seed)
        found = conflicts(run.rows, run.nodes)
        if run.has_centre or not found:
            continue
        fewest = min(len(each.rows) for each in found)
        arcs = list(graph_of(run.rows, run.nodes).edges(data="weight"))
        for steps in count(1):
            if _closes_below_nothing(arcs, run.nodes, steps):
                assert fewest == steps
                break


def _closes_below_nothing(arcs: list[tuple[int, int, int]], nodes: int, steps: int) -> bool:
    """Return whether some closed walk of at most so many arcs has a negative length."""
    for start in range(nodes):
        reached = {start: 0}
        for _ in range(steps):
            longer = dict(reached)
            for tail, head, length in arcs:
                if tail in reached and reached[tail] + length < longer.get(head, reached[tail] + length + 1):
                    longer[head] = reached[tail] + length
            reached = longer
        if reached[start] < 0:
            return True
    return False
