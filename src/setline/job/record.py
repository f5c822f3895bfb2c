"""What was agreed and what was struck: these hold until they are taken back."""

from __future__ import annotations

from setline.job.fields import LengthField, Model

__all__ = ["AgreedLine", "Record", "StruckLine"]


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


class Record(Model):
    """Agreements and marks that are on the wall."""

    agreed_line: AgreedLine | None = None
    """The level line agreed."""
    struck_lines: tuple[StruckLine, ...] = ()
    """Lines on the wall; the first is the datum."""
