"""What would relax a limit on the level line, and whether that alone would open the band."""

from __future__ import annotations

from collections.abc import Sequence

from setline.lengths import Units
from setline.result import Remedy
from setline.rules import RuleBook
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.spoken import amount_told
from setline.wording import say

__all__ = ["cheapest", "ways_out"]

WAYS: dict[tuple[LimitKind, bool], tuple[str, ...]] = {
    (LimitKind.HIGH_SPOT, True): ("trim-box", "flatten-floor"),
    (LimitKind.LEGS_IN, True): ("other-legs", "flatten-floor"),
    (LimitKind.LEGS_OUT, False): ("packer-under-legs",),
    (LimitKind.CLEAR_BELOW, True): ("packer-under-top",),
    (LimitKind.RUN_OUT, False): ("packer-under-appliance",),
    (LimitKind.CEILING, False): ("trim-box", "cut-plaster"),
    (LimitKind.SILL, False): ("trim-sill",),
    (LimitKind.KICK, False): ("wider-kick",),
    (LimitKind.STANDING_TOP, True): ("packer-under-top",),
    (LimitKind.STANDING_TOP, False): ("split-line",),
}
"""Kinds of remedy that relax each kind of limit."""


def ways_out(limit: Limit, limits: Sequence[Limit], book: RuleBook, units: Units) -> tuple[Remedy, ...]:
    """Return what would relax a limit by as much as it stands in the way, the cheapest first.

    A least height stands in the way of the line that all others allow: of the next lower least one, or of the
    greatest height that it exceeds. A way out that would leave the band empty all the same is not offered.

    Args:
        limit: The limit to relax.
        limits: Every limit.
        book: What each kind of remedy costs.
        units: The job's tape.
    """
    amount = _in_the_way(limit, limits)
    if amount is None or amount <= 0:
        return ()
    keys = list(WAYS[limit.kind, limit.is_least])
    if limit.is_general:
        keys.append("check-sheet")
    told = amount_told(amount, units)
    remedies = [
        Remedy(
            kind=key,
            text=say(f"relax-{key}", amount=told, owner=limit.owner, box=limit.number),
            amount=amount,
            hours=book.remedy(key).hours,
            days=book.remedy(key).days,
        )
        for key in keys
        if key != "trim-box" or limit.may_trim >= amount
    ]
    return cheapest(remedies)


def cheapest(remedies: Sequence[Remedy]) -> tuple[Remedy, ...]:
    """Return remedies by waiting days, then hours, then amount."""
    return tuple(sorted(remedies, key=lambda each: (each.days, each.hours, each.amount)))


def _in_the_way(limit: Limit, limits: Sequence[Limit]) -> int | None:
    """Return by how much a limit bars the line from where the others let it be; None if they conflict too."""
    others = [each for each in limits if not _is_same_thing(each, limit)]
    lows = [each.at for each in others if each.is_least]
    highs = [each.at for each in others if not each.is_least]
    if lows and highs and max(lows) > min(highs):
        return None
    if limit.is_least:
        if highs and limit.at > min(highs):
            return limit.at - min(highs)
        return limit.at - max(lows) if lows else None
    return max(lows) - limit.at if lows else None


def _is_same_thing(other: Limit, limit: Limit) -> bool:
    """Return whether a limit is that very one, or the other half of a top that stays."""
    both_halves = LimitKind.STANDING_TOP in (other.kind, limit.kind)
    return other is limit or (both_halves and (other.kind, other.number) == (limit.kind, limit.number))
