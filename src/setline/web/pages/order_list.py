"""A whole list of what was ordered in at once: pasted or uploaded, looked at by row, kept after a yes."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, File, Form, Request, UploadFile
from fastapi.responses import RedirectResponse, Response

from setline.errors import InputError
from setline.field_book.order_list.reading import ListRead, ListRow, read_list, values_of
from setline.field_book.order_list.table import table_of_text, text_of_table
from setline.field_book.order_list.template import template
from setline.field_book.order_list.text_file import text_of_file
from setline.field_book.order_list.workbook import MOST_FILE, is_workbook, table_of_workbook
from setline.job.document import section
from setline.web.menu import Group
from setline.web.ordering.keeping import Act
from setline.web.ordering.on_order import used_numbers
from setline.web.ordering.rows_shown import size_words, thing_words
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.trying import checked
from setline.web.typed_length import tape_in
from setline.web.values import value_text
from setline.web.writing import is_kept, keep
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

Text = Annotated[str, Form()]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRow:
    """A row of the list as it will be kept.

    Attributes:
        row: The row it was read in.
        number: Its number on the job; empty for the tops.
        words: What it is.
        size: Its sizes.
        what: New, the same, or which fields change.
        is_same: Whether it is on order just so already.
    """

    row: int
    number: str
    words: str
    size: str
    what: str
    is_same: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPage:
    """The page.

    Attributes:
        text: The list as text.
        found: What was read of it; None before anything was.
        rows: What will be kept.
        count: How many of them are new or changed.
        sheet: The name of the sheet it was on.
        refused: Why none of it is taken.
        stands: What the order was when it was looked at.
        kept: How many were kept just now.
        missing: Numbers on order that the list does not have.
    """

    text: str = ""
    found: ListRead | None = None
    rows: tuple[KeptRow, ...] = ()
    count: int = 0
    sheet: str = ""
    refused: str = ""
    stands: str = ""
    kept: int = 0
    missing: str = ""


@router.get("/j/{j}/order/list")
def blank(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show where a list goes in."""
    return _render(request, standing, device, ListPage())


@router.get("/j/{j}/order/list.csv")
def start_from(standing: JobPage, _: Visitor) -> Response:
    """Hand out a list to start from."""
    headers = {"content-disposition": 'attachment; filename="order.csv"', "cache-control": "no-store"}
    text = "\ufeff" + template(tape_in(standing.folded.document))
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)


@router.post("/j/{j}/order/list")
def look(
    request: Request,
    standing: WriterPage,
    device: Writer,
    text: Text = "",
    file: Annotated[UploadFile | None, File()] = None,
) -> Response:
    """Read a list and show what it would bring; nothing is kept yet."""
    sheet = ""
    try:
        content = file.file.read(MOST_FILE + 1) if file is not None else b""
        if content:
            tape = tape_in(standing.folded.document)
            if is_workbook(content):
                table = table_of_workbook(content, tape)
                text, sheet = text_of_table(table.cells), table.sheet
            else:
                text = text_of_file(content)
        if not text.strip():
            raise InputError(say("list-nothing"))
        page = _read(request, standing, device, text, sheet=sheet)
    except InputError as refused:
        page = ListPage(text=text, refused=str(refused))
    wrong = page.refused or (page.found is not None and page.found.faults)
    return _render(request, standing, device, page, status=422 if wrong else 200)


@router.post("/j/{j}/order/list/keep")
def keep_list(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    text: Text = "",
    stands: Annotated[str, Form(max_length=64)] = "",
) -> Response:
    """Keep what was shown of a list; rows with faults come back to be mended."""
    back = RedirectResponse(f"/j/{standing.job_id}/order?told=list-kept", status_code=303)
    if is_kept(standing, act):
        return back
    try:
        page = _read(request, standing, device, text)
    except InputError as refused:
        return _render(request, standing, device, ListPage(text=text, refused=str(refused)), status=422)
    found = page.found
    if found is None or page.refused or not page.count or stands != page.stands:
        return _render(request, standing, device, page, status=409 if stands != page.stands else 422)
    keep(site_of(request), standing, device, values_of(found.rows), act=act)
    if not found.faults:
        return back
    after = site_of(request).planner.standing(standing.job_id)
    rest = _read(request, after, device, found.rest, kept=page.count)
    return _render(request, after, device, rest)


def _read(
    request: Request, standing: Standing, device: Device, text: str, *, sheet: str = "", kept: int = 0
) -> ListPage:
    """Return what a list would bring.

    Raises:
        InputError: It is no table that can be read.
    """
    document = standing.folded.document
    tape = tape_in(document)
    order = section(document, "order")
    found = read_list(table_of_text(text, tape), tape, order, used=used_numbers(standing))
    refused = ""
    try:
        checked(site_of(request), standing, device, values_of(found.rows))
    except InputError as wrong:
        refused = str(wrong)
    rows = tuple(_row(each, standing) for each in found.rows)
    stands = hashlib.sha256(json.dumps(order, sort_keys=True, default=str).encode()).hexdigest()
    count = sum(not row.is_same for row in rows)
    return ListPage(
        text=text,
        found=found,
        rows=rows,
        count=count,
        sheet=sheet,
        refused=refused,
        stands=stands,
        kept=kept,
        missing=_ranges(found.missing),
    )


def _row(found: ListRow, standing: Standing) -> KeptRow:
    """Return one row as it is shown."""
    tape = tape_in(standing.folded.document)
    told = (_changed(found, field) for field in found.changes)
    what = say("list-new") if found.is_new else "; ".join(told)
    return KeptRow(
        row=found.row,
        number=str(found.number or ""),
        words=thing_words(found.listed, found.thing),
        size=size_words(found.listed, found.thing, tape),
        what=what if found.changes else say("list-same"),
        is_same=not found.changes,
    )


def _changed(found: ListRow, field: str) -> str:
    """Return what changes of something that is on order."""
    name, was = field.replace("_", " "), found.stood.get(field)
    return say("list-adds", field=name) if was is None else say("list-was", field=name, was=value_text(was))


def _ranges(numbers: tuple[int, ...]) -> str:
    """Return numbers in a row as ranges: ``1 to 5, 7, 9, 10``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    told = (
        [say("list-range", first=run[0], last=run[-1])] if len(run) > 2 else [str(number) for number in run]
        for run in runs
    )
    return ", ".join(word for words in told for word in words)


def _render(
    request: Request, standing: Standing, device: Device, page: ListPage, *, status: int = 200
) -> Response:
    frame = Frame(
        title=say("page-order-list"),
        device=device,
        standing=standing,
        group=Group.READ,
        styles=("plan.css", "order.css"),
    )
    return render(request, "order_list.html", frame, page, status=status)
