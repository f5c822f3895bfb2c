"""Runs that hang together, solved: all of them, or those that can be, and why the others cannot.

A run with a conflict in it has no positions. A run that rests on such a one waits for it: a wall row whose
tall box stands in it, or one with a *must* pin beside an item of it, unless the place in question is
settled anyhow. All other runs are complete.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from setline.lengths import Units
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built, Piece
from setline.stages.layout.conflict import Conflict, conflicts
from setline.stages.layout.items import Item
from setline.stages.layout.pins import PinPlace, Tie
from setline.stages.layout.rows import groups_of
from setline.stages.layout.settle import Settled, choose, hold_centres
from setline.stages.layout.windows import Windows

__all__ = ["Outcome", "Reason", "Stuck", "runs_in", "solve"]


@dataclass(frozen=True, slots=True)
class Reason:
    """A conflict, with the rows that it was found in."""

    conflict: Conflict
    built: Built

    @property
    def runs(self) -> tuple[str, ...]:
        """Names of the runs that it lies in, in the job's order."""
        return runs_in(self.conflict, self.built)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """Runs that must hang together and cannot all be solved.

    Attributes:
        built: The rows of all of them.
        reasons: Why they cannot hold together.
        runs: Names of the runs that the conflicts lie in.
        waiting: Name of a run that waits -> name of the run it waits for, and what of its own rests on that.
    """

    built: Built
    reasons: tuple[Reason, ...]
    runs: tuple[str, ...]
    waiting: dict[str, tuple[str, Item]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of runs that hang together.

    Attributes:
        settled: Those that could be solved, in their places, or None.
        stuck: Why the others could not.
    """

    settled: Settled | None
    stuck: tuple[Stuck, ...] = ()


def solve(runs: Sequence[RunAsked], placed: Sequence[PinPlace], ties: Sequence[Tie], units: Units) -> Outcome:
    """Return what becomes of runs that hang together.

    Those that only ought to line up are told and cured apart where they cannot be solved.
    """
    built, allowed = hold_centres(runs, placed, ties, units)
    if allowed is not None:
        return Outcome(settled=choose(built, allowed, units))
    found = []
    for part in groups_of(runs, [tie for tie in ties if tie.pin.strength == "must"]):
        stuck = _stuck(part, placed, ties, units)
        if stuck is not None:
            found.append(stuck)
    gone = {name for stuck in found for name in (*stuck.runs, *stuck.waiting)}
    rest = [run for run in runs if run.name not in gone]
    if not rest:
        return Outcome(settled=None, stuck=tuple(found))
    built, allowed = hold_centres(rest, placed, ties, units)
    assert allowed is not None, "what is left of every part was solved before"
    return Outcome(settled=choose(built, allowed, units), stuck=tuple(found))


def _stuck(
    runs: Sequence[RunAsked], placed: Sequence[PinPlace], ties: Sequence[Tie], units: Units
) -> Stuck | None:
    """Return why runs that must hang together cannot all be solved, or None if they can.

    First every run is looked at alone, so that its trouble is told in its own pieces; then those that are
    left together, until what remains can be solved and waits for nothing that cannot.
    """
    whole, allowed = hold_centres(runs, placed, ties, units)
    if allowed is not None:
        return None
    reasons = [reason for run in runs for reason in _reasons(hold_centres([run], placed, ties, units))]
    waiting: dict[str, tuple[str, Item]] = {}
    while True:
        named = {name for reason in reasons for name in reason.runs}
        rest = [run for run in runs if run.name not in named and run.name not in waiting]
        if not rest:
            break
        built, allowed = hold_centres(rest, placed, ties, units)
        if allowed is None:
            reasons += _reasons((built, allowed))
            continue
        waits = _waiting(runs, rest, ties, built, allowed)
        if not waits:
            break
        waiting |= waits
    ordered = tuple(run.name for run in runs if run.name in named)
    return Stuck(built=whole, reasons=tuple(reasons), runs=ordered, waiting=waiting)


def _reasons(held: tuple[Built, Windows | None]) -> list[Reason]:
    """Return the conflicts of rows that allow nothing."""
    built, allowed = held
    if allowed is not None:
        return []
    return [Reason(conflict, built) for conflict in conflicts(built.rows, built.nodes)]


def runs_in(conflict: Conflict, built: Built) -> tuple[str, ...]:
    """Return the names of the runs that a conflict lies in, in the job's order.

    What stands in both rows of a wall, and an end that such a thing stands at, counts for both; a conflict
    with nothing else in it lies in the first.
    """
    pieces = [built.pieces[piece] for piece in conflict.pieces]
    sure = {piece.run for piece in pieces if not _is_of_both_rows(piece, built)}
    sure |= {piece.tie.other_run for piece in pieces if piece.tie is not None}
    named = sure or {piece.run for piece in pieces[:1]}
    return tuple(run.name for run in built.runs if run.name in named)


def _is_of_both_rows(piece: Piece, built: Built) -> bool:
    """Return whether a piece is of something that stands in both rows, or the end that it stands at."""
    if piece.item is not None:
        return built.is_shared(piece.item.number)
    if piece.end is None:
        return False
    run = next(run for run in built.runs if run.name == piece.run)
    return built.is_shared(run.run.items[0 if piece.end.side == "left" else -1])


def _waiting(
    runs: Sequence[RunAsked], rest: Sequence[RunAsked], ties: Sequence[Tie], part: Built, allowed: Windows
) -> dict[str, tuple[str, Item]]:
    """Return the runs of the rest that rest on one that is not among them, on which, and by what."""
    here = {run.name for run in rest}
    gone = [run for run in runs if run.name not in here]
    found: dict[str, tuple[str, Item]] = {}
    for run in rest:
        if run.run.row == "wall":
            for item in run.items:
                other = next((each for each in gone if item.number in each.run.items), None)
                if other and not _is_settled(part, allowed, run.name, item.number):
                    found.setdefault(run.name, (other.name, item))
    names = {run.name for run in gone}
    for tie in ties:
        rests = tie.pin.strength == "must" and tie.run in here and tie.other_run in names
        if rests and not _is_settled(part, allowed, tie.run, tie.item.number):
            found.setdefault(tie.run, (tie.other_run, tie.item))
    return found


def _is_settled(part: Built, allowed: Windows, run: str, number: int) -> bool:
    """Return whether an item can stand in one place only."""
    return all(allowed.earliest(node) == allowed.latest(node) for node in part.sides(run, number))
