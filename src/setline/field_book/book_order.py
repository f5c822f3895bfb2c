"""The order people expect: B before C, 3 before 12, S2 before S10, 48 before 48 1/4."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

__all__ = ["in_book_order"]

_PART = re.compile(r"[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|[^0-9]+")
_LONGEST_NUMBER = 12  # longer runs of digits are no lengths; they sort as text
_KEPT = 8192  # the same names come up at every fold

Part = tuple[int, Fraction, str]


@lru_cache(maxsize=_KEPT)
def in_book_order(text: str) -> tuple[tuple[Part, ...], str]:
    """Return a key that sorts names, numbers and lengths as people do.

    Example:
        >>> sorted(["12", "48 1/4", "3", "48", "S10", "S2"], key=in_book_order)
        ['3', '12', '48', '48 1/4', 'S2', 'S10']
    """
    return tuple(_part(found) for found in _PART.findall(text)), text


def _part(text: str) -> Part:
    """Return a number by its size, all else as it is written; numbers come first."""
    if not text[0].isascii() or not text[0].isdigit() or len(text) > _LONGEST_NUMBER:
        return 1, Fraction(0), text
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    over, _, under = fraction.partition("/")
    if under and not int(under):
        return 1, Fraction(0), text
    return 0, Fraction(whole or 0) + (Fraction(int(over), int(under)) if under else Fraction(over)), ""
