"""The room on paper, seen from above: x to the right, y down the page, as in the plan itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.drawings.scale import on_paper
from setline.drawings.shapes import Point, Scale
from setline.drawings.standing import Standing, stand
from setline.lengths import TICKS_PER_MM
from setline.result import Plan, WallLine

__all__ = ["RoomView", "footprint", "is_in_room", "paper_size", "room_extent"]


@dataclass(frozen=True, slots=True)
class RoomView:
    """Where the room lies on paper.

    Attributes:
        scale: The scale.
        left: x on paper of the room's x = 0.
        top: y on paper of the room's y = 0.
    """

    scale: Scale
    left: float
    top: float

    def at(self, x: float, y: float) -> Point:
        """Return where a place in the room lies on paper."""
        each = TICKS_PER_MM * self.scale.ratio
        return (self.left + x / each, self.top + y / each)

    def room(self, point: Point) -> tuple[float, float]:
        """Return which place in the room a point on paper shows."""
        each = TICKS_PER_MM * self.scale.ratio
        return ((point[0] - self.left) * each, (point[1] - self.top) * each)


def footprint(wall: WallLine, thing: Standing) -> tuple[tuple[float, float], ...]:
    """Return the corners of an item on the floor: back left, back right, front right, front left."""
    along, out = _directions(wall)
    return tuple(
        (wall.x0 + along[0] * u + out[0] * depth, wall.y0 + along[1] * u + out[1] * depth)
        for u, depth in (
            (thing.left, 0),
            (thing.right, 0),
            (thing.right, thing.item.depth),
            (thing.left, thing.item.depth),
        )
    )


def _directions(wall: WallLine) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the directions along a wall and out from it into the room, each of length 1."""
    length = ((wall.x1 - wall.x0) ** 2 + (wall.y1 - wall.y0) ** 2) ** 0.5 or 1.0
    along = ((wall.x1 - wall.x0) / length, (wall.y1 - wall.y0) / length)
    return along, (-along[1], along[0])


def room_extent(plan: Plan) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of everything the floor picture shows, in the room."""
    places: list[tuple[float, float]] = [(0.0, 0.0)]
    for wall in plan.walls:
        places += [(wall.x0, wall.y0), (wall.x1, wall.y1)]
    places += [(spot.x, spot.y) for spot in plan.floor.spots]
    walls = {wall.name: wall for wall in plan.walls}
    for run in plan.runs:
        if run.row == "base" and run.wall in walls:
            for thing in stand(run):
                places += footprint(walls[run.wall], thing)
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return (min(xs), min(ys), max(xs), max(ys))


def is_in_room(walls: Sequence[WallLine], x: float, y: float) -> bool:
    """Return whether a place lies in the room.

    Walls that close are an outline; of walls that do not, a place must lie behind none that it stands
    abreast of.
    """
    if len(walls) > 2 and (walls[0].x0, walls[0].y0) == (walls[-1].x1, walls[-1].y1):
        return _is_inside([(wall.x0, wall.y0) for wall in walls], x, y)
    for wall in walls:
        along, out = _directions(wall)
        from_left = (x - wall.x0) * along[0] + (y - wall.y0) * along[1]
        from_wall = (x - wall.x0) * out[0] + (y - wall.y0) * out[1]
        if -1.0 <= from_left <= wall.length + 1.0 and from_wall < 0:
            return False
    return True


def _is_inside(outline: list[tuple[int, int]], x: float, y: float) -> bool:
    """Return whether a place lies inside a closed outline (crossings to its right are odd)."""
    inside = False
    for (x0, y0), (x1, y1) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def paper_size(extent: tuple[float, float, float, float], scale: Scale) -> tuple[float, float]:
    """Return how wide and high an extent is on paper."""
    return on_paper(round(extent[2] - extent[0]), scale), on_paper(round(extent[3] - extent[1]), scale)
