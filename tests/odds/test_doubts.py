"""Doubts of a plan: the risk of a higher spot, the next reading, and what is said of them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from tests.odds.invented_job import BOX, HEIGHT, job_read_at, plan_with
from tests.stages.floor.invented import Truth, wavy
from tests.tape import inch

from setline.job.read import load_job
from setline.odds import doubts
from setline.result import Doubts, HighSpotRisk, Rank
from setline.stages import plan

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
BOXES = 5
LINES = ("wall", "toe")
EVERY_15 = [(u, line) for line in LINES for u in range(0, BOX * BOXES + 1, 15)]
THREE_A_LINE = [(u, line) for line in LINES for u in (0, 75, 150)]
BEARINGS = [(float(u), out) for u in range(0, BOX * BOXES + 1, BOX) for out in (0.0, 20.875)]


def _as_read(truth: Truth, seed: int) -> Truth:
    """Return what a tape would read of a floor: good to 1/32, a slip a spot."""
    slips: dict[tuple[float, float], float] = {}
    chance = np.random.default_rng(1000 + seed)
    return lambda x, y: truth(x, y) + slips.setdefault((x, y), chance.normal(0, 1 / 32))


def _tops_over(read: Truth, spots: list[tuple[int, str]]) -> int:
    """Return the tops over the highest reading, up to the next 1/16."""
    high = max(round(read(u, 0.0 if line == "wall" else 20.875) * 32) for u, line in spots)
    return HEIGHT + -(-high // 2) * inch("1/16")


def _risk(job_doubts: Doubts) -> HighSpotRisk:
    """Return the risk, which is there."""
    assert job_doubts.high_spot is not None
    return job_doubts.high_spot


def test_a_floor_read_closely_is_settled() -> None:
    """With a reading at every box side the line will not move 1/16, and nothing is said."""
    job = job_read_at(wavy(4), EVERY_15)
    found = doubts(job, plan_with(_tops_over(wavy(4), EVERY_15)))
    assert _risk(found).settled
    assert _risk(found).odds_of_a_move < 0.05
    assert found.findings == ()
    assert len(found.next_readings) <= 1


def test_a_floor_read_at_its_ends_may_move_the_line() -> None:
    """With three readings a line a higher spot is likely between them; the watch says where to read first."""
    job = job_read_at(wavy(0), THREE_A_LINE)
    found = doubts(job, plan_with(_tops_over(wavy(0), THREE_A_LINE)))
    risk, (finding,) = _risk(found), found.findings
    assert not risk.settled
    assert risk.odds >= risk.odds_of_a_move >= 0.05
    assert risk.middle < risk.nine_in_ten
    assert (finding.code, finding.rank, finding.where) == ("line-may-move", Rank.WATCH, risk.where[0].point)
    assert finding.text == (
        "The floor under a box may stand more than 1/16 over the line's high spot: it does in "
        f"{round(100 * risk.odds_of_a_move)} of 100 floors that fit the readings. The high spot is at "
        f"{risk.where[0].point} in {round(100 * risk.where[0].odds)} of 100."
    )
    assert finding.remedies[0].text == found.next_readings[0].would_settle
    first = found.next_readings[0]
    assert first.would_settle.startswith(f"Read {first.spot}")
    assert first.within_after < first.within_before
    spots = [reading.spot for reading in found.next_readings]
    assert len(set(spots)) == len(spots)


def test_the_odds_are_how_often_it_happens() -> None:
    """Over invented floors a higher spot is there about as often as it was said to be."""
    said, happened = [], []
    for seed in range(40):
        truth, read = wavy(seed), _as_read(wavy(seed), seed)
        spots = [(u, line) for line in LINES for u in range(0, BOX * BOXES + 1, 25)]
        tops = _tops_over(read, spots)
        said.append(_risk(doubts(job_read_at(read, spots), plan_with(tops))).odds)
        happened.append(max(truth(x, y) for x, y in BEARINGS) * inch(1) > tops - HEIGHT)
    assert np.mean(said) == pytest.approx(np.mean(happened), abs=0.12)


def test_taking_the_reading_narrows_the_high_spot_as_told() -> None:
    """The floor read where it was told is then known within about what was told."""
    told, then = [], []
    for seed in range(8):
        read = _as_read(wavy(seed), seed)
        tops = _tops_over(read, THREE_A_LINE)
        found = doubts(job_read_at(read, THREE_A_LINE), plan_with(tops))
        if not found.next_readings:
            continue
        first = found.next_readings[0]
        spots = [*THREE_A_LINE, (first.u // inch(1), "toe" if first.out else "wall")]
        told.append(first.within_after)
        then.append(_risk(doubts(job_read_at(read, spots), plan_with(tops))).within)
    assert len(told) >= 4
    assert np.mean(then) == pytest.approx(np.mean(told), rel=0.2)


def test_the_next_reading_closes_the_hole() -> None:
    """Where one end of the wall was not read at all, that is where to read."""
    spots = [(u, line) for line in LINES for u in range(0, 76, 15)]
    found = doubts(job_read_at(lambda x, y: -48.0, spots), plan_with(HEIGHT - inch(48)))
    assert found.next_readings[0].u >= inch(105)
    assert not found.next_readings[0].again
    assert found.high_spot is not None
    assert not found.high_spot.settled


def test_the_same_job_has_the_same_doubts() -> None:
    """Chance has a fixed seed."""
    job = job_read_at(wavy(2), THREE_A_LINE)
    plan = plan_with(_tops_over(wavy(2), THREE_A_LINE))
    assert doubts(job, plan) == doubts(job, plan)


def test_a_higher_line_is_a_safer_one() -> None:
    """Raising the tops by 1/8 lowers the odds and moves every height under the line by as much."""
    job, tops = job_read_at(wavy(2), THREE_A_LINE), _tops_over(wavy(2), THREE_A_LINE)
    low, high = (_risk(doubts(job, plan_with(tops + rise))) for rise in (0, inch("1/8")))
    assert high.odds < low.odds
    assert high.middle == pytest.approx(low.middle - inch("1/8"), abs=1)
    assert high.within == low.within


def test_nothing_to_doubt_without_a_line_or_a_reading() -> None:
    """A job without readings, or a plan without a line, has no doubts to tell."""
    assert doubts(job_read_at(wavy(1), []), plan_with(HEIGHT)) == Doubts()
    assert doubts(job_read_at(wavy(1), THREE_A_LINE), plan_with(None)) == Doubts()


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_sample_kitchens_have_doubts_of_their_own_places(example: Path) -> None:
    """The spots named are bearing points of the plan, and readings lie under its runs."""
    job = load_job(example)
    planned = plan(job)
    found = doubts(job, planned)
    risk, shims = _risk(found), {shim.name: shim for shim in planned.shims}
    assert 0 <= risk.odds_of_a_move <= risk.odds <= 1
    assert risk.within > 0
    for spot in risk.where:
        assert (spot.wall, spot.u, spot.out) == (
            shims[spot.point].wall,
            shims[spot.point].u,
            shims[spot.point].out,
        )
    ends = {
        run.wall: (run.left_end.value or 0, run.right_end.value or 0)
        for run in planned.runs
        if run.row == "base"
    }
    for reading in found.next_readings:
        left, right = ends[reading.wall]
        assert left - inch(3) <= reading.u <= right + inch(3)
