from __future__ import annotations

import pytest

from setline.drawings.floor_picture import floor_picture
from setline.drawings.scale import fit_scale, on_paper, usual_scales
from setline.drawings.shapes import Drawing, Frame, Layer, Line, Polygon, Text
from setline.drawings.shim_map import shim_map
from setline.drawings.story_pole import story_pole, story_pole_sheets
from setline.drawings.svg import to_svg
from setline.drawings.wall_elevation import wall_elevation
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units
from setline.result import Plan
from tests.drawings.sample_plans import inch_sample, metric_sample
from tests.drawings.typeset import MM, page_of_svg
from tests.tape import inch, mm

INCH, METRIC = inch_sample(), metric_sample()


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("ratio", "words"), [(12, '1" = 1\'-0"'), (24, '1/2" = 1\'-0"'), (48, '1/4" = 1\'-0"')]
)
def test_inch_scales_are_so_many_inches_to_the_foot(ratio: int, words: str) -> None:
    """Inch drawings are made at scales of inches to the foot, and say so both ways."""
    scale = next(scale for scale in usual_scales(Units.INCH) if scale.ratio == ratio)
    assert scale.words == f"{words} (1:{ratio})"
    assert on_paper(inch(12), scale) == pytest.approx(25.4 * 12 / ratio)


def test_the_largest_scale_that_fits_is_taken() -> None:
    """A wall of 12 ft on 250 mm is drawn at 1:16, on 200 mm at 1:24; a metric one at 1:20 and 1:25."""
    wall = inch(144)
    assert fit_scale(Units.INCH, wall, inch(90), Frame(250.0, 180.0)).ratio == 16
    assert fit_scale(Units.INCH, wall, inch(90), Frame(200.0, 180.0)).ratio == 24
    assert fit_scale(Units.METRIC, mm(3_600), mm(2_000), Frame(250.0, 180.0)).ratio == 20
    assert fit_scale(Units.METRIC, mm(3_600), mm(2_000), Frame(150.0, 180.0)).ratio == 25


def _lines(drawing: Drawing, layer: Layer) -> list[Line]:
    return [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.layer == layer]


@pytest.mark.parametrize("plan", [INCH, METRIC], ids=["inch", "metric"])
def test_boxes_are_drawn_to_scale(plan: Plan) -> None:
    """Each box of a solved run is as wide and high on paper as it is at the stated scale."""
    drawing = wall_elevation(plan, "A")
    outlines = {
        (round(max(x) - min(x), 6), round(max(y) - min(y), 6))
        for shape in drawing.shapes
        if isinstance(shape, Polygon) and shape.layer == Layer.BOX
        for x, y in [tuple(zip(*shape.points, strict=True))]
    }
    for run in plan.runs:
        for item in run.items:
            if run.wall == "A" and item.kind == "box":
                wide = on_paper(item.right - item.left, drawing.scale)
                high = on_paper(item.top - item.bottom, drawing.scale)
                assert (round(wide, 6), round(high, 6)) in outlines


@pytest.mark.parametrize("plan", [INCH, METRIC], ids=["inch", "metric"])
def test_the_origin_undoes_the_scale(plan: Plan) -> None:
    """From its origin and scale a drawing gives back the true place of every corner of the room."""
    drawing = floor_picture(plan)
    each = TICKS_PER_MM * drawing.scale.ratio
    ends = {
        (round((x - drawing.origin[0]) * each), round((y - drawing.origin[1]) * each))
        for line in _lines(drawing, Layer.WALL)
        for x, y in (line.start, line.end)
    }
    assert {(wall.x0, wall.y0) for wall in plan.walls} <= ends


@pytest.mark.parametrize("plan", [INCH, METRIC], ids=["inch", "metric"])
def test_the_wall_prints_to_scale(plan: Plan) -> None:
    """In the PDF the wall of a shim map is as long as it is at the stated scale."""
    drawing = shim_map(plan, "A")
    page = page_of_svg(to_svg(drawing))
    heavy = [line for line in page["lines"] if line["linewidth"] * MM == pytest.approx(0.7, abs=0.01)]
    wall = on_paper(plan.walls[0].length, drawing.scale)
    assert [(line["x1"] - line["x0"]) * MM for line in heavy] == [pytest.approx(wall, abs=0.002)]


@pytest.mark.parametrize("plan", [INCH, METRIC], ids=["inch", "metric"])
def test_the_scale_bar_is_as_long_as_it_says(plan: Plan) -> None:
    """The words beside the bar name its length on paper, and its end the length it stands for."""
    drawing = wall_elevation(plan, "A")
    bars = [shape for shape in drawing.shapes if isinstance(shape, Polygon) and shape.layer == Layer.SCALE]
    length = max(x for bar in bars for x, _ in bar.points) - min(x for bar in bars for x, _ in bar.points)
    texts = [shape.text for shape in drawing.shapes if isinstance(shape, Text)]
    if plan.units == Units.INCH:
        feet = int(next(text for text in texts if text.endswith(" ft")).removesuffix(" ft"))
        assert length == pytest.approx(on_paper(feet * 12 * TICKS_PER_INCH, drawing.scale))
        assert f"The bar is {length / 25.4:g} in on paper" in " ".join(texts).replace("1 1/2", "1.5")
    else:
        assert f"The bar is {length:g} mm on paper" in " ".join(texts)


def test_a_story_pole_is_full_size() -> None:
    """On the pole the mark at 31 5/16 lies 31 5/16 in from its start, and in the PDF too."""
    drawing = story_pole(INCH, "A base")
    expected = on_paper(inch("31 5/16"), drawing.scale)
    places = [line.start[0] - drawing.origin[0] for line in _lines(drawing, Layer.BOX)]
    assert any(abs(place - expected) < 1e-6 for place in places)
    page = page_of_svg(to_svg(drawing))
    printed = [line["x0"] * MM - drawing.origin[0] for line in page["lines"]]
    assert any(abs(place - expected) < 0.002 for place in printed)


def test_the_pieces_of_a_pole_join() -> None:
    """Pieces are 10 in (250 mm) apart, overlap by 1/2 in (10 mm), and together show every mark."""
    for plan, length, overlap in ((INCH, inch(10), inch("1/2")), (METRIC, mm(250), mm(10))):
        sheets = story_pole_sheets(plan, "A base")
        edges = [line.end[0] - line.start[0] for sheet in sheets for line in _lines(sheet, Layer.WALL)]
        whole = on_paper(length + overlap, sheets[0].scale)
        assert all(edge == pytest.approx(whole) for edge in edges[:-1])
        run = plan.runs[0]
        count = -(-(run.items[-1].right or 0) // length)
        assert len(edges) == count
        shown = {shape.text for sheet in sheets for shape in sheet.shapes if isinstance(shape, Text)}
        assert {row[1] for row in sheets[0].table.rows} <= shown


def test_drawings_fit_their_paper() -> None:
    """Every drawing of the samples fits the page it is meant for, and a smaller one when asked."""
    for frame in (None, Frame(230.0, 170.0)):
        for plan in (INCH, METRIC):
            for wall in plan.walls:
                for drawing in (wall_elevation(plan, wall.name, frame), shim_map(plan, wall.name, frame)):
                    assert drawing.height <= (187.0 if frame is None else 170.0)
            picture = floor_picture(plan, frame)
            assert picture.height <= (187.0 if frame is None else 170.0)
