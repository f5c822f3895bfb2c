"""Which box is set next, and who is at which: tall boxes first, then one row after the other.

Which row comes first, and which box somebody has begun, are no part of the job: they are kept beside it
(``fold.ASIDE``), so that another phone sees them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from setline.field_book.places import pointer
from setline.job.order import Box
from setline.result import ItemKind, ItemPlace, Plan, Rank, RunPlan
from setline.web.planning import Standing

__all__ = ["FIRST_ROW", "Begun", "BoxState", "ListedBox", "begun", "begun_place", "set_order"]

FIRST_ROW = "/walk/first-row"
"""Where the row that is set first stands: ``base`` or ``wall``."""


class BoxState(StrEnum):
    """How far a box is."""

    SET = "set"
    OPEN = "open"  # begun by somebody
    READY = "ready"
    NOT_HERE = "not here"
    STOP = "stop"  # its run does not fit: do not set


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """Who began to set a box.

    Attributes:
        by: Whoever held the device.
        device: The device.
        at: When, by its clock.
    """

    by: str
    device: str
    at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedBox:
    """A box in the order of setting.

    Attributes:
        order: What was ordered.
        run: The first run it stands in.
        place: Its place in that run.
        state: How far it is.
        begun: Who began to set it, if somebody did.
        is_last: Whether it goes in last between two ends that do not give way: try it dry first.
    """

    order: Box
    run: RunPlan
    place: int
    state: BoxState
    begun: Begun | None
    is_last: bool

    @property
    def number(self) -> int:
        """Its number."""
        return self.order.number

    @property
    def item(self) -> ItemPlace:
        """Itself, where it stands."""
        return self.run.items[self.place]


def begun_place(number: int) -> str:
    """Return the place that tells who is setting a box."""
    return pointer(("walk", "set", str(number)))


def begun(standing: Standing) -> Mapping[int, Begun]:
    """Return who began to set which box; what came out again is begun by nobody."""
    found = {}
    for place, entries in standing.live.items():
        head, _, number = place.rpartition("/")
        first = entries[0]
        if head == "/walk/set" and number.isdecimal() and not first.taken_back and first.value == "begun":
            found[int(number)] = Begun(by=first.by, device=first.device, at=first.at)
    return found


def set_order(standing: Standing) -> tuple[ListedBox, ...]:
    """Return every box that stands in a run, in the order of setting: tall ones, then row by row.

    Args:
        standing: The job as it stands.

    Returns:
        Each row wall by wall in the job's order, from the left corner to the right; nothing where there is no
        plan yet.
    """
    job, plan = standing.job, standing.plan
    if job is None or plan is None:
        return ()
    orders = {box.number: box for box in job.order.boxes}
    first = standing.folded.aside.get(FIRST_ROW, "base")
    who = begun(standing)
    found: dict[int, ListedBox] = {}
    for run in plan.runs:
        for place, item in enumerate(run.items):
            if item.kind is ItemKind.BOX and item.number in orders:
                listed = _listed(plan, run, place, orders[item.number], who.get(item.number))
                found.setdefault(item.number, listed)
    rank = {"tall": 0, first: 1}
    return tuple(sorted(found.values(), key=lambda each: rank.get(each.order.kind, 2)))


def _listed(plan: Plan, run: RunPlan, place: int, box: Box, who: Begun | None) -> ListedBox:
    """Return one box with how far it is."""
    item = run.items[place]
    if item.is_set:
        state = BoxState.SET
    elif not run.solved or any(
        each.rank is Rank.STOP and each.where in (run.name, f"{run.name} {box.number}")
        for each in plan.findings
    ):
        state = BoxState.STOP
    elif box.delivery == "not here":
        state = BoxState.NOT_HERE
    else:
        state = BoxState.OPEN if who is not None else BoxState.READY
    return ListedBox(order=box, run=run, place=place, state=state, begun=who, is_last=_is_last(run, place))


def _is_last(run: RunPlan, place: int) -> bool:
    """Return whether a box is the last to go in between things that stand on both sides of it."""
    others = [
        item
        for at, item in enumerate(run.items)
        if at != place and item.kind is ItemKind.BOX and not item.is_set
    ]
    left = run.items[place - 1] if place else None
    right = run.items[place + 1] if place + 1 < len(run.items) else None
    beside = [item for item in (left, right) if item is not None]
    return not others and all(item.is_set or item.kind is ItemKind.EXISTING for item in beside)
