"""What was ordered, against what was delivered: every box, filler, panel and opening, to read and to edit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from setline.errors import InputError
from setline.field_book.order_list.fields import LISTS
from setline.web.menu import Group
from setline.web.ordering.forms import FormView, form_view
from setline.web.ordering.keeping import OrderForm, Sent, keep_form
from setline.web.ordering.on_order import free_number, taken_off, thing_of
from setline.web.ordering.rows_shown import Row, order_rows, size_words
from setline.web.pages.sheets import sheets_shown
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, site_of
from setline.web.trying import checked
from setline.web.typed_length import tape_in
from setline.web.writing import is_kept, keep
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

_NOT_COPIED = ("number", "name", "measured", "finished", "delivery", "corner", "blind", "sheet_date")


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One list of the order.

    Attributes:
        listed: Its name.
        rows: Its rows.
        waiting: How many of its boxes are not here or damaged.
    """

    listed: str
    rows: tuple[Row, ...]
    waiting: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPage:
    """The page.

    Attributes:
        parts: The lists that hold something.
        form: The form that is open, or None.
        tops: The thickness of the tops, or empty.
        revision: The revision that it shows.
    """

    parts: tuple[Part, ...]
    form: FormView | None
    tops: str
    revision: int


@router.get("/j/{j}/order")
def order(
    request: Request,
    standing: JobPage,
    device: Visitor,
    open: str = "",  # the address says which row is open
    add: str = "",
    like: str = "",
) -> Response:
    """Show the order, one row open where the address names it."""
    document = standing.folded.document
    form: FormView | None = None
    if device.may_write and add in LISTS:
        form = form_view(add, free_number(standing), _like(document, add, like), is_new=True)
    elif device.may_write and open == "tops":
        form = form_view("tops", 0, thing_of(document, "tops", 0))
    elif device.may_write and open:
        form = _opened(document, open)
    return _shown(request, standing, device, form)


@router.post("/j/{j}/order/thing")
def change(form: OrderForm, sent: Sent) -> Response:
    """Add something, or change it."""
    found = keep_form(form, sent)
    if isinstance(found, FormView):
        shown = sheets_shown if form.page == "sheets" else _shown
        return shown(form.request, form.standing, form.device, found, status=409 if found.is_asked else 422)
    at = f"#thing-{found}" if found else "#tops" if form.listed == "tops" else ""
    return _back(form.standing, form.page, at)


@router.post("/j/{j}/order/here")
def delivered(form: OrderForm, state: Annotated[str, Form(pattern="^(here|not here|damaged)$")]) -> Response:
    """Tick a box off as it is carried in, or say what is wrong with it."""
    if not is_kept(form.standing, form.act):
        thing_of(form.standing.folded.document, "boxes", form.number)
        values = {f"/order/boxes/{form.number}/delivery": state}
        keep(site_of(form.request), form.standing, form.device, values, act=form.act)
    return _back(form.standing, "order", f"#thing-{form.number}")


@router.post("/j/{j}/order/take-out")
def take_out(form: OrderForm) -> Response:
    """Take something off the order, and out of its runs."""
    if is_kept(form.standing, form.act):
        return _back(form.standing, form.page)
    document = form.standing.folded.document
    site = site_of(form.request)
    try:
        values = taken_off(document, form.listed, form.number)
        checked(site, form.standing, form.device, values)
    except InputError as refused:
        thing = thing_of(document, form.listed, form.number)
        again = form_view(form.listed, form.number, thing, refused=str(refused))
        shown = sheets_shown if form.page == "sheets" else _shown
        return shown(form.request, form.standing, form.device, again, status=422)
    keep(site, form.standing, form.device, values, act=form.act)
    return _back(form.standing, form.page)


def _back(standing: Standing, page: str, at: str = "") -> Response:
    return RedirectResponse(f"/j/{standing.job_id}/{page}{at}", status_code=303)


def _opened(document: dict[str, Any], number: str) -> FormView | None:
    """Return the form of the thing with a number, or None if there is none."""
    for listed in LISTS:
        for row in order_rows(document, listed, tape_in(document)):
            if str(row.number) == number:
                return form_view(listed, row.number, thing_of(document, listed, row.number))
    return None


def _like(document: dict[str, Any], listed: str, number: str) -> dict[str, Any]:
    """Return what a new thing starts from: what another is, without what is only that one's own."""
    if not number.isascii() or not number.isdigit():
        return {}
    thing = thing_of(document, listed, int(number[:5]))
    return {field: value for field, value in thing.items() if field not in _NOT_COPIED}


def _shown(
    request: Request, standing: Standing, device: Device, form: FormView | None = None, *, status: int = 200
) -> Response:
    """Return the page."""
    document = standing.folded.document
    tape = tape_in(document)
    tops = thing_of(document, "tops", 0)
    rows = {listed: order_rows(document, listed, tape) for listed in LISTS}
    page = OrderPage(
        parts=tuple(
            Part(listed=listed, rows=found, waiting=sum(row.state not in ("", "here") for row in found))
            for listed, found in rows.items()
            if found
        ),
        form=form,
        tops=size_words("tops", tops, tape) if tops else "",
        revision=standing.revision,
    )
    frame = Frame(
        title=say("page-order"), device=device, standing=standing, group=Group.READ, styles=("order.css",)
    )
    return render(request, "order.html", frame, page, status=status)
