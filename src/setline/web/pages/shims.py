"""What goes under every box: a map of each wall, and the numbers box by box with what makes them up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.drawings.shim_map import shim_map
from setline.lengths import Units
from setline.packet.shim_page import made_of
from setline.result import Plan, Shim, ShimKind
from setline.told import WallDiffers, wall_differs, within
from setline.web.menu import Group
from setline.web.render import Frame, render
from setline.web.site import JobPage, Visitor
from setline.web.strips import Picture, picture
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimRow:
    """A bearing point.

    Attributes:
        shim: The point.
        corner: Its corner in words.
        made_of: What it is made up of.
        within: Its doubt, in words.
        note: What to know of it: done, first, or what to read.
    """

    shim: Shim
    corner: str
    made_of: str
    within: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxShims:
    """A box with its bearing points."""

    number: int
    name: str
    is_done: bool
    rows: tuple[ShimRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallShims:
    """A wall with its boxes."""

    wall: str
    map: Picture
    boxes: tuple[BoxShims, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimsPage:
    """What goes under every box.

    Attributes:
        walls: Each wall that boxes stand at.
        unknown: How many points no reading is near to.
        differs: Where plan and wall differ.
    """

    walls: tuple[WallShims, ...]
    unknown: int
    differs: tuple[WallDiffers, ...]


@router.get("/j/{j}/shims")
def shims(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show what goes under every box."""
    plan = standing.plan
    page = ShimsPage(
        walls=() if plan is None else tuple(_walls(plan)),
        unknown=0 if plan is None else sum(each.printed is None for each in plan.shims),
        differs=() if plan is None else wall_differs(plan),
    )
    frame = Frame(
        title=say("page-shims"),
        device=device,
        standing=standing,
        group=Group.SET,
        styles=("plan.css", "set.css"),
    )
    return render(request, "shims.html", frame, page)


def _walls(plan: Plan) -> Iterator[WallShims]:
    """Yield the walls that boxes stand at, in the order of their runs."""
    names = {item.number: item.name for run in plan.runs for item in run.items}
    for wall in dict.fromkeys(shim.wall for shim in plan.shims):
        here = [shim for shim in plan.shims if shim.wall == wall]
        boxes = tuple(
            BoxShims(
                number=number,
                name=names.get(number, ""),
                is_done=any(shim.is_done for shim in here if shim.box == number),
                rows=tuple(_row(shim, Units(plan.units)) for shim in here if shim.box == number),
            )
            for number in dict.fromkeys(shim.box for shim in here)
        )
        yield WallShims(wall=wall, map=picture(shim_map(plan, wall)), boxes=boxes)


def _row(shim: Shim, units: Units) -> ShimRow:
    """Return a bearing point as it is told."""
    known = shim.corner in ("back-left", "back-right", "front-left", "front-right")
    note = ""
    if shim.printed is None:
        note = say("shim-read-near")
    elif shim.over_limit and shim.kind is ShimKind.SHIM:
        note = say("shim-block")
    elif shim.corner.startswith("back"):
        note = say("shim-put-in-first")
    return ShimRow(
        shim=shim,
        corner=say(f"corner-{shim.corner}") if known else say("corner-more", corner=shim.corner),
        made_of=made_of(shim, units),
        within=within(shim.thickness, units),
        note=note,
    )
