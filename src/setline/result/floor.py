"""The room's outline and the floor as found."""

from __future__ import annotations

from dataclasses import dataclass

from setline.result.figure import Figure

__all__ = ["FlatnessLine", "FloorAsFound", "FloorSpot", "HighSpot", "SurfaceGrid", "WallLine", "WallOpening"]


UNKNOWN = Figure(value=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class WallOpening:
    """A window or a door in a wall, as read.

    Attributes:
        kind: ``window`` or ``door``.
        name: What the job calls it.
        left: u of its left edge, or None where only its centre was read.
        right: u of its right edge, likewise.
        centre: u of its centre line.
        bottom: Height of its sill (z), or None where it was not read; a door stands on the floor.
        top: Height of its head (z), or None where it was not read.
    """

    kind: str
    name: str
    left: int | None
    right: int | None
    centre: int
    bottom: int | None = None
    top: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """A wall in the room's x, y (ticks): from its left corner to its right, facing it.

    Attributes:
        name: Its letter.
        x0: Left corner in the room.
        y0: Left corner in the room.
        x1: Right corner in the room.
        y1: Right corner in the room.
        length: From corner to corner.
        openings: Windows and doors in it, left to right, for its elevation.
        ceiling: Ceiling readings at it as (u, z), left to right.
    """

    name: str
    x0: int
    y0: int
    x1: int
    y1: int
    length: int
    openings: tuple[WallOpening, ...] = ()
    ceiling: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorSpot:
    """One floor reading in the room.

    Attributes:
        address: Where it stands in the job, such as ``S1 A 48 toe``.
        typed: The reading as the tape showed it.
        wall: Letter of the wall it was read along.
        u: Along that wall from its left corner.
        out: From the wall into the room.
        x: In the room.
        y: In the room.
        z: Height of the surface it was read on (up, 0 at the laser line in use), or None if its set-up
            is tied to no other and it can only feed the surface.
        on_covering: Whether it was read on a covering rather than the bare floor.
        under_boxes: Height of the floor that boxes stand on there, by this reading: with the coverings that
            are laid or come before the boxes. None as for z.
    """

    address: str
    typed: str
    wall: str
    u: int
    out: int
    x: int
    y: int
    z: int | None
    on_covering: bool = False
    under_boxes: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceGrid:
    """The modelled floor on a rectangular grid, for the floor picture.

    Attributes:
        xs: Columns in the room's x.
        ys: Rows in the room's y.
        heights: ``heights[row][column]`` of the floor the boxes stand on; None where it is ``?``.
        within: Half the 95 % range at the same places.
    """

    xs: tuple[int, ...]
    ys: tuple[int, ...]
    heights: tuple[tuple[int | None, ...], ...]
    within: tuple[tuple[int | None, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HighSpot:
    """The highest bearing point.

    Attributes:
        point: Its name, such as ``3 back-left`` (or a reading's address in a run that cannot be solved).
        wall: The wall's letter.
        u: Along the wall.
        out: From the wall.
        x: In the room.
        y: In the room.
        height: Height of the floor there, with what it rests on.
    """

    point: str
    wall: str
    u: int
    out: int
    x: int
    y: int
    height: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatnessLine:
    """How flat one line of floor readings is.

    Attributes:
        name: ``A toe line``.
        gap: Greatest gap under a 10 ft straightedge laid anywhere along it (the whole line if shorter).
        gap_at: Distance along the line of that gap.
        slope: Fall over 10 ft of the straight line through the readings, up to the right positive.
        hump: How far the floor stands over the straight line between two lower points of it no farther apart
            than the straightedge: how much that rocks.
        hump_at: Distance along the line of that hump.
        ff: ASTM E1155 flatness number, only where the line was read every 12 in with 12 readings or more.
        fl: ASTM E1155 levelness number, likewise.
    """

    name: str
    gap: Figure
    gap_at: int
    slope: Figure
    hump: Figure = UNKNOWN
    hump_at: int = 0
    ff: float | None
    fl: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorAsFound:
    """The floor as it was read."""

    set_up_in_use: str
    spots: tuple[FloorSpot, ...]
    grid: SurfaceGrid | None
    flatness: tuple[FlatnessLine, ...]
