"""What lies over the bases and limits how high their tops may come: ceiling, window sills, tops that stay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.job.readings import CeilingSpot, ceiling_spots, height_z
from setline.job.room import Window
from setline.lengths import show
from setline.result import Figure, ItemKind, ItemPlace, RunPlan
from setline.stages.floor.bearing import trim_cap
from setline.stages.floor.ground import Ground, GroundHeight
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.spoken import floor_told, height_told
from setline.wording import say

__all__ = ["ceiling_limits", "sill_limits", "standing_top_limits", "tall_boxes", "unread_ceilings"]


def tall_boxes(ground: Ground, runs: Sequence[RunPlan]) -> list[tuple[RunPlan, ItemPlace]]:
    """Return the tall boxes that have a place, each once."""
    tall = {box.number for box in ground.job.order.boxes if box.kind == "tall"}
    found: dict[int, tuple[RunPlan, ItemPlace]] = {}
    for run in runs:
        for item in run.items:
            has_place = item.body_left is not None and item.body_right is not None
            if item.number in tall and run.solved and has_place:
                found.setdefault(item.number, (run, item))
    return list(found.values())


def ceiling_limits(ground: Ground, runs: Sequence[RunPlan]) -> list[Limit]:
    """Return for each tall box how high the tops may come before it meets the lowest ceiling read near it."""
    clearance, units = ground.book.length("ceiling-clearance"), ground.job.job.tape
    boxes = {box.number: box for box in ground.job.order.boxes}
    found: list[Limit] = []
    for run, item in tall_boxes(ground, runs):
        low = _lowest_ceiling(ground, run, item)
        if low is None or low.z is None:
            continue
        tops = low.z - clearance - item.top
        step = say(
            "work-ceiling",
            ceiling=height_told(low.z, units),
            clearance=show(clearance, units),
            over=show(item.top, units),
            tops=height_told(tops, units),
        )
        found.append(
            Limit(
                kind=LimitKind.CEILING,
                owner=say("owner-ceiling", box=item.number),
                is_least=False,
                tops=Figure(
                    value=tops,
                    readings=(f"{low.address}: {low.typed}",),
                    rule="ceiling-clearance",
                    working=(step,),
                ),
                number=item.number,
                may_trim=trim_cap(ground, boxes[item.number]),
            )
        )
    return found


def unread_ceilings(ground: Ground, runs: Sequence[RunPlan]) -> list[tuple[RunPlan, ItemPlace]]:
    """Return the tall boxes that no ceiling reading lies near."""
    return [
        (run, item) for run, item in tall_boxes(ground, runs) if _lowest_ceiling(ground, run, item) is None
    ]


def _lowest_ceiling(ground: Ground, run: RunPlan, item: ItemPlace) -> CeilingSpot | None:
    """Return the lowest ceiling reading within ``nearest-reading`` of a box's outline."""
    reach = ground.book.length("nearest-reading")
    near = [
        spot
        for spot in ceiling_spots(ground.job)
        if spot.z is not None and _square_off(ground, run, item, spot) <= reach**2
    ]
    return min(near, key=lambda spot: spot.z or 0, default=None)


def _square_off(ground: Ground, run: RunPlan, item: ItemPlace, spot: CeilingSpot) -> int:
    """Return the square of how far a ceiling reading lies off a box's outline, seen from above."""
    left, right = item.body_left or 0, item.body_right or 0
    u, out = ground.outline.from_room(run.wall, *ground.outline.to_room(spot.wall, spot.u, spot.out))
    along = max(left - u, u - right, 0)
    across = max(-out, out - item.depth, 0)
    return along * along + across * across


def sill_limits(ground: Ground, runs: Sequence[RunPlan]) -> list[Limit]:
    """Return for each window over a base run how high the tops may come under its sill."""
    windows = list(_windows_over_bases(ground, runs))
    spots = [ground.outline.to_room(wall, u, 0) for wall, u, _ in windows]
    found: list[Limit] = []
    for (wall, u, window), height in zip(windows, ground.heights(spots), strict=True):
        limit = _sill_limit(ground, ground.outline.to_room(wall, u, 0), window, height)
        if limit is not None:
            found.append(limit)
    return found


def _windows_over_bases(ground: Ground, runs: Sequence[RunPlan]) -> Iterator[tuple[str, int, Window]]:
    """Yield the windows with a sill that stand over items of a base run: wall, middle, window."""
    for wall in ground.job.room.walls:
        for window in wall.windows:
            edges = [each.ticks for each in (window.left, window.centre, window.right) if each is not None]
            if window.sill is None or not edges:
                continue
            if any(_is_under(run, wall.name, min(edges), max(edges)) for run in runs):
                yield wall.name, (min(edges) + max(edges)) // 2, window


def _is_under(run: RunPlan, wall: str, left: int, right: int) -> bool:
    """Return whether a base run of that wall has a box or an opening under a stretch of it."""
    if run.row != "base" or run.wall != wall:
        return False
    places = [item for item in run.items if item.kind in (ItemKind.BOX, ItemKind.OPENING)]
    return any(
        item.left is not None and item.right is not None and item.left < right and left < item.right
        for item in places
    )


def _sill_limit(ground: Ground, spot: tuple[int, int], window: Window, height: GroundHeight) -> Limit | None:
    """Return how high the tops may come under one sill, or None where its zero is not known."""
    assert window.sill is not None, "only windows with a sill are asked"
    units, bare = ground.job.job.tape, height.bare
    over = ground.coverings.in_the_room(spot)
    finished = None if bare is None else bare + over
    sill = height_z(window.sill, ground.job, subfloor=bare, finished=finished)
    if sill is None:
        return None
    clearance = ground.book.length("sill-clearance")
    top = ground.job.order.tops.thickness.ticks if ground.job.order.tops is not None else 0
    tops = sill - clearance - top
    from_floor = window.sill.zero in ("subfloor", "finished floor")
    covered = over if window.sill.zero == "finished floor" else 0
    told = floor_told(ground, say("at-window", window=window.name), height, covered) if from_floor else ()
    step = say(
        "work-sill",
        sill=height_told(sill, units),
        clearance=show(clearance, units),
        top=show(top, units),
        tops=height_told(tops, units),
    )
    return Limit(
        kind=LimitKind.SILL,
        owner=say("owner-sill", window=window.name),
        is_least=False,
        tops=Figure(
            value=tops,
            within=height.within if from_floor else None,
            readings=ground.told(height.readings) if from_floor else (),
            rule="sill-clearance",
            working=(*told, step),
        ),
    )


def standing_top_limits(ground: Ground) -> list[Limit]:
    """Return for each top that stays the one height that lines up with it, as a least and a greatest."""
    existing = [each for each in ground.job.order.existing if each.top is not None and each.row == "base"]
    spots = [
        ground.outline.to_room(each.wall, (each.left.ticks + each.right.ticks) // 2, 0) for each in existing
    ]
    tops = ground.job.order.tops
    thickness, units = 0 if tops is None else tops.thickness.ticks, ground.job.job.tape
    found: list[Limit] = []
    for each, spot, height in zip(existing, spots, ground.heights(spots), strict=True):
        assert each.top is not None, "only tops with a height are asked"
        finished = None if height.bare is None else height.bare + ground.coverings.in_the_room(spot)
        face = height_z(each.top, ground.job, subfloor=height.bare, finished=finished)
        if face is None:
            continue
        step = say(
            "work-standing-top",
            face=height_told(face, units),
            top=show(thickness, units),
            tops=height_told(face - thickness, units),
        )
        for is_least in (True, False):
            found.append(
                Limit(
                    kind=LimitKind.STANDING_TOP,
                    owner=say("owner-standing-top", name=each.name, number=each.number),
                    is_least=is_least,
                    tops=Figure(value=face - thickness, working=(step,)),
                    number=each.number,
                )
            )
    return found
