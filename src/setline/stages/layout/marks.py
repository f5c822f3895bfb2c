"""What is struck and written on the wall for each joint: rounded once, from the exact place.

A mark goes to the nearest 1/16 (1 mm), exact halves away from START, the left corner. The marks of an
opening, or of an item pinned by an edge or a centre, that cannot lie on a whole one are printed to 1/32
(1/2 mm): those of an opening away from it, so that no rounding closes it, unless the printed opening would
pass its window's most; then they go to the nearest, as those of pinned items do.
"""

from __future__ import annotations

from collections.abc import Sequence

from setline.lengths import Rounding, Units, fine_step, mark_step, round_to, show
from setline.result import Edge, ItemKind
from setline.stages.layout.items import Item
from setline.stages.layout.mark_places import MarkPlace

__all__ = ["printed_marks", "what_to_write"]


def printed_marks(
    items: Sequence[Item], places: Sequence[MarkPlace], at: Sequence[int], units: Units
) -> tuple[int, ...]:
    """Return every mark of a run as it is printed.

    Args:
        items: The run's items.
        places: Which edge each mark stands at, one more than items.
        at: The exact u of each mark. [ticks]
        units: The job's tape.

    Returns:
        Multiples of the step, or of the finer one, in ticks.
    """
    printed = [_away(place, exact, units) for place, exact in zip(places, at, strict=True)]
    for number, item in enumerate(items):
        if item.kind is not ItemKind.OPENING or item.most is None:
            continue
        left, right = places[number], places[number + 1]
        clear = (printed[number + 1] - right.offset) - (printed[number] - left.offset)
        if clear > item.most:
            for joint in (number, number + 1):
                printed[joint] = _nearest(places[joint], at[joint], units)
    return tuple(printed)


def _away(place: MarkPlace, exact: int, units: Units) -> int:
    """Return a mark as printed: where it cannot lie on a whole step, away from the opening that it bounds."""
    if not place.is_fine or exact % mark_step(units) == 0 or place.opening_left == place.opening_right:
        return _nearest(place, exact, units)
    return round_to(exact, fine_step(units), Rounding.UP if place.opening_left else Rounding.DOWN)


def _nearest(place: MarkPlace, exact: int, units: Units) -> int:
    """Return a mark at the nearest step that it is printed to, halves away from START."""
    on_step = not place.is_fine or exact % mark_step(units) == 0
    return round_to(exact, mark_step(units) if on_step else fine_step(units), Rounding.NEAREST_UP)


def what_to_write(place: MarkPlace, printed: int | None, units: Units, clear: int | None = None) -> str:
    """Return what to write on the wall at a mark, literally.

    The stroke is the mark; the arrow points to the box that goes on that side of it, such as ``31 1/2 |3>``.
    At the left of an opening its name and its clear width follow: ``64 1/2 <3| dishwasher 24 1/8``.

    Args:
        place: Which edge the mark stands at.
        printed: The mark as printed, or None for ``?``. [ticks]
        units: The job's tape.
        clear: Clear width of the opening right of it, if one is there. [ticks]
    """
    number = "?" if printed is None else show(printed, units)
    left, right = place.left, place.right
    if place.edge is Edge.BODY and place.box is left and left is not None:
        sign = f"<{left.number}|"
    elif right is not None:
        sign = f"|{right.number}>"
    else:
        assert left is not None, "a run has an item"
        sign = f"<{left.number}|"
    if right is None or right.kind is not ItemKind.OPENING:
        return f"{number} {sign}"
    width = "?" if clear is None else show(clear, units)
    return f"{number} {sign} {right.name} {width}"
