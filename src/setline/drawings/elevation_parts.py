"""What an elevation shows beside its boxes: lines to set by, windows, doors, ceiling, trouble."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from setline.drawings.item_labels import write_block
from setline.drawings.labels import Candidate, Label, inside
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.shapes import Fill, Layer, Rect
from setline.drawings.sketch import Sketch
from setline.drawings.standing import stand
from setline.drawings.struck_line import line_in_use, strike_words
from setline.drawings.symbols import arrow, draw_solid_side, wavy_bracket
from setline.drawings.title_block import draw_start
from setline.drawings.wall_view import WallView
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Plan, RunPlan, WallLine, WallOpening
from setline.wording import say

__all__ = [
    "draw_lines",
    "draw_openings",
    "draw_shell",
    "draw_trouble",
    "label_ends",
    "label_lines",
    "label_openings",
]

_MEASURE_AT = 4.5
"""The measure down from the laser line stands this far right of the wall. [mm]"""
_PAST = 2.4
"""The two lines run on past the measure. [mm]"""


def draw_shell(sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, bottom: float) -> None:
    """Draw the wall's two corners and, where it was read, the ceiling."""
    left, right = view.x(0), view.x(line.length)
    draw_solid_side(sketch, (left, bottom), (left, top))
    draw_solid_side(sketch, (right, top), (right, bottom))
    tops = plan.level_line.tops.value
    if tops is None:
        return
    points = [(view.x(u), view.y(z - tops)) for u, z in line.ceiling if view.y(z - tops) > top]
    if points:
        points = [(left, points[0][1]), *points, (right, points[-1][1])]
        for start, end in pairwise(points):
            draw_solid_side(sketch, start, end)


def _reads_down(plan: Plan, view: WallView, top: float, bottom: float) -> tuple[float, float] | None:
    """Return the y of the laser line and of the struck line, if the laser line lies in the picture."""
    set_up, tops = line_in_use(plan.level_line), plan.level_line.tops.value
    if set_up is None or tops is None or set_up.printed_strike is None:
        return None
    laser = view.y(-tops)
    if not top + 2.0 < laser < bottom - 2.0:
        return None
    return laser, view.y(plan.level_line.clearance)


def draw_lines(sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, bottom: float) -> None:
    """Draw the struck line across the wall, the laser line, and the measure from one down to the other."""
    left, right = view.x(0), view.x(line.length)
    strike = view.y(plan.level_line.clearance)
    sketch.line(Layer.LEVEL, (left, strike), (right + _MEASURE_AT + _PAST, strike), keep_off=2)
    draw_start(sketch, left, strike)
    ends = _reads_down(plan, view, top, bottom)
    if ends is None:
        return
    laser, _ = ends
    x = right + _MEASURE_AT
    sketch.line(Layer.LASER, (left, laser), (x + _PAST, laser), keep_off=1)
    sketch.line(Layer.DIMENSION, (x, laser), (x, strike))
    if abs(strike - laser) > 6.0:
        sketch.draw(arrow((x, strike), (x, laser)), arrow((x, laser), (x, strike)))


def label_ends(sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, bottom: float) -> None:
    """Write the words at the corner to start from, and beside the other the measure down."""
    right, strike = view.x(line.length), view.y(plan.level_line.clearance)
    start = Label(say("start-left"), 3.8, True)
    width, height = start.extent(turned=True)
    above = min(max(strike - height / 2, top), bottom - height)
    sketch.write(start.at(view.x(0) - 2.2 - width, above, turned=True))
    set_up = line_in_use(plan.level_line)
    ends = _reads_down(plan, view, top, bottom)
    if set_up is None or set_up.printed_strike is None or ends is None:
        return
    measure = Label(show(abs(set_up.printed_strike), Units(plan.units)), 5.0, True)
    wide, long = measure.extent(turned=True)
    middle = min(max((ends[0] + ends[1]) / 2, top + long / 2), bottom - long / 2)
    beside = right + _MEASURE_AT + (0.8 if long < abs(ends[1] - ends[0]) - 1.0 else _PAST + 0.6)
    sketch.write(measure.centred(beside + wide / 2, middle, turned=True))


def label_lines(
    sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, bottom: float
) -> None:
    """Write what to strike and what the laser line is along the two lines, wherever they run clear."""
    units, left, right = Units(plan.units), view.x(0), view.x(line.length)
    set_up = line_in_use(plan.level_line)
    if set_up is None:
        return
    strike = view.y(plan.level_line.clearance)
    for side in (False, True):
        for size in (4.4, 3.8):
            words = Label(strike_words(plan.level_line, units), size, True)
            if sketch.place(words, _along(words, strike, left + 4.5, right, from_right=side), most=0):
                break
    ends = _reads_down(plan, view, top, bottom)
    if ends is not None:
        words = Label(say("laser-label", set_up=set_up.set_up), 3.7)
        for side in (False, True):
            sketch.place(words, _along(words, ends[0], left, right, from_right=side), most=1)


def _along(label: Label, line: float, left: float, right: float, *, from_right: bool) -> Iterator[Candidate]:
    """Yield places just over a line, then just under it, in the half of it next to one of its ends."""
    width, height = label.extent()
    reach = (right - left) / 2 - width - 2.0
    steps = range(int(reach // 2.0) + 1) if reach > 0 else range(0)
    for top in (line - height - 0.5, line + 0.7):
        for step in steps:
            yield Candidate(right - 1.0 - step * 2.0 - width if from_right else left + 1.0 + step * 2.0, top)


def draw_openings(
    sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, floor: float
) -> None:
    """Draw windows and doors with their centre lines; an edge that was not read is left out."""
    for opening in line.openings:
        left, head, right, sill = _opening_box(plan, view, opening, top, floor)
        inset = 1.3
        for edge, inward in ((opening.left, inset), (opening.right, -inset)):
            if edge is not None:
                for x in (view.x(edge), view.x(edge) + inward):
                    sketch.line(Layer.WINDOW, (x, head), (x, sill), keep_off=2)
        for height, inward in ((opening.top, inset), (opening.bottom, -inset)):
            if height is not None and plan.level_line.tops.value is not None:
                y = view.y(height - plan.level_line.tops.value)
                sketch.line(Layer.WINDOW, (left, y), (right, y), keep_off=2)
                sketch.line(Layer.WINDOW, (left, y + inward), (right, y + inward), keep_off=1)
        x = view.x(opening.centre)
        foot = floor if opening.kind == "door" else max(sill, view.y(0))
        sketch.line(Layer.CENTRE, (x, head), (x, foot), keep_off=1)


def _opening_box(plan: Plan, view: WallView, opening: WallOpening, top: float, floor: float) -> Rect:
    """Return a window's or door's outline as far as it was read; else to ceiling and floor."""
    x, tops = view.x(opening.centre), plan.level_line.tops.value
    left = x - 8.0 if opening.left is None else view.x(opening.left)
    right = x + 8.0 if opening.right is None else view.x(opening.right)
    head, sill = top, floor
    if tops is not None:
        head = top if opening.top is None else max(top, view.y(opening.top - tops))
        sill = floor if opening.bottom is None else min(floor, view.y(opening.bottom - tops))
    return (left, head, right, sill)


def _opening_name(opening: WallOpening) -> str:
    """Return what to call a window or door, its kind before a name that does not say it."""
    kind = say(f"kind-{opening.kind}")
    if kind.casefold() in opening.name.casefold():
        return opening.name
    return say("kind-named", kind=kind, name=opening.name)


def label_openings(
    sketch: Sketch, plan: Plan, line: WallLine, view: WallView, top: float, floor: float
) -> None:
    """Write the name and centre of every window and door."""
    units = Units(plan.units)
    for opening in line.openings:
        left, head, right, sill = _opening_box(plan, view, opening, top, floor)
        room = (left + 1.8, head + 1.8, right - 1.8, sill - 1.8)
        texts = (_opening_name(opening), say("centre-at", place=show(opening.centre, units)))
        for size in (4.2, 3.7, LEAST_TEXT):
            if write_block(sketch, [Label(text, size) for text in texts], room):
                break
        else:
            for text in texts:
                label = Label(text, LEAST_TEXT)
                sketch.place(label, inside(label, room))


def draw_trouble(sketch: Sketch, run: RunPlan, view: WallView, units: Units) -> None:
    """Draw the wavy bracket over a run that cannot be solved, with its shortfall boxed."""
    things = stand(run)
    if not things:
        return
    left, right = view.x(things[0].left), view.x(things[-1].right)
    tops = (thing.item.top for thing in things)
    y = (view.y(0) if run.row == "base" else min(map(view.y, tops))) - 3.4
    sketch.draw(wavy_bracket(left, right, y, 2.6))
    for edge in (y - 0.9, y + 0.9):
        sketch.field.keep_off((left, edge), (right, edge), weight=3)
    text = say("does-not-fit")
    if run.overrun is not None and run.overrun > 0:
        amount = round_to(run.overrun, fine_step(units), Rounding.UP)
        text = say("short-by", amount=show(amount, units))
    label = Label(text, 5.2, True)
    width, height = label.extent()
    for middle in ((left + right) / 2, left + width / 2 + 2, right - width / 2 - 2):
        held = min(max(middle, width / 2 + 2.0), sketch.frame.width - width / 2 - 2.0)
        box = (held - width / 2 - 1.2, y - height / 2 - 0.4, held + width / 2 + 1.2, y + height / 2 + 0.4)
        if sketch.field.is_free(box):
            sketch.box(Layer.TROUBLE, box, Fill.WHITE)
            sketch.write(label.centred(held, y))
            return
