"""The band of heights where the level line may lie, as a column of limits with their owners."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.drawings.labels import Label
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.running import spread
from setline.drawings.shapes import Fill, Layer, Polygon, Rect
from setline.drawings.sketch import Sketch, wrapped
from setline.drawings.struck_line import line_in_use
from setline.drawings.title_block import fitted
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import BandLimit, LevelLine
from setline.wording import say

__all__ = ["band_height", "band_rows", "draw_band", "limit_words", "tops_number"]

_BAR = 15.0
"""Width of the bars. [mm]"""
_NUMBER, _OWNER = 4.0, 3.5
_GAP = 1.6
_LEAD = 6.0
"""From a bar to its words. [mm]"""
_WIDE = 140.0
"""On a column as wide as this the words stand on both sides of the bars. [mm]"""
_WINDOW = {Units.INCH: 3 * 65_024, Units.METRIC: 75 * 2_560}
"""Heights farther apart than this are not drawn to one scale: the far ones lie at the column's ends."""


@dataclass(frozen=True, slots=True)
class _Block:
    """A limit's words, the height of the tops it stands for, and the y its bar is drawn at."""

    tops: int
    y: float
    lines: tuple[Label, ...]
    height: float


def tops_number(tops: int, units: Units) -> str:
    """Return a height of the tops as measured from the laser line in use, such as ``13 5/8 down``."""
    down = round_to(-tops, fine_step(units), Rounding.NEAREST_UP)
    return say("band-up" if down < 0 else "band-down", amount=show(abs(down), units))


def limit_words(limit: BandLimit, units: Units) -> str:
    """Return what a limit asks, such as ``13 13/32 down or higher``; ``?`` where it is not known."""
    if limit.tops.value is None:
        return "?"
    key = "band-least" if limit.is_least else "band-most"
    return say(key, height=tops_number(limit.tops.value, units))


def band_rows(line: LevelLine, units: Units) -> list[tuple[str, str, str, str]]:
    """Return the band's facts as rows of the floor picture's table."""
    rows = [
        (say("floor-row-limit"), limit.owner, "", limit_words(limit, units)) for limit in line.band.limits
    ]
    set_up = line_in_use(line)
    if set_up is not None and set_up.printed_level is not None:
        level = say(
            "band-up" if set_up.printed_level < 0 else "band-down",
            amount=show(abs(set_up.printed_level), units),
        )
        rows.append((say("floor-row-line"), set_up.set_up, "", level))
    return rows


def band_height(line: LevelLine, units: Units, width: float, most: float) -> float:
    """Return how high the column must be for every limit's words, but no more than ``most``."""
    place = _Place(0.0, width)
    sides: tuple[list[float], list[float]] = ([], [])
    for limit in line.band.limits:
        sides[place.is_left(limit)].append(_high(_lines(limit, units, place.words)) + _GAP)
    return min(max(sum(sides[0]) + 40.0, sum(sides[1]) + 28.0), most)


def draw_band(sketch: Sketch, line: LevelLine, units: Units, room: Rect) -> int:
    """Draw the band in its part of the paper.

    Args:
        sketch: What it is drawn on.
        line: The level line with its band.
        units: The tape.
        room: The part of the paper it may use.

    Returns:
        How many limits had no room and stand in the table only.
    """
    left, top, right, bottom = room
    place = _Place(left, right)
    top = _write_title(sketch, line, left, top, right)
    known = [limit for limit in line.band.limits if limit.tops.value is not None]
    chosen = line.tops.value
    if chosen is None or not known:
        sketch.put(Label(say("band-none"), _OWNER), left, top + 4.0)
        return len(known)
    shown = _that_fit(known, units, place, bottom - top)
    axis = _Axis([limit.tops.value or 0 for limit in shown], chosen, units, top + 4.0, bottom - 4.0)
    _draw_feasible(sketch, line, axis, place.bar)
    sides: tuple[list[_Block], list[_Block]] = ([_chosen_block(line, units, axis, place.words)], [])
    for limit in shown:
        block = _block(limit, units, axis, place.words)
        _draw_bar(sketch, limit, block.y, place.bar)
        sides[place.is_left(limit)].append(block)
    _draw_chosen(sketch, axis.y(chosen), place.bar)
    for is_left, blocks in enumerate(sides):
        _write_blocks(sketch, blocks, place, top, bottom, is_left=bool(is_left))
    return len(known) - len(shown)


class _Place:
    """Where the bars stand: at the left of a narrow column, in the middle of a wide one."""

    def __init__(self, left: float, right: float) -> None:
        self.is_wide = right - left >= _WIDE
        self.bar = (left + right - _BAR) / 2 if self.is_wide else left
        self.words = right - self.bar - _BAR - _LEAD

    def is_left(self, limit: BandLimit) -> bool:
        """Return whether a limit's words stand left of the bars, as those of greatest heights may."""
        return self.is_wide and not limit.is_least


class _Axis:
    """Heights of the tops on paper: to one scale near the chosen line, the rest at the ends."""

    def __init__(self, heights: Sequence[int], chosen: int, units: Units, top: float, bottom: float) -> None:
        window = _WINDOW[units]
        near = [height for height in heights if abs(height - chosen) <= window]
        self._high, self._low = max([chosen, *near]), min([chosen, *near])
        is_cut = len(near) < len(heights)
        self._top, self._bottom = top + (6.0 if is_cut else 0.0), bottom - (6.0 if is_cut else 0.0)
        self._ends = (top, bottom)

    def y(self, height: int) -> float:
        """Return the y of a height; one beyond the scale lies at the end of the column."""
        if height > self._high:
            return self._ends[0]
        if height < self._low:
            return self._ends[1]
        span = self._high - self._low
        if span == 0:
            return (self._top + self._bottom) / 2
        return self._top + (self._bottom - self._top) * (self._high - height) / span


def _write_title(sketch: Sketch, line: LevelLine, left: float, top: float, right: float) -> float:
    """Write the column's heading; return the y under it."""
    if line.band.is_empty:
        label = fitted(say("band-empty"), right - left - 3.0, (4.6, 4.0, LEAST_TEXT), bold=True)
        width, height = label.extent()
        box = (left, top, left + width + 3.0, top + height + 1.2)
        sketch.box(Layer.TAG, box, Fill.BLACK)
        words = Label(label.text, label.size, True, reverse=True, halo=False)
        sketch.write(words.centred((box[0] + box[2]) / 2, (box[1] + box[3]) / 2, frame=box))
        baseline = box[3]
    else:
        baseline = top + 4.4
        sketch.put(fitted(say("band-title"), right - left, (4.8, 4.2, LEAST_TEXT), bold=True), left, baseline)
    set_up = line_in_use(line)
    if set_up is not None:
        baseline += 4.8
        words = fitted(say("band-aside", set_up=set_up.set_up), right - left, (3.7, LEAST_TEXT))
        sketch.put(words, left, baseline)
    return baseline + 2.0


def _lines(limit: BandLimit, units: Units, width: float) -> tuple[Label, ...]:
    """Return a limit's words: the number, then its owner."""
    owner = wrapped(limit.owner, _OWNER, width, most=3) or [fitted(limit.owner, width, (_OWNER,)).text]
    number = fitted(limit_words(limit, units), width, (_NUMBER, 3.6, LEAST_TEXT), bold=True)
    return (number, *(Label(part, _OWNER) for part in owner))


def _high(lines: Sequence[Label]) -> float:
    return sum(line.extent()[1] for line in lines)


def _that_fit(limits: Sequence[BandLimit], units: Units, place: _Place, room: float) -> list[BandLimit]:
    """Return the limits whose words fit, the most binding of either kind first."""
    turns: dict[bool, int] = {True: 0, False: 0}
    ordered = []
    for limit in limits:
        ordered.append((turns[limit.is_least], limit))
        turns[limit.is_least] += 1
    left = {False: room - 14.0, True: room - 4.0}
    shown = set()
    for _, limit in sorted(ordered, key=lambda turn: turn[0]):
        left[place.is_left(limit)] -= _high(_lines(limit, units, place.words)) + _GAP
        if left[place.is_left(limit)] >= 0:
            shown.add(id(limit))
    return [limit for limit in limits if id(limit) in shown]


def _block(limit: BandLimit, units: Units, axis: _Axis, width: float) -> _Block:
    lines = _lines(limit, units, width)
    tops = limit.tops.value or 0
    return _Block(tops, axis.y(tops), lines, _high(lines))


def _chosen_block(line: LevelLine, units: Units, axis: _Axis, width: float) -> _Block:
    """Return the words of the chosen line."""
    set_up, tops = line_in_use(line), line.tops.value or 0
    number = tops_number(tops, units)
    if set_up is not None and set_up.printed_level is not None:
        number = tops_number(-set_up.printed_level, units)
    words = fitted(say("band-chosen", height=number), width, (5.0, 4.4, 3.8, LEAST_TEXT), bold=True)
    return _Block(tops, axis.y(tops), (words,), words.extent()[1])


def _draw_feasible(sketch: Sketch, line: LevelLine, axis: _Axis, left: float) -> None:
    """Draw the column of heights that every limit allows, open at an end without a limit."""
    band = line.band
    if band.is_empty or band.lowest is None:
        return
    bottom = axis.y(band.lowest)
    top = axis.y(band.highest) if band.highest is not None else axis._ends[0]
    box = (left + 4.0, top, left + _BAR - 4.0, bottom)
    for x in (box[0], box[2]):
        sketch.line(Layer.BOX, (x, box[1]), (x, box[3]))


def _draw_bar(sketch: Sketch, limit: BandLimit, y: float, left: float) -> None:
    """Draw a limit's bar with its teeth on the side that it forbids."""
    sketch.line(Layer.BOX, (left, y), (left + _BAR, y))
    forbidden = 1.0 if limit.is_least else -1.0
    for tooth in range(6):
        x = left + 1.0 + tooth * (_BAR - 2.0) / 5
        sketch.line(Layer.WALL_TICK, (x, y), (x - 1.0, y + forbidden * 1.2))


def _draw_chosen(sketch: Sketch, y: float, left: float) -> None:
    """Draw the chosen line across the column, with a solid point at its end."""
    sketch.line(Layer.LEVEL, (left, y), (left + _BAR + 2.0, y))
    tip = (left + _BAR, y)
    sketch.draw(Polygon(Layer.PANEL, (tip, (tip[0] + 2.4, y - 1.1), (tip[0] + 2.4, y + 1.1)), Fill.BLACK))


def _write_blocks(
    sketch: Sketch, blocks: list[_Block], place: _Place, top: float, bottom: float, *, is_left: bool
) -> None:
    """Write the words on one side of the bars, spread apart, with leaders to the bars."""
    ordered = sorted(blocks, key=lambda block: (block.y, -block.tops))
    heights = [block.height + _GAP for block in ordered]
    middles = spread([block.y for block in ordered], heights, top, bottom)
    assert middles is not None, "only as many limits are shown as there is room for"
    away = -1.0 if is_left else 1.0
    bar_end = place.bar if is_left else place.bar + _BAR
    for block, middle in zip(ordered, middles, strict=True):
        words = bar_end + away * _LEAD
        sketch.lead((bar_end, block.y), (bar_end + away * 2.4, block.y), (words - away * 0.6, middle))
        y = middle - block.height / 2
        for line in block.lines:
            wide, high = line.extent()
            sketch.write(line.at(words - wide if is_left else words, y))
            y += high
