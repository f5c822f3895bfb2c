"""The room: walls lettered clockwise, their lengths, what stands in them, and the ceiling."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from setline.job.fields import Height, LengthField, Model

__all__ = [
    "CeilingReading",
    "Door",
    "EqualMarks",
    "Plumb",
    "PlumbOffset",
    "Room",
    "Wall",
    "WallLength",
    "Window",
]

WallName = Field(pattern=r"^[A-Z]$")


class WallLength(Model):
    """A length of a wall from corner to corner."""

    length: LengthField
    """As the tape shows it."""
    height: Height | None = None
    """Where it was read; without one, at the height of the struck line."""
    at: Literal["wall", "face"] = "wall"
    """Along the wall itself, or out at the line of the box faces."""


class PlumbOffset(Model):
    """How far a surface stands back from a plumb line."""

    height: Height
    """Where it was read."""
    back: LengthField
    """From the plumb line back to the surface, as the tape shows it: bigger is hollow."""
    out: LengthField | None = None
    """From this wall into the room; without one, at the wall."""


class Plumb(Model):
    """Offsets read from one plumb line to the wall that closes one end of this one."""

    end: Literal["left", "right"]
    """Which corner of this wall, facing it."""
    offsets: tuple[PlumbOffset, ...] = Field(min_length=1)
    """At several heights, from one string or laser plane."""


class EqualMarks(Model):
    """The middle of a wall, found by striking the same length from both ends: half the difference."""

    equal: LengthField
    """The length struck from each end."""
    apart: LengthField
    """How far the two marks stand apart."""
    crossed: bool = Field(default=False, strict=True)
    """True where each mark lies past the middle, so that the two have passed each other."""


class Window(Model):
    """A window in a wall; u from the wall's left corner."""

    name: str
    """What to call it."""
    left: LengthField | None = None
    """Left edge of the opening or casing that things are centred by."""
    right: LengthField | None = None
    """Right edge of the same."""
    centre: LengthField | None = None
    """Centre line, where it was read itself."""
    sill: Height | None = None
    """Underside of the sill or stool, the lowest thing a top or splash could meet."""
    head: Height | None = None
    """Top of the opening."""


class Door(Model):
    """A door or cased opening in a wall; u from the wall's left corner."""

    name: str
    """What to call it."""
    left: LengthField
    """Left edge of the casing."""
    right: LengthField
    """Right edge of the casing."""
    casing_out: LengthField | None = None
    """How far the casing stands out from the wall."""


class Wall(Model):
    """One wall, facing it; u grows from its left corner to the right."""

    name: str = WallName
    """Its letter."""
    lengths: tuple[WallLength, ...] = Field(min_length=1)
    """Corner to corner, at one height or several."""
    corner: Literal["inside", "outside"] = "inside"
    """The corner at its right end: the next wall comes towards you (inside) or goes away (outside)."""
    plumb: tuple[Plumb, ...] = ()
    """Plumb offsets of the walls at its two ends."""
    windows: tuple[Window, ...] = ()
    """Windows in it."""
    doors: tuple[Door, ...] = ()
    """Doors in it."""
    middle: EqualMarks | None = None
    """Its middle, struck from both ends."""


class CeilingReading(Model):
    """Ceiling above a spot, measured up from a laser line."""

    set_up: str
    """Name of the floor set-up whose laser line it was read from."""
    wall: str = WallName
    """Wall it lies along."""
    u: LengthField
    """Along the wall."""
    out: LengthField | None = None
    """From the wall into the room; without one, at the wall."""
    up: LengthField
    """Up from the laser line to the finished ceiling."""


class Room(Model):
    """The room as read."""

    walls: tuple[Wall, ...] = Field(min_length=1)
    """Lettered clockwise seen from above; each starts where the one before it ends."""
    closed: bool = Field(default=False, strict=True)
    """Whether the last wall ends where the first starts."""
    ceiling: tuple[CeilingReading, ...] = ()
    """Ceiling readings."""
