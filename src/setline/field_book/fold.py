"""From entries to a Job: a function of their *set*, whatever the order or repetition they arrived in.

The live values of a place are those entries that no other entry stands over. One is the rule. Two live values
are two people's word: a finding, until one is settled; meanwhile a length is taken half-way between the least
and the greatest, anything else from the lowest (device, n). A live *taken back* yields to a live value.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel

from setline.errors import Fault, InputError, JobFileError
from setline.field_book.entry import Entry
from setline.field_book.places import from_places, steps_of
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.lengths import Length, Tape, Units, read_length, show

__all__ = ["Folded", "TwoValues", "fold", "is_length", "live_entries"]

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
    """

    document: dict[str, Any]
    job: Job | None
    faults: tuple[Fault, ...]
    unsettled: tuple[TwoValues, ...]


def live_entries(entries: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    """Return place -> its live entries, by (device, n, id); a taken-back one only where it stands alone."""
    unique = {entry.id: entry for entry in entries}
    replaced = {(entry.place, old) for entry in unique.values() for old in entry.over if old != entry.id}
    places: dict[str, list[Entry]] = defaultdict(list)
    for entry in sorted(unique.values(), key=lambda entry: (entry.device, entry.n, entry.id)):
        if (entry.place, entry.id) not in replaced:
            places[entry.place].append(entry)
    return {
        place: tuple(entry for entry in found if not entry.taken_back) or tuple(found)
        for place, found in sorted(places.items())
    }


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
        if any(entry.value != found[0].value for entry in found[1:]):
            values[place] = _between(place, found, tape)
            used = values[place]
            unsettled.append(
                TwoValues(
                    place=place, entries=found, used=used.typed if isinstance(used, Length) else str(used)
                )
            )
    document = from_places(values)
    try:
        job, faults = job_from_dict(document), ()
    except JobFileError as refused:
        return Folded(document=document, job=None, faults=refused.faults, unsettled=tuple(unsettled))
    return Folded(document=document, job=job, faults=faults, unsettled=tuple(unsettled))


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
