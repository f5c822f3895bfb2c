"""The floor as found, from above: how far it falls below the high spot, and where the level line may lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from setline.drawings.band_column import band_height, band_rows, draw_band
from setline.drawings.floor_ground import (
    contour_step,
    draw_contours,
    draw_unread,
    label_contours,
    label_unread,
)
from setline.drawings.floor_numbers import floor_zero, spot_number
from setline.drawings.labels import Candidate, Label, around, label_box
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.room_view import RoomView, footprint, paper_size, room_extent
from setline.drawings.scale import page_of, usual_scales
from setline.drawings.shapes import Circle, Drawing, Fill, Frame, Layer, Point, Polygon, Rect, Scale, Table
from setline.drawings.sketch import Sketch
from setline.drawings.standing import item_code, stand
from setline.drawings.symbols import draw_solid_side
from setline.drawings.title_block import draw_foot, draw_heading, foot_height
from setline.lengths import Units, show
from setline.result import FloorSpot, ItemKind, Plan, WallLine
from setline.wording import say

__all__ = ["floor_picture"]

_MARGIN = 12.0
"""Paper round the room, for the numbers at its walls. [mm]"""
_BAND = 66.0
"""Width of the column with the band. [mm]"""
_SIZES = (4.4, 3.8, LEAST_TEXT)
_REACHES = (3.5, 5.0, 7.0, 9.0, 12.0, 15.0)
_OUTWARD = 2.6
_RING = 2.7
_LARGEST = 16
_LEAST_BAND = 58.0
"""The band is not squeezed into less paper than this. [mm]"""
_SPARE_NOTE = "?" * 60
_NEAR = 4.0
"""A number farther from its spot than this is far. [mm]"""


@dataclass(frozen=True, slots=True)
class _Page:
    """Where the room lies, and the paper round it.

    Attributes:
        view: Where the room lies.
        area: The paper for the room and its numbers.
        band: The paper for the band: beside the room or, under a long and narrow room, below it.
    """

    view: RoomView
    area: Rect
    band: Rect

    @property
    def bottom(self) -> float:
        """The y under everything."""
        return max(self.area[3], self.band[3])


def floor_picture(plan: Plan, frame: Frame | None = None) -> Drawing:
    """Return the floor picture.

    Args:
        plan: The plan.
        frame: The paper it may use; without one, a page laid sideways, letter or A4 by the job's tape.

    Returns:
        The drawing: the room from above with its walls and boxes; at every reading how far the floor there
        lies below the high spot (the reading as typed is in the table); contours; the high spot as an X in
        a ring; dotted where no reading is near; and beside it the band of heights where the level line may
        lie.
    """
    units = Units(plan.units)
    paper = frame or page_of(units)
    zero = floor_zero(plan)
    sketch = Sketch(paper)
    top = draw_heading(sketch, plan, say("floor-title"), say("floor-aside"))
    notes = _notes(plan, units, zero)
    page = _fit(plan, paper, units, notes, top)
    view = page.view
    contours = draw_contours(sketch, plan, zero, units, view) if zero is not None else []
    draw_unread(sketch, plan, view)
    _draw_walls(sketch, plan, page)
    more = draw_band(sketch, plan.level_line, units, page.band)
    sketch.field.frame = page.area
    _draw_high_spot(sketch, plan, view)
    sketch, left_out = _number_spots(sketch, plan, view, zero, units)
    _letter_walls(sketch, plan, view)
    _number_boxes(sketch, plan, view)
    label_unread(sketch, plan, view)
    if zero is not None:
        label_contours(sketch, contours, zero, units)
    listed = [say("floor-note-more-spots", count=left_out)] if left_out else []
    listed += [say("floor-note-more-limits", count=more)] if more else []
    notes += [" ".join(listed)] if listed else []
    height = draw_foot(sketch, view.scale, units, notes, page.bottom + 1.0)
    return sketch.finish(
        name="floor",
        title=say("floor-drawing-title", job=plan.job_name),
        description=_description(plan, units),
        height=height,
        scale=view.scale,
        origin=view.at(0.0, 0.0),
        table=_table(plan, units, zero),
    )


def _notes(plan: Plan, units: Units, zero: int | None) -> list[str]:
    """Return what explains the numbers and signs."""
    notes = []
    if zero is not None:
        notes.append(say("floor-note-numbers"))
    if plan.floor.grid is not None:
        step, bold = contour_step(plan.floor.grid, units)
        words = say("floor-note-lines", step=show(step, units), bold=show(step * bold, units))
        notes.append(f"{words} {say('floor-note-unread')}")
    return notes or [say("floor-note-none")]


def _fit(plan: Plan, paper: Frame, units: Units, notes: list[str], top: float) -> _Page:
    """Return the room at the largest usual scale that the paper holds with the band."""
    extent = room_extent(plan)
    page = None
    for scale in usual_scales(units):
        if scale.ratio < _LARGEST:
            continue
        foot = 1.0 + foot_height(scale, units, [*notes, _SPARE_NOTE], paper.width)
        for beside in (True, False):
            page = _page(plan, extent, scale, units, Frame(paper.width, paper.height - foot), top, beside)
            if page.bottom <= paper.height - foot and page.view.at(extent[0], 0.0)[0] >= _MARGIN:
                return page
    assert page is not None, "there are always scales to try"
    return page


def _page(
    plan: Plan, extent: Rect, scale: Scale, units: Units, paper: Frame, top: float, beside: bool
) -> _Page:
    """Return the room at a scale, the band beside it or below it."""
    wide, high = paper_size(extent, scale)
    right = paper.width - _BAND if beside else paper.width
    band_wide = _BAND - 4.0 if beside else paper.width
    bottom = top + high + 2 * _MARGIN
    band_top = (top if beside else bottom) + 2.0
    most = max(paper.height - band_top, _LEAST_BAND)
    band_high = band_height(plan.level_line, units, band_wide, most)
    if beside:
        bottom = max(bottom, band_top + band_high)
        band = (right + 4.0, band_top, paper.width, bottom)
    else:
        band = (0.0, band_top, paper.width, band_top + band_high)
    zero = RoomView(scale, 0.0, 0.0).at(extent[0], extent[1])
    view = RoomView(scale, (right - wide) / 2 - zero[0], top + _MARGIN - zero[1])
    return _Page(view, (0.0, top, right, bottom), band)


def _draw_walls(sketch: Sketch, plan: Plan, page: _Page) -> None:
    """Draw the walls, and what stands on the floor in outline."""
    walls = {wall.name: wall for wall in plan.walls}
    for run in plan.runs:
        if run.row == "base" and run.wall in walls:
            for thing in stand(run):
                outline = tuple(page.view.at(x, y) for x, y in footprint(walls[run.wall], thing))
                sketch.draw(Polygon(Layer.FOOTPRINT, outline))
                sketch.field.keep_off(*outline, outline[0], weight=2)
    for wall in plan.walls:
        start, end = page.view.at(wall.x0, wall.y0), page.view.at(wall.x1, wall.y1)
        draw_solid_side(sketch, start, end)


def _letter_walls(sketch: Sketch, plan: Plan, view: RoomView) -> None:
    """Write every wall's letter outside it, near its middle, clear of the numbers."""
    for wall in plan.walls:
        start, end = view.at(wall.x0, wall.y0), view.at(wall.x1, wall.y1)
        label = Label(wall.name, 7.0, True)
        width, height = label.extent()
        x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        dx, dy = _outward(wall)
        places = []
        for along in (0.0, 5.0, -5.0, 10.0, -10.0, 15.0, -15.0, 22.0, -22.0, 30.0, -30.0):
            for reach in (6.5, 9.0):
                middle = (x + dx * reach - dy * along, y + dy * reach + dx * along)
                places.append(Candidate(middle[0] - width / 2, middle[1] - height / 2))
        sketch.place(label, places)


def _outward(wall: WallLine) -> tuple[float, float]:
    """Return the direction from the room into a wall."""
    length = ((wall.x1 - wall.x0) ** 2 + (wall.y1 - wall.y0) ** 2) ** 0.5 or 1.0
    return ((wall.y1 - wall.y0) / length, -(wall.x1 - wall.x0) / length)


def _draw_high_spot(sketch: Sketch, plan: Plan, view: RoomView) -> None:
    """Draw the high spot as it is marked on a floor: an X in a ring, with its name."""
    high = plan.level_line.high_spot
    if high is None:
        return
    x, y = view.at(high.x, high.y)
    radius, arm = _RING, _RING / 2
    sketch.draw(Circle(Layer.TROUBLE, (x, y), radius, Fill.WHITE))
    for lean in (1, -1):
        sketch.line(Layer.TROUBLE, (x - arm, y - arm * lean), (x + arm, y + arm * lean))
    sketch.field.take((x - radius, y - radius, x + radius, y + radius))
    label = Label(say("floor-high", point=high.point), 4.2, True)
    sketch.place(label, around(label, (x, y), clear=radius + 0.8, reaches=(8.0, 11.0, 15.0, 20.0, 26.0)))


def _number_spots(
    sketch: Sketch, plan: Plan, view: RoomView, zero: int | None, units: Units
) -> tuple[Sketch, int]:
    """Write the number at every reading, at the largest size at which nearly all stand close to their spots.

    Returns:
        The sketch with the numbers, and how many found no place.
    """
    for spot in plan.floor.spots:
        x, y = view.at(spot.x, spot.y)
        sketch.draw(Circle(Layer.PANEL, (x, y), 0.6, Fill.BLACK))
        sketch.field.keep_off_box((x - 0.7, y - 0.7, x + 0.7, y + 0.7))
    for size in _SIZES:
        tried = sketch.copy()
        left_out, far = _try_numbers(tried, plan, view, zero, units, size)
        if not left_out and far <= len(plan.floor.spots) // 20:
            break
    return tried, left_out


def _try_numbers(
    sketch: Sketch, plan: Plan, view: RoomView, zero: int | None, units: Units, size: float
) -> tuple[int, int]:
    """Write the numbers at one size; return how many found no place and how many stand far off."""
    walls = {wall.name: wall for wall in plan.walls}
    high = plan.level_line.high_spot
    ring = None if high is None else view.at(high.x, high.y)
    left_out = far = 0
    for spot in plan.floor.spots:
        at = view.at(spot.x, spot.y)
        text = spot_number(spot, zero, units)
        if text == "0" and ring is not None and hypot(at[0] - ring[0], at[1] - ring[1]) < _RING:
            continue  # the X says it
        label = Label(text, size, True)
        written = sketch.place(label, _spot_places(label, spot, at, walls.get(spot.wall)))
        if written is None:
            left_out += 1
        elif _distance(label_box(written), at) > _NEAR:
            far += 1
    return left_out, far


def _distance(box: Rect, at: Point) -> float:
    """Return how far a point lies from a box."""
    return hypot(max(box[0] - at[0], 0.0, at[0] - box[2]), max(box[1] - at[1], 0.0, at[1] - box[3]))


def _spot_places(label: Label, spot: FloorSpot, at: Point, wall: WallLine | None) -> Iterator[Candidate]:
    """Yield places for a reading's number: at the wall outside it, else round the spot."""
    if wall is not None and spot.out * 8 < wall.length:
        dx, dy = _outward(wall)
        for turned in (False, True):
            width, height = label.extent(turned)
            middle = (
                at[0] + dx * (_OUTWARD + width / 2),
                at[1] + dy * (_OUTWARD + height / 2),
            )
            if spot.out < 65_024:
                yield Candidate(middle[0] - width / 2, middle[1] - height / 2, turned)
    yield from around(label, at, clear=1.1, reaches=_REACHES)


def _number_boxes(sketch: Sketch, plan: Plan, view: RoomView) -> None:
    """Write every box's number on its outline, in thin large figures."""
    walls = {wall.name: wall for wall in plan.walls}
    for run in plan.runs:
        if run.row != "base" or run.wall not in walls:
            continue
        for thing in stand(run):
            if thing.item.kind in (ItemKind.FILLER, ItemKind.PANEL):
                continue
            outline = [view.at(x, y) for x, y in footprint(walls[run.wall], thing)]
            xs, ys = [x for x, _ in outline], [y for _, y in outline]
            _number_box(sketch, item_code(thing.item), (min(xs), min(ys), max(xs), max(ys)))


def _number_box(sketch: Sketch, code: str, box: Rect) -> None:
    """Write one number on its outline, or beside it on a leader."""
    for size, most in ((6.0, 4), (5.0, 4), (4.2, 6), (3.6, 8)):
        label = Label(code, size)
        width, height = label.extent()
        places = [
            Candidate(
                box[0] + across * (box[2] - box[0]) - width / 2,
                box[1] + down * (box[3] - box[1]) - height / 2,
            )
            for across in (0.5, 0.3, 0.7, 0.15, 0.85)
            for down in (0.5, 0.35, 0.65, 0.2, 0.8)
        ]
        if sketch.place(label, places, most=most):
            return
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    label = Label(code, 4.2)
    sketch.place(label, around(label, middle, clear=1.0, reaches=(10.0, 14.0, 18.0, 24.0, 32.0)))


def _description(plan: Plan, units: Units) -> str:
    """Return the answer of the picture in two or three sentences."""
    line = plan.level_line
    words = [say("floor-says-count", count=len(plan.floor.spots))]
    if line.high_spot is not None:
        high = line.high_spot
        words.append(say("floor-says-high", point=high.point, wall=high.wall, place=show(high.u, units)))
    if line.band.is_empty:
        words.append(say("band-empty-sentence"))
    elif line.band.binds_low:
        words.append(say("floor-says-low", owner=line.band.binds_low))
        if line.band.binds_high:
            words.append(say("floor-says-most", owner=line.band.binds_high))
    return " ".join(words)


def _table(plan: Plan, units: Units, zero: int | None) -> Table:
    """Return every reading with the number printed at it, the high spot, the limits and the line."""
    header = tuple(say(f"floor-table-{key}") for key in ("what", "where", "typed", "number"))
    rows = [
        (
            say("floor-row-on-covering" if spot.on_covering else "floor-row-reading"),
            spot.address,
            spot.typed,
            spot_number(spot, zero, units),
        )
        for spot in plan.floor.spots
    ]
    high = plan.level_line.high_spot
    if high is not None:
        rows.append((say("floor-row-high"), high.point, "", "0" if high.height.value is not None else "?"))
    return Table(header, (*rows, *band_rows(plan.level_line, units)))
