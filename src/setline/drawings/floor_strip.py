"""The floor along one wall, as found, drawn under its elevation with its falls made plain to see."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setline.drawings.floor_numbers import floor_zero, is_known, spot_height, spot_number
from setline.drawings.labels import Candidate, Label
from setline.drawings.running import RowPlan, RunningMark, draw_row, plan_row
from setline.drawings.scale import on_paper
from setline.drawings.shapes import Layer, Point, Scale
from setline.drawings.sketch import Sketch
from setline.drawings.symbols import draw_solid_side
from setline.lengths import TICKS_PER_INCH, Units
from setline.result import FloorSpot, Plan, WallLine
from setline.wording import say

__all__ = ["FloorStrip", "draw_strip", "plan_strip"]

_AT_THE_WALL = 6 * TICKS_PER_INCH
"""Readings no farther out than this belong to the line at the wall."""
_PROFILE = 7.0
"""Height that the falls are drawn to, at most. [mm]"""
_TITLE = 3.6


@dataclass(frozen=True, slots=True)
class FloorStrip:
    """A floor strip as it will be drawn.

    Attributes:
        spots: The readings at the wall, left to right.
        zero: Height that falls are counted from, if it is known.
        times: How many times as high as the scale the falls are drawn.
        profile: Height of the profile on paper.
        row: How the numbers under it are laid.
        height: The whole strip on paper.
    """

    spots: tuple[FloorSpot, ...]
    zero: int | None
    times: int
    profile: float
    row: RowPlan
    height: float


def plan_strip(
    plan: Plan, wall: WallLine, scale: Scale, left: float, room: tuple[float, float]
) -> FloorStrip:
    """Return a wall's floor strip, its left corner at ``left``, its numbers in ``room``."""
    here = [spot for spot in plan.floor.spots if spot.wall == wall.name and spot.out <= _AT_THE_WALL]
    spots = tuple(sorted(here, key=lambda spot: (spot.u, spot.address)))
    zero = floor_zero(plan)
    if not spots or zero is None:
        return FloorStrip((), zero, 1, 0.0, plan_row((), *room), _TITLE + 3.0)
    falls = _falls(spots, zero)
    most = max(max(falls), 0) - min(min(falls), 0)
    steps = (1, 2, 4, 8, 16, 32, 64) if plan.units == Units.INCH else (1, 2, 5, 10, 20, 50, 100)
    times = max((step for step in steps if on_paper(most, scale) * step <= _PROFILE), default=1)
    profile = on_paper(most, scale) * times
    row = plan_row(_marks(plan, spots, zero, scale, left, 0.0), *room, largest=4.4)
    return FloorStrip(spots, zero, times, profile, row, _TITLE + 3.4 + profile + row.height)


def _falls(spots: Sequence[FloorSpot], zero: int) -> list[int]:
    """Return how far each reading lies below the zero; one that cannot be compared counts as on it."""
    heights = [spot_height(spot) for spot in spots]
    return [0 if height is None else zero - height for height in heights]


def _marks(
    plan: Plan, spots: Sequence[FloorSpot], zero: int, scale: Scale, left: float, foot: float
) -> list[RunningMark]:
    units = Units(plan.units)
    numbers = dict.fromkeys((spot.u, spot_number(spot, zero, units)) for spot in spots)
    return [RunningMark(left + on_paper(u, scale), number, foot) for u, number in numbers]


def draw_strip(
    sketch: Sketch, plan: Plan, wall: WallLine, strip: FloorStrip, scale: Scale, left: float, top: float
) -> None:
    """Draw a floor strip with its title, from ``top`` down."""
    title = say("strip-title", times=strip.times) if strip.spots else say("strip-unread")
    sketch.put(Label(title, _TITLE, True), left, top + 3.0)
    right = left + on_paper(wall.length, scale)
    if not strip.spots or strip.zero is None:
        return
    zero_y = top + _TITLE + 2.0
    low = min([0, *_falls(strip.spots, strip.zero)])
    zero_y += on_paper(-low, scale) * strip.times
    sketch.line(Layer.TOE, (left, zero_y), (right, zero_y))
    points = _profile(strip, strip.zero, scale, left, zero_y)
    _draw_profile(sketch, plan, wall, strip, points, (left, right))
    marks = _marks(plan, strip.spots, strip.zero, scale, left, top + _TITLE + 3.4 + strip.profile)
    draw_row(sketch, strip.row, marks, top + _TITLE + 3.4 + strip.profile, up=False)


def _profile(strip: FloorStrip, zero: int, scale: Scale, left: float, zero_y: float) -> list[Point]:
    """Return the readings on paper; one that cannot be compared lies on the zero."""
    return [
        (
            left + on_paper(spot.u, scale),
            zero_y + on_paper(fall, scale) * strip.times,
        )
        for spot, fall in zip(strip.spots, _falls(strip.spots, zero), strict=True)
    ]


def _draw_profile(
    sketch: Sketch,
    plan: Plan,
    wall: WallLine,
    strip: FloorStrip,
    points: list[Point],
    ends: tuple[float, float],
) -> None:
    """Draw the floor from reading to reading; where none supports it, dotted with a ``?``."""
    for (start, before), (end, after) in pairwise(zip(points, strip.spots, strict=True)):
        middle = ((before.x + after.x) // 2, (before.y + after.y) // 2)
        read = spot_height(before) is not None and spot_height(after) is not None
        if read and is_known(plan.floor.grid, *middle):
            draw_solid_side(sketch, end, start, layer=Layer.FLOOR)
        else:
            _draw_unread(sketch, start, end)
    corners = (((wall.x0, wall.y0), points[0], ends[0]), ((wall.x1, wall.y1), points[-1], ends[1]))
    for corner, point, x in corners:
        if abs(point[0] - x) > 0.3:
            known = is_known(plan.floor.grid, *corner)
            if known:
                draw_solid_side(sketch, *sorted(((x, point[1]), point), reverse=True), layer=Layer.FLOOR)
            else:
                _draw_unread(sketch, (x, point[1]), point)


def _draw_unread(sketch: Sketch, start: Point, end: Point) -> None:
    """Draw a stretch that no reading supports."""
    sketch.line(Layer.UNREAD, start, end)
    if abs(end[0] - start[0]) > 3.0:
        label = Label("?", 4.2, True)
        width, height = label.extent()
        x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        sketch.place(label, [Candidate(x - width / 2, y - height / 2)])
