"""Planning again with as little change as can be: fewest marks, then the least way.

A mark stands as long as its joint stays in the window that prints the same text. Marks that cannot all stand
clash in pairs: two joints are too near or too far for the rows between them, whatever happens to the rest. (A
circle of rows passes the origin once, so it meets two such windows at most.) So the fewest changes are those
that leave, of each clashing pair, one; a short exact search. It holds for rows coupled by tall boxes,
line-ups and centres as for one.

Joints that have to move go the least way in sum, which is a cost that flow can bear (`circulation`), whole
numbers again. Of equal ways the windows keep all: later wishes choose among them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from setline.stages.layout.circulation import Arc, Circulation
from setline.stages.layout.exclusion import best_together, most_together
from setline.stages.layout.preference import Wish
from setline.stages.layout.row import Form, Row
from setline.stages.layout.table import NO_PATH, Table, arcs_of
from setline.stages.layout.windows import Windows

__all__ = ["Keep", "fewest_changes", "go_least_way", "keep_most"]


class Keep(NamedTuple):
    """A joint that ought to stay where its mark keeps its printed text.

    Attributes:
        node: The joint.
        least: Least place that prints the same. [ticks]
        most: Greatest place that prints the same. [ticks]
    """

    node: int
    least: int
    most: int


def keep_most(seen: Windows, keeps: Sequence[Keep]) -> tuple[bool, ...]:
    """Keep as many joints in their windows as can be; the windows narrow to those.

    Struck marks first, then agreed joints, is two calls: the second changes nothing that the first kept.

    Args:
        seen: What is allowed; afterwards, what is allowed with the kept joints held in their windows.
        keeps: First the one that counts most: of equally many, the earlier ones are kept.

    Returns:
        For each joint whether it is kept.

    Source:
        Helly's property of windows in difference constraints; see the module.

    Example:
        Three joints 10 apart from each other; the first two stood at 10 and 20, and the third is now at 31:

        >>> from setline.stages.layout.row import exactly, Gives
        >>> from setline.stages.layout.windows import windows
        >>> rows = [
        ...     *exactly(1, 2, 10, "", "a", Gives.WIDTH),
        ...     *exactly(2, 3, 10, "", "b", Gives.WIDTH),
        ... ]
        >>> seen = windows(rows, 4)
        >>> keep_most(seen, [Keep(1, 10, 10), Keep(2, 20, 20), Keep(3, 31, 31)]), seen.places()
        ((True, True, False), (0, 10, 20, 30))
    """
    if not keeps:
        return ()
    kept = most_together(_clashes(seen, keeps), lambda _: True)
    for number in kept:
        node, least, most = keeps[number]
        held = seen.add(Row(0, node, most)) and seen.add(Row(node, 0, -least))
        assert held, "joints that clash with none can all be kept"
    return tuple(number in kept for number in range(len(keeps)))


def fewest_changes(
    seen: Windows, keeps: Sequence[Keep], counts: Sequence[tuple[int, ...]]
) -> list[list[int]]:
    """Return the ways to keep joints in their windows so that the fewest that count change.

    Args:
        seen: What is allowed; left as it is.
        keeps: The joints.
        counts: What each counts: first place first, so that (1, 0) stands before any number of (0, 1).

    Returns:
        Equally good ways (`setline.stages.layout.exclusion.best_together`), each as the numbers of the joints
        kept; the ways that keep earlier joints first.

    Source:
        As `keep_most`.
    """
    return best_together(_clashes(seen, keeps), counts) if keeps else [[]]


def _clashes(seen: Windows, keeps: Sequence[Keep]) -> list[set[int]]:
    """Return for each joint those that cannot be kept beside it; itself if it cannot be kept at all."""
    table, joints = seen.copy().among([keep.node for keep in keeps])
    most = [keep.most for keep in keeps]
    least = [keep.least for keep in keeps]
    if joints is not None:
        most, least = most + [-keep.least for keep in keeps], least + [-keep.most for keep in keeps]
    clashes: list[set[int]] = [set() for _ in keeps]
    for one, from_most in enumerate(most):
        number = one % len(keeps)
        if from_most < -table.item(one + 1, 0) or least[one] > table.item(0, one + 1):
            clashes[number].add(number)
        for other, to_least in enumerate(least):
            if from_most + table.item(one + 1, other + 1) < to_least:
                clashes[number].add(other % len(keeps))
                clashes[other % len(keeps)].add(number)
    return clashes


def go_least_way(seen: Windows, wishes: Sequence[Wish]) -> int:
    """Let distances depart from their targets by the least sum; the windows narrow to all ways that do.

    Args:
        seen: What is allowed; afterwards, what is allowed with that sum no greater.
        wishes: Joints with the places they had (wishes from node 0), or other distances; not middles.

    Returns:
        The sum of the departures. [ticks]

    Source:
        Minimum cost flow; the places of equal cost by complementary slackness.

    Example:
        A box of 10 whose edges stood at 0 and 12 may stand anywhere between, and departs by 2 in sum:

        >>> from setline.stages.layout.row import exactly, Gives
        >>> from setline.stages.layout.windows import windows
        >>> seen = windows(exactly(1, 2, 10, "", "box", Gives.WIDTH), 3)
        >>> go_least_way(seen, [Wish(0, 1, 0), Wish(0, 2, 12)]), seen.earliest(1), seen.latest(1)
        (2, 0, 2)
    """
    nodes = list(dict.fromkeys(node for wish in wishes for node in (wish.low, wish.high) if node))
    if not nodes:
        return sum(abs(wish.target) for wish in wishes)
    table, joints = seen.copy().among(nodes)
    scale = 1 if joints is None else 2
    flow = Circulation(len(table))
    for tail, head, length in _needed(table):
        flow.hold(tail, head, scale * length)
    index = {0: 0} | {node: place for place, node in enumerate(nodes, start=1)}
    for row in _targets(wishes, whole=joints is None):
        for tail, head, length in arcs_of(index[row.low], index[row.high], row.at_most, row.form, joints):
            flow.let_give(tail, head, scale * length, 1)
    solved = flow.solve()
    assert solved, "windows that exist have places"
    for arc in flow.arcs:
        _hold_least(seen, arc, scale, [0, *nodes])
    places = flow.places
    paid = sum(max(0, places[arc.head] - places[arc.tail] - arc.length) for arc in flow.arcs if arc.price)
    return paid // (scale * scale)


def _needed(table: Table) -> Iterator[tuple[int, int, int]]:
    """Yield the paths of a table as arcs, but those that the paths to and from the origin imply."""
    implied = table[:, :1] + table[:1]
    for tail, head in np.argwhere(table < NO_PATH).tolist():
        if tail != head and (not (tail and head) or table[tail, head] < implied[tail, head]):
            yield tail, head, table.item(tail, head)


def _targets(wishes: Iterable[Wish], *, whole: bool) -> Iterator[Row]:
    """Yield the two rows that hold each wish at its target; beside a held sum, at an even one."""
    for low, high, target, _ in wishes:
        aim = target if whole or not (low and high) else target - target % 2
        yield Row(low, high, aim)
        yield Row(high, low, -aim)


def _hold_least(seen: Windows, arc: Arc, scale: int, nodes: Sequence[int]) -> None:
    """Narrow windows to the places of least sum, as far as one arc tells of them.

    An arc that carries flow is tight wherever the sum is least, or gives if it may; one that may give and
    carries none does not.
    """
    length = arc.length // scale
    if arc.flow:
        row = _row_between(arc.head, arc.tail, -length, nodes)
    elif arc.price:
        row = _row_between(arc.tail, arc.head, length, nodes)
    else:
        return
    if seen.allows(row):
        seen.hold(row)


def _row_between(tail: int, head: int, length: int, nodes: Sequence[int]) -> Row:
    """Return the row of an arc between two indices of a table, mirrored ones included."""
    joints = len(nodes) - 1
    from_mirror, to_mirror = tail > joints, head > joints
    low = nodes[tail - joints if from_mirror else tail]
    high = nodes[head - joints if to_mirror else head]
    turned = from_mirror + to_mirror
    if not turned:
        return Row(low, high, length)
    if turned == (low > 0) + (high > 0):
        return Row(high, low, length)
    return Row(low, high, length, form=Form.SUM_MOST if from_mirror else Form.SUM_LEAST)
