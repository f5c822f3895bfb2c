"""From entries to a Job: a function of their *set*, whatever the order or repetition they arrived in.

The live values of a place are those entries that no other entry stands over. One is the rule. Two live values
are two people's word: a finding, until one is settled; meanwhile a length is taken half-way between the least
and the greatest, anything else from the lowest (device, n). A live *taken back* yields to a live value.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, get_args

from pydantic import BaseModel

from setline.errors import Fault, InputError, JobFileError
from setline.field_book.entry import Entry
from setline.field_book.live import live_entries
from setline.field_book.places import from_places, steps_of
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.lengths import Length, Tape, Units, read_length, show

__all__ = ["ASIDE", "Folded", "TwoValues", "fold", "is_length", "live_entries"]

ASIDE = "/walk/"
"""How places start that tell of the reading itself: what was skipped, where the laser stands."""
READING_STEPS = frozenset({"readings", "lengths", "plumb", "ceiling"})


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoValues:
    """A place with more than one live value.

    Attributes:
        place: The place.
        entries: Its live values, by (device, n).
        used: What is used until it is settled, as text.
    """

    place: str
    entries: tuple[Entry, ...]
    used: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Folded:
    """What a set of entries makes.

    Attributes:
        document: The job document.
        job: The job, or None while the document does not make one yet.
        faults: Why it does not.
        unsettled: Places with two live values.
        aside: What was said about the reading itself and is no part of the job: place -> value.
    """

    document: dict[str, Any]
    job: Job | None
    faults: tuple[Fault, ...]
    unsettled: tuple[TwoValues, ...]
    aside: dict[str, Any] = field(default_factory=dict)


def fold(entries: Iterable[Entry]) -> Folded:
    """Return the job that a set of entries makes.

    Args:
        entries: Entries of one job, in any order, any of them any number of times.
    """
    values: dict[str, Any] = {}
    unsettled: list[TwoValues] = []
    live = live_entries(entries)
    tape = _tape(live)
    for place, found in live.items():
        if found[0].taken_back:
            continue
        values[place] = found[0].value
        if place.startswith(ASIDE):
            continue
        if any(entry.value != found[0].value for entry in found[1:]):
            values[place] = _between(place, found, tape)
            used = values[place]
            unsettled.append(
                TwoValues(
                    place=place, entries=found, used=used.typed if isinstance(used, Length) else str(used)
                )
            )
    aside = {place: values.pop(place) for place in list(values) if place.startswith(ASIDE)}
    document = from_places(values)
    job: Job | None = None
    faults: tuple[Fault, ...] = ()
    try:
        job = job_from_dict(document)
    except JobFileError as refused:
        faults = refused.faults
    return Folded(document=document, job=job, faults=faults, unsettled=tuple(unsettled), aside=aside)


def _tape(live: Mapping[str, tuple[Entry, ...]]) -> Tape:
    """Return the tape that the job's lengths are read on."""
    units = live.get("/job/tape")
    strong = live.get("/job/strong")
    tape = Tape(units=Units.METRIC if units and units[0].value == "metric" else Units.INCH)
    if strong and isinstance(strong[0].value, str):
        try:
            return Tape(units=tape.units, strong=read_length(strong[0].value, tape).ticks)
        except InputError:
            return tape
    return tape


def _between(place: str, found: tuple[Entry, ...], tape: Tape) -> Any:
    """Return what is used where several values live: half-way for lengths, else the lowest (device, n)."""
    if not is_length(place):
        return found[0].value
    try:
        ticks = [read_length(str(entry.value), tape).ticks for entry in found]
    except InputError:
        return found[0].value
    middle = (min(ticks) + max(ticks)) // 2
    return Length(middle, show(middle, tape.units))


def is_length(place: str) -> bool:
    """Return whether a place holds a length: a reading, or a field of the models that is one."""
    steps = steps_of(place)
    if READING_STEPS & set(steps[:-1]):
        return True
    model: Any = Job
    for step in steps:
        if not (isinstance(model, type) and issubclass(model, BaseModel)):
            return False
        field = model.model_fields.get(step) or next(
            (field for field in model.model_fields.values() if field.alias == step), None
        )
        if field is None:  # the name or number of a thing in a list: stay on its model
            continue
        kinds = _kinds(field.annotation)
        if Length in kinds:
            return True
        model = next((kind for kind in kinds if isinstance(kind, type) and issubclass(kind, BaseModel)), None)
    return False


def _kinds(annotation: Any) -> set[Any]:
    """Return every class that an annotation is made of."""
    inner = get_args(annotation)
    return {annotation} if not inner else {kind for part in inner for kind in _kinds(part)}
