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

import numpy as np

from setline.stages.layout.group import Group
from setline.stages.layout.network import Bound, Roots, evened, groups_of, tied
from setline.stages.layout.row import Form, Gives, Row, centred
from setline.stages.layout.table import NO_PATH, Table, arcs_of, empty_table, mirror_of

__all__ = ["Windows", "windows"]


def windows(rows: Iterable[Row], nodes: int) -> Windows | None:
    """Return all that the rows allow, or None if they contradict each other.

    Args:
        rows: What must hold.
        nodes: Number of nodes, the origin (node 0) included.

    Returns:
        The windows of every joint, or None: then `setline.stages.layout.conflict.conflicts` says why.

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
    told = tied(rows, nodes)
    groups = None if told is None else groups_of(told)
    return None if told is None or groups is None else Windows(told.roots, groups)


class Windows:
    """What a set of rows allows; made by `windows`, narrowed by `add` and `fix`, and by nothing else.

    ``copy`` is cheap (tables are shared until one is narrowed), so a search may try and fall back.
    """

    __slots__ = ("_groups", "_of", "_offset", "_place", "_roots")

    def __init__(self, roots: Roots, groups: Iterable[Group]) -> None:
        self._roots = roots
        self._offset = roots.offset
        self._groups = list(groups)
        self._of = [-1] * len(roots.root)
        self._place = [0] * len(roots.root)
        for number in range(len(self._groups)):
            self._enter(number)

    def _enter(self, number: int) -> None:
        """Note which group the roots of a group are in, and their indices; -1 and 0 stand for the origin."""
        for place, node in enumerate(self._groups[number].nodes):
            if node:
                self._of[node], self._place[node] = number, place

    @property
    def nodes(self) -> int:
        """Number of nodes, the origin included."""
        return len(self._offset)

    def copy(self) -> Windows:
        """Return windows that are narrowed apart from these."""
        twin = object.__new__(Windows)
        twin._roots, twin._offset = self._roots, self._offset
        twin._groups, twin._of, twin._place = self._groups.copy(), self._of.copy(), self._place.copy()
        return twin

    # What is allowed

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
        """Return `most`, or a number well over `NO_PATH`."""
        root = self._roots.root
        offset = self._offset[high] - self._offset[low]
        return self._most_between(root[low], root[high]) + offset

    def _most_between(self, low: int, high: int) -> int:
        """Return `_most` of two roots."""
        if low == high:
            return 0
        first, second = self._of[low], self._of[high]
        if first == second or not (low and high):
            return self._groups[max(first, second)].most(self._place[low], self._place[high])
        ends = self._most_between(low, 0), self._most_between(0, high)
        return max(ends) if max(ends) > NO_PATH else sum(ends)

    def allows(self, row: Row) -> bool:
        """Return whether a row can hold beside all that stands."""
        bound = self._bound(row)
        return -bound.at_most <= self._most_against(bound)

    def _bound(self, row: Row) -> Bound:
        return self._roots.bound(row.low, row.high, row.at_most, row.form)

    def _most_against(self, bound: Bound) -> int:
        """Return the greatest value that what a bound holds down can take when it is counted negative."""
        if bound.form is Form.APART:
            return self._most_between(bound.high, bound.low)
        group, low, high = self._joined(bound.low, bound.high, mirrored=True)
        assert group.joints is not None, "a sum is held in a mirrored table"
        if bound.form is Form.SUM_MOST:
            return group.most(high, mirror_of(low, group.joints))
        return group.most(mirror_of(high, group.joints), low)

    def among(self, nodes: Sequence[int]) -> tuple[Table, int | None]:
        """Return all that is allowed among the origin and some joints as one table of their own.

        Returns:
            A complete table (`setline.stages.layout.table`), index 0 the origin and then the joints in the
            order given; and their number if it is mirrored, else None.
        """
        roots = [self._roots.root[node] for node in nodes]
        free = [root for root in roots if root]
        for root in free:
            self._joined(free[0], root, mirrored=False)
        group = self._groups[self._of[free[0]]] if free else _ORIGIN
        offsets = [0, *(self._offset[node] for node in nodes)]
        if group.joints is not None:
            offsets += [-offset for offset in offsets[1:]]
        shift = np.array(offsets, dtype=np.int64)
        table = group.among([self._place[root] for root in roots]) + shift[None, :] - shift[:, None]
        return table, None if group.joints is None else len(nodes)

    # Narrowing

    def add(self, row: Row) -> bool:
        """Narrow the windows by one row; False, and nothing changes, if it contradicts what stands."""
        bound = self._bound(row)
        if -bound.at_most > self._most_against(bound):
            return False
        if bound.low != bound.high:
            group, _, _ = self._joined(bound.low, bound.high, mirrored=bound.form is not Form.APART)
            even = bound.at_most if group.joints is None else evened(bound.low, bound.high, bound.at_most)
            self._lay(bound._replace(at_most=even))
        return True

    def hold(self, *rows: Row) -> None:
        """Narrow the windows by rows that are known to be allowed (`allows`)."""
        for row in rows:
            bound = self._bound(row)
            if bound.low != bound.high:
                self._lay(bound)

    def _lay(self, bound: Bound) -> None:
        """Lay a bound that is allowed into its table."""
        group, low, high = self._joined(bound.low, bound.high, mirrored=bound.form is not Form.APART)
        arcs = arcs_of(low, high, bound.at_most, bound.form, group.joints)
        self._groups[self._of[bound.low or bound.high]] = group.narrowed(arcs)

    def _joined(self, low: int, high: int, *, mirrored: bool) -> tuple[Group, int, int]:
        """Return the one group of two roots and their indices, joining or mirroring groups where needed."""
        first, second = self._of[low or high], self._of[high or low]
        if first != second:
            self._groups[first] = self._groups[first].merged(self._groups[second])
            self._groups[second] = _ORIGIN
            self._enter(first)
        if mirrored:
            self._groups[first] = self._groups[first].mirrored()
        return self._groups[first], self._place[low], self._place[high]

    def nearest(self, low: int, high: int, target: int) -> int:
        """Return the value that ``x[high] - x[low]`` can take nearest to a target.

        Beside a held sum a value between two joints is even unless it is the end of its window; of two that
        are equally near, the smaller.
        """
        root, offset = self._roots.root, self._offset[high] - self._offset[low]
        return self._nearest_between(root[low], root[high], target - offset)[0] + offset

    def _nearest_between(self, low: int, high: int, target: int) -> tuple[int, bool]:
        """Return `nearest` of two roots, and whether it is the only value."""
        most, back = self._most_between(low, high), self._most_between(high, low)
        whole = not (low and high) or self._groups[self._of[low]].joints is None
        return _nearest(target, -back, most, whole=whole), most == -back

    def fix(self, low: int, high: int, distance: int) -> None:
        """Hold ``x[high] - x[low]`` at a value that it can take (one that `nearest` gave)."""
        taken = self.take(low, high, distance)
        assert taken == distance, "a difference is fixed at a value that it can take"

    def take(self, low: int, high: int, target: int) -> int:
        """Hold ``x[high] - x[low]`` at the value nearest to a target (`nearest`), and return it."""
        root, offset = self._roots.root, self._offset[high] - self._offset[low]
        low, high = root[low], root[high]
        apart, only = self._nearest_between(low, high, target - offset)
        if not only:
            group, here, there = self._joined(low, high, mirrored=False)
            self._groups[self._of[low or high]] = group.fixed(here, there, apart)
        return apart + offset

    def nearest_sum(self, low: int, high: int, target: int) -> int:
        """Return the value that ``x[low] + x[high]`` can take nearest to a target (see `nearest`)."""
        apart = self.most(low, high)
        if apart is not None and apart == self.least(low, high):
            return 2 * self.nearest(0, low, (target - apart) // 2) + apart
        offsets = self._offset[low] + self._offset[high]
        low, high = self._roots.root[low], self._roots.root[high]
        most = self._most_against(Bound(low, high, 0, Form.SUM_LEAST))
        back = self._most_against(Bound(low, high, 0, Form.SUM_MOST))
        return _nearest(target - offsets, -back, most, whole=False) + offsets

    def fix_sum(self, low: int, high: int, total: int) -> None:
        """Hold ``x[low] + x[high]`` at a value that it can take (one that `nearest_sum` gave)."""
        apart = self.most(low, high)
        if apart is not None and apart == self.least(low, high):
            self.fix(0, low, (total - apart) // 2)
        else:
            self.hold(*centred(low, high, total, "", "", Gives.FACT))

    def places(self) -> tuple[int, ...]:
        """Return one place for every node, all rows holding.

        Each joint in the order of the nodes as far left as the ones before it let it be. A joint without an
        earliest place stands as near to the origin as it can.
        """
        at = [0] * self.nodes
        for group in self._groups:
            for node, place in zip(group.nodes, group.leftmost(), strict=True):
                at[node] = place
        return tuple(at[root] + offset for root, offset in zip(self._roots.root, self._offset, strict=True))


_ORIGIN = Group((0,), empty_table(1), None)


def _nearest(target: int, least: int, most: int, *, whole: bool) -> int:
    """Return the value of a window nearest to a target; inside it an even one, unless any will do."""
    if target >= most:
        return most
    if target <= least:
        return least
    return target if whole else target - target % 2
