"""A wall of boxes on an invented floor: a job with readings of it, and a plan by hand."""

from __future__ import annotations

from collections.abc import Sequence

from tests.stages.floor.invented import Truth
from tests.tape import inch

from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.lengths import show
from setline.lengths.grid import Units
from setline.result import (
    Band,
    Figure,
    FloorAsFound,
    ItemKind,
    ItemPlace,
    LevelLine,
    Plan,
    RunPlan,
)

BOX = 30  # inches wide, each
HEIGHT = inch("34 1/2")


def job_read_at(truth: Truth, spots: Sequence[tuple[int, str]], *, boxes: int = 5, to: int = 32) -> Job:
    """Return a job whose floor was read at (u, line), each to the nearest 1/32 (or 1/``to``) in."""
    lines = {}
    for u, line in spots:
        down = -truth(u, 0.0 if line == "wall" else 20.875) * to
        lines.setdefault(line, []).append([str(u), show(round(down) * inch(1) // to, Units.INCH)])
    return job_from_dict(
        {
            "format": 1,
            "job": {"name": "invented", "tape": "inch"},
            "room": {"walls": [{"name": "A", "lengths": [{"length": BOX * boxes}]}]},
            "floor": {
                "set_ups": [
                    {
                        "name": "S1",
                        "lines": [
                            {"wall": "A", "at": line, "readings": readings}
                            for line, readings in lines.items()
                        ],
                    }
                ]
            },
            "order": {
                "boxes": [
                    {"number": n + 1, "kind": "base", "width": BOX, "height": "34 1/2", "depth": 24}
                    for n in range(boxes)
                ]
            },
            "runs": [{"wall": "A", "items": list(range(1, boxes + 1))}],
        }
    )


def plan_with(tops: int | None, *, boxes: int = 5) -> Plan:
    """Return a plan of that wall with its tops at a height, and nothing else worked out."""
    items = tuple(_box(n) for n in range(boxes))
    run = RunPlan(
        name="A base",
        wall="A",
        row="base",
        left_end=Figure(value=0),
        right_end=Figure(value=inch(BOX * boxes)),
        solved=True,
        overrun=None,
        items=items,
        joints=(),
        marks=(),
    )
    band = Band(limits=(), lowest=tops, highest=None, binds_low=None, binds_high=None, is_empty=False)
    line = LevelLine(
        tops=Figure(value=tops), clearance=inch("1/8"), high_spot=None, set_ups=(), band=band, options=()
    )
    return Plan(
        job_name="invented",
        units="inch",
        revision="A",
        check_code="000000",
        walls=(),
        runs=(run,),
        floor=FloorAsFound(set_up_in_use="S1", spots=(), grid=None, flatness=()),
        level_line=line,
        shims=(),
        findings=(),
    )


def _box(place: int) -> ItemPlace:
    """Return a box of a row, side by side from the left end."""
    left, right = inch(BOX * place), inch(BOX * (place + 1))
    return ItemPlace(
        number=place + 1,
        kind=ItemKind.BOX,
        name="box",
        left=left,
        right=right,
        body_left=left,
        body_right=right,
        wished=right - left,
        least=right - left,
        most=right - left,
        bottom=-HEIGHT,
        top=0,
        depth=inch(24),
    )
