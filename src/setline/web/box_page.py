"""What the page of one box shows: where it stands, what goes under it, what is asked, what it changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from setline.field_book.places import pointer
from setline.job.job import tape_of
from setline.lengths import Units, show
from setline.packet.shim_page import made_of
from setline.result import ItemKind, Plan, Rank, Shim, ShimKind
from setline.stages.changes import (
    ChangeKind,
    PlanChange,
    changes,
    item_said,
)
from setline.told import WallDiffers, wall_differs
from setline.web.as_set import Asked, questions
from setline.web.before import before_set
from setline.web.planning import Standing
from setline.web.session import Device
from setline.web.set_order import BoxState, ListedBox, begun_place, set_order
from setline.web.site import Site
from setline.web.spoken import spoken
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["AsSetError", "SetBoxPage", "box_page", "changed_by"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """What goes under one bearing point.

    Attributes:
        shim: The point.
        name: Its corner in words.
        spoken: The same with its number, to be heard.
        made_of: What it is made up of, in words.
        is_leg: Whether it is a foot's height.
    """

    shim: Shim
    name: str
    spoken: str
    made_of: str
    is_leg: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One edge that a box is stood to.

    Attributes:
        name: Left or right.
        number: The mark's number, as text.
        of: Whether its frame or its body stands there.
        beside: What stands or comes beside it.
        mark: The mark's name in the plan.
    """

    name: str
    number: str
    of: str
    beside: str
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsSetError:
    """What was typed and not taken, with what is asked about it.

    Attributes:
        key: The question.
        typed: What was typed.
        sentence: What to say.
        choices: Texts it could be.
        may_stand: Whether it can be kept all the same.
    """

    key: str
    typed: str
    sentence: str
    choices: tuple[Any, ...] = ()
    may_stand: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBoxPage:
    """The page of one box.

    Attributes:
        act: The forms' act.
        box: The box.
        stop: Why it must not be set, or nothing.
        other: Who else began to set it, or nothing.
        corners: The four corners' tags, back left first; those that have one.
        more: Bearing points between them.
        rests: The sentence of the high spot under it, or nothing.
        sides: Its two edges.
        fillers: The fillers beside it with their widths, in words.
        asked: What is asked once it stands.
        changed: What it changed, row by row.
        differs: Where plan and wall differ on the walls of its runs.
        revision: The job's revision.
        after: The box to set next, or None.
        wrong: What was typed and not taken.
        screwed: ``yes`` or ``no``: whether its screws are in, or what the answers will say of them.
        places: What stands at the places that this page writes, for its script.
        strong: What the crew's strong is worth. [ticks]
    """

    act: str
    box: ListedBox
    stop: str
    other: str
    corners: dict[str, Corner]
    more: tuple[Corner, ...]
    rests: str
    sides: tuple[Side, ...]
    fillers: tuple[str, ...]
    asked: tuple[Asked, ...]
    changed: tuple[PlanChange, ...]
    differs: tuple[WallDiffers, ...]
    revision: int
    after: ListedBox | None
    wrong: AsSetError | None
    screwed: str
    places: dict[str, Any]
    strong: int


def box_page(
    site: Site,
    standing: Standing,
    device: Device,
    box: ListedBox,
    wrong: AsSetError | None = None,
    *,
    screws_later: bool = False,
) -> SetBoxPage:
    """Return what the page of a box shows.

    Args:
        site: The running app's parts.
        standing: The job as it stands.
        device: Who looks.
        box: The box.
        wrong: What was typed and not taken.
        screws_later: Whether it is set before its screws are in.
    """
    plan = standing.plan
    assert plan is not None, "a listed box is planned"
    assert standing.job is not None, "a listed box has a job"
    rows = changed_by(site, standing, box.number)
    corners = {shim.corner: _corner(shim, Units(plan.units)) for shim in plan.shims if shim.box == box.number}
    order = [each for each in set_order(standing) if each.state in (BoxState.READY, BoxState.OPEN)]
    return SetBoxPage(
        act=new_act(),
        box=box,
        stop=_stop(plan, box),
        other=box.begun.by if box.begun is not None and box.begun.device != device.id else "",
        corners={name: corners[name] for name in _FOUR if name in corners},
        more=tuple(each for name, each in corners.items() if name not in _FOUR),
        rests=_rests(corners),
        sides=tuple(_sides(plan, box)),
        fillers=tuple(_fillers(box, Units(plan.units))),
        asked=questions(standing, box),
        changed=tuple(row for row in rows if row.kind is not ChangeKind.SET),
        differs=tuple(each for each in wall_differs(plan) if each.wall == box.run.wall),
        revision=standing.revision,
        after=next((each for each in order if each.number != box.number), None),
        wrong=wrong,
        screwed="no" if screws_later or (box.item.as_set and not box.item.as_set.screwed) else "yes",
        places=_places(standing, box.number),
        strong=tape_of(standing.job).strong,
    )


_FOUR = ("back-left", "back-right", "front-left", "front-right")


def changed_by(site: Site, standing: Standing, number: int) -> tuple[PlanChange, ...]:
    """Return what a set box changed, or nothing where it is not set."""
    if standing.job is None or all(each.box != number for each in standing.job.record.set):
        return ()
    before = before_set(site.planner, standing, number).plan
    return () if before is None or standing.plan is None else changes(before, standing.plan)


def _stop(plan: Plan, box: ListedBox) -> str:
    """Return why a box must not be set, or nothing."""
    if box.state is not BoxState.STOP:
        return ""
    told = next(
        (each for each in plan.findings if each.rank is Rank.STOP and each.where == box.run.name), None
    )
    return say("box-do-not-set", run=box.run.name, why="" if told is None else told.text)


def _corner(shim: Shim, units: Units) -> Corner:
    """Return one bearing point as it is told."""
    name = say(f"corner-{shim.corner}") if "-" in shim.corner else say("corner-more", corner=shim.corner)
    number = "?" if shim.printed is None else show(shim.printed, units)
    return Corner(
        shim=shim,
        name=name,
        spoken=spoken(f"{name} {number}"),
        made_of=made_of(shim, units),
        is_leg=shim.kind is ShimKind.LEG,
    )


def _rests(corners: dict[str, Corner]) -> str:
    """Return the sentence of the high spot under a box."""
    high = next((each for each in corners.values() if each.shim.is_high_spot), None)
    return "" if high is None else say("rests-on-high-spot", corner=high.name)


def _sides(plan: Plan, box: ListedBox) -> Iterator[Side]:
    """Yield both edges with the numbers of their marks."""
    units = Units(plan.units)
    for count, side in enumerate(("left", "right")):
        mark = box.run.marks[box.place + count]
        of = "body" if mark.of_item == box.number else "frame"
        yield Side(
            name=say(f"side-{side}"),
            number="?" if mark.printed is None else show(mark.printed, units),
            of=say(f"of-{of}"),
            beside=_beside(box, side, units),
            mark=mark.name,
        )


def _beside(box: ListedBox, side: str, units: Units) -> str:
    """Return what stands, comes or opens beside an edge."""
    at = box.place + (-1 if side == "left" else 1)
    if not 0 <= at < len(box.run.items):
        return say("beside-end", side=say(f"side-{side}"))
    item = box.run.items[at]
    if item.kind is ItemKind.OPENING and item.left is not None and item.right is not None:
        return say("beside-opening", what=item_said(item), clear=show(item.right - item.left, units))
    if item.kind is ItemKind.FILLER and item.left is not None and item.right is not None:
        return say("beside-filler", what=item_said(item), width=show(item.right - item.left, units))
    return say("beside-set" if item.is_set else "beside-box", what=item_said(item))


def _fillers(box: ListedBox, units: Units) -> Iterator[str]:
    """Yield the fillers beside a box with their widths, in words."""
    for at in (box.place - 1, box.place + 1):
        item = box.run.items[at] if 0 <= at < len(box.run.items) else None
        if item is None or item.kind is not ItemKind.FILLER or item.left is None or item.right is None:
            continue
        yield say("filler-wide", what=item_said(item), width=show(item.right - item.left, units))


def _places(standing: Standing, number: int) -> dict[str, Any]:
    """Return what stands at the places of a set box, and the ids of its entries, for the page's script."""
    live = standing.live
    places = [
        pointer(("record", "set", str(number), field))
        for field in ("screwed", "edges", "below_line_left", "below_line_right", "off_wall")
    ]
    box = ("order", "boxes", str(number))
    places += [pointer((*box, "measured")), pointer((*box, "delivery"))]
    return {
        place: {
            "over": [entry.id for entry in live.get(place, ())],
            "value": next((entry.value for entry in live.get(place, ()) if not entry.taken_back), None),
        }
        for place in (*places, begun_place(number))
    }
