"""Entries that plain forms make: what was sent stands over what was live when the page was made.

Each form carries an ``act``, made with the page: sent twice, it makes the same entries, so a double press
keeps one.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from setline.field_book.entry import Entry, act_of
from setline.web.act import new_act
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import Site

__all__ = ["is_kept", "keep", "keep_entries", "make_entries", "new_act", "way_back"]


def make_entries(
    standing: Standing, device: Device, values: Mapping[str, Any], *, act: str, by: str = ""
) -> tuple[Entry, ...]:
    """Return the entries that put values at places, each over what is live there now.

    Args:
        standing: The job as the form's page showed it.
        device: Who sends it.
        values: Place -> value; None takes back what is there.
        act: The form's ``act``.
        by: Who was holding the device.
    """
    live = standing.live
    last = max((entry.n for entry in standing.entries if entry.device == device.id), default=0)
    now = datetime.now(UTC).isoformat(timespec="seconds")
    return tuple(
        Entry(
            id=f"{act}-{count}",
            job=standing.job_id,
            device=device.id,
            n=last + count,
            over=tuple(entry.id for entry in live.get(place, ()) if not entry.id.startswith(f"{act}-")),
            by=by or device.name,
            at=now,
            place=place,
            value=value,
            taken_back=value is None,
        )
        for count, (place, value) in enumerate(values.items(), start=1)
        if value is not None or place in live
    )


def keep(
    site: Site, standing: Standing, device: Device, values: Mapping[str, Any], *, act: str, by: str = ""
) -> None:
    """Keep what a form sent, and tell the open pages."""
    if is_kept(standing, act):  # the same form again: it was kept the first time
        return
    keep_entries(site, standing, make_entries(standing, device, values, act=act, by=by))


def is_kept(standing: Standing, act: str) -> bool:
    """Return whether what a form did was kept before."""
    return any(act_of(entry) == act for entry in standing.entries)


def keep_entries(site: Site, standing: Standing, entries: tuple[Entry, ...]) -> None:
    """Keep entries that were made here, and tell the open pages."""
    if entries:
        kept = site.store.keep(entries)
        site.feed.tell(standing.job_id, kept.revisions[standing.job_id])


def way_back(standing: Standing, asked: str) -> str:
    """Return the page of this job that a form asked to lead back to, without its question mark and beyond."""
    path = asked.partition("?")[0].partition("#")[0]
    job = f"/j/{standing.job_id}"
    plain = path.isascii() and path.isprintable() and "\\" not in path and " " not in path
    return path if plain and (path == job or path.startswith(f"{job}/")) else job
