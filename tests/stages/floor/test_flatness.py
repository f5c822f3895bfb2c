"""Flatness of lines of readings in a job."""

from __future__ import annotations

from tests.stages.floor.kitchens import job, levelled, set_up
from tests.tape import inch

DOWN = ("48", "48 1/32", "48 1/16", "48 3/32", "48 1/32", "47 31/32", "48")


def test_a_line_tells_its_gap_and_its_hump() -> None:
    """Seven readings 24 apart, a hollow at 72 and a hump at 120: gap just over 7/64, hump 1/16."""
    readings = [(str(24 * place), down) for place, down in enumerate(DOWN)]
    (line,) = levelled(job(set_up("S1", A_toe=readings))).floor.flatness
    assert (line.gap.value, line.gap_at) == (round(0.1125 * inch(1)), inch(72))
    assert (line.hump.value, line.hump_at) == (inch("1/16"), inch(120))


def test_two_readings_have_a_slope_and_neither_gap_nor_hump() -> None:
    """A straight line through two readings says nothing of what lies between them."""
    (line,) = levelled(job(set_up("S1", A_wall=[("0", "48"), ("60", "48 1/4")]))).floor.flatness
    assert line.slope.value == -inch("1/2")
    assert (line.gap.value, line.hump.value) == (None, None)


def test_a_straight_line_has_no_gap() -> None:
    """Readings in one straight fall: 0 is a number, not an unknown."""
    readings = [("0", "48"), ("48", "48 1/8"), ("96", "48 1/4")]
    (line,) = levelled(job(set_up("S1", A_wall=readings))).floor.flatness
    assert (line.gap.value, line.hump.value) == (0, 0)
