"""What is struck and written on the wall for each joint: rounded once, from the exact place.

A mark goes to the nearest 1/16 (1 mm), exact halves away from START, the left corner. The marks of an
opening, or of an item pinned by an edge or a centre, that cannot lie on a whole one are printed to 1/32
(1/2 mm): those of an opening away from it, so that no rounding closes it, unless the printed opening would
pass its window's most; then they go to the nearest, as those of pinned items do. A mark that was struck or
agreed keeps its text as long as that still stands for its place.
"""

from __future__ import annotations

from collections.abc import Sequence

from setline.lengths import Rounding, Units, fine_step, mark_step, round_to, show
from setline.result import Edge, ItemKind
from setline.stages.layout.items import Item
from setline.stages.layout.mark_places import MarkPlace

__all__ = ["kept_window", "printed_marks", "what_to_write"]


def kept_window(place: MarkPlace, printed: int, units: Units) -> tuple[int, int]:
    """Return the least and the greatest exact u at which a mark keeps the text it was printed with. [ticks].

    A mark that bounds an opening may have been rounded away from it or to the nearest; it keeps its text for
    both.

    Args:
        place: Which edge the mark stands at.
        printed: The mark as it was printed. [ticks]
        units: The job's tape.

    Example:
        A mark on a whole 1/16 stands for all that rounds to it, halves away from START:

        >>> place = MarkPlace(edge=Edge.JOINT, box=None, offset=0, left=None, right=None, is_fine=False)
        >>> least, most = kept_window(place, 65024, Units.INCH)
        >>> least - 65024, most - 65024
        (-2032, 2031)
    """
    if not place.is_fine and printed % mark_step(units) == 0:
        half = mark_step(units) // 2
        return printed - half, printed + half - 1
    fine = fine_step(units)
    down = fine - 1 if place.opening_left and not place.opening_right else fine // 2
    up = fine - 1 if place.opening_right and not place.opening_left else fine // 2 - 1
    return printed - down, printed + up


def printed_marks(
    items: Sequence[Item],
    places: Sequence[MarkPlace],
    at: Sequence[int],
    units: Units,
    *,
    texts: Sequence[Sequence[int | None]] = (),
) -> tuple[int, ...]:
    """Return every mark of a run as it is printed.

    Args:
        items: The run's items.
        places: Which edge each mark stands at, one more than items.
        at: The exact u of each mark. [ticks]
        units: The job's tape.
        texts: What was printed before, mark by mark: first what is on the wall, then what was said yes to. A
            mark keeps the first of them that still stands for it (`kept_window`). [ticks]

    Returns:
        Multiples of the step, or of the finer one, in ticks.
    """
    kept = [
        next(
            (
                text
                for before in texts
                if (text := before[number]) is not None and _keeps(place, exact, text, units)
            ),
            None,
        )
        for number, (place, exact) in enumerate(zip(places, at, strict=True))
    ]
    printed = [
        _away(place, exact, units) if text is None else text
        for place, exact, text in zip(places, at, kept, strict=True)
    ]
    for number, item in enumerate(items):
        if item.kind is not ItemKind.OPENING or item.most is None:
            continue
        left, right = places[number], places[number + 1]
        clear = (printed[number + 1] - right.offset) - (printed[number] - left.offset)
        if clear > item.most:
            for joint in (number, number + 1):
                if kept[joint] is None:
                    printed[joint] = _nearest(places[joint], at[joint], units)
    return tuple(printed)


def _keeps(place: MarkPlace, exact: int, text: int, units: Units) -> bool:
    """Return whether a mark keeps a text it was printed with."""
    least, most = kept_window(place, text, units)
    return least <= exact <= most


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
