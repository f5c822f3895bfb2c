"""What a way out changes in the job: the fields that somebody who takes it would write.

A width that gives is rounded the way it gives, so that what is written still cures. A pin that is let go
stays as the first of the wishes: what it was for is not forgotten, and it is met as nearly as can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from setline.job.fields import Model, Span
from setline.job.order import Box, Filler
from setline.lengths import Length, Rounding, Units, fine_step, round_to, show
from setline.result import Change
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.items import Item
from setline.stages.layout.pins import PinPlace, Tie

__all__ = [
    "corner_filler_change",
    "filler_change",
    "loosened_pins",
    "open_end_change",
    "other_box_changes",
    "stile_change",
]


def filler_change(item: Item, width: int, units: Units, *, is_least: bool) -> Change:
    """Return a filler with another least or greatest width."""
    thing = item.order
    assert isinstance(thing, Filler), "a filler's limit is a filler's"
    name, way = ("least", Rounding.DOWN) if is_least else ("most", Rounding.UP)
    span: Span = thing.width.model_copy(update={name: _length(width, units, way)})
    return Change(place=("order", "fillers", str(item.number), "width"), value=_written(span))


def corner_filler_change(width: int, units: Units) -> Change:
    """Return another width of the filler beside blind boxes."""
    return Change(place=("rules", "corner-filler"), value=_length(width, units, Rounding.DOWN).typed)


def loosened_pins(pins: Iterable[PinPlace | Tie], runs: Iterable[RunAsked]) -> Iterator[Change]:
    """Yield the pins of each run, some of them only wishes from now on, and the first of them."""
    loose = {id(pin.pin): pin.run for pin in pins}
    for run in runs:
        if run.name not in loose.values():
            continue
        first = [
            pin.model_copy(update={"strength": "wish", "rank": 1}) for pin in run.run.pins if id(pin) in loose
        ]
        rest = [pin for pin in run.run.pins if id(pin) not in loose]
        yield Change(place=("runs", run.name, "pins"), value=[_written(pin) for pin in (*first, *rest)])


def stile_change(item: Item, by: int, units: Units) -> Change:
    """Return a box whose frame is planed narrower."""
    width = _length(item.least - by, units, Rounding.DOWN)
    return Change(place=("order", "boxes", str(item.number), "measured"), value=width.typed)


def open_end_change(run: RunAsked, side: str, at: int, units: Units) -> Change:
    """Return an open end that may reach to another place."""
    end = run.run.left if side == "left" else run.run.right
    way = Rounding.DOWN if side == "left" else Rounding.UP
    moved = end.model_copy(update={"at": _length(at, units, way)})
    return Change(place=("runs", run.name, side), value=_written(moved))


def other_box_changes(item: Item, width: int, units: Units) -> Iterator[Change]:
    """Yield a box on order in another width: it is not here yet, and nobody has measured it."""
    box = item.order
    assert isinstance(box, Box), "only boxes are sold in steps"
    place = ("order", "boxes", str(item.number))
    yield Change(place=(*place, "width"), value=show(width, units))
    yield Change(place=(*place, "delivery"), value="not here")
    if box.measured is not None:
        yield Change(place=(*place, "measured"), value=None)


def _length(ticks: int, units: Units, way: Rounding) -> Length:
    """Return a length that can be written down: on the tape's grid."""
    on_grid = ticks if "~" not in show(ticks, units) else round_to(ticks, fine_step(units), way)
    return Length(on_grid, show(on_grid, units))


def _written(part: Model) -> dict[str, Any]:
    """Return a part of a job as a job file has it."""
    written: dict[str, Any] = part.model_dump(
        mode="json", by_alias=True, exclude_none=True, exclude_defaults=True
    )
    return written
