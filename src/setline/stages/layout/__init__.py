"""The layout: where every joint of every run comes to stand, or why it cannot.

``lay_out`` is the way in. What is asked (``items``, ``ends``, ``pins``) becomes rows (``rows``) of a solver
that knows no cabinets (``row``, ``windows``, ``conflict``, ``elastic``, ``preference``, ``whole_marks``);
what it finds is handed on as marks with their working (``run_plans``, ``working``) or told as sentences
with ways out (``tell``, ``remedies``).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from setline.job.job import Job
from setline.lengths import Units
from setline.result import Finding, Rank, RunPlan
from setline.rules import RuleBook
from setline.stages.layout.asked import Kitchen, RunAsked, ask
from setline.stages.layout.clearances import check_clearances
from setline.stages.layout.conflict import Trouble
from setline.stages.layout.pins import places_of_pins
from setline.stages.layout.remedies import ways_out
from setline.stages.layout.rows import groups_of
from setline.stages.layout.run_pins import run_pins
from setline.stages.layout.run_plans import solved_run, unsolved_run
from setline.stages.layout.set_boxes import with_set_boxes
from setline.stages.layout.set_pins import missed_as_set, open_pins
from setline.stages.layout.set_watches import watch_set_boxes
from setline.stages.layout.settle import pinned_items
from setline.stages.layout.solve import Outcome, Stuck, solve
from setline.stages.layout.take_out import take_outs
from setline.stages.layout.tell import tell
from setline.stages.layout.watches import missed_wishes, watch_items, watch_run, watch_walls
from setline.stages.layout.working import Workings
from setline.wording import say

__all__ = ["Layout", "lay_out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Every run laid out, and what was found.

    Attributes:
        runs: One a run of the job, in its order.
        findings: What somebody must know, stops first, then in the order of the runs.
    """

    runs: tuple[RunPlan, ...]
    findings: tuple[Finding, ...]


def lay_out(job: Job, book: RuleBook, *, tops: int) -> Layout:
    """Return where everything stands along the walls.

    Hard limits hold first; within them wishes are followed in strict order
    (`setline.stages.layout.settle`). A run that cannot be solved has no positions, and a *stop* tells why
    and which ways out there are; all others are complete.

    Args:
        job: The job.
        book: The rules it works by.
        tops: z of the box tops, known or provisional: it says which part of the end walls the boxes meet.
            [ticks]

    Returns:
        Places in ticks along each wall from its left corner; marks rounded once, from those.
    """
    asked = ask(job, book, tops)
    kitchen = replace(asked, runs=with_set_boxes(asked.runs, job), bare=asked.runs)
    pins = places_of_pins(kitchen.runs, job)
    placed, ties, past = open_pins(kitchen.runs, *pins, book)
    outcomes = [solve(group, placed, ties, job.job.tape) for group in groups_of(kitchen.runs, ties)]
    plans = _plans(kitchen, outcomes)
    missed = [*past, *(each for outcome in outcomes if outcome.settled for each in outcome.settled.missed)]
    runs = tuple(
        replace(plans[run.name], pins=run_pins(run, (*pins[0], *pins[1]), missed, plans))
        for run in kitchen.runs
    )
    found = [*_stops(kitchen, outcomes), *_others(kitchen, outcomes, plans)]
    found += [*missed_as_set(past, job.job.tape), *watch_set_boxes(kitchen.runs, book, job.job.tape)]
    return Layout(runs=runs, findings=tuple(found))


def _plans(kitchen: Kitchen, outcomes: list[Outcome]) -> dict[str, RunPlan]:
    """Return the plan of every run by its name."""
    units, plans = kitchen.job.job.tape, {}
    by_name = {run.name: run for run in kitchen.runs}
    for outcome in outcomes:
        if outcome.settled is not None:
            workings = Workings(outcome.settled, kitchen.book, units)
            for run in outcome.settled.built.runs:
                plans[run.name] = solved_run(run, outcome.settled, workings, units)
        for stuck in outcome.stuck:
            pinned = pinned_items(stuck.built)
            for name in stuck.runs:
                plans[name] = unsolved_run(by_name[name], _overrun(stuck, name), pinned, units)
            for name in stuck.waiting:
                plans[name] = unsolved_run(by_name[name], None, pinned, units)
    return plans


def _overrun(stuck: Stuck, name: str) -> int:
    """Return by how much the pieces of a run overrun the room they have; below 0, what is left over."""
    mine = [reason.conflict for reason in stuck.reasons if name in reason.runs]
    short = sum(each.shortfall for each in mine if each.trouble is Trouble.SHORT)
    return short or -sum(each.shortfall for each in mine)


def _stops(kitchen: Kitchen, outcomes: list[Outcome]) -> Iterator[Finding]:
    """Yield a *stop* for every conflict, with the ways out, and for every run that waits for another."""
    for stuck in (stuck for outcome in outcomes for stuck in outcome.stuck):
        yield from _conflicts(kitchen, stuck)
        for name, (other, item) in stuck.waiting.items():
            text = say("run-waits", run=name, other=other, what=item.said)
            yield Finding(code="run-waits", rank=Rank.STOP, where=name, text=text)


def _conflicts(kitchen: Kitchen, stuck: Stuck) -> Iterator[Finding]:
    """Yield the conflicts of runs that hang together; the ways out, which cure all, stand with the first."""
    units = kitchen.job.job.tape
    remedies = (*ways_out(stuck, kitchen.book, units), *take_outs(stuck, kitchen))
    for number, reason in enumerate(stuck.reasons):
        told = tell(reason.conflict, reason.built, units)
        text = told.text
        if not remedies and number == 0:
            text = f"{text} {say('no-way-out')}"
        elif remedies and number:
            text = f"{text} {say('cured-with-first')}"
        yield Finding(
            code=told.code,
            rank=Rank.STOP,
            where=told.run,
            text=text,
            by_how_much=reason.conflict.shortfall,
            readings=told.readings,
            remedies=remedies if number == 0 else (),
        )


def _others(kitchen: Kitchen, outcomes: list[Outcome], plans: dict[str, RunPlan]) -> Iterator[Finding]:
    """Yield all that does not stop a run."""
    book, units = kitchen.book, kitchen.job.job.tape
    pairs: list[tuple[RunAsked, RunPlan]] = [(run, plans[run.name]) for run in kitchen.runs]
    yield from watch_walls(kitchen.runs, book, units)
    for outcome in outcomes:
        if outcome.settled is not None:
            yield from missed_wishes(outcome.settled, book, units)
    for run, plan in pairs:
        yield from watch_run(run, plan, book, units)
    yield from check_clearances(pairs, book, Units(units))
    yield from watch_items(kitchen.runs, book, units)
