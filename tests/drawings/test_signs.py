from __future__ import annotations

from dataclasses import replace

import pytest

from setline.drawings.band_column import band_rows, limit_words, tops_number
from setline.drawings.floor_numbers import below_high_spot, floor_zero, spot_height
from setline.drawings.floor_picture import floor_picture
from setline.drawings.shapes import Dots, Drawing, Fill, Hatch, Layer, Line, Polygon, Polyline, Text
from setline.drawings.shim_map import shim_map
from setline.drawings.story_pole import story_pole
from setline.drawings.struck_line import strike_words, tops_words
from setline.drawings.wall_elevation import wall_elevation
from setline.lengths import Units
from setline.result import BandLimit, Figure, Plan
from tests.drawings.drawing_set import example
from tests.drawings.nasty_plans import empty_plan, unread_plan
from tests.drawings.sample_plans import inch_sample, level_line_of, metric_sample
from tests.tape import inch, mm


def _texts(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Text)]


def _of(drawing: Drawing, layer: Layer) -> list[object]:
    return [shape for shape in drawing.shapes if getattr(shape, "layer", None) == layer]


def test_a_run_that_cannot_be_solved_is_headed_do_not_set() -> None:
    """Elevation, shim map and pole of an unsolved run say DO NOT SET in reverse print."""
    plan = inch_sample()
    for drawing in (wall_elevation(plan, "B"), shim_map(plan, "B"), story_pole(plan, "B base")):
        heads = [s for s in drawing.shapes if isinstance(s, Text) and s.text == "B base: DO NOT SET"]
        assert [head.reverse for head in heads] == [True]


def test_an_unsolved_run_has_no_numbers_but_its_shortfall() -> None:
    """Its marks print as ?, a wavy bracket spans it, and the shortfall stands in a box."""
    drawing = wall_elevation(inch_sample(), "B")
    texts = _texts(drawing)
    assert texts.count("?") >= 6
    assert "SHORT 9/16" in texts
    assert any(isinstance(shape, Polyline) for shape in _of(drawing, Layer.TROUBLE))


def test_an_unsolved_runs_points_are_all_unknown() -> None:
    """In the shim map of an unsolved run every tag is a ? in a dotted outline."""
    drawing = shim_map(inch_sample(), "B")
    tags = [shape for shape in _of(drawing, Layer.UNREAD) if isinstance(shape, Polygon)]
    assert len(tags) == _texts(drawing).count("?") == 12


def test_a_solved_wall_has_no_trouble_on_it() -> None:
    """Nothing on a wall that fits is drawn as a trouble."""
    assert not _of(wall_elevation(inch_sample(), "A"), Layer.TROUBLE)


def test_the_high_spot_is_black_and_zero() -> None:
    """The one box corner on the high spot has a black tag with a white 0."""
    drawing = shim_map(inch_sample(), "A")
    white = [shape for shape in drawing.shapes if isinstance(shape, Text) and shape.reverse]
    assert [text.text for text in white] == ["0"]


def test_over_the_limit_has_a_double_edge() -> None:
    """A shim over the limit has an outline inside its outline, and the sheet says why."""
    drawing = shim_map(inch_sample(), "C")
    tags = [shape for shape in _of(drawing, Layer.TAG) if isinstance(shape, Polygon)]
    assert len(tags) == 4 + 1
    assert any("Double edge" in text for text in _texts(drawing))


def test_a_filler_is_hatched_and_a_panel_is_black() -> None:
    """On the elevation each filler has a hatch, each panel a solid bar of at least 0.8 mm."""
    plan = inch_sample()
    assert len([s for s in wall_elevation(plan, "A").shapes if isinstance(s, Hatch)]) == 4
    bars = [
        shape
        for shape in _of(wall_elevation(plan, "C"), Layer.PANEL)
        if isinstance(shape, Polygon) and len(shape.points) == 4
    ]
    (bar,) = bars
    assert bar.fill == Fill.BLACK
    assert max(x for x, _ in bar.points) - min(x for x, _ in bar.points) >= 0.8 - 1e-9


def test_the_struck_line_is_the_largest_number() -> None:
    """The struck line is the largest text of a sheet, and both ends of the line carry it."""
    drawing = wall_elevation(metric_sample(), "A")
    strikes = [s for s in drawing.shapes if isinstance(s, Text) and s.text == "STRIKE 407 DOWN"]
    assert len(strikes) == 3
    assert max(text.size for text in strikes) >= 8.0


def test_a_line_above_the_laser_is_measured_up() -> None:
    """Where the tops lie over the laser line the sheet says UP, and no minus is printed."""
    line = level_line_of(inch("4 1/2"), None, [("high spot", True, 0)])
    assert strike_words(line, Units.INCH) == "STRIKE 4 5/8 UP"
    assert tops_words(line, Units.INCH) == "Box tops are 1/8 below it (4 1/2 up)."


def test_another_set_up_prints_its_own_line() -> None:
    """The line from a set-up that is not in use stands beside it with its ~."""
    words = tops_words(inch_sample().level_line, Units.INCH)
    assert words.startswith("Box tops are 1/8 below it (13 5/8 down).")
    assert "From S2: ~15 13/16 down." in words


def test_without_readings_there_is_no_number() -> None:
    """A job without a floor reading prints ? for the line it does not know, and never 0."""
    plan = unread_plan()
    line = replace(plan.level_line, set_ups=())
    bare = replace(plan, level_line=line)
    assert "STRIKE ?" in _texts(wall_elevation(bare, "A"))
    assert _texts(shim_map(bare, "A")).count("0") == 1, "the scale bar's own"


def test_falls_are_counted_down_from_the_high_spot() -> None:
    """A floor 3/16 under the high spot prints 3/16; one that lies over it prints with a +."""
    zero = -inch("48 1/8")
    assert below_high_spot(-inch("48 5/16"), zero, Units.INCH) == "3/16"
    assert below_high_spot(zero, zero, Units.INCH) == "0"
    assert below_high_spot(-inch("48 1/16"), zero, Units.INCH) == "+1/16"
    assert below_high_spot(-mm(1_204), -mm(1_200), Units.METRIC) == "4"


def test_the_high_spot_is_the_floors_zero() -> None:
    """Numbers on the floor are counted from the high spot that the plan names."""
    plan = inch_sample()
    high = plan.level_line.high_spot
    assert high is not None
    assert floor_zero(plan) == high.height.value
    assert floor_zero(unread_plan()) is None


@pytest.mark.parametrize("name", ["larkspur-street", "mill-row"])
def test_numbers_and_contours_are_of_one_floor(name: str) -> None:
    """At every reading the number and the contours count the same floor: the one the boxes will stand on."""
    plan = example(name)
    grid = plan.floor.grid
    assert grid is not None
    for spot in plan.floor.spots:
        column = min(range(len(grid.xs)), key=lambda index: abs(grid.xs[index] - spot.x))
        row = min(range(len(grid.ys)), key=lambda index: abs(grid.ys[index] - spot.y))
        modelled, read = grid.heights[row][column], spot_height(spot)
        if modelled is not None and read is not None:
            assert abs(modelled - read) < inch("1/4")


def test_doubtful_floor_is_dotted() -> None:
    """Floor that no reading supports is dotted with a ?, and only such floor."""
    dotted = floor_picture(metric_sample())
    assert any(isinstance(shape, Dots) for shape in dotted.shapes)
    assert "?" in _texts(dotted)
    plan = empty_plan()
    assert not any(isinstance(shape, Dots) for shape in floor_picture(_all_known(plan)).shapes)


def _all_known(plan: Plan) -> Plan:
    """Return a plan whose modelled floor is known everywhere."""
    grid = plan.floor.grid
    assert grid is not None
    heights = tuple(tuple(-mm(1_200) for _ in row) for row in grid.heights)
    return replace(plan, floor=replace(plan.floor, grid=replace(grid, heights=heights, within=heights)))


@pytest.mark.parametrize(
    ("is_least", "tops", "words"),
    [
        (True, "-13 13/32", "13 13/32 down or higher"),
        (False, "-12 1/4", "12 1/4 down or lower"),
        (True, "3/4", "3/4 up or higher"),
    ],
    ids=["least", "most", "above the laser"],
)
def test_a_limit_says_which_way_it_is_open(is_least: bool, tops: str, words: str) -> None:
    """A least height reads as so far down or higher, a greatest as so far down or lower."""
    limit = BandLimit(owner="dishwasher", is_least=is_least, tops=Figure(value=inch(tops)))
    assert limit_words(limit, Units.INCH) == words


def test_a_limit_that_is_not_known_is_a_question() -> None:
    """A limit without a number prints as ?."""
    limit = BandLimit(owner="sill", is_least=False, tops=Figure(value=None))
    assert limit_words(limit, Units.INCH) == "?"


def test_the_band_ends_with_the_chosen_line() -> None:
    """The table of the band lists every limit, then the level line as it is printed."""
    rows = band_rows(inch_sample().level_line, Units.INCH)
    assert rows[0][1:] == ("high spot, 4 back-right", "", "13 5/8 down or higher")
    assert rows[-1] == ("level line", "S1", "", "13 5/8 down")
    assert tops_number(-inch("13 5/8"), Units.INCH) == "13 5/8 down"


def test_an_empty_band_is_said_in_reverse_print() -> None:
    """Where no height suits every limit the column is headed so."""
    plan = inch_sample()
    limits = [("high spot", True, 0), ("sill", False, -inch(1))]
    empty = replace(plan, level_line=level_line_of(-inch("13 5/8"), plan.level_line.high_spot, limits))
    heads = [s for s in floor_picture(empty).shapes if isinstance(s, Text) and s.text == "NO LINE SUITS ALL"]
    assert [head.reverse for head in heads] == [True]


def test_a_window_is_drawn_as_far_as_it_was_read() -> None:
    """An edge that was not read is not drawn; the centre always is."""
    plan = inch_sample()
    whole = len(_of(wall_elevation(plan, "A"), Layer.WINDOW))
    wall = plan.walls[0]
    unread = replace(wall, openings=(replace(wall.openings[0], left=None, bottom=None),))
    less = wall_elevation(replace(plan, walls=(unread, *plan.walls[1:])), "A")
    assert len(_of(less, Layer.WINDOW)) == whole - 4
    assert any(isinstance(shape, Line) for shape in _of(less, Layer.CENTRE))
