"""Lines that fill an area, worked out rather than left to a viewer's patterns.

A pattern of the viewer starts at its own zero and may be dropped on paper; these are plain geometry, the
same in every format.
"""

from __future__ import annotations

from math import ceil, floor, sqrt

from setline.drawings.shapes import Hatch, Pattern, Point

__all__ = ["hatch_lines"]


def hatch_lines(hatch: Hatch) -> list[tuple[Point, Point]]:
    """Return the lines of a slant or cross hatch, cut at its boundaries.

    Slant lines run up to the right at 45 degrees, ``pitch`` apart; a cross hatch adds those that run down.
    Lines lie on one grid over the whole drawing, so that neighbouring areas join.
    """
    lines = _slant(hatch.boundaries, hatch.pitch, 1)
    if hatch.pattern == Pattern.CROSS:
        lines += _slant(hatch.boundaries, hatch.pitch, -1)
    return lines


def _slant(boundaries: tuple[tuple[Point, ...], ...], pitch: float, lean: float) -> list[tuple[Point, Point]]:
    """Return lines x + lean y = c: 1 runs up to the right (y grows down the page), -1 down to the right."""
    step = pitch * sqrt(2)
    lines: list[tuple[Point, Point]] = []
    for count in _steps([y + lean * x for boundary in boundaries for x, y in boundary], step):
        offset = count * step
        cuts = _cuts(boundaries, -lean, offset)
        lines += [
            ((left, offset - lean * left), (right, offset - lean * right))
            for left, right in zip(cuts[::2], cuts[1::2], strict=False)
        ]
    return lines


def _steps(values: list[float], step: float) -> range:
    """Return the counts whose multiples of a step lie between the least and greatest value."""
    return range(floor(min(values) / step) + 1, ceil(max(values) / step))


def _cuts(boundaries: tuple[tuple[Point, ...], ...], slope: float, offset: float) -> list[float]:
    """Return the x, in order, where the line y = slope x + offset crosses the boundaries."""
    cuts = []
    for boundary in boundaries:
        before_x, before_y = boundary[-1]
        before = before_y - slope * before_x - offset
        for x, y in boundary:
            here = y - slope * x - offset
            if (before < 0) != (here < 0):
                cuts.append(before_x + (x - before_x) * before / (before - here))
            before_x, before = x, here
    return sorted(cuts)
