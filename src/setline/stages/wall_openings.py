"""What a wall's elevation shows beside the boxes: windows, doors and the ceiling, as read.

Nothing is decided here. A height from the floor is carried up from the floor at the opening's centre, as
the limit of a sill is; one whose zero is not known there stays out.
"""

from __future__ import annotations

from dataclasses import replace

from setline.job.fields import Height
from setline.job.readings import ceiling_spots, height_z
from setline.job.room import Door, Wall, Window
from setline.lengths import TICKS_PER_INCH
from setline.result import WallLine, WallOpening
from setline.stages.floor.ground import Ground

__all__ = ["walls_as_read"]

AT_THE_WALL = 24 * TICKS_PER_INCH
"""A ceiling reading no farther out than this is shown in the wall's elevation."""


def walls_as_read(ground: Ground) -> tuple[WallLine, ...]:
    """Return the room's walls with their windows, doors and ceiling.

    Args:
        ground: The floor as the boxes meet it, with its job and outline.

    Returns:
        The walls in the job's order; openings left to right, each with the edges that were read; of ceiling
        readings at one place along the wall the lowest.
    """
    walls = {wall.name: wall for wall in ground.job.room.walls}
    ceiling = _ceiling(ground)
    return tuple(
        replace(
            line,
            openings=_openings(ground, walls[line.name]),
            ceiling=tuple(sorted(ceiling.get(line.name, {}).items())),
        )
        for line in ground.outline.walls
    )


def _ceiling(ground: Ground) -> dict[str, dict[int, int]]:
    """Return by wall the lowest ceiling read at each place along it."""
    found: dict[str, dict[int, int]] = {}
    for spot in ceiling_spots(ground.job):
        if spot.z is not None and spot.out <= AT_THE_WALL:
            here = found.setdefault(spot.wall, {})
            here[spot.u] = min(spot.z, here.get(spot.u, spot.z))
    return found


def _openings(ground: Ground, wall: Wall) -> tuple[WallOpening, ...]:
    """Return a wall's windows and doors, left to right."""
    found = [opening for window in wall.windows for opening in _window(ground, wall.name, window)]
    found += [_door(door) for door in wall.doors]
    return tuple(sorted(found, key=lambda opening: (opening.centre, opening.name)))


def _window(ground: Ground, wall: str, window: Window) -> tuple[WallOpening, ...]:
    """Return a window as far as it was read; none if no place along the wall was."""
    left = None if window.left is None else window.left.ticks
    right = None if window.right is None else window.right.ticks
    edges = [edge for edge in (left, right) if edge is not None]
    if window.centre is None and len(edges) < 2:
        return ()
    centre = sum(edges) // 2 if window.centre is None else window.centre.ticks
    return (
        WallOpening(
            kind="window",
            name=window.name,
            left=left,
            right=right,
            centre=centre,
            bottom=_height(ground, wall, centre, window.sill),
            top=_height(ground, wall, centre, window.head),
        ),
    )


def _door(door: Door) -> WallOpening:
    """Return a door; its head is not asked for."""
    left, right = door.left.ticks, door.right.ticks
    return WallOpening(kind="door", name=door.name, left=left, right=right, centre=(left + right) // 2)


def _height(ground: Ground, wall: str, u: int, height: Height | None) -> int | None:
    """Return the z of a height at a place along a wall, or None where its zero is not known."""
    if height is None:
        return None
    spot = ground.outline.to_room(wall, u, 0)
    (floor,) = ground.heights([spot])
    finished = None if floor.bare is None else floor.bare + ground.coverings.in_the_room(spot)
    return height_z(height, ground.job, subfloor=floor.bare, finished=finished)
