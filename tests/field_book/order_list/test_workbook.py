"""Spreadsheet files: what comes out of them, and what is too large, too tight or no spreadsheet at all."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from datetime import date, datetime, time
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from setline.errors import InputError
from setline.field_book.order_list.reading import read_list
from setline.field_book.order_list.workbook import (
    MOST_FILE,
    MOST_UNPACKED,
    is_workbook,
    table_of_workbook,
)
from setline.lengths import Tape

INCH = Tape()
HEAD = ["what", "width", "height", "depth"]


def workbook(*sheets: list[list[Any]]) -> bytes:
    """Return a workbook with some sheets."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for number, rows in enumerate(sheets, start=1):
        sheet = book.create_sheet(f"sheet {number}")
        for row in rows:
            sheet.append(row)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def changed(content: bytes, change: Callable[[str, bytes], bytes]) -> bytes:
    """Return a workbook with its parts changed."""
    written = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            new.writestr(name, change(name, old.read(name)))
    return written.getvalue()


def test_numbers_and_texts_come_as_they_would_be_written() -> None:
    """A size that a spreadsheet shows as 34 1/2 lies in it as 34.5."""
    content = workbook([HEAD, ["base", 21, 34.5, "24"], ["wall", 27.4375, 30.0, 12]])
    assert is_workbook(content)
    table = table_of_workbook(content, INCH)
    assert table.cells == (tuple(HEAD), ("base", "21", "34.5", "24"), ("wall", "27.4375", "30", "12"))
    assert read_list(table, INCH, {}).faults == ()


def test_dates_formulas_and_yes_come_as_what_they_are() -> None:
    """A date stays a date, so that its row is told; nothing is worked out."""
    content = workbook(
        [HEAD, ["base", date(2026, 3, 4), "=B2*2", True], ["wall", datetime(2026, 1, 2), time(3, 4), "#REF!"]]  # noqa: DTZ001  # a spreadsheet's dates have no zone
    )
    table = table_of_workbook(content, INCH)
    assert table.cells[1:] == (
        ("base", "2026-03-04 00:00:00", "=B2*2", "yes"),
        ("wall", "2026-01-02 00:00:00", "03:04:00", "#REF!"),
    )
    found = read_list(table, INCH, {})
    assert [(fault.row, fault.column) for fault in found.faults] == [
        (2, "width"), (2, "height"), (2, "depth"), (3, "width"), (3, "height"), (3, "depth"),
    ]  # fmt: skip


def test_the_sheet_with_the_list_is_found() -> None:
    """It need not be the first."""
    table = table_of_workbook(workbook([["Letter"], ["to whom"]], [HEAD, ["base", 21, 34, 24]]), INCH)
    assert table.sheet == "sheet 2"
    assert table.cells[0] == tuple(HEAD)


def test_rows_keep_their_numbers() -> None:
    """Empty rows count, as the spreadsheet counts them; empty ends are left out."""
    table = table_of_workbook(workbook([[], HEAD, [], ["base", 21, 34, None, None]]), INCH)
    assert table.cells == ((), tuple(HEAD), (), ("base", "21", "34"))


def test_a_file_that_unpacks_to_more_than_a_list_is_refused() -> None:
    """Before any of it is unpacked."""
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet1.xml", b" " * (MOST_UNPACKED + 1))
    with pytest.raises(InputError, match="unpacks to more than 16 MB"):
        table_of_workbook(written.getvalue(), INCH)


def test_a_file_packed_far_too_tightly_is_refused() -> None:
    """A few kilobytes that unpack to megabytes of one sign are no list."""
    content = changed(
        workbook([HEAD]), lambda name, part: part + b" " * 2_000_000 if "sheet1" in name else part
    )
    with pytest.raises(InputError, match="packed far tighter"):
        table_of_workbook(content, INCH)


def test_a_large_file_is_refused() -> None:
    """By its size alone."""
    with pytest.raises(InputError, match="at most 1500 kB"):
        table_of_workbook(b"PK\x03\x04" + bytes(MOST_FILE), INCH)


@pytest.mark.parametrize("code", ["utf-8", "utf-16"])
def test_a_part_that_defines_entities_is_refused(code: str) -> None:
    """No spreadsheet program writes them, and they can be made to grow without end."""
    bomb = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaa">]><x>&a;</x>'.encode(code)
    content = changed(workbook([HEAD]), lambda name, part: bomb if "sheet1" in name else part)
    with pytest.raises(InputError, match="cannot be read as a spreadsheet"):
        table_of_workbook(content, INCH)


def test_a_sheet_of_very_many_rows_is_refused() -> None:
    """A list has at most a thousand."""
    with pytest.raises(InputError, match="at most 1000 rows"):
        table_of_workbook(workbook([HEAD, *[["base", 21, 34, 24]] * 1000]), INCH)


def test_a_zip_that_is_no_workbook_is_refused() -> None:
    """With what to do instead."""
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as packed:
        packed.writestr("list.txt", "what,width")
    with pytest.raises(InputError, match="Save it as XLSX or CSV"):
        table_of_workbook(written.getvalue(), INCH)


WHOLE = workbook([HEAD, ["base", 21, 34.5, "24"], ["wall", date(2026, 3, 4), "=B2", True]])


@given(st.lists(st.tuples(st.integers(0, len(WHOLE) - 1), st.integers(0, 255)), min_size=1, max_size=12))
def test_a_broken_file_is_a_table_or_a_refusal(breaks: list[tuple[int, int]]) -> None:
    """Whatever bytes were changed."""
    broken = bytearray(WHOLE)
    for place, byte in breaks:
        broken[place] = byte
    _read_or_refused(bytes(broken))


@given(
    st.text(max_size=60),
    st.integers(0, 3000),
    st.sampled_from(["sheet1", "workbook.xml", "styles", "shared"]),
)
def test_broken_xml_is_a_table_or_a_refusal(put: str, at: int, part: str) -> None:
    """Whatever was written into a part of it."""

    def change(name: str, xml: bytes) -> bytes:
        return xml[:at] + put.encode() + xml[at:] if part in name else xml

    _read_or_refused(changed(WHOLE, change))


def _read_or_refused(content: bytes) -> None:
    """Read a file; only a refusal may come of it, else a list that is read."""
    try:
        table = table_of_workbook(content, INCH)
    except InputError:
        return
    assert read_list(table, INCH, {}) is not None
