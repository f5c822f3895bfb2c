"""The signs of the visual language: how a box, an opening, a filler, a wall or a trouble is drawn."""

from __future__ import annotations

from math import hypot

from setline.drawings.shapes import Fill, Hatch, Layer, Line, Pattern, Point, Polygon, Polyline, Rect
from setline.drawings.sketch import Sketch, corners
from setline.result import ItemKind

__all__ = ["arrow", "draw_item", "draw_solid_side", "wavy_bracket"]

_BRACKET = 2.2
_PANEL_LEAST = 0.8
_FILLER_PITCH = 1.5


def draw_item(sketch: Sketch, kind: ItemKind, box: Rect) -> None:
    """Draw an item of a run in its outline on paper.

    A box is a plain outline; an opening has two sides and corner brackets but no top or bottom; a filler is
    hatched; a panel is a solid bar, not under 0.8 mm; what stands already has a dashed outline.
    """
    match kind:
        case ItemKind.BOX:
            sketch.box(Layer.BOX, box, Fill.WHITE, keep_off=2)
        case ItemKind.OPENING:
            _draw_opening(sketch, box)
        case ItemKind.FILLER:
            sketch.draw(Polygon(Layer.FILLER, corners(box), Fill.WHITE))
            sketch.draw(Hatch(Layer.FILLER, (corners(box),), Pattern.SLANT, _FILLER_PITCH))
            sketch.field.keep_off_box(box)
        case ItemKind.PANEL:
            spare = max(0.0, _PANEL_LEAST - (box[2] - box[0])) / 2
            bar = (box[0] - spare, box[1], box[2] + spare, box[3])
            sketch.draw(Polygon(Layer.PANEL, corners(bar), Fill.BLACK))
            sketch.field.keep_off_box(bar)
        case ItemKind.EXISTING:
            sketch.box(Layer.EXISTING, box, Fill.WHITE, keep_off=2)


def _draw_opening(sketch: Sketch, box: Rect) -> None:
    """Draw an opening: two side lines and four corner brackets."""
    left, top, right, bottom = box
    reach = min(_BRACKET, (right - left) / 3)
    for x, inward in ((left, reach), (right, -reach)):
        sketch.line(Layer.OPENING, (x, top), (x, bottom), keep_off=2)
        for y in (top, bottom):
            sketch.line(Layer.OPENING, (x, y), (x + inward, y))


def draw_solid_side(
    sketch: Sketch, start: Point, end: Point, *, layer: Layer = Layer.WALL, pitch: float = 2.4
) -> None:
    """Draw a wall or floor as found: a heavy line with short slant ticks on its solid side.

    The solid side lies to the left when going from start to end (y down the page).
    """
    sketch.line(layer, start, end, keep_off=2)
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length < 1e-6:
        return
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    solid = (along[1], -along[0])
    for count in range(int(length / pitch)):
        at = (count + 0.5) * pitch
        foot = (start[0] + along[0] * at, start[1] + along[1] * at)
        tip = (foot[0] + 1.2 * (solid[0] + along[0]), foot[1] + 1.2 * (solid[1] + along[1]))
        sketch.draw(Line(Layer.WALL_TICK, foot, tip))


def wavy_bracket(left: float, right: float, y: float, drop: float) -> Polyline:
    """Return the wavy bracket of a trouble; its ends turn by ``drop`` towards the stretch."""
    waves = max(1, round((right - left) / 4.0))
    points: list[Point] = [(left, y + drop)]
    for count in range(8 * waves + 1):
        height = (0.0, 0.6, 0.85, 0.6, 0.0, -0.6, -0.85, -0.6)[count % 8]
        points.append((left + (right - left) * count / (8 * waves), y + height))
    return Polyline(Layer.TROUBLE, (*points, (right, y + drop)))


def arrow(tip: Point, back: Point, length: float = 2.2) -> Polygon:
    """Return a slim solid arrowhead with its tip at a point, coming from another."""
    span = hypot(tip[0] - back[0], tip[1] - back[1]) or 1.0
    along = ((tip[0] - back[0]) / span, (tip[1] - back[1]) / span)
    foot = (tip[0] - along[0] * length, tip[1] - along[1] * length)
    half = length * 0.22
    return Polygon(
        Layer.PANEL,
        (
            tip,
            (foot[0] - along[1] * half, foot[1] + along[0] * half),
            (foot[0] + along[1] * half, foot[1] - along[0] * half),
        ),
        Fill.BLACK,
    )
