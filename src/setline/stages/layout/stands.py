"""Where a box stands that is set: both its frame's edges as facts of the layout, and what each rests on."""

from __future__ import annotations

from dataclasses import dataclass

from setline.job.record import SetBox
from setline.result import Figure

__all__ = ["Stands"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """Where a set box stands.

    Attributes:
        left: Its left joint, with what it rests on.
        right: Its right joint.
        read_left: The left edge of its frame as it was read at this box itself, or None.
        read_right: The same on the right.
        asked: The width it was measured or ordered at. [ticks]
        record: What was recorded of it.
    """

    left: Figure
    right: Figure
    read_left: Figure | None
    read_right: Figure | None
    asked: int
    record: SetBox

    @property
    def left_at(self) -> int:
        """U of its left joint. [ticks]."""
        assert self.left.value is not None, "a set box stands somewhere"
        return self.left.value

    @property
    def right_at(self) -> int:
        """U of its right joint. [ticks]."""
        assert self.right.value is not None, "a set box stands somewhere"
        return self.right.value
