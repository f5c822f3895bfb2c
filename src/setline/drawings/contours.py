"""Lines of equal height over the modelled floor, by marching squares.

Each cell of the grid whose four corners are known is crossed by a contour where its level lies between two
corners; the crossing is found by straight interpolation along the cell's sides. In a saddle the middle of
the cell decides which corners belong together. A cell with a corner that is not known carries no line: no
height is made up.
"""

from __future__ import annotations

from collections.abc import Iterator

from setline.result import SurfaceGrid

__all__ = ["Contour", "contour_lines", "unread_cells"]

Place = tuple[float, float]
Contour = tuple[Place, ...]
"""A chain of places in the room's x, y. [ticks]"""
_Side = tuple[int, int, int]
"""A side of a cell: column and row of its first node, and 0 if it runs along x, 1 along y."""


def contour_lines(grid: SurfaceGrid, level: int) -> tuple[Contour, ...]:
    """Return the contours of one height, each as long a chain as the known floor allows.

    Args:
        grid: The modelled floor.
        level: Height of the contour. [ticks]

    Returns:
        Chains of places; a closed one ends where it starts. The order is the grid's.

    Source:
        Marching squares, with the mean of the four corners deciding saddles.
    """
    links: dict[_Side, list[_Side]] = {}
    for row in range(len(grid.ys) - 1):
        for column in range(len(grid.xs) - 1):
            for one, other in _cell_links(grid, column, row, level):
                links.setdefault(one, []).append(other)
                links.setdefault(other, []).append(one)
    return tuple(tuple(_crossing(grid, side, level) for side in chain) for chain in _chains(links))


def _cell_links(grid: SurfaceGrid, column: int, row: int, level: int) -> Iterator[tuple[_Side, _Side]]:
    """Yield the pairs of sides that a contour joins across one cell."""
    corners = (
        grid.heights[row][column],
        grid.heights[row][column + 1],
        grid.heights[row + 1][column + 1],
        grid.heights[row + 1][column],
    )
    known = [height for height in corners if height is not None]
    if len(known) < 4:
        return
    above = [height >= level for height in known]
    sides: tuple[_Side, ...] = (
        (column, row, 0),
        (column + 1, row, 1),
        (column, row + 1, 0),
        (column, row, 1),
    )
    crossed = [side for index, side in enumerate(sides) if above[index] != above[(index + 1) % 4]]
    if len(crossed) == 2:
        yield crossed[0], crossed[1]
    elif len(crossed) == 4:
        middle_above = sum(known) >= 4 * level
        if middle_above == above[0]:  # the first and third corners belong together
            yield sides[0], sides[1]
            yield sides[2], sides[3]
        else:
            yield sides[3], sides[0]
            yield sides[1], sides[2]


def _chains(links: dict[_Side, list[_Side]]) -> Iterator[list[_Side]]:
    """Yield the links as chains: open ones from their ends, then rings."""
    used: set[_Side] = set()
    starts = [side for side, others in links.items() if len(others) == 1]
    for start in (*starts, *links):
        if start in used:
            continue
        chain = [start]
        used.add(start)
        while True:
            following = next((side for side in links[chain[-1]] if side not in used), None)
            if following is None:
                break
            used.add(following)
            chain.append(following)
        if len(chain) > 2 and chain[0] in links[chain[-1]]:
            chain.append(chain[0])
        yield chain


def _crossing(grid: SurfaceGrid, side: _Side, level: int) -> Place:
    """Return where a contour crosses a side of a cell."""
    column, row, along_y = side
    start = grid.heights[row][column]
    end = grid.heights[row + along_y][column + 1 - along_y]
    assert start is not None, "only known cells are crossed"
    assert end is not None, "only known cells are crossed"
    share = (level - start) / (end - start)
    x0, y0 = grid.xs[column], grid.ys[row]
    if along_y:
        return (float(x0), y0 + share * (grid.ys[row + 1] - y0))
    return (x0 + share * (grid.xs[column + 1] - x0), float(y0))


def unread_cells(grid: SurfaceGrid) -> tuple[tuple[int, int], ...]:
    """Return column and row of every cell with a corner that no reading supports."""
    return tuple(
        (column, row)
        for row in range(len(grid.ys) - 1)
        for column in range(len(grid.xs) - 1)
        if any(grid.heights[row + down][column + right] is None for down in (0, 1) for right in (0, 1))
    )
