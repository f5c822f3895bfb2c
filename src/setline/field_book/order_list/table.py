"""A pasted or written table as rows of cells: tabs, semicolons or commas between them.

Which sign parts the cells is not asked: it is the one by which most columns are known. A table goes back into
text with tabs, so that what was uploaded can be mended where it is shown.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from setline.errors import InputError
from setline.field_book.order_list.columns import Head, head_of
from setline.lengths import Tape
from setline.wording import say

__all__ = ["MOST_CELLS", "MOST_ROWS", "MOST_TEXT", "Table", "find_head", "table_of_text", "text_of_table"]

MOST_TEXT = 200_000
MOST_ROWS = 1000
MOST_CELLS = 80
_HEAD_WITHIN = 20
_SIGNS = ("\t", ";", ",")

Cells = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table.

    Attributes:
        cells: Its rows, every cell without spaces at its ends.
        sheet: The name of the sheet it was on, where it was on one.
    """

    cells: Cells
    sheet: str = ""


def table_of_text(text: str, tape: Tape) -> Table:
    """Return the table that a text is.

    Args:
        text: As pasted, or as a file of comma, semicolon or tab separated values holds it.
        tape: The crew's tape.

    Raises:
        InputError: It is too long, or a quote mark in it does not close.
    """
    if len(text) > MOST_TEXT:
        raise InputError(say("order-text-long", most=MOST_TEXT))
    found: list[tuple[int, Cells]] = []
    refused: list[InputError] = []
    for sign in _SIGNS:
        try:
            cells = _cut(text.removeprefix("\ufeff"), sign)
        except InputError as wrong:
            refused.append(wrong)
            continue
        found.append((len(find_head(cells, tape).columns), cells))
    most = max((known for known, _ in found), default=-1)
    if most < 1 and refused:
        raise refused[0]
    return Table(cells=next((cells for known, cells in found if known == most), ()))


def _cut(text: str, sign: str) -> Cells:
    """Return a text cut into rows and cells by one sign."""
    rows: list[tuple[str, ...]] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    try:
        for row in reader:
            if len(rows) >= MOST_ROWS or len(row) > MOST_CELLS:
                raise InputError(say("order-table-large", rows=MOST_ROWS, cells=MOST_CELLS))
            rows.append(tuple(_clean(cell) for cell in row))
    except csv.Error:
        raise InputError(say("order-quote", row=len(rows) + 1)) from None
    return tuple(rows)


def _clean(cell: str) -> str:
    """Return a cell on one line."""
    return " ".join(cell.split())


def find_head(cells: Cells, tape: Tape) -> Head:
    """Return the row that names the columns: the first with most of them among the first rows."""
    heads = [head_of(row, number, tape) for number, row in enumerate(cells[:_HEAD_WITHIN], start=1)]
    return max(heads, key=lambda head: len(head.columns), default=head_of((), 0, tape))


def text_of_table(cells: Cells) -> str:
    """Return a table as text with tabs; ``table_of_text`` reads it back."""
    return "\n".join("\t".join(_quoted(cell) for cell in row) for row in cells)


def _quoted(cell: str) -> str:
    """Return a cell in quotes where it starts with one, as its reader wants it."""
    if not cell.startswith('"'):
        return cell
    return '"' + cell.replace('"', '""') + '"'
