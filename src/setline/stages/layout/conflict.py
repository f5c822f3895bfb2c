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
from setline.stages.layout.table import FAR, Table, arcs_of, empty_table, grouped
from setline.stages.layout.windows import windows

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
    rows = tuple(rows)
    if windows(rows, nodes) is not None:
        return ()
    found: list[Conflict] = []
    parts = grouped(rows, nodes)
    for members, held in parts:
        stands = len(parts) > 1 and windows(held, nodes) is not None
        while not stands:
            found.append(_fewest(members, held, nodes))
            held = _without(held, found[-1].softest)
            stands = windows(held, nodes) is not None
    return tuple(sorted(found, key=lambda conflict: conflict.trouble is Trouble.OVER))


def _without(rows: Iterable[Row], piece: str) -> list[Row]:
    return [row for row in rows if row.piece != piece]


def _fewest(members: Sequence[int], rows: list[Row], nodes: int) -> Conflict:
    """Return the conflict with the fewest pieces among rows of some joints that contradict each other.

    Beside a held sum a circle of fewest rows may count one on both sides and hide a smaller conflict; then
    the search is repeated without a piece that was not needed.
    """
    has_sums = any(row.form for row in rows)
    while True:
        conflict = _told(_circle(members, rows))
        if not has_sums:
            return conflict
        smaller = (_without(conflict.rows, piece) for piece in conflict.pieces)
        idle = next((rest for rest in smaller if windows(rest, nodes) is None), None)
        if idle is None:
            return conflict
        rows = idle


class _Arc(NamedTuple):
    """A row as a step of a path; beside a held sum it is two."""

    head: int
    tail: int
    length: int
    row: Row


def _circle(members: Sequence[int], rows: Sequence[Row]) -> list[_Arc]:
    """Return the negative circle of fewest arcs, head to tail, from the origin if it passes there."""
    index = {node: place for place, node in enumerate(members)}
    joints = len(members) - 1 if any(row.form for row in rows) else None
    best: dict[tuple[int, int], tuple[int, Row]] = {}
    for row in rows:
        for tail, head, length in arcs_of(index[row.low], index[row.high], row.at_most, row.form, joints):
            if length < best.get((head, tail), (FAR, row))[0]:
                best[head, tail] = length, row
    arcs = [_Arc(*pair, *best[pair]) for pair in sorted(best)]
    circle = _traced(arcs, _lengthened(arcs, len(members) if joints is None else 2 * joints + 1))
    first = min(range(len(circle)), key=lambda place: circle[place].tail)
    return circle[first:] + circle[:first]


def _lengthened(arcs: Sequence[_Arc], size: int) -> list[Table]:
    """Return the shortest paths of at most 0, 1, 2 ... arcs, until one closes a negative circle."""
    heads = [arc.head for arc in arcs]
    starts = [place for place, head in enumerate(heads) if not place or head != heads[place - 1]]
    tails = np.array([arc.tail for arc in arcs])
    lengths = np.array([arc.length for arc in arcs], dtype=np.int64)
    reached = np.array([heads[start] for start in starts])
    steps = [empty_table(size)]
    while min(steps[-1].diagonal().tolist()) >= 0:
        longer = np.minimum.reduceat(steps[-1].take(tails, axis=1) + lengths, starts, axis=1)
        table = steps[-1].copy()
        table[:, reached] = np.minimum(table.take(reached, axis=1), longer)
        steps.append(table)
        assert len(steps) <= size + 1, "a circle of more arcs than nodes passes one twice"
    return steps


def _traced(arcs: Sequence[_Arc], steps: Sequence[Table]) -> list[_Arc]:
    """Return the arcs of the negative circle that the last step closed, in their order."""
    start = node = int(steps[-1].diagonal().argmin())
    from_start = [table[start].tolist() for table in steps]
    circle: list[_Arc] = []
    for longer, shorter in zip(from_start[:0:-1], from_start[-2::-1], strict=True):
        last = next(
            arc for arc in arcs if arc.head == node and shorter[arc.tail] + arc.length == longer[node]
        )
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
