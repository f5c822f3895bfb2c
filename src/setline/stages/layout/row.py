"""A row: one thing that must hold between two places of a run.

Places are nodes. Node 0 is the origin and stands at 0; every other node is a joint whose place is sought, a
whole number of ticks. A row of the usual form says ``x[high] - x[low] <= at_most``. So

* "filler at most 3" between its left joint 4 and right joint 5 is ``Row(4, 5, 3 in)``;
* "filler at least 3/4" is ``x[5] - x[4] >= 3/4``, which is ``Row(5, 4, -3/4 in)``;
* "left edge at 43 3/8" is two rows against node 0.

The functions below turn them the right way round. "No limit" is no row. Nothing here knows a cabinet but the
words of `Gives`, which say how readily a thing gives.

Two joints may also be held by their *sum*: the centre of an item whose width may vary, ``x[left] + x[right] =
2 c`` (`centred`). Where such a row stands, the rows between two joints it is coupled with count in even
ticks, so that all places are whole; every typed length is even, and so is its half. Rows against node 0 may
be any.
"""

from __future__ import annotations

from enum import IntEnum
from typing import NamedTuple

__all__ = ["Form", "Gives", "Row", "at_least", "at_most", "centred", "exactly"]


class Gives(IntEnum):
    """What kind of thing a row is, softest first: the order in which things are lifted and asked to give."""

    FILLER_LEAST = 0
    FILLER_MOST = 1
    WISH = 2
    PIN = 3
    WINDOW_MOST = 4
    WINDOW_LEAST = 5
    WIDTH = 6
    FACT = 7

    @property
    def is_piece(self) -> bool:
        """Whether it speaks of the size of a piece (the rest speaks of the room that pieces have)."""
        return self not in _ROOM


_ROOM = frozenset((Gives.WISH, Gives.PIN, Gives.FACT))


class Form(IntEnum):
    """How a row joins its two nodes."""

    APART = 0  # x[high] - x[low] <= at_most
    SUM_MOST = 1  # x[high] + x[low] <= at_most
    SUM_LEAST = 2  # -(x[high] + x[low]) <= at_most


class Row(NamedTuple):
    """One thing that must hold between two nodes; a plain tuple, since they are made by the hundred.

    Attributes:
        low: Node that is taken away (0 is the origin).
        high: Node that is counted.
        at_most: Greatest ``x[high] - x[low]`` in ticks; negative for "at least".
        label: What to call it in the sentence of a conflict, such as ``scribe filler at least 3/4``.
        piece: Joins the rows of one quantity, such as ``filler 21 least``: they are lifted together.
        gives: What kind of thing it is.
        form: `Form.APART` for the above, or one of the two forms that hold a sum.
    """

    low: int
    high: int
    at_most: int
    label: str = ""
    piece: str = ""
    gives: Gives = Gives.FACT
    form: Form = Form.APART


def at_most(left: int, right: int, most: int, label: str, piece: str, gives: Gives) -> Row:
    """Return the row that holds ``right`` at most ``most`` to the right of ``left``."""
    return Row(left, right, most, label, piece, gives)


def at_least(left: int, right: int, least: int, label: str, piece: str, gives: Gives) -> Row:
    """Return the row that holds ``right`` at least ``least`` to the right of ``left``.

    Example:
        >>> at_least(4, 5, 48768, "filler at least 3/4", "filler 21 least", Gives.FILLER_LEAST).at_most
        -48768
    """
    return Row(right, left, -least, label, piece, gives)


def exactly(left: int, right: int, distance: int, label: str, piece: str, gives: Gives) -> tuple[Row, Row]:
    """Return the two rows that hold ``right`` exactly so far right of ``left``, as a box does."""
    return Row(left, right, distance, label, piece, gives), Row(right, left, -distance, label, piece, gives)


def centred(left: int, right: int, twice: int, label: str, piece: str, gives: Gives) -> tuple[Row, Row]:
    """Return the two rows that hold the middle of two joints: ``x[left] + x[right] = twice``.

    Only for an item whose width may vary; one of fixed width ``w`` is pinned by its edge, `exactly` at ``c -
    w/2``.

    Args:
        left: Left joint.
        right: Right joint.
        twice: Twice the place of the centre, in ticks; even.
        label: Words for it.
        piece: Id of the quantity.
        gives: What kind of thing it is.
    """
    return (
        Row(left, right, twice, label, piece, gives, Form.SUM_MOST),
        Row(left, right, -twice, label, piece, gives, Form.SUM_LEAST),
    )
