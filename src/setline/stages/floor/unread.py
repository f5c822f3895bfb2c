"""Which readings to take where a number prints as ``?``: one finding a stretch of floor, not one a point."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Rounding, Units, round_to, show
from setline.result import Finding, Rank, Remedy
from setline.stages.floor.bearing import Bearing, Stood
from setline.stages.floor.ground import Ground, GroundHeight
from setline.stages.floor.opening_height import OpeningPoint, appliance_name
from setline.wording import say

__all__ = ["Unread", "unread_bearings", "unread_findings", "unread_openings"]

MOST_NAMED = 4  # points called by name in one sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    """A point whose number prints as ``?``.

    Attributes:
        name: What it belongs to, such as ``box 3's right side``.
        wall: The wall's letter.
        u: Along the wall. [ticks]
        is_front: Whether it lies nearer to the toe line than to the wall.
        too_far: Whether for want of a near reading, rather than for doubt.
        within: Half the 95 % range there, where the surface has one. [ticks]
        may_rise: How far above the line's foot the floor may stand there, at the upper 95 % end; 0 or less
            if it cannot. None without any reading. [ticks]
    """

    name: str
    wall: str
    u: int
    is_front: bool
    too_far: bool
    within: int | None
    may_rise: int | None


def unread_bearings(stood: Sequence[Stood], tops: int | None) -> list[Unread]:
    """Return the bearing points that print as ``?``.

    Args:
        stood: The bearing points.
        tops: The height of the tops, if there is one. [ticks]
    """
    return [
        Unread(
            name=_side_of(each.at),
            wall=each.at.wall,
            u=each.at.u,
            is_front=each.at.is_front,
            too_far=each.ground.too_far,
            within=each.ground.within,
            may_rise=_rise(each.guess, each.ground.within, tops, each.at.nominal - each.at.foot),
        )
        for each in stood
        if each.z is None
    ]


def _side_of(at: Bearing) -> str:
    """Return which side of which box a point belongs to; the two points of a side are told together."""
    _, _, side = at.corner.partition("-")
    return say("side-of-box", box=at.box, side=side) if side in ("left", "right") else at.name


def unread_openings(
    ground: Ground, points: Sequence[OpeningPoint], heights: Sequence[GroundHeight], tops: int | None
) -> list[Unread]:
    """Return the places at openings whose floor prints as ``?``."""
    found: list[Unread] = []
    for point, height in zip(points, heights, strict=True):
        if height.bare is not None:
            continue
        assert point.appliance.height is not None, "only appliances with a height have places"
        over = ground.coverings.finished((point.x, point.y), at_edge=point.line == "toe")
        top = ground.job.order.tops
        lower = 0 if point.appliance.height_to == "under the top" or top is None else top.thickness.ticks
        needs = over + point.appliance.height.least.ticks - lower
        found.append(
            Unread(
                name=say("side-of-opening", appliance=appliance_name(point.appliance), side=point.side),
                wall=point.wall,
                u=point.u,
                is_front=point.line == "toe",
                too_far=height.too_far,
                within=height.within,
                may_rise=_rise(height.guess, height.within, tops, needs),
            )
        )
    return found


def _rise(guess: int | None, within: int | None, tops: int | None, needs: int) -> int | None:
    """Return how far above the line the tops would be asked for at the upper 95 % end of a floor."""
    if guess is None or within is None or tops is None:
        return None
    return guess + within + needs - tops


def unread_findings(ground: Ground, unread: Sequence[Unread]) -> list[Finding]:
    """Return one finding a stretch: *decide* where the floor may stand above the line, else *watch*."""
    return [_finding(ground, stretch) for stretch in _stretches(ground, unread)]


def _stretches(ground: Ground, unread: Sequence[Unread]) -> Iterator[list[Unread]]:
    """Yield the points of each stretch of a wall that one more reading or a row of them would cure."""
    apart = 2 * ground.book.length("nearest-reading")
    order = sorted(unread, key=lambda each: (each.wall, each.u))
    stretch: list[Unread] = []
    for each in order:
        if stretch and (each.wall != stretch[-1].wall or each.u - stretch[-1].u > apart):
            yield stretch
            stretch = []
        stretch.append(each)
    if stretch:
        yield stretch


def _finding(ground: Ground, stretch: Sequence[Unread]) -> Finding:
    """Return the finding of one stretch."""
    units, book = ground.job.job.tape, ground.book
    rises = [each.may_rise for each in stretch if each.may_rise is not None and each.may_rise > 0]
    wanted = _wanted(ground, stretch)
    if all(each.too_far for each in stretch):
        why = say("unread-far", points=_named(stretch), distance=show(book.length("nearest-reading"), units))
    else:
        worst = max((each.within or 0 for each in stretch), default=0)
        why = say(
            "unread-doubt",
            points=_named(stretch),
            within=_fine(worst, units),
            limit=show(book.length("doubt-limit"), units),
        )
    risk = say("unread-may-rise", rise=_fine(max(rises), units)) if rises else ""
    cost = book.remedy("more-readings")
    return Finding(
        code="high-spot-unread" if rises else "not-read",
        rank=Rank.DECIDE if rises else Rank.WATCH,
        where=_where(stretch, units),
        text=" ".join(part for part in (why, risk, wanted) if part),
        by_how_much=max(rises) if rises else None,
        rule="nearest-reading",
        remedies=(Remedy(kind="more-readings", text=wanted, hours=cost.hours, days=cost.days),),
    )


def _where(stretch: Sequence[Unread], units: Units) -> str:
    """Return a stretch as a place: ``A 64``, or ``A 64 to 88``."""
    first, last = _tidy(stretch[0].u, units), _tidy(stretch[-1].u, units)
    key = "at-u" if first == last else "from-u-to-u"
    return say(key, wall=stretch[0].wall, first=first, last=last)


def _fine(ticks: int, units: Units) -> str:
    """Return a doubt rounded up to what a rule shows."""
    step = TICKS_PER_INCH // 16 if units is Units.INCH else TICKS_PER_MM
    return show(round_to(ticks, step, Rounding.UP), units)


def _tidy(u: int, units: Units) -> str:
    """Return a place along a wall to the nearest inch or centimetre, as one walks to it."""
    step = TICKS_PER_INCH if units is Units.INCH else 10 * TICKS_PER_MM
    return show(round_to(u, step, Rounding.NEAREST_DOWN), units)


def _named(stretch: Sequence[Unread]) -> str:
    """Return the points of a stretch by name, or how many there are between the first and the last."""
    names = list(dict.fromkeys(each.name for each in stretch))
    if len(names) > MOST_NAMED:
        return say("points-between", count=len(names), first=names[0], last=names[-1])
    return names[0] if len(names) == 1 else say("and", first=", ".join(names[:-1]), last=names[-1])


def _wanted(ground: Ground, stretch: Sequence[Unread]) -> str:
    """Return which readings to take: as few places as reach every point, wall or toe line or both."""
    units, reach = ground.job.job.tape, ground.book.length("nearest-reading")
    places: list[int] = []
    us = sorted({each.u for each in stretch})
    while us:
        chosen = max(u for u in us if u <= us[0] + reach)
        places.append(chosen)
        us = [u for u in us if u > chosen + reach]
    fronts = {each.is_front for each in stretch}
    line = say("line-both" if len(fronts) == 2 else "line-toe" if True in fronts else "line-wall")
    told = list(dict.fromkeys(f"{stretch[0].wall} {_tidy(u, units)}" for u in places))
    spots = told[0] if len(told) == 1 else say("and", first=", ".join(told[:-1]), last=told[-1])
    return say("read-spots", spots=spots, line=line)
