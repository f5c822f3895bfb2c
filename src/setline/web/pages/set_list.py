"""The boxes in the order of setting: which is next, who is at which, what stands where."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.lengths import Units, show
from setline.told import WallDiffers, wall_differs
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.recorded import keep_changes
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.set_order import FIRST_ROW, BoxState, ListedBox, set_order
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["router", "where_it_stands"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class SetRow:
    """A box in the list.

    Attributes:
        box: The box.
        note: How far it is, in words.
        stands: Where it stands or is to stand, as text.
    """

    box: ListedBox
    note: str
    stands: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetListPage:
    """The list of boxes to set.

    Attributes:
        act: The forms' act.
        rows: Every box, in the order of setting.
        next: The one to set now, or None where none is left that can be.
        left: How many are still to be set.
        first_row: The row that is set first.
        two_rows: Whether there are two rows to choose between.
        differs: Where plan and wall differ.
    """

    act: str
    rows: tuple[SetRow, ...]
    next: ListedBox | None
    left: int
    first_row: str
    two_rows: bool
    differs: tuple[WallDiffers, ...]


@router.get("/j/{j}/set")
def set_list(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show the boxes in the order of setting."""
    boxes = set_order(standing)
    plan = standing.plan
    ready = {BoxState.READY, BoxState.OPEN}
    mine = [box for box in boxes if box.state is BoxState.OPEN and _is_mine(box, device)]
    free = [box for box in boxes if box.state in ready and (box.begun is None or _is_mine(box, device))]
    page = SetListPage(
        act=new_act(),
        rows=tuple(_row(standing, box, device) for box in boxes),
        next=next(iter([*mine, *free]), None),
        left=sum(box.state is not BoxState.SET for box in boxes),
        first_row=str(standing.folded.aside.get(FIRST_ROW, "base")),
        two_rows={"base", "wall"} <= {box.order.kind for box in boxes},
        differs=() if plan is None else wall_differs(plan),
    )
    frame = Frame(
        title=say("page-set"), device=device, standing=standing, group=Group.SET, styles=("set.css",)
    )
    return render(request, "set_list.html", frame, page)


@router.post("/j/{j}/set/first")
def choose_first(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")],
    row: Annotated[str, Form(max_length=4)] = "",
) -> Response:
    """Say which row is set first."""
    if row not in {"base", "wall"}:
        raise HTTPException(422, say("first-row-needed"))
    keep_changes(site_of(request), standing, device, (), act=act, beside={FIRST_ROW: row})
    return RedirectResponse(f"/j/{standing.job_id}/set", status_code=303)


def _is_mine(box: ListedBox, device: Device) -> bool:
    return box.begun is not None and box.begun.device == device.id


def _row(standing: Standing, box: ListedBox, device: Device) -> SetRow:
    """Return one row of the list."""
    key = f"box-state-{box.state.replace(' ', '-')}"
    if box.state is BoxState.OPEN and _is_mine(box, device):
        key = "box-state-mine"
    if box.item.as_set is not None and not box.item.as_set.screwed:
        key = "box-state-not-screwed"
    by = box.begun.by if box.begun else ""
    return SetRow(box=box, note=say(key, by=by, run=box.run.name), stands=where_it_stands(standing, box))


def where_it_stands(standing: Standing, box: ListedBox) -> str:
    """Return where a box stands, or where its marks are: ``1 1/2 to 19 1/2``, ``?`` where it has no place."""
    assert standing.plan is not None, "a listed box is planned"
    units = Units(standing.plan.units)
    edges = [box.run.marks[at].printed for at in (box.place, box.place + 1)]
    left, right = ("?" if edge is None else show(edge, units) for edge in edges)
    return say("stands-from-to", left=left, right=right)
