"""What somebody did, written down: the fields of the job that change, as entries of the field book."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from setline.field_book.places import pointer
from setline.result import Change
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import Site
from setline.web.writing import is_kept, keep

__all__ = ["keep_changes", "written"]


def written(changes: Iterable[Change]) -> dict[str, Any]:
    """Return place -> value of some changes; the last word on a place counts."""
    return {pointer(change.place): change.value for change in changes}


def keep_changes(
    site: Site,
    standing: Standing,
    device: Device,
    changes: Iterable[Change],
    *,
    act: str,
    beside: dict[str, Any] | None = None,
    seen: int | None = None,
) -> None:
    """Keep changes of a job as one act; what stands there already is not written again.

    Args:
        site: The running app's parts.
        standing: The job as the form's page showed it.
        device: Who sends it.
        changes: What changes.
        act: The form's act.
        beside: More places with their values, such as what tells of the work itself.
        seen: The revision that the form's page showed: what another device has written since lives on beside
            what this one writes, so that nobody's word is replaced unseen.
    """
    known = standing if seen is None else _as_seen(standing, device, seen)
    live = known.live
    values = {**written(changes), **(beside or {})}
    fresh = {
        place: value
        for place, value in values.items()
        if [(entry.value, entry.taken_back) for entry in live.get(place, ())] != [(value, value is None)]
    }
    if not is_kept(standing, act):
        keep(site, known, device, fresh, act=act)


def _as_seen(standing: Standing, device: Device, seen: int) -> Standing:
    """Return a job as a page showed it, with what the same device has done since."""
    later = (entry for entry in standing.entries[seen:] if entry.device == device.id)
    return replace(standing, entries=(*standing.entries[:seen], *later))
