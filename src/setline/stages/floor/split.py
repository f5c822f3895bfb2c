"""Where the tops may change their height: at an appliance that breaks them.

Tops run on over boxes and dishwashers, and round a corner where two runs meet. A range, a refrigerator or a
tall box parts them. Split at one of these, each part may have a level line of its own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.result import ItemKind, ItemPlace, RunPlan
from setline.stages.floor.ground import Ground
from setline.wording import say

__all__ = ["parts_of_the_tops"]

BREAKS = ("range", "refrigerator")


def parts_of_the_tops(ground: Ground, runs: Sequence[RunPlan]) -> Iterator[tuple[str, list[set[int]]]]:
    """Yield each place where the line could be split, and the boxes on either side of it.

    Args:
        ground: The floor, for the job.
        runs: The runs as laid out.

    Yields:
        What stands at the place, such as ``range 33``, and the numbers of the boxes of each part of the
        tops, two or more. Runs that meet at no corner are parts of their own; between them the place is
        called by both.
    """
    bases = [run for run in runs if run.row == "base" and run.solved]
    whole = _joined(ground, bases, split=None)
    if len(whole) > 1:
        yield say("where-tops-do-not-meet"), whole
    for run in bases:
        for item in run.items:
            if _breaks_tops(ground, item):
                parts = _joined(ground, bases, split=item.number)
                if len(parts) > len(whole):
                    yield say("split-at", item=item.name, number=item.number), parts


def _breaks_tops(ground: Ground, item: ItemPlace) -> bool:
    """Return whether an item parts the tops."""
    if item.kind is ItemKind.OPENING:
        return any(each.number == item.number and each.kind in BREAKS for each in ground.job.order.appliances)
    return any(each.number == item.number and each.kind == "tall" for each in ground.job.order.boxes)


def _joined(ground: Ground, bases: Sequence[RunPlan], *, split: int | None) -> list[set[int]]:
    """Return the boxes of each part of the tops if these are split at one item only, or nowhere."""
    stretches = {run.name: _stretches(run, split) for run in bases}
    parts = [set(stretch) for each in stretches.values() for stretch in each]
    for one, other in _corners(ground, stretches):
        if not one or not other:
            continue
        first = next(part for part in parts if one <= part)
        second = next(part for part in parts if other <= part)
        if first is not second:
            first |= second
            parts.remove(second)
    return [part for part in parts if part]


def _stretches(run: RunPlan, split: int | None) -> list[set[int]]:
    """Return the boxes up to one item (a tall box goes with those before it) and past it, or all together."""
    found: list[set[int]] = [set()]
    for item in run.items:
        if item.kind is ItemKind.BOX:
            found[-1].add(item.number)
        if item.number == split:
            found.append(set())
    return found


def _corners(ground: Ground, stretches: dict[str, list[set[int]]]) -> Iterator[tuple[set[int], set[int]]]:
    """Yield the stretches that meet at a corner, pair by pair."""
    for run in ground.job.runs:
        here = stretches.get(f"{run.wall} {run.row}")
        if here is None:
            continue
        left, right = stretches.get(run.left.run or ""), stretches.get(run.right.run or "")
        if run.left.kind == "corner" and left:
            yield here[0], left[-1]
        if run.right.kind == "corner" and right:
            yield here[-1], right[0]
