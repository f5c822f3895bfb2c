"""What the crew must know of their floor readings: too few, none across the depth, two that disagree."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.lengths import show
from setline.result import Finding, Rank, Remedy, RunPlan
from setline.stages.floor.ground import Ground
from setline.stages.floor.opening_height import OpeningPoint, appliance_name, stands_under_tops
from setline.wording import say

__all__ = ["reading_findings"]


def reading_findings(
    ground: Ground, runs: Sequence[RunPlan], openings: Sequence[OpeningPoint]
) -> list[Finding]:
    """Return what is wanting in the readings themselves.

    Args:
        ground: The floor.
        runs: The runs as laid out.
        openings: Where the height of openings counts.
    """
    if ground.model is None:
        return []
    return [
        *_few(ground),
        *_none_across(ground, runs),
        *_that_disagree(ground),
        *_covering_unknown(ground, openings),
        *_top_unknown(ground, runs),
    ]


def _more(ground: Ground, text: str) -> tuple[Remedy, ...]:
    """Return the remedy of taking more readings."""
    cost = ground.book.remedy("more-readings")
    return (Remedy(kind="more-readings", text=text, hours=cost.hours, days=cost.days),)


def _few(ground: Ground) -> Iterator[Finding]:
    """Yield that the readings are few."""
    enough, count = int(ground.book.number("few-readings")), len(ground.readings)
    if count < enough:
        yield Finding(
            code="few-readings",
            rank=Rank.WATCH,
            where=say("the-floor"),
            text=say("few-readings", count=count, enough=enough),
            by_how_much=None,
            rule="few-readings",
            remedies=_more(ground, say("more-readings", count=enough - count)),
        )


def _none_across(ground: Ground, runs: Sequence[RunPlan]) -> Iterator[Finding]:
    """Yield the walls whose boxes stand on a slope that no reading crosses: all lie on one line."""
    reach = ground.book.length("nearest-reading")
    for wall in dict.fromkeys(run.wall for run in runs if run.row == "base"):
        length = ground.outline.line(wall).length
        outs = [
            out
            for u, out in (
                ground.outline.from_room(wall, *ground.place(i)) for i in range(len(ground.readings))
            )
            if -reach <= u <= length + reach and 0 <= out <= ground.toe_line + reach
        ]
        if not outs or max(outs) - min(outs) > ground.toe_line // 2:
            continue
        at_wall = max(outs) <= ground.toe_line // 2
        wanted = say("line-toe" if at_wall else "line-wall")
        yield Finding(
            code="no-reading-across",
            rank=Rank.WATCH,
            where=wall,
            text=say("no-reading-across", wall=wall, wanted=wanted),
            rule="toe-line",
            remedies=_more(ground, say("read-other-line", wall=wall, line=wanted)),
        )


def _that_disagree(ground: Ground) -> Iterator[Finding]:
    """Yield the spots whose readings differ by more than four standard deviations."""
    assert ground.model is not None, "only a floor with readings has repeats"
    units, cost = ground.job.job.tape, ground.book.remedy("read-again")
    for repeat in ground.model.repeats:
        if repeat.disagrees:
            told = ground.told(repeat.members)
            again = say("read-spot-again", spot=ground.readings[repeat.members[0]].address)
            yield Finding(
                code="readings-disagree",
                rank=Rank.WATCH,
                where=ground.readings[repeat.members[0]].address,
                text=say("readings-disagree", readings=", ".join(told), apart=show(repeat.spread, units)),
                by_how_much=repeat.spread,
                readings=told,
                rule="floor-reading-doubt",
                remedies=(Remedy(kind="read-again", text=again, hours=cost.hours, days=cost.days),),
            )


def _covering_unknown(ground: Ground, openings: Sequence[OpeningPoint]) -> Iterator[Finding]:
    """Yield that no covering is named while heights of appliances hang on the finished floor."""
    named = list(dict.fromkeys(appliance_name(each.appliance) for each in openings))
    if named and not ground.coverings.all:
        yield Finding(
            code="covering-not-known",
            rank=Rank.WATCH,
            where=say("the-floor"),
            text=say("covering-not-known", appliances=", ".join(named)),
        )


def _top_unknown(ground: Ground, runs: Sequence[RunPlan]) -> Iterator[Finding]:
    """Yield the appliances whose height is measured to the upper face of tops of unknown thickness."""
    if ground.job.order.tops is not None:
        return
    standing = {item.number for run in runs if run.row == "base" for item in run.items}
    for each in ground.job.order.appliances:
        is_measured_so = each.height_to == "top of the top" and stands_under_tops(ground, each)
        if each.number in standing and is_measured_so:
            yield Finding(
                code="top-thickness-not-known",
                rank=Rank.WATCH,
                where=appliance_name(each),
                text=say("top-thickness-not-known", appliance=appliance_name(each)),
            )
