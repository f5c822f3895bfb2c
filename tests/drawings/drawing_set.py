"""Every drawing of a plan, and what must hold of each."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from setline import load_job, plan
from setline.drawings.floor_picture import floor_picture
from setline.drawings.labels import label_box
from setline.drawings.shapes import (
    Arc,
    Circle,
    Dots,
    Drawing,
    Hatch,
    Line,
    Point,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)
from setline.drawings.shim_map import shim_map
from setline.drawings.story_pole import story_pole, story_pole_sheets
from setline.drawings.wall_elevation import wall_elevation
from setline.result import Plan

NINE_POINT = 9 * 25.4 / 72


EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def example(name: str) -> Plan:
    """Return the plan of a sample kitchen."""
    return plan(load_job(EXAMPLES / f"{name}.toml"))


def drawings_of(plan: Plan, *, poles: int = 99) -> Iterator[Drawing]:
    """Yield every drawing of a plan, with the story poles of so many runs."""
    yield floor_picture(plan)
    for wall in plan.walls:
        yield wall_elevation(plan, wall.name)
        yield shim_map(plan, wall.name)
    for run in plan.runs[:poles]:
        yield story_pole(plan, run.name)
        yield from story_pole_sheets(plan, run.name)


def texts_of(drawing: Drawing) -> list[Text]:
    """Return a drawing's labels."""
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


def meeting_labels(drawing: Drawing) -> list[tuple[str, str]]:
    """Return the pairs of labels whose boxes overlap, found by sweeping from left to right."""
    boxes = sorted((label_box(text), text.text) for text in texts_of(drawing))
    pairs = []
    open_boxes: list[tuple[Rect, str]] = []
    for box, text in boxes:
        open_boxes = [other for other in open_boxes if other[0][2] > box[0] + 1e-6]
        pairs += [
            (other_text, text)
            for other, other_text in open_boxes
            if other[1] < box[3] - 1e-6 and box[1] < other[3] - 1e-6
        ]
        open_boxes.append((box, text))
    return pairs


def straying_labels(drawing: Drawing) -> list[str]:
    """Return the labels that leave the drawing, or the outline they belong in."""
    astray = []
    for text in texts_of(drawing):
        for frame in filter(None, ((0.0, 0.0, drawing.width, drawing.height), text.frame)):
            box, spare = label_box(text), 1e-6
            inside = (
                box[0] >= frame[0] - spare
                and box[1] >= frame[1] - spare
                and box[2] <= frame[2] + spare
                and box[3] <= frame[3] + spare
            )
            if not inside:
                astray.append(text.text)
    return astray


def small_labels(drawing: Drawing) -> list[str]:
    """Return the labels under 9 pt."""
    return [text.text for text in texts_of(drawing) if text.size < NINE_POINT]


def straying_shapes(drawing: Drawing) -> list[Shape]:
    """Return the shapes that are cut by the edge of the drawing."""
    return [
        shape
        for shape in drawing.shapes
        if not isinstance(shape, Text)
        for x, y in _points(shape)
        if not (-0.5 <= x <= drawing.width + 0.5 and -0.5 <= y <= drawing.height + 0.5)
    ]


def _points(shape: Shape) -> tuple[Point, ...]:
    """Return places that a shape reaches."""
    match shape:
        case Line(start=start, end=end):
            return (start, end)
        case Polyline(points=points) | Polygon(points=points):
            return points
        case Circle(centre=(x, y), radius=radius) | Arc(centre=(x, y), radius=radius):
            return ((x - radius, y), (x + radius, y)) if isinstance(shape, Circle) else ((x, y),)
        case Hatch(boundaries=boundaries):
            return tuple(point for boundary in boundaries for point in boundary)
        case Dots(centres=centres):
            return centres
        case Text(at=at):
            return (at,)
