"""Lengths for tests, as the tape shows them: ``inch("27 7/16")`` and ``mm("874.5")`` give ticks."""

from __future__ import annotations

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Tape, Units, read_length


def _signed(text: str, tape: Tape) -> int:
    """Return the ticks of a text; a leading minus turns the sign."""
    return -read_length(text[1:], tape).ticks if text.startswith("-") else read_length(text, tape).ticks


def inch(value: str | int) -> int:
    """Return the ticks of a length on an inch tape."""
    return value * TICKS_PER_INCH if isinstance(value, int) else _signed(value, Tape())


def mm(value: str | int) -> int:
    """Return the ticks of a length on a metric tape."""
    return value * TICKS_PER_MM if isinstance(value, int) else _signed(value, Tape(Units.METRIC))
