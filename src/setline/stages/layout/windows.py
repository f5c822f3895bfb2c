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

from setline.stages.layout.group import Group, check_even, group_of
from setline.stages.layout.row import Form, Gives, Row, centred
from setline.stages.layout.table import NO_PATH, Table, arcs_of, grouped, mirror_of

__all__ = ["Windows", "windows"]


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
        group = group_of(members, held)
        if group is None:
            return None
        groups.append(group)
    return Windows(groups, nodes)


class Windows:
    """What a set of rows allows; made by `windows`, narrowed by `add` and `fix`, and by nothing else.

    ``copy`` is cheap (tables are shared until one is narrowed), so a search may try and fall back.
    """

    __slots__ = ("_groups", "_nodes", "_of", "_place")

    def __init__(self, groups: Sequence[Group], nodes: int) -> None:
        self._groups = list(groups)
        self._nodes = nodes
        self._of = [0] * nodes
        self._place = [0] * nodes
        for number, group in enumerate(self._groups):
            self._enter(number, group)

    def _enter(self, number: int, group: Group) -> None:
        for place, node in enumerate(group.nodes):
            if node:
                self._of[node], self._place[node] = number, place

    @property
    def nodes(self) -> int:
        """Number of nodes, the origin included."""
        return self._nodes

    def copy(self) -> Windows:
        """Return windows that are narrowed apart from these."""
        twin = Windows((), 0)
        twin._groups, twin._nodes = self._groups.copy(), self._nodes
        twin._of, twin._place = self._of.copy(), self._place.copy()
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
        """Return `most`, or a number over `NO_PATH`."""
        if low and high and self._of[low] != self._of[high]:
            ends = self._most(low, 0), self._most(0, high)
            return max(ends) if max(ends) > NO_PATH else sum(ends)
        if low == high:
            return 0
        return self._groups[self._of[low or high]].most(self._place[low], self._place[high])

    def allows(self, row: Row) -> bool:
        """Return whether a row can hold beside all that stands."""
        return -row.at_most <= self._most_against(row)

    def _most_against(self, row: Row) -> int:
        """Return the greatest value that what a row holds down can take when it is counted negative."""
        if row.form is Form.APART:
            return self._most(row.high, row.low)
        group, low, high = self._joined(row.low, row.high, mirrored=True)
        assert group.joints is not None, "a sum is held in a mirrored table"
        if row.form is Form.SUM_MOST:
            return group.most(high, mirror_of(low, group.joints))
        return group.most(mirror_of(high, group.joints), low)

    def among(self, nodes: Sequence[int]) -> tuple[Table, int | None]:
        """Return all that is allowed among the origin and some joints as one table of their own.

        Returns:
            A complete table (`setline.stages.layout.table`), index 0 the origin and then the joints in the
            order given; and their number if it is mirrored, else None.
        """
        first = nodes[0]
        for node in nodes:
            self._joined(first, node, mirrored=False)
        group = self._groups[self._of[first]]
        return group.among([self._place[node] for node in nodes]), group.joints and len(nodes)

    # Narrowing

    def add(self, row: Row) -> bool:
        """Narrow the windows by one row; False, and nothing changes, if it contradicts what stands.

        Raises:
            ValueError: As in `windows`.
        """
        if not self.allows(row):
            return False
        if row.low or row.high:
            group, _, _ = self._joined(row.low, row.high, mirrored=row.form is not Form.APART)
            if group.joints is not None:
                check_even(row)
            self.hold(row)
        return True

    def hold(self, *rows: Row) -> None:
        """Narrow the windows by rows of the same two nodes that are known to be allowed (`allows`)."""
        sums = any(row.form is not Form.APART for row in rows)
        group, low, high = self._joined(rows[0].low, rows[0].high, mirrored=sums)
        place = {rows[0].low: low, rows[0].high: high}
        for row in rows:
            arcs = arcs_of(place[row.low], place[row.high], row.at_most, row.form, group.joints)
            group = group.narrowed(arcs)
        self._groups[self._of[rows[0].low or rows[0].high]] = group

    def _joined(self, low: int, high: int, *, mirrored: bool) -> tuple[Group, int, int]:
        """Return the one group of two nodes and their indices, joining or mirroring groups where needed."""
        first, second = self._of[low or high], self._of[high or low]
        if first != second:
            self._groups[first] = self._groups[first].merged(self._groups[second])
            self._enter(first, self._groups[first])
        if mirrored:
            self._groups[first] = self._groups[first].mirrored()
        return self._groups[first], self._place[low], self._place[high]

    def nearest(self, low: int, high: int, target: int) -> int:
        """Return the value that ``x[high] - x[low]`` can take nearest to a target.

        Beside a held sum a value between two joints is even unless it is the end of its window; of two that
        are equally near, the smaller.
        """
        whole = not (low and high) or self._groups[self._of[low]].joints is None
        return _nearest(target, -self._most(high, low), self._most(low, high), whole)

    def fix(self, low: int, high: int, distance: int) -> None:
        """Hold ``x[high] - x[low]`` at a value that it can take (one that `nearest` gave)."""
        if not self._most(low, high) == distance == -self._most(high, low):
            self.hold(Row(low, high, distance), Row(high, low, -distance))

    def nearest_sum(self, low: int, high: int, target: int) -> int:
        """Return the value that ``x[low] + x[high]`` can take nearest to a target (see `nearest`)."""
        apart = self.most(low, high)
        if apart is not None and apart == self.least(low, high):
            return 2 * self.nearest(0, low, (target - apart) // 2) + apart
        most = self._most_against(Row(low, high, 0, form=Form.SUM_LEAST))
        least = -self._most_against(Row(low, high, 0, form=Form.SUM_MOST))
        return _nearest(target, least, most, whole=False)

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
        settled = self.copy()
        for node in range(1, self._nodes):
            earliest = settled.earliest(node)
            settled.fix(0, node, settled.nearest(0, node, 0) if earliest is None else earliest)
        return tuple(settled.latest(node) or 0 for node in range(self._nodes))


def _nearest(target: int, least: int, most: int, whole: bool) -> int:
    """Return the value of a window nearest to a target; inside it an even one, unless any will do."""
    if target >= most:
        return most
    if target <= least:
        return least
    return target if whole else target - target % 2
