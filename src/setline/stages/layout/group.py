"""Joints that hang together by rows, with one complete table of shortest paths among them.

Groups are values: narrowing one gives another, so that a search may keep the one it came from.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np

from setline.stages.layout.row import Form
from setline.stages.layout.table import NO_PATH, Table, arcs_of, empty_table, mirror_of, tightened

__all__ = ["Group"]


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

    def fixed(self, low: int, high: int, apart: int) -> Group:
        """Return the group with the difference of two indices held at a value that it can take."""
        if self.joints is not None:
            back = arcs_of(high, low, -apart, Form.APART, self.joints)
            return self.narrowed((*arcs_of(low, high, apart, Form.APART, self.joints), *back))
        # Both have become one joint; what leads to it and from it leads to and from either.
        table = self.table
        into = np.minimum(table[:, low], table[:, high] - apart)
        out_of = np.minimum(table[low], table[high] + apart)
        through: Table = into[:, None] + out_of
        return Group(self.nodes, np.minimum(table, through, out=through), None)

    def leftmost(self) -> list[int]:
        """Return a place for every index of a joint, the origin first; see `Windows.places`."""
        earliest = self.table[: len(self.nodes), 0].tolist()
        if self.joints is None and max(earliest) < NO_PATH:
            return [-length for length in earliest]
        group = self
        places = [0]
        for place in range(1, len(self.nodes)):
            back = group.most(place, 0)
            places.append(min(0, group.most(0, place)) if back > NO_PATH else -back)
            group = group.fixed(0, place, places[-1])
        return places

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
