"""Runs that hang together, solved: all of them, or those that can be, and why the others cannot.

A run with a conflict in it has no positions. A run that rests on such a one waits for it: a wall row whose
tall box stands in it, or one with a *must* pin beside an item of it, unless the place in question is
settled anyhow. All other runs are complete.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from setline.lengths import Units
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.conflict import Conflict, conflicts
from setline.stages.layout.pins import PinPlace, Tie
from setline.stages.layout.rows import Built
from setline.stages.layout.settle import Settled, choose, hold_centres
from setline.stages.layout.windows import Windows

__all__ = ["Outcome", "Stuck", "solve"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """Runs that hang together and cannot all be solved.

    Attributes:
        built: The rows of all of them.
        conflicts: Why they cannot hold together.
        runs: Names of the runs that the conflicts lie in.
        waiting: Name of a run that waits -> name of the run it waits for.
    """

    built: Built
    conflicts: tuple[Conflict, ...]
    runs: tuple[str, ...]
    waiting: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of runs that hang together.

    Attributes:
        settled: Those that could be solved, in their places, or None.
        stuck: Why the others could not, or None.
    """

    settled: Settled | None
    stuck: Stuck | None


def solve(runs: Sequence[RunAsked], placed: Sequence[PinPlace], ties: Sequence[Tie], units: Units) -> Outcome:
    """Return what becomes of runs that hang together."""
    built, allowed = hold_centres(runs, placed, ties, units)
    if allowed is not None:
        return Outcome(settled=choose(built, allowed, units), stuck=None)
    found = conflicts(built.rows, built.nodes)
    named = {name for conflict in found for name in runs_in(conflict, built)}
    waiting: dict[str, str] = {}
    while True:
        rest = [run for run in runs if run.name not in named and run.name not in waiting]
        if not rest:
            return Outcome(settled=None, stuck=_stuck(built, found, named, waiting))
        part, allowed = hold_centres(rest, placed, ties, units)
        if allowed is None:
            more = conflicts(part.rows, part.nodes)
            named |= {name for conflict in more for name in runs_in(conflict, part)}
            continue
        waits = _waiting(runs, rest, ties, part, allowed)
        if not waits:
            settled = choose(part, allowed, units)
            return Outcome(settled=settled, stuck=_stuck(built, found, named, waiting))
        waiting |= waits


def _stuck(
    built: Built, found: tuple[Conflict, ...], named: Collection[str], waiting: dict[str, str]
) -> Stuck:
    """Return why runs could not be solved, their names in the job's order."""
    ordered = tuple(run.name for run in built.runs if run.name in named)
    return Stuck(built=built, conflicts=found, runs=ordered, waiting=waiting)


def runs_in(conflict: Conflict, built: Built) -> tuple[str, ...]:
    """Return the names of the runs that a conflict lies in, in the job's order.

    A tall box counts for both its rows; a conflict with nothing else in it lies in the first.
    """
    pieces = [built.pieces[piece] for piece in conflict.pieces]
    sure = {piece.run for piece in pieces if piece.item is None or not piece.item.is_tall}
    sure |= {piece.tie.other_run for piece in pieces if piece.tie is not None}
    named = sure or {piece.run for piece in pieces}
    return tuple(run.name for run in built.runs if run.name in named)


def _waiting(
    runs: Sequence[RunAsked], rest: Sequence[RunAsked], ties: Sequence[Tie], part: Built, allowed: Windows
) -> dict[str, str]:
    """Return the runs of the rest that rest on one that is not among them, and on which."""
    here = {run.name for run in rest}
    gone = [run for run in runs if run.name not in here]
    found: dict[str, str] = {}
    for run in rest:
        if run.run.row == "wall":
            for item in run.items:
                other = next((each for each in gone if item.number in each.run.items), None)
                if item.is_tall and other and not _is_settled(part, allowed, run.name, item.number):
                    found.setdefault(run.name, other.name)
    names = {run.name for run in gone}
    for tie in ties:
        rests = tie.pin.strength == "must" and tie.run in here and tie.other_run in names
        if rests and not _is_settled(part, allowed, tie.run, tie.item.number):
            found.setdefault(tie.run, tie.other_run)
    return found


def _is_settled(part: Built, allowed: Windows, run: str, number: int) -> bool:
    """Return whether an item can stand in one place only."""
    return all(allowed.earliest(node) == allowed.latest(node) for node in part.sides(run, number))
