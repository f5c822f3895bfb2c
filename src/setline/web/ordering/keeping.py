"""A form of the order sent: asked about where its page was old, checked, kept; or shown again as typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import Depends, Form, Request

from setline.errors import InputError
from setline.field_book.order_list.fields import LISTS, MODELS
from setline.web.ordering.forms import FormView, Wrong, form_view, new_number, written
from setline.web.ordering.on_order import thing_of, things
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import Writer, WriterPage, site_of
from setline.web.stale import since
from setline.web.trying import checked
from setline.web.typed_length import tape_in
from setline.web.writing import is_kept, keep
from setline.wording import say

__all__ = ["Act", "Listed", "OrderForm", "Sent", "keep_form"]

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
Listed = Annotated[str, Form(pattern=f"^({'|'.join(MODELS)})$")]
Number = Annotated[int, Form(ge=0, le=9999)]
Count = Annotated[int, Form(ge=0, le=10**9)]
_LONGEST = 400


@dataclass(frozen=True, slots=True)
class _OrderForm:
    """What every form of a thing carries.

    Attributes:
        request: What was asked.
        standing: The job as it stands.
        device: Who sends it.
        act: The form's act.
        listed: The list of the order it is about.
        number: The thing's number; 0 for the tops and for what is new.
        seen: The revision that the page showed.
        is_new: Whether it adds a thing.
        anyhow: Whether it counts though the page is old.
        page: The page it is on: ``order`` or ``sheets``.
    """

    request: Request
    standing: Standing
    device: Device
    act: str
    listed: str
    number: int
    seen: int
    is_new: bool
    anyhow: bool
    page: str


def _order_form(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    listed: Listed,
    of: Number = 0,
    seen: Count = 0,
    new: Annotated[str, Form(max_length=3)] = "",
    anyhow: Annotated[str, Form(max_length=3)] = "",
    on: Annotated[str, Form(pattern="^(order|sheets)$")] = "order",
) -> _OrderForm:
    """Return what a form carries."""
    return _OrderForm(request, standing, device, act, listed, of, seen, new == "yes", anyhow == "yes", on)


OrderForm = Annotated[_OrderForm, Depends(_order_form)]


async def _sent(request: Request) -> dict[str, str]:
    """Return a form's texts by the names of a thing's fields; a pressed choice counts as typed."""
    form = await request.form()
    sent = {key: value[:_LONGEST] for key, value in form.multi_items() if isinstance(value, str)}
    key, equals, text = sent.pop("pick", "").partition("=")
    return {**sent, key: text} if equals else sent


Sent = Annotated[dict[str, str], Depends(_sent)]


def keep_form(form: _OrderForm, sent: Mapping[str, str]) -> FormView | int:
    """Keep what a form writes and return the thing's number; or return the form to be shown again."""
    if is_kept(form.standing, form.act):
        return form.number
    number = form.number
    if form.is_new and form.listed in LISTS:
        asked = _number(form, sent.get("number", ""))
        if isinstance(asked, Wrong):
            return _again(form, {}, sent, wrong={"number": asked})
        number = asked
    stood = {} if form.is_new else thing_of(_seen(form).folded.document, form.listed, number)
    values = written(form.listed, number, stood, sent, tape_in(form.standing.folded.document))
    if any(isinstance(each, Wrong) for each in values.values()):
        return _again(form, stood, sent, wrong=values)
    site = site_of(form.request)
    try:
        checked(site, form.standing, form.device, values)
    except InputError as refused:
        return _again(form, stood, sent, refused=str(refused))
    meanwhile = since(form.standing, form.seen, tuple(values)) if values else ()
    if meanwhile and not form.anyhow:
        last = meanwhile[-1]
        told = say("order-since", place=last.place, by=last.by, at=last.at)
        return _again(form, stood, sent, refused=told, is_asked=True)
    keep(site, form.standing, form.device, values, act=form.act)
    return number


def _seen(form: _OrderForm) -> Standing:
    """Return the job as the page showed it: only what was changed on it is written."""
    entries = form.standing.entries
    if not 0 < form.seen < len(entries):
        return form.standing
    return site_of(form.request).planner.of(form.standing, entries[: form.seen])


def _number(form: _OrderForm, text: str) -> int | Wrong:
    """Return the number of a new thing: one that nothing has."""
    number = new_number(text)
    document = form.standing.folded.document
    for listed in LISTS:
        if isinstance(number, int) and any(number == other for other, _ in things(document, listed)):
            return Wrong(sentence=say("order-number-other", other=say(f"order-one-{listed}")))
    return number


def _again(
    form: _OrderForm,
    stood: Mapping[str, Any],
    sent: Mapping[str, str],
    *,
    wrong: Mapping[str, Any] | None = None,
    refused: str = "",
    is_asked: bool = False,
) -> FormView:
    """Return the form with all that was typed."""
    return form_view(
        form.listed,
        form.number,
        stood,
        is_new=form.is_new,
        sent=sent,
        wrong=wrong or {},
        refused=refused,
        is_asked=is_asked,
    )
