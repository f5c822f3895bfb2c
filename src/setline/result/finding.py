"""What somebody must know, and the ways out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Finding", "Rank", "Remedy"]


class Rank(StrEnum):
    """How much a finding weighs."""

    STOP = "stop"  # do not set
    DECIDE = "decide"  # someone must choose
    WATCH = "watch"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One way out of a finding, solved again to prove it where it changes the layout.

    Attributes:
        kind: Key of the kind of remedy in ``rules.remedies`` (it carries hours and days).
        text: What to do, as a sentence with its numbers.
        amount: How much it changes, in ticks; orders remedies of equal cost.
        hours: Working hours it takes.
        days: Days it makes the job wait.
    """

    kind: str
    text: str
    amount: int = 0
    hours: float = 0.0
    days: float = 0.0


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
