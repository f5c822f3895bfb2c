"""The layout solver beside CP-SAT and HiGHS, and as runs grow.

Same rows, same wishes in the same strict order, same optimum, building the model included. Each run is given
to each solver several times in a row, and the median counts; the ratio is that of the medians over all runs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from statistics import median

from bench.measure import BenchRow, median_seconds, seconds
from bench.rivals import Reason, cp_sat_chain, cp_sat_reason, highs_chain, highs_reason
from bench.runs_at_random import InventedRun, invented_run, invented_runs
from setline.stages.layout.conflict import Conflict, conflicts
from setline.stages.layout.preference import follow
from setline.stages.layout.windows import windows

RUNS = 50
REPEATS = 5
REACH_CP_SAT = 20.0
REACH_HIGHS = 5.0
Answer = tuple[int, ...] | None


def our_chain(run: InventedRun) -> Answer:
    """Return what each wish comes to, every joint placed."""
    seen = windows(run.rows, run.nodes)
    if seen is None:
        return None
    came_to = follow(seen, run.wishes)
    seen.places()
    return came_to


def our_reason(run: InventedRun) -> tuple[Conflict, ...]:
    """Return every conflict of a run, by its fewest pieces and with its shortfall."""
    return conflicts(run.rows, run.nodes)


def run() -> list[BenchRow]:
    """Return the table's lines on the layout solver."""
    possible = [invented_run(seed, 8 + seed % 13) for seed in range(RUNS)]
    short = [invented_run(seed, 8 + seed % 13, possible=False) for seed in range(RUNS)]
    _agree(possible, short)
    return [
        *_beside("layout, 50 runs of 8 to 20 items", possible, our_chain, cp_sat_chain, highs_chain),
        *_beside("the reason, 50 runs too short", short, our_reason, cp_sat_reason, highs_reason),
        *_growth(),
    ]


def _agree(possible: Sequence[InventedRun], short: Sequence[InventedRun]) -> None:
    """See that all three come to the same before they are timed."""
    for each in possible:
        expected = our_chain(each)
        assert expected is not None, "a run that was to have a layout has none"
        assert cp_sat_chain(each) == expected, "CP-SAT comes to another optimum"
        assert highs_chain(each) == expected, "HiGHS comes to another optimum"
    for each in short:
        found = {(frozenset(conflict.pieces), conflict.shortfall) for conflict in our_reason(each)}
        for reason in (cp_sat_reason(each), highs_reason(each)):
            assert _holds(each, reason), "a rival's reason is none"
            assert len(found) > 1 or (frozenset(reason[0]), reason[1]) in found, "a rival's reason is another"


def _holds(run: InventedRun, reason: Reason) -> bool:
    """Return whether pieces cannot all be, though they could if any one were lifted."""
    pieces, shortfall = reason

    def can(kept: set[str]) -> bool:
        return windows([row for row in run.rows if row.piece in kept], run.nodes) is not None

    return shortfall > 0 and not can(pieces) and all(can(pieces - {piece}) for piece in pieces)


def _beside(
    what: str,
    runs: Sequence[InventedRun],
    ours: Callable[[InventedRun], object],
    cp_sat: Callable[[InventedRun], object],
    highs: Callable[[InventedRun], object],
) -> list[BenchRow]:
    """Time three ways through the same runs, each run by each in turn."""
    times: list[list[float]] = [[], [], []]
    for each in runs:
        for solver, taken in zip((ours, cp_sat, highs), times, strict=True):
            taken.append(median(seconds(partial(solver, each)) for _ in range(REPEATS)))
    own, by_cp_sat, by_highs = (median(taken) for taken in times)
    return [
        BenchRow(what=what, seconds=own, against="CP-SAT", ratio=by_cp_sat / own, reach=REACH_CP_SAT),
        BenchRow(what=what, seconds=own, against="HiGHS", ratio=by_highs / own, reach=REACH_HIGHS),
    ]


def _growth() -> list[BenchRow]:
    """Time runs as they grow: longer ones, and more of them."""
    longer = {items: _time_of(invented_run(7, items)) for items in (10, 40)}
    more = {boxes: _time_of(invented_runs(boxes // 10, 10)) for boxes in (10, 50, 200)}
    quadratic = (40 / 10) ** 2 * longer[10] / longer[40]
    rows = [
        BenchRow(what=f"layout, one run of {items} items", seconds=taken) for items, taken in longer.items()
    ]
    rows.append(
        BenchRow(what="one run of 40 items", against="growth by the square", ratio=quadratic, reach=1.0)
    )
    rows += [
        BenchRow(what=f"layout, {boxes} items in runs of 10", seconds=taken) for boxes, taken in more.items()
    ]
    for boxes in (50, 200):
        ratio = boxes / 10 * more[10] / more[boxes]
        rows.append(
            BenchRow(
                what=f"{boxes} items in runs of 10", against="growth with the runs", ratio=ratio, reach=0.8
            )
        )
    return rows


def _time_of(each: InventedRun) -> float:
    assert our_chain(each) is not None, "a run that was to have a layout has none"
    return median_seconds(partial(our_chain, each), 25)
