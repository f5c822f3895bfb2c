"""What the toe kick leaves: where its space grows taller than its strip and what a shoe moulding hides."""

from __future__ import annotations

from collections.abc import Sequence

from setline.lengths import show
from setline.result import Figure, ShimKind
from setline.stages.floor.bearing import Stood
from setline.stages.floor.ground import Ground
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.spoken import floor_told, height_told
from setline.wording import say

__all__ = ["kick_limits"]


def kick_limits(ground: Ground, stood: Sequence[Stood]) -> list[Limit]:
    """Return how high the tops may come before a toe space outgrows its strip: the lowest front point counts.

    The toe space reaches from the box's kick down to the finished floor, with what comes after the boxes.
    """
    boxes = {box.number: box for box in ground.job.order.boxes}
    usual, allowed = ground.book.length("toe-height"), _tallest(ground)
    asked: list[tuple[int, int, int, Stood]] = []
    for each in stood:
        if each.at.is_front and each.at.box is not None and each.ground.bare is not None:
            own = boxes[each.at.box].toe_height
            toe = usual if own is None else own.ticks
            over = (
                ground.coverings.finished((each.at.x, each.at.y), at_edge=True) if ground.coverings.all else 0
            )
            under = each.at.foot + (0 if each.at.kind is ShimKind.LEG else toe)
            asked.append((each.ground.bare + over + allowed - under, over, under, each))
    if not asked:
        return []
    tops, over, under, lowest = min(asked, key=lambda row: row[0])
    units = ground.job.job.tape
    assert lowest.ground.bare is not None, "only points with a number were asked"
    step = say(
        "work-kick",
        floor=height_told(lowest.ground.bare + over, units),
        allowed=show(allowed, units),
        under=show(-under, units),
        tops=height_told(tops, units),
    )
    return [
        Limit(
            kind=LimitKind.KICK,
            owner=say("owner-kick", point=lowest.at.name),
            is_least=False,
            tops=Figure(
                value=tops,
                within=lowest.ground.within,
                readings=ground.told(lowest.ground.readings),
                rule="kick-reserve",
                working=(*floor_told(ground, lowest.at.name, lowest.ground, over), step),
            ),
            number=lowest.at.box,
        )
    ]


def _tallest(ground: Ground) -> int:
    """Return the tallest toe space that strip and shoe moulding cover, in ticks."""
    return ground.book.length("kick-stock-height") + ground.book.length("kick-reserve")
