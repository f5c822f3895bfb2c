"""Every rule that the code asks for is in the book, and every rule in the book is asked for."""

from __future__ import annotations

from tests.source_words import all_words, call_words, calls, words_in

from setline.rules import RULES, rule_book

KEPT: dict[str, str] = {}
"""Rules that stand in the book though no stage asks for them yet, and why."""

KEPT_REMEDIES: dict[str, str] = {}


def _asked(*methods: str) -> set[str]:
    """Return the ids in quotes that the book is asked for by these methods."""
    return {word for call in calls(*methods, without="rules") if call.args for word in words_in(call.args[0])}


def test_every_rule_asked_for_is_in_the_book() -> None:
    """No stage asks for a rule, and no finding or figure names one, that nobody wrote down."""
    ids = {rule.id for rule in RULES}
    named = {word for thing in ("Figure", "Finding") for word in call_words(thing, "rule")}
    assert (_asked("length", "lengths", "number", "rule") | named) - ids - {""} == set()


def test_every_kind_of_remedy_asked_for_is_in_the_book() -> None:
    """No remedy bears a kind whose hours and days nobody wrote down."""
    keys = {remedy.key for remedy in rule_book().remedies()}
    assert (_asked("remedy") | call_words("Remedy", "kind")) - keys == set()


def test_every_rule_is_asked_for_or_kept_for_a_reason() -> None:
    """A rule that nothing asks for is a number without a job."""
    words = all_words(without="rules")
    unused = {rule.id for rule in RULES if rule.id not in words}
    assert unused == set(KEPT)


def test_every_kind_of_remedy_is_offered_somewhere() -> None:
    """A kind of remedy that nothing offers is a cost without a cure."""
    words = all_words(without="rules")
    unused = {remedy.key for remedy in rule_book().remedies() if remedy.key not in words}
    assert unused == set(KEPT_REMEDIES)
