"""The most things that can be had together when some exclude each other; exact, earlier ones first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

__all__ = ["most_together"]


def most_together(foes: Sequence[set[int]], suits: Callable[[list[int]], bool]) -> list[int]:
    """Return the most things that can be had together; of equally many, with the earlier ones.

    A search over which to drop, fewest first. A thing that none excludes costs nothing; of things that all
    exclude each other all but one must go, which ends most searches at the first try.

    Args:
        foes: For each thing those that exclude it; a thing among its own foes cannot be had at all.
        suits: Whether a set of things, none of which exclude each other, can be had; if it can, so can less.

    Returns:
        Their numbers, ascending.
    """
    things = [number for number, own in enumerate(foes) if number not in own]
    if not any(foes[number] for number in things) and suits(things):
        return things
    for dropped in range(_must_drop(foes, things), len(things) + 1):
        kept = _kept(foes, suits, [], things, dropped)
        if kept is not None:
            return kept
    return []


def _kept(
    foes: Sequence[set[int]],
    suits: Callable[[list[int]], bool],
    kept: list[int],
    rest: Sequence[int],
    may_drop: int,
) -> list[int] | None:
    """Return what is kept with as many of the rest, the earlier first, dropping at most so many, or None."""
    while rest and may_drop >= 0:
        if _must_drop(foes, rest) > may_drop:
            return None
        first, rest = rest[0], rest[1:]
        friends = [other for other in rest if other not in foes[first]]
        left = may_drop - (len(rest) - len(friends))
        if left >= 0 and suits([*kept, first]):
            found = _kept(foes, suits, [*kept, first], friends, left)
            if found is not None:
                return found
        may_drop -= 1
    return kept if may_drop >= 0 else None


def _must_drop(foes: Sequence[set[int]], things: Sequence[int]) -> int:
    """Return a number of things that at least must be dropped."""
    circles: list[list[int]] = []
    for thing in things:
        if not foes[thing]:
            circles.append([])
            continue
        for circle in circles:
            if circle and foes[thing].issuperset(circle):
                circle.append(thing)
                break
        else:
            circles.append([thing])
    return len(things) - len(circles)
