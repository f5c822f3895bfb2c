"""Marks on whole steps of the tape: as many as can be, of those that matter.

A mark stands on a whole step if its joint's place plus an offset (a box's overhang, or where the tape hooks)
is a multiple of the step. Whether a given set of marks can all stand so needs no trying of values: among
joints that all stand on steps, "at most 3 7/32" is the same as "at most 3 3/16", so each path between two of
them is rounded down to steps, and they can if and only if no circle of rounded paths is negative. A negative
circle names marks of which at least one must be let go. So the search is only over which one, and ends at the
fewest.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from setline.stages.layout.exclusion import most_together
from setline.stages.layout.row import Form
from setline.stages.layout.table import FAR, NO_PATH, Table, arcs_of, close, mirror_of, tightened
from setline.stages.layout.windows import Windows

__all__ = ["WholeMark", "lay_on_steps"]


class WholeMark(NamedTuple):
    """A mark that ought to stand on a whole step.

    Attributes:
        node: Its joint.
        offset: What to add to the joint's place to have the mark's, counted from where steps count. [ticks]
        wanted: Where its joint ought to stand, among places on whole steps. [ticks]
    """

    node: int
    offset: int
    wanted: int


def lay_on_steps(seen: Windows, marks: Sequence[WholeMark], step: int) -> tuple[bool, ...]:
    """Lay as many marks as can be on whole steps, each as near to where it is wanted; the windows narrow.

    Args:
        seen: What is allowed (rows that say how far things may be moved for this included); afterwards, with
            every joint held whose mark lies on a step.
        marks: First the one that counts most: of equally many the earlier are kept, and they are laid first.
        step: What they are to be multiples of, such as 1/16 in. [ticks]

    Returns:
        For each mark whether it lies on a whole step; joints of those that do not are left as they were.

    Source:
        Difference constraints over multiples of a step: round each shortest path down. With held sums,
        tightening after Bagnara, Hill and Zaffanella.

    Example:
        Two edges 7 apart in a window of 3 to 21, on whole tens: only one can be.

        >>> from setline.stages.layout.row import Row
        >>> from setline.stages.layout.windows import windows
        >>> seen = windows([Row(1, 0, -3), Row(0, 2, 21), Row(1, 2, 7), Row(2, 1, -7)], 3)
        >>> lay_on_steps(seen, [WholeMark(1, 0, 5), WholeMark(2, 0, 12)], 10), seen.places()
        ((True, False), (0, 10, 17))
    """
    if not marks:
        return ()
    table, joints = seen.copy().among([mark.node for mark in marks])
    steps = _Steps(_in_steps(table, marks, step, joints), len(marks), joints is not None)
    kept = steps.most_kept()
    counts = steps.nearest([_wanted(marks[number], step) for number in kept], kept)
    for number, count in zip(kept, counts, strict=True):
        seen.fix(0, marks[number].node, count * step - marks[number].offset)
    return tuple(number in kept for number in range(len(marks)))


def _wanted(mark: WholeMark, step: int) -> int:
    """Return the number of steps nearest to where a mark is wanted; of two, the greater."""
    return (2 * (mark.wanted + mark.offset) + step) // (2 * step)


def _in_steps(table: Table, marks: Sequence[WholeMark], step: int, joints: int | None) -> Table:
    """Return a table of paths among marks that all stand on steps, counted in steps."""
    offsets = [0, *(mark.offset for mark in marks)]
    if joints is not None:
        offsets += [-mark.offset for mark in marks]
    shift = np.array(offsets, dtype=np.int64)
    counted: Table = (table + shift[None, :] - shift[:, None]) // step
    return np.where(table < NO_PATH, counted, FAR)


class _Steps:
    """Which marks can stand on whole steps together, and where."""

    def __init__(self, table: Table, marks: int, mirrored: bool) -> None:
        self._table = table
        self._marks = marks
        self._mirrored = mirrored
        apart = table + table.T < 0
        self._foes = [
            {other for other in range(marks) if apart[number + 1, other + 1]} for number in range(marks)
        ]
        for number, foes in enumerate(self._foes):
            if self._closed([number]) is None:
                foes.add(number)

    def _closed(self, kept: Sequence[int]) -> Table | None:
        """Return the complete table of some marks, or None if they cannot all stand on steps."""
        places = [0, *(number + 1 for number in kept)]
        if self._mirrored:
            places += [number + 1 + self._marks for number in kept]
        table = self._table[np.ix_(places, places)]
        if not close(table):
            return None
        if self._mirrored:
            table = _whole_halves(table)
        return None if (table.diagonal() < 0).any() else table

    def most_kept(self) -> list[int]:
        """Return the most marks that can all stand on steps; of equally many, with the earlier ones."""
        return most_together(self._foes, lambda kept: self._closed(kept) is not None)

    def nearest(self, wanted: Sequence[int], kept: Sequence[int]) -> list[int]:
        """Return the step of each kept mark: the first as near as can be to its wanted one, then the next."""
        table = self._closed(kept)
        assert table is not None, "marks that are kept can stand on steps"
        counts = []
        for place, count in enumerate(wanted, start=1):
            count = max(-table.item(place, 0), min(count, table.item(0, place)))
            joints = len(kept) if self._mirrored else None
            for low, high, length in ((0, place, count), (place, 0, -count)):
                for arc in arcs_of(low, high, length, Form.APART, joints):
                    table = tightened(table, *arc)
            if self._mirrored:
                table = _whole_halves(table)
            counts.append(count)
        return counts


def _whole_halves(table: Table) -> Table:
    """Return a mirrored table in which each joint's bound, half a path to its mirror, is a whole number."""
    joints = len(table) // 2
    mirrors = [mirror_of(place, joints) for place in range(len(table))]
    halves = table[mirrors, range(len(table))] // 2
    table = table.copy()
    table[0] = np.minimum(table[0], halves)
    table[:, 0] = np.minimum(table[:, 0], halves[mirrors])
    return tightened(table, 0, 0, 0)
