"""Which edge each mark of a run stands at, before anybody knows where.

A mark stands at the joint where two frames touch or where no box stands. Beside anything else it stands at
the box's body, because that is the edge that meets the wall, while the frame's edge hangs in the air before
it.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from setline.result import Edge, ItemKind
from setline.stages.layout.items import Item

__all__ = ["MarkPlace", "mark_places"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPlace:
    """Which edge a joint's mark stands at.

    Attributes:
        edge: The joint, or a box's body edge.
        box: The box whose body edge it is, if it is one.
        offset: From the joint to the mark along u. [ticks]
        left: The item left of the joint, or None at the left end.
        right: The item right of it, or None at the right end.
        is_fine: Whether it ought to lie on a whole step: it bounds an opening or a pinned item.
    """

    edge: Edge
    box: Item | None
    offset: int
    left: Item | None
    right: Item | None
    is_fine: bool

    @property
    def opening_left(self) -> bool:
        """Whether an opening lies left of it."""
        return self.left is not None and self.left.kind is ItemKind.OPENING

    @property
    def opening_right(self) -> bool:
        """Whether an opening lies right of it."""
        return self.right is not None and self.right.kind is ItemKind.OPENING


def mark_places(items: Sequence[Item], pinned: Collection[int]) -> tuple[MarkPlace, ...]:
    """Return the place of every mark of a run, left to right.

    Args:
        items: The run's items.
        pinned: Numbers of the items pinned by an edge or a centre.
    """
    pairs = zip((None, *items), (*items, None), strict=True)
    return tuple(_mark_place(left, right, pinned) for left, right in pairs)


def _mark_place(left: Item | None, right: Item | None, pinned: Collection[int]) -> MarkPlace:
    """Return the place of the mark between two items."""
    box, offset = None, 0
    left_is_box = left is not None and left.is_box
    right_is_box = right is not None and right.is_box
    if left is not None and left_is_box and not right_is_box:
        box, offset = left, -left.overhang_right
    elif right is not None and right_is_box and not left_is_box:
        box, offset = right, right.overhang_left
    beside = [item for item in (left, right) if item is not None]
    return MarkPlace(
        edge=Edge.JOINT if box is None else Edge.BODY,
        box=box,
        offset=offset,
        left=left,
        right=right,
        is_fine=any(item.kind is ItemKind.OPENING or item.number in pinned for item in beside),
    )
