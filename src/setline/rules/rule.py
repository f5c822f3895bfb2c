"""What a rule of the trade is: a value with its source; and the book of rules that a job works by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from setline.errors import RuleError

__all__ = ["Kind", "RemedyKind", "Rule", "RuleBook", "Unit"]


class Kind(StrEnum):
    """What kind of source a rule has."""

    STANDARD = "standard"
    MAKERS_SHEET = "maker's sheet"
    COMMON_PRACTICE = "common practice"
    FROM_MEMORY = "from memory"
    THIS_JOB = "this job"  # a value that the job laid over the trade's


class Unit(StrEnum):
    """What a rule's value is counted in."""

    LENGTH = "length"  # ticks
    COUNT = "count"
    RATIO = "ratio"
    HOURS = "hours"
    DAYS = "days"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule of the trade as data.

    Attributes:
        id: Its name in findings, in ``setline rules`` and in a job's overrides.
        what: What it says, in one line.
        value: Ticks for a length; else a plain number. Tuples for a list of lengths.
        unit: What the value is counted in.
        source: Where it comes from.
        edition: Edition or date of the source, ``-`` if it has none.
        kind: What kind of source that is.
        metric: The value that takes its place on a metric job, in the same unit, or None if one serves both.
    """

    id: str
    what: str
    value: int | float | tuple[int, ...]
    unit: Unit
    source: str
    edition: str
    kind: Kind
    metric: int | float | tuple[int, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyKind:
    """What a kind of remedy costs.

    Attributes:
        key: Its name in a ``Remedy``.
        what: What is done.
        hours: Working hours it takes.
        days: Days by the calendar that it makes the job wait.
        source: Where the two numbers come from.
    """

    key: str
    what: str
    hours: float
    days: float
    source: str = "common practice"


class RuleBook:
    """The rules a job works by: the trade's, with the job's own values laid over them.

    Args:
        rules: Every rule by id, overrides already laid over.
        remedies: Every kind of remedy by key.
    """

    __slots__ = ("_remedies", "_rules")

    def __init__(self, rules: Mapping[str, Rule], remedies: Mapping[str, RemedyKind]) -> None:
        self._rules = dict(rules)
        self._remedies = dict(remedies)

    def rule(self, rule_id: str) -> Rule:
        """Return one rule.

        Raises:
            RuleError: No rule of that id.
        """
        try:
            return self._rules[rule_id]
        except KeyError:
            raise RuleError(
                f"No rule is called {rule_id}; `setline rules` lists them all.", asked=rule_id
            ) from None

    def length(self, rule_id: str) -> int:
        """Return the value of a rule that is one length, in ticks."""
        value = self.rule(rule_id).value
        assert isinstance(value, int), f"{rule_id} is not one length"
        return value

    def lengths(self, rule_id: str) -> tuple[int, ...]:
        """Return the value of a rule that is a list of lengths, in ticks."""
        value = self.rule(rule_id).value
        assert isinstance(value, tuple), f"{rule_id} is not a list of lengths"
        return value

    def number(self, rule_id: str) -> float:
        """Return the value of a rule that is a plain number."""
        value = self.rule(rule_id).value
        assert isinstance(value, int | float), f"{rule_id} is not a number"
        return float(value)

    def remedy(self, key: str) -> RemedyKind:
        """Return what a kind of remedy costs.

        Raises:
            RuleError: No kind of remedy of that key.
        """
        try:
            return self._remedies[key]
        except KeyError:
            raise RuleError(f"No kind of remedy is called {key}.", asked=key) from None

    def all(self) -> tuple[Rule, ...]:
        """Return every rule, in the book's order."""
        return tuple(self._rules.values())

    def remedies(self) -> tuple[RemedyKind, ...]:
        """Return every kind of remedy, in the book's order."""
        return tuple(self._remedies.values())
