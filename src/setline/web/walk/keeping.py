"""Keeping a reading: its entries, each over what the page showed as standing there.

A form carries the ids that it saw. Where somebody else has read the same spot since, both values live side by
side and one of the two people settles it; nobody's reading is replaced unseen.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from setline.field_book.entry import Entry
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import Site
from setline.web.walk.context import WalkContext, skip_place
from setline.web.walk.questions import Way
from setline.web.walk.spots import Spot

__all__ = ["FIRST", "Written", "keep_written", "of_reading", "of_skip"]

FIRST = "first of this act"


@dataclass(frozen=True, slots=True)
class Written:
    """A value for a place.

    Attributes:
        place: The place.
        value: The value, or None to take back what it stands over.
        over: Ids of what it stands over; ``FIRST`` is the first entry of the same act.
    """

    place: str
    value: Any
    over: tuple[str, ...] = ()


def of_reading(context: WalkContext, spot: Spot, text: str, way: Way, over: Sequence[str]) -> list[Written]:
    """Return what keeping a reading writes.

    Args:
        context: The job.
        spot: Where it was read.
        text: As typed.
        way: How a question about it was answered.
        over: Ids that its page showed as standing there.
    """
    skipped = tuple(entry.id for entry in context.live.get(skip_place(spot.key), ()))
    more = [Written(place, value) for place, value in spot.also if place not in context.live]
    if skipped and spot.key in context.skipped:
        more.append(Written(skip_place(spot.key), None, skipped))
    if way == "first":  # the second was read: it is in the book, and taken back
        return [Written(spot.place, spot.value_of(text), tuple(over)), Written(spot.place, None, (FIRST,))]
    if way == "keep" and spot.first_place:
        first = tuple(entry.id for entry in context.live.get(spot.first_place, ()))
        return [Written(spot.first_place, spot.value_of(text), first), *more]
    return [Written(spot.place, spot.value_of(text), tuple(over)), *more]


def of_skip(context: WalkContext, spot: Spot, why: str) -> list[Written]:
    """Return what skipping a spot writes."""
    place = skip_place(spot.key)
    return [Written(place, why, tuple(entry.id for entry in context.live.get(place, ())))]


def keep_written(
    site: Site, standing: Standing, device: Device, written: Iterable[Written], *, act: str
) -> int:
    """Keep what a form wrote, and tell the open pages; the same act again keeps nothing more.

    Returns:
        How many entries were new.
    """
    known = {entry.id for entry in standing.entries}
    if f"{act}-1" in known:
        return 0
    last = max((entry.n for entry in standing.entries if entry.device == device.id), default=0)
    now = datetime.now(UTC).isoformat(timespec="seconds")
    entries = tuple(
        Entry(
            id=f"{act}-{count}",
            job=standing.job_id,
            device=device.id,
            n=last + count,
            over=tuple(f"{act}-1" if old == FIRST else old for old in each.over),
            by=device.name,
            at=now,
            place=each.place,
            value=each.value,
            taken_back=each.value is None,
        )
        for count, each in enumerate(written, start=1)
    )
    if not entries:
        return 0
    new = site.store.add(entries)
    site.feed.tell(standing.job_id, site.store.revision(standing.job_id))
    return new
