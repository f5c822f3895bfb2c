"""The high spot: the bearing point that asks the tops to be highest.

With boxes of one height it is the highest bearing point, where the reading down from the laser is smallest.
A ``?`` point never counts. A box on legs bears at the height it was ordered at, its legs at their nominal
height.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from setline.lengths import show
from setline.result import Figure, HighSpot, ShimKind
from setline.stages.floor.bearing import Stood, trim_cap
from setline.stages.floor.ground import Ground
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.spoken import floor_told, height_told
from setline.wording import say

__all__ = ["floor_figure", "foot_limits", "highest", "spot_of"]


OWNERS = {
    LimitKind.HIGH_SPOT: "owner-high-spot",
    LimitKind.LEGS_IN: "owner-legs-in",
    LimitKind.LEGS_OUT: "owner-legs-out",
}


def highest(stood: Sequence[Stood]) -> Stood | None:
    """Return the bearing point that asks for the highest tops, the first of equals; None without a number."""
    known = [each for each in stood if each.z is not None]
    return max(known, key=lambda each: _asked(each, each.at.nominal), default=None)


def _asked(stood: Stood, thickness: int) -> int:
    """Return where the tops come with so much under a point that has a number."""
    assert stood.z is not None, f"{stood.at.name} has no number"
    return stood.at.tops_over(stood.z, thickness)


def floor_figure(ground: Ground, stood: Stood) -> Figure:
    """Return the floor that a box stands on at a bearing point, as a figure; ``?`` has no value."""
    if stood.z is None or stood.ground.bare is None:
        return Figure(value=None, within=stood.ground.within, readings=ground.told(stood.ground.readings))
    return Figure(
        value=stood.z,
        within=stood.ground.within,
        readings=ground.told(stood.ground.readings),
        rule="as-read-within" if stood.ground.as_read else "nearest-reading",
        working=floor_told(ground, stood.at.name, stood.ground, stood.z - stood.ground.bare),
    )


def spot_of(ground: Ground, stood: Stood) -> HighSpot:
    """Return a bearing point as the high spot."""
    at = stood.at
    return HighSpot(
        point=at.name, wall=at.wall, u=at.u, out=at.out, x=at.x, y=at.y, height=floor_figure(ground, stood)
    )


def foot_limits(ground: Ground, stood: Sequence[Stood]) -> list[Limit]:
    """Return what the feet of the boxes ask of the tops: the high spot, and the range of the legs."""
    found: list[Limit] = []
    high = highest(stood)
    if high is not None:
        limit = _limit(ground, high, LimitKind.HIGH_SPOT, high.at.nominal, is_least=True)
        found.append(replace(limit, may_trim=_gained_by_trim(ground, stood, high)))
    legs = [each for each in stood if each.z is not None and each.at.kind is ShimKind.LEG]
    if any(each.at.least for each in legs):
        least = max(legs, key=lambda each: _asked(each, each.at.least))
        found.append(_limit(ground, least, LimitKind.LEGS_IN, least.at.least, is_least=True))
    ranged = [(each, each.at.most) for each in legs if each.at.most is not None]
    if ranged:
        most, out = min(ranged, key=lambda pair: _asked(*pair))
        found.append(_limit(ground, most, LimitKind.LEGS_OUT, out, is_least=False))
    return found


def _gained_by_trim(ground: Ground, stood: Sequence[Stood], high: Stood) -> int:
    """Return how far the high spot's limit comes down if its box is trimmed as far as it may be."""
    box = next((each for each in ground.job.order.boxes if each.number == high.at.box), None)
    if box is None:
        return 0
    nxt = highest([each for each in stood if each.at.box != high.at.box])
    cap = trim_cap(ground, box)
    if nxt is None:
        return cap
    return min(cap, _asked(high, high.at.nominal) - _asked(nxt, nxt.at.nominal))


def _limit(ground: Ground, stood: Stood, kind: LimitKind, thickness: int, *, is_least: bool) -> Limit:
    """Return the limit that one bearing point sets with so much under it."""
    floor, at, units = floor_figure(ground, stood), stood.at, ground.job.job.tape
    tops = _asked(stood, thickness)
    key = "work-foot" if not thickness else "work-leg"
    step = say(
        key,
        height=height_told(tops - thickness + at.foot, units),
        foot=show(-at.foot, units),
        leg=show(thickness, units),
        tops=height_told(tops, units),
    )
    return Limit(
        kind=kind,
        owner=say(OWNERS[kind], point=at.name),
        is_least=is_least,
        tops=Figure(
            value=tops,
            within=floor.within,
            readings=floor.readings,
            rule=floor.rule,
            working=(*floor.working, step),
        ),
        number=at.box,
    )
