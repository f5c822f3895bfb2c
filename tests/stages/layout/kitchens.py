"""Small kitchens for the tests of the layout, written as tables like those of a job file."""

from __future__ import annotations

from typing import Any

from tests.tape import inch

from setline.job.job import Job, tape_of
from setline.job.read import job_from_dict
from setline.lengths import Units, show
from setline.result import Finding, Mark, RunPlan
from setline.rules import rule_book
from setline.stages.layout import Layout, lay_out

Table = dict[str, Any]

TOPS = -inch("13 1/2")
"""Where the box tops lie in these kitchens: 13 1/2 down from the laser."""


def box(number: int, width: str | int, **more: Any) -> Table:
    """Return a base box, frameless unless overhangs are given."""
    return {"number": number, "kind": "base", "width": width, "height": "34 1/2", "depth": 24, **more}


def framed(number: int, width: str | int, **more: Any) -> Table:
    """Return a base box whose frame stands 1/4 past its body on both sides."""
    return box(number, width, overhang_left="1/4", overhang_right="1/4", **more)


def wall_box(number: int, width: str | int, **more: Any) -> Table:
    """Return a wall box."""
    return {"number": number, "kind": "wall", "width": width, "height": 30, "depth": 12, **more}


def tall(number: int, width: str | int, **more: Any) -> Table:
    """Return a tall box."""
    return {"number": number, "kind": "tall", "width": width, "height": 84, "depth": 24, **more}


def filler(number: int, least: str | int, most: str | int = "no limit", **more: Any) -> Table:
    """Return a filler."""
    wish = {"wish": more.pop("wish")} if "wish" in more else {}
    return {"number": number, "width": {"least": least, "most": most, **wish}, **more}


def opening(number: int, kind: str, least: str | int, most: str | int = "no limit", **more: Any) -> Table:
    """Return an appliance with its window, from its sheet."""
    wish = {"wish": more.pop("wish")} if "wish" in more else {}
    sheet = more.pop("sheet", "from the sheet")
    return {
        "number": number,
        "kind": kind,
        "width": {"least": least, "most": most, **wish},
        "sheet": sheet,
        **more,
    }


def wall(name: str, length: str | int, **more: Any) -> Table:
    """Return a wall with one length at the line."""
    return {"name": name, "lengths": [{"length": length}], **more}


def run(letter: str, items: list[int], row: str = "base", **more: Any) -> Table:
    """Return a run."""
    return {"wall": letter, "row": row, "items": items, **more}


def kitchen(
    walls: list[Table],
    runs: list[Table],
    *,
    boxes: list[Table] | None = None,
    fillers: list[Table] | None = None,
    openings: list[Table] | None = None,
    panels: list[Table] | None = None,
    existing: list[Table] | None = None,
    rules: Table | None = None,
    tape: str = "inch",
) -> Job:
    """Return a job of these parts."""
    return job_from_dict(
        {
            "format": 1,
            "job": {"name": "A room of our own", "tape": tape},
            "room": {"walls": walls},
            "order": {
                "boxes": boxes or [],
                "fillers": fillers or [],
                "appliances": openings or [],
                "panels": panels or [],
                "existing": existing or [],
            },
            "runs": runs,
            "rules": rules or {},
        }
    )


def laid_out(job: Job, tops: int = TOPS) -> Layout:
    """Return the layout of a job by its own rules."""
    return lay_out(job, rule_book(job.rules, tape=tape_of(job)), tops=tops)


def run_named(layout: Layout, name: str) -> RunPlan:
    """Return a run by its name."""
    return next(each for each in layout.runs if each.name == name)


def joints(layout: Layout, name: str) -> list[str]:
    """Return the chosen places of a run's joints in tape notation."""
    found = []
    for joint in run_named(layout, name).joints:
        assert joint.chosen is not None, f"{joint.name} has no place"
        found.append(show(joint.chosen, Units.INCH))
    return found


def mark(layout: Layout, name: str) -> Mark:
    """Return a mark by its name."""
    return next(each for plan in layout.runs for each in plan.marks if each.name == name)


def printed(layout: Layout, name: str) -> str:
    """Return a mark as printed, in tape notation."""
    ticks = mark(layout, name).printed
    return "?" if ticks is None else show(ticks, Units.INCH)


def finding(layout: Layout, code: str) -> Finding:
    """Return the one finding of a code."""
    (found,) = [each for each in layout.findings if each.code == code]
    return found


def codes(layout: Layout) -> set[str]:
    """Return the codes of all findings."""
    return {each.code for each in layout.findings}
