"""How little must give: the least total by which rows of one kind have to be relaxed so that a layout exists.

Reporting the shortfall of a conflict as its cure is wrong where two conflicts meet: a pin moved to mend the
one may make the other worse. So the relaxation is solved as a whole: each row that may give reads ``x[high] -
x[low] <= at_most + e``, and the sum of all ``e`` is least. Its dual sends flow round negative circles: a row
that may give carries at most its price, one that may not carries any amount. The flow is found by successive
shortest paths, one row that gives at a time, in whole numbers; the places are its potentials, so they are
whole too.

With held sums (`setline.stages.layout.row.Form`) each row becomes two mirrored arcs and the place of a joint
is half the difference of its two potentials. Lengths are doubled meanwhile, so that this half is taken
exactly; where it ends between two ticks, what gives is rounded up to the next (beside a held sum, even) tick.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from setline.stages.layout.circulation import Circulation
from setline.stages.layout.row import Form, Row
from setline.stages.layout.table import arcs_of, mirror_of
from setline.stages.layout.windows import windows

__all__ = ["Relaxation", "least_relaxation"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxation:
    """The least relaxation that lets all rows hold, solved again to prove it.

    Attributes:
        given: Each row that gives, with by how much, in the order of the rows.
        total: Their sum in ticks; 0 if nothing has to give.
        rows: All rows with ``at_most`` relaxed where they give, in their order.
        places: One place for every node that satisfies those rows.
    """

    given: tuple[tuple[Row, int], ...]
    total: int
    rows: tuple[Row, ...]
    places: tuple[int, ...]


def least_relaxation(
    rows: Iterable[Row], nodes: int, may_give: Callable[[Row], int | None]
) -> Relaxation | None:
    """Return the least total by which rows that may give must be relaxed, or None if that is not enough.

    Args:
        rows: What ought to hold. Where several relaxations cost the same, rows given first give first.
        nodes: Number of nodes, the origin included.
        may_give: By how much a row may give at most: 0 for not at all, None for no limit. [ticks]

    Returns:
        The relaxation, or None: then these rows alone do not make a layout possible.

    Source:
        Linear programming duality; minimum cost flow by successive shortest paths.

    Example:
        A box of 24 and a filler of at least 2 in a niche of 25:

        >>> from setline.stages.layout.row import Gives, at_least, exactly
        >>> rows = [
        ...     at_least(0, 1, 2, "filler at least 2", "filler least", Gives.FILLER_LEAST),
        ...     *exactly(1, 2, 24, "box 24", "box", Gives.WIDTH),
        ...     *exactly(0, 2, 25, "the niche", "niche", Gives.FACT),
        ... ]
        >>> cure = least_relaxation(rows, 3, lambda row: None if row.gives is Gives.FILLER_LEAST else 0)
        >>> [(row.label, by) for row, by in cure.given], cure.places
        ([('filler at least 2', 1)], (0, 1, 25))
    """
    rows = tuple(rows)
    network = _Network(nodes, mirrored=any(row.form for row in rows))
    flow = Circulation(network.size)
    for number, row in enumerate(rows):
        limit = network.whole(row, may_give(row))
        for tail, head, length in network.arcs(row):
            if limit != 0:
                flow.let_give(tail, head, length, _DEAR + number)
            if limit is not None:
                flow.hold(tail, head, length + network.scale * limit)
    return _proved(rows, nodes, network.given(rows, flow.places)) if flow.solve() else None


_DEAR = 1 << 64
"""Price of a tick. The rows' numbers are added to it: too little to tell but between equal totals."""


def _proved(rows: tuple[Row, ...], nodes: int, given: list[int]) -> Relaxation:
    """Return a relaxation with its rows solved again."""
    relaxed = tuple(row._replace(at_most=row.at_most + by) for row, by in zip(rows, given, strict=True))
    seen = windows(relaxed, nodes)
    assert seen is not None, "rows relaxed as far as the places need can hold"
    return Relaxation(
        given=tuple((row, by) for row, by in zip(rows, given, strict=True) if by),
        total=sum(given),
        rows=relaxed,
        places=seen.places(),
    )


class _Network:
    """How nodes and rows stand in the flow: as they are, or mirrored and at twice their length."""

    __slots__ = ("_joints", "scale", "size")

    def __init__(self, nodes: int, *, mirrored: bool) -> None:
        self._joints = nodes - 1 if mirrored else None
        self.scale = 2 if mirrored else 1
        self.size = 2 * nodes - 1 if mirrored else nodes

    def arcs(self, row: Row) -> list[tuple[int, int, int]]:
        """Return the arcs of a row."""
        arcs = arcs_of(row.low, row.high, row.at_most, row.form, self._joints)
        return [(tail, head, self.scale * length) for tail, head, length in arcs]

    def whole(self, row: Row, limit: int | None) -> int | None:
        """Return a limit as it can be used: even for a row between two joints beside a held sum."""
        odd = limit is not None and limit % 2 and self._joints is not None and row.low and row.high
        return limit - 1 if limit is not None and odd else limit

    def given(self, rows: Iterable[Row], places: Sequence[int]) -> list[int]:
        """Return by how much each row gives, from the places of the network's nodes."""
        joints = self._joints
        if joints is None:
            return [max(0, places[row.high] - places[row.low] - row.at_most) for row in rows]
        twice = [(places[node] - places[mirror_of(node, joints)]) // 2 for node in range(joints + 1)]
        return [self._rounded(row, _left_side(row, twice) - 2 * row.at_most) for row in rows]

    def _rounded(self, row: Row, twice_given: int) -> int:
        """Return what a row gives in ticks, rounded up to where places are whole."""
        step = 2 if row.low and row.high else 1
        return max(0, -(-twice_given // (2 * step)) * step)


def _left_side(row: Row, places: Sequence[int]) -> int:
    """Return what a row holds below its ``at_most``, at given places."""
    if row.form is Form.APART:
        return places[row.high] - places[row.low]
    total = places[row.high] + places[row.low]
    return total if row.form is Form.SUM_MOST else -total
