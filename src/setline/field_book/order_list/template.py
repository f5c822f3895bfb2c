"""A list to start from: our own words over a few rows of a made-up order, for either tape."""

from __future__ import annotations

import csv
import io

from setline.field_book.order_list.columns import COLUMNS
from setline.lengths import Tape, Units

__all__ = ["template"]

_WORDS = tuple(column.name for column in COLUMNS)
_ROWS: tuple[dict[str, tuple[str, str]], ...] = (
    {"what": ("base", "base"), "name": ("drawers", "drawers"), "width": ("21", "500"),
     "height": ("34 1/2", "870"), "depth": ("24", "560"), "delivery": ("here", "here"),
     "overhang left": ("1/4", ""), "overhang right": ("1/4", "")},
    {"what": ("wall", "wall"), "count": ("2", "2"), "width": ("33", "450"), "height": ("30", "720"),
     "depth": ("12", "330"), "finished": ("left", "left")},
    {"what": ("tall", "tall"), "name": ("broom", "broom"), "width": ("18", "600"), "height": ("84", "2120"),
     "depth": ("24", "580"), "delivery": ("not here", "not here")},
    {"what": ("filler", "filler"), "name": ("at the wall", "at the wall"), "least width": ("3/4", "20"),
     "most width": ("3", "60"), "scribed": ("yes", "yes")},
    {"what": ("panel", "panel"), "name": ("end", "end"), "thickness": ("3/4", "18")},
    {"what": ("dishwasher", "dishwasher"), "least width": ("24", "600"), "most width": ("24 1/4", "606"),
     "least height": ("34", "820"), "most height": ("34 3/4", "890"), "depth": ("25 1/2", "570"),
     "sheet": ("yes", "yes"), "sheet date": ("rev. 4", "rev. 4")},
    {"what": ("tops", "tops"), "thickness": ("1 1/2", "38")},
)  # fmt: skip


def template(tape: Tape) -> str:
    """Return a list as comma separated values that ``read_list`` reads whole."""
    place = 0 if tape.units == Units.INCH else 1
    written = io.StringIO(newline="")
    writer = csv.writer(written)
    writer.writerow(_WORDS)
    for row in _ROWS:
        writer.writerow([row[word][place] if word in row else "" for word in _WORDS])
    return written.getvalue()
