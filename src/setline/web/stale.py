"""A press on an older page: what was changed meanwhile, so that nothing merges in silence."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from setline.field_book.place_words import place_words
from setline.web.planning import Standing
from setline.wording import say

__all__ = ["Since", "since"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Since:
    """Something that was changed after a page was made.

    Attributes:
        place: What it is called.
        by: Who changed it.
        at: When, by the clock of their device: hours and minutes.
    """

    place: str
    by: str
    at: str


def since(standing: Standing, seen: int, places: Iterable[str]) -> tuple[Since, ...]:
    """Return what was changed at some places since a revision, each place once, by the last who did.

    Args:
        standing: The job as it stands.
        seen: The revision that the page showed; 0 where it did not say.
        places: Addresses, each with all that lies under it.
    """
    if seen <= 0:
        return ()
    starts = tuple(places)
    found: dict[str, Since] = {}
    for entry in standing.entries[seen:]:
        if entry.place.startswith(starts):
            by = entry.by or say("troubles-somebody")
            found[entry.place] = Since(place=place_words(entry.place), by=by, at=entry.at[11:16])
    return tuple(found.values())
