"""Marks that are on the wall or were agreed: as few of them change as can.

A mark stands as long as its printed text stands for its place. First the fewest struck marks change, then the
fewest agreed ones; of equal ways the one that follows the wishes best, then the one that keeps earlier marks.
What is kept stands where it would come anyhow if that prints the same, else at the very place that was
struck: that is where the box will be held to.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from setline.lengths import Units
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built
from setline.stages.layout.mark_places import mark_places
from setline.stages.layout.marks import kept_window
from setline.stages.layout.replan import Keep, fewest_changes
from setline.stages.layout.row import Row
from setline.stages.layout.windows import Windows

__all__ = ["KeptMark", "hold_marks", "marks_to_keep"]

Judge = Callable[[Windows], tuple[int, ...]]


class KeptMark(NamedTuple):
    """A mark that ought to keep its text.

    Attributes:
        keep: Its joint, and where that keeps the text.
        at: Where the joint stands if the mark is met exactly. [ticks]
        is_struck: Whether it is on the wall; else it was only agreed.
    """

    keep: Keep
    at: int
    is_struck: bool


def marks_to_keep(built: Built, pinned: Iterable[int], units: Units) -> list[KeptMark]:
    """Return every mark that was struck or agreed: the struck ones first, each run from left to right.

    Args:
        built: Rows of the runs.
        pinned: Numbers of the items pinned by an edge or a centre.
        units: The job's tape.
    """
    numbers = frozenset(pinned)
    found: list[KeptMark] = []
    for is_struck in (True, False):
        for run, nodes in zip(built.runs, built.joints, strict=True):
            found += _of_run(run, nodes, numbers, units, is_struck=is_struck)
    return found


def _of_run(
    run: RunAsked, nodes: Sequence[int], pinned: frozenset[int], units: Units, *, is_struck: bool
) -> Iterator[KeptMark]:
    """Yield the marks of one run that were struck, or agreed."""
    texts = run.struck if is_struck else run.agreed
    if not any(text is not None for text in texts):
        return
    for node, place, text in zip(nodes, mark_places(run.items, pinned), texts, strict=True):
        if text is not None:
            least, most = kept_window(place, text, units)
            keep = Keep(node, least - place.offset, most - place.offset)
            yield KeptMark(keep, text - place.offset, is_struck)


def hold_marks(
    allowed: Windows, marks: Sequence[KeptMark], places: Sequence[int], judge: Judge
) -> Windows | None:
    """Return windows in which as many marks as can be are held, or None if all stand anyhow.

    Args:
        allowed: What all hard rows together allow; left as it is.
        marks: Marks that ought to keep their text.
        places: Where every joint would come without any of them.
        judge: By how much the wishes are missed in given windows, first the one that counts most.
    """
    marks = [mark for mark in marks if _can_move(allowed, mark.keep.node)]
    if all(mark.keep.least <= places[mark.keep.node] <= mark.keep.most for mark in marks):
        return None
    ways = fewest_changes(
        allowed, [mark.keep for mark in marks], [(mark.is_struck, not mark.is_struck) for mark in marks]
    )
    held = [_narrowed(allowed, [marks[number] for number in way]) for way in ways]
    best = 0 if len(ways) == 1 else min(range(len(ways)), key=lambda number: (judge(held[number]), number))
    kept = [marks[number] for number in ways[best]]
    seen = held[best]
    for stays in (False, True):
        for mark in kept:
            at = places[mark.keep.node]
            if (mark.keep.least <= at <= mark.keep.most) is stays:
                target = at if stays else mark.at
                seen.fix(0, mark.keep.node, seen.nearest(0, mark.keep.node, target))
    return seen


def _can_move(allowed: Windows, node: int) -> bool:
    """Return whether a joint could stand in another place."""
    earliest = allowed.earliest(node)
    return earliest is None or earliest != allowed.latest(node)


def _narrowed(allowed: Windows, kept: Iterable[KeptMark]) -> Windows:
    """Return windows in which some marks keep their text, which they can."""
    seen = allowed.copy()
    for mark in kept:
        node, least, most = mark.keep
        held = seen.add(Row(0, node, most)) and seen.add(Row(node, 0, -least))
        assert held, "marks that clash with none can all be kept"
    return seen
