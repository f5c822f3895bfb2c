"""Which marks can lie on whole steps, by hand and against an integer program."""

from __future__ import annotations

from random import Random

import pytest
from tests.stages.layout.random_runs import random_run
from tests.stages.layout.referees import IntegerProgram, satisfied
from tests.tape import inch, mm

from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly
from setline.stages.layout.whole_marks import WholeMark, lay_on_steps
from setline.stages.layout.windows import Windows, windows

STEP = inch("1/16")


def _allowed(rows: list[Row], nodes: int) -> Windows:
    seen = windows(rows, nodes)
    assert seen is not None
    return seen


def test_an_opening_that_may_grow_a_little_lies_on_whole_steps() -> None:
    """An opening wished at 24 1/8 from 65 3/32 on is laid at 65 1/8, of two equally near the greater."""
    rows = [
        at_least(0, 1, inch("65 1/16"), "", "start", Gives.FACT),
        at_most(0, 1, inch("65 1/8"), "", "start", Gives.FACT),
        *exactly(1, 2, inch("24 1/8"), "", "opening", Gives.WISH),
    ]
    seen = _allowed(rows, 3)
    marks = [WholeMark(1, 0, inch("65 3/32")), WholeMark(2, 0, inch("89 7/32"))]
    assert lay_on_steps(seen, marks, STEP) == (True, True)
    assert seen.places() == (0, inch("65 1/8"), inch("89 1/4"))


def test_of_two_marks_a_fixed_odd_width_apart_the_first_lies_on_a_step() -> None:
    """A box of 600 mm has one edge on a sixteenth; the mark named first is it."""
    rows = [*exactly(1, 2, mm(600), "", "box", Gives.WIDTH), at_least(0, 1, 0, "", "wall", Gives.FACT)]
    left, right = WholeMark(1, 0, inch(3)), WholeMark(2, 0, inch("26 5/8"))
    seen = _allowed(rows, 3)
    assert lay_on_steps(seen, [left, right], STEP) == (True, False)
    assert seen.earliest(1) == seen.latest(1) == inch(3)
    seen = _allowed(rows, 3)
    assert lay_on_steps(seen, [right, left], STEP) == (True, False)
    assert seen.latest(2) == inch("26 5/8")


def test_a_mark_at_a_body_edge_counts_with_its_overhang() -> None:
    """With an overhang of 5/32 the joint stands 5/32 off the step, and the mark on it."""
    seen = _allowed(
        [at_least(0, 1, inch(3), "", "a", Gives.FACT), at_most(0, 1, inch(4), "", "b", Gives.FACT)], 2
    )
    assert lay_on_steps(seen, [WholeMark(1, inch("5/32"), inch("3 1/2"))], STEP) == (True,)
    assert seen.latest(1) == inch("3 17/32")


def test_a_centre_off_the_steps_can_still_have_both_edges_on_them() -> None:
    """An opening centred on a thirty-second lies on sixteenths if its width may be an odd number of them."""
    rows = [
        at_least(1, 2, inch(30), "", "least", Gives.WINDOW_LEAST),
        at_most(1, 2, inch("30 1/8"), "", "most", Gives.WINDOW_MOST),
        *centred(1, 2, 2 * inch("48 1/32"), "", "centre", Gives.PIN),
    ]
    seen = _allowed(rows, 3)
    marks = [WholeMark(1, 0, inch("33 1/32")), WholeMark(2, 0, inch("63 1/32"))]
    assert lay_on_steps(seen, marks, STEP) == (True, True)
    assert seen.places() == (0, inch(33), inch("63 1/16"))


def test_a_centre_off_the_steps_and_a_fixed_width_have_neither_edge_on_them() -> None:
    """Centred on a sixty-fourth, no width in whole or half steps brings an edge to a sixteenth."""
    rows = [
        at_least(1, 2, inch(30), "", "least", Gives.WINDOW_LEAST),
        at_most(1, 2, inch(30), "", "most", Gives.WINDOW_MOST),
        *centred(1, 2, 2 * inch("48 1/64"), "", "centre", Gives.PIN),
    ]
    seen = _allowed(rows, 3)
    marks = [WholeMark(1, 0, inch(33)), WholeMark(2, 0, inch(63))]
    assert lay_on_steps(seen, marks, STEP) == (False, False)


def test_no_marks_are_no_question() -> None:
    """Without marks nothing is laid."""
    assert lay_on_steps(_allowed([], 1), [], STEP) == ()


def _most_by_integer_program(
    rows: tuple[Row, ...], nodes: int, marks: list[WholeMark], step: int
) -> tuple[bool, ...]:
    """Return which marks lie on steps if as many as can be do, the earlier ones first among as many."""
    program = IntegerProgram(rows, nodes)
    lies = []
    for mark in marks:
        count = program.model.new_int_var(-(1 << 20), 1 << 20, "")
        lies.append(program.model.new_bool_var(""))
        program.model.add(program.place[mark.node] + mark.offset == step * count).only_enforce_if(lies[-1])
    worth = [(1 << len(marks)) * 2 + (1 << place) for place in range(len(marks))][::-1]
    program.model.maximize(sum(each * weight for each, weight in zip(lies, worth, strict=True)))
    solver = program.solve()
    assert solver is not None
    return tuple(bool(solver.value(each)) for each in lies)


@pytest.mark.parametrize("seeds", [range(60), range(60, 120)], ids=["first 60 runs", "next 60"])
def test_as_many_marks_lie_on_steps_as_an_integer_program_finds(seeds: range) -> None:
    """In runs at random the same marks lie on steps as by integer programming, and the rows still hold."""
    for seed in seeds:
        run = random_run(seed)
        seen = windows(run.rows, run.nodes)
        if seen is None:
            continue
        random = Random(seed)
        nodes = random.sample(range(1, run.nodes), min(run.nodes - 1, 6))
        step = random.choice((STEP, 4 * STEP))
        marks = [
            WholeMark(node, 2 * random.randint(-99, 99) * (seed % 3), random.randint(0, inch(60)))
            for node in nodes
        ]
        found = lay_on_steps(seen, marks, step)
        assert found == _most_by_integer_program(run.rows, run.nodes, marks, step)
        places = seen.places()
        assert satisfied(run.rows, places)
        assert all(
            (places[mark.node] + mark.offset) % step == 0 for mark, on in zip(marks, found, strict=True) if on
        )
