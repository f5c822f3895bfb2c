"""The grid of ticks, the two tapes that lie on it, and rounding.

25.4 mm are an inch exactly, so 2 560 ticks a millimetre are 65 024 ticks an inch. Both 1/64 in (1 016) and
0.1 mm (256) divide by eight, which is what a centred item and the middle of two readings need.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

__all__ = [
    "GREATEST",
    "TICKS_PER_INCH",
    "TICKS_PER_MM",
    "Length",
    "Rounding",
    "Tape",
    "Units",
    "crew_tape",
    "fine_step",
    "mark_step",
    "round_to",
    "shim_step",
]

TICKS_PER_MM = 2_560
TICKS_PER_INCH = 65_024
GREATEST = 100_000 * TICKS_PER_MM
"""The greatest length that is read, 100 m (328 ft): beyond it a slip is the likelier story."""


class Units(StrEnum):
    """The crew's tape."""

    INCH = "inch"
    METRIC = "metric"


class Rounding(StrEnum):
    """Where a value between two steps goes; up is towards the greater number, also below zero."""

    NEAREST_UP = "nearest, halves up"
    NEAREST_DOWN = "nearest, halves down"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class Tape:
    """The tape that a text was read from.

    Attributes:
        units: Inch or metric.
        strong: What this crew's "strong" adds and its "shy" takes off, in ticks.
    """

    units: Units = Units.INCH
    strong: int = TICKS_PER_INCH // 32


@dataclass(frozen=True, slots=True, repr=False)
class Length:
    """A length as it was typed. Two are equal when their ticks are, however they were written.

    Attributes:
        ticks: The exact value.
        typed: The text as it stood in the job.
    """

    ticks: int
    typed: str = field(compare=False)

    def __repr__(self) -> str:
        """Return it as the tape shows it, since it will be read in a failing test."""
        return f"Length({self.typed})"


def crew_tape(units: Units, strong: int | None = None) -> Tape:
    """Return a crew's tape; without their own strong it is worth 1/32 in, or 0.5 mm on a metric tape."""
    return Tape(units, fine_step(units) if strong is None else strong)


def mark_step(units: Units) -> int:
    """Return the step that marks are printed to: 1/16 in or 1 mm."""
    return TICKS_PER_INCH // 16 if units == Units.INCH else TICKS_PER_MM


def shim_step(units: Units) -> int:
    """Return the step that shims are printed to: 1/32 in or 1 mm."""
    return TICKS_PER_INCH // 32 if units == Units.INCH else TICKS_PER_MM


def fine_step(units: Units) -> int:
    """Return the finer step of marks that cannot lie on a whole one: 1/32 in or 0.5 mm."""
    return TICKS_PER_INCH // 32 if units == Units.INCH else TICKS_PER_MM // 2


def round_to(ticks: int, step: int, rounding: Rounding) -> int:
    """Return the multiple of a step that a value is rounded to.

    Args:
        ticks: The exact value; it may be negative.
        step: The step, more than 0. [ticks]
        rounding: Where it goes; up is towards the greater number, so -1/16 lies above -1/8.

    Returns:
        A whole number of steps. [ticks]

    Example:
        >>> round_to(-3, 2, Rounding.NEAREST_UP), round_to(-3, 2, Rounding.NEAREST_DOWN)
        (-2, -4)
    """
    below, over = divmod(ticks, step)
    if rounding is Rounding.NEAREST_UP:
        goes_up = 2 * over >= step
    elif rounding is Rounding.NEAREST_DOWN:
        goes_up = 2 * over > step
    else:
        goes_up = rounding is Rounding.UP and over > 0
    return (below + goes_up) * step
