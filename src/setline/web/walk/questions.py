"""What is asked when a reading is odd: far from its neighbours, or not as it was the first time.

Asked, not stopped: every question can be answered by keeping what was read.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Rounding, Units, fine_step, round_to, show
from setline.web.walk.spots import Spot, State
from setline.wording import say

__all__ = ["Answer", "Question", "between", "neighbours", "question_about"]

Way = Literal["keep", "again", "other", "first", "both"]


@dataclass(frozen=True, slots=True)
class Answer:
    """One button of a question.

    Attributes:
        way: ``keep`` what was read; read it ``again``; it was an ``other`` number; keep the ``first``
            reading; keep ``both``, so that the middle is used.
        label: What the button says.
        text: The text that is kept.
    """

    way: Way
    label: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question about a reading, and its buttons.

    Attributes:
        sentence: What is odd, with its numbers.
        answers: The buttons.
    """

    sentence: str
    answers: tuple[Answer, ...]


def neighbours(spot: Spot, spots: Iterable[Spot]) -> tuple[Spot, ...]:
    """Return the spots that were read next to one on its own line, at most one on either side."""
    read = [
        other
        for other in spots
        if other.line == spot.line
        and other.key != spot.key
        and other.state is State.READ
        and other.ticks is not None
    ]
    before = [other for other in read if other.along <= spot.along]
    after = [other for other in read if other.along > spot.along]
    found = [max(before, key=lambda other: other.along)] if before else []
    return (*found, *([min(after, key=lambda other: other.along)] if after else []))


def question_about(
    spot: Spot, text: str, ticks: int, beside: Iterable[Spot], *, first: int | None, jump: int, units: Units
) -> Question | None:
    """Return what is odd about a reading, or None.

    Args:
        spot: The spot it was taken at.
        text: As typed.
        ticks: Its value.
        beside: Its neighbours.
        first: What was read there the first time, where it is a repeat. [ticks]
        jump: From this far off all its neighbours it is asked about. [ticks]
        units: The tape.
    """
    if first is not None:
        return _repeat(spot, text, ticks, first, units)
    near = [(other.typed, other.ticks) for other in beside if other.ticks is not None]
    if spot.expected is not None:
        near.append((show(spot.expected, units), spot.expected))
    if not near or any(abs(ticks - value) < jump for _, value in near):
        return None
    return _far(spot, text, ticks, near, units)


def _repeat(spot: Spot, text: str, ticks: int, first: int, units: Units) -> Question | None:
    """Return the question about a repeat that differs by more than the last line of the tape."""
    apart = abs(ticks - first)
    if apart <= fine_step(units):
        return None
    middle = between(first, ticks, units)
    return Question(
        sentence=say("ask-repeat", first=spot.first, now=text, apart=show(apart, units)),
        answers=(
            Answer("both", say("answer-middle", middle=middle), text),
            Answer("first", say("answer-first", first=spot.first), text),
            Answer("keep", say("answer-this", now=text), text),
        ),
    )


def between(first: int, second: int, units: Units) -> str:
    """Return the text of the middle of two readings, to the finest line of the tape."""
    finest = TICKS_PER_INCH // 64 if units == Units.INCH else TICKS_PER_MM // 10
    return show(round_to((first + second) // 2, finest, Rounding.NEAREST_UP), units)


def _far(spot: Spot, text: str, ticks: int, near: list[tuple[str, int]], units: Units) -> Question:
    """Return the question about a reading that lies far from all its neighbours."""
    closest = min((value for _, value in near), key=lambda value: abs(ticks - value))
    key = (
        "ask-expected" if spot.expected is not None else "ask-far-more" if ticks > closest else "ask-far-less"
    )
    sentence = say(
        key,
        given=show(ticks, units),
        apart=show(abs(ticks - closest), units),
        near=", ".join(typed for typed, _ in near),
    )
    answers = [Answer("again", say("answer-again"), text), Answer("keep", say("answer-right"), text)]
    whole = TICKS_PER_INCH if units == Units.INCH else 100 * TICKS_PER_MM
    steps = round_to(closest - ticks, whole, Rounding.NEAREST_UP)
    if steps and abs(ticks + steps - closest) < abs(ticks - closest) and ticks + steps >= 0:
        other = show(ticks + steps, units)
        answers.append(Answer("other", say("answer-other", other=other), other))
    return Question(sentence=sentence, answers=tuple(answers))
