"""What was agreed, what was struck and what was set: these hold until they are taken back."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from setline.job.fields import LengthField, Model

__all__ = ["AgreedJoint", "AgreedLine", "AsSet", "Decision", "Record", "SetBox", "StruckLine", "StruckMark"]


class AgreedLine(Model):
    """A level line that was said yes to: it keeps its N on that set-up."""

    set_up: str
    """The set-up it is measured from."""
    down: LengthField
    """N: from its laser line down to the box tops."""


class StruckLine(Model):
    """A line that is on the wall."""

    name: str = "line 1"
    """Its name."""
    set_up: str
    """The set-up it was read from."""
    down: LengthField
    """From that laser line down to the struck line, as read."""
    clearance: LengthField | None = None
    """How far it stands above the tops; without it, by the rule ``struck-line-clearance``."""


class AgreedJoint(Model):
    """A mark that was said yes to, at the place it had then."""

    name: str
    """The mark's name, such as ``A base 3 left``."""
    at: LengthField
    """Its u as it was printed."""


class StruckMark(Model):
    """A mark that is on the wall."""

    name: str
    """The mark's name, such as ``A base 3 left``."""
    at: LengthField
    """Its u as it was struck."""


class AsSet(Model):
    """Where an edge of a box came to stand, read at the edge that its mark names."""

    edge: Literal["left", "right"]
    """Which side of the box."""
    of: Literal["frame", "body"]
    """What was read: the frame's edge (a joint) or the body's."""
    at: LengthField
    """Its u from the wall's left corner."""
    how: Literal["read", "on the mark"] = "read"
    """Read with the tape, or seen to stand on the mark (within 1/32)."""


class SetBox(Model):
    """A box that stands: a fact. What was not read is not given; it stays as planned."""

    box: int = Field(ge=1, le=9999)
    """Its number."""
    edges: tuple[AsSet, ...] = ()
    """The edges that were read."""
    below_line_left: LengthField | None = None
    """From the struck line down to its top, front left, as read."""
    below_line_right: LengthField | None = None
    """The same at the front right."""
    off_wall: LengthField | None = None
    """How far its back stands off the wall, as read."""
    screwed: bool = False
    """Whether its screws are in."""


class Decision(Model):
    """Something somebody chose, with what was not chosen."""

    about: str
    """What was to be chosen."""
    chosen: str
    """What was chosen."""
    by: str
    """Who chose."""


class Record(Model):
    """Agreements, marks on the wall and boxes that stand."""

    agreed_line: AgreedLine | None = None
    """The level line agreed."""
    struck_lines: tuple[StruckLine, ...] = ()
    """Lines on the wall; the first is the datum."""
    agreed: tuple[AgreedJoint, ...] = ()
    """Marks said yes to."""
    struck: tuple[StruckMark, ...] = ()
    """Marks on the wall."""
    set: tuple[SetBox, ...] = ()
    """Boxes that stand."""
    decisions: tuple[Decision, ...] = ()
    """What was chosen, and by whom."""
