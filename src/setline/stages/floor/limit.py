"""A limit on the height of the tops, before the band is made of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from setline.result import Figure

__all__ = ["Limit", "LimitKind"]


class LimitKind(StrEnum):
    """What kind of thing sets a limit; the ways to relax it go by this."""

    HIGH_SPOT = "high spot"
    LEGS_IN = "legs all the way in"
    LEGS_OUT = "legs all the way out"
    CLEAR_BELOW = "least height"
    RUN_OUT = "greatest height"
    CEILING = "ceiling"
    SILL = "sill"
    KICK = "toe kick"
    STANDING_TOP = "top that stays"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit on the height of the tops.

    Attributes:
        kind: What kind of thing sets it.
        owner: What sets it, in the crew's words.
        is_least: Whether the tops must be at least this high, rather than at most.
        tops: The height of the tops it asks for, with what it rests on.
        number: Number of the box or appliance behind it, if it is one.
        may_trim: How far cutting the foot of its box would move it. [ticks]
        is_general: Whether it rests on a general size where the maker's sheet was not read.
    """

    kind: LimitKind
    owner: str
    is_least: bool
    tops: Figure
    number: int | None = None
    may_trim: int = 0
    is_general: bool = False

    @property
    def at(self) -> int:
        """The height of the tops it asks for. [ticks]."""
        assert self.tops.value is not None, f"{self.owner} has no number"
        return self.tops.value
