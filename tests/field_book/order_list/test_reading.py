"""A list read: what is kept, what is told by row, and that no table ends in anything else."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setline.errors import InputError
from setline.field_book.order_list.columns import COLUMNS, KINDS
from setline.field_book.order_list.reading import ListRead, read_list, values_of
from setline.field_book.order_list.table import Table, table_of_text, text_of_table
from setline.field_book.order_list.template import template
from setline.field_book.places import from_places
from setline.job.read import job_from_dict
from setline.lengths import Tape, Units

INCH, METRIC = Tape(), Tape(units=Units.METRIC)
ROOM = {"walls": [{"name": "A", "lengths": [{"length": "120 in"}]}]}


def read(text: str, tape: Tape = INCH, order: dict[str, Any] | None = None, **more: Any) -> ListRead:
    """Read a pasted text."""
    return read_list(table_of_text(text, tape), tape, order or {}, **more)


def faults(text: str, tape: Tape = INCH, order: dict[str, Any] | None = None) -> list[tuple[int, str, str]]:
    """Return the row, column and text of every fault."""
    return [(fault.row, fault.column, fault.read) for fault in read(text, tape, order).faults]


def told(cell: str, tape: Tape = INCH, column: str = "width") -> str:
    """Return what is said of one cell of a box that is whole without it."""
    texts = {"what": "base", "width": "21 in", "height": "34 in", "depth": "24 in", column: cell}
    cells = (tuple(texts), tuple(texts.values()))
    found = read_list(Table(cells=cells), tape, {})
    return "" if not found.faults else str(found.faults[0])


@pytest.mark.parametrize("tape", [INCH, METRIC], ids=["inch", "metric"])
def test_the_template_reads_whole(tape: Tape) -> None:
    """What we hand out as a start comes back without a fault, and makes a whole job."""
    found = read(template(tape), tape)
    assert found.faults == ()
    assert found.not_read == ()
    head = {"format": 1, "job": {"name": "Tern Lane", "tape": tape.units.value}, "room": ROOM}
    order = from_places(values_of(found.rows))["order"]
    job = job_from_dict({**head, "order": order})
    assert [box.number for box in job.order.boxes] == [1, 2, 3, 4]
    assert job.order.tops is not None


@pytest.mark.parametrize("sign", ["\t", ";", ","])
def test_columns_come_in_any_order_and_under_any_of_their_words(sign: str) -> None:
    """Tabs, semicolons or commas; titles above the head are passed over."""
    lines = ["Spring delivery", "", "DEEP;Kind;H;Real width;W", "24;base cabinet;34 1/2;21 1/16;21"]
    found = read("\n".join(lines).replace(";", sign))
    assert found.faults == ()
    [row] = found.rows
    assert (row.row, row.listed, row.number) == (4, "boxes", 1)
    assert row.thing == {
        "number": 1, "kind": "base", "width": "21", "measured": "21 1/16", "height": "34 1/2", "depth": "24",
    }  # fmt: skip


def test_a_quoted_cell_may_hold_the_sign_that_parts_cells() -> None:
    """As spreadsheets write them; inch marks within an unquoted cell are inches."""
    found = read('what,name,width,height,depth\nbase,"drawers, three",21",34 1/2",24"\n')
    assert found.faults == ()
    assert found.rows[0].thing["name"] == "drawers, three"
    assert found.rows[0].thing["width"] == '21"'


@pytest.mark.parametrize("cell", ["4-Mar", "Mar-04", "2026-03-04 00:00:00", "3/4/2026", "04.03.2026", "2:01"])
def test_what_a_spreadsheet_made_a_date_of_is_told_as_one(cell: str) -> None:
    """3/4 and 1-2 come out of a spreadsheet as dates; nobody can tell which size they were."""
    assert f"Row 2, width: read {cell}: A spreadsheet made a date or a time" in told(cell)


def test_a_number_with_a_dash_is_asked_about() -> None:
    """1-2 may be 1 ft 2 or 12."""
    assert told("1-2") == "Row 2, width: 1-2 can be read in more than one way: 1' 2 or 12."


@pytest.mark.parametrize(
    ("cell", "tape", "size"),
    [
        ("3036", INCH, "3036 mm"),
        ("361", INCH, "361 in"),
        ("0915", METRIC, "915 mm"),
        ("6072", METRIC, "6072 mm"),
    ],
)
def test_a_code_is_not_read_as_a_size(cell: str, tape: Tape, size: str) -> None:
    """Digits in a row are taken only where a box can be so wide; with its unit a size is a size."""
    assert told(cell, tape).endswith(f"write it with its unit: {size}.")
    assert told(size, tape) == ""


def test_a_size_of_the_other_tape_is_asked_about() -> None:
    """No box is 21 mm wide; 21 in is a size on either tape."""
    assert told("21", METRIC).endswith("Write it with its unit: 21 mm or 21 in.")
    assert told("2", INCH).endswith("Write it with its unit: 2 in or 2 mm.")
    assert told("21 in", METRIC) == ""


def test_what_holds_letters_is_no_size() -> None:
    """Nothing is cut out of a code."""
    assert told("DB18") == "Row 2, width: DB18 is no length on this tape."


@pytest.mark.parametrize("cell", ["=B2*2", "#REF!", "#DIV/0!", "######"])
def test_formulas_are_not_worked_out(cell: str) -> None:
    """Nor is what stands where one did not work."""
    assert "Formulas are not worked out here" in told(cell)


def test_a_head_may_name_a_unit() -> None:
    """Its numbers are then read in it, whatever the tape; a cell with a unit of its own keeps that."""
    found = read("what,width (mm),height [cm],depth in\nbase,600,87.5,24\nwall,23 5/8 in,72,12\n")
    assert found.faults == ()
    assert [(row.thing["width"], row.thing["height"], row.thing["depth"]) for row in found.rows] == [
        ("600 mm", "87.5 cm", "24"),
        ("23 5/8 in", "72 cm", "12"),
    ]


def test_every_fault_of_every_row_is_told_at_once() -> None:
    """With its row as the spreadsheet counts it, its column in our word, and what was read."""
    text = "No;What;W;H;D\n1;base;21;34 1/2;24\n1;base;x;;24\n;shelf;1;1;1\n\n2;wall;30;30;\n"
    assert faults(text) == [
        (3, "width", "x"), (3, "number", "1"), (3, "height", ""), (4, "what", "shelf"), (6, "depth", ""),
    ]  # fmt: skip
    found = read(text)
    assert [row.number for row in found.rows] == [1]
    assert found.rest == "No\tWhat\tW\tH\tD\n1\tbase\tx\t\t24\n\tshelf\t1\t1\t1\n2\twall\t30\t30\t"


def test_a_height_that_is_missing_is_told_where_the_rest_of_the_row_is_read() -> None:
    """The column is named, and that nothing stands there."""
    assert faults("what,width,height,depth\nbase,21,,24\n") == [(2, "height", "")]


def test_several_of_a_thing_get_a_number_each() -> None:
    """Numbers go on from the highest that was ever used, past those that the list says itself."""
    text = "number,what,count,width,height,depth\n,base,2,21,34,24\n9,base,,18,34,24\n,wall,,30,30,12\n"
    assert [row.number for row in read(text, used=[6]).rows] == [10, 11, 9, 12]
    assert [row.number for row in read(text, used=[40]).rows] == [41, 42, 9, 43]


def test_a_row_changes_what_has_its_number_where_it_says_something() -> None:
    """What its cells leave empty stays; what is not in the list stays, and is named."""
    order = {
        "boxes": [
            {"number": 3, "kind": "base", "name": "sink", "width": "36", "height": "34", "depth": "24"},
            {"number": 4, "kind": "base", "width": "18", "height": "34", "depth": "24"},
        ]
    }
    found = read("no,what,width,name\n3,base,33,\n", order=order)
    [row] = found.rows
    assert not row.is_new
    assert dict(row.changes) == {"width": "33"}
    assert row.thing["name"] == "sink"
    assert found.missing == (4,)
    assert values_of(found.rows) == {"/order/boxes/3/width": "33"}


def test_a_number_is_kept_for_life() -> None:
    """A number of another kind of thing is not taken over."""
    order = {"fillers": [{"number": 3, "width": {"least": "1"}}]}
    assert faults("no,what,width,height,depth\n3,base,33,34,24\n", order=order) == [(2, "number", "3")]


def test_columns_that_are_not_read_are_named() -> None:
    """With the word that is near, where one is."""
    found = read("what,widht,price,depth,height\nbase,21,80,24,34\n")
    assert found.not_read == (("widht", "width"), ("price", ""))
    assert [(fault.column, fault.row) for fault in found.faults] == [("width", 2)]


@pytest.mark.parametrize(
    ("text", "column"),
    [("a,b\n1,2\n", ""), ("", ""), ("width,height\n1,2\n", "what"), ("what,w,width\nbase,1,2\n", "width")],
)
def test_a_head_that_cannot_be_used_is_told_once(text: str, column: str) -> None:
    """No columns known, none that says what a row is, or two of one name: then no row is read."""
    found = read(text)
    assert found.rows == ()
    assert [fault.column for fault in found.faults] == [column]


def test_legs_and_what_a_box_stands_on_go_together() -> None:
    """A box on legs says how far they turn; one with legs stands on them."""
    head = "what,width,height,depth,support,least leg,most leg\n"
    assert faults(head + "base,600,870,560,legs,,\n", METRIC) == [(2, "least leg", "")]
    assert faults(head + "base,600,870,560,sides,100,150\n", METRIC) == [(2, "support", "sides")]


def test_a_least_over_a_most_is_told() -> None:
    """A window of widths goes up."""
    found = read("what,least width,most width\nfiller,3,1\n")
    assert [str(fault) for fault in found.faults] == [
        "Row 2, least width: read 3: The least, 3, is more than the most, 1."
    ]


def test_every_column_is_written_down() -> None:
    """The document has each column with all its words, in the order of the template."""
    text = (Path(__file__).parents[3] / "docs" / "order-list.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| (`[^|]+`) \| ([^|]*) \|", text, flags=re.MULTILINE)
    assert [tuple(re.findall(r"`([^`]+)`", f"{name} {also}")) for name, also in rows] == [
        column.words for column in COLUMNS
    ]


# --- any table ------------------------------------------------------------------------------------------

WORDS = [word for column in COLUMNS for word in column.words]
CELLS = st.one_of(
    st.sampled_from(
        ["", "21", "34 1/2", "3/4", "1-2", "4-Mar", "600 mm", "3036", "yes", "left", "no limit", "2"]
    ),
    st.sampled_from(sorted(KINDS)),
    st.text(max_size=12),
)
TABLES = st.lists(st.lists(st.one_of(CELLS, st.sampled_from(WORDS)), max_size=9), max_size=8)
LISTS = st.builds(
    lambda head, body: [head, *body],
    st.lists(st.sampled_from([*WORDS, "what"]), min_size=1, max_size=9, unique=True).map(
        lambda head: ["what", *head]
    ),
    st.lists(st.lists(CELLS, max_size=10), max_size=8),
)
ORDER = {
    "boxes": [{"number": 2, "kind": "base", "width": "18", "height": "34", "depth": "24"}],
    "fillers": [{"number": 21, "width": {"least": "1", "most": "3"}}],
}


@given(st.one_of(TABLES, LISTS), st.sampled_from([INCH, METRIC]))
def test_any_table_is_rows_or_faults(cells: list[list[str]], tape: Tape) -> None:
    """No row is both, none that says something is neither, numbers are unique, and what is kept is whole."""
    table = Table(cells=tuple(tuple(" ".join(cell.split()) for cell in row) for row in cells))
    found = read_list(table, tape, ORDER)
    faulty = {fault.row for fault in found.faults}
    assert faulty.isdisjoint({row.row for row in found.rows})
    numbers = [row.number for row in found.rows if row.number]
    assert len(numbers) == len(set(numbers))
    assert all(str(fault) for fault in found.faults)
    order = from_places(values_of(found.rows)).get("order", {})
    standing = {key: [*ORDER.get(key, []), *order.get(key, [])] for key in order if key != "tops"}
    assert all(isinstance(thing, dict) for listed in standing.values() for thing in listed)


@given(LISTS, st.sampled_from([INCH, METRIC]))
def test_what_is_kept_makes_a_job(cells: list[list[str]], tape: Tape) -> None:
    """The rows without faults are an order that the job's own reader takes."""
    table = Table(cells=tuple(tuple(" ".join(cell.split()) for cell in row) for row in cells))
    found = read_list(table, tape, {})
    order = from_places(values_of(found.rows)).get("order", {})
    head = {"format": 1, "job": {"name": "Tern Lane", "tape": tape.units.value}, "room": ROOM}
    assert job_from_dict({**head, "order": order}) is not None


@given(st.text(max_size=300))
def test_any_text_is_a_table_or_a_refusal(text: str) -> None:
    """A paste never ends in anything else."""
    try:
        table = table_of_text(text, INCH)
    except InputError:
        table = Table(cells=())
    assert isinstance(read_list(table, INCH, {}), ListRead)


@given(
    st.lists(
        st.lists(
            st.text(st.characters(exclude_categories=["C", "Z"], include_characters=' "'), max_size=8),
            min_size=3,
            max_size=3,
        ),
        max_size=6,
    )
)
def test_a_table_survives_being_written_as_text(body: list[list[str]]) -> None:
    """What was uploaded can be mended as text, cell by cell."""
    cells = (("what", "width", "height"), *(tuple(" ".join(cell.split()) for cell in row) for row in body))
    assert table_of_text(text_of_table(cells), INCH).cells == cells
