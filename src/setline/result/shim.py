"""What goes under each bearing point."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from setline.result.figure import Figure

__all__ = ["Shim", "ShimKind"]


class ShimKind(StrEnum):
    """What takes up the height at a bearing point."""

    SHIM = "shim"
    LEG = "leg"
    LADDER = "ladder base"
    LEDGER = "ledger"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shim:
    """What goes under one bearing point.

    Attributes:
        name: ``3 back-left``.
        box: The box's number.
        corner: ``back-left``, ``front-right`` or, for more points along a side, ``left 12`` (its out).
        kind: Shim, leg, ladder base or ledger.
        wall: The wall's letter.
        u: Along the wall.
        out: From the wall.
        x: In the room.
        y: In the room.
        thickness: The exact thickness, or a leg's height; of a ledger, how far its upper edge lies below
            the level line. None prints ``?``.
        printed: The same in ticks after the one rounding, or None.
        stack: Shims on the truck that make it up, thickest first; empty for legs, ledgers, ``?``, and a
            thickness over the limit, which is blocked.
        over_limit: Whether it is more than the job's limit (block it, or see the options), or a leg out of
            its range.
        is_high_spot: Whether the box rests on the high spot here.
        remainder: What the shims on the truck leave of ``printed``; 0 where they make it up.
        is_done: Whether its box is set: what lies under it is not asked for again.
    """

    name: str
    box: int
    corner: str
    kind: ShimKind
    wall: str
    u: int
    out: int
    x: int
    y: int
    thickness: Figure
    printed: int | None
    stack: tuple[int, ...] = ()
    over_limit: bool = False
    is_high_spot: bool = False
    remainder: int = 0
    is_done: bool = False
