"""The makers' sheets: what each appliance asks of its opening, what is missing, and its sizes to type."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.lengths import Units, show
from setline.result import Finding, Plan, Rank
from setline.web.menu import Group
from setline.web.ordering.forms import FormView, form_view
from setline.web.ordering.on_order import free_number, length_shown, thing_of, things
from setline.web.ordering.rows_shown import span_words, thing_words
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor
from setline.web.typed_length import tape_in
from setline.wording import say

__all__ = ["router", "sheets_shown"]

router = APIRouter()

_LIST = "appliances"
_HEIGHT_COUNTS = ("dishwasher", "range", "oven")
_FROM_SHEET = "from the sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """An appliance by its maker's sheet.

    Attributes:
        number: The number of its opening.
        words: What it is.
        asks: What its sheet asks: a heading, and the sizes.
        source: Where its sizes come from, with date or edition.
        is_from_sheet: Whether they come from its sheet.
        lacks: What is missing of its sheet, a sentence each.
        stands: How wide its opening is in the plan and where; empty where it has no place yet.
        findings: What the plan says of it, of rank stop or decide.
    """

    number: int
    words: str
    asks: tuple[tuple[str, str], ...]
    source: str
    is_from_sheet: bool
    lacks: tuple[str, ...]
    stands: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetsPage:
    """The page.

    Attributes:
        sheets: Every appliance.
        missing: Those whose sheet is not at hand.
        form: The form that is open, or None.
        revision: The revision that the page shows.
    """

    sheets: tuple[Sheet, ...]
    missing: tuple[Sheet, ...]
    form: FormView | None
    revision: int


@router.get("/j/{j}/sheets")
def sheets(
    request: Request,
    standing: JobPage,
    device: Visitor,
    open: str = "",  # the address says which sheet is open
    add: str = "",
) -> Response:
    """Show the sheets, one open where the address names it."""
    document = standing.folded.document
    form: FormView | None = None
    if device.may_write and add:
        form = form_view(_LIST, free_number(standing), {}, is_new=True)
    elif device.may_write and any(str(number) == open for number, _ in things(document, _LIST)):
        form = form_view(_LIST, int(open), thing_of(document, _LIST, int(open)))
    return sheets_shown(request, standing, device, form)


def sheets_shown(
    request: Request, standing: Standing, device: Device, form: FormView | None = None, *, status: int = 200
) -> Response:
    """Return the page."""
    document = standing.folded.document
    found = tuple(_sheet(standing, number, thing) for number, thing in things(document, _LIST))
    page = SheetsPage(
        sheets=found,
        missing=tuple(sheet for sheet in found if sheet.lacks and not sheet.is_from_sheet),
        form=form,
        revision=standing.revision,
    )
    frame = Frame(
        title=say("page-sheets"),
        device=device,
        standing=standing,
        group=Group.READ,
        styles=("plan.css", "order.css"),
    )
    return render(request, "sheets.html", frame, page, status=status)


def _sheet(standing: Standing, number: int, thing: Mapping[str, Any]) -> Sheet:
    """Return one appliance."""
    tape = tape_in(standing.folded.document)
    is_from_sheet = thing.get("sheet") == _FROM_SHEET
    date = str(thing.get("sheet_date") or "")
    asks = [(say("sheet-width"), span_words(thing.get("width"), tape))]
    if thing.get("height"):
        asks.append((_height_words(thing), span_words(thing["height"], tape)))
    if thing.get("depth"):
        asks.append((say("sheet-depth"), length_shown(thing["depth"], tape)))
    return Sheet(
        number=number,
        words=thing_words(_LIST, thing),
        asks=tuple(asks),
        source=_source(thing, date, is_from_sheet=is_from_sheet),
        is_from_sheet=is_from_sheet,
        lacks=tuple(_lacks(thing, is_from_sheet=is_from_sheet, date=date)),
        stands=_stands(standing.plan, number),
        findings=_findings(standing.plan, number),
    )


def _height_words(thing: Mapping[str, Any]) -> str:
    """Return from where to where the height of an appliance is measured."""
    if thing.get("height_to") == "top of the top":
        return say("sheet-height-top")
    return say("sheet-height-under" if thing.get("kind") in _HEIGHT_COUNTS else "sheet-height-clear")


def _source(thing: Mapping[str, Any], date: str, *, is_from_sheet: bool) -> str:
    """Return where the sizes come from; an opening for no appliance has them from nowhere."""
    if is_from_sheet:
        return say("sheet-from", date=date or say("sheet-no-date"))
    return "" if thing.get("kind") == "other" else say("sheet-general-size")


def _lacks(thing: Mapping[str, Any], *, is_from_sheet: bool, date: str) -> list[str]:
    """Return what is missing of an appliance's sheet; an opening for no appliance has none."""
    kind = thing.get("kind")
    told: list[str] = []
    if not is_from_sheet and kind != "other":
        told.append(say("sheet-get-it"))
    if is_from_sheet and not date:
        told.append(say("sheet-date-wanted"))
    if kind in _HEIGHT_COUNTS and not thing.get("height"):
        told.append(say("sheet-height-wanted"))
    if kind not in ("other", "hood") and not thing.get("depth"):
        told.append(say("sheet-depth-wanted"))
    return told


def _stands(plan: Plan | None, number: int) -> str:
    """Return how wide an opening is in the plan, and in which run."""
    for run in plan.runs if plan is not None else ():
        for item in run.items:
            if item.number == number and item.left is not None and item.right is not None:
                width = show(item.right - item.left, Units(plan.units)) if plan is not None else ""
                return say("sheet-stands", width=width, run=run.name)
            if item.number == number:
                return say("sheet-waits", run=run.name)
    return ""


def _findings(plan: Plan | None, number: int) -> tuple[Finding, ...]:
    """Return what the plan says of an opening that must be seen to."""
    return tuple(
        found
        for found in (plan.findings if plan is not None else ())
        if found.rank in (Rank.STOP, Rank.DECIDE) and found.where.split(" ")[-1] == str(number)
    )
