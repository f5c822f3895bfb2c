"""The elevation of one wall, seen facing it, with the numbers to mark it by from one corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from setline.drawings.elevation_parts import (
    draw_lines,
    draw_openings,
    draw_shell,
    draw_trouble,
    label_ends,
    label_lines,
    label_openings,
)
from setline.drawings.floor_numbers import spot_height
from setline.drawings.floor_strip import FloorStrip, draw_strip, plan_strip
from setline.drawings.item_labels import label_beside, label_item
from setline.drawings.running import RowPlan, draw_row, plan_row
from setline.drawings.scale import on_paper, page_of, usual_scales
from setline.drawings.shapes import Drawing, Frame, Scale
from setline.drawings.sketch import Sketch
from setline.drawings.standing import item_code, plain_name, runs_of, wall_of
from setline.drawings.symbols import draw_item, draw_solid_side
from setline.drawings.title_block import draw_foot, draw_heading, foot_height
from setline.drawings.wall_facts import wall_description, wall_table
from setline.drawings.wall_view import WallView, heights_shown, reach_along, row_marks, seen_once
from setline.lengths import Units, show
from setline.result import ItemKind, Plan, RunPlan, WallLine
from setline.wording import say

__all__ = ["wall_elevation"]

_LEFT, _RIGHT = 9.0, 13.2
"""Paper kept free beside the wall, for the words at its corner and the measure down. [mm]"""
_TROUBLE = 8.0
"""Paper over a row that cannot be solved, for its bracket. [mm]"""
_UNDER_FLOOR = 2.4
_OVER_STRIP = 2.6
_SIGNS = (ItemKind.FILLER, ItemKind.PANEL, ItemKind.EXISTING)


@dataclass(frozen=True, slots=True)
class _Layout:
    """How a wall lies on its paper at one scale.

    Attributes:
        view: Where the wall lies.
        upper: How the numbers of the wall row are laid.
        lower: How those of the base row are laid.
        strip: The floor strip.
        top: y where the wall starts to be shown.
        bottom: y of the lowest thing shown.
        foot: y under the floor strip.
    """

    view: WallView
    upper: RowPlan
    lower: RowPlan
    strip: FloorStrip
    top: float
    bottom: float
    foot: float


def wall_elevation(plan: Plan, wall: str, frame: Frame | None = None) -> Drawing:
    """Return the elevation of one wall.

    Args:
        plan: The plan.
        wall: The wall's letter.
        frame: The paper it may use; without one, a page laid sideways, letter or A4 by the job's tape.

    Returns:
        The drawing: boxes as planned (at wished sizes where a run cannot be solved), the struck line and the
        laser line, windows and doors, running numbers of both rows from the left corner, the floor as found.
    """
    paper = frame or page_of(Units(plan.units))
    line, runs = wall_of(plan, wall), runs_of(plan, wall)
    sketch = Sketch(paper)
    short = ", ".join(run.name for run in runs if not run.solved)
    banner = say("do-not-set", run=short) if short else ""
    title = say("wall-title", wall=wall)
    top = draw_heading(sketch, plan, title, say("wall-aside"), banner=banner)
    notes = _notes(runs)
    layout = _fit(plan, line, runs, notes, top, paper)
    sketch.field.frame = (0.0, top, paper.width, layout.foot)
    _draw_wall(sketch, plan, line, runs, layout)
    left_out = _write_wall(sketch, plan, line, runs, layout)
    if left_out:
        notes.append(say("narrow-note", codes=", ".join(left_out)))
    sketch.field.frame = (0.0, 0.0, paper.width, paper.height)
    height = draw_foot(sketch, layout.view.scale, Units(plan.units), notes, layout.foot)
    return sketch.finish(
        name=f"wall-{wall}",
        title=say("wall-drawing-title", job=plan.job_name, wall=wall),
        description=wall_description(plan, line, runs),
        height=height,
        scale=layout.view.scale,
        origin=(layout.view.left, layout.view.level),
        table=wall_table(plan, runs),
    )


def _notes(runs: Sequence[RunPlan]) -> list[str]:
    """Return what explains the signs that are used, one line each."""
    notes = [say("marks-note")]
    kinds = {item.kind for run in runs for item in run.items}
    signs = [say(f"sign-{kind.value}") for kind in _SIGNS if kind in kinds]
    if signs:
        notes.append(say("signs-note", signs=", ".join(signs)))
    short = ", ".join(run.name for run in runs if not run.solved)
    if short:
        notes[-1] += " " + say("wished-note", run=short)
    return notes


def _fit(
    plan: Plan, line: WallLine, runs: Sequence[RunPlan], notes: list[str], top: float, paper: Frame
) -> _Layout:
    """Return the layout at the largest usual scale that the paper holds, else the least high."""
    found: list[_Layout] = []
    for scale in usual_scales(Units(plan.units)):
        layout = _layout(plan, line, runs, scale, top, paper)
        if layout is None:
            continue
        if layout.foot + foot_height(scale, Units(plan.units), notes, paper.width) <= paper.height:
            return layout
        found.append(layout)
    return min(found, key=lambda layout: layout.foot)


def _layout(
    plan: Plan, line: WallLine, runs: Sequence[RunPlan], scale: Scale, top: float, paper: Frame
) -> _Layout | None:
    """Return how the wall would lie at a scale, or None if it is too wide."""
    units = Units(plan.units)
    least, most = reach_along(line, runs)
    spare = paper.width - _LEFT - _RIGHT - on_paper(most - least, scale)
    if spare < 0:
        return None
    left = _LEFT + spare / 2 - on_paper(least, scale)
    low, high = heights_shown(plan, line, runs)
    flat = WallView(scale, left, 0.0)
    room = (0.0, paper.width)
    walls = [run for run in runs if run.row != "base"]
    bases = [run for run in runs if run.row == "base"]
    upper = plan_row(row_marks(walls, units, flat, upper=True), *room)
    lower = plan_row(row_marks(bases, units, flat, upper=False), *room)
    shown = top + (upper.height + 1.5 if walls else 0.0) + 1.0
    if any(not run.solved for run in walls):
        shown += _TROUBLE
    level = shown + on_paper(high, scale)
    bottom = level - on_paper(low, scale)
    strip = plan_strip(plan, line, scale, left, room)
    foot = bottom + _UNDER_FLOOR + lower.height + _OVER_STRIP + strip.height + 1.6
    return _Layout(WallView(scale, left, level), upper, lower, strip, shown, bottom, foot)


def _draw_wall(sketch: Sketch, plan: Plan, line: WallLine, runs: Sequence[RunPlan], layout: _Layout) -> None:
    """Draw everything but words."""
    view, units = layout.view, Units(plan.units)
    draw_openings(sketch, plan, line, view, layout.top, layout.bottom)
    for _, thing in seen_once(runs):
        draw_item(sketch, thing.item.kind, view.box(thing))
    draw_shell(sketch, plan, line, view, layout.top, layout.bottom)
    _draw_floor(sketch, plan, line, layout)
    draw_lines(sketch, plan, line, view, layout.top, layout.bottom)
    walls = [run for run in runs if run.row != "base"]
    bases = [run for run in runs if run.row == "base"]
    if walls:
        draw_row(sketch, layout.upper, row_marks(walls, units, view, upper=True), layout.top - 1.0, up=True)
    under = layout.bottom + _UNDER_FLOOR
    draw_row(sketch, layout.lower, row_marks(bases, units, view, upper=False), under, up=False)
    draw_strip(
        sketch, plan, line, layout.strip, view.scale, view.left, under + layout.lower.height + _OVER_STRIP
    )
    for run in runs:
        if not run.solved:
            draw_trouble(sketch, run, view, units)


def _draw_floor(sketch: Sketch, plan: Plan, line: WallLine, layout: _Layout) -> None:
    """Draw the floor at the wall, true to scale, from reading to reading."""
    view, tops = layout.view, plan.level_line.tops.value
    left, right = view.x(0), view.x(line.length)
    points = [
        (view.x(spot.u), view.y(height - tops))
        for spot in layout.strip.spots
        if (height := spot_height(spot)) is not None and tops is not None
    ]
    if not points:
        points = [(left, layout.bottom), (right, layout.bottom)]
    points = [(left, points[0][1]), *points, (right, points[-1][1])]
    for start, end in pairwise(points):
        draw_solid_side(sketch, end, start)


def _write_wall(
    sketch: Sketch, plan: Plan, line: WallLine, runs: Sequence[RunPlan], layout: _Layout
) -> list[str]:
    """Write the words, boxes first; return the narrow things that found no place for theirs."""
    view, units = layout.view, Units(plan.units)
    label_ends(sketch, plan, line, view, layout.top, layout.bottom)
    things = [thing for _, thing in seen_once(runs)]
    narrow = (ItemKind.FILLER, ItemKind.PANEL)
    for thing in things:
        if thing.item.kind not in narrow:
            width = show(thing.right - thing.left, units)
            name = plain_name(thing.item, width)
            label_item(sketch, view.box(thing), item_code(thing.item), width, name)
    label_openings(sketch, plan, line, view, layout.top, layout.bottom)
    left_out = []
    for thing in things:
        if thing.item.kind in narrow:
            text = f"{item_code(thing.item)}: {show(thing.right - thing.left, units)}"
            if not label_beside(sketch, view.box(thing), text, up=thing.item.bottom < 0):
                left_out.append(text)
    label_lines(sketch, plan, line, view, layout.top, layout.bottom)
    return left_out
