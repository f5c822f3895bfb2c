"""What each kind of remedy costs: working hours, and days by the calendar that the job waits.

The numbers are common practice for two people on site and a box on order for about six weeks. A job lays its
own over them: ``trim-box-hours = 2`` or ``smaller-box-days = 10`` under its rules.
"""

from __future__ import annotations

from setline.rules.rule import RemedyKind

__all__ = ["REMEDIES"]


def _kind(key: str, what: str, hours: float, days: float = 0) -> RemedyKind:
    """Return one kind of remedy."""
    return RemedyKind(key=key, what=what, hours=hours, days=days)


REMEDIES: tuple[RemedyKind, ...] = (
    _kind("read-again", "Take a reading again.", 0.1),
    _kind("more-readings", "Take more readings.", 0.25),
    _kind("check-sheet", "Get the maker's sheet and read the size off it.", 0.25),
    _kind("raise-line", "Raise the level line and strike it anew.", 0.25),
    _kind("lower-line", "Lower the level line and strike it anew.", 0.25),
    _kind("drop-wish", "Let a wish go.", 0),
    _kind("move-pin", "Move a pinned edge or centre.", 0.25),
    _kind("shift-run", "Shift the run.", 0.25),
    _kind("narrower-filler", "Rip a filler narrower than its limit.", 0.5),
    _kind("wider-filler", "Use a wider filler, or one more.", 0.5),
    _kind("scribe-stile", "Plane or scribe a stile of the frame.", 1),
    _kind("trim-box", "Cut the foot of a box.", 1),
    _kind("packer-under-top", "Put a packer under the top.", 1),
    _kind("packer-under-appliance", "Stand an appliance on a packer.", 0.5),
    _kind("packer-under-legs", "Stand legs on a packer.", 0.5),
    _kind("trim-sill", "Trim a window's stool or apron.", 1),
    _kind("wider-kick", "Rip the toe board from a wider strip.", 0.5, 1),
    _kind("other-legs", "Fit legs of another length.", 0.5, 7),
    _kind("split-line", "Give the tops two heights, parted where an appliance breaks them.", 0.5),
    _kind("lift-set-box", "Loosen a box that is set and lift it.", 1),
    _kind("take-out-box", "Take a box that is set out again.", 1),
    _kind("cut-plaster", "Cut into the wall's plaster or board, and make it good.", 2, 1),
    _kind("ladder-base", "Build a ladder base under the low stretch.", 4, 1),
    _kind("flatten-floor", "Take the hump down, or fill the low floor, and let it cure.", 6, 2),
    _kind("smaller-box", "Order a narrower box.", 0.5, 42),
    _kind("next-stock-size", "Order the next stock size.", 0.5, 42),
)
