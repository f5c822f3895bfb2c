"""The story pole of a run: a strip at full size with every mark, to hold against the wall in place of a tape.

As one long drawing, or cut into pieces that fit a page. A piece starts exactly where the one before it has
its cross, and runs on past its own cross by an overlap to glue the next one to.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.drawings.item_labels import write_block
from setline.drawings.labels import Candidate, Label
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.scale import FULL_SIZE, on_paper
from setline.drawings.shapes import (
    Anchor,
    Arc,
    Drawing,
    Fill,
    Frame,
    Hatch,
    Layer,
    Pattern,
    Polygon,
    Rect,
    Table,
)
from setline.drawings.sketch import Sketch, corners
from setline.drawings.standing import Standing, item_code, plain_name, stand
from setline.drawings.title_block import draw_foot, draw_heading, foot_height
from setline.drawings.wall_facts import edge_words, item_words, mark_number
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.result import Edge, ItemKind, Mark, Plan, RunPlan
from setline.wording import say

__all__ = ["POLE_PAGE", "story_pole", "story_pole_sheets"]

POLE_PAGE = Frame(268.0, 188.0)
"""What a pole's sheet takes of a letter or A4 page laid sideways: 10 in and their overlap, or 250 mm."""

_SIDE = 6.0
_NAME = 5.0
_MARKS = 24.0
"""Height of the marks with their numbers, under the strip's edge. [mm]"""
_ITEMS = 12.0
_GRADES = 6.2
_STRIP = _NAME + _MARKS + _ITEMS + _GRADES
_BETWEEN = 5.0
_NUMBERS = (8.0, 6.5, 5.2, 4.2, 3.6, LEAST_TEXT)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch of the pole from one u to another; ``joins`` is where the next piece starts."""

    start: int
    end: int
    joins: int | None
    name: str


def story_pole(plan: Plan, run_name: str) -> Drawing:
    """Return the story pole of a run as one long strip at full size.

    Args:
        plan: The plan.
        run_name: The run's name, such as ``A base``.

    Returns:
        The drawing, as wide as the run with a little paper at each end. It starts at the left corner, or at
        a whole foot (300 mm) where the run starts far from it. A run that cannot be solved has no pole,
        only a head that says DO NOT SET.
    """
    run = _run(plan, run_name)
    start, end = _reach(plan, run)
    width = max(on_paper(end - start, FULL_SIZE) + 2 * _SIDE, POLE_PAGE.width)
    return _sheet(plan, run, (_Piece(start, end, None, run.name),), Frame(width, 1e4), "")


def story_pole_sheets(plan: Plan, run_name: str, frame: Frame | None = None) -> tuple[Drawing, ...]:
    """Return the story pole of a run in pieces, several to a sheet, at full size.

    Args:
        plan: The plan.
        run_name: The run's name, such as ``A base``.
        frame: The paper of a sheet; without one, ``POLE_PAGE``. A piece is 10 in (250 mm) long, or as many
            whole inches (tens of mm) as the paper holds with the overlap of 1/2 in (10 mm).

    Returns:
        The sheets in order. A run that cannot be solved has one, headed DO NOT SET.
    """
    paper, run = frame or POLE_PAGE, _run(plan, run_name)
    pieces = _pieces(plan, run, paper)
    foot = foot_height(FULL_SIZE, Units(plan.units), [say("pole-note")], paper.width)
    room = paper.height - _heading_height(plan, run, paper) - foot - 2.0
    each = max(1, int((room + _BETWEEN) // (_STRIP + _BETWEEN)))
    groups = [pieces[first : first + each] for first in range(0, len(pieces), each)] or [()]
    return tuple(
        _sheet(plan, run, group, paper, f"-{number}" if len(groups) > 1 else "")
        for number, group in enumerate(groups, 1)
    )


def _run(plan: Plan, name: str) -> RunPlan:
    return next(run for run in plan.runs if run.name == name)


def _reach(plan: Plan, run: RunPlan) -> tuple[int, int]:
    """Return the u that a pole starts and ends at."""
    step = 12 * TICKS_PER_INCH if plan.units == Units.INCH else 300 * TICKS_PER_MM
    things = stand(run)
    first, last = (things[0].left, things[-1].right) if things else (0, step)
    start = 0 if first < 2 * step else (first - 1) // step * step
    return start, last


def _pieces(plan: Plan, run: RunPlan, paper: Frame) -> tuple[_Piece, ...]:
    """Return the pieces a pole is cut into for a paper."""
    if not run.solved:
        return ()
    units = Units(plan.units)
    step = TICKS_PER_INCH if units == Units.INCH else 10 * TICKS_PER_MM
    overlap = step // 2 if units == Units.INCH else step
    most = 10 if units == Units.INCH else 25
    count = min(most, int((paper.width - on_paper(overlap, FULL_SIZE)) // on_paper(step, FULL_SIZE)))
    length = max(1, count) * step
    start, end = _reach(plan, run)
    starts = list(range(start, max(end, start + 1), length))
    pieces = []
    for number, here in enumerate(starts, 1):
        joins = here + length if number < len(starts) else None
        stop = min(here + length + overlap, end + overlap)
        name = say("pole-piece", run=run.name, number=number, count=len(starts), start=show(here, units))
        pieces.append(_Piece(here, stop, joins, name))
    return tuple(pieces)


def _heading_height(plan: Plan, run: RunPlan, paper: Frame) -> float:
    return _heading(Sketch(Frame(paper.width, 1e4)), plan, run)


def _heading(sketch: Sketch, plan: Plan, run: RunPlan) -> float:
    """Write the heading; return the y under it."""
    banner = "" if run.solved else say("do-not-set", run=run.name)
    title = say("pole-title", run=run.name.upper())
    return draw_heading(sketch, plan, title, say("pole-aside"), banner=banner) + 1.2


def _sheet(plan: Plan, run: RunPlan, pieces: Sequence[_Piece], paper: Frame, suffix: str) -> Drawing:
    """Return a sheet with its pieces under each other."""
    sketch, units = Sketch(paper), Units(plan.units)
    top = _heading(sketch, plan, run)
    left = 0.0 if suffix or len(pieces) > 1 or (pieces and pieces[0].joins) else _SIDE
    origin = (left, top + _NAME)
    notes = [say("pole-note")]
    if not run.solved:
        pieces, notes = (), [say("pole-none", run=run.name)]
    for piece in pieces:
        _draw_piece(sketch, run, piece, units, left, top)
        top += _STRIP + _BETWEEN
    height = draw_foot(sketch, FULL_SIZE, units, notes, top)
    start = pieces[0].start if pieces else 0
    return sketch.finish(
        name=f"pole-{run.name.replace(' ', '-')}{suffix}",
        title=say("pole-drawing-title", job=plan.job_name, run=run.name),
        description=_description(run, units),
        height=height,
        scale=FULL_SIZE,
        origin=(origin[0] - on_paper(start, FULL_SIZE), origin[1]),
        table=_table(run, units),
    )


def _draw_piece(sketch: Sketch, run: RunPlan, piece: _Piece, units: Units, left: float, top: float) -> None:
    """Draw one piece: its edge, marks, items, graduation and crosses."""
    edge = top + _NAME
    right = left + on_paper(piece.end - piece.start, FULL_SIZE)
    sketch.put(Label(piece.name, 3.6), left, top + 3.4)
    sketch.line(Layer.WALL, (left, edge), (right, edge))
    floor = edge + _MARKS + _ITEMS
    sketch.line(Layer.RULE, (left, floor), (right, floor))
    if piece.start == 0:
        sketch.draw(Arc(Layer.RULE, (left, edge), 4.5, 0.0, 90.0, is_sector=True, fill=Fill.BLACK))
        sketch.field.take((left, edge, left + 4.5, edge + 4.5))
    _draw_joints(sketch, piece, left, edge)
    _draw_marks(sketch, run, piece, units, left, edge)
    _draw_items(sketch, run, piece, units, left, edge + _MARKS)
    _draw_grades(sketch, piece, units, left, floor)


def _draw_joints(sketch: Sketch, piece: _Piece, left: float, edge: float) -> None:
    """Draw where the piece is cut and where the next is laid, with a cross at both edges of the strip."""
    places = [place for place in (piece.start, piece.joins) if place]
    for place in places:
        x = left + on_paper(place - piece.start, FULL_SIZE)
        sketch.line(Layer.CENTRE, (x, edge - 2.5), (x, edge + _MARKS + _ITEMS + 2.5), keep_off=2)
        for y in (edge, edge + _MARKS + _ITEMS):
            sketch.line(Layer.DIMENSION, (max(0.0, x - 2.5), y), (x + 2.5, y))
            sketch.line(Layer.DIMENSION, (x, y - 2.5), (x, y + 2.5))


def _draw_marks(sketch: Sketch, run: RunPlan, piece: _Piece, units: Units, left: float, edge: float) -> None:
    """Draw the marks with their numbers and what to write, each beside its own line."""
    things = stand(run)
    shown = []
    for index, mark in enumerate(run.marks):
        at = mark.printed
        if at is not None and piece.start <= at <= piece.end:
            x = left + on_paper(at - piece.start, FULL_SIZE)
            sketch.line(Layer.BOX, (x, edge), (x, edge + _MARKS), keep_off=3)
            _draw_tip(sketch, mark, things[index] if index < len(things) else None, x, edge)
            shown.append((x, mark))
    limits = (left, left + on_paper(piece.end - piece.start, FULL_SIZE))
    for x, mark in shown:
        _write_mark(sketch, mark, units, x, edge, limits)


def _draw_tip(sketch: Sketch, mark: Mark, after: Standing | None, x: float, edge: float) -> None:
    """Draw the tip of a mark: both ways at a joint, to the body's side at a body edge."""
    body = 0
    if mark.edge == Edge.BODY:
        body = 1 if after is not None and after.item.number == mark.of_item else -1
    for side in (-1, 1):
        if body in (0, side) and x + side * 1.6 >= 0.0:
            tip = ((x, edge), (x + side * 1.6, edge + 3.6), (x, edge + 3.6))
            sketch.draw(Polygon(Layer.PANEL, tip, Fill.BLACK))


def _write_mark(
    sketch: Sketch, mark: Mark, units: Units, x: float, edge: float, limits: tuple[float, float]
) -> None:
    """Write a mark's number, as large as its neighbours leave it, with what to write under it."""
    number = mark_number(mark, units)
    for size in _NUMBERS:
        label = Label(number, size, True)
        width, height = label.extent()
        rows = [edge + 4.4 + row * 4.0 for row in range(6) if 4.4 + row * 4.0 + height <= _MARKS - 0.4]
        sides = [left for left in (x + 1.0, x - 1.0 - width) if limits[0] <= left <= limits[1] - width]
        found = sketch.place(label, (Candidate(left, top) for top in rows for left in sides), most=0)
        if found is not None:
            break
    else:
        label = Label(number, LEAST_TEXT, True)
        width, height = label.extent(turned=True)
        lefts = (x + 0.4, x - 0.4 - width)
        tops = [edge + 4.4 + step for step in range(int(_MARKS - 4.4 - height))]
        found = sketch.place(label, (Candidate(left, top, True) for top in tops for left in lefts))
    sign = mark.write.removeprefix(number).strip()
    if found is None or not any(letter.isalnum() for letter in sign):
        return
    words = Label(sign, 4.6)
    width, height = words.extent()
    rows = [edge + 10.0 + row * 2.0 for row in range(8) if 10.0 + row * 2.0 + height <= _MARKS - 0.4]
    sides = [left for left in (x + 1.0, x - 1.0 - width) if limits[0] <= left <= limits[1] - width]
    sketch.place(words, (Candidate(left, top) for top in rows for left in sides), most=0)


def _draw_items(sketch: Sketch, run: RunPlan, piece: _Piece, units: Units, left: float, top: float) -> None:
    """Draw what stands between the marks, each with its number on every piece where it shows."""
    for thing in stand(run):
        start, end = max(thing.left, piece.start), min(thing.right, piece.end)
        if start >= end:
            continue
        box = (
            left + on_paper(start - piece.start, FULL_SIZE),
            top,
            left + on_paper(end - piece.start, FULL_SIZE),
            top + _ITEMS,
        )
        _draw_thing(sketch, thing.item.kind, box)
        for at, x in ((thing.left, box[0]), (thing.right, box[2])):
            if piece.start <= at <= piece.end:
                sketch.line(Layer.FOOTPRINT, (x, top), (x, top + _ITEMS))
        _name_thing(sketch, thing, box, units)


def _draw_thing(sketch: Sketch, kind: ItemKind, box: Rect) -> None:
    """Draw what a stretch of the strip stands for: hatched, solid, open at the top, or plain."""
    if kind == ItemKind.FILLER:
        sketch.draw(Hatch(Layer.FILLER, (corners(box),), Pattern.SLANT, 1.5))
    if kind == ItemKind.PANEL:
        sketch.box(Layer.PANEL, box, Fill.BLACK)
    if kind != ItemKind.OPENING:
        sketch.line(Layer.FOOTPRINT, (box[0], box[1]), (box[2], box[1]))


def _name_thing(sketch: Sketch, thing: Standing, box: Rect, units: Units) -> None:
    """Write an item's number, name and width on its stretch, as much as it holds."""
    width = show(thing.right - thing.left, units)
    code, name = item_code(thing.item), plain_name(thing.item, width)
    room = (box[0] + 0.6, box[1] + 0.4, box[2] - 0.6, box[3] - 0.4)
    words = [f"{code} {name}, {width}"] if name else []
    for text, size in [(text, 5.4) for text in (*words, f"{code}, {width}")] + [
        (code, size) for size in (6.0, 4.6, LEAST_TEXT)
    ]:
        if write_block(sketch, [Label(text, size, True)], room):
            return


def _draw_grades(sketch: Sketch, piece: _Piece, units: Units, left: float, top: float) -> None:
    """Draw inches (or centimetres) along the strip's lower edge, to lay a tape against."""
    step = TICKS_PER_INCH if units == Units.INCH else 10 * TICKS_PER_MM
    for count in range(-(-piece.start // step), piece.end // step + 1):
        x = left + on_paper(count * step - piece.start, FULL_SIZE)
        long = count % (1 if units == Units.INCH else 5) == 0
        sketch.line(Layer.DIMENSION, (x, top), (x, top + (2.4 if long else 1.4)))
        if long:
            text = str(count if units == Units.INCH else count * 10)
            label = Label(text, LEAST_TEXT)
            width, _ = label.extent()
            right = left + on_paper(piece.end - piece.start, FULL_SIZE)
            if width / 2 <= x and x + width / 2 <= min(right + _SIDE, sketch.frame.width):
                sketch.put(label, x, top + 5.4, Anchor.MIDDLE)


def _description(run: RunPlan, units: Units) -> str:
    """Return the pole's answer: its marks from the left corner."""
    if not run.solved:
        return say("pole-none", run=run.name)
    marks = ", ".join(mark_number(mark, units) for mark in run.marks)
    return say("pole-says", run=run.name, marks=marks)


def _table(run: RunPlan, units: Units) -> Table:
    """Return every mark with what to write and what stands right of it."""
    header = tuple(say(f"table-{key}") for key in ("mark", "from-left", "edge", "write", "right-of-it"))
    things = stand(run)
    rows = [
        (
            mark.name,
            mark_number(mark, units),
            edge_words(mark),
            mark.write,
            item_words(things[index].item) if index < len(things) else "",
        )
        for index, mark in enumerate(run.marks)
    ]
    return Table(header, tuple(rows))
