"""What photos are taken of: the walls, the boxes and openings, what is in trouble, the job as a whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from setline.errors import InputError
from setline.field_book.photos import Photo
from setline.field_book.place_words import place_words
from setline.field_book.places import pointer, steps_of
from setline.job.document import rows, section
from setline.result import Finding
from setline.web.planning import Standing
from setline.web.site import Site
from setline.wording import say

__all__ = ["WHOLE_JOB", "JobPhotos", "PhotoPlace", "finding_place", "photo_places", "photo_words"]

WHOLE_JOB = "/job"
_FINDINGS = "findings"
_LONGEST = 80
_KINDS = (("boxes", "photos-boxes"), ("appliances", "photos-boxes"))


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoPlace:
    """Something a photo may be of.

    Attributes:
        place: Its address in the job.
        words: What it is called.
        kind: Key of the heading it stands under, or nothing.
    """

    place: str
    words: str
    kind: str = ""


def photo_places(standing: Standing) -> Iterator[PhotoPlace]:
    """Yield everything in a job that a photo may be of."""
    yield PhotoPlace(place=WHOLE_JOB, words=say("photos-whole"))
    document = standing.folded.document
    for _, wall in rows(section(document, "room"), "walls"):
        place = pointer(("room", "walls", str(wall.get("name", "?"))))
        yield PhotoPlace(place=place, words=place_words(place), kind="photos-walls")
    for kind, heading in _KINDS:
        for _, thing in rows(section(document, "order"), kind):
            place = pointer(("order", kind, str(thing.get("number", "?"))))
            name = str(thing.get("name", "") or thing.get("kind", ""))[:_LONGEST]
            yield PhotoPlace(place=place, words=f"{place_words(place)}, {name}", kind=heading)
    for finding in () if standing.plan is None else standing.plan.findings:
        words = f"{finding.where}: {finding.text}"
        short = words if len(words) <= _LONGEST else f"{words[: _LONGEST - 3]}..."
        yield PhotoPlace(place=finding_place(finding), words=short, kind="photos-findings")


def finding_place(finding: Finding) -> str:
    """Return the address of a finding's photos: the same as long as the same is found at the same place."""
    return pointer((_FINDINGS, finding.code, finding.where[:_LONGEST]))


def photo_words(place: str) -> str:
    """Return what a photo is of, in words, whether or not it is in the job still."""
    if place == WHOLE_JOB:
        return say("photos-whole")
    try:
        steps = steps_of(place)
    except InputError:
        return place
    return steps[-1] if steps[0] == _FINDINGS else place_words(place)


class JobPhotos:
    """The photos of a job, looked up once, and only where a page asks for them.

    Args:
        site: The running app's parts.
        job: The job's id.
    """

    def __init__(self, site: Site, job: str) -> None:
        self._site = site
        self._job = job

    @cached_property
    def all(self) -> tuple[Photo, ...]:
        """Every photo, the oldest first."""
        photos = self._site.store.photos
        return () if photos is None else photos.of_job(self._job)

    def at(self, place: str) -> tuple[Photo, ...]:
        """Return the photos of one place."""
        return tuple(photo for photo in self.all if photo.place == place)
