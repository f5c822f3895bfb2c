"""Readings that ask: two people's word for one spot, far from their neighbours, sums that do not close.

What is asked stays kept meanwhile. A person may look at it and let it stand; then it asks no more until it is
read again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from setline.field_book.entry import Entry
from setline.field_book.place_words import place_words
from setline.field_book.unsettled import unsettled_findings
from setline.lengths import fine_step, show
from setline.web.walk.questions import neighbours, question_about
from setline.web.walk.spots import Spot, State
from setline.web.walk.walk_plan import Walk
from setline.wording import say

__all__ = ["Ask", "asks_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Something odd in what was read.

    Attributes:
        place: The place it is about.
        words: What that place is called.
        sentence: What is odd.
        key: Key of the walk's spot to read again, or empty.
        typed: What stands there.
        two: The two people's values, where it is about those.
    """

    place: str
    words: str
    sentence: str
    key: str = ""
    typed: str = ""
    two: tuple[Entry, ...] = ()


def asks_of(walk: Walk) -> tuple[Ask, ...]:
    """Return everything that asks and that nobody has let stand: people's differences first."""
    found = chain(_two_values(walk), _far(walk), _windows(walk), _lengths(walk))
    return tuple(ask for ask in found if ask.two or not walk.context.was_kept(ask.place, ask.typed))


def _two_values(walk: Walk) -> Iterator[Ask]:
    """Yield the places that hold two people's values."""
    unsettled = walk.context.standing.folded.unsettled
    for each, finding in zip(unsettled, unsettled_findings(unsettled), strict=True):
        yield Ask(
            place=each.place,
            words=place_words(each.place),
            sentence=finding.text,
            key=next((spot.key for spot in walk.by_key.values() if spot.place == each.place), ""),
            two=each.entries,
        )


def _far(walk: Walk) -> Iterator[Ask]:
    """Yield the readings that lie far from all their neighbours."""
    context, jump = walk.context, walk.context.book.length("reading-jump")
    for part in walk.parts:
        for spot in part.spots:
            if spot.state is not State.READ or spot.ticks is None:
                continue
            beside = neighbours(spot, walk.by_key.values())
            question = question_about(
                spot, spot.typed, spot.ticks, beside, first=None, jump=jump, units=context.units
            )
            if question is not None:
                yield _about(spot, question.sentence)


def _about(spot: Spot, sentence: str) -> Ask:
    """Return an ask about one spot."""
    return Ask(place=spot.place, words=spot.words, sentence=sentence, key=spot.key, typed=spot.typed)


def _windows(walk: Walk) -> Iterator[Ask]:
    """Yield the windows whose centre is known two ways that differ, or whose edges lie past the wall."""
    units = walk.context.units
    for key, left in walk.by_key.items():
        if not key.startswith("window ") or not key.endswith(" left"):
            continue
        name = key.removesuffix(" left")
        right, centre = walk.by_key[f"{name} right"], walk.by_key[f"{name} centre"]
        if left.ticks is None or right.ticks is None:
            continue
        if right.ticks <= left.ticks:
            yield _about(right, say("ask-edges", left=left.typed, right=right.typed))
        elif centre.ticks is not None:
            apart = abs(left.ticks + right.ticks - 2 * centre.ticks) // 2
            if apart > fine_step(units):
                middle = show((left.ticks + right.ticks) // 2, units)
                facts = {"left": left.typed, "right": right.typed, "middle": middle, "centre": centre.typed}
                yield _about(centre, say("ask-centre", **facts, apart=show(apart, units)))


def _lengths(walk: Walk) -> Iterator[Ask]:
    """Yield the edges that were read past the end of their wall."""
    for spot in walk.by_key.values():
        length = walk.context.walls.get(spot.wall)
        is_edge = spot.key.startswith("window ") and spot.height is None
        if is_edge and length is not None and spot.ticks is not None and spot.ticks > length:
            shown = show(length, walk.context.units)
            yield _about(spot, say("ask-past-wall", given=spot.typed, wall=spot.wall, length=shown))
