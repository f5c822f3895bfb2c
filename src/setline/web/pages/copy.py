"""A job to take along: its job file, or all that was ever kept of it; and every job at once."""

from __future__ import annotations

import shutil
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO
from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response, StreamingResponse

from setline.errors import JobFileError
from setline.field_book.export import export_all, export_one, file_stem
from setline.field_book.faults import StoreFull
from setline.field_book.transfer import export_toml
from setline.web.menu import Group
from setline.web.photo_places import JobPhotos
from setline.web.render import Frame, render
from setline.web.session import Role
from setline.web.site import Visitor, Writer, WriterPage, site_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

_PIECE = 256 * 1024


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyPage:
    """What can be taken along.

    Attributes:
        is_whole: Whether there is a job file.
        entries: How many entries were ever made.
        photos: How many photos are kept.
        may_delete: Whether this device may delete the job.
    """

    is_whole: bool
    entries: int
    photos: int
    may_delete: bool


@router.get("/j/{j}/copy")
def copy(request: Request, standing: WriterPage, device: Writer) -> Response:
    """Show what can be taken along of a job."""
    page = CopyPage(
        is_whole=standing.job is not None,
        entries=standing.revision,
        photos=len(JobPhotos(site_of(request), standing.job_id).all),
        may_delete=device.role is Role.HOST,
    )
    frame = Frame(title=say("page-copy"), device=device, standing=standing, group=Group.PAPER)
    return render(request, "copy.html", frame, page)


@router.get("/j/{j}/copy/job.toml")
def job_file(standing: WriterPage) -> Response:
    """Hand out the job file."""
    try:
        text = export_toml(standing.entries)
    except JobFileError as wrong:
        raise HTTPException(409, say("copy-not-whole", faults=str(wrong))) from wrong
    name = f"{file_stem(standing.name, standing.job_id)}.toml"
    return Response(text, media_type="application/toml", headers=_to_save(name))


@router.get("/j/{j}/copy/all.zip")
def whole_job(request: Request, standing: WriterPage) -> Response:
    """Hand out all that was ever kept of a job: job file, entries, photos."""
    store, name = site_of(request).store, file_stem(standing.name, standing.job_id)
    return _zipped(name, lambda folder: export_one(store, standing.job_id, folder))


@router.get("/jobs/all.zip")
def every_job(request: Request, device: Visitor) -> Response:
    """Hand out every job."""
    if not device.may_write:
        raise HTTPException(403, say("guest-reads-only"))
    store = site_of(request).store
    return _zipped("setline-jobs", lambda folder: export_all(store, folder))


def _zipped(name: str, write: Callable[[Path], object]) -> Response:
    """Return what is written into a folder as one file; the folder is gone when the answer starts.

    Raises:
        StoreFull: There is no room to write it.
    """
    packed = tempfile.TemporaryFile()  # noqa: SIM115 - open until the answer is sent
    folder = Path(tempfile.mkdtemp())
    try:
        write(folder)
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in sorted(folder.rglob("*")):
                archive.write(path, path.relative_to(folder))
    except OSError as trouble:
        packed.close()
        raise StoreFull(say("copy-no-room", why=(trouble.strerror or "").lower())) from trouble
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    size = packed.tell()
    packed.seek(0)
    headers = {**_to_save(f"{name}.zip"), "content-length": str(size)}
    return StreamingResponse(_pieces(packed), media_type="application/zip", headers=headers)


def _pieces(packed: IO[bytes]) -> Iterator[bytes]:
    """Yield a file piece by piece, and close it."""
    with packed:
        while piece := packed.read(_PIECE):
            yield piece


def _to_save(name: str) -> dict[str, str]:
    """Return the headers of an answer that is saved under a name, of whatever letters (RFC 6266)."""
    said = f'filename="{name}"' if name.isascii() else f"filename*=UTF-8''{quote(name)}"
    return {"content-disposition": f"attachment; {said}", "cache-control": "no-store"}
