"""Lengths as they are printed: total inches in fractions, or millimetres; no unit sign."""

from __future__ import annotations

from math import gcd

from setline.lengths.grid import TICKS_PER_INCH, TICKS_PER_MM, Rounding, Units, round_to

__all__ = ["show", "show_feet"]

_SIXTY_FOURTH = TICKS_PER_INCH // 64
_TENTH = TICKS_PER_MM // 10


def show(ticks: int, units: Units) -> str:
    """Return a length as that tape shows it.

    A value between two 1/64 in (0.1 mm) is printed at the nearest, halves away from 0, behind a ``~``.

    Args:
        ticks: The value; it may be negative.
        units: The tape it is printed for.

    Example:
        >>> show(27 * 65_024 + 7 * 4_064, Units.INCH), show(875 * 2_560, Units.INCH)
        ('27 7/16', '~34 29/64')
        >>> show(874 * 2_560 + 1_280, Units.METRIC)
        '874.5'
    """
    if units == Units.INCH:
        count, sign = _counted(ticks, _SIXTY_FOURTH)
        return sign + _inches(count)
    count, sign = _counted(ticks, _TENTH)
    return f"{sign}{count // 10}.{count % 10}".removesuffix(".0")


def show_feet(ticks: int) -> str:
    """Return a length in feet and inches, such as ``9' 4 3/16``; under a foot in inches alone."""
    count, sign = _counted(ticks, _SIXTY_FOURTH)
    feet, inches = divmod(count, 12 * 64)
    if not feet:
        return sign + _inches(inches)
    return f"{sign}{feet}' {_inches(inches)}" if inches else f"{sign}{feet}'"


def _counted(ticks: int, step: int) -> tuple[int, str]:
    """Return the number of steps in a value's size, and the signs that go before it."""
    size = abs(ticks)
    nearest = round_to(size, step, Rounding.NEAREST_UP)
    about = "~" if nearest != size else ""
    minus = "-" if ticks < 0 and nearest else ""
    return nearest // step, about + minus


def _inches(sixty_fourths: int) -> str:
    """Return whole inches and a fraction in its lowest terms."""
    whole, over = divmod(sixty_fourths, 64)
    if not over:
        return str(whole)
    common = gcd(over, 64)
    fraction = f"{over // common}/{64 // common}"
    return f"{whole} {fraction}" if whole else fraction
