"""What the models of a job allow at a place: the keys they know, and an example of what may stand there."""

from __future__ import annotations

from collections.abc import Iterator
from enum import EnumType
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from setline.job.document import Place
from setline.job.fields import ZERO, Height, Model
from setline.job.job import Job
from setline.lengths import Length, Tape, Units

__all__ = ["example_at", "keys_at"]

_PATTERNS = {
    "^[A-Z]$": '"A"',
    r"^[A-Z] (base|wall)$": '"B base"',
    r"^\S+$": '"S1"',
    r"^-?[0-9]{1,3} ?[CF]$": '"28 F"',
    ZERO: '"subfloor"',
}


def keys_at(place: Place) -> tuple[str, ...]:
    """Return the keys that the table at a place may have, as they are written in a file."""
    return tuple(dict.fromkeys(key for model in _models_at(place) for key in _fields(model)))


def example_at(place: Place, tape: Tape) -> str:
    """Return an example of what may stand at a place, as it is written in a TOML file.

    Args:
        place: The way to the value; its last step may be a key that is missing.
        tape: The job's tape, so that lengths look like its own.
    """
    *around, last = place or ("",)
    if isinstance(last, int):
        return _example(*_annotations_at(place), tape=tape)
    for model in _models_at(tuple(around)):
        field = _fields(model).get(last)
        if field is not None:
            return f"{last} = {_field_example(field, tape)}"
    return ""


def _fields(model: type[Model]) -> dict[str, FieldInfo]:
    """Return the fields of a model by the key that a file uses."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def _models_at(place: Place) -> Iterator[type[Model]]:
    """Yield the models that the table at a place may be."""
    for annotation in _annotations_at(place):
        if isinstance(annotation, type) and issubclass(annotation, Model):
            yield annotation


def _annotations_at(place: Place) -> list[Any]:
    """Return what may stand at a place: models, lengths, literals, lists ..."""
    found: list[Any] = [Job]
    for step in place:
        found = [inner for annotation in found for inner in _step(annotation, step)]
    return found


def _step(annotation: Any, step: str | int) -> Iterator[Any]:
    """Yield what may stand one step further in."""
    if isinstance(step, str):
        if isinstance(annotation, type) and issubclass(annotation, Model):
            field = _fields(annotation).get(step)
            if field is not None:
                yield from _alternatives(field.annotation)
        elif get_origin(annotation) is dict:
            yield from _alternatives(get_args(annotation)[1])
    elif get_origin(annotation) is tuple:
        elements = get_args(annotation)
        if elements[-1] is Ellipsis:
            yield from _alternatives(elements[0])
        elif step < len(elements):
            yield from _alternatives(elements[step])


def _alternatives(annotation: Any) -> Iterator[Any]:
    """Yield what a type may be, without the wrappings of a union and of notes to pydantic."""
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _alternatives(get_args(annotation)[0])
    elif origin in (Union, UnionType):
        for each in get_args(annotation):
            yield from _alternatives(each)
    elif annotation is not type(None):
        yield annotation


def _field_example(field: FieldInfo, tape: Tape) -> str:
    """Return an example of a field's value, by its pattern if it has one."""
    for note in field.metadata:
        pattern = getattr(note, "pattern", None)
        if pattern in _PATTERNS:
            return _PATTERNS[pattern]
    return _example(*_alternatives(field.annotation), tape=tape)


def _example(*alternatives: Any, tape: Tape) -> str:
    """Return an example of the first of some types."""
    if not alternatives:
        return ""
    first = alternatives[0]
    if first is Length:
        return '"27 7/16"' if tape.units == Units.INCH else '"874"'
    if get_origin(first) is Literal:
        choice = get_args(first)[0]
        return f'"{choice}"' if isinstance(choice, str) else str(choice)
    if get_origin(first) is tuple:
        elements = [each for each in get_args(first) if each is not Ellipsis]
        return f"[{', '.join(_example(*_alternatives(each), tape=tape) for each in elements)}]"
    return _plain_example(first, tape)


def _plain_example(kind: Any, tape: Tape) -> str:
    """Return an example of a model, a choice or a single value."""
    if kind is Height:
        return f'{{ up = {_example(Length, tape=tape)}, from = "subfloor" }}'
    if isinstance(kind, type) and issubclass(kind, Model):
        needed = [
            f"{key} = {_field_example(field, tape)}"
            for key, field in _fields(kind).items()
            if field.is_required()
        ]
        return f"{{ {', '.join(needed)} }}" if needed else "{ }"
    if isinstance(kind, EnumType):
        return f'"{next(iter(kind))}"'
    return {bool: "true", int: "3", float: "1.5", str: '"sink"'}.get(kind, "")
