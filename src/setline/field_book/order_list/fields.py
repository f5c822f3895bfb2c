"""The fields of everything on order: how each is written, and what else the trade calls it.

One table serves the forms of a page and the columns of a list. A field that lies inside another is written
with a dot: ``width.least``, ``legs.most``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from setline.job.fields import Model
from setline.job.order import Appliance, Box, Existing, Filler, Panel, Tops

__all__ = ["FIELDS", "LISTS", "MODELS", "Field", "Form", "as_thing", "fields_of", "flat"]


class Form(StrEnum):
    """How the text of a field is read."""

    LENGTH = "length"
    LIMIT = "limit"
    WHOLE = "whole"
    CHOICE = "choice"
    FLAG = "flag"
    ENDS = "ends"
    TEXT = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field of something on order.

    Attributes:
        key: Where it lies in the thing: ``width``, ``legs.least``.
        form: How its text is read.
        choices: The words that it may be.
        also: Other words -> the choice they mean.
        needed: Whether a thing is none without it.
        default: The choice that counts where none is said; empty where that hangs on something else.
    """

    key: str
    form: Form = Form.LENGTH
    choices: tuple[str, ...] = ()
    also: Mapping[str, str] = field(default_factory=dict)
    needed: bool = False
    default: str = ""


MODELS: Mapping[str, type[Model]] = MappingProxyType(
    {
        "boxes": Box,
        "fillers": Filler,
        "panels": Panel,
        "appliances": Appliance,
        "existing": Existing,
        "tops": Tops,
    }
)
LISTS = tuple(name for name in MODELS if name != "tops")
"""The lists of the order whose things have numbers."""

_NAME = Field(key="name", form=Form.TEXT)
_ROW = Field(key="row", form=Form.CHOICE, choices=("base", "wall"), default="base")
_DELIVERED = {
    "delivered": "here",
    "on site": "here",
    "missing": "not here",
    "not delivered": "not here",
    "back order": "not here",
}

FIELDS: Mapping[str, tuple[Field, ...]] = MappingProxyType(
    {
        "boxes": (
            Field(key="kind", form=Form.CHOICE, choices=("base", "wall", "tall"), needed=True),
            _NAME,
            Field(key="width", needed=True),
            Field(key="measured"),
            Field(key="height", needed=True),
            Field(key="depth", needed=True),
            Field(
                key="delivery",
                form=Form.CHOICE,
                choices=("here", "not here", "damaged"),
                also=_DELIVERED,
                default="here",
            ),
            Field(key="finished", form=Form.ENDS, default="none"),
            Field(key="overhang_left"),
            Field(key="overhang_right"),
            Field(key="front"),
            Field(key="rear_void"),
            Field(key="toe_height"),
            Field(
                key="support",
                form=Form.CHOICE,
                choices=("sides", "legs", "ladder base", "ledger and front legs", "wall rail"),
            ),
            Field(key="legs.least"),
            Field(key="legs.most"),
            Field(key="legs.inset"),
            Field(key="may_trim"),
            Field(key="corner.along_next"),
            Field(key="blind.side", form=Form.CHOICE, choices=("left", "right")),
            Field(key="blind.visible"),
            Field(key="blind.most_pull"),
        ),
        "fillers": (
            _NAME,
            Field(key="width.least", needed=True),
            Field(key="width.most", form=Form.LIMIT),
            Field(key="width.wish"),
            Field(key="gives", form=Form.FLAG, default="yes"),
            Field(key="scribed", form=Form.FLAG, default="no"),
            Field(key="group", form=Form.TEXT),
        ),
        "panels": (
            _NAME,
            Field(key="thickness", needed=True),
            Field(key="height"),
            Field(key="finished", form=Form.FLAG, default="yes"),
        ),
        "appliances": (
            Field(
                key="kind",
                form=Form.CHOICE,
                choices=("dishwasher", "range", "refrigerator", "oven", "hood", "microwave", "other"),
                needed=True,
            ),
            _NAME,
            Field(key="width.least", needed=True),
            Field(key="width.most", form=Form.LIMIT),
            Field(key="width.wish"),
            Field(key="height.least"),
            Field(key="height.most", form=Form.LIMIT),
            Field(key="height.wish"),
            Field(
                key="height_to",
                form=Form.CHOICE,
                choices=("under the top", "top of the top"),
                default="under the top",
            ),
            Field(key="depth"),
            Field(
                key="sheet",
                form=Form.CHOICE,
                choices=("from the sheet", "general, check the sheet"),
                also={"yes": "from the sheet", "no": "general, check the sheet"},
                default="general, check the sheet",
            ),
            Field(key="sheet_date", form=Form.TEXT),
        ),
        "existing": (
            Field(key="name", form=Form.TEXT, needed=True),
            Field(key="wall", form=Form.TEXT, needed=True),
            _ROW,
            Field(key="left", needed=True),
            Field(key="right", needed=True),
        ),
        "tops": (Field(key="thickness", needed=True),),
    }
)


def fields_of(listed: str) -> Mapping[str, Field]:
    """Return key -> field of the things of a list."""
    return {each.key: each for each in FIELDS[listed]}


def as_thing(flat_values: Mapping[str, object]) -> dict[str, object]:
    """Return a thing from its fields with dots.

    Example:
        >>> as_thing({"width.least": "3/4", "width.most": "3", "scribed": True})
        {'width': {'least': '3/4', 'most': '3'}, 'scribed': True}
    """
    thing: dict[str, object] = {}
    for key, value in flat_values.items():
        head, dot, inner = key.partition(".")
        if not dot:
            thing[head] = value
            continue
        part = thing.setdefault(head, {})
        if isinstance(part, dict):
            part[inner] = value
    return thing


def flat(listed: str, thing: Mapping[str, object]) -> dict[str, object]:
    """Return the fields of a thing by their keys with dots; those that do not stand are left out."""
    found: dict[str, object] = {}
    for each in FIELDS[listed]:
        head, dot, inner = each.key.partition(".")
        value = thing.get(head)
        if dot:
            value = value.get(inner) if isinstance(value, Mapping) else None
        if value is not None:
            found[each.key] = value
    return found
