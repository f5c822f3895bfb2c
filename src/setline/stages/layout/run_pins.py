"""The pins of a run as they are handed on: where each holds, and by how much a wish is missed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from setline.result import ItemPlace, RunPin, RunPlan
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.pins import Edge3, PinPlace, Tie
from setline.stages.layout.settle import Missed

__all__ = ["run_pins"]


def run_pins(
    run: RunAsked,
    pins: Iterable[PinPlace | Tie],
    missed: Iterable[Missed],
    plans: Mapping[str, RunPlan],
) -> tuple[RunPin, ...]:
    """Return the pins of a run, in the job's order; one beside an item that stands nowhere is left out.

    Args:
        run: The run.
        pins: All pins of the job.
        missed: Wishes that could not be met.
        plans: Every run laid out, by its name.
    """
    own = {id(pin.pin): pin for pin in pins if pin.run == run.name}
    by = {id(each.pin): each.by for each in missed}
    return tuple(
        RunPin(
            of_item=pin.item,
            edge=pin.edge,
            said=placed.said,
            at=placed.at if isinstance(placed, PinPlace) else _at(placed, plans),
            beside=pin.beside,
            wish_rank=pin.rank if pin.strength == "wish" else None,
            missed=by.get(id(placed), 0),
        )
        for pin in run.run.pins
        if (placed := own.get(id(pin))) is not None
    )


def _at(tie: Tie, plans: Mapping[str, RunPlan]) -> int | None:
    """Return where the item that a tie lines up with came to stand, or None if it has no place."""
    items = plans[tie.other_run].items
    return _edge(next(item for item in items if item.number == tie.other.number), tie.other_edge)


def _edge(item: ItemPlace, edge: Edge3) -> int | None:
    """Return the u of an item's edge or centre."""
    if item.left is None or item.right is None:
        return None
    return {"left": item.left, "right": item.right, "centre": (item.left + item.right) // 2}[edge]
