"""Where labels may stand: no two label boxes meet and none leaves the frame.

A label's box is the sum of its advance widths by its ascent and descent. Boxes taken are hard: nothing is
written over them. Things drawn (outlines, leaders, other marks) are soft: a label stays off them while
there is a place that does, and else stands over them behind its white edge. The search is over a fixed list
of candidate places in a fixed order, so the same drawing comes out each time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from setline.drawings.font import text_extent
from setline.drawings.shapes import Anchor, Point, Rect, Text

__all__ = ["GAP", "Candidate", "Label", "LabelField", "around", "inside", "label_box", "overlaps"]

GAP = 0.5
"""Least clear distance between two label boxes. [mm]"""
_CLEAR_OF_LINES = 0.3
_CELL = 10.0


def label_box(text: Text) -> Rect:
    """Return the box that a label takes on the paper."""
    width, above, below = text_extent(text.text, bold=text.bold)
    width, above, below = width * text.size, above * text.size, below * text.size
    before = 0.0
    if text.anchor != Anchor.START:
        before = width if text.anchor == Anchor.END else width / 2
    x, y = text.at
    if text.turned:
        return (x - above, y + before - width, x + below, y + before)
    return (x - before, y - above, x - before + width, y + below)


def overlaps(one: Rect, other: Rect, gap: float = 0.0) -> bool:
    """Return whether two boxes come closer than a gap."""
    return (
        one[0] < other[2] + gap
        and other[0] < one[2] + gap
        and one[1] < other[3] + gap
        and other[1] < one[3] + gap
    )


@dataclass(frozen=True, slots=True)
class Label:
    """What a label says and how large, before it has a place."""

    text: str
    size: float
    bold: bool = False
    reverse: bool = False
    halo: bool = True

    def extent(self, turned: bool = False) -> tuple[float, float]:
        """Return the width and height of its box."""
        width, above, below = text_extent(self.text, bold=self.bold)
        length, height = width * self.size, (above + below) * self.size
        return (height, length) if turned else (length, height)

    def at(self, left: float, top: float, turned: bool = False, frame: Rect | None = None) -> Text:
        """Return it as a text whose box has this left and top."""
        width, above, _ = (part * self.size for part in text_extent(self.text, bold=self.bold))
        place = (left + above, top + width) if turned else (left, top + above)
        return Text(
            place,
            self.text,
            self.size,
            bold=self.bold,
            turned=turned,
            halo=self.halo,
            reverse=self.reverse,
            frame=frame,
        )

    def centred(self, x: float, y: float, turned: bool = False, frame: Rect | None = None) -> Text:
        """Return it as a text whose box is centred on a point."""
        width, height = self.extent(turned)
        return self.at(x - width / 2, y - height / 2, turned, frame)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place a label might take.

    Attributes:
        left: Left of its box.
        top: Top of its box.
        turned: Whether it is turned.
        leader: The line from what it names to the label, where it stands apart.
        frame: The outline it must stay in, if not the field's.
    """

    left: float
    top: float
    turned: bool = False
    leader: tuple[Point, Point] | None = None
    frame: Rect | None = None


class LabelField:
    """The label boxes taken so far in a frame, and what labels had better keep off.

    Args:
        frame: Every label stays in it.
    """

    def __init__(self, frame: Rect) -> None:
        self.frame = frame
        self._taken: dict[tuple[int, int], list[Rect]] = {}
        self._soft: dict[tuple[int, int], list[tuple[Point, Point, int]]] = {}

    def copy(self) -> LabelField:
        """Return a field that starts as this one stands."""
        field = LabelField(self.frame)
        field._taken = {cell: list(boxes) for cell, boxes in self._taken.items()}
        field._soft = {cell: list(lines) for cell, lines in self._soft.items()}
        return field

    def take(self, box: Rect) -> None:
        """Let nothing else be written here."""
        for cell in _cells(box):
            self._taken.setdefault(cell, []).append(box)

    def keep_off(self, *points: Point, weight: int = 2) -> None:
        """Let labels stay off the lines from point to point, the more the greater the weight."""
        for start, end in pairwise(points):
            for cell in _line_cells(start, end):
                self._soft.setdefault(cell, []).append((start, end, weight))

    def keep_off_box(self, box: Rect) -> None:
        """Let labels stay off a box's outline and its two diagonals."""
        left, top, right, bottom = box
        self.keep_off(
            (left, top), (right, top), (right, bottom), (left, bottom), (left, top), (right, bottom)
        )

    def is_free(self, box: Rect, frame: Rect | None = None) -> bool:
        """Return whether a box lies in its frame and clear of every box taken."""
        left, top, right, bottom = frame or self.frame
        if box[0] < left or box[1] < top or box[2] > right or box[3] > bottom:
            return False
        x0, y0, x1, y1 = _grown(box, GAP)
        for cell in _cells((x0, y0, x1, y1)):
            for other in self._taken.get(cell, ()):
                if x0 < other[2] and other[0] < x1 and y0 < other[3] and other[1] < y1:
                    return False
        return True

    def crossings(self, box: Rect) -> int:
        """Return the weight of the lines to keep off that a box lies on."""
        box = _grown(box, _CLEAR_OF_LINES)
        lines = {line for cell in _cells(box) for line in self._soft.get(cell, ())}
        return sum(weight for start, end, weight in lines if _line_meets(box, start, end))

    def leader_is_free(self, start: Point, end: Point) -> bool:
        """Return whether a leader runs clear of every label but one that it starts in."""
        x, y = start
        return not any(
            _line_meets(taken, start, end) and not (taken[0] <= x <= taken[2] and taken[1] <= y <= taken[3])
            for cell in _line_cells(start, end)
            for taken in self._taken.get(cell, ())
        )

    def place(
        self, label: Label, candidates: Iterable[Candidate], *, most: int | None = None
    ) -> tuple[Text, Candidate] | None:
        """Return the first place that crosses nothing, else the one that crosses least, else None.

        The place found is taken, and its leader kept off.

        Args:
            label: What is placed.
            candidates: Places, the best first.
            most: A place that crosses more than this is none.
        """
        best: tuple[int, Candidate] | None = None
        for candidate in candidates:
            width, height = label.extent(candidate.turned)
            box = (candidate.left, candidate.top, candidate.left + width, candidate.top + height)
            if not self.is_free(box, candidate.frame):
                continue
            if candidate.leader and not self.leader_is_free(*candidate.leader):
                continue
            crossed = self.crossings(box)
            if (best is None or crossed < best[0]) and (most is None or crossed <= most):
                best = (crossed, candidate)
            if not crossed:
                break
        if best is None:
            return None
        found = best[1]
        text = label.at(found.left, found.top, found.turned, found.frame)
        self.take(label_box(text))
        if found.leader:
            self.keep_off(*found.leader, weight=3)
        return text, found


_DIRECTIONS = ((1, 0), (0, -1), (-1, 0), (0, 1), (1, -1), (-1, -1), (-1, 1), (1, 1))
"""Right, above, left, below, then between them."""


def around(
    label: Label,
    at: Point,
    *,
    clear: float,
    reaches: Iterable[float],
    turns: tuple[bool, ...] = (False, True),
) -> Iterator[Candidate]:
    """Yield places round a point: close by first, then farther off with a leader.

    Args:
        label: What is placed.
        at: The point it names.
        clear: Distance kept from the point by a label beside it. [mm]
        reaches: Distances at which a label stands apart on a leader, in the order to try. [mm]
        turns: Which ways up to try, in order.
    """
    for turned in turns:
        width, height = label.extent(turned)
        for right, down in _DIRECTIONS:
            yield Candidate(
                at[0] - width / 2 + right * (width / 2 + clear),
                at[1] - height / 2 + down * (height / 2 + clear),
                turned,
            )
    for reach in reaches:
        for turned in turns:
            width, height = label.extent(turned)
            for right, down in _DIRECTIONS:
                share = 0.7 if right and down else 1.0
                end = (at[0] + right * reach * share, at[1] + down * reach * share)
                left = end[0] - width / 2 + right * (width / 2 + 0.6)
                top = end[1] - height / 2 + down * (height / 2 + 0.6)
                yield Candidate(left, top, turned, (at, end))


def inside(label: Label, box: Rect, *, turns: tuple[bool, ...] = (False, True)) -> Iterator[Candidate]:
    """Yield places in a box: its middle, then steps up, down and aside; none that would leave it."""
    for turned in turns:
        width, height = label.extent(turned)
        spare_x, spare_y = box[2] - box[0] - width, box[3] - box[1] - height
        if spare_x < 0 or spare_y < 0:
            continue
        for across in (0.5, 0.25, 0.75, 0.0, 1.0):
            for down in (0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0):
                yield Candidate(box[0] + across * spare_x, box[1] + down * spare_y, turned, frame=box)


def _grown(box: Rect, by: float) -> Rect:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def _cells(box: Rect) -> list[tuple[int, int]]:
    """Return the cells of the search grid that a box touches."""
    left, right = int(box[0] // _CELL), int(box[2] // _CELL)
    top, bottom = int(box[1] // _CELL), int(box[3] // _CELL)
    if left == right and top == bottom:
        return [(left, top)]
    return [(column, row) for column in range(left, right + 1) for row in range(top, bottom + 1)]


def _line_cells(start: Point, end: Point) -> Iterator[tuple[int, int]]:
    """Yield the cells that a line may touch, column by column."""
    (x0, y0), (x1, y1) = sorted((start, end))
    slope = (y1 - y0) / (x1 - x0) if x1 > x0 else 0.0
    for column in range(int(x0 // _CELL), int(x1 // _CELL) + 1):
        left, right = max(x0, column * _CELL), min(x1, (column + 1) * _CELL)
        ends = (y0 + slope * (left - x0), y0 + slope * (right - x0)) if x1 > x0 else (y0, y1)
        for row in range(int(min(ends) // _CELL), int(max(ends) // _CELL) + 1):
            yield (column, row)


def _line_meets(box: Rect, start: Point, end: Point) -> bool:
    """Return whether a line passes through a box (clipped against its four sides)."""
    left, top, right, bottom = box
    (x0, y0), (x1, y1) = start, end
    if (x0 < left and x1 < left) or (x0 > right and x1 > right):
        return False
    if (y0 < top and y1 < top) or (y0 > bottom and y1 > bottom):
        return False
    if x0 == x1 or y0 == y1:
        return True
    enters, leaves = 0.0, 1.0
    for step, low, high in ((x1 - x0, left - x0, right - x0), (y1 - y0, top - y0, bottom - y0)):
        near, far = (low / step, high / step) if step > 0 else (high / step, low / step)
        enters, leaves = max(enters, near), min(leaves, far)
    return enters <= leaves
