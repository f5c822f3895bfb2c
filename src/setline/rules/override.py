"""A job's own value laid over a rule of the trade."""

from __future__ import annotations

import re
from dataclasses import replace
from difflib import get_close_matches

from setline.errors import InputError, RuleError, TapeNotationError
from setline.lengths import Length, Tape, length_from_number, read_length
from setline.rules.rule import Kind, RemedyKind, Rule, Unit

__all__ = ["lay_over"]

_WANTS = {
    Unit.LENGTH: "a length, such as 1/8 or 3 mm",
    Unit.COUNT: "a whole number, 0 or more",
    Unit.RATIO: "a number, 0 or more",
    Unit.HOURS: "hours, 0 or more",
    Unit.DAYS: "days, 0 or more",
}


def lay_over(
    rules: dict[str, Rule],
    remedies: dict[str, RemedyKind],
    rule_id: str,
    given: Length | int | float | str,
    tape: Tape,
) -> None:
    """Put a job's own value in the place of the trade's.

    Args:
        rules: The rules by id; the one overridden is replaced.
        remedies: The kinds of remedy by key; likewise.
        rule_id: Id of a rule, or a remedy's key with ``-hours`` or ``-days``.
        given: The job's value.
        tape: The job's tape, for lengths that come as text or as bare numbers.

    Raises:
        RuleError: No rule of that id.
        InputError: A value of the wrong kind.
    """
    if rule_id in rules:
        rule = rules[rule_id]
        rules[rule_id] = replace(
            rule, value=_value(rule, given, tape), source="this job", edition="-", kind=Kind.THIS_JOB
        )
        return
    key, _, cost = rule_id.rpartition("-")
    if key not in remedies or cost not in ("hours", "days"):
        costs = [f"{key}-{cost}" for key in remedies for cost in ("hours", "days")]
        raise _unknown(rule_id, [*rules, *costs])
    amount = _number(rule_id, Unit(cost), given)
    old = remedies[key]
    hours, days = (amount, old.days) if cost == "hours" else (old.hours, amount)
    remedies[key] = replace(old, hours=hours, days=days, source="this job")


def _unknown(rule_id: str, ids: list[str]) -> RuleError:
    """Return the refusal of an id that no rule has, with the ids that look like it."""
    near = get_close_matches(rule_id, ids, n=3, cutoff=0.5)
    hint = f"nearest: {', '.join(near)}" if near else "`setline rules` lists them all"
    return RuleError(f"rules.{rule_id}: no rule is called that; {hint}.", asked=rule_id)


def _value(rule: Rule, given: Length | int | float | str, tape: Tape) -> int | float | tuple[int, ...]:
    """Return the given value in the rule's own unit."""
    if rule.unit is not Unit.LENGTH:
        return _number(rule.id, rule.unit, given)
    if isinstance(rule.value, tuple):
        return _lengths(rule.id, given, tape)
    return _length(rule.id, given, tape)


def _length(rule_id: str, given: Length | int | float | str, tape: Tape) -> int:
    """Return one length in ticks."""
    try:
        if isinstance(given, str):
            ticks = read_length(given, tape).ticks
        elif isinstance(given, Length):
            ticks = given.ticks
        else:
            ticks = length_from_number(given, tape).ticks
    except TapeNotationError as refusal:
        raise InputError(f"rules.{rule_id} wants {_WANTS[Unit.LENGTH]}. {refusal}") from refusal
    if ticks < 0:
        raise _wrong_kind(rule_id, Unit.LENGTH, given)
    return ticks


def _lengths(rule_id: str, given: Length | int | float | str, tape: Tape) -> tuple[int, ...]:
    """Return a list of lengths in ticks, from one text parted by commas."""
    if not isinstance(given, str):
        return (_length(rule_id, given, tape),)
    return tuple(_length(rule_id, part, tape) for part in re.split(r"[,;]\s+", given.strip()) if part)


def _number(rule_id: str, unit: Unit, given: Length | int | float | str) -> float:
    """Return a plain number."""
    text = given.typed if isinstance(given, Length) else given
    try:
        number = float(text)
    except ValueError:
        raise _wrong_kind(rule_id, unit, given) from None
    if not 0 <= number < float("inf") or (unit is Unit.COUNT and number != int(number)):
        raise _wrong_kind(rule_id, unit, given)
    return int(number) if unit is Unit.COUNT else number


def _wrong_kind(rule_id: str, unit: Unit, given: Length | int | float | str) -> InputError:
    """Return the refusal of a value that is not what the rule counts in."""
    text = given.typed if isinstance(given, Length) else given
    return InputError(f"rules.{rule_id} wants {_WANTS[unit]}; the job gives {text}.")
