"""A job file brought into the field book as entries, and a field book written out as a job file.

What goes in comes out: the export of an import is the same document. Only the comments of a file are not kept
(``import-no-comments`` says so); the file itself is left as it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from setline.errors import JobFileError
from setline.field_book.entry import Entry, checked
from setline.field_book.fold import fold
from setline.field_book.places import to_places
from setline.job.write import to_dict, to_toml

__all__ = ["export_job", "export_toml", "import_job"]


def import_job(
    document: Mapping[str, Any], device: str, *, job: str, act: str, by: str = "", at: str = "", n: int = 1
) -> tuple[Entry, ...]:
    """Return the entries that a job document makes.

    Args:
        document: The document as ``job.write.to_dict`` gives it.
        device: The device that brings it in.
        job: The job's id in the store.
        act: A name for this import; the same act makes the same ids, so it may be repeated.
        by: Who brings it in.
        at: When, shown only.
        n: The device's count of the first entry.

    Raises:
        InputError: A name in it is too long for a place.
    """
    places = to_places(dict(document))
    return tuple(
        checked(
            Entry(
                id=f"{act}-{count}",
                job=job,
                device=device,
                n=n + count,
                by=by,
                at=at,
                place=place,
                value=value,
            )
        )
        for count, (place, value) in enumerate(places.items())
    )


def export_job(entries: Iterable[Entry]) -> dict[str, Any]:
    """Return the document that entries of one job make, whole or not yet."""
    folded = fold(entries)
    return folded.document if folded.job is None else to_dict(folded.job)


def export_toml(entries: Iterable[Entry]) -> str:
    """Return the job file that entries of one job make.

    Raises:
        JobFileError: They make no whole job yet; it carries what is missing.
    """
    folded = fold(entries)
    if folded.job is None:
        raise JobFileError(folded.faults)
    return to_toml(folded.job)
