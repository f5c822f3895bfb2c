"""The cover: the struck line, what to do first, START of each wall, what is still open."""

from __future__ import annotations

from typing import TypedDict

from setline.job.job import Job
from setline.lengths import Units, show
from setline.result import Plan, Rank, SetUpLine
from setline.told import finding_words, strike_words, tops_words, walls_with_runs, within
from setline.wording import say

__all__ = ["Contents", "CoverPage", "OpenItem", "Strike", "cover_page"]

_SHOWN = 6
"""Open items on the cover; the findings page has them all."""


_STOPS_NAMED = 4


class Strike(TypedDict):
    """The largest thing on paper: the word, the number with its way, from where, and the tops below it."""

    word: str
    number: str
    source: str
    tops: str


class OpenItem(TypedDict):
    """A finding that stops or asks for a choice: its number in the list, rank and sentence."""

    n: int
    rank: str
    text: str


class Contents(TypedDict):
    """A row of the contents: what is there, and the keys of the pages it leads to."""

    what: str
    keys: list[str]


class CoverPage(TypedDict):
    """Data of the cover."""

    kind: str
    key: str
    landscape: bool
    title: str
    beside: str
    warning: str | None
    strike: Strike
    set_ups: list[str]
    first: list[str]
    starts: list[str]
    open: list[OpenItem]
    more: str | None
    notes: list[str]
    caution: str
    contents: list[Contents]


def cover_page(plan: Plan, job: Job, contents: list[Contents]) -> CoverPage:
    """Return the data of the cover.

    Args:
        plan: The plan.
        job: Its job, for who measured and the marks that a set-up can be proved on.
        contents: What stands on which page.
    """
    units = Units(plan.units)
    open_items = _open_items(plan)
    stops = list(dict.fromkeys(f.where for f in plan.findings if f.rank == Rank.STOP))
    return CoverPage(
        kind="cover",
        key="cover",
        landscape=False,
        title=plan.job_name,
        beside=_beside(job),
        warning=say("packet-cover-stop", where=", ".join(stops[:_STOPS_NAMED])) if stops else None,
        strike=_strike(plan, units),
        set_ups=[_other_line(line, units) for line in plan.level_line.set_ups if not line.in_use],
        first=_first(plan, job, units),
        starts=_starts(list(walls_with_runs(plan))),
        open=open_items[:_SHOWN],
        more=say("packet-cover-more", count=len(open_items) - _SHOWN) if len(open_items) > _SHOWN else None,
        notes=list(job.job.notes),
        caution=say("packet-caution"),
        contents=contents,
    )


def _starts(walls: list[str]) -> list[str]:
    """Return where the tape hooks on each wall, in one breath: ``Walls A, B and C``."""
    if len(walls) < 2:
        return [say("packet-start-wall", walls=wall) for wall in walls]
    return [say("packet-start-walls", walls=say("packet-and", first=", ".join(walls[:-1]), last=walls[-1]))]


def _beside(job: Job) -> str:
    """Return who measured and when, as far as the job says."""
    about = job.job
    said = [say("packet-measured-by", who=about.measured_by)] if about.measured_by else []
    return ", ".join([*said, *([about.date] if about.date else [])])


def _line_in_use(plan: Plan) -> SetUpLine | None:
    """Return the line of the set-up in use."""
    return next((line for line in plan.level_line.set_ups if line.in_use), None)


def _strike(plan: Plan, units: Units) -> Strike:
    """Return the struck line of the set-up in use, or ``?`` where no reading supports one."""
    line = _line_in_use(plan)
    if line is None or line.printed_strike is None:
        return Strike(
            word=say("packet-strike"),
            number="?",
            source=say("packet-no-line-from"),
            tops=say("packet-no-line"),
        )
    text, way = strike_words(line, units)
    doubt = within(line.strike, units)
    tops = tops_words(line, plan.level_line.clearance, units)
    return Strike(
        word=say("packet-strike"),
        number=f"{text} {way}",
        source=say("packet-from-laser", set_up=line.set_up),
        tops=f"{tops} {say('packet-doubt', within=doubt[:1].upper() + doubt[1:])}" if doubt else tops,
    )


def _other_line(line: SetUpLine, units: Units) -> str:
    """Return the line as measured from a set-up that is not in use."""
    text, way = strike_words(line, units)
    return say("packet-other-set-up", set_up=line.set_up, strike=text, way=way)


def _first(plan: Plan, job: Job, units: Units) -> list[str]:
    """Return what to do first, a step a line."""
    line = _line_in_use(plan)
    steps = [say("packet-first-stops")] if any(f.rank == Rank.STOP for f in plan.findings) else []
    if line is not None:
        steps.append(_laser_step(line.set_up, job))
        if line.printed_strike is not None:
            text, way = strike_words(line, units)
            steps.append(say("packet-first-strike", strike=text, way=way.lower()))
    spot = plan.level_line.high_spot
    if spot is not None:
        where = {"point": spot.point, "wall": spot.wall, "u": show(spot.u, units)}
        out = say("packet-out", out=show(spot.out, units)) if spot.out else say("packet-at-wall")
        steps.append(say("packet-first-high-spot", out=out, **where))
    steps.append(say("packet-first-marks"))
    steps.append(say("packet-first-set"))
    return steps


def _laser_step(set_up: str, job: Job) -> str:
    """Return how to bring the laser back to its line: by a mark shot from that set-up, if there is one."""
    for known in job.floor.set_ups:
        for mark in known.marks if known.name == set_up else ():
            reading = mark.down or mark.up
            if reading is not None:
                way = say("packet-mark-down" if mark.down is not None else "packet-mark-up")
                facts = {"mark": mark.name, "reading": reading.typed, "way": way}
                return say("packet-first-laser-on-mark", set_up=set_up, **facts)
    return say("packet-first-laser", set_up=set_up)


def _open_items(plan: Plan) -> list[OpenItem]:
    """Return what stops or must be decided, with its number in the list of findings."""
    return [
        OpenItem(n=place, rank=say(f"packet-rank-{finding.rank}"), text=finding_words(finding))
        for place, finding in enumerate(plan.findings, start=1)
        if finding.rank in {Rank.STOP, Rank.DECIDE}
    ]
