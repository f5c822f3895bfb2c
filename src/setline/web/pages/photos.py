"""Photos of walls, boxes and troubles: taken with the phone, looked at, deleted."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

from fastapi import APIRouter, File, Form, HTTPException, Path, Request, UploadFile
from fastapi.responses import RedirectResponse, Response

from setline.field_book.faults import NotInStore, PhotoRefused
from setline.field_book.photos import MOST_BYTES, Photo, Photos
from setline.web.menu import Group
from setline.web.photo_places import JobPhotos, PhotoPlace, photo_places, photo_words
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import HOST, Device
from setline.web.site import JobPage, Site, Visitor, Writer, WriterPage, site_of
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
PhotoId = Annotated[str, Path(pattern=r"^[0-9a-f]{32}$")]
_SMALL = 320
"""Longest side of a photo in a list. [px]"""
_KEPT = {"cache-control": "private, max-age=3600"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A photo as a page tells it: what it is of, who took it, when."""

    photo: Photo
    words: str
    by: str
    at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotosPage:
    """The photos of a job, or of one place in it.

    Attributes:
        act: The form's act.
        place: The one place, or None for all.
        places: Everything that a photo may be of.
        shots: The photos, the newest first.
        most: Size that a photo may have, in millions of bytes.
        sentence: What was not taken.
    """

    act: str
    place: PhotoPlace | None
    places: tuple[PhotoPlace, ...]
    shots: tuple[Shot, ...]
    most: int
    sentence: str = ""


@router.get("/j/{j}/photos")
def photos(request: Request, standing: JobPage, device: Visitor, place: str = "") -> Response:
    """Show the photos of a job, or of one place in it."""
    return _list(request, standing, device, place=place)


@router.post("/j/{j}/photos")
def add(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    place: Annotated[str, Form(max_length=300)],
    take: Annotated[UploadFile | None, File()] = None,
    choose: Annotated[UploadFile | None, File()] = None,
) -> Response:
    """Keep a photo: the first picture that came along."""
    sent = next((file for file in (take, choose) if file is not None and file.size), None)
    if all(each.place != place for each in photo_places(standing)):
        return _list(request, standing, device, sentence=say("photos-no-place"))
    if sent is None:
        return _list(request, standing, device, place=place, sentence=say("photos-no-file"))
    now = datetime.now(UTC).isoformat(timespec="seconds")
    content = sent.file.read(MOST_BYTES + 1)
    try:
        _photos(site_of(request)).add(standing.job_id, place, device.id, content, at=now, act=act)
    except PhotoRefused as refused:
        return _list(request, standing, device, place=place, sentence=str(refused))
    return RedirectResponse(f"/j/{standing.job_id}/photos?told=photo-kept", status_code=303)


@router.get("/j/{j}/photos/{photo}")
def one(request: Request, standing: JobPage, device: Visitor, photo: PhotoId) -> Response:
    """Show one photo."""
    site = site_of(request)
    found = next((each for each in JobPhotos(site, standing.job_id).all if each.id == photo), None)
    if found is None:
        raise HTTPException(404, say("no-such-photo"))
    page = next(_shots(site, [found]))
    frame = Frame(title=say("page-photo"), device=device, standing=standing, group=Group.READ)
    return render(request, "photo.html", frame, page)


@router.get("/j/{j}/photos/{photo}/picture")
def picture(request: Request, standing: JobPage, _: Visitor, photo: PhotoId) -> Response:
    """Return the picture itself."""
    content = _photos(site_of(request)).content(standing.job_id, photo)
    return Response(content, media_type="image/jpeg", headers=_KEPT)


@router.get("/j/{j}/photos/{photo}/small")
def small(request: Request, standing: JobPage, _: Visitor, photo: PhotoId) -> Response:
    """Return the picture as small as a list shows it."""
    content = _photos(site_of(request)).content(standing.job_id, photo)
    return Response(_smaller(content), media_type="image/jpeg", headers=_KEPT)


@router.post("/j/{j}/photos/{photo}/delete")
def delete(request: Request, standing: WriterPage, _: Writer, photo: PhotoId) -> Response:
    """Delete a photo; one that is gone already is no trouble."""
    with suppress(NotInStore):
        _photos(site_of(request)).remove(standing.job_id, photo)
    return RedirectResponse(f"/j/{standing.job_id}/photos?told=photo-deleted", status_code=303)


def _photos(site: Site) -> Photos:
    """Return the store's photos."""
    assert site.store.photos is not None, "the app's store keeps photos"
    return site.store.photos


def _list(
    request: Request, standing: Standing, device: Device, *, place: str = "", sentence: str = ""
) -> Response:
    """Return the page of photos."""
    site = site_of(request)
    kept, places = JobPhotos(site, standing.job_id), tuple(photo_places(standing))
    here = kept.at(place) if place else kept.all
    page = PhotosPage(
        act=new_act(),
        place=next((each for each in places if each.place == place), None),
        places=places,
        shots=tuple(_shots(site, reversed(here))),
        most=MOST_BYTES // 1_000_000,
        sentence=sentence,
    )
    frame = Frame(
        title=say("page-photos"),
        device=device,
        standing=standing,
        group=Group.READ,
        scripts=("photos.js",),
    )
    return render(request, "photos.html", frame, page, status=422 if sentence else 200)


def _shots(site: Site, photos: Iterator[Photo] | list[Photo]) -> Iterator[Shot]:
    """Yield photos as they are told."""
    names = {each.id: each.name for each in (HOST, *site.sessions.known_devices())}
    for photo in photos:
        yield Shot(
            photo=photo,
            words=photo_words(photo.place),
            by=names.get(photo.device, say("troubles-somebody")),
            at=photo.at[:16].replace("T", " "),
        )


def _smaller(content: bytes) -> bytes:
    """Return a kept photo made small."""
    from PIL import Image

    written = io.BytesIO()
    with Image.open(io.BytesIO(content), formats=("JPEG",)) as opened:
        opened.draft("RGB", (_SMALL, _SMALL))
        opened.thumbnail((_SMALL, _SMALL))
        opened.save(written, "JPEG", quality=75)
    return written.getvalue()
