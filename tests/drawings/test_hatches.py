from __future__ import annotations

from math import hypot

import pytest

from setline.drawings.hatches import hatch_lines
from setline.drawings.shapes import Hatch, Layer, Pattern, Point


def _square(left: float, top: float, size: float) -> tuple[Point, ...]:
    return ((left, top), (left + size, top), (left + size, top + size), (left, top + size))


def test_slant_lines_run_up_to_the_right() -> None:
    """A filler's hatch runs up to the right at 45 degrees, inside its outline."""
    lines = hatch_lines(Hatch(Layer.FILLER, (_square(3.0, 5.0, 20.0),), Pattern.SLANT, 1.5))
    assert len(lines) > 10
    for (x0, y0), (x1, y1) in lines:
        assert x1 >= x0
        assert y1 - y0 == pytest.approx(x0 - x1)
        assert x0 >= 3.0 - 1e-9
        assert x1 <= 23.0 + 1e-9


def test_lines_fill_the_area_at_their_pitch() -> None:
    """The lines' length times their pitch is the area they hatch."""
    lines = hatch_lines(Hatch(Layer.FILLER, (_square(0.0, 0.0, 60.0),), Pattern.SLANT, 1.5))
    length = sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in lines)
    assert length * 1.5 == pytest.approx(3600.0, rel=0.01)


def test_a_cross_hatch_has_both_leans() -> None:
    """A cross hatch is as many lines again, running down to the right."""
    lines = hatch_lines(Hatch(Layer.FILLER, (_square(0.0, 0.0, 40.0),), Pattern.CROSS, 2.0))
    leans = [(y1 - y0) * (x1 - x0) > 0 for (x0, y0), (x1, y1) in lines]
    assert leans.count(True) == pytest.approx(leans.count(False), abs=1)


def test_a_hole_is_not_hatched() -> None:
    """What lies inside an inner outline stays white."""
    lines = hatch_lines(
        Hatch(Layer.FILLER, (_square(0.0, 0.0, 30.0), _square(10.0, 10.0, 10.0)), Pattern.SLANT, 1.0)
    )
    for (x0, y0), (x1, y1) in lines:
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        assert not (10.0 < x < 20.0 and 10.0 < y < 20.0)
