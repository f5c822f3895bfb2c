"""The whole plan as one page that needs nothing else: no server, no signal, no other file.

It is a copy: it says of what plan, by its check code, and when it was made.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import cache

from markupsafe import Markup

from setline.drawings.shapes import Drawing
from setline.drawings.svg import to_svg
from setline.lengths import Units
from setline.packet.marks_sheet import MarksSheet, marks_sheet
from setline.packet.picture import Picture
from setline.packet.shim_page import ShimPage, shim_page
from setline.result import Finding, Plan, Rank
from setline.told import finding_words, strike_words, tops_words, walls_with_runs
from setline.web.assets import content
from setline.wording import say

__all__ = ["CarriedPlan", "CarriedWall", "carried_plan", "file_name", "inline_font"]

_PX_PER_MM = 5
"""Drawings stand at such a size that their least text, 3.2 mm, is 16 px high."""
_SIZE = re.compile(r'width="([0-9.]+)mm" height="([0-9.]+)mm"')
_NO_PICTURE = Picture(file="", width=0.0, height=0.0, alt="")


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedWall:
    """A wall of the carried plan.

    Attributes:
        name: Its letter.
        marks: Its marks as its sheet has them.
        shims: What goes under its boxes, or None where none bears on the floor.
        pictures: Its elevation and its shim map.
    """

    name: str
    marks: MarksSheet
    shims: ShimPage | None
    pictures: tuple[Markup, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedPlan:
    """The carried plan.

    Attributes:
        name: The job's name.
        check_code: The plan's check code.
        revision: The job's revision letter.
        made: When this copy was made, as it is printed.
        strike: The struck line from each set-up, the one in use first.
        tops: Where the tops are below it.
        findings: What somebody must know: rank in words, the sentence, the ways out.
        floor: The floor picture.
        walls: Every wall with runs.
    """

    name: str
    check_code: str
    revision: str
    made: str
    strike: tuple[str, ...]
    tops: str
    findings: tuple[tuple[str, str, tuple[str, ...]], ...]
    floor: Markup
    walls: tuple[CarriedWall, ...]


def carried_plan(plan: Plan, made: datetime) -> CarriedPlan:
    """Return everything of a plan that is read on site.

    Args:
        plan: The plan.
        made: When the copy is made.
    """
    from setline.drawings.floor_picture import floor_picture

    units = Units(plan.units)
    return CarriedPlan(
        name=plan.job_name,
        check_code=plan.check_code,
        revision=plan.revision,
        made=f"{made:%Y-%m-%d %H:%M}",
        strike=tuple(_strikes(plan, units)),
        tops=_tops(plan, units),
        findings=tuple(map(_told, plan.findings)),
        floor=_picture(floor_picture(plan)),
        walls=tuple(_wall(plan, wall) for wall in walls_with_runs(plan)),
    )


def _strikes(plan: Plan, units: Units) -> Iterator[str]:
    """Yield where to strike the line, a sentence a set-up."""
    for line in plan.level_line.set_ups:
        text, way = strike_words(line, units)
        yield say("packet-strike-short", strike=text, way=way.lower(), set_up=line.set_up)
    if not plan.level_line.set_ups:
        yield say("packet-no-line-short")


def _tops(plan: Plan, units: Units) -> str:
    """Return where the tops are, by the set-up in use."""
    for line in plan.level_line.set_ups:
        if line.in_use and line.printed_level is not None:
            return tops_words(line, plan.level_line.clearance, units)
    return say("packet-no-line")


def _told(finding: Finding) -> tuple[str, str, tuple[str, ...]]:
    """Return a finding's rank in words, its sentence, and the ways out."""
    ways = () if finding.rank is Rank.NOTE else tuple(remedy.text for remedy in finding.remedies)
    return say(f"rank-{finding.rank}"), finding_words(finding), ways


def _wall(plan: Plan, wall: str) -> CarriedWall:
    """Return one wall."""
    from setline.drawings.shim_map import shim_map
    from setline.drawings.wall_elevation import wall_elevation

    shims = shim_page(plan, wall, _NO_PICTURE)
    drawings = [wall_elevation(plan, wall)] + ([shim_map(plan, wall)] if shims is not None else [])
    return CarriedWall(
        name=wall,
        marks=marks_sheet(plan, wall, _NO_PICTURE),
        shims=shims,
        pictures=tuple(map(_picture, drawings)),
    )


def _picture(drawing: Drawing) -> Markup:
    """Return a drawing as SVG, large enough to be read on a phone inside a frame that scrolls."""

    def in_pixels(found: re.Match[str]) -> str:
        width, height = (round(float(size) * _PX_PER_MM) for size in found.groups())
        return f'width="{width}" height="{height}"'

    return Markup(_SIZE.sub(in_pixels, to_svg(drawing, screen=True), count=1))


@cache
def inline_font(weight: str) -> str:
    """Return a weight of the font as an address that holds the font itself."""
    data = content(f"text-{weight}.woff") or b""
    return f"data:font/woff;base64,{base64.b64encode(data).decode()}"


def file_name(plan: CarriedPlan) -> str:
    """Return a plain name for the file: the job's name and the check code."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", plan.name).strip("-")[:60] or "plan"
    return f"{plain}-{plan.check_code}.html"
