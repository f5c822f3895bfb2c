"""How sure a plan is: the risk of a higher spot than the one the line was set by, and what to read next.

Slower than ``plan`` (it draws two thousand floors that the readings allow), so it stands apart and is shown
when ready. It rebuilds the fitted floor from the job by the same public functions that made the plan.
"""

from __future__ import annotations

from setline.job.job import Job, tape_of
from setline.odds.drawn import draw_floors
from setline.odds.high_spot import high_spot_risk
from setline.odds.next_reading import next_readings, reading_spots
from setline.odds.told import risk_findings
from setline.result import Doubts, Plan, ShimKind
from setline.rules import rule_book
from setline.stages.floor.bearing import bearing_points
from setline.stages.floor.ground import read_ground
from setline.stages.room import outline

__all__ = ["doubts"]


def doubts(job: Job, plan: Plan) -> Doubts:
    """Return how sure a plan is.

    Args:
        job: The job.
        plan: What ``plan`` made of it.

    Returns:
        The risk of a higher spot, the readings that would help the line most, and findings of its own; empty
        where no line stands or nothing was read. The same for the same job: its chance has a fixed seed.
    """
    book = rule_book(job.rules, tape=tape_of(job))
    ground = read_ground(job, book, outline(job, book))
    bearings = [each for each in bearing_points(ground, plan.runs) if each.kind is not ShimKind.LEDGER]
    tops = plan.level_line.tops.value
    if ground.model is None or tops is None or not bearings:
        return Doubts()
    spots = reading_spots(ground, plan.runs, bearings)
    floors = draw_floors(ground, ground.model, bearings, spots)
    risk = high_spot_risk(floors.asked, bearings, tops, job.job.tape)
    readings = next_readings(floors, spots, doubt=ground.doubt, units=job.job.tape, settled=risk.settled)
    return Doubts(
        high_spot=risk,
        next_readings=readings,
        findings=risk_findings(risk, readings, book, job.job.tape),
    )
