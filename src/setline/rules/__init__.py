"""The trade's rules as data with their sources, and the book that a job works by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from setline.lengths import Length, Tape, Units
from setline.rules.appliances import APPLIANCES
from setline.rules.as_set import AS_SET
from setline.rules.floor import FLOOR
from setline.rules.heights import HEIGHTS
from setline.rules.laser import LASER
from setline.rules.layout import LAYOUT
from setline.rules.override import lay_over
from setline.rules.planning import PLANNING
from setline.rules.remedies import REMEDIES
from setline.rules.rule import Kind, RemedyKind, Rule, RuleBook, Unit
from setline.rules.shims import SHIMS

__all__ = ["RULES", "Kind", "RemedyKind", "Rule", "RuleBook", "Unit", "rule_book"]

RULES: tuple[Rule, ...] = HEIGHTS + FLOOR + SHIMS + LASER + LAYOUT + APPLIANCES + PLANNING + AS_SET


def rule_book(
    overrides: Mapping[str, Length | int | float | str] | None = None, *, tape: Tape | None = None
) -> RuleBook:
    """Return the rules a job works by: the trade's, with the job's own values laid over them.

    Args:
        overrides: The job's own values by rule id. A length as typed or as read, a bare number in whole tape
            units; a list of lengths as one text, parted by commas (``"1/16, 1/8, 1/4"``); for a kind of
            remedy ``<key>-hours`` and ``<key>-days``.
        tape: The job's tape; on a metric one each rule takes its metric value, where it has one.

    Raises:
        RuleError: No rule of that id; the nearest ids stand in the sentence.
        InputError: A value of the wrong kind, such as a length for a count.
    """
    tape = tape or Tape()
    rules = {rule.id: _on_tape(rule, tape.units) for rule in RULES}
    remedies = {remedy.key: remedy for remedy in REMEDIES}
    for rule_id, given in (overrides or {}).items():
        lay_over(rules, remedies, rule_id, given, tape)
    return RuleBook(rules, remedies)


def _on_tape(rule: Rule, units: Units) -> Rule:
    """Return the rule with the value that a job on this tape works by."""
    if units is Units.METRIC and rule.metric is not None:
        return replace(rule, value=rule.metric)
    return rule
