"""Why no layout exists: the rows that cannot hold together, as few as may be, and by how much.

Rows that contradict each other close a circle of negative length. The first circle that a search meets is
arbitrary and often long; the one worth telling has the fewest pieces. It is found by lengthening all paths
one row at a time until the first comes home with less than nothing: no circle of fewer rows is negative, so
it passes no joint twice, and with any one of its pieces lifted the others can hold.

A run may be wrong in two places at once. So the softest piece of a conflict is lifted and the search repeated
until all that is left can hold: the list then tells of every trouble that shares no piece lifted before.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import gcd
from typing import NamedTuple

import numpy as np

from setline.stages.layout.row import Row
from setline.stages.layout.table import Table, arcs_of, close, empty_table, grouped

__all__ = ["Conflict", "Trouble", "conflicts"]


class Trouble(StrEnum):
    """Which way the pieces miss the room they have."""

    SHORT = "short"  # they need more than there is
    OVER = "over"  # at their greatest they leave some of it over


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Rows that cannot hold together, though they can with any one piece lifted.

    Attributes:
        rows: The rows in the order of the room, each once, from the origin if it takes part. uses: How often
        each counts. More than once only beside a held sum: a left edge counts on both sides of a
            centre. A row that gives must give the shortfall divided by this, rounded up.
        shortfall: By how much they miss, in ticks; more than 0.
        trouble: Too little room, or too much.
    """

    rows: tuple[Row, ...]
    uses: tuple[int, ...]
    shortfall: int
    trouble: Trouble

    @property
    def pieces(self) -> tuple[str, ...]:
        """The ids of its pieces in the order of the room, each once."""
        return tuple(dict.fromkeys(row.piece for row in self.rows))

    @property
    def needed(self) -> int:
        """What the pieces need together at the least (short), or fill at the most (over)."""
        used = zip(self.rows, self.uses, strict=True)
        total = sum(row.at_most * uses for row, uses in used if row.gives.is_piece)
        return -total if self.trouble is Trouble.SHORT else total

    @property
    def room(self) -> int:
        """The room they have: at the most (short), or at the least (over)."""
        return self.needed + (-self.shortfall if self.trouble is Trouble.SHORT else self.shortfall)

    @property
    def softest(self) -> str:
        """The piece that gives most readily; of equals the first in the order of the room."""
        return min(self.rows, key=lambda row: row.gives).piece


def conflicts(rows: Iterable[Row], nodes: int) -> tuple[Conflict, ...]:
    """Return every conflict among the rows, too little room before too much; empty if all can hold.

    Args:
        rows: What ought to hold.
        nodes: Number of nodes, the origin included.

    Returns:
        Conflicts, each irreducible: its rows cannot hold together, and can with any one of its pieces lifted.
        Each was found with the softest piece of all before it lifted, so two may share harder pieces only.

    Source:
        Shortest closed walks by min-plus steps; plain geometry.

    Example:
        A box of 24 and a filler of at least 2 in a niche of 25:

        >>> from setline.stages.layout.row import Gives, at_least, exactly
        >>> rows = [
        ...     at_least(0, 1, 2, "filler at least 2", "filler least", Gives.FILLER_LEAST),
        ...     *exactly(1, 2, 24, "box 24", "box", Gives.WIDTH),
        ...     *exactly(0, 2, 25, "the niche", "niche", Gives.FACT),
        ... ]
        >>> found, = conflicts(rows, 3)
        >>> found.trouble.value, found.shortfall, found.room, found.needed
        ('short', 1, 25, 26)
        >>> [row.label for row in found.rows]
        ['filler at least 2', 'box 24', 'the niche']
    """
    found: list[Conflict] = []
    for members, held in grouped(tuple(rows), nodes):
        found += _conflicts_of_group(members, held)
    return tuple(sorted(found, key=lambda conflict: conflict.trouble is Trouble.OVER))


def _conflicts_of_group(members: tuple[int, ...], rows: Sequence[Row]) -> list[Conflict]:
    """Return the conflicts of joints that hang together, lifting the softest piece of each in turn."""
    graph = _Graph(members, rows)
    found: list[Conflict] = []
    while not graph.can_hold():
        conflict = _fewest(graph)
        found.append(conflict)
        graph = graph.without(conflict.softest)
    return found


def _fewest(graph: _Graph) -> Conflict:
    """Return the conflict with the fewest pieces among rows that contradict each other.

    Beside a held sum a circle of fewest rows may count one on both sides and hide a smaller conflict; then
    the search is repeated without a piece that was not needed.
    """
    conflict = _told(graph.circle())
    while graph.joints is not None:
        own = graph.only(conflict.rows)
        smaller = (own.without(piece) for piece in conflict.pieces)
        graph = next((each for each in smaller if not each.can_hold()), own)
        if graph is own:
            break
        conflict = _told(graph.circle())
    return conflict


class _Arc(NamedTuple):
    """A row as a step of a path; mirrored rows have two."""

    tail: int
    head: int
    length: int
    row: Row


class _Graph:
    """The rows of joints that hang together, as arcs among the indices of their table."""

    __slots__ = ("_arcs", "_best", "_size", "joints")

    def __init__(self, members: Sequence[int], rows: Sequence[Row]) -> None:
        index = {node: place for place, node in enumerate(members)}
        self.joints = len(members) - 1 if any(row.form for row in rows) else None
        self._size = len(members) if self.joints is None else 2 * self.joints + 1
        self._lay(
            [
                _Arc(*arc, row)
                for row in rows
                for arc in arcs_of(index[row.low], index[row.high], row.at_most, row.form, self.joints)
            ]
        )

    def _lay(self, arcs: list[_Arc]) -> None:
        self._arcs = arcs
        self._best: dict[tuple[int, int], _Arc] = {}
        for arc in arcs:
            held = self._best.get((arc.tail, arc.head))
            if held is None or arc.length < held.length:
                self._best[arc.tail, arc.head] = arc

    def _with(self, arcs: list[_Arc]) -> _Graph:
        graph = _Graph((0,), ())
        graph.joints, graph._size = self.joints, self._size
        graph._lay(arcs)
        return graph

    def without(self, piece: str) -> _Graph:
        """Return the graph with one piece lifted."""
        return self._with([arc for arc in self._arcs if arc.row.piece != piece])

    def only(self, rows: Sequence[Row]) -> _Graph:
        """Return the graph of some of its rows."""
        return self._with([arc for arc in self._arcs if arc.row in rows])

    def can_hold(self) -> bool:
        """Return whether all rows can hold together."""
        table = empty_table(self._size)
        for (tail, head), arc in self._best.items():
            if tail != head or arc.length < 0:
                table[tail, head] = arc.length
        return close(table)

    def circle(self) -> list[_Arc]:
        """Return the negative circle of fewest arcs, head to tail, from the origin if it passes there."""
        arcs = sorted(self._best.values(), key=lambda arc: (arc.head, arc.tail))
        circle = _traced(arcs, _lengthened(arcs, self._size))
        first = min(range(len(circle)), key=lambda place: circle[place].tail)
        return circle[first:] + circle[:first]


def _lengthened(arcs: Sequence[_Arc], size: int) -> list[Table]:
    """Return the shortest paths of at most 0, 1, 2 ... arcs, until one closes a negative circle."""
    tails = np.array([arc.tail for arc in arcs])
    lengths = np.array([arc.length for arc in arcs], dtype=np.int64)
    heads, starts = np.unique([arc.head for arc in arcs], return_index=True)
    steps = [empty_table(size)]
    while not (steps[-1].diagonal() < 0).any():
        reached = np.minimum.reduceat(steps[-1][:, tails] + lengths, starts, axis=1)
        longer = steps[-1].copy()
        longer[:, heads] = np.minimum(longer[:, heads], reached)
        steps.append(longer)
        assert len(steps) <= size + 1, "a circle of more arcs than nodes passes one twice"
    return steps


def _traced(arcs: Sequence[_Arc], steps: Sequence[Table]) -> list[_Arc]:
    """Return the arcs of the negative circle that the last step closed, in their order."""
    start = node = int(steps[-1].diagonal().argmin())
    into: dict[int, list[_Arc]] = {}
    for arc in arcs:
        into.setdefault(arc.head, []).append(arc)
    circle: list[_Arc] = []
    for longer, shorter in zip(steps[:0:-1], steps[-2::-1], strict=True):
        length = longer.item(start, node)
        last = next(arc for arc in into[node] if shorter.item(start, arc.tail) + arc.length == length)
        circle.append(last)
        node = last.tail
    assert node == start, "a circle comes home"
    return circle[::-1]


def _told(circle: Sequence[_Arc]) -> Conflict:
    """Return a circle as a conflict: each row once, its sum per use, in the order of the room."""
    uses = Counter(arc.row for arc in circle)
    shared = gcd(*uses.values())
    pieces = sum(row.at_most * times for row, times in uses.items() if row.gives.is_piece)
    trouble = Trouble.OVER if pieces > 0 else Trouble.SHORT
    # "At least" rows lead from right to left, so a circle that is short is told backwards.
    told = circle if trouble is Trouble.OVER else circle[::-1]
    ordered = tuple(dict.fromkeys(arc.row for arc in told))
    return Conflict(
        rows=ordered,
        uses=tuple(uses[row] // shared for row in ordered),
        shortfall=-sum(arc.length for arc in circle) // shared,
        trouble=trouble,
    )
