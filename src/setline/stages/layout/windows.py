"""How far every joint may move: all that a set of rows allows, kept ready while rows are added.

The rows are a network of difference constraints. The greatest ``x[b] - x[a]`` that all of them together allow
is the length of the shortest path from ``a`` to ``b``, so one table of shortest paths answers every question:
the latest place of a joint is the path from the origin to it, the earliest the path back, the room between
two joints the paths between them; a circle of negative length means that no layout exists (`conflict` says
which). All whole numbers; exact.

Why a table and not one search a question: a run has 8 to 40 joints and is asked some fifty questions, each
answer being fixed before the next. Fixing one costs two sums of numpy over the table, and asking costs
nothing. Runs that share no row but the origin's are kept in tables of their own (groups), so cost grows with
the number of runs only.

Rows that hold a sum (`Form`) are no difference. Their table has two indices a joint, one for ``x`` and one
for ``-x``: a row between two joints becomes two arcs, and a sum becomes a difference between a joint and a
mirrored one. Then half the path from ``-x`` to ``x`` bounds ``x`` as well. With even rows between joints
every such path is even, so the answers stay whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from setline.stages.layout.row import Form, Row
from setline.stages.layout.table import (
    NO_PATH,
    Table,
    arcs_of,
    built,
    close,
    empty_table,
    grouped,
    mirror_of,
    tightened,
)

__all__ = ["Windows", "windows"]


class _Group(NamedTuple):
    """Joints that hang together, with their table.

    Attributes:
        nodes: The origin, then the joints; a node's index is its place in here.
        table: Complete table of shortest paths.
        joints: Number of joints if the table is mirrored, else None.
    """

    nodes: tuple[int, ...]
    table: Table
    joints: int | None

    def most(self, low: int, high: int) -> int:
        """Return the greatest difference between two indices, over `NO_PATH` if there is no limit."""
        direct = self.table.item(low, high)
        if self.joints is None:
            return direct
        bent = self.table.item(low, mirror_of(low, self.joints)) + self.table.item(
            mirror_of(high, self.joints), high
        )
        return direct if bent > NO_PATH else min(direct, bent // 2)


def windows(rows: Iterable[Row], nodes: int) -> Windows | None:
    """Return all that the rows allow, or None if they contradict each other.

    Args:
        rows: What must hold.
        nodes: Number of nodes, the origin (node 0) included.

    Returns:
        The windows of every joint, or None: then `setline.stages.layout.conflict.conflicts` says why.

    Raises:
        ValueError: A row between two joints that a sum is coupled with is an odd number of ticks.

    Source:
        Plain geometry; shortest paths after Floyd (see the module).

    Example:
        A wall of 100 with a filler of 2 to 4 and a box of 24 (in any unit):

        >>> from setline.stages.layout.row import Gives, at_least, at_most, exactly
        >>> rows = [
        ...     at_least(0, 1, 2, "filler at least 2", "filler least", Gives.FILLER_LEAST),
        ...     at_most(0, 1, 4, "filler at most 4", "filler most", Gives.FILLER_MOST),
        ...     *exactly(1, 2, 24, "box 24", "box", Gives.WIDTH),
        ...     at_most(0, 2, 100, "the wall", "wall", Gives.FACT),
        ... ]
        >>> seen = windows(rows, 3)
        >>> seen.earliest(2), seen.latest(2)
        (26, 28)
        >>> seen.fix(0, 1, seen.nearest(0, 1, 5))
        >>> seen.places()
        (0, 4, 28)
    """
    rows = tuple(rows)
    groups = []
    for members, held in grouped(rows, nodes):
        group = _group(members, held)
        if group is None:
            return None
        groups.append(group)
    return Windows(groups, nodes)


def _group(nodes: tuple[int, ...], rows: Sequence[Row]) -> _Group | None:
    """Return a group with its complete table, or None if its rows contradict each other."""
    index = {node: place for place, node in enumerate(nodes)}
    joints = len(nodes) - 1 if any(row.form for row in rows) else None
    if joints is not None:
        for row in rows:
            _check_even(row)
    table = built(rows, index, joints)
    return _Group(nodes, table, joints) if close(table) else None


def _check_even(row: Row) -> None:
    """Refuse an odd row between two joints where a sum is held: its places would not be whole."""
    if row.at_most % 2 and row.low and row.high:
        raise ValueError(f"{row.label or row}: {row.at_most} is odd, and a centre is held beside it")


class Windows:
    """What a set of rows allows; made by `windows`, narrowed by `add` and `fix`, and by nothing else.

    ``copy`` is cheap (tables are shared until one is narrowed), so a search may try and fall back.
    """

    __slots__ = ("_groups", "_nodes", "_of", "_place")

    def __init__(self, groups: Sequence[_Group], nodes: int) -> None:
        self._groups = list(groups)
        self._nodes = nodes
        self._of = [0] * nodes
        self._place = [0] * nodes
        for number, group in enumerate(self._groups):
            self._enter(number, group.nodes)

    def _enter(self, number: int, members: Sequence[int]) -> None:
        for place, node in enumerate(members):
            if node:
                self._of[node], self._place[node] = number, place

    @property
    def nodes(self) -> int:
        """Number of nodes, the origin included."""
        return self._nodes

    def copy(self) -> Windows:
        """Return windows that are narrowed apart from these."""
        twin = Windows((), 0)
        twin._groups, twin._nodes = list(self._groups), self._nodes
        twin._of, twin._place = list(self._of), list(self._place)
        return twin

    def most(self, low: int, high: int) -> int | None:
        """Return the greatest ``x[high] - x[low]`` that all rows together allow, or None for no limit."""
        found = self._most(low, high)
        return None if found > NO_PATH else found

    def least(self, low: int, high: int) -> int | None:
        """Return the least ``x[high] - x[low]`` that all rows together allow, or None for no limit."""
        found = self._most(high, low)
        return None if found > NO_PATH else -found

    def latest(self, node: int) -> int | None:
        """Return the greatest place of a joint, or None for no limit."""
        return self.most(0, node)

    def earliest(self, node: int) -> int | None:
        """Return the least place of a joint, or None for no limit."""
        return self.least(0, node)

    def _most(self, low: int, high: int) -> int:
        """Return `most`, or a number over `NO_PATH`."""
        if low and high and self._of[low] != self._of[high]:
            ends = self._most(low, 0), self._most(0, high)
            return max(ends) if max(ends) > NO_PATH else sum(ends)
        group = self._groups[self._of[low or high]] if self._groups else _NOTHING
        return group.most(self._place[low], self._place[high])

    def allows(self, row: Row) -> bool:
        """Return whether a row can hold beside all that stands."""
        return -row.at_most <= self._opposite(row)

    def _opposite(self, row: Row) -> int:
        """Return the greatest value of a row's left side taken negative."""
        if row.form is Form.APART:
            return self._most(row.high, row.low)
        group = self._joined(row.low, row.high, mirrored=True)
        low, high = self._place[row.low], self._place[row.high]
        assert group.joints is not None, "a sum is held in a mirrored table"
        if row.form is Form.SUM_MOST:
            return group.most(high, mirror_of(low, group.joints))
        return group.most(mirror_of(high, group.joints), low)

    def add(self, row: Row) -> bool:
        """Narrow the windows by one row; False, and nothing changes, if it contradicts what stands.

        Raises:
            ValueError: As in `windows`.
        """
        if not self.allows(row):
            return False
        if row.low or row.high:
            self._narrow(row)
        return True

    def _narrow(self, row: Row) -> None:
        """Lay a row that is allowed into its table."""
        group = self._joined(row.low, row.high, mirrored=row.form is not Form.APART)
        if group.joints is not None:
            _check_even(row)
        low, high = self._place[row.low], self._place[row.high]
        table = group.table
        for tail, head, length in arcs_of(low, high, row.at_most, row.form, group.joints):
            if length < table.item(tail, head):
                table = tightened(table, tail, head, length)
        self._groups[self._of[row.low or row.high]] = group._replace(table=table)

    def nearest(self, low: int, high: int, target: int) -> int:
        """Return the value that ``x[high] - x[low]`` can take nearest to a target.

        Beside a held sum a value between two joints is even unless it is the end of its window; of two that
        are equally near, the smaller.
        """
        most, back = self._most(low, high), self._most(high, low)
        if target >= most:
            return most
        if target <= -back:
            return -back
        odd = target % 2 and low and high and self._is_mirrored(low, high)
        return target - 1 if odd else target

    def fix(self, low: int, high: int, distance: int) -> None:
        """Hold ``x[high] - x[low]`` at a value that it can take (one that `nearest` gave)."""
        if self._most(low, high) == distance == -self._most(high, low):
            return
        group = self._joined(low, high, mirrored=False)
        here, there = self._place[low], self._place[high]
        table = group.table
        for row in ((here, there, distance), (there, here, -distance)):
            for tail, head, length in arcs_of(*row, Form.APART, group.joints):
                if length < table.item(tail, head):
                    table = tightened(table, tail, head, length)
        self._groups[self._of[low or high]] = group._replace(table=table)

    def places(self) -> tuple[int, ...]:
        """Return one place for every node, all rows holding.

        Each joint in the order of the nodes as far left as the ones before it let it be. A joint without an
        earliest place stands as near to the origin as it can.
        """
        settled = self.copy()
        for node in range(1, self._nodes):
            earliest = settled.earliest(node)
            settled.fix(0, node, settled.nearest(0, node, 0) if earliest is None else earliest)
        return tuple(settled.latest(node) or 0 for node in range(self._nodes))

    def _is_mirrored(self, low: int, high: int) -> bool:
        return any(self._groups[self._of[node]].joints is not None for node in (low, high) if node)

    def _joined(self, low: int, high: int, *, mirrored: bool) -> _Group:
        """Return the one group that holds both nodes, joining two or mirroring one where needed."""
        first, second = self._of[low or high], self._of[high or low]
        if first != second:
            merged = _merge(self._groups[first], self._groups[second])
            self._groups[first] = merged
            self._enter(first, merged.nodes)
        group = self._groups[first]
        if mirrored and group.joints is None:
            group = self._groups[first] = _mirrored(group)
        return group


_NOTHING = _Group((0,), empty_table(1), None)


def _merge(one: _Group, other: _Group) -> _Group:
    """Return one group of two that so far met in the origin only."""
    if (one.joints is None) != (other.joints is None):
        one, other = (_mirrored(group) if group.joints is None else group for group in (one, other))
    first, second = len(one.nodes), len(other.nodes)
    nodes = one.nodes + other.nodes[1:]
    joints = None if one.joints is None else len(nodes) - 1
    here = [*range(first)]
    there = [0, *range(first, first + second - 1)]
    if joints is not None:
        here += [place + joints for place in here[1:]]
        there += [place + joints for place in there[1:]]
    table = empty_table(len(nodes) if joints is None else 2 * joints + 1)
    for group, places in ((one, here), (other, there)):
        for row, at in enumerate(places):
            table[at, places] = group.table[row]
    return _Group(nodes, tightened(table, 0, 0, 0), joints)


def _mirrored(group: _Group) -> _Group:
    """Return the same group with a mirrored table."""
    size = len(group.nodes)
    joints = size - 1
    table = empty_table(2 * joints + 1)
    table[:size, :size] = group.table
    table[size:, size:] = group.table[1:, 1:].T
    table[size:, 0] = group.table[0, 1:]
    table[0, size:] = group.table[1:, 0]
    return _Group(group.nodes, tightened(table, 0, 0, 0), joints)
