from __future__ import annotations

import pytest

from setline.drawings.contours import contour_lines, unread_cells
from setline.result import SurfaceGrid


def _grid(heights: list[list[int | None]], pitch: int = 100) -> SurfaceGrid:
    rows = tuple(tuple(row) for row in heights)
    return SurfaceGrid(
        xs=tuple(pitch * column for column in range(len(rows[0]))),
        ys=tuple(pitch * row for row in range(len(rows))),
        heights=rows,
        within=rows,
    )


@pytest.mark.arithmetic("a plane z = 2 x + y has straight contours, worked from its equation")
def test_a_plane_has_straight_contours() -> None:
    """On an even slope every point of a contour lies at its height, and the contour is one chain."""
    grid = _grid([[2 * 100 * column + 100 * row for column in range(8)] for row in range(6)])
    (chain,) = contour_lines(grid, 730)
    assert all(2 * x + y == pytest.approx(730) for x, y in chain)
    assert len(chain) > 4


def test_a_bump_has_a_closed_contour() -> None:
    """Round a hump the contour ends where it starts."""
    heights: list[list[int | None]] = [
        [100 - 10 * ((column - 3) ** 2 + (row - 3) ** 2) for column in range(7)] for row in range(7)
    ]
    (chain,) = contour_lines(_grid(heights), 55)
    assert chain[0] == chain[-1]
    assert len(chain) == len(set(chain)) + 1


def test_no_line_is_drawn_where_nothing_is_known() -> None:
    """A contour stops at cells that no reading supports; no height is made up."""
    heights: list[list[int | None]] = [[10 * column for column in range(9)] for _ in range(5)]
    heights[2] = [None] * 9
    chains = contour_lines(_grid(heights), 35)
    assert all(y <= 100 or y >= 300 for chain in chains for _, y in chain)
    assert len(chains) == 2


def test_a_saddle_parts_by_its_middle() -> None:
    """Where two high corners face each other across a cell the middle decides which pair is joined."""
    high_middle = contour_lines(_grid([[9, 0], [0, 9]]), 3)
    low_middle = contour_lines(_grid([[9, 0], [0, 9]]), 6)
    assert len(high_middle) == len(low_middle) == 2
    assert {len(chain) for chain in (*high_middle, *low_middle)} == {2}
    corners_cut = {min(x for x, _ in chain) + min(y for _, y in chain) for chain in high_middle}
    assert corners_cut != {min(x for x, _ in chain) + min(y for _, y in chain) for chain in low_middle}


def test_unread_cells_are_those_with_an_unknown_corner() -> None:
    """A cell is unread when any of its four corners is."""
    assert unread_cells(_grid([[0, 0, 0], [0, 0, 0], [0, 0, None]])) == ((1, 1),)
