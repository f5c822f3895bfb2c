"""The strip of a wall: its rows on one scale, as the picture of the list in which they are arranged.

Along the wall it is true to scale; up and down it is not, and says so. Joints are shown, where items meet;
the marks of the wall, some of which stand at a body's edge, are on the elevation.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from setline.drawings.item_labels import label_item
from setline.drawings.labels import Label
from setline.drawings.running import RowPlan, RunningMark, draw_row, plan_row
from setline.drawings.scale import on_paper
from setline.drawings.shapes import (
    Anchor,
    Circle,
    Drawing,
    Fill,
    Frame,
    Layer,
    Polygon,
    Rect,
    Scale,
)
from setline.drawings.sketch import Sketch
from setline.drawings.standing import item_code, plain_name, runs_of, stand, wall_of
from setline.drawings.strip_facts import joint_number, strip_description, strip_table
from setline.drawings.symbols import draw_item, wavy_bracket
from setline.lengths import Units, show
from setline.result import Plan, RunPin, RunPlan, WallLine
from setline.wording import say

__all__ = ["RunStrip", "run_strip"]

_SCALES = {Units.INCH: Scale(24, '1/2" = 1\'-0" (1:24)'), Units.METRIC: Scale(25, "1:25")}
_SIDE = 9.0
_BASE, _WALL = 24.0, 17.0
"""How high each row is drawn. [mm]"""
_NAILS = 11.5
"""Room over a row for the heads and numbers of its nails. [mm]"""
_BARE = 2.0
"""Room over a row without nails. [mm]"""
_TROUBLE = 8.0
_PLAY = 4.2
_TIMES = 8
_LONGEST_BAR = 11.0
_TEXT = 3.4
_NOTE = 3.3


@dataclass(frozen=True, slots=True)
class RunStrip:
    """The strip and where its items lie on it.

    Attributes:
        drawing: The strip.
        boxes: Name of the run, number of the item, and its outline; each run left to right.
    """

    drawing: Drawing
    boxes: tuple[tuple[str, int, Rect], ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """Where one row of the wall lies.

    Attributes:
        runs: Its runs, left to right.
        top: y of its items.
        bottom: y under its items.
        over: Room over its items for nails and the bracket of a trouble.
        numbers: How its running numbers are laid.
        marks: Those numbers.
        upper: Whether they stand above it.
    """

    runs: tuple[RunPlan, ...]
    top: float
    bottom: float
    over: float
    numbers: RowPlan
    marks: tuple[RunningMark, ...]
    upper: bool


def run_strip(
    plan: Plan, wall: str, *, name: str = "", places: Mapping[tuple[str, int], str] = MappingProxyType({})
) -> RunStrip:
    """Return the strip of a wall.

    Args:
        plan: The plan.
        wall: The wall's letter.
        name: A name for the drawing, where two strips of a wall stand on one page.
        places: Letters of places that something may be put at: name of a run and how many of its items
            stand left of the place.

    Returns:
        Wall row over base row on one scale: items at their joints (at wished sizes where a run cannot be
        solved), pins as nails, edges that line up joined by dotted lines, how far each joint can still go as
        bars of eight times the size, running numbers from the left corner.
    """
    units = Units(plan.units)
    scale, line = _SCALES[units], wall_of(plan, wall)
    runs = runs_of(plan, wall)
    reach = max([line.length, *(thing.right for run in runs for thing in stand(run))])
    start = min([0, *(thing.left for run in runs for thing in stand(run))])
    left = _SIDE - on_paper(start, scale)
    width = left + on_paper(reach, scale) + _SIDE
    rows, floor = _rows(runs, units, scale, left, width)
    height = floor + 2 * _NOTE + 1.5
    sketch = Sketch(Frame(width, height))
    _draw_wall(sketch, line, scale, left, floor)
    for row in rows:
        _letter(sketch, row, places, scale, left)
    boxes = tuple(box for row in rows for box in _draw_row(sketch, row, units, scale, left))
    if len(rows) == 2:
        _draw_line_ups(sketch, rows, units, scale, left)
    sketch.put(Label(say("strip-note", scale=scale.words, times=_TIMES), _NOTE), 1.0, height - 1.2)
    drawing = sketch.finish(
        name=name or f"strip-{wall}",
        title=say("strip-drawing-title", job=plan.job_name, wall=wall),
        description=strip_description(plan, line, runs),
        height=height,
        scale=scale,
        origin=(left, floor),
        table=strip_table(plan, runs),
    )
    return RunStrip(drawing, boxes)


def _rows(
    runs: Sequence[RunPlan], units: Units, scale: Scale, left: float, width: float
) -> tuple[list[_Row], float]:
    """Return where each row lies, the wall row first, and y under all of them."""
    rows: list[_Row] = []
    y = 1.5
    for name, high in (("wall", _WALL), ("base", _BASE)):
        own = tuple(run for run in runs if run.row == name)
        if not own:
            continue
        upper = name == "wall"
        trouble = _TROUBLE if any(not run.solved for run in own) else 0.0
        nails = _NAILS if any(pin.at is not None for run in own for pin in run.pins) else _BARE
        over = nails + trouble
        probe = _running(own, units, scale, left, 0.0)
        numbers = plan_row(probe, 0.0, width, largest=4.2)
        top = y + (numbers.height if upper else 0.0) + over
        bottom = top + high
        foot = top if upper else bottom + _PLAY
        marks = _running(own, units, scale, left, foot)
        rows.append(_Row(own, top, bottom, over, numbers, marks, upper))
        y = bottom + _PLAY + (0.0 if upper else numbers.height)
    return rows, max(y, 12.0)


def _running(
    runs: Sequence[RunPlan], units: Units, scale: Scale, left: float, foot: float
) -> tuple[RunningMark, ...]:
    """Return the running numbers of a row."""
    marks = []
    for run in runs:
        things = stand(run)
        edges = [*(thing.left for thing in things), things[-1].right] if things else []
        for joint, u in zip(run.joints, edges, strict=False):
            marks.append(RunningMark(left + on_paper(u, scale), joint_number(joint, units), foot))
    return tuple(sorted(marks, key=lambda mark: mark.x))


def _draw_wall(sketch: Sketch, line: WallLine, scale: Scale, left: float, floor: float) -> None:
    """Draw the wall's two corners, and the centre of each window."""
    for u in (0, line.length):
        x = left + on_paper(u, scale)
        sketch.line(Layer.WALL, (x, 1.0), (x, floor), keep_off=1)
    for opening in line.openings:
        if opening.kind == "window":
            x = left + on_paper(opening.centre, scale)
            sketch.line(Layer.CENTRE, (x, 1.0), (x, floor), keep_off=1)


def _draw_row(
    sketch: Sketch, row: _Row, units: Units, scale: Scale, left: float
) -> Iterator[tuple[str, int, Rect]]:
    """Draw one row; yield where each item lies."""
    for run in row.runs:
        for thing in stand(run):
            box = (
                left + on_paper(thing.left, scale),
                row.top,
                left + on_paper(thing.right, scale),
                row.bottom,
            )
            draw_item(sketch, thing.item.kind, box)
            yield run.name, thing.item.number, box
    for run in row.runs:
        _draw_nails(sketch, run, row, units, scale, left)
        _draw_play(sketch, run, row, scale, left)
        if not run.solved:
            _draw_short(sketch, run, row, units, scale, left)
    start = row.top - row.over if row.upper else row.bottom + _PLAY
    draw_row(sketch, row.numbers, row.marks, start, up=row.upper)
    for run in row.runs:
        for thing in stand(run):
            box = (
                left + on_paper(thing.left, scale),
                row.top,
                left + on_paper(thing.right, scale),
                row.bottom,
            )
            wide = show(thing.right - thing.left, units).removeprefix("~")
            if box[2] - box[0] > 3.2:
                label_item(sketch, box, item_code(thing.item), wide, plain_name(thing.item, wide))


def _letter(
    sketch: Sketch, row: _Row, places: Mapping[tuple[str, int], str], scale: Scale, left: float
) -> None:
    """Write the letters of places at their joints, white on black."""
    before: tuple[float, float] | None = None
    for run in row.runs:
        things = stand(run)
        for place, u in enumerate([*(thing.left for thing in things), things[-1].right]):
            letter = places.get((run.name, place))
            if letter is not None:
                x, y = left + on_paper(u, scale), row.bottom - 3.2
                if before is not None and x - before[0] < 5.8 and before[1] == y:
                    y -= 5.8
                before = (x, y)
                sketch.tag((x, y), 2.6)
                sketch.write(Label(letter, 3.6, bold=True, reverse=True, halo=False).centred(x, y))


def _draw_short(sketch: Sketch, run: RunPlan, row: _Row, units: Units, scale: Scale, left: float) -> None:
    """Draw the wavy bracket of a run that cannot be solved, with by how much."""
    things = stand(run)
    low, high = left + on_paper(things[0].left, scale), left + on_paper(things[-1].right, scale)
    y = row.top - 2.6
    sketch.draw(wavy_bracket(low, high, y, 1.8))
    words = say("does-not-fit")
    if run.overrun is not None:
        key = "short-by" if run.overrun > 0 else "over-by"
        words = say(key, amount=show(abs(run.overrun), units))
    sketch.put(Label(words, 4.6, bold=True), (low + high) / 2, y - 1.8, Anchor.MIDDLE)


def _draw_nails(sketch: Sketch, run: RunPlan, row: _Row, units: Units, scale: Scale, left: float) -> None:
    """Draw each pin as a nail: its head solid for a must, hollow for a wish, its number over it."""
    for pin in sorted(run.pins, key=lambda pin: (pin.at is None, pin.at or 0)):
        if pin.at is None:
            continue
        x = left + on_paper(pin.at, scale)
        trouble = 0.0 if run.solved else _TROUBLE
        head = row.top - trouble - 3.0
        sketch.draw(_stem(x, head, row.bottom if pin.wish_rank is None else row.top + 4.0))
        sketch.draw(Polygon(Layer.TAG, _head(x, head), _fill(pin)))
        label = Label(show(pin.at, units).removeprefix("~"), _TEXT, bold=True)
        wide, high = label.extent()
        for shift in (0.0, -wide / 2 - 1.0, wide / 2 + 1.0):
            box = (x + shift - wide / 2, head - 0.6 - high, x + shift + wide / 2, head - 0.6)
            if sketch.field.is_free(box):
                sketch.write(label.at(box[0], box[1]))
                break
        sketch.field.take((x - 1.6, head - 0.1, x + 1.6, head + 1.3))


def _stem(x: float, top: float, foot: float) -> Polygon:
    """Return a nail's stem."""
    return Polygon(
        Layer.PANEL, ((x - 0.35, top), (x + 0.35, top), (x + 0.35, foot), (x - 0.35, foot)), Fill.BLACK
    )


def _head(x: float, y: float) -> tuple[tuple[float, float], ...]:
    """Return a nail's flat head."""
    return ((x - 1.5, y), (x + 1.5, y), (x + 1.5, y + 1.2), (x - 1.5, y + 1.2))


def _fill(pin: RunPin) -> Fill:
    return Fill.BLACK if pin.wish_rank is None else Fill.WHITE


def _draw_play(sketch: Sketch, run: RunPlan, row: _Row, scale: Scale, left: float) -> None:
    """Draw under each joint how far it can still go, eight times the size; a longer bar ends in a dot."""
    y = row.bottom + 1.9
    for joint in run.joints:
        if joint.chosen is None or not (joint.play_left or joint.play_right):
            continue
        x = left + on_paper(joint.chosen, scale)
        ends = []
        for play, sign in ((joint.play_left, -1), (joint.play_right, 1)):
            long = on_paper(play or 0, scale) * _TIMES
            ends.append(x + sign * min(long, _LONGEST_BAR))
            if long > _LONGEST_BAR:
                sketch.draw(Circle(Layer.PANEL, (ends[-1], y), 0.7, Fill.BLACK))
        sketch.line(Layer.TROUBLE, (ends[0], y), (ends[1], y), keep_off=1)
        sketch.line(Layer.DIMENSION, (x, row.bottom), (x, y + 0.9))


def _draw_line_ups(sketch: Sketch, rows: Sequence[_Row], units: Units, scale: Scale, left: float) -> None:
    """Join edges of the two rows that ought to line up, with the miss written on the line."""
    upper, lower = rows
    for row in rows:
        for run in row.runs:
            for pin in run.pins:
                if pin.beside is None or pin.at is None:
                    continue
                other = left + on_paper(pin.at, scale)
                here = left + on_paper(pin.at + pin.missed, scale)
                above, below = (here, other) if row.upper else (other, here)
                sketch.line(Layer.UNREAD, (above, upper.bottom), (below, lower.top), keep_off=1)
                if pin.missed:
                    words = Label(show(abs(pin.missed), units).removeprefix("~"), _TEXT, bold=True)
                    wide, high = words.extent()
                    middle = (upper.bottom + lower.top) / 2
                    box = (below + 1.0, middle - high / 2, below + 1.0 + wide, middle + high / 2)
                    if sketch.field.is_free(box):
                        sketch.write(words.at(box[0], box[1]))
