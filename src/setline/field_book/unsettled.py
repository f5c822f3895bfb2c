"""Places with two people's values, as findings that stand beside the plan's until one of them settles it."""

from __future__ import annotations

from collections.abc import Iterable

from setline.field_book.fold import TwoValues, is_length
from setline.field_book.place_words import place_words
from setline.result import Finding, Rank
from setline.wording import say

__all__ = ["unsettled_findings"]

_LONGEST = 40


def unsettled_findings(unsettled: Iterable[TwoValues]) -> tuple[Finding, ...]:
    """Return a finding for each place with more than one live value.

    Args:
        unsettled: ``Folded.unsettled``.

    Returns:
        Findings of rank *decide*, code ``two-values``; ``readings`` holds the place's address in the book,
        for its history and for settling it.
    """
    return tuple(_finding(each) for each in unsettled)


def _finding(two: TwoValues) -> Finding:
    """Return the finding of one place."""
    where = place_words(two.place)
    said = say("two-values-and").join(
        say("two-values-one", value=_short(entry.value), by=entry.by or entry.device) for entry in two.entries
    )
    key = "two-values-middle" if is_length(two.place) else "two-values-first"
    text = say(key, where=where, said=said, used=_short(two.used))
    return Finding(code="two-values", rank=Rank.DECIDE, where=where, text=text, readings=(two.place,))


def _short(value: object) -> str:
    """Return a value as it was typed, cut where it is a long list."""
    text = str(value)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."
