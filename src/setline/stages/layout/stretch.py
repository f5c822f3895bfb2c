"""Widths on which other rows hang by their half: exact, though no row can say it.

"The hood's centre over the centre of the range opening" speaks of three joints if the opening's width may
vary. With that width held it is a row of two; so the rows depend on the width, each evenly. Where they
contradict each other at one width, the circle that does so says which way to go, and how far at least: its
sum must not be negative, and it changes evenly with the width. So widths move from the wished ones only as
far as such demands take them, and come to rest at the nearest that can hold, or where two demands leave none.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from setline.stages.layout.conflict import Conflict, conflicts
from setline.stages.layout.row import Row

__all__ = ["Stretch", "nearest_widths"]

GRAIN = 4
"""Widths differ from the wished by multiples of this, so that halves differ by even numbers. [ticks]"""


class Stretch(NamedTuple):
    """A width that may vary.

    Attributes:
        wished: Wished width. [ticks]
        least: Least width. [ticks]
        most: Greatest width, or None for no limit. [ticks]
    """

    wished: int
    least: int
    most: int | None


class _Demand(NamedTuple):
    """What widths must satisfy: ``free + sum(slope * steps)`` at least 0, in steps from the wished ones."""

    free: int
    slopes: tuple[int, ...]


def nearest_widths(
    rows_at: Callable[[tuple[int, ...]], Sequence[Row]], nodes: int, stretches: Sequence[Stretch]
) -> tuple[int, ...] | None:
    """Return the widths nearest to the wished ones at which rows can hold, or None if there are none.

    Args:
        rows_at: The rows at given widths: always as many and in the same order, each ``at_most`` growing or
            falling evenly with each width.
        nodes: Number of nodes, the origin included.
        stretches: The widths, first the one that counts most.

    Returns:
        One width each, differing from the wished one by a multiple of `GRAIN`.

    Source:
        Cutting planes by negative circles; the first width is as near as can be, then the next.

    Example:
        A range opening of 30 to 34 stands right of a box that ends at 40, its centre under a hood's at 56:

        >>> from setline.stages.layout.row import Gives, at_least, exactly
        >>> def rows_at(widths):
        ...     return [
        ...         at_least(0, 1, 40, "box", "box", Gives.FACT),
        ...         *exactly(1, 2, widths[0], "opening", "opening", Gives.WISH),
        ...         *exactly(0, 1, 56 - widths[0] // 2, "hood", "hood", Gives.PIN),
        ...     ]
        >>> nearest_widths(rows_at, 3, [Stretch(34, 30, 34)])
        (30,)
    """
    demands = list(_bounds(stretches))
    while True:
        steps = _nearest_steps(demands, len(stretches))
        if steps is None:
            return None
        widths = _widths(stretches, steps)
        rows = rows_at(widths)
        found = conflicts(rows, nodes)
        if not found:
            return widths
        demand = _demand(found[0], rows, rows_at, stretches, steps)
        assert demand.free + _sum(demand.slopes, steps) < 0, "a conflict demands what the widths do not give"
        demands.append(demand)


def _widths(stretches: Sequence[Stretch], steps: Sequence[int]) -> tuple[int, ...]:
    return tuple(each.wished + GRAIN * step for each, step in zip(stretches, steps, strict=True))


def _sum(slopes: Sequence[int], steps: Sequence[int]) -> int:
    return sum(slope * step for slope, step in zip(slopes, steps, strict=True))


def _bounds(stretches: Sequence[Stretch]) -> list[_Demand]:
    """Return the windows of the widths themselves as demands."""
    found = []
    for number, each in enumerate(stretches):
        one = tuple(GRAIN * (other == number) for other in range(len(stretches)))
        found.append(_Demand(each.wished - each.least, one))
        if each.most is not None:
            found.append(_Demand(each.most - each.wished, tuple(-slope for slope in one)))
    return found


def _demand(
    conflict: Conflict,
    rows: Sequence[Row],
    rows_at: Callable[[tuple[int, ...]], Sequence[Row]],
    stretches: Sequence[Stretch],
    steps: Sequence[int],
) -> _Demand:
    """Return what the circle of a conflict demands of the widths."""
    circle = [(rows.index(row), uses) for row, uses in zip(conflict.rows, conflict.uses, strict=True)]

    def total(at: Sequence[int]) -> int:
        there = rows_at(_widths(stretches, at))
        return sum(uses * there[place].at_most for place, uses in circle)

    here = total(steps)
    slopes = []
    for number in range(len(stretches)):
        beside = list(steps)
        beside[number] += 1
        slopes.append(total(beside) - here)
    return _Demand(here - _sum(slopes, steps), tuple(slopes))


def _nearest_steps(demands: Sequence[_Demand], count: int) -> tuple[int, ...] | None:
    """Return whole steps that satisfy all demands, each in turn as near to 0 as can be, or None."""
    if not count:
        return () if all(demand.free >= 0 for demand in demands) else None
    first = [(free, slope) for free, (slope,) in _without_last(demands, count - 1)]
    if any(not slope and free < 0 for free, slope in first):
        return None
    least = max((-(free // slope) for free, slope in first if slope > 0), default=None)
    most = min((free // -slope for free, slope in first if slope < 0), default=None)
    for step in _outward(least, most):
        rest = [_Demand(each.free + each.slopes[0] * step, each.slopes[1:]) for each in demands]
        others = _nearest_steps(rest, count - 1)
        if others is not None:
            return (step, *others)
    return None


_TRIES = 8


def _outward(least: int | None, most: int | None) -> list[int]:
    """Return the steps of a window nearest to 0: a few, since whole steps miss seldom and by little."""
    start = 0 if most is None else min(0, most)
    start = start if least is None else max(least, start)
    near = sorted(range(start - _TRIES, start + _TRIES + 1), key=lambda step: (abs(step - start), -step))
    return [step for step in near if (least is None or step >= least) and (most is None or step <= most)]


def _without_last(demands: Sequence[_Demand], times: int) -> list[_Demand]:
    """Return what demands say of the first unknowns if the last may be anything (Fourier and Motzkin)."""
    left = list(dict.fromkeys(demands))
    for _ in range(times):
        up = [each for each in left if each.slopes[-1] > 0]
        down = [each for each in left if each.slopes[-1] < 0]
        kept = [_Demand(each.free, each.slopes[:-1]) for each in left if not each.slopes[-1]]
        for one in up:
            for other in down:
                a, b = -other.slopes[-1], one.slopes[-1]
                slopes = tuple(a * s + b * t for s, t in zip(one.slopes[:-1], other.slopes[:-1], strict=True))
                kept.append(_Demand(a * one.free + b * other.free, slopes))
        left = list(dict.fromkeys(kept))
    return left
