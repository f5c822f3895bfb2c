"""The files a plan is written to: ``plan.json``, the drawings, the packet."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from setline.drawings.shapes import Drawing
from setline.result import Plan
from setline.result.as_json import plan_as_dict
from setline.told import walls_with_runs

__all__ = ["plan_text", "write_plan"]


def plan_text(plan: Plan) -> str:
    """Return the plan as JSON, a field a line, the same bytes for the same plan."""
    return json.dumps(plan_as_dict(plan), ensure_ascii=False, indent=1) + "\n"


def write_plan(plan: Plan, folder: Path) -> list[Path]:
    """Write ``plan.json`` and every drawing as SVG into a folder, which is made if it is not there.

    Args:
        plan: The plan.
        folder: Where to.

    Returns:
        The files written, in that order.
    """
    from setline.drawings.svg import to_svg

    folder.mkdir(parents=True, exist_ok=True)
    texts = {"plan.json": plan_text(plan)}
    texts |= {f"{drawing.name}.svg": to_svg(drawing) for drawing in _every_drawing(plan)}
    written = []
    for name, text in texts.items():
        path = folder / name
        path.write_text(text, encoding="utf-8")
        written.append(path)
    return written


def _every_drawing(plan: Plan) -> Iterator[Drawing]:
    """Yield every drawing of a plan: the floor, each wall and its shims, each run's story pole."""
    from setline.drawings.floor_picture import floor_picture
    from setline.drawings.shim_map import shim_map
    from setline.drawings.story_pole import story_pole
    from setline.drawings.wall_elevation import wall_elevation

    yield floor_picture(plan)
    for wall, runs in walls_with_runs(plan).items():
        yield wall_elevation(plan, wall)
        if any(shim.wall == wall for shim in plan.shims):
            yield shim_map(plan, wall)
        for run in runs:
            yield story_pole(plan, run.name)
