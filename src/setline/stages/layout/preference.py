"""What is wanted, in strict order: each wish is followed as far as the ones before it let it be.

A wish says how far apart two joints ought to be. It takes the value nearest to that which all rows and all
earlier wishes allow, and holds it from then on; so no later wish, however many, moves an earlier one by a
tick. Taking the nearest value is exact: what two joints may be apart is a window without gaps.

Fillers that stay equal share what is left: the greatest departure from their wished widths is made as small
as it can be, those that cannot do better are held, and the rest go on (leximin). A third of a tick is
nobody's; the last of the group takes it. So it is with sixteenths: widths are laid on whole steps, and what
does not come out even goes to the last of the group. The caller names the one at the wall end last.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from setline.stages.layout.row import Row
from setline.stages.layout.table import FAR, NO_PATH, Table, arcs_of, tightened
from setline.stages.layout.windows import Windows

__all__ = ["Wish", "follow", "share"]


class Wish(NamedTuple):
    """How far apart two joints ought to be, or where their middle ought to stand.

    Attributes:
        low: Left joint (0 is the origin).
        high: Right joint.
        target: Wished ``x[high] - x[low]``; of a middle, wished ``x[low] + x[high]``. [ticks]
        is_middle: Whether it is the middle that is wished.
    """

    low: int
    high: int
    target: int
    is_middle: bool = False


def follow(seen: Windows, wishes: Iterable[Wish]) -> tuple[int, ...]:
    """Follow wishes in their order, each as nearly as all that stands lets it be; the windows narrow.

    Args:
        seen: What is allowed; afterwards, what is allowed with every wish held where it came to stand.
        wishes: First the one that counts most.

    Returns:
        What each wish came to, in ticks. Wishes for a middle beside items of varying width belong before
        those that may come to an odd number of ticks.

    Example:
        A filler of 2 to 4 wished at 3, then a box wished against the wall at 0:

        >>> from setline.stages.layout.row import Row
        >>> from setline.stages.layout.windows import windows
        >>> seen = windows([Row(0, 1, 4), Row(1, 0, -2)], 2)
        >>> follow(seen, [Wish(0, 1, 3), Wish(0, 1, 0)])
        (3, 3)
    """
    came_to = []
    for wish in wishes:
        if wish.is_middle:
            value = seen.nearest_sum(wish.low, wish.high, wish.target)
            seen.fix_sum(wish.low, wish.high, value)
        else:
            value = seen.take(wish.low, wish.high, wish.target)
        came_to.append(value)
    return tuple(came_to)


def share(seen: Windows, group: Sequence[Wish], step: int | None = None) -> tuple[int, ...]:
    """Let a group depart from its targets as equally as can be (leximin); the windows narrow.

    Args:
        seen: What is allowed; afterwards, what is allowed with every width of the group held.
        group: Widths (not middles) with their targets; with equal targets, what is left is shared equally.
            The last one takes what does not come out even.
        step: Lay the widths on whole multiples of this as far as the windows allow; None: on ticks. [ticks]

    Returns:
        The width of each, in the order given.

    Source:
        Minimise the greatest, hold those that cannot be less, repeat; each greatest by Newton's method on the
        circle that binds, in whole numbers.

    Example:
        34 sixteenths over three fillers, on whole sixteenths:

        >>> from setline.stages.layout.row import Row
        >>> from setline.stages.layout.windows import windows
        >>> seen = windows([Row(0, 3, 34), Row(3, 0, -34)], 4)
        >>> share(seen, [Wish(0, 1, 0), Wish(1, 2, 0), Wish(2, 3, 0)], step=1)
        (11, 11, 12)
    """
    exact = seen.copy()
    widths = _leximin(exact, group)
    if step is None:
        return follow(seen, (wish._replace(target=widths[wish]) for wish in group))
    return _on_steps(seen, [wish._replace(target=widths[wish]) for wish in group], step)


def _leximin(seen: Windows, group: Sequence[Wish]) -> dict[Wish, int]:
    """Return the width of each of a group, departing as equally as can be; the windows narrow."""
    widths: dict[Wish, int] = {}
    left = list(dict.fromkeys(group))
    while left:
        greatest, grain = _least_greatest(seen, left)
        less = greatest - grain
        held = _held_within(seen, left, greatest)
        nearest = {wish: held.nearest(wish.low, wish.high, wish.target) for wish in left}
        stuck = [wish for wish in left if abs(nearest[wish] - wish.target) > less]
        if not stuck:
            last, width = _uneven(held, left, greatest, less)
            nearest[last], stuck = width, [last]
        for wish in stuck:
            widths[wish] = seen.take(wish.low, wish.high, nearest[wish])
        left = [wish for wish in left if wish not in widths]
    return widths


def _uneven(held: Windows, group: Sequence[Wish], greatest: int, less: int) -> tuple[Wish, int]:
    """Return which of a group takes what does not come out even, and its width: the last one that can.

    No one of them must depart so far, yet not all can depart less. Of its two sides it takes the better for
    the others.
    """
    for wish in reversed(group):
        others = [other for other in group if other is not wish]
        found: list[tuple[int, int, int]] = []
        for side, far in enumerate((wish.target + greatest, wish.target - greatest)):
            width = held.nearest(wish.low, wish.high, far)
            if abs(width - wish.target) > less:
                tried = held.copy()
                tried.fix(wish.low, wish.high, width)
                found.append((_least_greatest(tried, others)[0], side, width))
        if found:
            return wish, min(found)[2]
    raise AssertionError("where all can keep within a departure and not within less, one can depart so far")


def _held_within(seen: Windows, group: Iterable[Wish], greatest: int) -> Windows:
    """Return windows in which no width of a group departs further than so much."""
    held = seen.copy()
    for wish in group:
        for row in _bounds(wish, greatest):
            held.add(row)
    return held


def _bounds(wish: Wish, departure: int) -> tuple[Row, Row]:
    """Return the rows that hold a width within so much of its target."""
    return (
        Row(wish.low, wish.high, wish.target + departure),
        Row(wish.high, wish.low, departure - wish.target),
    )


_TELL = 1 << 10
"""While circles are sought a tick counts as so many parts, and each width of the group as one more."""


def _least_greatest(seen: Windows, group: Sequence[Wish]) -> tuple[int, int]:
    """Return the least departure that all of a group can keep within, and the least by which it can differ.

    It grows from nothing. As long as some circle of rows is negative, it must grow by what that lacks,
    divided among the widths of the group that it passes; never further, so the first that suffices is least.
    """
    ends = list(dict.fromkeys(node for wish in group for node in (wish.low, wish.high) if node))
    table, joints = seen.copy().among(ends)
    table = np.where(table < NO_PATH, table * _TELL, FAR)
    index = {0: 0} | {node: place for place, node in enumerate(ends, start=1)}
    grain = 1 if joints is None else 2
    departure = 0
    while lacks := _lacking(table, joints, index, group, departure):
        length, uses = lacks
        departure += -(-length // (uses * grain)) * grain
    return departure, grain


def _lacking(
    table: Table, joints: int | None, index: dict[int, int], group: Sequence[Wish], departure: int
) -> tuple[int, int] | None:
    """Return by how much a circle is negative and how many widths of the group it passes, if one is."""
    for wish in group:
        for row in _bounds(wish, departure):
            for tail, head, length in arcs_of(index[row.low], index[row.high], row.at_most, row.form, joints):
                told = length * _TELL + 1
                if told < table.item(tail, head):
                    around = told + table.item(head, tail)
                    if around < 0:
                        uses = around % _TELL
                        return (uses - around) // _TELL, uses
                    table = tightened(table, tail, head, told)
    return None


def _on_steps(seen: Windows, group: Sequence[Wish], step: int) -> tuple[int, ...]:
    """Hold widths on the whole steps beside their targets, odd steps to the last, as far as windows allow."""
    near = seen.copy()
    for wish in group:
        down = wish.target // step * step
        near.add(Row(wish.high, wish.low, -down))
        near.add(Row(wish.low, wish.high, down if down == wish.target else down + step))
    widths = []
    for wish in group:
        width = _on_step(near, wish, step)
        near.take(wish.low, wish.high, width)
        widths.append(seen.take(wish.low, wish.high, width))
    return tuple(widths)


def _on_step(seen: Windows, wish: Wish, step: int) -> int:
    """Return the least whole step that a width can take, or its nearest value if it can take none."""
    least, most = seen.least(wish.low, wish.high), seen.most(wish.low, wish.high)
    up = -(-(least or 0) // step) * step
    return up if most is None or up <= most else seen.nearest(wish.low, wish.high, wish.target)
