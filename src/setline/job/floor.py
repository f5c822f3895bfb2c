"""The floor: laser set-ups and what was shot from each, coverings laid and to come, steps."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from setline.job.fields import LengthField, Model
from setline.job.room import WallName

__all__ = ["Area", "Closing", "Covering", "Floor", "FloorLine", "SetUp", "SharedMark", "Step"]


class FloorLine(Model):
    """Readings along a line: ``{ wall = "A", at = "toe", readings = [["1", "48"], ["24", "48 1/4"]] }``."""

    wall: str = WallName
    """The wall that u runs along."""
    at: Literal["wall", "toe"] | LengthField = "wall"
    """At the wall, at the toe line, or so far out from the wall."""
    on: Literal["bare", "covering"] | None = None
    """What was read on; without it, the covering wherever one is laid, else the bare floor."""
    readings: tuple[tuple[LengthField, LengthField], ...] = Field(min_length=1)
    """Pairs: u from the wall's left corner, then the distance DOWN from the laser line (bigger is lower)."""


class SharedMark(Model):
    """A mark on something fixed, shot from more than one set-up: it ties them together."""

    name: str
    """What to call it; the same name in another set-up is the same mark."""
    down: LengthField | None = None
    """Down from this laser line to the mark, or"""
    up: LengthField | None = None
    """up from it."""


class Closing(Model):
    """The first point shot again before the laser was moved."""

    first: LengthField
    """Down to the first point, read first."""
    again: LengthField
    """Down to the same point, read last."""


class SetUp(Model):
    """One position of the laser."""

    name: str = Field(pattern=r"^\S+$")
    """What to call it, such as ``S1``."""
    lines: tuple[FloorLine, ...] = ()
    """Lines of floor readings."""
    marks: tuple[SharedMark, ...] = ()
    """Marks that tie it to other set-ups."""
    closing: Closing | None = None
    """The closing shot on the first point."""


class Area(Model):
    """A rectangle of floor along a wall; without limits, all of it."""

    wall: str = WallName
    """The wall it lies along."""
    left: LengthField | None = None
    """Its left edge along the wall."""
    right: LengthField | None = None
    """Its right edge along the wall."""
    out_least: LengthField | None = None
    """Where it starts, out from the wall."""
    out_most: LengthField | None = None
    """Where it ends, out from the wall."""


class Covering(Model):
    """A floor covering, laid or to come."""

    name: str
    """Such as ``tile and bed``."""
    thickness: LengthField
    """With its bed or underlay."""
    when: Literal["laid", "before boxes", "after boxes"]
    """Already there; to come before the boxes are set; or to come after."""
    reaches: Literal["wall", "toe"] = "wall"
    """Whether it runs under boxes and appliances to the wall, or stops at the toe line."""
    gap: LengthField | None = None
    """Expansion gap at its edges."""
    areas: tuple[Area, ...] = ()
    """Where; empty means the whole room."""


class Step(Model):
    """A step in the floor: a straight line that no reading is carried across. From one spot to another."""

    wall: str = WallName
    """The wall both spots are measured along."""
    from_u: LengthField
    """First end along the wall."""
    from_out: LengthField
    """First end, out from the wall."""
    to_u: LengthField
    """Second end along the wall."""
    to_out: LengthField
    """Second end, out from the wall."""


class Floor(Model):
    """The floor as read."""

    set_ups: tuple[SetUp, ...] = ()
    """In the order they were made."""
    use: str | None = None
    """The set-up in use; without it, the one with most floor readings, the first named on a tie."""
    toe_line: LengthField | None = None
    """How far out from the wall the toe line lies; without it, by the rule ``toe-line``."""
    coverings: tuple[Covering, ...] = ()
    """Coverings laid and to come."""
    steps: tuple[Step, ...] = ()
    """Steps in the floor."""
