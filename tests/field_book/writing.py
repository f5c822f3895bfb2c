"""Entries for tests, in one line each."""

from __future__ import annotations

from setline.field_book.entry import Entry

SPOT = "/floor/set_ups/S1/readings/B/toe/24/1"


def entry(
    n: int,
    place: str,
    value: object,
    *,
    device: str = "truck",
    over: tuple[str, ...] = (),
    act: str = "",
    job: str = "j",
) -> Entry:
    """Return an entry that puts a value at a place, or takes it back where the value is None."""
    return Entry(
        id=f"{act}-{n}" if act else f"{device}.{n}",
        job=job,
        device=device,
        n=n,
        over=over,
        place=place,
        value=value,
        taken_back=value is None,
    )
