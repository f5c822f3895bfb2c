"""Small kitchens for the tests of floor and shims: a job from a few lines, and runs placed by hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from tests.tape import inch

from setline.job.job import Job, tape_of
from setline.job.read import job_from_dict
from setline.result import Figure, ItemKind, ItemPlace, RunPlan
from setline.rules import RuleBook, rule_book
from setline.stages.floor import FloorResult, find_level
from setline.stages.gaps.shim import Shims, shim_all
from setline.stages.room import outline

Reading = tuple[str | int, str | int]


def set_up(
    name: str, *, marks: Iterable[Mapping[str, Any]] = (), **lines: Sequence[Reading]
) -> dict[str, Any]:
    """Return a laser set-up; a line is named wall and place, such as ``A_wall``, ``A_toe`` or ``A_12``."""
    made = []
    for key, readings in lines.items():
        wall, at = key.split("_")
        made.append({"wall": wall, "at": at, "readings": [list(pair) for pair in readings]})
    return {"name": name, "lines": made, "marks": list(marks)}


def box(number: int, width: str | int = 24, **more: Any) -> dict[str, Any]:
    """Return a base box 34 1/2 high and 24 deep, without overhangs."""
    return {"number": number, "kind": "base", "width": width, "height": "34 1/2", "depth": 24, **more}


def job(
    *set_ups: Mapping[str, Any],
    boxes: Sequence[Mapping[str, Any]] = (),
    walls: Sequence[Mapping[str, Any]] = ({"name": "A", "lengths": [{"length": "12 ft"}]},),
    tape: str = "inch",
    floor: Mapping[str, Any] | None = None,
    order: Mapping[str, Any] | None = None,
    **parts: Any,
) -> Job:
    """Return a job with one run along wall A that holds every base box, in the order given."""
    order = {"boxes": list(boxes), **(order or {})}
    numbers = [each["number"] for each in boxes if each["kind"] != "wall"]
    numbers += [each["number"] for each in order.get("appliances", ())]
    parts.setdefault("runs", [{"wall": "A", "items": numbers}] if numbers else [])
    return job_from_dict(
        {
            "format": 1,
            "job": {"name": "a kitchen", "tape": tape},
            "room": {"walls": list(walls), **parts.pop("room", {})},
            "floor": {"set_ups": list(set_ups), **(floor or {})},
            "order": order,
            **parts,
        }
    )


def place(
    number: int,
    left: int,
    right: int,
    *,
    kind: ItemKind = ItemKind.BOX,
    bottom: int = -inch("34 1/2"),
    top: int = 0,
    depth: int = inch(24),
    overhang: int = 0,
) -> ItemPlace:
    """Return an item where it stands."""
    return ItemPlace(
        number=number,
        kind=kind,
        name=str(kind),
        left=left,
        right=right,
        body_left=left + overhang,
        body_right=right - overhang,
        wished=right - left,
        least=right - left,
        most=right - left,
        bottom=bottom,
        top=top,
        depth=depth,
    )


def run(*items: ItemPlace, wall: str = "A", row: str = "base", solved: bool = True) -> RunPlan:
    """Return a run with its items placed, or one that could not be solved."""
    ends = [each.left for each in items] + [each.right for each in items]
    known = [each for each in ends if each is not None]
    return RunPlan(
        name=f"{wall} {row}",
        wall=wall,
        row=row,
        left_end=Figure(value=min(known, default=0)),
        right_end=Figure(value=max(known, default=0)),
        solved=solved,
        overrun=None if solved else 1,
        items=tuple(items),
        joints=(),
        marks=(),
    )


def levelled(a_job: Job, *runs: RunPlan, book: RuleBook | None = None) -> FloorResult:
    """Return the floor and the line of a job with its runs placed."""
    book = book or rule_book(a_job.rules, tape=tape_of(a_job))
    return find_level(a_job, book, outline(a_job, book), runs)


def shimmed(a_job: Job, *runs: RunPlan) -> tuple[FloorResult, Shims]:
    """Return the floor, the line and the shims."""
    book = rule_book(a_job.rules, tape=tape_of(a_job))
    result = levelled(a_job, *runs, book=book)
    return result, shim_all(a_job, book, result)
