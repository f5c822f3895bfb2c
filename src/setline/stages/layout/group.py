"""Joints that hang together by rows, with one complete table of shortest paths among them.

Groups are values: narrowing one gives another, so that a search may keep the one it came from.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from setline.stages.layout.row import Row
from setline.stages.layout.table import NO_PATH, Table, built, close, empty_table, mirror_of, tightened

__all__ = ["Group", "check_even", "group_of"]


class Group(NamedTuple):
    """Joints that hang together.

    Attributes:
        nodes: The origin, then the joints; a node's index in the table is its place in here.
        table: Complete table of shortest paths (`setline.stages.layout.table`).
        joints: Number of joints if the table is mirrored, else None.
    """

    nodes: tuple[int, ...]
    table: Table
    joints: int | None

    def most(self, low: int, high: int) -> int:
        """Return the greatest difference of two indices, over `NO_PATH` if there is no limit.

        In a mirrored table ``y[high] - y[low]`` is also at most half of what the two differ from their
        mirrors.
        """
        direct = self.table.item(low, high)
        if self.joints is None:
            return direct
        bent = self.table.item(low, mirror_of(low, self.joints))
        bent += self.table.item(mirror_of(high, self.joints), high)
        return direct if bent > NO_PATH else min(direct, bent // 2)

    def narrowed(self, arcs: Iterable[tuple[int, int, int]]) -> Group:
        """Return the group with arcs (tail, head, length) more, which must not close a negative circle."""
        table = self.table
        for tail, head, length in arcs:
            if length < table.item(tail, head):
                table = tightened(table, tail, head, length)
        return self if table is self.table else Group(self.nodes, table, self.joints)

    def mirrored(self) -> Group:
        """Return the same group with a mirrored table."""
        if self.joints is not None:
            return self
        size = len(self.nodes)
        table = empty_table(2 * size - 1)
        table[:size, :size] = self.table
        table[size:, size:] = self.table[1:, 1:].T
        table[size:, 0] = self.table[0, 1:]
        table[0, size:] = self.table[1:, 0]
        return Group(self.nodes, _through_origin(table), size - 1)

    def merged(self, other: Group) -> Group:
        """Return one group of two that so far met in the origin only."""
        if (self.joints is None) != (other.joints is None):
            return self.mirrored().merged(other.mirrored())
        nodes = self.nodes + other.nodes[1:]
        joints = None if self.joints is None else len(nodes) - 1
        first = len(self.nodes)
        table = empty_table(len(nodes) if joints is None else 2 * joints + 1)
        for group, places in ((self, [*range(first)]), (other, [0, *range(first, len(nodes))])):
            if joints is not None:
                places += [place + joints for place in places[1:]]
            table[np.ix_(places, places)] = group.table
        return Group(nodes, _through_origin(table), joints)

    def among(self, places: Sequence[int]) -> Table:
        """Return what the group allows among the origin and some indices, as a table of those alone."""
        if self.joints is None:
            wanted = [0, *places]
            return self.table[np.ix_(wanted, wanted)]
        wanted = [0, *places, *(mirror_of(place, self.joints) for place in places)]
        mirrors = [mirror_of(place, self.joints) for place in wanted]
        from_mirror = self.table[mirrors, wanted]
        to_mirror = self.table[wanted, mirrors]
        bent = (to_mirror[:, None] + from_mirror[None, :]) // 2
        direct = self.table[np.ix_(wanted, wanted)]
        table: Table = np.where(bent < NO_PATH // 2, np.minimum(direct, bent), direct)
        np.fill_diagonal(table, 0)
        return table


def _through_origin(table: Table) -> Table:
    """Return a table of parts that meet in the origin only, with the paths from part to part."""
    return tightened(table, 0, 0, 0)


def group_of(nodes: tuple[int, ...], rows: Sequence[Row]) -> Group | None:
    """Return the group of some joints (the origin first), or None if their rows contradict each other.

    Raises:
        ValueError: A row between two joints that a sum is coupled with is an odd number of ticks.
    """
    joints = len(nodes) - 1 if any(row.form for row in rows) else None
    if joints is not None:
        for row in rows:
            check_even(row)
    table = built(rows, {node: place for place, node in enumerate(nodes)}, joints)
    return Group(nodes, table, joints) if close(table) else None


def check_even(row: Row) -> None:
    """Refuse an odd row between two joints where a sum is held: its places would not be whole."""
    if row.at_most % 2 and row.low and row.high:
        raise ValueError(f"{row.label or row}: {row.at_most} is odd, and a centre is held beside it")
