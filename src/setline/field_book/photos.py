"""Photos: files beside the store, each made anew from what was sent, and a row that says where it belongs.

A photo from a phone carries where and when it was taken, and by what; a file of any other origin may carry
worse. So nothing that was sent is kept: the picture is read, turned upright, made at most 1600 px wide and
high, and written as a new JPEG without anything beside the picture. The file is whole and on the disk before
its row is kept.
"""

from __future__ import annotations

import hashlib
import io
import os
import secrets
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import delete, func, insert, select
from sqlalchemy.exc import IntegrityError

from setline.field_book.database import Database
from setline.field_book.faults import NotInStore, PhotoRefused, StoreFull
from setline.field_book.tables import jobs, photos
from setline.wording import say

if TYPE_CHECKING:
    from PIL import Image

__all__ = ["LONGEST_SIDE", "MOST_BYTES", "MOST_OF_A_JOB", "MOST_PIXELS", "Photo", "Photos"]

MOST_BYTES = 25_000_000
MOST_PIXELS = 64_000_000
MOST_OF_A_JOB = 1000
LONGEST_SIDE = 1600
_FORMATS = ("JPEG", "PNG", "WEBP")
_QUALITY = 82


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photo that is kept.

    Attributes:
        id: Its id, which is also its file's name.
        job: The job it belongs to.
        place: The place in the job that it shows.
        device: The device that sent it.
        at: When, as that device's clock had it; shown only.
        width: In pixels.
        height: In pixels.
        bytes: Size of its file.
    """

    id: str
    job: str
    place: str
    device: str
    at: str
    width: int
    height: int
    bytes: int


class Photos:
    """The photos of a store.

    Args:
        database: The store's database.
        folder: Where their files lie; made when the first is kept.
    """

    def __init__(self, database: Database, folder: Path) -> None:
        self._database = database
        self.folder = folder

    def add(self, job: str, place: str, device: str, sent: bytes, *, at: str = "", act: str = "") -> Photo:
        """Keep a photo.

        Args:
            job: The job it belongs to.
            place: The place in the job that it shows.
            device: Who sends it.
            sent: The file as it was sent: JPEG, PNG or WebP.
            at: When, shown only.
            act: A name for this sending: what is sent again under it is the photo that was kept.

        Raises:
            PhotoRefused: It is too large, or no picture of these kinds; the sentence says which.
            NotInStore: There is no such job.
            StoreFull: No room on the disk; neither file nor row was kept.
        """
        name = hashlib.sha256(f"{job}/{act}".encode()).hexdigest()[:32] if act else secrets.token_hex(16)
        if (kept := self._kept(job, name)) is not None:
            return kept
        self._check_room(job)
        content, width, height = upright_jpeg(sent)
        photo = Photo(
            id=name,
            job=job,
            place=place,
            device=device,
            at=at,
            width=width,
            height=height,
            bytes=len(content),
        )
        self.write_file(photo.id, content)
        try:
            with self._database.writing() as connection:
                row = {field: getattr(photo, field) for field in Photo.__dataclass_fields__}
                held = select(jobs.c.is_deleted).where(jobs.c.id == job).with_for_update()
                if connection.execute(held).scalar() is not False:
                    raise NotInStore(say("no-such-job", job=job))
                connection.execute(insert(photos), [row])
        except IntegrityError:  # sent twice at once, and the other was first: the file is its own
            return photo
        except BaseException:  # whatever it was, no file stays without its row
            self.remove_files([photo.id])
            raise
        return photo

    def _kept(self, job: str, name: str) -> Photo | None:
        """Return a job's photo of that id, if it is kept."""
        query = select(photos).where(photos.c.job == job, photos.c.id == name)
        with self._database.reading() as connection:
            row = connection.execute(query).mappings().first()
        return None if row is None else Photo(**row)

    def _check_room(self, job: str) -> None:
        """Refuse a photo of no job, or one more than a job may have."""
        with self._database.reading() as connection:
            if connection.execute(select(jobs.c.is_deleted).where(jobs.c.id == job)).scalar() is not False:
                raise NotInStore(say("no-such-job", job=job))
            count = select(func.count()).select_from(photos).where(photos.c.job == job)
            if connection.execute(count).scalar_one() >= MOST_OF_A_JOB:
                raise PhotoRefused(say("photo-too-many", most=MOST_OF_A_JOB))

    def of_job(self, job: str) -> tuple[Photo, ...]:
        """Return a job's photos, by when and id."""
        query = select(photos).where(photos.c.job == job).order_by(photos.c.at, photos.c.id)
        with self._database.reading() as connection:
            return tuple(Photo(**row) for row in connection.execute(query).mappings())

    def content(self, job: str, photo: str) -> bytes:
        """Return a photo's JPEG.

        Raises:
            NotInStore: The job has no such photo, or its file is gone.
        """
        with self._database.reading() as connection:
            query = select(photos.c.id).where(photos.c.job == job, photos.c.id == photo)
            held = connection.execute(query).scalar()
        try:
            if held is not None:
                return self._path(held).read_bytes()
        except FileNotFoundError:
            pass
        raise NotInStore(say("no-such-photo"))

    def remove(self, job: str, photo: str) -> None:
        """Delete a photo.

        Raises:
            NotInStore: The job has no such photo.
        """
        with self._database.writing() as connection:
            found = connection.execute(delete(photos).where(photos.c.job == job, photos.c.id == photo))
            if not found.rowcount:
                raise NotInStore(say("no-such-photo"))
        self.remove_files([photo])

    def remove_files(self, ids: Iterable[str]) -> None:
        """Delete files whose rows are gone; one that is gone already is no trouble."""
        for photo in ids:
            self._path(photo).unlink(missing_ok=True)

    def sweep(self) -> int:
        """Delete files that no row names, as a power cut leaves them, while nobody sends; return how many."""
        with self._database.reading() as connection:
            known = {f"{photo}.jpg" for photo in connection.execute(select(photos.c.id)).scalars()}
        found = [path for path in self.folder.glob("*") if path.name not in known and path.is_file()]
        for path in found:
            path.unlink(missing_ok=True)
        return len(found)

    def write_file(self, photo: str, content: bytes) -> None:
        """Write a photo's file: all of it, on the disk, or nothing.

        Raises:
            StoreFull: It could not be written.
        """
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self.folder, suffix=".part")
        except OSError as trouble:
            raise _no_room(trouble) from trouble
        part = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            part.replace(self._path(photo))
        except OSError as trouble:
            part.unlink(missing_ok=True)
            raise _no_room(trouble) from trouble

    def _path(self, photo: str) -> Path:
        """Return a photo's file."""
        return self.folder / f"{photo}.jpg"


def upright_jpeg(sent: bytes) -> tuple[bytes, int, int]:
    """Return a picture as a new JPEG with nothing beside it, its width and its height.

    Raises:
        PhotoRefused: It is too large, or no picture of the kinds that are read.
    """
    from PIL import Image, ImageOps

    if len(sent) > MOST_BYTES:
        raise PhotoRefused(say("photo-too-large", most=MOST_BYTES // 1_000_000))
    try:
        with Image.open(io.BytesIO(sent), formats=_FORMATS) as opened:
            if opened.width * opened.height > MOST_PIXELS:  # told by its head, before it is unpacked
                raise PhotoRefused(say("photo-too-many-pixels", most=MOST_PIXELS // 1_000_000))
            opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(opened)
            upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE), reducing_gap=2.0)
            picture = _on_white(upright)
    except PhotoRefused:
        raise
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoRefused(say("photo-too-many-pixels", most=MOST_PIXELS // 1_000_000)) from None
    except Exception as trouble:  # a decoder may trip over a hostile file in any way of its own
        raise PhotoRefused(say("photo-not-read")) from trouble
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=_QUALITY, optimize=True)
    return written.getvalue(), picture.width, picture.height


def _on_white(picture: Image.Image) -> Image.Image:
    """Return a picture as plain colours, what was see-through on white; only the pixels come along."""
    from PIL import Image

    if picture.has_transparency_data:
        picture = picture.convert("RGBA")
        ground = Image.new("RGBA", picture.size, "white")
        picture = Image.alpha_composite(ground, picture)
    plain = Image.new("RGB", picture.size)
    plain.paste(picture.convert("RGB"))
    return plain


def _no_room(trouble: OSError) -> StoreFull:
    """Return the fault for a file that could not be written."""
    return StoreFull(say("photo-not-kept", why=(trouble.strerror or "").lower()))
