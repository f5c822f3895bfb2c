"""The datum: the level line, the band it may lie in, and the ways to live with a floor that falls."""

from __future__ import annotations

from dataclasses import dataclass

from setline.result.figure import Figure
from setline.result.finding import Remedy
from setline.result.floor import HighSpot

__all__ = ["Band", "BandLimit", "FallOption", "LevelLine", "SetUpLine"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BandLimit:
    """One limit on the height of the tops.

    Attributes:
        owner: What sets it, such as ``dishwasher 21, least height``.
        is_least: True if the tops must be at least this high, False if at most.
        tops: The height of the tops it asks for (z, up positive), with what it rests on.
        remedies: What would relax it.
    """

    owner: str
    is_least: bool
    tops: Figure
    remedies: tuple[Remedy, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Where the level line may lie, as heights of the tops.

    Attributes:
        limits: Every limit, the most binding first on each side.
        lowest: Least height that every limit allows, or None if nothing bounds it below.
        highest: Greatest height that every limit allows, or None for no limit.
        binds_low: Owner of the limit at the low end.
        binds_high: Owner of the limit at the high end, or None.
        is_empty: Whether no height satisfies all limits.
    """

    limits: tuple[BandLimit, ...]
    lowest: int | None
    highest: int | None
    binds_low: str | None
    binds_high: str | None
    is_empty: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpLine:
    """The level line and the struck line as measured from one set-up's laser line.

    Attributes:
        set_up: Name of the set-up.
        in_use: Whether it is the one in use.
        level: N: the level line, down from this laser line (negative: above it).
        strike: The struck line, down from this laser line: N less the clearance.
        printed_level: N in ticks after its one rounding.
        printed_strike: The struck line likewise.
        is_exact: False prints a ``~`` before the number.
    """

    set_up: str
    in_use: bool
    level: Figure
    strike: Figure
    printed_level: int | None
    printed_strike: int | None
    is_exact: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FallOption:
    """One way to live with a floor that falls too far: a row of the trade-off table.

    Attributes:
        what: The option in words.
        lowered: By how much the level line comes down.
        greatest_shim: The greatest shim that is left.
        trims: Box number and how much to trim it, each.
        hours: Working hours it takes.
        days: Days it makes the job wait.
        kind: Key of its kind of remedy in ``rules.remedies``.
    """

    what: str
    lowered: int
    greatest_shim: int
    trims: tuple[tuple[int, int], ...]
    hours: float
    days: float
    kind: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelLine:
    """The datum: the plane of the base tops, and the line struck above it.

    Attributes:
        tops: Height of the base tops (z); None if there is nothing to set it by.
        clearance: The struck line stands this far above the tops.
        high_spot: The highest bearing point, if any is known.
        set_ups: The line from each set-up, the one in use first.
        band: Where the line may lie.
        options: Rows of the trade-off table; empty unless a shim is over the limit.
    """

    tops: Figure
    clearance: int
    high_spot: HighSpot | None
    set_ups: tuple[SetUpLine, ...]
    band: Band
    options: tuple[FallOption, ...]
