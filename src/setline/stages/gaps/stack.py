"""A thickness made up from the shims on the truck: fewest pieces, the thickest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

__all__ = ["Stack", "make_up"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Shims that make up a thickness.

    Attributes:
        pieces: Their thicknesses, the thickest first. [ticks]
        remainder: What no piece on the truck makes up: 0 if they fit exactly. [ticks]
    """

    pieces: tuple[int, ...]
    remainder: int


def make_up(thickness: int, stock: Sequence[int]) -> Stack:
    """Return the fewest shims that make up a thickness; of equally few, those with the thickest first.

    There are enough of each. Where they cannot make it up, they come as near to it from below as they can
    and the rest is told.

    Args:
        thickness: As printed, 0 or more. [ticks]
        stock: Thicknesses on the truck; any that is 0 is left out. [ticks]

    Source:
        Counting up from 0 in the greatest common measure of all thicknesses: the fewest pieces for a total
        are one more than the fewest for that total less some piece. Trying the thickest piece first and
        keeping the first of equals leaves the thickest first.

    Example:
        >>> make_up(3, (1, 2, 4))
        Stack(pieces=(2, 1), remainder=0)
        >>> make_up(5, (2, 4))
        Stack(pieces=(4,), remainder=1)
    """
    kinds = sorted({each for each in stock if each > 0}, reverse=True)
    if thickness <= 0 or not kinds:
        return Stack(pieces=(), remainder=max(thickness, 0))
    unit = gcd(thickness, *kinds)
    sizes, goal = [each // unit for each in kinds], thickness // unit
    fewest: list[tuple[int, ...] | None] = [()]
    for total in range(1, goal + 1):
        best: tuple[int, ...] | None = None
        for size in sizes:
            rest = fewest[total - size] if size <= total else None
            if (
                rest is not None
                and (not rest or size >= rest[0])
                and (best is None or len(rest) + 1 < len(best))
            ):
                best = (size, *rest)
        fewest.append(best)
    reached = max(total for total, pieces in enumerate(fewest) if pieces is not None)
    pieces = fewest[reached] or ()
    return Stack(pieces=tuple(size * unit for size in pieces), remainder=(goal - reached) * unit)
