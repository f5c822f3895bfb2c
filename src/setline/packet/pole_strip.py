"""One strip of a story pole: marks of two rows at their true places, labels that do not meet, a rule between.

All in mm from the strip's upper left corner. The outermost paper of each row is left to the mark's line: that
is where a mark is taken from the stick; labels stand further in, in lanes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypedDict

from setline.drawings.font import text_width
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.result import RunPlan
from setline.wording import say

__all__ = ["HEIGHT", "Piece", "pole_piece", "step_ticks"]

HEIGHT = 33.0
_OVERLAP = 8.0
_RULE_BAND = 2.6
_EDGE = 1.4
_LANE = 4.15
_LANES = 3
_NAME_LANE = 2
_MARK_SIZE = 11 * 25.4 / 72
_NAME_SIZE = 10 * 25.4 / 72
_CLEAR = 0.8
"""Between a mark's line and its label, and between labels."""


class MatchLine(TypedDict):
    """Where two strips meet: the wall and the distance from START, on both."""

    x: float
    name: str


class PoleMark(TypedDict):
    """The line of a mark: from the upper edge inwards, or from the lower."""

    x: float
    upper: bool
    length: float


class PoleLabel(TypedDict):
    """A text in its lane."""

    x: float
    y: float
    width: float
    text: str
    bold: bool


class RuleTick(TypedDict):
    """A line of the rule between the rows, with its number."""

    x: float
    number: str


class Piece(TypedDict):
    """One strip."""

    width: float
    height: float
    is_first: bool
    matches: list[MatchLine]
    marks: list[PoleMark]
    labels: list[PoleLabel]
    ticks: list[RuleTick]


@dataclass(slots=True)
class _Lanes:
    """The lanes of one row, and what stands in them so far."""

    upper: bool
    width: float
    labels: list[PoleLabel] = field(default_factory=list)
    taken: list[list[tuple[float, float]]] = field(default_factory=lambda: [[] for _ in range(_LANES)])

    def is_free(self, lane: int, left: float, long: float) -> bool:
        """Return whether a label meets nothing in a lane and stays on the strip."""
        on_strip = left >= 0 and left + long <= self.width
        return on_strip and all(left > end or left + long < begin for begin, end in self.taken[lane])

    def put(self, lane: int, left: float, long: float, text: str, *, bold: bool) -> None:
        """Set a label into a lane."""
        self.taken[lane].append((left - _CLEAR, left + long + _CLEAR))
        inwards = _EDGE + lane * _LANE
        y = inwards if self.upper else HEIGHT - inwards - _LANE
        self.labels.append(PoleLabel(x=left, y=y, width=long, text=text, bold=bold))


def step_ticks(units: Units) -> int:
    """Return how much of the pole one strip carries: 7 in, or 175 mm; both papers hold it."""
    return 7 * TICKS_PER_INCH if units == Units.INCH else 175 * TICKS_PER_MM


def pole_piece(place: int, count: int, runs: list[RunPlan], units: Units) -> Piece:
    """Return strip number ``place`` of ``count``, from 0.

    Args:
        place: Which strip; it starts at ``place`` steps from START.
        count: How many the pole has.
        runs: The runs of one wall that are solved.
        units: The crew's tape.
    """
    start = place * step_ticks(units)
    length = step_ticks(units) / TICKS_PER_MM
    width = length + _OVERLAP
    wall = runs[0].wall
    name = (
        say("packet-pole-match", wall=wall, u=show(start, units))
        if place
        else say("packet-pole-start", wall=wall)
    )
    matches = [MatchLine(x=0.0, name=name)]
    if place + 1 < count:
        further = show(start + step_ticks(units), units)
        matches.append(MatchLine(x=length, name=say("packet-pole-match", wall=wall, u=further)))
    marks: list[PoleMark] = []
    labels: list[PoleLabel] = []
    for upper in (True, False):
        lanes = _Lanes(upper, width)
        row = [run for run in runs if (run.row == "wall") == upper]
        marks += _marks(row, start, lanes)
        _name_items(row, start, lanes)
        labels += lanes.labels
    return Piece(
        width=width,
        height=HEIGHT,
        is_first=place == 0,
        matches=matches,
        marks=marks,
        labels=labels,
        ticks=_ticks(start, width, units),
    )


def _on_strip(ticks: int, start: int) -> float:
    """Return a place along the wall as a place on the strip."""
    return (ticks - start) / TICKS_PER_MM


def _marks(runs: list[RunPlan], start: int, lanes: _Lanes) -> list[PoleMark]:
    """Return the marks of one row that fall on the strip, and set their labels."""
    spots = sorted(
        (_on_strip(mark.printed, start), mark.write)
        for run in runs
        for mark in run.marks
        if mark.printed is not None
    )
    here = [(x, write) for x, write in spots if 0 <= x <= lanes.width]
    for x, write in here:
        _label_mark(x, write, lanes)
    return [PoleMark(x=x, upper=lanes.upper, length=HEIGHT / 2 - _RULE_BAND) for x, _ in here]


def _label_mark(x: float, write: str, lanes: _Lanes) -> None:
    """Set a mark's label right of its line, else left of it, in the outermost lane that is free."""
    long = text_width(write, _MARK_SIZE, bold=True) + 0.3
    sides = (x + _CLEAR, x - _CLEAR - long)
    places = [(lane, left) for lane in range(_LANES) for left in sides]
    lane, left = next(
        (place for place in places if lanes.is_free(*place, long)),
        (_LANES - 1, min(sides[0], lanes.width - long)),
    )
    lanes.put(lane, left, long, write, bold=True)


def _name_items(runs: list[RunPlan], start: int, lanes: _Lanes) -> None:
    """Write each item's number and name between its marks, where there is room on the strip."""
    for item in (item for run in runs for item in run.items):
        if item.left is None or item.right is None:
            continue
        least = max(_on_strip(item.left, start), 0.0)
        most = min(_on_strip(item.right, start), lanes.width)
        text = f"{item.number} {item.name}".rstrip()
        long = text_width(text, _NAME_SIZE) + 0.3
        left = (least + most - long) / 2
        if most - least >= long + 2 * _CLEAR and lanes.is_free(_NAME_LANE, left, long):
            lanes.put(_NAME_LANE, left, long, text, bold=False)


def _ticks(start: int, width: float, units: Units) -> list[RuleTick]:
    """Return the rule between the rows: every inch or 25 mm, numbered from START but at match lines."""
    pitch = TICKS_PER_INCH if units == Units.INCH else 25 * TICKS_PER_MM
    end = start + round(width * TICKS_PER_MM)
    first = -(-start // pitch) * pitch
    return [
        RuleTick(
            x=_on_strip(at, start),
            number="" if (at - start) % step_ticks(units) == 0 else show(at, units),
        )
        for at in range(first, end + 1, pitch)
    ]
