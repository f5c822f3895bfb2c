"""What a box covers of the floor: its corners and sides, as seen from the walls they stand at.

Left and right go by the body. The back stands at the wall, the front at the toe line (or at the box's own
depth, if it is shallower). A box that fills an inside corner has its far side at the neighbouring wall.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from setline.job.order import Box
from setline.result import ItemPlace, RunPlan, WallLine
from setline.stages.floor.ground import Ground

__all__ = ["Corner", "Footprint", "Side", "footprint_of"]


class Corner(NamedTuple):
    """A corner of a box on the floor."""

    name: str
    wall: str
    u: int
    out: int
    is_front: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """A straight edge of a box on the floor, along its wall's u or out.

    Attributes:
        name: ``left``, ``right``, ``end``, ``back`` or ``front``.
        wall: The wall it is seen from.
        u: Least and greatest u. [ticks]
        out: Least and greatest out. [ticks]
    """

    name: str
    wall: str
    u: tuple[int, int]
    out: tuple[int, int]

    @property
    def runs_out(self) -> bool:
        """Whether it runs out from the wall rather than along it."""
        return self.u[0] == self.u[1]

    def nearest(self, u: int, out: int) -> tuple[int, int]:
        """Return the place on the side that is nearest to a spot."""
        return min(max(u, self.u[0]), self.u[1]), min(max(out, self.out[0]), self.out[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Footprint:
    """What a box covers of the floor.

    Attributes:
        corners: Its corners, the back pair first.
        sides: The sides it bears on.
        ends: Back and front edge, for a ladder base.
    """

    corners: tuple[Corner, ...]
    sides: tuple[Side, ...]
    ends: tuple[Side, ...]


def footprint_of(ground: Ground, run: RunPlan, item: ItemPlace, box: Box, *, inset: int) -> Footprint:
    """Return what a box covers of the floor.

    Args:
        ground: The floor, for room and toe line.
        run: The run it stands in.
        item: Where it stands; it must have a place.
        box: The box.
        inset: From its body's edges to the points wanted: 0 for its sides. [ticks]
    """
    left, right = (edge + inset * way for edge, way in zip(_body(item), (1, -1), strict=True))
    front = min(ground.toe_line, item.depth - inset)
    if box.corner is not None:
        beside = _neighbour(ground, run, item)
        if beside is not None:
            along = box.corner.along_next.ticks - inset
            return _round_corner(run.wall, (left, right), (inset, front), beside, along)
    return _straight(run.wall, (left, right), (inset, front))


def _body(item: ItemPlace) -> tuple[int, int]:
    """Return the edges of a box's body; the box must have a place."""
    assert item.body_left is not None, f"item {item.number} has no place"
    assert item.body_right is not None, f"item {item.number} has no place"
    return item.body_left, item.body_right


def _straight(wall: str, u: tuple[int, int], out: tuple[int, int]) -> Footprint:
    """Return the footprint of a box that stands at one wall."""
    (left, right), (back, front) = u, out
    return Footprint(
        corners=(
            Corner("back-left", wall, left, back, False),
            Corner("back-right", wall, right, back, False),
            Corner("front-left", wall, left, front, True),
            Corner("front-right", wall, right, front, True),
        ),
        sides=(
            Side(name="left", wall=wall, u=(left, left), out=(back, front)),
            Side(name="right", wall=wall, u=(right, right), out=(back, front)),
        ),
        ends=(
            Side(name="back", wall=wall, u=(left, right), out=(back, back)),
            Side(name="front", wall=wall, u=(left, right), out=(front, front)),
        ),
    )


class _Beside(NamedTuple):
    """The wall round the corner that a corner box fills."""

    line: WallLine
    is_next: bool


def _neighbour(ground: Ground, run: RunPlan, item: ItemPlace) -> _Beside | None:
    """Return the wall that a corner box turns onto: at whichever end of its own wall it stands nearer."""
    walls = ground.outline.walls
    place = next(index for index, line in enumerate(walls) if line.name == run.wall)
    left, right = _body(item)
    is_next = walls[place].length - right < left
    other = place + 1 if is_next else place - 1
    if not ground.job.room.closed and not 0 <= other < len(walls):
        return None
    return _Beside(walls[other % len(walls)], is_next)


def _round_corner(
    wall: str, u: tuple[int, int], out: tuple[int, int], beside: _Beside, along: int
) -> Footprint:
    """Return the footprint of a box that fills a corner: one side at each wall, and the corner itself."""
    (left, right), (back, front) = u, out
    own, hidden, at = ("left", "right", left) if beside.is_next else ("right", "left", right)
    far = along if beside.is_next else beside.line.length - along
    end = beside.line.name
    return Footprint(
        corners=(
            Corner(f"back-{own}", wall, at, back, False),
            Corner(f"back-{hidden}", wall, right if beside.is_next else left, back, False),
            Corner("end-back", end, far, back, False),
            Corner(f"front-{own}", wall, at, front, True),
            Corner("end-front", end, far, front, True),
        ),
        sides=(
            Side(name=own, wall=wall, u=(at, at), out=(back, front)),
            Side(name="end", wall=end, u=(far, far), out=(back, front)),
        ),
        ends=(
            Side(name="back", wall=wall, u=(left, right), out=(back, back)),
            Side(name="end-wall", wall=end, u=(min(0, far), max(0, far)), out=(back, back))
            if beside.is_next
            else Side(name="end-wall", wall=end, u=(far, beside.line.length), out=(back, back)),
        ),
    )
