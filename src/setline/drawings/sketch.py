"""A drawing in the making: shapes in the order they are drawn, and labels that know of each other."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from setline.drawings.ink import Ink
from setline.drawings.labels import Candidate, Label, LabelField, label_box
from setline.drawings.shapes import (
    Anchor,
    Circle,
    Drawing,
    Fill,
    Frame,
    Layer,
    Line,
    Point,
    Polygon,
    Polyline,
    Rect,
    Scale,
    Shape,
    Table,
    Text,
)

__all__ = ["Sketch", "corners", "wrapped"]


def corners(box: Rect) -> tuple[Point, ...]:
    """Return the four corners of a box, from its left top clockwise."""
    left, top, right, bottom = box
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def wrapped(text: str, size: float, width: float, *, bold: bool = False, most: int = 9) -> list[str] | None:
    """Return a text broken at its spaces into lines that fit a width, or None if it takes more lines."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and Label(longer, size, bold).extent()[0] <= width:
            lines[-1] = longer
        elif Label(word, size, bold).extent()[0] <= width:
            lines.append(word)
        else:
            return None
    return lines if len(lines) <= most else None


class Sketch:
    """Gathers shapes and labels; labels are drawn last, over every line.

    Args:
        frame: The paper the drawing may use.
    """

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self.field = LabelField((0.0, 0.0, frame.width, frame.height))
        self._shapes: list[Shape] = []
        self._leaders: list[Shape] = []
        self._labels: list[Text] = []

    def copy(self) -> Sketch:
        """Return a sketch that starts as this one stands, to try something on."""
        sketch = Sketch(self.frame)
        sketch.field = self.field.copy()
        sketch._shapes, sketch._leaders = list(self._shapes), list(self._leaders)
        sketch._labels = list(self._labels)
        return sketch

    def draw(self, *shapes: Shape) -> None:
        """Draw shapes over what stands there already."""
        self._shapes.extend(shapes)

    def tag(self, centre: Point, radius: float) -> None:
        """Draw a solid disc over every line, for a letter in white on it."""
        self._leaders.append(Circle(Layer.TAG, centre, radius, Fill.BLACK))

    def line(self, layer: Layer, start: Point, end: Point, *, keep_off: int = 0) -> None:
        """Draw a line; labels keep off it by that weight."""
        self._shapes.append(Line(layer, start, end))
        if keep_off:
            self.field.keep_off(start, end, weight=keep_off)

    def chain(self, layer: Layer, *points: Point, keep_off: int = 0) -> None:
        """Draw a line from point to point."""
        self._shapes.append(Polyline(layer, points))
        if keep_off:
            self.field.keep_off(*points, weight=keep_off)

    def box(self, layer: Layer, box: Rect, fill: Fill = Fill.NONE, *, keep_off: int = 0) -> None:
        """Draw a rectangle."""
        self._shapes.append(Polygon(layer, corners(box), fill))
        if keep_off:
            self.field.keep_off(*corners(box), (box[0], box[1]), weight=keep_off)

    def write(self, *texts: Text) -> None:
        """Write labels where they were put; nothing else is then written there."""
        for text in texts:
            self._labels.append(text)
            self.field.take(label_box(text))

    def put(
        self,
        label: Label,
        x: float,
        baseline: float,
        anchor: Anchor = Anchor.START,
        *,
        turned: bool = False,
    ) -> Rect:
        """Write a label at a point of its baseline and return its box."""
        text = Text(
            (x, baseline),
            label.text,
            label.size,
            anchor,
            bold=label.bold,
            turned=turned,
            halo=label.halo,
            reverse=label.reverse,
        )
        self.write(text)
        return label_box(text)

    def place(self, label: Label, candidates: Iterable[Candidate], *, most: int | None = None) -> Text | None:
        """Write a label at the best of its places, with its leader; None if none of them will do."""
        found = self.field.place(label, candidates, most=most)
        if found is None:
            return None
        text, place = found
        if place.leader:
            self.lead(*place.leader)
        self._labels.append(text)
        return text

    def lead(self, *points: Point) -> None:
        """Draw a leader: over the drawing, under the labels."""
        self._leaders.append(Polyline(Layer.LEADER, points))

    def finish(
        self,
        *,
        name: str,
        title: str,
        description: str,
        height: float,
        scale: Scale,
        origin: Point,
        table: Table,
    ) -> Drawing:
        """Return the finished drawing."""
        lines = (*self._shapes, *self._leaders)
        ink = Ink(lines, (0.0, 0.0, self.frame.width, height))
        labels = [
            text if not text.halo or ink.is_under(label_box(text)) else replace(text, halo=False)
            for text in self._labels
        ]
        return Drawing(
            name=name,
            title=title,
            description=description,
            width=self.frame.width,
            height=height,
            scale=scale,
            origin=origin,
            shapes=(*lines, *labels),
            table=table,
        )
