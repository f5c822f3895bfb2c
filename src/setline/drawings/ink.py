"""Where ink lies on a drawing, so that only labels that stand over it get a white edge.

The white edge costs a second outline of every letter in a PDF. A label on clear paper needs none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from setline.drawings.labels import LabelField
from setline.drawings.shapes import (
    Arc,
    Circle,
    Dots,
    Fill,
    Hatch,
    Line,
    Point,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)

__all__ = ["Ink"]


class Ink:
    """The ink of a drawing's shapes; labels are none.

    Args:
        shapes: The shapes.
        frame: The drawing's outline.
    """

    def __init__(self, shapes: Iterable[Shape], frame: Rect) -> None:
        self._field = LabelField(frame)
        for shape in shapes:
            for start, end in _strokes(shape):
                self._field.keep_off(start, end, weight=1)

    def is_under(self, box: Rect) -> bool:
        """Return whether any line, hatch or dot lies under a label's box or touches it."""
        return self._field.crossings(box) > 0


def _strokes(shape: Shape) -> Iterator[tuple[Point, Point]]:
    """Yield lines that stand for a shape's ink; an area by lines close enough that no label fits between."""
    match shape:
        case Line(start=start, end=end):
            yield start, end
        case Polyline(points=points):
            yield from pairwise(points)
        case Polygon(points=points, fill=fill):
            yield from pairwise((*points, points[0]))
            if fill == Fill.BLACK:
                yield from _rows(points)
        case Circle(centre=(x, y), radius=radius) | Arc(centre=(x, y), radius=radius):
            yield (x - radius, y), (x + radius, y)
            yield (x, y - radius), (x, y + radius)
        case Hatch(boundaries=boundaries):
            for boundary in boundaries:
                yield from _rows(boundary)
        case Dots(centres=centres):
            yield from ((dot, dot) for dot in centres)
        case Text():
            return


def _rows(points: tuple[Point, ...], pitch: float = 2.0) -> Iterator[tuple[Point, Point]]:
    """Yield level lines over the box round an area."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    for row in range(int((max(ys) - min(ys)) / pitch) + 1):
        y = min(ys) + row * pitch
        yield (min(xs), y), (max(xs), y)
