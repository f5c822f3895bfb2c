"""The findings: every one, the worst first, with the ways out and a box to tick."""

from __future__ import annotations

from typing import TypedDict

from setline.result import Finding, Plan, Rank, Remedy
from setline.rules.rule import RuleBook
from setline.told import cost_words
from setline.wording import say

__all__ = ["FindingRow", "FindingsPage", "RemedyRow", "findings_page"]

_READINGS_SHOWN = 4


class RemedyRow(TypedDict):
    """One way out and what it costs."""

    text: str
    cost: str


class FindingRow(TypedDict):
    """One finding as printed."""

    n: int
    rank: str
    loud: bool
    where: str
    text: str
    rests: str | None
    remedies: list[RemedyRow]


class FindingsPage(TypedDict):
    """Data of the findings page."""

    kind: str
    key: str
    landscape: bool
    beside: str
    findings: list[FindingRow]


def findings_page(plan: Plan, book: RuleBook) -> FindingsPage:
    """Return the data of the findings page."""
    counts = {rank: sum(finding.rank == rank for finding in plan.findings) for rank in Rank}
    said = [f"{count} {say(f'packet-rank-{rank}')}" for rank, count in counts.items() if count]
    return FindingsPage(
        kind="findings",
        key="findings",
        landscape=False,
        beside=", ".join(said),
        findings=[_row(place, finding, book) for place, finding in enumerate(plan.findings, start=1)],
    )


def _row(place: int, finding: Finding, book: RuleBook) -> FindingRow:
    return FindingRow(
        n=place,
        rank=say(f"packet-rank-{finding.rank}"),
        loud=finding.rank in {Rank.STOP, Rank.DECIDE},
        where=finding.where,
        text=finding.text,
        rests=_rests(finding, book),
        remedies=[_remedy(remedy) for remedy in finding.remedies],
    )


def _remedy(remedy: Remedy) -> RemedyRow:
    return RemedyRow(text=remedy.text, cost=cost_words(remedy.hours, remedy.days))


def _rests(finding: Finding, book: RuleBook) -> str | None:
    """Return the readings and the rule that a finding rests on, as one line."""
    said = []
    if finding.readings:
        shown = "; ".join(finding.readings[:_READINGS_SHOWN])
        more = len(finding.readings) - _READINGS_SHOWN
        said.append(say("packet-readings-more", shown=shown, more=more) if more > 0 else shown)
    if finding.rule is not None:
        rule = book.rule(finding.rule)
        said.append(say("packet-rule", rule=rule.id, source=rule.source))
    return say("packet-rests-on", what=". ".join(said)) if said else None
