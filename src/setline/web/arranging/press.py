"""A press in the run editor: asked about where the page was old, checked, kept, and led back to the page."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from setline.errors import InputError
from setline.field_book.places import pointer
from setline.web.arranging.edits import Values, run_key
from setline.web.arranging.page import Wrong, page_of, shown
from setline.web.arranging.view import Chosen, chosen_item, run_lists, set_boxes
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import Writer, WriterPage, site_of
from setline.web.stale import Since, since
from setline.web.strips import Picture, strip_picture
from setline.web.trying import checked
from setline.web.typed_length import WrongText
from setline.web.writing import is_kept, keep
from setline.wording import say

__all__ = ["Act", "Number", "Press", "Text", "chosen_of", "kept", "stays_if_set"]

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
Text = Annotated[str, Form(max_length=200)]
Number = Annotated[int, Form(ge=0, le=9999)]
Count = Annotated[int, Form(ge=0, le=10**9)]
Work = Callable[[Mapping[str, Any]], Values]


@dataclass(frozen=True, slots=True)
class _Press:
    """What every press carries.

    Attributes:
        request: What was asked.
        standing: The job as it stands.
        device: Who presses.
        wall: The page's wall.
        act: The press's act.
        seen: The revision that the page showed.
        anyhow: Whether it counts though the page is old.
        run: The run that is chosen.
        item: The item that is chosen.
    """

    request: Request
    standing: Standing
    device: Device
    wall: str
    act: str
    seen: int
    anyhow: bool
    run: str
    item: int

    @property
    def address(self) -> str:
        """The page."""
        return f"/j/{self.standing.job_id}/run/{self.wall}"


def _press(
    request: Request,
    standing: WriterPage,
    device: Writer,
    w: str,
    act: Act,
    seen: Count = 0,
    anyhow: Text = "",
    run: Text = "",
    item: Number = 0,
) -> _Press:
    """Return what a press carries."""
    return _Press(request, standing, device, w, act, seen, anyhow == "yes", run, item)


Press = Annotated[_Press, Depends(_press)]


@dataclass(frozen=True, slots=True, kw_only=True)
class StalePage:
    """The question whether a press on an older page counts.

    Attributes:
        since: What was changed meanwhile, and by whom.
        act: The form's act.
        form: What was sent, field by field.
        address: Where it was sent.
        back: The page as it stands now.
        now: The strip as it stands.
        mine: The strip with it.
    """

    since: tuple[Since, ...]
    act: str
    form: Mapping[str, str]
    address: str
    back: str
    now: Picture | None
    mine: Picture | None


def kept(
    press: _Press, work: Work, *, ask: str = "", form: Mapping[str, str] | None = None, leads_on: bool = True
) -> Response:
    """Keep what a press writes, and lead back to the page.

    Args:
        press: The press.
        work: What it writes, from the job's document.
        ask: What the page goes on asking, where the press is not taken.
        form: What was sent besides, to be shown again where it is not taken.
        leads_on: Whether the item stays chosen.
    """
    if is_kept(press.standing, press.act):
        return _back(press, leads_on=leads_on)
    site = site_of(press.request)
    try:
        values = work(press.standing.folded.document)
        after = checked(site, press.standing, press.device, values)
    except InputError as refused:
        choices = refused.choices if isinstance(refused, WrongText) else ()
        wrong = Wrong(sentence=str(refused), choices=choices, form=form or {})
        page = page_of(press.standing, press.wall, name=press.run, number=press.item, ask=ask, wrong=wrong)
        return shown(press.request, press.standing, press.device, page, status=422)
    meanwhile = since(press.standing, press.seen, _touched(press, values))
    if meanwhile and not press.anyhow:
        return _asked(press, meanwhile, after)
    keep(site, press.standing, press.device, values, act=press.act)
    return _back(press, leads_on=leads_on)


def _touched(press: _Press, values: Values) -> tuple[str, ...]:
    """Return the places that a press is about: those it writes, and all of its run."""
    return (*values, *([pointer(("runs", run_key(press.run), ""))] if press.run else []))


def _asked(press: _Press, meanwhile: tuple[Since, ...], after: Standing) -> Response:
    """Return the question whether a press on an older page counts."""
    form = getattr(press.request, "_form", None)
    sent = {} if form is None else {key: str(value) for key, value in form.multi_items()}
    sent.pop("anyhow", None)
    page = StalePage(
        since=meanwhile,
        act=sent.pop("act", press.act),
        form=sent,
        address=press.request.url.path,
        back=press.address,
        now=_strip(press.standing, press.wall, "now"),
        mine=_strip(after, press.wall, "mine"),
    )
    frame = Frame(
        title=say("page-stale"),
        device=press.device,
        standing=press.standing,
        group=Group.PLAN,
        styles=("plan.css",),
    )
    return render(press.request, "stale.html", frame, page, status=409)


def _strip(standing: Standing, wall: str, name: str) -> Picture | None:
    """Return a wall's strip, or None where there is none."""
    plan = standing.plan
    if plan is None or not any(run.wall == wall for run in plan.runs):
        return None
    return strip_picture(plan, wall, name=f"{name}-{wall}")


def _back(press: _Press, *, leads_on: bool) -> Response:
    """Lead back to the page."""
    chosen = f"?{urlencode({'run': press.run, 'item': press.item})}#chosen" if leads_on and press.item else ""
    return RedirectResponse(f"{press.address}{chosen}", status_code=303)


def chosen_of(press: _Press) -> Chosen:
    """Return the item that a press is about.

    Raises:
        InputError: It stands in no run of this wall.
    """
    plan = press.standing.plan
    if plan is not None:
        runs = run_lists(press.standing, plan, press.wall)
        found = chosen_item(press.standing, runs, plan, press.run, press.item)
        if found is not None:
            return found
    raise InputError(say("not-in-run", item=press.item, run=press.run[:40]))


def stays_if_set(press: _Press, *numbers: int) -> None:
    """Refuse to move what is set.

    Raises:
        InputError: One of the items is set.
    """
    stand = set_boxes(press.standing.folded.document)
    for number in (press.item, *numbers):
        if number in stand:
            raise InputError(say("set-stays", item=number))
