"""The solver beside three that work otherwise, on 500 runs at random, half of them not possible."""

from __future__ import annotations

from random import Random

import networkx as nx
import pytest
from tests.stages.layout.random_runs import RandomRun, random_run
from tests.stages.layout.referees import (
    IntegerProgram,
    LinearProgram,
    graph_of,
    has_negative_circle,
    satisfied,
)

from setline.stages.layout.elastic import least_relaxation
from setline.stages.layout.preference import Wish, follow, share
from setline.stages.layout.row import Gives, Row
from setline.stages.layout.windows import Windows, windows

BATCHES = [range(start, start + 50) for start in range(0, 500, 50)]
batches = pytest.mark.parametrize(
    "seeds", BATCHES, ids=lambda seeds: f"runs {seeds.start} to {seeds.stop - 1}"
)


def _possible(seeds: range) -> list[tuple[RandomRun, Windows]]:
    """Return the runs that have a layout, with their windows."""
    runs = [(run, windows(run.rows, run.nodes)) for run in map(random_run, seeds)]
    return [(run, seen) for run, seen in runs if seen is not None]


def test_the_runs_at_random_are_a_fair_mix() -> None:
    """Many of the 500 have a layout, many have none, and many hold the centre of something that may vary."""
    runs = [random_run(seed) for seed in range(500)]
    possible = sum(windows(run.rows, run.nodes) is not None for run in runs)
    assert 175 <= possible <= 325
    assert 100 <= sum(run.has_centre for run in runs) <= 200


@batches
def test_the_same_runs_are_possible(seeds: range) -> None:
    """HiGHS and CP-SAT, and where no centre is held networkx, find a layout where there is one."""
    for run in map(random_run, seeds):
        possible = windows(run.rows, run.nodes) is not None
        assert LinearProgram(run.rows, run.nodes).is_possible() is possible
        assert (IntegerProgram(run.rows, run.nodes).solve() is not None) is possible
        if not run.has_centre:
            assert has_negative_circle(graph_of(run.rows, run.nodes)) is not possible


@batches
def test_every_window_is_the_same(seeds: range) -> None:
    """Earliest and latest of joints agree with HiGHS, all distances with networkx, and places satisfy."""
    for run, seen in _possible(seeds):
        assert satisfied(run.rows, seen.places())
        program = LinearProgram(run.rows, run.nodes)
        for node in range(1, run.nodes, 2):
            assert seen.latest(node) == program.most(0, node)
            assert seen.earliest(node) == _negative(program.most(node, 0))
        if run.has_centre:
            for low in range(1, run.nodes - 1):
                assert seen.most(low, low + 1) == program.most(low, low + 1)
        else:
            far = nx.floyd_warshall(graph_of(run.rows, run.nodes))
            for low in range(run.nodes):
                for high in range(run.nodes):
                    assert seen.most(low, high) == _finite(far[low][high])


def _negative(length: int | None) -> int | None:
    return None if length is None else -length


def _finite(length: float) -> int | None:
    return None if length == float("inf") else int(length)


@batches
def test_every_wish_of_a_chain_comes_to_the_same(seeds: range) -> None:
    """Followed in strict order, each wish takes the value that CP-SAT finds, stage by stage."""
    for run, seen in _possible(seeds):
        program = IntegerProgram(run.rows, run.nodes)
        expected = tuple(program.nearest(wish.low, wish.high, wish.target) for wish in run.wishes)
        assert follow(seen, run.wishes) == expected
        assert satisfied(run.rows, seen.places())


@batches
def test_no_share_can_be_more_equal(seeds: range) -> None:
    """With the greatest departures held one by one, CP-SAT finds that of the rest no less, to a tick."""
    for run, seen in _possible(seeds):
        widths = share(seen, run.fillers)
        assert satisfied(run.rows, seen.places())
        if run.has_centre:  # widths beside a held centre are even, which the program does not know
            continue
        shares = list(zip(run.fillers, widths, strict=True))
        shares.sort(key=lambda each: -abs(each[1] - each[0].target))
        program = IntegerProgram(run.rows, run.nodes)
        for place, (wish, width) in enumerate(shares):
            least = _least_greatest(program, [other for other, _ in shares[place:]])
            assert 0 <= abs(width - wish.target) - least <= 1
            program.model.add(program.place[wish.high] - program.place[wish.low] == width)


def _least_greatest(program: IntegerProgram, group: list[Wish]) -> int:
    """Return the least departure that all widths of a group can keep within."""
    greatest = program.model.new_int_var(0, 1 << 28, "")
    for wish in group:
        program.model.add(greatest >= program.departure(*wish[:3]))
    return program.best(greatest)


@batches
def test_what_must_give_is_the_same_in_sum(seeds: range) -> None:
    """The least sum by which things of a kind must give is HiGHS's, or neither finds that they suffice."""
    for seed in seeds:
        run, random = random_run(seed), Random(seed)
        kinds = set(random.sample(list(Gives), 3))
        most = random.choice((None, 40640))

        def may_give(row: Row, kinds: set[Gives] = kinds, most: int | None = most) -> int | None:
            return most if row.gives in kinds else 0

        cure = least_relaxation(run.rows, run.nodes, may_give)
        expected = LinearProgram(run.rows, run.nodes).least_given([may_give(row) for row in run.rows])
        assert (cure is None) is (expected is None)
        if cure is not None and expected is not None:
            rounded = len(cure.given) if run.has_centre else 0  # up to the next even tick, each
            assert expected - 0.5 <= cure.total <= expected + rounded + 0.5
            assert satisfied(cure.rows, cure.places)
            assert all(row.gives in kinds and by <= (most or by) for row, by in cure.given)
