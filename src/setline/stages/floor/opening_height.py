"""Heights that appliances under the tops ask for: clear of the floor that is there and of the floor to come.

An opening is judged at both its sides, at the wall and at the toe line. What a machine is slid in over
counts against its least height, right at the toe line too; what it stands on counts towards its greatest,
where its feet run out. ``top of the top`` is measured to the upper face of the tops, so their thickness
comes off.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from setline.job.order import Appliance
from setline.lengths import Length, show
from setline.result import Figure, ItemKind, RunPlan
from setline.stages.floor.ground import Ground, GroundHeight
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.spoken import floor_told, height_told
from setline.wording import say

__all__ = ["OpeningPoint", "appliance_name", "opening_limits", "opening_points", "stands_under_tops"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningPoint:
    """A place at the side of an opening where the clear height counts.

    Attributes:
        appliance: What stands in the opening.
        name: ``dishwasher 21, left, at the toe line``.
        side: Left or right.
        line: At the wall or at the toe line.
        wall: The wall's letter.
        u: Along the wall. [ticks]
        out: From the wall. [ticks]
        x: In the room. [ticks]
        y: In the room. [ticks]
    """

    appliance: Appliance
    name: str
    side: Literal["left", "right"]
    line: Literal["wall", "toe"]
    wall: str
    u: int
    out: int
    x: int
    y: int


def appliance_name(appliance: Appliance) -> str:
    """Return what an appliance is called: ``dishwasher 21``."""
    return f"{appliance.name or appliance.kind} {appliance.number}"


def stands_under_tops(ground: Ground, appliance: Appliance) -> bool:
    """Return whether an appliance has a height that the tops must suit.

    One that is taller than the bases by more than their toe kick, such as most refrigerators, stands in a gap
    of the tops.
    """
    if appliance.height is None:
        return False
    tallest = ground.book.length("base-height") + ground.book.length("toe-height")
    return appliance.height.least.ticks <= tallest


def opening_points(ground: Ground, runs: Sequence[RunPlan]) -> tuple[OpeningPoint, ...]:
    """Return the places where the clear height of openings counts, in runs that are solved."""
    appliances = {each.number: each for each in ground.job.order.appliances}
    found: list[OpeningPoint] = []
    for run in runs:
        for item in run.items if run.row == "base" and run.solved else ():
            appliance = appliances.get(item.number) if item.kind is ItemKind.OPENING else None
            if appliance is None or item.left is None or item.right is None:
                continue
            if stands_under_tops(ground, appliance):
                found.extend(_points_of(ground, run.wall, appliance, item.left, item.right))
    return tuple(found)


def _points_of(
    ground: Ground, wall: str, appliance: Appliance, left: int, right: int
) -> Iterator[OpeningPoint]:
    """Yield the four places of one opening."""
    sides: tuple[tuple[Literal["left", "right"], int], ...] = (("left", left), ("right", right))
    lines: tuple[tuple[Literal["wall", "toe"], int], ...] = (("wall", 0), ("toe", ground.toe_line))
    for side, u in sides:
        for line, out in lines:
            x, y = ground.outline.to_room(wall, u, out)
            yield OpeningPoint(
                appliance=appliance,
                name=say(f"opening-point-{line}", appliance=appliance_name(appliance), side=side),
                side=side,
                line=line,
                wall=wall,
                u=u,
                out=out,
                x=x,
                y=y,
            )


def opening_limits(
    ground: Ground, points: Sequence[OpeningPoint], heights: Sequence[GroundHeight]
) -> list[Limit]:
    """Return what each appliance asks of the tops: at most one least and one greatest height each.

    Args:
        ground: The floor.
        points: The places of all openings.
        heights: The bare floor at each.
    """
    least: dict[int, Limit] = {}
    most: dict[int, Limit] = {}
    for point, height in zip(points, heights, strict=True):
        if height.bare is None or _top_thickness(ground, point.appliance) is None:
            continue
        number = point.appliance.number
        low = _limit(ground, point, height, is_least=True)
        if low is not None and (number not in least or low.at > least[number].at):
            least[number] = low
        high = _limit(ground, point, height, is_least=False)
        if high is not None and (number not in most or high.at < most[number].at):
            most[number] = high
    return [*least.values(), *most.values()]


def _top_thickness(ground: Ground, appliance: Appliance) -> int | None:
    """Return what lies between the box tops and where the height is measured to; None if it is not known."""
    if appliance.height_to == "under the top":
        return 0
    tops = ground.job.order.tops
    return None if tops is None else tops.thickness.ticks


def _limit(ground: Ground, point: OpeningPoint, height: GroundHeight, *, is_least: bool) -> Limit | None:
    """Return the least or the greatest height of the tops that one place asks for."""
    appliance, units = point.appliance, ground.job.job.tape
    assert appliance.height is not None, "only appliances with a height have places"
    wanted = appliance.height.least if is_least else appliance.height.most
    if not isinstance(wanted, Length) or height.bare is None:
        return None
    at_edge = is_least and point.line == "toe"
    over = ground.coverings.finished((point.x, point.y), at_edge=at_edge) if ground.coverings.all else 0
    top = _top_thickness(ground, appliance) or 0
    tops = height.bare + over + wanted.ticks - top
    key = "work-opening" if not top else "work-opening-top"
    step = say(
        key,
        floor=height_told(height.bare + over, units),
        wanted=show(wanted.ticks, units),
        top=show(top, units),
        tops=height_told(tops, units),
    )
    return Limit(
        kind=LimitKind.CLEAR_BELOW if is_least else LimitKind.RUN_OUT,
        owner=say("owner-clear-below" if is_least else "owner-run-out", appliance=appliance_name(appliance)),
        is_least=is_least,
        tops=Figure(
            value=tops,
            within=height.within,
            readings=ground.told(height.readings),
            working=(*floor_told(ground, point.name, height, over), step),
        ),
        number=appliance.number,
        is_general=appliance.sheet == "general, check the sheet",
    )
