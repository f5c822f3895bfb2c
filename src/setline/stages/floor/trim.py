"""Ways to live with a floor that falls too far, as a trade-off table.

Where a shim is over the limit, the line has to come down or the low boxes need something better to stand on:

* *trim* the boxes at the high end. Lowered by t, a box whose least shim is s needs t - s cut off its foot:
sorted
  once, that is the whole curve from one box to many. What an order forbids caps it.
* a *ladder base* under the low stretch;
* *split the line* at an appliance that breaks the tops: each part stands on its own high spot;
* *flatten* the high spot.

No row lowers the tops past another limit of the band.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from setline.lengths import Rounding, mark_step, round_to, shim_step, show
from setline.result import FallOption, RunPlan, ShimKind
from setline.stages.floor.bearing import Stood, trim_cap
from setline.stages.floor.ground import Ground
from setline.stages.floor.limit import Limit, LimitKind
from setline.stages.floor.split import parts_of_the_tops
from setline.wording import say

__all__ = ["Fall", "fall_of", "fall_options"]

MOST_TRIM_ROWS = 3  # of the curve; the last lowers the line as far as it can


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """How a floor falls under the boxes, as the shims that the line asks for.

    Attributes:
        shims: Box number (None in an unsolved run) and thickness at each point that takes shims, with its
            name.
        limit: Greatest shim that is right. [ticks]
        room: How far the tops may come down before another limit of the band stops them; None for no limit.
    """

    shims: tuple[tuple[int | None, int, str], ...]
    limit: int
    room: int | None

    @property
    def greatest(self) -> int:
        """The greatest shim, 0 without any. [ticks]."""
        return max((thickness for _, thickness, _ in self.shims), default=0)

    @property
    def over(self) -> tuple[str, ...]:
        """Names of the points over the limit."""
        return tuple(name for _, thickness, name in self.shims if thickness > self.limit)

    def least_of_each(self) -> dict[int | None, int]:
        """Return the least shim under each box: its own high spot stands there."""
        least: dict[int | None, int] = {}
        for box, thickness, _ in self.shims:
            least[box] = min(thickness, least.get(box, thickness))
        return least


def fall_of(ground: Ground, stood: Sequence[Stood], tops: int | None, limits: Sequence[Limit]) -> Fall:
    """Return how the floor falls under the boxes that stand on shims.

    Args:
        ground: The floor, for its rules.
        stood: The bearing points.
        tops: The height of the tops, or None where there is no line. [ticks]
        limits: What sets least and greatest heights of the tops: none but the high spot's may be passed.
    """
    lows = [each.at for each in limits if each.is_least and each.kind is not LimitKind.HIGH_SPOT]
    shims = (
        []
        if tops is None
        else [
            (each.at.box, each.at.thickness(tops, each.z), each.at.name)
            for each in stood
            if each.z is not None and each.at.kind in (ShimKind.SHIM, ShimKind.LADDER)
        ]
    )
    return Fall(
        shims=tuple(shims),
        limit=ground.book.length("shim-limit"),
        room=max(0, tops - max(lows)) if lows and tops is not None else None,
    )


def fall_options(ground: Ground, fall: Fall, runs: Sequence[RunPlan]) -> tuple[FallOption, ...]:
    """Return the trade-off table, by waiting days, then hours; empty where no shim is over the limit."""
    if not fall.over:
        return ()
    options = [
        *_trims(ground, fall),
        *_ladder(ground, fall),
        *_split(ground, fall, runs),
        *_flatten(ground, fall),
    ]
    return tuple(sorted(options, key=lambda each: (each.days, each.hours, each.greatest_shim)))


def _needed(ground: Ground, fall: Fall) -> int:
    """Return how far the line has to come down, in whole steps of the line."""
    return round_to(fall.greatest - fall.limit, mark_step(ground.job.job.tape), Rounding.UP)


def _trims(ground: Ground, fall: Fall) -> Iterator[FallOption]:
    """Yield rows of the trim curve: one more box each, up to what is needed or allowed."""
    least, step = fall.least_of_each(), mark_step(ground.job.job.tape)
    boxes = {box.number: box for box in ground.job.order.boxes}
    caps = {number: trim_cap(ground, boxes[number]) if number is not None else 0 for number in least}
    farthest = min(least[number] + caps[number] for number in least)
    limits = [_needed(ground, fall), farthest, *([] if fall.room is None else [fall.room])]
    most = round_to(min(limits), step, Rounding.DOWN)
    breaks = {round_to(shim, step, Rounding.DOWN) for shim in least.values()}
    lowerings = [*sorted(lower for lower in breaks if 0 < lower < most), most]
    for lowered in [each for each in lowerings if each > 0][-MOST_TRIM_ROWS:]:
        row = _trim_row(ground, fall, least, lowered)
        if row.trims:
            yield row


def _trim_row(ground: Ground, fall: Fall, least: dict[int | None, int], lowered: int) -> FallOption:
    """Return the row that lowers the line so far."""
    units, cost = ground.job.job.tape, ground.book.remedy("trim-box")
    trims = {
        number: round_to(lowered - shim, shim_step(units), Rounding.UP)
        for number, shim in least.items()
        if number is not None and shim < lowered
    }
    left = max(shim - lowered + trims.get(box or 0, 0) for box, shim, _ in fall.shims)
    told = ", ".join(
        say("trim-one", box=number, amount=show(amount, units)) for number, amount in trims.items()
    )
    return FallOption(
        what=say("option-trim", lowered=show(lowered, units), trims=told),
        lowered=lowered,
        greatest_shim=left,
        trims=tuple(trims.items()),
        hours=cost.hours * len(trims),
        days=cost.days,
        kind="trim-box",
    )


def _ladder(ground: Ground, fall: Fall) -> Iterator[FallOption]:
    """Yield the row of a ladder base under every box with a shim over the limit, unless it has one."""
    low = {box for box, shim, _ in fall.shims if shim > fall.limit and box is not None}
    have = {box.number for box in ground.job.order.boxes if box.support == "ladder base"}
    if not low or low & have:
        return
    cost = ground.book.remedy("ladder-base")
    yield FallOption(
        what=say(
            "option-ladder" if len(low) > 1 else "option-ladder-one",
            boxes=", ".join(str(number) for number in sorted(low)),
        ),
        lowered=0,
        greatest_shim=max((shim for box, shim, _ in fall.shims if box not in low), default=0),
        trims=(),
        hours=cost.hours,
        days=cost.days,
        kind="ladder-base",
    )


def _split(ground: Ground, fall: Fall, runs: Sequence[RunPlan]) -> Iterator[FallOption]:
    """Yield the row of the best place to split the line, if splitting helps at all."""
    units, cost = ground.job.job.tape, ground.book.remedy("split-line")
    step, best = mark_step(units), None
    for place, parts in parts_of_the_tops(ground, runs):
        lowered, greatest = 0, 0
        for part in parts:
            own = [shim for box, shim, _ in fall.shims if box in part]
            down = round_to(min(own, default=0), step, Rounding.DOWN)
            down = max(0, down if fall.room is None else min(down, round_to(fall.room, step, Rounding.DOWN)))
            lowered, greatest = max(lowered, down), max(greatest, max(own, default=0) - down)
        if lowered and (best is None or greatest < best.greatest_shim):
            best = FallOption(
                what=say("option-split", place=place, lowered=show(lowered, units)),
                lowered=lowered,
                greatest_shim=greatest,
                trims=(),
                hours=cost.hours,
                days=cost.days,
                kind="split-line",
            )
    if best is not None and best.greatest_shim < fall.greatest:
        yield best


def _flatten(ground: Ground, fall: Fall) -> Iterator[FallOption]:
    """Yield the row of taking the floor down at every bearing point that stands too high."""
    units, cost = ground.job.job.tape, ground.book.remedy("flatten-floor")
    needed = _needed(ground, fall)
    lowered = (
        needed if fall.room is None else min(needed, round_to(fall.room, mark_step(units), Rounding.DOWN))
    )
    high = [name for _, shim, name in fall.shims if shim < lowered]
    if lowered <= 0 or not high:
        return
    yield FallOption(
        what=say(
            "option-flatten",
            count=len(high),
            first=high[0],
            deepest=show(lowered - min(shim for _, shim, _ in fall.shims), units),
            lowered=show(lowered, units),
        ),
        lowered=lowered,
        greatest_shim=fall.greatest - lowered,
        trims=(),
        hours=cost.hours,
        days=cost.days,
        kind="flatten-floor",
    )
