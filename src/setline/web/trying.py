"""A job as it would stand with something changed, and what that changes: nothing is kept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from setline.errors import InputError
from setline.lengths import Units, show
from setline.result import Finding, Plan, Rank
from setline.stages.changes import PlanChange, changes
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import Site
from setline.web.writing import make_entries
from setline.wording import say

__all__ = ["ChangedRow", "Outcome", "checked", "outcome", "tried"]

TRIAL = "trial"
MOST_FAULTS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedRow:
    """One row of what differs: what it is called, the number before, the number now, what to do about it."""

    said: str
    was: str
    now: str
    note: str
    on_wall: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What comes of a change.

    Attributes:
        rows: What differs, row by row.
        gone: Stops and decides that are no more.
        left: Stops and decides that are left as they were.
        new: Stops and decides that were not there.
    """

    rows: tuple[ChangedRow, ...]
    gone: tuple[Finding, ...]
    left: tuple[Finding, ...]
    new: tuple[Finding, ...]


def tried(site: Site, standing: Standing, device: Device, values: Mapping[str, Any]) -> Standing:
    """Return the job as it would stand with values at some places."""
    return site.planner.with_entries(standing, make_entries(standing, device, values, act=TRIAL))


def checked(site: Site, standing: Standing, device: Device, values: Mapping[str, Any]) -> Standing:
    """Return the same, if what makes a whole job now still does.

    Raises:
        InputError: It would not; the sentence says why. What was wrong before is nobody's hindrance.
    """
    after = tried(site, standing, device, values)
    known = {str(fault) for fault in standing.folded.faults}
    new = [str(fault) for fault in after.folded.faults if str(fault) not in known]
    if after.job is None and new:
        raise InputError(say("would-not-hold", faults="\n".join(new[:MOST_FAULTS])))
    return after


def outcome(before: Plan, after: Plan) -> Outcome:
    """Return what differs between two plans of one job."""
    units = Units(after.units)
    was = {(found.where, found.text): found for found in _loud(before)}
    now = {(found.where, found.text): found for found in _loud(after)}
    return Outcome(
        rows=tuple(_row(change, units) for change in changes(before, after)),
        gone=tuple(found for key, found in was.items() if key not in now),
        left=tuple(found for key, found in now.items() if key in was),
        new=tuple(found for key, found in now.items() if key not in was),
    )


def _loud(plan: Plan) -> list[Finding]:
    return [found for found in plan.findings if found.rank in {Rank.STOP, Rank.DECIDE}]


def _row(change: PlanChange, units: Units) -> ChangedRow:
    """Return a row as it is shown."""
    return ChangedRow(
        said=change.said,
        was="" if change.was is None else show(change.was, units),
        now="" if change.now is None else show(change.now, units),
        note=change.text,
        on_wall=change.on_wall,
    )
