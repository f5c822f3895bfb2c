"""The ground of the floor picture: contours of the modelled floor, and where no reading supports it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor, hypot

from setline.drawings.contours import Contour, contour_lines, unread_cells
from setline.drawings.floor_numbers import below_high_spot
from setline.drawings.labels import Candidate, Label
from setline.drawings.room_view import RoomView, is_in_room
from setline.drawings.shapes import Dots, Layer, Point, Polyline
from setline.drawings.sketch import Sketch
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units
from setline.result import Plan, SurfaceGrid, WallLine

__all__ = ["contour_step", "draw_contours", "draw_unread", "label_contours", "label_unread"]

_MOST_LINES = 14
_STEPS = {
    Units.INCH: (
        (TICKS_PER_INCH // 8, 4),
        (TICKS_PER_INCH // 4, 4),
        (TICKS_PER_INCH // 2, 2),
        (TICKS_PER_INCH, 4),
        (4 * TICKS_PER_INCH, 3),
        (12 * TICKS_PER_INCH, 5),
    ),
    Units.METRIC: (
        (2 * TICKS_PER_MM, 5),
        (5 * TICKS_PER_MM, 4),
        (10 * TICKS_PER_MM, 5),
        (25 * TICKS_PER_MM, 4),
        (100 * TICKS_PER_MM, 5),
        (500 * TICKS_PER_MM, 2),
    ),
}
"""Steps of the contours with how many make a bold one, the finest first."""
_DOT_PITCH = 2.2
_LABEL = 3.4
_LEAST_LABELLED = 14.0
"""A shorter contour carries no number. [mm]"""


def contour_step(grid: SurfaceGrid, units: Units) -> tuple[int, int]:
    """Return the step of the contours, coarser on a steep floor, and how many make a bold one."""
    known = [height for row in grid.heights for height in row if height is not None]
    for step, bold in _STEPS[units]:
        if not known or (max(known) - min(known)) // step < _MOST_LINES:
            return step, bold
    return _STEPS[units][-1]


def _levels(grid: SurfaceGrid, zero: int, units: Units) -> Iterator[tuple[int, bool]]:
    """Yield the heights of the contours and whether each is bold; the high spot's height is one of them."""
    known = [height for row in grid.heights for height in row if height is not None]
    if not known:
        return
    step, bold = contour_step(grid, units)
    for count in range(ceil((min(known) - zero) / step), floor((max(known) - zero) / step) + 1):
        yield zero + count * step, count % bold == 0


def draw_contours(
    sketch: Sketch, plan: Plan, zero: int, units: Units, view: RoomView
) -> list[tuple[int, tuple[Point, ...]]]:
    """Draw the contours; return each chain on paper with its height."""
    grid = plan.floor.grid
    if grid is None:
        return []
    drawn = []
    for level, is_bold in _levels(grid, zero, units):
        for chain in contour_lines(grid, level):
            for part in _in_room(plan.walls, chain):
                points = tuple(view.at(x, y) for x, y in part)
                sketch.draw(Polyline(Layer.CONTOUR_BOLD if is_bold else Layer.CONTOUR, points))
                sketch.field.keep_off(*points, weight=1)
                drawn.append((level, points))
    return drawn


def _in_room(walls: Sequence[WallLine], chain: Contour) -> Iterator[list[tuple[float, float]]]:
    """Yield the parts of a chain that lie in the room, cut at its walls."""
    part: list[tuple[float, float]] = []
    before: tuple[float, float] | None = None
    for place in chain:
        inside = is_in_room(walls, *place)
        if before is not None and inside != bool(part):
            edge = _edge(walls, before, place)
            if inside:
                part = [edge]
            else:
                yield [*part, edge]
                part = []
        if inside:
            part.append(place)
        before = place
    if len(part) > 1:
        yield part


def _edge(walls: Sequence[WallLine], start: Point, end: Point) -> Point:
    """Return where a line between two places passes a wall, by halving."""
    starts_inside = is_in_room(walls, *start)
    low, high = 0.0, 1.0
    for _ in range(24):
        middle = (low + high) / 2
        place = (start[0] + middle * (end[0] - start[0]), start[1] + middle * (end[1] - start[1]))
        if is_in_room(walls, *place) == starts_inside:
            low = middle
        else:
            high = middle
    return (start[0] + low * (end[0] - start[0]), start[1] + low * (end[1] - start[1]))


def label_contours(
    sketch: Sketch, drawn: list[tuple[int, tuple[Point, ...]]], zero: int, units: Units
) -> None:
    """Write its number on every contour that is long enough and has a clear place."""
    for level, points in drawn:
        length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))
        if length < _LEAST_LABELLED:
            continue
        label = Label(below_high_spot(level, zero, units), _LABEL)
        width, height = label.extent()
        places = (_point_along(points, share * length) for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9))
        sketch.place(label, (Candidate(x - width / 2, y - height / 2) for x, y in places), most=4)


def _point_along(points: tuple[Point, ...], at: float) -> Point:
    """Return the place so far along a chain."""
    for start, end in pairwise(points):
        length = hypot(end[0] - start[0], end[1] - start[1])
        if at <= length and length > 0:
            share = at / length
            return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        at -= length
    return points[-1]


def draw_unread(sketch: Sketch, plan: Plan, view: RoomView) -> None:
    """Dot the floor wherever the grid has no height, inside the room."""
    grid = plan.floor.grid
    if grid is None:
        return
    dots: list[Point] = []
    for column, row in unread_cells(grid):
        xs, ys = grid.xs[column : column + 2], grid.ys[row : row + 2]
        corners = [is_in_room(plan.walls, x, y) for x in xs for y in ys]
        if any(corners):
            places = _dots(view.at(xs[0], ys[0]), view.at(xs[1], ys[1]))
            dots += places if all(corners) else _dots_in_room(plan.walls, view, places)
    if dots:
        sketch.draw(Dots(Layer.UNREAD, tuple(dots)))


def _dots(start: Point, end: Point) -> list[Point]:
    """Return the dots from one corner of a cell to the other, on one grid over the whole paper."""
    dots = []
    for row in range(ceil(start[1] / _DOT_PITCH), ceil(end[1] / _DOT_PITCH)):
        shift = 0.5 * (row % 2)
        columns = range(ceil(start[0] / _DOT_PITCH - shift), ceil(end[0] / _DOT_PITCH - shift))
        dots += [((column + shift) * _DOT_PITCH, row * _DOT_PITCH) for column in columns]
    return dots


def _dots_in_room(walls: Sequence[WallLine], view: RoomView, dots: list[Point]) -> list[Point]:
    return [dot for dot in dots if is_in_room(walls, *view.room(dot))]


def label_unread(sketch: Sketch, plan: Plan, view: RoomView) -> None:
    """Write one ``?`` in every stretch of floor that no reading supports."""
    grid = plan.floor.grid
    if grid is None:
        return
    label = Label("?", 6.0, True)
    width, height = label.extent()
    for patch in _patches(grid, plan):
        middle_x = sum(x for x, _ in patch) / len(patch)
        middle_y = sum(y for _, y in patch) / len(patch)
        nearest = sorted(patch, key=lambda p: ((p[0] - middle_x) ** 2 + (p[1] - middle_y) ** 2, p))
        places = (view.at(*place) for place in nearest[:: max(1, len(nearest) // 30)])
        sketch.place(label, (Candidate(x - width / 2, y - height / 2) for x, y in places))


def _patches(grid: SurfaceGrid, plan: Plan) -> Iterator[list[tuple[float, float]]]:
    """Yield the middles of unread cells in the room, patch by patch."""
    middles = {}
    for column, row in unread_cells(grid):
        x = (grid.xs[column] + grid.xs[column + 1]) / 2
        y = (grid.ys[row] + grid.ys[row + 1]) / 2
        if is_in_room(plan.walls, x, y):
            middles[column, row] = (x, y)
    left = dict(middles)
    for cell in middles:
        if cell not in left:
            continue
        patch, edge = [left.pop(cell)], [cell]
        while edge:
            column, row = edge.pop()
            for beside in ((column + 1, row), (column - 1, row), (column, row + 1), (column, row - 1)):
                if beside in left:
                    patch.append(left.pop(beside))
                    edge.append(beside)
        yield patch
