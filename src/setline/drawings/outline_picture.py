"""The room's outline from above: every wall with its letter and length, its windows and doors."""

from __future__ import annotations

from collections.abc import Iterator

from setline.drawings.labels import Candidate, Label
from setline.drawings.room_view import RoomView, paper_size
from setline.drawings.scale import on_paper, usual_scales
from setline.drawings.shapes import Drawing, Fill, Frame, Layer, Point, Polygon, Scale, Table
from setline.drawings.sketch import Sketch
from setline.drawings.symbols import draw_solid_side
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.result import Plan, WallLine, WallOpening
from setline.wording import say

__all__ = ["outline_picture"]

_PHONE = Frame(92.0, 120.0)
"""A sheet as wide as a phone: its least text then stands 16 px high. [mm]"""
_MARGIN = 11.0
"""Paper round the room, for names outside its walls. [mm]"""
_FOOT = 9.0
_TEXT = 4.2
_LETTER = 5.6
_THICK = 2.0
_LARGEST = 16


def outline_picture(plan: Plan, frame: Frame | None = None) -> Drawing:
    """Return the outline of the room.

    Args:
        plan: The plan; only its walls are used.
        frame: The paper it may use; without one, a sheet as wide as a phone shows well.
    """
    units = Units(plan.units)
    paper = frame or _PHONE
    sketch = Sketch(paper)
    scale, view, bottom = _fit(plan, paper, units)
    for wall in plan.walls:
        start, end = view.at(wall.x0, wall.y0), view.at(wall.x1, wall.y1)
        draw_solid_side(sketch, start, end)
        for opening in wall.openings:
            _draw_opening(sketch, view, wall, opening)
    for wall in plan.walls:
        _letter(sketch, view, wall, units)
    for wall in plan.walls:
        for opening in wall.openings:
            _name(sketch, view, wall, opening)
    _draw_bar(sketch, scale, units, bottom)
    return sketch.finish(
        name="outline",
        title=say("outline-drawing-title", job=plan.job_name),
        description=_description(plan, units),
        height=bottom + _FOOT,
        scale=scale,
        origin=view.at(0.0, 0.0),
        table=_table(plan, units),
    )


def _fit(plan: Plan, paper: Frame, units: Units) -> tuple[Scale, RoomView, float]:
    """Return the largest usual scale that the paper holds, where the room lies on it, and the y under it."""
    xs = [x for wall in plan.walls for x in (wall.x0, wall.x1)] or [0]
    ys = [y for wall in plan.walls for y in (wall.y0, wall.y1)] or [0]
    extent = (float(min(xs)), float(min(ys)), float(max(xs)), float(max(ys)))
    scales = [scale for scale in usual_scales(units) if scale.ratio >= _LARGEST]
    for scale in scales:
        wide, high = paper_size(extent, scale)
        if wide + 2 * _MARGIN <= paper.width and high + 2 * _MARGIN <= paper.height - _FOOT:
            break
    zero = RoomView(scale, 0.0, 0.0).at(extent[0], extent[1])
    view = RoomView(scale, (paper.width - wide) / 2 - zero[0], _MARGIN - zero[1])
    return scale, view, high + 2 * _MARGIN


def _draw_bar(sketch: Sketch, scale: Scale, units: Units, top: float) -> None:
    """Draw how long a few feet, or a metre, are in the picture."""
    inch = units == Units.INCH
    length, label = (48 * TICKS_PER_INCH, "scale-feet") if inch else (1000 * TICKS_PER_MM, "scale-mm")
    words = say(label, feet=4) if inch else say(label, mm=1000)
    right, y = 2.0 + on_paper(length, scale), top + 5.0
    sketch.line(Layer.SCALE, (2.0, y), (right, y))
    for x in (2.0, right):
        sketch.line(Layer.SCALE, (x, y - 1.5), (x, y + 1.5))
    sketch.put(Label(words, _TEXT), right + 2.0, y + 1.4)


def _along(wall: WallLine) -> tuple[float, float]:
    """Return the direction along a wall, of length 1."""
    length = ((wall.x1 - wall.x0) ** 2 + (wall.y1 - wall.y0) ** 2) ** 0.5 or 1.0
    return (wall.x1 - wall.x0) / length, (wall.y1 - wall.y0) / length


def _outward(wall: WallLine) -> tuple[float, float]:
    """Return the direction from the room into a wall."""
    dx, dy = _along(wall)
    return dy, -dx


def _ends(view: RoomView, wall: WallLine, opening: WallOpening) -> tuple[Point, Point] | None:
    """Return where an opening starts and ends on the paper, or None where only its centre was read."""
    if opening.left is None or opening.right is None:
        return None
    dx, dy = _along(wall)
    return (
        view.at(wall.x0 + dx * opening.left, wall.y0 + dy * opening.left),
        view.at(wall.x0 + dx * opening.right, wall.y0 + dy * opening.right),
    )


def _draw_opening(sketch: Sketch, view: RoomView, wall: WallLine, opening: WallOpening) -> None:
    """Draw a window as a white bar with a line in it, a door as a gap between two stops."""
    ends = _ends(view, wall, opening)
    if ends is None:
        return
    dx, dy = _outward(wall)
    (x0, y0), (x1, y1) = ends
    bar = tuple(
        (x + dx * side, y + dy * side)
        for x, y, side in (
            (x0, y0, -_THICK / 2),
            (x1, y1, -_THICK / 2),
            (x1, y1, _THICK),
            (x0, y0, _THICK),
        )
    )
    sketch.draw(Polygon(Layer.WINDOW, bar, Fill.WHITE))
    if opening.kind == "window":
        middle = _THICK / 4
        sketch.line(
            Layer.WINDOW,
            (x0 + dx * middle, y0 + dy * middle),
            (x1 + dx * middle, y1 + dy * middle),
        )
    sketch.field.keep_off(*bar, bar[0], weight=2)


def _letter(sketch: Sketch, view: RoomView, wall: WallLine, units: Units) -> None:
    """Write a wall's letter and length beside its middle, in the room."""
    label = Label(f"{wall.name} {show(wall.length, units)}", _LETTER, True)
    sketch.place(label, _beside(view, wall, wall.length / 2, label, into_room=True))


def _name(sketch: Sketch, view: RoomView, wall: WallLine, opening: WallOpening) -> None:
    """Write what an opening is, outside the wall."""
    label = Label(opening.name, _TEXT)
    sketch.place(label, _beside(view, wall, float(opening.centre), label, into_room=False))


def _beside(
    view: RoomView, wall: WallLine, u: float, label: Label, *, into_room: bool
) -> Iterator[Candidate]:
    """Yield places beside a wall at a distance along it, upright first, then turned with the wall."""
    dx, dy = _along(wall)
    ox, oy = _outward(wall)
    if into_room:
        ox, oy = -ox, -oy
    x, y = view.at(wall.x0 + dx * u, wall.y0 + dy * u)
    for reach in (3.5, 6.0, 9.0, 13.0):
        for turned in (abs(dy) > 0.5, False):
            width, height = label.extent(turned)
            away = reach + abs(ox) * width / 2 + abs(oy) * height / 2
            for shift in (0.0, 8.0, -8.0, 16.0, -16.0):
                middle = (x + ox * away + dx * shift, y + oy * away + dy * shift)
                yield Candidate(middle[0] - width / 2, middle[1] - height / 2, turned)


def _description(plan: Plan, units: Units) -> str:
    """Return the walls with their lengths in one sentence."""
    walls = ", ".join(f"{wall.name} {show(wall.length, units)}" for wall in plan.walls)
    return say("outline-says", walls=walls)


def _table(plan: Plan, units: Units) -> Table:
    """Return every wall with its length and what is in it."""
    rows = [
        (
            wall.name,
            show(wall.length, units),
            ", ".join(f"{each.name} {_where(each, units)}" for each in wall.openings),
        )
        for wall in plan.walls
    ]
    return Table(tuple(say(f"outline-table-{key}") for key in ("wall", "length", "openings")), tuple(rows))


def _where(opening: WallOpening, units: Units) -> str:
    """Return where an opening lies along its wall."""
    if opening.left is None or opening.right is None:
        return say("outline-centre", centre=show(opening.centre, units))
    return say("outline-edges", left=show(opening.left, units), right=show(opening.right, units))
