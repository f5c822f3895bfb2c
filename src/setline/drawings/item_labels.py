"""What is written on an item: number, width and name, as large as the item allows."""

from __future__ import annotations

from collections.abc import Iterator

from setline.drawings.labels import Candidate, Label, around, inside
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.shapes import Rect
from setline.drawings.sketch import Sketch, wrapped

__all__ = ["label_beside", "label_item", "write_block"]

_MARGIN = 0.7
_CROSSED = 5
"""A label beside its thing crosses no more lines than this, by weight."""
_SIZES = ((8.5, 4.8, 4.0), (7.0, 4.6, 3.8), (5.6, 4.2, 3.5), (4.6, 3.8, LEAST_TEXT), (3.8, 3.4, LEAST_TEXT))
"""Size of the number, of the width and of the name, the largest first."""
_SHARES = tuple(
    (across, down)
    for across in (0.5, 0.2, 0.8, 0.0, 1.0)
    for down in sorted((step / 20 for step in range(21)), key=lambda share: (abs(share - 0.5), share))
)
"""Where a stack may stand in its room, as shares of what is to spare: the middle first."""
_REACHES = (4.0, 6.0, 8.0, 11.0, 14.0)


def label_item(sketch: Sketch, box: Rect, code: str, width: str, name: str, *, least: float = 0.0) -> bool:
    """Write an item's number, its width under it and its name under that; False if they stand outside.

    What does not fit upright stands turned; a name that fits neither way is left to the table. A number or a
    width that has no room inside stands outside on a leader, if any place near is clear.

    Args:
        sketch: What it is written on.
        box: The item's outline.
        code: Its number, with a letter before it if it is no box.
        width: Its width as printed, or nothing.
        name: Its name, or nothing.
        least: No number inside is smaller than this.
    """
    room = (box[0] + _MARGIN, box[1] + _MARGIN, box[2] - _MARGIN, box[3] - _MARGIN)
    for named in (True, False):
        for lines in _blocks(code, width, name if named else "", room[2] - room[0]):
            if lines[0].size >= least and write_block(sketch, lines, room):
                return True
    if width and _write_turned(sketch, room, code, width):
        return True
    label_beside(sketch, box, f"{code}: {width}" if width else code)
    return False


def _blocks(code: str, width: str, name: str, room: float) -> Iterator[list[Label]]:
    """Yield stacks of lines that are no wider than the room, the largest first."""
    for code_size, width_size, name_size in _SIZES:
        lines = [Label(code, code_size, True)]
        if width:
            lines.append(Label(width, width_size))
        broken = wrapped(name, name_size, room, most=3) if name else []
        if broken is None or any(line.extent()[0] > room for line in lines):
            continue
        yield lines + [Label(part, name_size) for part in broken]


def write_block(sketch: Sketch, lines: list[Label], room: Rect) -> bool:
    """Write a stack of centred lines where it crosses least in its room; False if it has no place."""
    wide = max(line.extent()[0] for line in lines)
    high = sum(line.extent()[1] for line in lines) + 0.5 * (len(lines) - 1)
    spare_x, spare_y = room[2] - room[0] - wide, room[3] - room[1] - high
    if spare_x < 0 or spare_y < 0:
        return False
    best: tuple[int, float, float] | None = None
    for across, down in _SHARES:
        left, top = room[0] + across * spare_x, room[1] + down * spare_y
        box = (left, top, left + wide, top + high)
        if sketch.field.is_free(box):
            crossed = sketch.field.crossings(box)
            if best is None or crossed < best[0]:
                best = (crossed, left, top)
            if not crossed:
                break
    if best is None:
        return False
    _, left, top = best
    for line in lines:
        width, height = line.extent()
        sketch.write(line.at(left + (wide - width) / 2, top, frame=room))
        top += height + 0.5
    return True


def _write_turned(sketch: Sketch, room: Rect, code: str, width: str) -> bool:
    """Write number and width as one turned line inside; False if it has no place."""
    for size in (5.6, 4.6, 3.8, LEAST_TEXT):
        label = Label(f"{code}: {width}" if width else code, size, True)
        if sketch.place(label, inside(label, room, turns=(True,))):
            return True
    return False


def label_beside(sketch: Sketch, box: Rect, text: str, *, up: bool = True, size: float = 3.8) -> bool:
    """Write a text beside a narrow thing, on a leader; False if no place near it is clear.

    Args:
        sketch: What it is written on.
        box: The thing's outline.
        text: What is written.
        up: Whether the free side is over the thing or under it.
        size: Size of the text; it may shrink.
    """
    for smaller in (size, LEAST_TEXT):
        label = Label(text, smaller, True)
        if sketch.place(label, _beside(label, box, up), most=_CROSSED):
            return True
    return False


def _beside(label: Label, box: Rect, up: bool) -> Iterator[Candidate]:
    """Yield places at the free end of a narrow upright thing, then aside of it, then anywhere near."""
    middle = (box[0] + box[2]) / 2
    ends = ((box[1], -1.0), (box[3], 1.0))
    end, away = ends[0] if up else ends[1]
    width, height = label.extent(turned=True)
    for clear in (1.0, 2.5, 5.0):
        top = end - clear - height if up else end + clear
        leader = ((middle, end), (middle, end + away * (clear - 0.4))) if clear > 2.0 else None
        yield Candidate(middle - width / 2, top, True, leader)
    width, height = label.extent()
    for clear in (2.5, 5.0, 8.0, 11.0):
        top = end - clear - height if up else end + clear
        for left in (middle + 1.0, middle - width - 1.0):
            corner = (middle + 1.0 if left > middle else middle - 1.0, end + away * clear)
            yield Candidate(left, top, False, ((middle, end), corner))
    yield from _aside(label, box)
    for start in (end, ends[1][0] if up else ends[0][0]):
        yield from around(label, (middle, start), clear=1.0, reaches=_REACHES)


def _aside(label: Label, box: Rect) -> Iterator[Candidate]:
    """Yield places right and left of a narrow thing, most likely inside its neighbours."""
    middle = (box[0] + box[2]) / 2
    for share in (0.2, 0.35, 0.5, 0.65, 0.8, 0.1, 0.9):
        y = box[1] + share * (box[3] - box[1])
        for reach in (2.5, 5.0):
            for side, edge in ((1, box[2]), (-1, box[0])):
                for turned in (False, True):
                    width, height = label.extent(turned)
                    end = edge + side * reach
                    left = end + 0.4 if side > 0 else end - width - 0.4
                    yield Candidate(left, y - height / 2, turned, ((middle, y), (end, y)))
