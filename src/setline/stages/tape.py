"""How far a steel tape may be off: by its class, and by the heat or the cold it was read in.

A tape's class limits its error by a + b L millimetres, L in metres rounded up, at 20 C (68 F). Warmer than
that a tape is longer than it says, so it reads short and the true distance is more; colder, the other way. On
the scale of a kitchen both are small, and the note says so: what matters is that one tape reads the wall and
the boxes.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from setline.job.job import Job
from setline.lengths import TICKS_PER_MM, Rounding, Units, fine_step, round_to, show
from setline.result import Finding, Rank
from setline.wording import say

__all__ = ["degrees_celsius", "heat_correction", "tape_error", "tape_notes"]

TapeClass = Literal["I", "II", "III"]

_LIMITS: dict[TapeClass, tuple[int, int, int]] = {"I": (1, 1, 1), "II": (3, 2, 2), "III": (6, 4, 3)}
"""Class -> a, b and, at an end that hooks or butts, c; in tenths of a millimetre."""
_TENTH = TICKS_PER_MM // 10
_METRE = 1000 * TICKS_PER_MM
_STEEL = Fraction(116, 10_000_000)
"""Growth of steel for each degree Celsius."""
_MARKED_AT = 20


def tape_error(length: int, tape_class: TapeClass, *, hooked: bool = False) -> int:
    """Return how far a length read by a tape of a class may be off, to either side.

    Args:
        length: What was read. [ticks]
        tape_class: I, II or III, as printed on the tape.
        hooked: Whether the tape hooked or butted at its end, which allows it a little more.

    Returns:
        The limit. [ticks]

    Source:
        Directive 2004/22/EC, annex MI-008: a + b L, L rounded up to whole metres; c at a bounding end.

    Example:
        >>> tape_error(5000 * 2560, "II") == 13 * 256  # 1.3 mm over 5 m
        True
    """
    a, b, c = _LIMITS[tape_class]
    metres = -(-length // _METRE)
    return (a + b * metres + (c if hooked else 0)) * _TENTH


def heat_correction(length: int, celsius: Fraction) -> int:
    """Return what to add to a length read by a steel tape at a temperature; negative is to be taken off.

    Args:
        length: What was read. [ticks]
        celsius: How warm the tape was.

    Returns:
        The correction to the nearest tick, halves up. [ticks]

    Source:
        Growth x length x (temperature - 20), 11.6 millionths a degree: textbooks of surveying.
    """
    exact = length * _STEEL * (celsius - _MARKED_AT)
    return (2 * exact.numerator + exact.denominator) // (2 * exact.denominator)


def degrees_celsius(temperature: str) -> Fraction:
    """Return ``28 F`` or ``-2 C`` in degrees Celsius."""
    degrees, scale = Fraction(temperature[:-1].strip()), temperature[-1]
    return degrees if scale == "C" else (degrees - 32) * Fraction(5, 9)


def tape_notes(job: Job) -> tuple[Finding, ...]:
    """Return what the crew's tape may be off by over the longest wall, where they told its class or its heat.

    Args:
        job: The job; ``tools.tape`` tells of the tape.
    """
    tape, units = job.tools.tape, job.job.tape
    longest = max(each.length.ticks for wall in job.room.walls for each in wall.lengths)
    notes: list[Finding] = []
    if tape is not None and tape.accuracy is not None:
        notes.append(_class_note(tape.accuracy, longest, units))
    if tape is not None and tape.temperature is not None:
        notes.append(_heat_note(tape.temperature, longest, units))
    return tuple(notes)


def _class_note(accuracy: TapeClass, longest: int, units: Units) -> Finding:
    """Return how far a tape of a class may be off over the longest wall."""
    off = tape_error(longest, accuracy, hooked=True)
    printed = show(round_to(off, fine_step(units), Rounding.UP), units)
    text = say("tape-class", tape=accuracy, off=printed, length=show(longest, units))
    return Finding(code="tape-class", rank=Rank.NOTE, where=say("the-tape"), text=text, by_how_much=off)


def _heat_note(temperature: str, longest: int, units: Units) -> Finding:
    """Return what the warmth of the tape did over the longest wall, or that it may be left."""
    more = heat_correction(longest, degrees_celsius(temperature))
    least = fine_step(units)
    is_small = abs(more) < least
    key = "tape-heat-small" if is_small else "tape-reads-short" if more > 0 else "tape-reads-long"
    printed = show(round_to(max(abs(more), least), least, Rounding.NEAREST_UP), units)
    text = say(key, temperature=temperature, off=printed, length=show(longest, units))
    return Finding(code="tape-heat", rank=Rank.NOTE, where=say("the-tape"), text=text, by_how_much=abs(more))
