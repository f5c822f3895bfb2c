"""The forms of the order: a thing's fields as texts, and what the texts that come back write."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from setline.field_book.order_list.cells import NotRead, read_cell, whole
from setline.field_book.order_list.fields import FIELDS, Field, Form, as_thing, fields_of
from setline.field_book.order_list.things import faults_of_thing
from setline.field_book.places import pointer
from setline.lengths import Tape
from setline.web.ordering.on_order import fields_shown
from setline.web.walk.typed import Choice, read_typed
from setline.wording import say

__all__ = ["FieldView", "FormView", "Wrong", "form_view", "new_number", "written"]

_FIRST: Mapping[str, tuple[str, ...]] = {
    "boxes": ("kind", "name", "width", "measured", "height", "depth", "delivery", "finished"),
}
_PARTS = (
    ("frame", ("overhang_left", "overhang_right", "front", "rear_void")),
    ("foot", ("toe_height", "support", "legs.least", "legs.most", "legs.inset", "may_trim")),
    ("corner", ("corner.along_next",)),
    ("blind", ("blind.side", "blind.visible", "blind.most_pull")),
)
_LENGTHS = (Form.LENGTH, Form.LIMIT)
_NUMBER = "number"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """A field that was not taken.

    Attributes:
        sentence: What it may be.
        choices: What a length could mean, to be pressed.
    """

    sentence: str
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """A field as its form shows it.

    Attributes:
        key: Its name in the form.
        label: What it is called.
        value: The text that stands in it.
        options: What may be chosen: value and words; empty where it is typed.
        is_needed: Whether the thing is none without it.
        wrong: What was wrong with it, or None.
    """

    key: str
    label: str
    value: str
    options: tuple[tuple[str, str], ...] = ()
    is_needed: bool = False
    wrong: Wrong | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FormView:
    """A thing's form.

    Attributes:
        listed: The list of the order it belongs to.
        number: Its number, or the one it would be given.
        is_new: Whether it is to be added.
        first: The fields that are always seen.
        parts: The other fields in parts: a title and its fields.
        wrong: What was wrong with the whole of it.
        is_asked: Whether what is wrong is a question: sent again, it counts.
    """

    listed: str
    number: str
    is_new: bool
    first: tuple[FieldView, ...]
    parts: tuple[tuple[str, tuple[FieldView, ...]], ...] = ()
    wrong: str = ""
    is_asked: bool = False


def form_view(
    listed: str,
    number: int | str,
    thing: Mapping[str, Any],
    *,
    is_new: bool = False,
    sent: Mapping[str, str] | None = None,
    wrong: Mapping[str, Wrong] | None = None,
    refused: str = "",
    is_asked: bool = False,
) -> FormView:
    """Return the form of a thing.

    Args:
        listed: The list of the order it belongs to.
        number: Its number.
        thing: What stands, or what it starts from.
        is_new: Whether it is to be added.
        sent: What was typed instead, where the form comes back.
        wrong: Field -> what was wrong with it.
        refused: What was wrong with the whole of it.
        is_asked: Whether that is a question.
    """
    shown = fields_shown(listed, thing) if sent is None else sent
    views = {
        field.key: _field_view(listed, field, shown.get(field.key, ""), (wrong or {}).get(field.key))
        for field in FIELDS[listed]
    }
    first = _FIRST.get(listed, tuple(views))
    parts = tuple(
        (say(f"order-part-{part}"), tuple(views[key] for key in keys))
        for part, keys in _PARTS
        if keys[0] in views and keys[0] not in first
    )
    number_wrong = (wrong or {}).get(_NUMBER)
    return FormView(
        listed=listed,
        number=shown.get(_NUMBER, str(number or "")) if is_new else str(number or ""),
        is_new=is_new,
        first=tuple(views[key] for key in first),
        parts=parts,
        wrong=refused or (number_wrong.sentence if number_wrong else ""),
        is_asked=is_asked,
    )


def _field_view(listed: str, field: Field, value: str, wrong: Wrong | None) -> FieldView:
    """Return one field."""
    options: tuple[tuple[str, str], ...] = ()
    if field.form is Form.CHOICE:
        options = tuple((choice, choice) for choice in field.choices)
        if not field.needed and not field.default:
            options = (("", say("order-not-said")), *options)
    elif field.form is Form.ENDS:
        options = tuple((word, say(f"order-ends-{word}")) for word in ("none", "left", "right", "both"))
    elif field.form is Form.FLAG:
        options = tuple((word, say(f"value-{word}")) for word in ("yes", "no"))
    name = field.key.replace(".", "-").replace("_", "-")
    return FieldView(
        key=field.key,
        label=say(f"order-field-{listed}-{name}"),
        value=value or field.default,
        options=options,
        is_needed=field.needed,
        wrong=wrong,
    )


def written(
    listed: str, number: int, stood: Mapping[str, Any], sent: Mapping[str, str], tape: Tape
) -> dict[str, Any] | dict[str, Wrong]:
    """Return what a form writes, place -> value; or field -> what was wrong, where something was.

    Args:
        listed: The list of the order the thing belongs to.
        number: Its number.
        stood: The thing as the form showed it.
        sent: What came back, field -> text.
        tape: The crew's tape.
    """
    before = fields_shown(listed, stood)
    known = fields_of(listed)
    values: dict[str, object] = {}
    wrong: dict[str, Wrong] = {}
    for key, field in known.items():
        text = " ".join(sent.get(key, "").split())
        if not text or (key not in before and text == field.default):
            continue
        if text == before.get(key):
            values[key] = _stands(stood, key)
            continue
        try:
            values[key] = read_cell(field, text, tape)
        except NotRead as why:
            choices = read_typed(text, tape).choices if field.form in _LENGTHS else ()
            wrong[key] = Wrong(sentence=str(why), choices=choices)
    heads = {key.partition(".")[0] for key in known}
    thing = {**{key: each for key, each in stood.items() if key not in heads}, **as_thing(values)}
    numbered = {**thing, "number": number} if number else thing
    for key, allowed in faults_of_thing(listed, numbered, tape, told=tuple(wrong)):
        wrong[key] = Wrong(sentence=allowed)
    if wrong:
        return wrong
    place = ("order", listed, *([str(number)] if number else []))
    return {
        pointer((*place, head)): thing.get(head)
        for head in sorted(heads)
        if thing.get(head) != stood.get(head)
    }


def _stands(thing: Mapping[str, Any], key: str) -> object:
    """Return the value of a field as it stands."""
    head, _, inner = key.partition(".")
    value = thing.get(head)
    return value.get(inner) if inner and isinstance(value, Mapping) else value


def new_number(text: str) -> int | Wrong:
    """Return the number that a new thing is to have."""
    try:
        return whole(text.strip())
    except NotRead as why:
        return Wrong(sentence=str(why))
