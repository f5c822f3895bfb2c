"""From a page's data to HTML: one template a page inside one frame."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup, escape

from setline.field_book.place_words import places_words
from setline.field_book.undo import undo
from setline.lengths import Units, show
from setline.web.act import new_act
from setline.web.assets import asset
from setline.web.help_words import words_of
from setline.web.menu import Group, menu
from setline.web.photo_places import JobPhotos, finding_place
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.site import site_of
from setline.web.spoken import spoken
from setline.web.values import value_text
from setline.wording import say

__all__ = ["TOLD", "Frame", "asset", "render", "render_alone"]

TOLD = frozenset(
    {
        "took-back",
        "box-came-out",
        "plan-agreed",
        "marks-kept",
        "nothing-to-undo",
        "remedy-taken",
        "line-agreed",
        "line-struck",
        "line-let-go",
        "rows-taken",
        "photo-kept",
        "photo-deleted",
        "job-is-deleted",
        "list-kept",
    }
)
"""Sentences that a page may open with after a form led to it; the address names one."""

_MIXED = re.compile(r"(\d) (\d+/\d)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What stands round a page.

    Attributes:
        title: The page's name.
        device: Who is looking.
        standing: The job it is about, if it is about one.
        group: The word of the foot bar it belongs to.
        scripts: Names of the modules in ``static`` that it loads.
        styles: Names of the stylesheets in ``static`` that it needs besides the common one.
        look: Class of the body, where the page stands in the frame otherwise than others.
    """

    title: str
    device: Device
    standing: Standing | None = None
    group: Group | None = None
    scripts: tuple[str, ...] = ()
    styles: tuple[str, ...] = ()
    look: str = ""


@dataclass(frozen=True, slots=True)
class LastAct:
    """What the page's Undo takes back: the act's name, and the places it put something at."""

    name: str
    places: tuple[str, ...]


@cache
def _environment() -> Environment:
    """Return the templates, with what they may call."""
    environment = Environment(
        loader=PackageLoader("setline.web", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals.update(
        say=say, asset=asset, menu=menu, Group=Group, places_words=places_words, new_act=new_act
    )
    environment.globals.update(
        spoken=spoken, value_text=value_text, length_text=lambda ticks, units: show(ticks, Units(units))
    )
    environment.globals.update(finding_place=finding_place)
    environment.filters["length"] = _length
    environment.filters["whole"] = _whole
    return environment


def _length(ticks: int | None, units: Units | str) -> Markup:
    """Return a length to see, with the words to hear beside it; ``?`` where there is none."""
    if ticks is None:
        return Markup('<span class="not-read">?</span>')
    text = show(ticks, Units(units))
    words = spoken(text)
    if words == text:
        return escape(text)
    return Markup(
        '<span class="num"><span aria-hidden="true">{}</span><span class="heard">{}</span></span>'
    ).format(text, words)


def _whole(text: str) -> str:
    """Return a sentence whose mixed numbers are not broken between inches and fraction."""
    return _MIXED.sub("\\1\u00a0\\2", text)


def render(
    request: Request, template: str, frame: Frame, page: Any = None, *, status: int = 200
) -> HTMLResponse:
    """Return a page.

    Args:
        request: What was asked.
        template: The template's name in ``templates``.
        frame: What stands round it.
        page: The page's own data, a frozen dataclass; the template knows it as ``page``.
        status: The HTTP status.
    """
    settings = site_of(request).settings
    told = request.query_params.get("told", "")
    html = (
        _environment()
        .get_template(template)
        .render(
            frame=frame,
            page=page,
            standing=frame.standing,
            device=frame.device,
            settings=settings,
            path=request.url.path,
            made=datetime.now(UTC).isoformat(timespec="seconds"),
            last_n=_last_n(frame),
            told=say(told) if told in TOLD else "",
            undo=_undo(frame),
            words=words_of(template),
            photos=None if frame.standing is None else JobPhotos(site_of(request), frame.standing.job_id),
        )
    )
    return HTMLResponse(html, status_code=status, headers={"cache-control": "no-store"})


def render_alone(template: str, **facts: Any) -> str:
    """Return a page that stands by itself, with no frame round it.

    Args:
        template: The template's name in ``templates``.
        facts: What it knows.
    """
    return _environment().get_template(template).render(**facts)


def _last_n(frame: Frame) -> int:
    """Return the count of this device's last entry in the job, so that its own store goes on from there."""
    standing, device = frame.standing, frame.device.id
    if standing is None:
        return 0
    entries = standing.entries
    return standing.remembered(
        f"last of {device}", lambda: max((entry.n for entry in entries if entry.device == device), default=0)
    )


def _undo(frame: Frame) -> LastAct | None:
    """Return what the page's Undo takes back, or None where there is nothing to undo."""
    standing, device = frame.standing, frame.device
    if standing is None or not device.may_write:
        return None
    return standing.remembered(f"undo of {device.id}", lambda: _last_act(standing, device))


def _last_act(standing: Standing, device: Device) -> LastAct | None:
    """Work out what a device's Undo takes back."""
    found = undo(standing.entries, device.id)
    return None if found is None else LastAct(found.name, tuple(entry.place for entry in found.act))
