"""Facts of the trade that a layout has to bear out as they stand."""

from __future__ import annotations

import pytest
from tests.stages.layout.kitchens import filler, framed, joints, kitchen, laid_out, mark, opening, run, wall
from tests.tape import inch

from setline.lengths import Units, show


@pytest.mark.common_practice
def test_boxes_beside_a_range_are_marked_15_3_8_from_its_centre_line() -> None:
    """Frames 1/4 past the bodies marked 15 3/8 from the centre line of a 30 in range leave 30 1/4 clear."""
    centre = inch(60)
    job = kitchen(
        [wall("A", 120)],
        [run("A", [41, 1, 21, 2, 42], pins=[{"item": 21, "edge": "centre", "at": 60}])],
        boxes=[framed(1, 36), framed(2, 36)],
        fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
        openings=[opening(21, "range", 30, "30 1/2")],
    )
    layout = laid_out(job)
    left, right = mark(layout, "A base 21 left"), mark(layout, "A base 2 left")
    assert left.printed is not None
    assert right.printed is not None
    assert centre - left.printed == right.printed - centre == inch("15 3/8")
    frames = (right.printed - inch("1/4")) - (left.printed + inch("1/4"))
    assert show(frames, Units.INCH) == "30 1/4"
    assert left.write == "44 5/8 <1| range 30 1/4"


@pytest.mark.common_practice
def test_a_full_size_dishwasher_has_24_clear() -> None:
    """A dishwasher of 24 by its sheet stands between frames 24 apart."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [41, 1, 21, 2])],
        boxes=[framed(1, 36), framed(2, 30)],
        fillers=[filler(41, 1, scribed=True)],
        openings=[opening(21, "dishwasher", 24, "24 1/4", wish=24)],
    )
    layout = laid_out(job)
    assert joints(layout, "A base")[2:4] == ["46", "70"]
    assert mark(layout, "A base 21 left").write == "45 3/4 <1| dishwasher 24"


@pytest.mark.common_practice
@pytest.mark.parametrize(
    ("equal", "apart", "crossed"), [(58, "3 1/2", False), (62, "4 1/2", True)], ids=["short", "crossed"]
)
def test_half_the_difference_of_equal_marks_is_the_middle(equal: int, apart: str, crossed: bool) -> None:
    """The same length struck from both ends finds the middle half-way between the two marks."""
    middle = {"equal": equal, "apart": apart, "crossed": crossed}
    job = kitchen(
        [wall("A", "119 1/2", middle=middle)],
        [run("A", [41, 1, 42], pins=[{"item": 1, "edge": "centre", "middle": True}])],
        boxes=[framed(1, 36)],
        fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
    )
    layout = laid_out(job)
    assert joints(layout, "A base")[1:3] == ["41 3/4", "77 3/4"]
    figure = mark(layout, "A base 1 left").at
    assert figure.readings[0] == f"A middle equal: {equal}"
    assert figure.working[0].endswith("= 59 3/4")
