"""The feasible band: where the tops may lie for every box, appliance, ceiling, sill and kick at once.

Every limit is a least or a greatest height of the tops. The band is what lies between the greatest least
and the least greatest. The chosen line is its lowest, with the tops rounded up once; a finer step is taken
only where the band is too thin for it. An empty band has no such line: then the high spot sets it and the
conflict is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.lengths import Rounding, Units, fine_step, mark_step, round_to
from setline.result import Band, BandLimit
from setline.rules import RuleBook
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.relax import ways_out

__all__ = ["Choice", "choose_tops", "lay_band"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The height chosen for the tops.

    Attributes:
        tops: The height. [ticks]
        by: The limit that sets it.
        above_high_spot: How far it stands above what the high spot alone would give. [ticks]
    """

    tops: int
    by: Limit
    above_high_spot: int


def _least(limits: Sequence[Limit]) -> list[Limit]:
    """Return the least heights, the most binding first; of equals the high spot, then the first named."""
    lows = [each for each in limits if each.is_least]
    return sorted(lows, key=lambda each: (-each.at, each.kind is not LimitKind.HIGH_SPOT))


def _most(limits: Sequence[Limit]) -> list[Limit]:
    """Return the greatest heights, the most binding first."""
    return sorted((each for each in limits if not each.is_least), key=lambda each: each.at)


def lay_band(limits: Sequence[Limit], book: RuleBook, units: Units) -> Band:
    """Return the band that limits leave.

    Args:
        limits: Every limit, in any order.
        book: The rules, for what each way out costs.
        units: The job's tape, for the sentences.
    """
    lows, highs = _least(limits), _most(limits)
    lowest, highest = (lows[0].at if lows else None), (highs[0].at if highs else None)
    is_empty = lowest is not None and highest is not None and lowest > highest
    binding = {id(each) for each in (*lows[:1], *highs[:1])}
    return Band(
        limits=tuple(
            BandLimit(
                owner=each.owner,
                is_least=each.is_least,
                tops=each.tops,
                remedies=ways_out(each, limits, book, units) if id(each) in binding else (),
            )
            for each in (*lows, *highs)
        ),
        lowest=lowest,
        highest=highest,
        binds_low=lows[0].owner if lows else None,
        binds_high=highs[0].owner if highs else None,
        is_empty=is_empty,
    )


def choose_tops(limits: Sequence[Limit], units: Units) -> Choice | None:
    """Return the height of the tops: the lowest in the band, rounded up; the high spot's where it is empty.

    Args:
        limits: Every limit.
        units: The job's tape, for the step that the line is rounded to.

    Returns:
        None where nothing sets a least height: no bearing point has a number.
    """
    lows, highs = _least(limits), _most(limits)
    high_spot = next((each for each in lows if each.kind is LimitKind.HIGH_SPOT), None)
    if high_spot is None:
        return None
    alone = round_to(high_spot.at, mark_step(units), Rounding.UP)
    most = highs[0].at if highs else None
    if most is not None and lows[0].at > most:
        return Choice(tops=alone, by=high_spot, above_high_spot=0)
    tops = _round_inside(lows[0].at, most, units)
    return Choice(tops=tops, by=lows[0], above_high_spot=max(0, tops - alone))


def _round_inside(lowest: int, most: int | None, units: Units) -> int:
    """Return a band's lowest rounded up to the step of marks, or to the first finer one that stays inside."""
    quarter = mark_step(units) // 4
    for step in (mark_step(units), fine_step(units), quarter):
        rounded = round_to(lowest, step, Rounding.UP)
        if most is None or rounded <= most:
            return rounded
    return lowest
