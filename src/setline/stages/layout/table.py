"""Tables of shortest paths between the joints of runs that hang together, by numpy.

A plain table has the origin at index 0 and joint ``k`` of its list at index ``k``. A mirrored table, needed
where a row holds a sum, has a second index for the same joint taken negative: index ``k + m`` stands for
``-x``. The origin is its own mirror. Entry (a, b) is the greatest ``y[b] - y[a]`` that the rows allow.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from setline.stages.layout.row import Form, Row

__all__ = [
    "FAR",
    "NO_PATH",
    "Table",
    "arcs_of",
    "close",
    "empty_table",
    "grouped",
    "mirror_of",
    "tightened",
]

Table: TypeAlias = NDArray[np.int64]

FAR = 1 << 60
"""Stands for "no path" inside a table; two of them and any sum of lengths still fit 64 bits."""
NO_PATH = 1 << 59
"""What is greater than this is no path (a path from "no path" may be a little shorter than `FAR`)."""


@lru_cache(maxsize=256)
def _blank(size: int) -> Table:
    table = np.full((size, size), FAR, dtype=np.int64)
    np.fill_diagonal(table, 0)
    table.flags.writeable = False
    return table


def empty_table(size: int) -> Table:
    """Return the table of ``size`` indices without any row."""
    return _blank(size).copy()


def close(table: Table) -> bool:
    """Complete a table of single steps to shortest paths, in place; False if a circle is negative.

    Floyd's order. It stops at the first negative circle that it would pass through again, before lengths can
    grow out of bounds.
    """
    through = np.empty_like(table)
    for k, step in enumerate(table):
        if step.item(k) < 0:
            return False
        np.add(table[:, k : k + 1], step, out=through)
        np.minimum(table, through, out=table)
    return bool(min(table.diagonal().tolist()) >= 0)


def tightened(table: Table, tail: int, head: int, length: int) -> Table:
    """Return a complete table with one arc more, which must not close a negative circle."""
    through: Table = (table[:, tail : tail + 1] + length) + table[head]
    return np.minimum(table, through, out=through)


def mirror_of(index: int, joints: int) -> int:
    """Return the index of the same joint taken negative, in a mirrored table of so many joints."""
    if index == 0:
        return 0
    return index + joints if index <= joints else index - joints


def arcs_of(
    low: int, high: int, at_most: int, form: Form, joints: int | None
) -> Sequence[tuple[int, int, int]]:
    """Return the arcs (tail, head, length) of a row between two indices (``joints``: None if plain)."""
    if joints is None:
        return ((low, high, at_most),)
    low_mirror, high_mirror = mirror_of(low, joints), mirror_of(high, joints)
    if form is Form.APART:
        return ((low, high, at_most), (high_mirror, low_mirror, at_most))
    if form is Form.SUM_MOST:
        return ((low_mirror, high, at_most), (high_mirror, low, at_most))
    return ((low, high_mirror, at_most), (high, low_mirror, at_most))


def grouped(rows: Sequence[Row], nodes: int) -> list[tuple[tuple[int, ...], list[Row]]]:
    """Return the joints that hang together by rows other than the origin's, each group with its rows."""
    leader = list(range(nodes))

    def lead(node: int) -> int:
        while leader[node] != node:
            leader[node] = node = leader[leader[node]]
        return node

    for row in rows:
        if row.low and row.high:
            first, second = lead(row.low), lead(row.high)
            if first != second:
                leader[max(first, second)] = min(first, second)
    members: dict[int, list[int]] = {}
    for node in range(1, nodes):
        members.setdefault(lead(node), []).append(node)
    held: dict[int, list[Row]] = {node: [] for node in members}
    for row in rows:
        if row.low or row.high:
            held[lead(row.high or row.low)].append(row)
        elif row.at_most < 0:
            held.setdefault(0, []).append(row)
    if 0 in held:
        members[0] = []
    return [((0, *members[node]), held[node]) for node in members]
