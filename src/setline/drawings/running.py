"""Rows of running numbers: each under its own mark, or as near as its neighbours leave it.

Numbers stand upright where they fit and turned to the left where they do not; when even that is tight they
stand in several tiers, and the leaders of the farther tiers pass between the numbers of the nearer ones.
Places are the closest possible to the marks (least squares), in the order of the marks, so leaders never
cross.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setline.drawings.labels import GAP, Label
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.shapes import Fill, Layer, Point, Polygon
from setline.drawings.sketch import Sketch

__all__ = ["RowPlan", "RunningMark", "draw_row", "plan_row", "spread"]

_PASS = 0.9
"""Room that a leader takes between two numbers. [mm]"""
_STEM = 1.6
"""A leader's straight stem, before it leans over. [mm]"""
_LEAN = 3.2
"""Height in which it leans over. [mm]"""
_BETWEEN = 2.4
"""Room between two upright numbers, so that they are not read as one. [mm]"""
_STRAIGHT = 0.15
"""A leader that leans less than this counts as straight. [mm]"""
_MODES: tuple[tuple[float, bool, int, float], ...] = (
    (5.4, False, 1, 6.0),
    (4.8, False, 1, 7.0),
    (4.2, False, 1, 7.0),
    (4.8, False, 2, 7.0),
    (4.8, True, 1, 4.0),
    (4.2, True, 1, 6.0),
    (3.7, True, 1, 9.0),
    (3.7, True, 2, 9.0),
    *((LEAST_TEXT, True, tiers, 1e9) for tiers in range(1, 13)),
)
"""Size, turned, tiers, and the farthest a number may stand from its mark, the best to read first."""


@dataclass(frozen=True, slots=True)
class RunningMark:
    """A number to print at a place along a row.

    Attributes:
        x: Place of the mark.
        text: The number.
        foot: y where its leader starts.
        body: -1 or 1 if it is a body edge and the body lies to the left or right of it, 0 at a joint.
    """

    x: float
    text: str
    foot: float
    body: int = 0


@dataclass(frozen=True, slots=True)
class RowPlan:
    """How a row will be laid: the paper it takes, and where each number stands.

    Attributes:
        size: Size of the numbers.
        turned: Whether they are turned.
        passes: One a tier: x of every number's leader or of the number itself, at that tier.
        starts: One a tier: where its numbers start, from the row's start.
        ends: One a tier: where they end.
    """

    size: float
    turned: bool
    passes: tuple[tuple[float, ...], ...]
    starts: tuple[float, ...]
    ends: tuple[float, ...]

    @property
    def height(self) -> float:
        """The whole row from its first leader to its last number."""
        return self.ends[-1]

    @property
    def tiers(self) -> int:
        """How many tiers it has."""
        return len(self.passes)


def spread(wishes: Sequence[float], widths: Sequence[float], low: float, high: float) -> list[float] | None:
    """Return centres in order, no two closer than their widths allow, as near to the wishes as can be.

    Args:
        wishes: Where each would like its centre, in order.
        widths: How much room each takes, its gap included.
        low: Left end of the room.
        high: Right end of the room.

    Returns:
        The centres of least squared distance to the wishes, or None where they do not fit.

    Source:
        Isotonic regression by pooling adjacent violators, then held between the ends.
    """
    if not wishes:
        return []
    offsets = [0.0]
    for before, after in pairwise(widths):
        offsets.append(offsets[-1] + (before + after) / 2)
    least, most = low + widths[0] / 2, high - widths[-1] / 2 - offsets[-1]
    if least > most + 1e-9:
        return None
    pools: list[tuple[float, int]] = []
    for wish, offset in zip(wishes, offsets, strict=True):
        total, count = wish - offset, 1
        while pools and pools[-1][0] * count >= total * pools[-1][1]:
            earlier = pools.pop()
            total, count = total + earlier[0], count + earlier[1]
        pools.append((total, count))
    shifts = [total / count for total, count in pools for _ in range(count)]
    return [min(max(shift, least), most) + offset for shift, offset in zip(shifts, offsets, strict=True)]


def plan_row(
    marks: Sequence[RunningMark], low: float, high: float, *, largest: float = 9.0, bold: bool = True
) -> RowPlan:
    """Return how a row of numbers is best laid between two ends of the paper.

    Args:
        marks: In order from left to right.
        low: Left end of the room.
        high: Right end of the room.
        largest: No number is larger than this.
        bold: Whether the numbers are bold.
    """
    if not marks:
        return RowPlan(LEAST_TEXT, False, ((),), (0.0,), (0.0,))
    for size, turned, tiers, farthest in _MODES:
        if size > largest or tiers > len(marks):
            continue
        row = _try_row(marks, low, high, size, turned, tiers, bold)
        if row and _drift(row, marks) <= farthest:
            return row
    crowded = (high - low) / (2 * len(marks))
    row = _try_row(marks, low, high, LEAST_TEXT, True, len(marks), bold, leader=min(_PASS, crowded))
    assert row is not None, "one number a tier always has room"
    return row


def _try_row(
    marks: Sequence[RunningMark],
    low: float,
    high: float,
    size: float,
    turned: bool,
    tiers: int,
    bold: bool,
    leader: float = _PASS,
) -> RowPlan | None:
    """Return a row of that size and number of tiers, or None if it has no room."""
    extents = [Label(mark.text, size, bold).extent(turned) for mark in marks]
    passes: list[tuple[float, ...]] = []
    wishes: list[float] = [mark.x for mark in marks]
    for tier in range(tiers):
        here = [index for index in range(len(marks)) if index % tiers >= tier]
        gap = 2 * GAP if turned else _BETWEEN
        widths = [extents[i][0] + gap if i % tiers == tier else leader for i in here]
        places = spread([wishes[i] for i in here], widths, low, high)
        if places is None:
            return None
        for index, place in zip(here, places, strict=True):
            wishes[index] = place
        passes.append(tuple(wishes))
    starts, ends, before = [], [], [mark.x for mark in marks]
    reached = _STEM
    for tier, at in enumerate(passes):
        leaning = any(abs(place - was) > _STRAIGHT for place, was in zip(at, before, strict=True))
        starts.append(reached + (_LEAN if leaning else 0.6) + 0.4)
        reached = starts[-1] + max(extents[i][1] for i in range(tier, len(marks), tiers))
        ends.append(reached)
        before = list(at)
    return RowPlan(size, turned, tuple(passes), tuple(starts), tuple(ends))


def _drift(row: RowPlan, marks: Sequence[RunningMark]) -> float:
    """Return how far the number farthest from its mark stands from it."""
    return max(
        abs(place - mark.x) for places in row.passes for place, mark in zip(places, marks, strict=True)
    )


def draw_row(
    sketch: Sketch, row: RowPlan, marks: Sequence[RunningMark], start: float, *, up: bool, bold: bool = True
) -> None:
    """Draw a row of numbers with their leaders.

    Args:
        sketch: What it is drawn on.
        row: Where each number stands.
        marks: The same marks that it was planned for.
        start: y where the row starts.
        up: Whether it grows up the page.
        bold: Whether the numbers are bold.
    """
    away = -1.0 if up else 1.0
    for index, mark in enumerate(marks):
        tier = index % row.tiers
        points: list[Point] = [(mark.x, mark.foot), (mark.x, start + away * _STEM)]
        for level in range(tier + 1):
            points.append((row.passes[level][index], start + away * (row.starts[level] - 0.4)))
            if level < tier:
                points.append((row.passes[level][index], start + away * row.ends[level]))
        sketch.chain(Layer.DIMENSION, *_straightened(points), keep_off=3)
        if mark.body:
            _draw_pointer(sketch, mark, start + away * 0.2, away)
        label = Label(mark.text, row.size, bold)
        width, height = label.extent(row.turned)
        near = points[-1][1] + away * 0.4
        sketch.write(
            label.at(row.passes[tier][index] - width / 2, near - (height if up else 0.0), row.turned)
        )


def _straightened(points: list[Point]) -> list[Point]:
    """Return a chain without the points that lie on a straight stem."""
    kept = [points[0]]
    for here, after in pairwise(points[1:]):
        if not kept[-1][0] == here[0] == after[0]:
            kept.append(here)
    return [*kept, points[-1]]


def _draw_pointer(sketch: Sketch, mark: RunningMark, y: float, away: float) -> None:
    """Draw the small solid triangle that points from a body edge to its body."""
    tip = (mark.x + 1.9 * mark.body, y + away * 0.8)
    sketch.draw(Polygon(Layer.PANEL, ((mark.x, y), tip, (mark.x, y + away * 1.6)), Fill.BLACK))
