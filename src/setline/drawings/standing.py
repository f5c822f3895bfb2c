"""Where items stand on a drawing: as planned, or at wished sizes in a run that cannot be solved."""

from __future__ import annotations

from dataclasses import dataclass

from setline.result import ItemKind, ItemPlace, Plan, RunPlan, WallLine

__all__ = ["Standing", "item_code", "plain_name", "runs_of", "stand", "wall_of"]


@dataclass(frozen=True, slots=True)
class Standing:
    """An item with the u it is drawn at.

    Attributes:
        item: The item.
        left: u of its left joint.
        right: u of its right joint.
        body_left: u of its body's left edge.
        body_right: u of its body's right edge.
        is_placed: False where the run is not solved and the item stands at its wished size only.
    """

    item: ItemPlace
    left: int
    right: int
    body_left: int
    body_right: int
    is_placed: bool


def stand(run: RunPlan) -> tuple[Standing, ...]:
    """Return a run's items, left to right, where they are drawn."""
    placed = []
    here = run.left_end.value or 0
    for item in run.items:
        if run.solved and item.left is not None and item.right is not None:
            left, right = item.left, item.right
            body_left = left if item.body_left is None else item.body_left
            body_right = right if item.body_right is None else item.body_right
            placed.append(Standing(item, left, right, body_left, body_right, True))
        else:
            placed.append(Standing(item, here, here + item.wished, here, here + item.wished, False))
        here = placed[-1].right
    return tuple(placed)


def runs_of(plan: Plan, wall: str, row: str | None = None) -> tuple[RunPlan, ...]:
    """Return the runs of a wall, or of one row of it."""
    return tuple(run for run in plan.runs if run.wall == wall and row in (None, run.row))


def wall_of(plan: Plan, wall: str) -> WallLine:
    """Return a wall by its letter."""
    return next(line for line in plan.walls if line.name == wall)


def item_code(item: ItemPlace) -> str:
    """Return an item's short name on a drawing: its number, with F for a filler and P for a panel."""
    letter = {ItemKind.FILLER: "F", ItemKind.PANEL: "P"}.get(item.kind, "")
    return f"{letter}{item.number}"


def plain_name(item: ItemPlace, width: str) -> str:
    """Return an item's name for a drawing that prints its width beside it: ``sink 36`` is then ``sink``."""
    return item.name.removesuffix(f" {width}")
