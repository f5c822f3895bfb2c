"""The stage as a whole: from readings and runs to the floor as found, the band and the level line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.job.job import Job
from setline.job.readings import set_up_in_use
from setline.result import Figure, Finding, FloorAsFound, LevelLine, RunPlan
from setline.rules import RuleBook
from setline.stages.floor.band import Choice, choose_tops, lay_band
from setline.stages.floor.bearing import Bearing, Stood, bearing_points, stand
from setline.stages.floor.flatness import flatness_lines, slope_notes
from setline.stages.floor.grid import surface_grid
from setline.stages.floor.ground import Ground, GroundHeight, read_ground
from setline.stages.floor.high_spot import foot_limits, highest, spot_of
from setline.stages.floor.kick import kick_limits
from setline.stages.floor.laser_findings import laser_findings
from setline.stages.floor.level_line import FixedLine, clearance_of, fixed_line, set_up_lines
from setline.stages.floor.limit import Limit
from setline.stages.floor.line_findings import (
    ceiling_findings,
    choice_findings,
    fall_findings,
    fixed_line_findings,
    line_figure,
    no_line_findings,
)
from setline.stages.floor.opening_height import OpeningPoint, opening_limits, opening_points
from setline.stages.floor.overhead import ceiling_limits, sill_limits, standing_top_limits
from setline.stages.floor.reading_findings import reading_findings
from setline.stages.floor.trim import fall_of, fall_options
from setline.stages.floor.unread import unread_bearings, unread_findings, unread_openings
from setline.stages.room import Outline

__all__ = ["FloorResult", "find_level"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorResult:
    """The floor and the line, and what the shims are made from.

    Attributes:
        floor: The floor as found.
        level_line: The datum.
        ground: The floor as the boxes meet it: surface, coverings, and the number at any point.
        bearings: Every bearing point, ledgers among them.
        stood: Those on the floor, with the floor under each.
        findings: What somebody must know.
    """

    floor: FloorAsFound
    level_line: LevelLine
    ground: Ground
    bearings: tuple[Bearing, ...]
    stood: tuple[Stood, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Openings:
    """Places at openings and the bare floor at each."""

    points: tuple[OpeningPoint, ...]
    heights: tuple[GroundHeight, ...]


def find_level(job: Job, book: RuleBook, outline: Outline, runs: Sequence[RunPlan]) -> FloorResult:
    """Find the floor, the high spot, the band and the level line.

    Args:
        job: The job.
        book: Its rules.
        outline: The room.
        runs: The runs as laid out: the high spot counts only under bearing points.
    """
    ground = read_ground(job, book, outline)
    bearings = bearing_points(ground, runs)
    stood = stand(ground, bearings)
    points = opening_points(ground, runs)
    openings = _Openings(points=points, heights=ground.heights([(each.x, each.y) for each in points]))
    limits = _limits(ground, stood, openings, runs)
    line, findings = _line(ground, runs, stood, openings, limits)
    flatness = flatness_lines(ground)
    in_use = set_up_in_use(job.floor)
    return FloorResult(
        floor=FloorAsFound(
            set_up_in_use="" if in_use is None else in_use.name,
            spots=ground.spots,
            grid=surface_grid(ground),
            flatness=flatness,
        ),
        level_line=line,
        ground=ground,
        bearings=bearings,
        stood=stood,
        findings=(
            *findings,
            *laser_findings(job, book),
            *reading_findings(ground, runs, points),
            *ceiling_findings(ground, runs),
            *slope_notes(ground, flatness),
        ),
    )


def _limits(
    ground: Ground, stood: Sequence[Stood], openings: _Openings, runs: Sequence[RunPlan]
) -> list[Limit]:
    """Return every limit on the height of the tops."""
    return [
        *foot_limits(ground, stood),
        *opening_limits(ground, openings.points, openings.heights),
        *kick_limits(ground, stood),
        *ceiling_limits(ground, runs),
        *sill_limits(ground, runs),
        *standing_top_limits(ground),
    ]


def _line(
    ground: Ground,
    runs: Sequence[RunPlan],
    stood: Sequence[Stood],
    openings: _Openings,
    limits: Sequence[Limit],
) -> tuple[LevelLine, list[Finding]]:
    """Return the datum and what must be known of it."""
    job, book = ground.job, ground.book
    band = lay_band(limits, book, job.job.tape)
    choice, fixed = choose_tops(limits, job.job.tape), fixed_line(job, book)
    tops = _tops(ground, choice, fixed)
    clearance, high = clearance_of(job, book), highest(stood)
    fall = fall_of(ground, stood, tops.value, limits)
    options = fall_options(ground, fall, runs)
    line = LevelLine(
        tops=tops,
        clearance=clearance,
        high_spot=None if high is None else spot_of(ground, high),
        set_ups=set_up_lines(job, tops, clearance, fixed),
        band=band,
        options=options,
    )
    found: list[Finding] = []
    if fixed is not None:
        found.extend(fixed_line_findings(ground, band, fixed))
    elif choice is not None:
        found.extend(choice_findings(ground, band, choice))
    else:
        found.extend(no_line_findings(ground, bears=bool(stood) or _has_base_boxes(ground, runs)))
    found.extend(fall_findings(ground, fall, options))
    unread = [
        *unread_bearings(stood, tops.value),
        *unread_openings(ground, openings.points, openings.heights, tops.value),
    ]
    return line, found + (unread_findings(ground, unread) if ground.model is not None else [])


def _tops(ground: Ground, choice: Choice | None, fixed: FixedLine | None) -> Figure:
    """Return the height of the tops: of the line that holds, else of the band's."""
    if fixed is not None:
        return Figure(value=fixed.tops, readings=fixed.readings, working=fixed.working)
    return line_figure(ground, choice)


def _has_base_boxes(ground: Ground, runs: Sequence[RunPlan]) -> bool:
    """Return whether any box of a base run waits for a line."""
    boxes = {box.number for box in ground.job.order.boxes}
    return any(item.number in boxes for run in runs if run.row == "base" for item in run.items)
