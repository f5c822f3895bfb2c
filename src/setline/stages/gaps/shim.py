"""What goes under each bearing point: shims, legs, a ladder base's shims, or a ledger on the wall.

Every number is from the one line, never from the box beside it: tops less the box's own height less the
floor. It is exact, and rounded once for print. A leg is given by its height, a ledger by how far its upper
edge lies below the level line, where the floor does not count.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from setline.job.job import Job
from setline.lengths import Rounding, round_to, shim_step, show
from setline.result import Figure, Finding, Rank, Remedy, Shim, ShimKind
from setline.rules import RuleBook
from setline.stages.floor.bearing import Bearing, Stood
from setline.stages.floor.find_level import FloorResult
from setline.stages.floor.high_spot import floor_figure
from setline.stages.floor.spoken import height_told
from setline.stages.gaps.stack import Stack, make_up
from setline.wording import say

__all__ = ["Shims", "shim_all"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shims:
    """What goes under every box.

    Attributes:
        shims: Box by box, left to right.
        findings: Legs out of their range, shims that the truck cannot make up, points above the line; none of
            boxes that are set.
    """

    shims: tuple[Shim, ...]
    findings: tuple[Finding, ...]


def shim_all(job: Job, book: RuleBook, result: FloorResult) -> Shims:
    """Return what goes under every bearing point; a run that is not solved has none.

    Args:
        job: The job.
        book: Its rules.
        result: The floor and the line.
    """
    stock = tuple(each.ticks for each in job.truck.shims) or book.lengths("shim-stock")
    make = cache(lambda thickness: make_up(thickness, stock))
    stood = {id(each.at): each for each in result.stood}
    shims: list[Shim] = []
    for bearing in result.bearings:
        if bearing.box is None:
            continue
        if bearing.kind is ShimKind.LEDGER:
            shims.append(_ledger(job, result, bearing))
        else:
            shims.append(_shim(job, book, result, stood[id(bearing)], make))
    done = {each.box for each in job.record.set}
    told = [replace(shim, is_done=True) if shim.box in done else shim for shim in shims]
    to_do = [shim for shim in told if not shim.is_done]
    return Shims(shims=tuple(told), findings=tuple(_findings(job, book, to_do)))


def _ledger(job: Job, result: FloorResult, at: Bearing) -> Shim:
    """Return the ledger under one back corner: its upper edge carries the box along the wall."""
    units, below, clearance = job.job.tape, -at.foot, result.level_line.clearance
    step = say(
        "work-ledger",
        below=show(below, units),
        clearance=show(clearance, units),
        strike=show(below + clearance, units),
    )
    return _made(
        at,
        Figure(value=below, working=(step,)),
        printed=round_to(below, shim_step(units), Rounding.NEAREST_UP),
    )


def _shim(job: Job, book: RuleBook, result: FloorResult, stood: Stood, make: Callable[[int], Stack]) -> Shim:
    """Return what goes under one bearing point on the floor."""
    at, tops, units = stood.at, result.level_line.tops.value, job.job.tape
    figure = _thickness(job, result, stood)
    if figure.value is None:
        return _made(at, figure, printed=None)
    printed = round_to(figure.value, shim_step(units), Rounding.NEAREST_UP)
    if at.kind is ShimKind.LEG:
        out = figure.value < at.least or (at.most is not None and figure.value > at.most)
        return _made(at, figure, printed=printed, over_limit=out)
    over = figure.value > book.length("shim-limit")
    stack = Stack(pieces=(), remainder=0) if over else make(printed)
    high = result.level_line.high_spot
    rests = high is not None and high.point == at.name and tops is not None
    return _made(at, figure, printed=printed, over_limit=over, stack=stack, is_high_spot=rests)


def _made(
    at: Bearing,
    thickness: Figure,
    *,
    printed: int | None,
    over_limit: bool = False,
    stack: Stack | None = None,
    is_high_spot: bool = False,
) -> Shim:
    """Return what goes under a bearing point, with its place."""
    assert at.box is not None, f"{at.name} carries no box"
    return Shim(
        name=at.name,
        box=at.box,
        corner=at.corner,
        kind=at.kind,
        wall=at.wall,
        u=at.u,
        out=at.out,
        x=at.x,
        y=at.y,
        thickness=thickness,
        printed=printed,
        stack=() if stack is None else stack.pieces,
        over_limit=over_limit,
        is_high_spot=is_high_spot,
        remainder=0 if stack is None else stack.remainder,
    )


def _thickness(job: Job, result: FloorResult, stood: Stood) -> Figure:
    """Return the exact thickness under one point with what it rests on; no value where it is ``?``."""
    floor, at, units = floor_figure(result.ground, stood), stood.at, job.job.tape
    tops = result.level_line.tops.value
    if floor.value is None or tops is None:
        why = say("work-unread" if floor.value is None else "work-no-line")
        return Figure(
            value=None, within=floor.within, readings=floor.readings, rule="nearest-reading", working=(why,)
        )
    value = at.thickness(tops, floor.value)
    step = say(
        "work-leg-height" if at.kind is ShimKind.LEG else "work-shim",
        tops=height_told(tops, units),
        box=show(-at.foot, units),
        foot=height_told(tops + at.foot, units),
        floor=height_told(floor.value, units),
        thickness=show(value, units),
    )
    return Figure(
        value=value,
        within=floor.within,
        readings=floor.readings,
        rule=floor.rule,
        working=(*floor.working, step),
    )


def _findings(job: Job, book: RuleBook, shims: Sequence[Shim]) -> Iterator[Finding]:
    """Yield what the crew must know of the shims as a whole."""
    yield from _legs_out_of_range(job, book, [each for each in shims if each.kind is ShimKind.LEG])
    on_shims = [each for each in shims if each.kind in (ShimKind.SHIM, ShimKind.LADDER)]
    yield from _too_high(job, book, on_shims)
    yield from _not_made_up(job, on_shims)


def _legs_out_of_range(job: Job, book: RuleBook, legs: Sequence[Shim]) -> Iterator[Finding]:
    """Yield the legs that cannot be turned to the height they need."""
    units, out = job.job.tape, [each for each in legs if each.over_limit]
    if not out:
        return
    told = ", ".join(f"{each.name} {show(each.printed or 0, units)}" for each in out)
    cost = book.remedy("packer-under-legs")
    yield Finding(
        code="leg-out-of-range",
        rank=Rank.DECIDE,
        where=out[0].name,
        text=say("leg-out-of-range", legs=told),
        readings=tuple(dict.fromkeys(address for each in out for address in each.thickness.readings)),
        remedies=(Remedy(kind="packer-under-legs", text=say("pack-legs"), hours=cost.hours, days=cost.days),),
    )


def _too_high(job: Job, book: RuleBook, shims: Sequence[Shim]) -> Iterator[Finding]:
    """Yield the boxes whose foot comes below the floor at a line that holds already, and how much to cut."""
    units, worst = job.job.tape, dict[int, Shim]()
    for each in shims:
        if (each.thickness.value or 0) < 0:
            lower = worst.get(each.box, each)
            worst[each.box] = min(lower, each, key=lambda shim: shim.thickness.value or 0)
    if not worst:
        return
    cost = book.remedy("trim-box")
    told = ", ".join(
        say("trim-one", box=number, amount=show(-(each.printed or 0), units))
        for number, each in worst.items()
    )
    deepest = max(-(each.thickness.value or 0) for each in worst.values())
    yield Finding(
        code="box-below-floor",
        rank=Rank.DECIDE,
        where=next(iter(worst.values())).name,
        text=say("box-below-floor", boxes=told),
        by_how_much=deepest,
        rule="trim-limit",
        remedies=(
            Remedy(
                kind="trim-box",
                text=say("trim-them", boxes=told),
                amount=deepest,
                hours=cost.hours * len(worst),
                days=cost.days,
            ),
        ),
    )


def _not_made_up(job: Job, shims: Sequence[Shim]) -> Iterator[Finding]:
    """Yield the thicknesses that the shims on the truck do not make up."""
    units, left = job.job.tape, [each for each in shims if each.remainder]
    if not left:
        return
    told = ", ".join(f"{each.name} {show(each.printed or 0, units)}" for each in left)
    yield Finding(
        code="shims-do-not-make-up",
        rank=Rank.WATCH,
        where=left[0].name,
        text=say(
            "shims-do-not-make-up",
            points=told,
            remainder=show(max(each.remainder for each in left), units),
        ),
        by_how_much=max(each.remainder for each in left),
        rule="shim-stock",
    )
