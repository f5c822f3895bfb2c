"""What the crew must know of the level line: what sets it, what it cannot suit, what hangs on the fall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.lengths import show
from setline.result import Band, BandLimit, FallOption, Figure, Finding, Rank, Remedy, RunPlan
from setline.stages.floor.band import Choice
from setline.stages.floor.changes import agreed_change, trim_changes
from setline.stages.floor.ground import Ground
from setline.stages.floor.level_line import FixedLine
from setline.stages.floor.limit import LimitKind
from setline.stages.floor.overhead import unread_ceilings
from setline.stages.floor.relax import cheapest
from setline.stages.floor.spoken import amount_told, height_told
from setline.stages.floor.trim import Fall
from setline.wording import say

__all__ = ["ceiling_findings", "choice_findings", "fall_findings", "fixed_line_findings", "no_line_findings"]


def no_line_findings(ground: Ground, *, bears: bool) -> list[Finding]:
    """Return that there is nothing to set a line by, where boxes wait for one.

    Args:
        ground: The floor.
        bears: Whether anything bears on the floor at all.
    """
    if not bears:
        return []
    empty = ground.model is None
    cost = ground.book.remedy("more-readings")
    ask = say("read-first-spots")
    return [
        Finding(
            code="no-floor-reading" if empty else "no-bearing-read",
            rank=Rank.STOP,
            where=say("the-line"),
            text=say("no-floor-reading" if empty else "no-bearing-read"),
            rule="nearest-reading",
            remedies=(Remedy(kind="more-readings", text=ask, hours=cost.hours, days=cost.days),),
        )
    ]


def choice_findings(ground: Ground, band: Band, choice: Choice) -> list[Finding]:
    """Return who must decide: something other than the high spot sets the line, or no line suits all."""
    units = ground.job.job.tape
    if band.is_empty:
        return [_no_line_fits(ground, band, choice)]
    if choice.by.kind is LimitKind.HIGH_SPOT or not choice.above_high_spot:
        return []
    owner = band.limits[0]
    cost = ground.book.remedy("raise-line")
    line, amount = height_told(choice.tops, units), show(choice.above_high_spot, units)
    keep = Remedy(
        kind="raise-line",
        text=say("relax-raise-line", line=line, amount=amount),
        amount=choice.above_high_spot,
        hours=cost.hours,
        days=cost.days,
        change=tuple(agreed_change(ground, choice.tops)),
    )
    return [
        Finding(
            code="line-above-high-spot",
            rank=Rank.DECIDE,
            where=say("the-line"),
            text=say(
                "line-above-high-spot",
                owner=owner.owner,
                amount=amount,
                line=line,
                alone=height_told(choice.tops - choice.above_high_spot, units),
            ),
            by_how_much=choice.above_high_spot,
            readings=owner.tops.readings,
            rule=owner.tops.rule,
            remedies=cheapest((keep, *owner.remedies)),
        )
    ]


def _no_line_fits(ground: Ground, band: Band, choice: Choice) -> Finding:
    """Return the finding that the band is empty: what conflicts, by how much, and the cheapest way out."""
    units = ground.job.job.tape
    low = next(each for each in band.limits if each.is_least)
    high = next(each for each in band.limits if not each.is_least)
    assert band.lowest is not None, "an empty band has a least height"
    assert band.highest is not None, "an empty band has a greatest height"
    short = band.lowest - band.highest
    remedies = cheapest(list({each.text: each for each in (*low.remedies, *high.remedies)}.values()))
    text = say(
        "no-line-fits",
        low=low.owner,
        lowest=height_told(band.lowest, units),
        high=high.owner,
        highest=height_told(band.highest, units),
        short=amount_told(short, units),
        line=height_told(choice.tops, units),
    )
    if remedies:
        text = f"{text} {say('cheapest-way', way=remedies[0].text)}"
    return Finding(
        code="no-line-fits",
        rank=Rank.STOP,
        where=say("the-line"),
        text=text,
        by_how_much=short,
        readings=tuple(dict.fromkeys((*low.tops.readings, *high.tops.readings))),
        rule=high.tops.rule or low.tops.rule,
        remedies=remedies,
    )


def fixed_line_findings(ground: Ground, band: Band, fixed: FixedLine) -> list[Finding]:
    """Return what stands against a line that holds already: no tie to it, or limits that it passes."""
    if fixed.tops is None:
        cost = ground.book.remedy("read-again")
        tie = say("tie-set-up", set_up=fixed.set_up)
        return [
            Finding(
                code="line-not-tied",
                rank=Rank.STOP,
                where=fixed.name,
                text=say("line-not-tied", line=fixed.name, set_up=fixed.set_up),
                remedies=(Remedy(kind="read-again", text=tie, hours=cost.hours, days=cost.days),),
            )
        ]
    return [_passed(ground, limit, fixed, fixed.tops) for limit in _limits_passed(band, fixed.tops)]


def _limits_passed(band: Band, tops: int) -> list[BandLimit]:
    """Return the limits that a height of the tops passes, the worst on each side."""
    low = next((each for each in band.limits if each.is_least and (each.tops.value or tops) > tops), None)
    high = next(
        (each for each in band.limits if not each.is_least and (each.tops.value or tops) < tops), None
    )
    return [each for each in (low, high) if each is not None]


def _passed(ground: Ground, limit: BandLimit, fixed: FixedLine, tops: int) -> Finding:
    """Return the finding that a line which holds already passes one limit."""
    units = ground.job.job.tape
    assert limit.tops.value is not None, "only limits with a number are passed"
    by = abs(limit.tops.value - tops)
    way = "raise-line" if limit.is_least else "lower-line"
    cost = ground.book.remedy(way)
    anew = say("relax-strike-anew", line=fixed.name, to=height_told(limit.tops.value, units))
    return Finding(
        code="line-too-low" if limit.is_least else "line-too-high",
        rank=Rank.STOP,
        where=fixed.name,
        text=say(
            "line-too-low" if limit.is_least else "line-too-high",
            line=fixed.name,
            by=amount_told(by, units),
            owner=limit.owner,
        ),
        by_how_much=by,
        readings=limit.tops.readings,
        rule=limit.tops.rule,
        remedies=cheapest(
            (Remedy(kind=way, text=anew, amount=by, hours=cost.hours, days=cost.days), *limit.remedies)
        ),
    )


def fall_findings(ground: Ground, fall: Fall, options: Sequence[FallOption]) -> list[Finding]:
    """Return that the floor falls too far under the boxes, with the trade-off table as ways out."""
    if not fall.over:
        return []
    units = ground.job.job.tape
    worst = max(fall.shims, key=lambda row: row[1])
    return [
        Finding(
            code="floor-falls-too-far",
            rank=Rank.DECIDE,
            where=worst[2],
            text=say(
                "floor-falls-too-far" if len(fall.over) > 1 else "one-shim-too-thick",
                point=worst[2],
                shim=amount_told(worst[1], units),
                limit=show(fall.limit, units),
                count=len(fall.over),
            ),
            by_how_much=worst[1] - fall.limit,
            rule="shim-limit",
            remedies=tuple(_as_remedy(ground, option) for option in options),
        )
    ]


def _as_remedy(ground: Ground, option: FallOption) -> Remedy:
    """Return a row of the trade-off table as a way out."""
    units = ground.job.job.tape
    left = say("option-leaves", option=option.what, greatest=amount_told(option.greatest_shim, units))
    return Remedy(
        kind=option.kind,
        text=left,
        amount=option.lowered,
        hours=option.hours,
        days=option.days,
        change=tuple(trim_changes(ground, option)),
    )


def ceiling_findings(ground: Ground, runs: Sequence[RunPlan]) -> Iterator[Finding]:
    """Yield the tall boxes that no ceiling reading lies near."""
    units, cost = ground.job.job.tape, ground.book.remedy("more-readings")
    for run, item in unread_ceilings(ground, runs):
        middle = ((item.body_left or 0) + (item.body_right or 0)) // 2
        ask = say("read-ceiling", wall=run.wall, u=show(middle, units))
        yield Finding(
            code="ceiling-not-read",
            rank=Rank.WATCH,
            where=f"{run.name} {item.number}",
            text=say(
                "ceiling-not-read",
                box=item.number,
                distance=show(ground.book.length("nearest-reading"), units),
                ask=ask,
            ),
            rule="ceiling-clearance",
            remedies=(Remedy(kind="more-readings", text=ask, hours=cost.hours, days=cost.days),),
        )


def line_figure(ground: Ground, choice: Choice | None) -> Figure:
    """Return the height of the tops as the band chose it, with how it was rounded."""
    if choice is None:
        return Figure(value=None, working=(say("work-no-line"),))
    units, asked = ground.job.job.tape, choice.by.tops
    step = say(
        "work-rounded" if choice.tops != choice.by.at else "work-whole",
        owner=choice.by.owner,
        tops=height_told(choice.tops, units),
    )
    return Figure(
        value=choice.tops,
        within=asked.within,
        readings=asked.readings,
        rule=asked.rule,
        working=(*asked.working, step),
    )
