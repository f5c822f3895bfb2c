"""Where an item could be put in its run: every place, and why some of them cannot work."""

from __future__ import annotations

from dataclasses import dataclass
from string import ascii_lowercase

from setline.job.job import Job
from setline.job.runs import Run
from setline.lengths import Units, show
from setline.result import Finding, Plan, Rank
from setline.rules import RuleBook
from setline.stages.floor.provisional import provisional_tops
from setline.stages.layout import lay_out
from setline.web.arranging.view import Chosen
from setline.wording import say

__all__ = ["Gap", "gaps_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A place that an item could be put at.

    Attributes:
        label: ``a``, ``b``, ``c`` ...
        to: How many items stand left of it then.
        between: How many items of the run as it stands lie left of it.
        words: Where that is.
        short: Why it cannot work, in few words, or nothing if it can.
        reason: The same as the conflict tells it.
    """

    label: str
    to: int
    between: int
    words: str
    short: str
    reason: str


def gaps_of(job: Job, book: RuleBook, plan: Plan, chosen: Chosen) -> tuple[Gap, ...]:
    """Return every place of its run that an item could be put at, but the one where it stands.

    Each is laid out anew, so that one that cannot work says why. Where the run does not fit as it stands, no
    place is closed: somebody may want to try.
    """
    tops = plan.level_line.tops.value
    if tops is None:
        tops = provisional_tops(job, book)
    others = [item for item in chosen.run.items if item.number != chosen.item.number]
    gaps: list[Gap] = []
    for to in range(len(others) + 1):
        if to == chosen.place:
            continue
        items = [item.number for item in others]
        items.insert(to, chosen.item.number)
        stop = _stop(job, book, tops, plan, chosen.run.name, tuple(items)) if chosen.run.solved else None
        words = say("gap-after", item=others[to - 1].words) if to else say("gap-first")
        gaps.append(
            Gap(
                label=_label(len(gaps)),
                to=to,
                between=to if to < chosen.place else to + 1,
                words=words,
                short=_short(stop, Units(plan.units)),
                reason="" if stop is None else stop.text,
            )
        )
    return tuple(gaps)


def _stop(
    job: Job, book: RuleBook, tops: int, plan: Plan, name: str, items: tuple[int, ...]
) -> Finding | None:
    """Return why the runs cannot be laid out with one of them in another order; None if they can."""
    at = [run.name for run in plan.runs].index(name)
    runs: list[Run] = list(job.runs)
    runs[at] = runs[at].model_copy(update={"items": items})
    laid = lay_out(job.model_copy(update={"runs": tuple(runs)}), book, tops=tops)
    fitted = {run.name for run in plan.runs if run.solved}
    broken = {run.name for run in laid.runs if not run.solved} & fitted
    stops = [found for found in laid.findings if found.rank is Rank.STOP and found.where in broken]
    return stops[0] if stops else None


def _short(stop: Finding | None, units: Units) -> str:
    """Return a conflict in few words."""
    if stop is None:
        return ""
    if not stop.by_how_much:
        return say("gap-does-not-fit")
    return say("gap-misses", by=show(abs(stop.by_how_much), units).removeprefix("~"))


def _label(count: int) -> str:
    """Return ``a`` to ``z``, then ``aa``."""
    letters = ascii_lowercase
    return letters[count] if count < len(letters) else letters[count // 26 - 1] + letters[count % 26]
