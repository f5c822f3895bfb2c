"""What somebody must know, and the ways out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

__all__ = ["Change", "Finding", "Rank", "Remedy"]


class Rank(StrEnum):
    """How much a finding weighs."""

    STOP = "stop"  # do not set
    DECIDE = "decide"  # someone must choose
    WATCH = "watch"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What stands in one field of the job once a remedy is taken.

    Attributes:
        place: The way to the field in the job's document; things in lists go by name or number, a run by wall
            and row: ``("order", "boxes", "3", "width")``, ``("runs", "A base", "pins")``.
        value: What stands there then, as a job file has it; None takes out what stands there.
    """

    place: tuple[str, ...]
    value: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One way out of a finding, solved again to prove it where it changes the layout.

    Attributes:
        kind: Key of the kind of remedy in ``rules.remedies`` (it carries hours and days).
        text: What to do, as a sentence with its numbers.
        amount: How much it changes, in ticks; orders remedies of equal cost.
        hours: Working hours it takes.
        days: Days it makes the job wait.
        change: What it changes in the job; empty where it is work on site, a reading or a maker's sheet, and
            the job changes by what comes of it.
    """

    kind: str
    text: str
    amount: int = 0
    hours: float = 0.0
    days: float = 0.0
    change: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something in the room or the order that somebody must know.

    Attributes:
        code: Stable name such as ``run-too-short``; docs/findings.md lists every one.
        rank: stop, decide, watch or note.
        where: The place in the crew's words, such as ``A base`` or ``3 back-left``.
        text: One or two sentences with their numbers.
        by_how_much: The number behind the verdict in ticks, where there is one.
        readings: Addresses of the readings behind it.
        rule: Id of the rule behind it.
        remedies: Ways out, by waiting days, then hours, then amount.
    """

    code: str
    rank: Rank
    where: str
    text: str
    by_how_much: int | None = None
    readings: tuple[str, ...] = ()
    rule: str | None = None
    remedies: tuple[Remedy, ...] = ()
