"""Everything written out for other programs: a job file for each job, its whole history, its photos."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from setline.errors import JobFileError
from setline.field_book.entry import entry_to_dict
from setline.field_book.faults import StoreFull
from setline.field_book.fold import fold
from setline.field_book.store import Store
from setline.field_book.transfer import export_toml
from setline.wording import say

__all__ = ["Exported", "export_all", "export_one", "file_stem"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Exported:
    """One job that was written out.

    Attributes:
        job: Its id.
        files: The files, by name.
        is_whole: Whether its entries make a job file; without one, its entries are there all the same.
    """

    job: str
    files: tuple[str, ...]
    is_whole: bool


def export_all(store: Store, folder: Path) -> tuple[Exported, ...]:
    """Write every job of a store into a folder that is empty or not there yet.

    For each job: ``<name>.toml``, the job file, where its entries make one; ``<name>.entries.jsonl``, every
    entry that was ever made, one a line; ``<name>-photos/``.

    Raises:
        StoreFull: It could not be written.
        FileExistsError: There is something in the folder.
    """
    if folder.exists() and any(folder.iterdir()):
        raise FileExistsError(17, say("export-not-empty"), str(folder))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return tuple(export_one(store, job, folder) for job in store.job_ids())
    except OSError as trouble:
        why = (trouble.strerror or str(trouble)).lower()
        raise StoreFull(say("export-not-written", folder=folder, why=why)) from trouble


def export_one(store: Store, job: str, folder: Path) -> Exported:
    """Write one job of a store into a folder that is there.

    Raises:
        NotInStore: There is no such job.
        OSError: It could not be written.
    """
    entries = store.entries(job)
    stem = file_stem(str(fold(entries).document.get("job", {}).get("name", "")), job)
    lines = (json.dumps(entry_to_dict(entry), ensure_ascii=False) + "\n" for entry in entries)
    files = {f"{stem}.entries.jsonl": "".join(lines).encode()}
    with suppress(JobFileError):  # not all of it was read yet
        files[f"{stem}.toml"] = export_toml(entries).encode()
    written = [*files, *(name for name, _ in _photos(store, job, stem))]
    for name, content in [*files.items(), *_photos(store, job, stem)]:
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
    return Exported(job=job, files=tuple(written), is_whole=f"{stem}.toml" in files)


def _photos(store: Store, job: str, stem: str) -> Iterator[tuple[str, bytes]]:
    """Yield a job's photos by the names they are written under."""
    if store.photos is not None:
        for photo in store.photos.of_job(job):
            yield f"{stem}-photos/{photo.id}.jpg", store.photos.content(job, photo.id)


def file_stem(name: str, job: str) -> str:
    """Return what a job's files are called: its name in plain letters, and its id so that no two are alike.

    Example:
        >>> file_stem("Larkspur Street", "j4f2a")
        'larkspur-street-j4f2a'
    """
    plain = re.sub(r"[\W_]+", "-", name.casefold()).strip("-")[:60].strip("-")
    own = re.sub(r"[^A-Za-z0-9]+", "-", job).strip("-")
    if own != job:  # signs that no file should have: two ids may look alike without them
        own = f"{own}-{hashlib.sha256(job.encode()).hexdigest()[:8]}"
    return "-".join(part for part in (plain, own) if part) or "job"
