"""What the columns of a list are called, and what each means for a box, a filler, a panel, an opening.

The words are the trade's own, in any order and in any case. A head may name a unit: ``Width (mm)``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType

from setline.lengths import Tape, Units

__all__ = ["COLUMNS", "KINDS", "Column", "Head", "column_of", "head_of", "near_words"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is read.

    Attributes:
        words: What it is called, the word we use ourselves first.
        keys: List of the order -> the field it is there.
    """

    words: tuple[str, ...]
    keys: Mapping[str, str]

    @property
    def name(self) -> str:
        """The word we use."""
        return self.words[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A row that names columns.

    Attributes:
        row: Which row it is, from 1.
        columns: Place in the row, from 0 -> column.
        units: Place in the row -> the unit its head names, where that is not the tape's own.
        twice: Words of columns that stand twice.
        unknown: Heads that are not read, as they are written.
    """

    row: int
    columns: Mapping[int, Column]
    units: Mapping[int, str]
    twice: tuple[str, ...]
    unknown: tuple[str, ...]


def _column(*words: str, **keys: str) -> Column:
    return Column(words=words, keys=MappingProxyType(keys))


def _boxes(key: str, *words: str) -> Column:
    return _column(*words, boxes=key)


COLUMNS = (
    _column("number", "no", "nr", "#", "box number", "item number", "number of the box"),
    _column("what", "kind", "type", "what kind", "kind of box"),
    _column("count", "quantity", "qty", "pieces", "how many"),
    _column(
        "name", "description", "label", "use", "called",
        boxes="name", fillers="name", panels="name", appliances="name",
    ),
    _boxes("width", "width", "w", "wide", "frame width", "width ordered"),
    _column("height", "h", "high", "height ordered", boxes="height", panels="height"),
    _column("depth", "d", "deep", boxes="depth", appliances="depth"),
    _boxes("measured", "measured", "measured width", "real width", "width measured"),
    _column(
        "least width", "min width", "minimum width", "width least", "width min",
        fillers="width.least", appliances="width.least",
    ),
    _column(
        "most width", "max width", "maximum width", "width most", "width max",
        fillers="width.most", appliances="width.most",
    ),
    _column(
        "wished width", "wish", "width wished", fillers="width.wish", appliances="width.wish"
    ),
    _column(
        "least height", "min height", "minimum height", "height least", "height min",
        appliances="height.least",
    ),
    _column(
        "most height", "max height", "maximum height", "height most", "height max",
        appliances="height.most",
    ),
    _column("height to", "height measured to", appliances="height_to"),
    _column("thickness", "thick", "t", panels="thickness", tops="thickness"),
    _column("delivery", "delivered", "state", boxes="delivery"),
    _column(
        "finished", "finished ends", "finished end", "ends that show",
        boxes="finished", panels="finished",
    ),
    _boxes("overhang_left", "overhang left", "left overhang"),
    _boxes("overhang_right", "overhang right", "right overhang"),
    _boxes("front", "front", "front thickness", "door thickness"),
    _boxes("rear_void", "rear void", "service void", "void behind"),
    _boxes("toe_height", "toe height", "kick height", "toe kick", "toe kick height"),
    _boxes("support", "support", "stands on"),
    _boxes("legs.least", "least leg", "leg min", "min leg"),
    _boxes("legs.most", "most leg", "leg max", "max leg"),
    _boxes("legs.inset", "leg inset"),
    _boxes("may_trim", "may trim", "trim"),
    _boxes("corner.along_next", "along next wall", "along next"),
    _boxes("blind.side", "blind side", "blind end", "blind"),
    _boxes("blind.visible", "visible", "must show"),
    _boxes("blind.most_pull", "most pull", "max pull"),
    _column("gives", "may give", fillers="gives"),
    _column("scribed", "scribe", fillers="scribed"),
    _column("group", "stays equal with", fillers="group"),
    _column("sheet", "maker's sheet", "makers sheet", appliances="sheet"),
    _column("sheet date", "date of sheet", "edition", appliances="sheet_date"),
)  # fmt: skip

KINDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        **{
            f"{kind}{of}": ("boxes", kind)
            for kind in ("base", "wall", "tall")
            for of in ("", " box", " boxes", " cabinet", " cabinets", " unit", " units")
        },
        **{
            word: ("appliances", word)
            for word in ("dishwasher", "range", "refrigerator", "oven", "hood", "microwave", "other")
        },
        "fridge": ("appliances", "refrigerator"),
        "cooker": ("appliances", "range"),
        "range hood": ("appliances", "hood"),
        "opening": ("appliances", "other"),
        "other appliance": ("appliances", "other"),
        "filler": ("fillers", ""),
        "scribe filler": ("fillers", ""),
        "panel": ("panels", ""),
        "end panel": ("panels", ""),
        "tops": ("tops", ""),
        "top": ("tops", ""),
    }
)
"""What the column ``what`` says -> the list of the order, and the kind there."""

_BY_WORD = {word: column for column in COLUMNS for word in column.words}
_UNIT = re.compile(r"(?:^|[\s(\[,])(mm|cm|millimetres?|millimeters?|in|inch|inches|\")[)\]]?\s*$")
_UNITS = {"mm": "mm", "cm": "cm", "mil": "mm", "in": "in", "inc": "in", '"': "in"}


def head_of(cells: Sequence[str], row: int, tape: Tape) -> Head:
    """Return what a row of cells names.

    Args:
        cells: The row.
        row: Which it is, from 1.
        tape: The crew's tape: a unit that is its own need not be said.
    """
    columns: dict[int, Column] = {}
    units: dict[int, str] = {}
    twice: list[str] = []
    unknown: list[str] = []
    own = "in" if tape.units == Units.INCH else "mm"
    for place, cell in enumerate(cells):
        column, unit = column_of(cell)
        if column is None:
            unknown += [cell] if cell else []
        elif column in columns.values():
            twice.append(column.name)
        else:
            columns[place] = column
            units |= {place: unit} if unit and unit != own else {}
    return Head(row=row, columns=columns, units=units, twice=tuple(twice), unknown=tuple(unknown))


def column_of(head: str) -> tuple[Column | None, str]:
    """Return the column that a head names, and its unit.

    Example:
        >>> column, unit = column_of("Width (mm)")
        >>> column.name, unit
        ('width', 'mm')
    """
    plain = " ".join(head.casefold().replace("_", " ").replace("’", "'").split())
    found = _UNIT.search(plain)
    unit = _UNITS.get(found[1][:3], "in") if found and found.start() else ""
    name = plain[: found.start()] if found and unit else plain
    return _BY_WORD.get(" ".join(name.strip(" .:*()[],").split())), unit


def near_words(head: str) -> str:
    """Return the word that a head that is not read was likely meant to be, or nothing."""
    near = get_close_matches(" ".join(head.casefold().split())[:40], list(_BY_WORD), n=1, cutoff=0.75)
    return _BY_WORD[near[0]].name if near else ""
