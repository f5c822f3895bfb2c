"""A spreadsheet file (XLSX) as a table of texts. Nothing in it is worked out; a formula stays a formula.

A workbook is a zip of XML. Before any of it is read, the zip must be of a size that a list can have, unpacked
too, and none of its parts may define entities. What the library that reads it stumbles over is told as a file
that is no workbook.
"""

from __future__ import annotations

import io
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Any

from setline.errors import InputError
from setline.field_book.order_list.table import MOST_CELLS, MOST_ROWS, Table, find_head
from setline.lengths import Tape
from setline.wording import say

__all__ = ["MOST_FILE", "is_workbook", "table_of_workbook"]

MOST_FILE = 1_500_000
MOST_PARTS = 400
MOST_UNPACKED = 16_000_000
MOST_RATIO = 150
_SMALL = 200_000  # a part of this size may be packed as tightly as it likes
_MOST_SHEETS = 12
_ENTITIES = (b"<!DOCTYPE", b"<!ENTITY")
_LONGEST = 1000


def is_workbook(content: bytes) -> bool:
    """Return whether a file is a zip, as a workbook is; a text is none."""
    return content.startswith(b"PK\x03\x04")


def table_of_workbook(content: bytes, tape: Tape) -> Table:
    """Return the table of the sheet on which most columns are known, the first of equals.

    Args:
        content: The file.
        tape: The crew's tape.

    Raises:
        InputError: It is too large, packed too tightly, or no workbook.
    """
    if len(content) > MOST_FILE:
        raise InputError(say("order-file-large", most=MOST_FILE // 1000))
    _check_parts(content)
    tables = list(_sheets(content))
    known = [len(find_head(table.cells, tape).columns) for table in tables]
    return tables[known.index(max(known))] if tables else Table(cells=())


def _check_parts(content: bytes) -> None:
    """Refuse a zip that unpacks to more than a list can be, or whose XML defines entities."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
                raise InputError(say("order-unpacked-large", most=MOST_UNPACKED // 1_000_000))
            for part in parts:
                if part.file_size > _SMALL and part.file_size > MOST_RATIO * part.compress_size:
                    raise InputError(say("order-packed-tight"))
                if part.filename.endswith((".xml", ".rels", ".vml")) and _defines(packed.read(part)):
                    raise InputError(say("order-no-workbook"))
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError, OSError) as wrong:
        raise InputError(say("order-no-workbook")) from wrong


def _defines(xml: bytes) -> bool:
    """Return whether a part of a workbook defines entities, in whatever signs it is written."""
    plain = xml.replace(b"\x00", b"")
    return any(word in plain for word in _ENTITIES)


def _sheets(content: bytes) -> Iterator[Table]:
    """Yield the sheets as tables."""
    import openpyxl  # takes a second to load, and few lists come as a file

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # about styles and drawings, which are not read here
        try:
            book = openpyxl.load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
            tables = [_table(sheet) for sheet in book.worksheets[:_MOST_SHEETS]]
            book.close()
        except InputError:
            raise
        except Exception as wrong:  # whatever the library stumbles over, the file is no workbook to us
            raise InputError(say("order-no-workbook")) from wrong
    yield from tables


def _table(sheet: Any) -> Table:
    """Return one sheet as a table, without the empty cells at the ends of its rows and its end."""
    rows: list[tuple[str, ...]] = []
    for row in sheet.iter_rows(max_row=MOST_ROWS + 1, max_col=MOST_CELLS, values_only=True):
        texts = [_text(value) for value in row]
        while texts and not texts[-1]:
            texts.pop()
        rows.append(tuple(texts))
    while rows and not rows[-1]:
        rows.pop()
    if len(rows) > MOST_ROWS:
        raise InputError(say("order-table-large", rows=MOST_ROWS, cells=MOST_CELLS))
    return Table(cells=tuple(rows), sheet=str(sheet.title)[:80])


def _text(value: object) -> str:
    """Return a cell's value as somebody would write it; a date stays one, and is told as one."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".") if abs(value) < 1e9 else str(value)
    if isinstance(value, datetime | date | time):
        return value.isoformat(" ") if isinstance(value, datetime) else value.isoformat()
    if not isinstance(value, str | int | timedelta):
        return "="  # a formula over several cells, or something that no list has
    return " ".join(str(value)[:_LONGEST].split())
