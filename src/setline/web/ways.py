"""Remedies as ways that can be taken: each has an address of its own, and is found again by what it says."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from setline.field_book.places import pointer
from setline.result import Finding, Remedy
from setline.told import cost_words, finding_words
from setline.web.planning import Standing

__all__ = ["Told", "Way", "find_way", "told", "values_of"]

_ELSEWHERE = {
    "check-sheet": "sheets",
    "read-again": "walk",
    "more-readings": "walk",
    "cut-plaster": "readings",
    "raise-line": "floor",
    "lower-line": "floor",
    "split-line": "floor",
    "lift-set-box": "set",
}
"""Where work on site or a maker's sheet is entered, by kind of remedy; nowhere for all others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way out of a finding.

    Attributes:
        key: Its name in its address: the same as long as finding and remedy say the same.
        remedy: The remedy.
        cost: Its hours and days in words, or nothing.
        address: Where its result is shown, or where what comes of it is entered; empty if neither.
        shows: Whether it changes the job, so that its result can be shown and taken.
    """

    key: str
    remedy: Remedy
    cost: str
    address: str
    shows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A finding as a page tells it.

    Attributes:
        finding: The finding.
        ways: Its ways out.
        rule: The rule behind it with its source, or nothing.
        words: Its place and sentence in one breath.
    """

    finding: Finding
    ways: tuple[Way, ...]
    rule: str
    words: str


def told(standing: Standing, finding: Finding) -> Told:
    """Return a finding with its ways out and its rule."""
    return Told(
        finding=finding,
        ways=tuple(_ways(standing, finding)),
        rule=_rule(standing, finding),
        words=finding_words(finding),
    )


def find_way(standing: Standing, key: str) -> tuple[Finding, Remedy] | None:
    """Return the finding and the remedy of a key, or None where the plan has them no more."""
    if standing.plan is None:
        return None
    for finding in standing.plan.findings:
        for remedy in finding.remedies:
            if _key(finding, remedy) == key:
                return finding, remedy
    return None


def values_of(remedy: Remedy) -> dict[str, Any]:
    """Return place -> value of what a remedy changes."""
    return {pointer(change.place): change.value for change in remedy.change}


def _ways(standing: Standing, finding: Finding) -> Iterator[Way]:
    job = f"/j/{standing.job_id}"
    for remedy in finding.remedies:
        key = _key(finding, remedy)
        elsewhere = _ELSEWHERE.get(remedy.kind)
        address = f"{job}/{elsewhere}" if elsewhere else ""
        yield Way(
            key=key,
            remedy=remedy,
            cost=cost_words(remedy.hours, remedy.days),
            address=f"{job}/remedy/{key}" if remedy.change else address,
            shows=bool(remedy.change),
        )


def _key(finding: Finding, remedy: Remedy) -> str:
    """Return a remedy's name: a digest of what it and its finding say."""
    said = "\n".join((finding.code, finding.where, remedy.kind, remedy.text))
    return hashlib.sha256(said.encode()).hexdigest()[:12]


def _rule(standing: Standing, finding: Finding) -> str:
    """Return a finding's rule with its source."""
    if finding.rule is None or standing.book is None:
        return ""
    rule = standing.book.rule(finding.rule)
    edition = "" if rule.edition == "-" else f", {rule.edition}"
    return f"{rule.id}: {rule.what} ({rule.source}{edition})"
