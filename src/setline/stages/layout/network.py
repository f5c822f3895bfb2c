"""Rows put together: joints a fixed distance apart made one, and those that hang together gathered.

Most rows of a run are boxes, whose two joints move as one. So a joint at a fixed distance from another stands
for it with that offset (its *root*, the least of them), and one at a fixed place stands for the origin; only
roots have an index in a table. A run of fourteen items is left with six or so. A wall or a set box parts what
stands on either side of it, since rows against the origin tie nothing together.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from setline.stages.layout.group import Group
from setline.stages.layout.row import Form, Row
from setline.stages.layout.table import FAR, arcs_of, close, empty_table

__all__ = ["Bound", "Roots", "Tied", "evened", "groups_of", "tied"]


class Bound(NamedTuple):
    """A row between two roots."""

    low: int
    high: int
    at_most: int
    form: Form


class Roots:
    """Which joint each joint stands for, and how far right of it.

    Args:
        nodes: Number of nodes; at first each stands for itself.
    """

    __slots__ = ("offset", "root")

    def __init__(self, nodes: int) -> None:
        self.root = list(range(nodes))
        self.offset = [0] * nodes

    def of(self, node: int) -> tuple[int, int]:
        """Return a node's root and its offset."""
        root = self.root[node]
        if self.root[root] != root:
            above, further = self.of(root)
            self.root[node] = root = above
            self.offset[node] += further
        return root, self.offset[node]

    def tie(self, low: int, high: int, apart: int) -> bool:
        """Make ``x[high] - x[low] = apart`` hold; False if it contradicts what is tied."""
        low_root, low_offset = self.of(low)
        high_root, high_offset = self.of(high)
        further = low_offset + apart - high_offset  # of the root of high from the root of low
        if low_root == high_root:
            return further == 0
        if low_root < high_root:
            self.root[high_root], self.offset[high_root] = low_root, further
        else:
            self.root[low_root], self.offset[low_root] = high_root, -further
        return True

    def settle(self) -> None:
        """Let every node point to its root."""
        for node in range(len(self.root)):
            self.of(node)

    def bound(self, low: int, high: int, at_most: int, form: Form) -> Bound:
        """Return a row between nodes as a bound between roots, once settled.

        A sum of two joints of one root, or of which one is fixed, bounds a single joint.
        """
        low_root, high_root = self.root[low], self.root[high]
        if form is Form.APART:
            return Bound(low_root, high_root, at_most + self.offset[low] - self.offset[high], form)
        offsets = self.offset[low] + self.offset[high]
        left = at_most - offsets if form is Form.SUM_MOST else at_most + offsets
        if low_root == high_root and low_root:
            left //= 2
        elif low_root and high_root:
            return Bound(low_root, high_root, left, form)
        root = low_root or high_root
        return Bound(0, root, left, Form.APART) if form is Form.SUM_MOST else Bound(root, 0, left, Form.APART)


class Tied(NamedTuple):
    """What rows say of the roots.

    Attributes:
        roots: The root of every node, settled.
        apart: Greatest ``x[high] - x[low]`` that a row allows, by (low, high), both roots.
        sums: The rows that hold a sum, as bounds.
    """

    roots: Roots
    apart: dict[tuple[int, int], int]
    sums: list[Bound]


def tied(rows: Iterable[Row], nodes: int) -> Tied | None:
    """Return what rows say of the roots of all nodes, or None if two of them contradict each other.

    Rows that contradict each other only when three or more meet are seen by `groups_of`.
    """
    tightest: dict[tuple[int, int], int] = {}
    sums: list[Row] = []
    for row in rows:
        low, high, at_most, _, _, _, form = row
        if form:
            sums.append(row)
        elif at_most < tightest.get((low, high), FAR):
            tightest[low, high] = at_most
    roots = _rigid(tightest, nodes)
    if roots is None:
        return None
    apart: dict[tuple[int, int], int] = {}
    root, offset = roots.root, roots.offset
    for (low, high), at_most in tightest.items():
        low_root, high_root = root[low], root[high]
        length = at_most + offset[low] - offset[high]
        if low_root == high_root:
            if length < 0:
                return None
        elif length < apart.get((low_root, high_root), FAR):
            apart[low_root, high_root] = length
    bounds = [roots.bound(row.low, row.high, row.at_most, row.form) for row in sums]
    for low, high, at_most, form in bounds:
        if low == high and not form and at_most < 0:
            return None
        if low != high and not form:
            apart[low, high] = min(at_most, apart.get((low, high), FAR))
    return Tied(roots, apart, [bound for bound in bounds if bound.form])


def _rigid(tightest: dict[tuple[int, int], int], nodes: int) -> Roots | None:
    """Return the roots of nodes by the pairs that rows hold at one distance; None if those contradict."""
    roots = Roots(nodes)
    for (low, high), at_most in tightest.items():
        if low < high and tightest.get((high, low)) == -at_most and not roots.tie(low, high, at_most):
            return None
    roots.settle()
    return roots


_FEW = 12
"""So many roots are as quickly closed in one table as parted."""


def groups_of(told: Tied) -> list[Group] | None:
    """Return the roots that hang together, each group with its complete table; None if rows contradict."""
    free = [node for node, root in enumerate(told.roots.root) if node == root and node]
    if len(free) <= _FEW and not told.sums:
        group = _group(free, [(*pair, length) for pair, length in told.apart.items()], ())
        return None if group is None else [group]
    leader = _leaders(told)
    members: dict[int, list[int]] = {}
    for node in free:
        members.setdefault(leader[node], []).append(node)
    apart: dict[int, list[tuple[int, int, int]]] = {first: [] for first in members}
    for (low, high), length in told.apart.items():
        apart[leader[low or high]].append((low, high, length))
    sums: dict[int, list[Bound]] = {}
    for bound in told.sums:
        sums.setdefault(leader[bound.low], []).append(bound)
    groups = []
    for first, nodes in members.items():
        group = _group(nodes, apart[first], sums.get(first, ()))
        if group is None:
            return None
        groups.append(group)
    return groups


def _leaders(told: Tied) -> list[int]:
    """Return for every root the least that hangs together with it."""
    together = Roots(len(told.roots.root))
    for low, high in (*told.apart, *((bound.low, bound.high) for bound in told.sums)):
        if low and high:
            first, _ = together.of(low)
            second, _ = together.of(high)
            together.root[max(first, second)] = min(first, second)
    together.settle()
    return together.root


def _group(
    roots: Sequence[int], apart: Iterable[tuple[int, int, int]], sums: Sequence[Bound]
) -> Group | None:
    """Return roots that hang together with their table, the origin at its index 0, or None."""
    nodes = (0, *roots)
    index = {node: place for place, node in enumerate(nodes)}
    joints = len(roots) if sums else None
    table = empty_table(len(nodes) if joints is None else 2 * joints + 1)
    if joints is None:
        for low, high, length in apart:
            table[index[low], index[high]] = length
    else:
        for low, high, length, form in (*(Bound(*each, Form.APART) for each in apart), *sums):
            even = evened(low, high, length)
            for tail, head, step in arcs_of(index[low], index[high], even, form, joints):
                table[tail, head] = min(table[tail, head], step)
    return Group(nodes, table, joints) if close(table) else None


def evened(low: int, high: int, at_most: int) -> int:
    """Return a bound as it counts beside a held sum: between two joints loosened to the next even tick.

    Only so are all places whole. Typed lengths and their halves are even; what is not misses by one tick.
    """
    return at_most + at_most % 2 if low and high else at_most
