"""Planning again with as little change as can be, by hand and against an integer program."""

from __future__ import annotations

from random import Random

import pytest
from tests.stages.layout.random_runs import random_run
from tests.stages.layout.referees import IntegerProgram, satisfied
from tests.tape import inch

from setline.stages.layout.preference import Wish
from setline.stages.layout.replan import Keep, go_least_way, keep_most
from setline.stages.layout.row import Gives, Row, at_least, at_most, exactly
from setline.stages.layout.windows import Windows, windows

HALF_STEP = inch("1/32")


def _allowed(rows: list[Row], nodes: int) -> Windows:
    seen = windows(rows, nodes)
    assert seen is not None
    return seen


def _first_box_set() -> list[Row]:
    """Return the rows of a run of 99 whose first box was set from 1 1/2 to 19 9/16."""
    return [
        *exactly(0, 1, inch("1 1/2"), "as set", "as set left", Gives.FACT),
        *exactly(0, 2, inch("19 9/16"), "as set", "as set right", Gives.FACT),
        *exactly(2, 3, inch(12), "12", "box 2", Gives.WIDTH),
        *exactly(3, 4, inch(33), "33", "sink", Gives.WIDTH),
        at_least(4, 5, inch(24), "opening at least 24", "opening least", Gives.WINDOW_LEAST),
        at_most(4, 5, inch("24 1/4"), "opening at most 24 1/4", "opening most", Gives.WINDOW_MOST),
        *exactly(5, 6, inch(9), "9", "box 4", Gives.WIDTH),
        at_least(6, 7, inch("3/4"), "filler at least 3/4", "filler least", Gives.FILLER_LEAST),
        *exactly(0, 7, inch(99), "the wall", "wall", Gives.FACT),
    ]


@pytest.mark.arithmetic(
    "18 1/16 set for 18: joints 2, 3 and 4 move 1/16, the opening of 24 1/8 becomes 24 1/16"
)
def test_the_first_thing_that_can_give_takes_up_what_a_box_grew() -> None:
    """A box 1/16 wide moves three joints; the opening takes it up and everything beyond stands."""
    was = [inch(text) for text in ("1 1/2", "19 1/2", "31 1/2", "64 1/2", "88 5/8", "97 5/8", "99")]
    seen = _allowed(_first_box_set(), 8)
    keeps = [Keep(node, at - HALF_STEP + 1, at + HALF_STEP) for node, at in enumerate(was, start=1)]
    assert keep_most(seen, keeps) == (True, False, False, False, True, True, True)
    go_least_way(seen, [Wish(0, node, at) for node, at in enumerate(was, start=1)])
    expected = ("0", "1 1/2", "19 9/16", "31 9/16", "64 9/16", "88 5/8", "97 5/8", "99")
    assert seen.places() == tuple(inch(text) for text in expected)


def test_fewer_changes_win_over_earlier_marks() -> None:
    """Of three joints in a rigid row where the first disagrees with the other two, the two stand."""
    rows = [*exactly(1, 2, inch(10), "", "a", Gives.WIDTH), *exactly(2, 3, inch(10), "", "b", Gives.WIDTH)]
    seen = _allowed(rows, 4)
    keeps = [Keep(1, inch(9), inch(9)), Keep(2, inch(20), inch(20)), Keep(3, inch(30), inch(30))]
    assert keep_most(seen, keeps) == (False, True, True)


def test_struck_marks_stand_before_agreed_joints() -> None:
    """A second call keeps only what the first left open."""
    rows = [*exactly(1, 2, inch(10), "", "a", Gives.WIDTH), *exactly(2, 3, inch(10), "", "b", Gives.WIDTH)]
    seen = _allowed(rows, 4)
    assert keep_most(seen, [Keep(1, inch(9), inch(9))]) == (True,)
    assert keep_most(seen, [Keep(2, inch(20), inch(20)), Keep(3, inch(30), inch(30))]) == (False, False)


def test_a_joint_beyond_what_the_rows_allow_is_not_kept() -> None:
    """A mark outside its joint's window has to change, and only that one."""
    seen = _allowed(list(exactly(0, 1, inch(5), "", "fact", Gives.FACT)), 3)
    assert keep_most(seen, [Keep(1, inch(6), inch(6)), Keep(2, inch(8), inch(8))]) == (False, True)


def test_nothing_to_keep_changes_nothing() -> None:
    """Without marks there is nothing to keep."""
    assert keep_most(_allowed([], 1), []) == ()
    assert go_least_way(_allowed([], 1), []) == 0


@pytest.mark.parametrize("seeds", [range(60), range(60, 120)], ids=["first 60 runs", "next 60"])
def test_the_fewest_marks_change_and_go_the_least_way(seeds: range) -> None:
    """In runs at random as many marks stand as by integer programming, and the others go no further."""
    for seed in seeds:
        run = random_run(seed)
        seen = windows(run.rows, run.nodes)
        if seen is None:
            continue
        random = Random(seed)
        was = [place + random.choice((0, 0, 4064, -8128, 4064 * 9)) for place in seen.places()]
        nodes = random.sample(range(1, run.nodes), run.nodes - 1)
        keeps = [Keep(node, was[node] - 2032, was[node] + 2031) for node in nodes]
        program = IntegerProgram(run.rows, run.nodes)
        kept = keep_most(seen, keeps)
        assert sum(kept) == _most_kept(program, keeps)
        for keep, stands in zip(keeps, kept, strict=True):
            if stands:
                program.model.add_linear_constraint(program.place[keep.node], keep.least, keep.most)
        way = go_least_way(seen, [Wish(0, node, was[node]) for node in nodes])
        assert way == program.best(sum(program.departure(0, node, was[node]) for node in nodes))
        places = seen.places()
        assert satisfied(run.rows, places)
        assert sum(abs(places[node] - was[node]) for node in nodes) == way


def _most_kept(program: IntegerProgram, keeps: list[Keep]) -> int:
    """Return how many joints can stay in their windows; the program is left with idle numbers."""
    stands = []
    for node, least, most in keeps:
        stands.append(program.model.new_bool_var(""))
        program.model.add_linear_constraint(program.place[node], least, most).only_enforce_if(stands[-1])
    return -program.best(-sum(stands))
