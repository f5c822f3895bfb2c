"""The facts of a wall's elevation in words and as a table."""

from __future__ import annotations

from collections.abc import Sequence

from setline.drawings.shapes import Table
from setline.drawings.standing import stand
from setline.lengths import Units, show
from setline.result import Edge, ItemKind, ItemPlace, Mark, Plan, RunPlan, WallLine
from setline.wording import say

__all__ = ["edge_words", "item_words", "mark_number", "wall_description", "wall_table"]


def item_words(item: ItemPlace) -> str:
    """Return what an item is called in a sentence, such as ``box 3 sink``."""
    kind = say(f"kind-{item.kind.value}", number=item.number)
    plain = item.kind in (ItemKind.FILLER, ItemKind.PANEL) and item.name == item.kind.value
    return say("kind-named", kind=kind, name=item.name) if item.name and not plain else kind


def mark_number(mark: Mark, units: Units) -> str:
    """Return a mark's number as every face prints it."""
    return "?" if mark.printed is None else show(mark.printed, units)


def edge_words(mark: Mark) -> str:
    """Return which edge a mark stands at."""
    if mark.edge == Edge.BODY and mark.of_item is not None:
        return say("edge-body", number=mark.of_item)
    return say("edge-joint")


def wall_description(plan: Plan, line: WallLine, runs: Sequence[RunPlan]) -> str:
    """Return the answer of the drawing: every item with the number it ends at, and whether all fit."""
    units = Units(plan.units)
    if not runs:
        return say("wall-has-no-run", wall=line.name, length=show(line.length, units))
    rows = []
    for run in runs:
        items = []
        for item, mark in zip(run.items, run.marks[1:], strict=True):
            what = item_words(item)
            if mark.printed is None:
                items.append(say("wall-item-not-placed", what=what))
            else:
                items.append(say("wall-item", what=what, place=mark_number(mark, units)))
        rows.append(say("wall-row", row=say(f"row-{run.row}"), items=", ".join(items)))
    short = [run.name for run in runs if not run.solved]
    verdict = say("some-short", runs=", ".join(short)) if short else say("all-fit")
    return say(
        "wall-says",
        wall=line.name,
        length=show(line.length, units),
        items="; ".join(rows),
        verdict=verdict,
    )


def wall_table(plan: Plan, runs: Sequence[RunPlan]) -> Table:
    """Return every mark of the runs with what stands right of it."""
    units = Units(plan.units)
    header = (
        say("table-run"),
        say("table-mark"),
        say("table-from-left"),
        say("table-edge"),
        say("table-write"),
        say("table-right-of-it"),
        say("table-width"),
    )
    rows = []
    for run in runs:
        things = stand(run)
        for index, mark in enumerate(run.marks):
            thing = things[index] if index < len(things) else None
            rows.append(
                (
                    run.name,
                    mark.name,
                    mark_number(mark, units),
                    edge_words(mark),
                    mark.write,
                    item_words(thing.item) if thing else "",
                    show(thing.right - thing.left, units) if thing else "",
                )
            )
    return Table(header, tuple(rows))
