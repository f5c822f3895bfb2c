"""The tags of a shim map: one a bearing point, at its true place or on a leader from it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from setline.drawings.labels import GAP, Label, overlaps
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.shapes import Circle, Fill, Layer, Point, Rect
from setline.drawings.sketch import Sketch

__all__ = ["TAG_SIZES", "Tag", "place_inside", "place_outside"]

TAG_SIZES = (6.4, 5.8, 5.2, 4.6, 4.0, 3.6, LEAST_TEXT)
"""Sizes of a tag's number, the largest first; the whole map uses one."""
_PAD = 0.8
_INSET = 0.5
_DOUBLE = 0.75
_SLIDES = (0.0, 1.2, -1.2, 2.4, -2.4, 3.6, -3.6, 5.0, -5.0, 6.5, -6.5, 8.0, -8.0)


@dataclass(frozen=True, slots=True)
class Tag:
    """A bearing point's number.

    Attributes:
        box: Number of its box.
        at: Its true place on paper.
        text: The number, ``0`` or ``?``.
        right: 1 if the tag grows to the right of the place, into its box, -1 if to the left.
        down: 1 if it grows down the page, -1 if up, 0 if it is centred on the place.
        away: -1 if a tag without room in its box goes up the page, 1 if down.
        is_high_spot: Whether the box rests on the high spot here.
        over_limit: Whether it is over the limit.
        is_known: False for a ``?``.
    """

    box: int
    at: Point
    text: str
    right: int
    down: int
    away: int
    is_high_spot: bool
    over_limit: bool
    is_known: bool


@dataclass(frozen=True, slots=True)
class _Place:
    """A place for a tag: its outline, which way up, and where its leader ends if it has one."""

    box: Rect
    turned: bool
    leader: Point | None


def place_inside(sketch: Sketch, tags: list[Tag], size: float) -> list[Tag]:
    """Draw the tags that have room at their points in their boxes; return those that have none.

    Args:
        sketch: What they are drawn on.
        tags: In order from left to right, box by box.
        size: Size of their numbers.
    """
    outside = []
    for box in dict.fromkeys(tag.box for tag in tags):
        mine = [tag for tag in tags if tag.box == box]
        places = _together(sketch, mine, size)
        for tag in mine:
            if tag in places:
                _draw(sketch, tag, size, places[tag])
            else:
                outside.append(tag)
    return outside


def place_outside(sketch: Sketch, tags: list[Tag], size: float, rows: tuple[float, float]) -> list[Rect]:
    """Draw tags beyond the wall and the fronts, on leaders from their points; return their outlines.

    Args:
        sketch: What they are drawn on.
        tags: In order from left to right.
        size: Size of their numbers.
        rows: y over which the tags of the back stand, and y under which those of the front do.
    """
    outlines = []
    for tag in tags:
        place = _free_outside(sketch, tag, size, rows)
        _draw(sketch, tag, size, place)
        outlines.append(place.box)
    return outlines


def _free_outside(sketch: Sketch, tag: Tag, size: float, rows: tuple[float, float]) -> _Place:
    """Return the nearest free place with a clear leader; if there is none, the nearest free place."""
    nearest = None
    for place in _outside(tag, size, rows):
        if sketch.field.is_free(place.box):
            if place.leader and sketch.field.leader_is_free(tag.at, place.leader):
                return place
            nearest = nearest or place
    assert nearest is not None, "rows go on until there is room"
    return nearest


def _extent(tag: Tag, size: float, turned: bool) -> tuple[float, float]:
    """Return a tag's width and height; it is never narrower than it is high."""
    width, height = Label(tag.text, size, True).extent()
    pad = _PAD + (_DOUBLE if tag.over_limit else 0.0)
    wide, high = max(width, height) + 2 * pad, height + 2 * pad - 0.8
    return (high, wide) if turned else (wide, high)


def _together(sketch: Sketch, tags: list[Tag], size: float) -> dict[Tag, _Place]:
    """Return the places of a box's tags at their points: all upright, all turned, or those that have room."""
    found: dict[Tag, _Place] = {}
    for turned in (False, True):
        found = {}
        for tag in sorted(tags, key=lambda tag: tag.down == 0):  # corners first
            for place in _inside(tag, size, turned):
                clear = not any(overlaps(place.box, other.box, GAP) for other in found.values())
                if clear and sketch.field.is_free(place.box):
                    found[tag] = place
                    break
        if len(found) == len(tags):
            break
    return found


def _inside(tag: Tag, size: float, turned: bool) -> Iterator[_Place]:
    """Yield a tag's places at its point, growing into its box; between corners it may slide."""
    x, y = tag.at
    wide, high = _extent(tag, size, turned)
    left = x + _INSET if tag.right > 0 else x - _INSET - wide
    top = {1: y + _INSET, 0: y - high / 2, -1: y - _INSET - high}[tag.down]
    side = left if tag.right > 0 else left + wide
    for slide in (0.0,) if tag.down else _SLIDES:
        slid = top + slide
        leader = (side, slid + high / 2) if slide else None
        yield _Place((left, slid, left + wide, slid + high), turned, leader)


def _outside(tag: Tag, size: float, rows: tuple[float, float]) -> Iterator[_Place]:
    """Yield a tag's places beyond the wall or the fronts, in rows, the nearest row and place first."""
    x = tag.at[0]
    for turned in (True, False):
        wide, high = _extent(tag, size, turned)
        for row in range(12):
            off = row * (high + 1.6)
            top = rows[0] - high - off if tag.away < 0 else rows[1] + off
            foot = top + high if tag.away < 0 else top
            for step in range(25):
                for side in (1, -1) if step else (1,):
                    middle = x + side * step * 1.5
                    box = (middle - wide / 2, top, middle + wide / 2, top + high)
                    yield _Place(box, turned, (middle, foot))


def _draw(sketch: Sketch, tag: Tag, size: float, place: _Place) -> None:
    """Draw a tag: black on the high spot, dotted where no reading is near, double over the limit."""
    left, top, right, bottom = place.box
    sketch.draw(Circle(Layer.PANEL, tag.at, 0.55, Fill.BLACK))
    if place.leader:
        sketch.lead(tag.at, place.leader)
        sketch.field.keep_off(tag.at, place.leader, weight=3)
    layer = Layer.TAG if tag.is_known else Layer.UNREAD
    sketch.box(layer, place.box, Fill.BLACK if tag.is_high_spot else Fill.WHITE)
    if tag.over_limit:
        inner = (left + _DOUBLE, top + _DOUBLE, right - _DOUBLE, bottom - _DOUBLE)
        sketch.box(layer, inner)
    label = Label(tag.text, size, True, reverse=tag.is_high_spot, halo=False)
    sketch.field.take(place.box)
    sketch.write(label.centred((left + right) / 2, (top + bottom) / 2, place.turned, place.box))
