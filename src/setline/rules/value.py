"""How the files of rules write a length: as it stands on the blade."""

from __future__ import annotations

from setline.lengths import Tape, Units, read_length

__all__ = ["inches", "millimetres"]

_INCH = Tape(units=Units.INCH)
_METRIC = Tape(units=Units.METRIC)


def inches(text: str) -> int:
    """Return the ticks of a length in tape notation, such as ``20 7/8``."""
    return read_length(text, _INCH).ticks


def millimetres(text: str) -> int:
    """Return the ticks of a length in millimetres, such as ``530``."""
    return read_length(text, _METRIC).ticks
