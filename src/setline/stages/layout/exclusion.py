"""The most things, or the worthiest, that can be had together when some exclude each other; exact."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

__all__ = ["best_together", "most_together"]


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


MOST_WAYS = 16
"""So many equally good ways are told; where there are more, those with the earlier things."""

_Worth = tuple[int, ...]
_Ways = tuple[_Worth, list[tuple[int, ...]]]


def best_together(foes: Sequence[set[int]], worth: Sequence[_Worth]) -> list[list[int]]:
    """Return the ways to have the most worth in things that exclude each other in pairs.

    Args:
        foes: For each thing those that exclude it; a thing among its own foes cannot be had at all.
        worth: What each is worth, first what counts most; sums are compared in that order.

    Returns:
        Ways of equal worth, each its things ascending; the ways with earlier things first, and `MOST_WAYS` at
        most.

    Source:
        Greatest independent set, by branching on the thing that excludes most, each part by itself.

    Example:
        The first thing excludes the other two, which are worth as much together:

        >>> best_together([{1, 2}, {0}, {0}], [(2,), (1,), (1,)])
        [[0], [1, 2]]
    """
    things = frozenset(number for number, own in enumerate(foes) if number not in own)
    search = _Worthiest(foes, worth)
    return [list(way) for way in sorted(search.best(things)[1])]


class _Worthiest:
    """The search for the greatest worth, part by part."""

    def __init__(self, foes: Sequence[set[int]], worth: Sequence[_Worth]) -> None:
        self._foes, self._worth = foes, worth
        self._nothing: _Worth = (0,) * len(worth[0]) if worth else ()
        self._known: dict[frozenset[int], _Ways] = {}

    def best(self, things: frozenset[int]) -> _Ways:
        """Return the greatest worth of some things, and the ways to have it."""
        ways: _Ways = (self._nothing, [()])
        for part in self._parts(things):
            ways = _both(ways, self._of_part(part))
        return ways

    def _of_part(self, part: frozenset[int]) -> _Ways:
        """Return the same of things that hang together by exclusions."""
        if part in self._known:
            return self._known[part]
        thing = max(part, key=lambda each: (len(self._foes[each] & part), -each))
        having: _Ways = (self._worth[thing], [(thing,)])
        if len(part) == 1:
            return having
        having = _both(having, self.best(part - self._foes[thing] - {thing}))
        without = self.best(part - {thing})
        best = max(having[0], without[0])
        ways = [way for worth, found in (having, without) if worth == best for way in found]
        self._known[part] = best, sorted(ways)[:MOST_WAYS]
        return self._known[part]

    def _parts(self, things: frozenset[int]) -> Iterable[frozenset[int]]:
        """Yield the parts into which things fall that no exclusion joins."""
        left = set(things)
        while left:
            part, edge = set(), {min(left)}
            while edge:
                part |= edge
                edge = {other for each in edge for other in self._foes[each] & left} - part
            left -= part
            yield frozenset(part)


def _both(one: _Ways, other: _Ways) -> _Ways:
    """Return the ways to have two parts, each in its best ways."""
    worth = tuple(a + b for a, b in zip(one[0], other[0], strict=True))
    ways = [tuple(sorted((*first, *second))) for first in one[1] for second in other[1]]
    return worth, sorted(ways)[:MOST_WAYS]
