"""Where a pin puts an edge or a centre: at a place along the wall, or in line with another item.

The middle of a wall comes from equal marks struck from both ends, where they were struck: half the
difference is the middle, and that is a reading. A pin beside an item that is itself pinned to a place by
the same centre goes to that place.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from setline.job.job import Job
from setline.job.readings import middle_of_wall
from setline.job.room import Window
from setline.job.runs import Pin
from setline.lengths import show
from setline.result import Figure
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.items import Item
from setline.stages.layout.walls import WallAsRead, half_width
from setline.wording import say

__all__ = ["Edge3", "PinPlace", "Tie", "places_of_pins"]

Edge3 = Literal["left", "centre", "right"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPlace:
    """A pin that puts an item's edge or centre at a place along the wall.

    Attributes:
        pin: The pin.
        run: Name of the item's run.
        at: u of the place. [ticks]
        figure: The same with what it rests on.
        said: What to call the place, such as ``the window centre``.
    """

    pin: Pin
    run: str
    at: int
    figure: Figure
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A pin that puts an item's edge or centre in line with another item's.

    Attributes:
        pin: The pin.
        run: Name of the item's run.
        item: The item.
        edge: Which of its edges.
        other: The item it lines up with.
        other_run: Name of that item's run.
        other_edge: Which of its edges.
        said: What to call it, such as ``the centre of range 33``.
    """

    pin: Pin
    run: str
    item: Item
    edge: Edge3
    other: Item
    other_run: str
    other_edge: Edge3
    said: str

    @property
    def needs_widths(self) -> bool:
        """Whether it speaks of the centre of an item whose width may vary."""
        return any(
            edge == "centre" and not item.is_fixed_width
            for item, edge in ((self.item, self.edge), (self.other, self.other_edge))
        )


def places_of_pins(runs: Iterable[RunAsked], job: Job) -> tuple[list[PinPlace], list[Tie]]:
    """Return the pins of runs: those at a place along the wall, and those in line with another item."""
    runs = tuple(runs)
    where = _where(runs)
    placed: list[PinPlace] = []
    beside: list[tuple[RunAsked, Pin]] = []
    for run in runs:
        for pin in run.run.pins:
            if pin.beside is None:
                placed.append(_placed(pin, run, job))
            else:
                beside.append((run, pin))
    ties: list[Tie] = []
    for run, pin in beside:
        tie = _tie(run, pin, where)
        if tie is None:
            continue
        same = _same_place(tie, placed)
        if same is None:
            ties.append(tie)
        else:
            placed.append(PinPlace(pin=pin, run=run.name, at=same.at, figure=same.figure, said=tie.said))
    return placed, ties


def _where(runs: Iterable[RunAsked]) -> dict[tuple[str, int], tuple[RunAsked, Item]]:
    """Return the run and the item of every number, wall by wall; a tall box by its first run."""
    found: dict[tuple[str, int], tuple[RunAsked, Item]] = {}
    for run in runs:
        for item in run.items:
            found.setdefault((run.run.wall, item.number), (run, item))
    return found


def _tie(run: RunAsked, pin: Pin, where: Mapping[tuple[str, int], tuple[RunAsked, Item]]) -> Tie | None:
    """Return a pin beside another item as a tie, or None where that item stands in no run of the wall."""
    target = where.get((run.run.wall, pin.beside or 0))
    if target is None:
        return None
    other_run, other = target
    edge = pin.beside_edge or pin.edge
    return Tie(
        pin=pin,
        run=run.name,
        item=next(item for item in run.items if item.number == pin.item),
        edge=pin.edge,
        other=other,
        other_run=other_run.name,
        other_edge=edge,
        said=say(f"{edge}-of", what=other.said),
    )


def _same_place(tie: Tie, placed: Iterable[PinPlace]) -> PinPlace | None:
    """Return the place that the other item's edge must hold anyhow, if there is one."""
    for place in placed:
        pin = place.pin
        if pin.strength == "must" and pin.item == tie.other.number and pin.edge == tie.other_edge:
            return place
    return None


def _placed(pin: Pin, run: RunAsked, job: Job) -> PinPlace:
    """Return a pin at a place along its wall."""
    units = job.job.tape
    if pin.at is not None:
        at = pin.at.ticks
        figure = Figure(
            value=at,
            within=half_width([run.wall.doubt]),
            readings=(f"{run.name} pin of {pin.item}: {pin.at.typed}",),
            working=(say("pin-at", at=show(at, units)),),
        )
        return PinPlace(pin=pin, run=run.name, at=at, figure=figure, said=show(at, units))
    if pin.window is not None:
        window = next(each for each in run.wall.wall.windows if each.name == pin.window)
        return _of(pin, run, _window_centre(window, run.wall, job), say("window-centre", name=window.name))
    return _of(pin, run, _middle(run.wall, job), say("wall-middle", wall=run.run.wall))


def _of(pin: Pin, run: RunAsked, figure: Figure, said: str) -> PinPlace:
    assert figure.value is not None, "a pin's place is known"
    return PinPlace(pin=pin, run=run.name, at=figure.value, figure=figure, said=said)


def _window_centre(window: Window, wall: WallAsRead, job: Job) -> Figure:
    """Return a window's centre line: as read itself, else the middle of its edges."""
    units, address = job.job.tape, f"{wall.wall.name} window {window.name}"
    if window.centre is not None:
        at = window.centre.ticks
        return Figure(
            value=at,
            within=half_width([wall.doubt]),
            readings=(f"{address} centre: {window.centre.typed}",),
            working=(say("window-centre-read", at=show(at, units)),),
        )
    assert window.left is not None, "a window has its centre or both edges"
    assert window.right is not None, "a window has its centre or both edges"
    left, right = window.left.ticks, window.right.ticks
    at = (left + right) // 2
    return Figure(
        value=at,
        within=half_width([wall.doubt // 2] * 2),
        readings=(f"{address} left: {window.left.typed}", f"{address} right: {window.right.typed}"),
        working=(
            say("window-centre-halved", left=show(left, units), right=show(right, units), at=show(at, units)),
        ),
    )


def _middle(wall: WallAsRead, job: Job) -> Figure:
    """Return a wall's middle: by equal marks from both ends, else half its length."""
    units, marks = job.job.tape, wall.wall.middle
    if marks is None:
        reference = wall.reference()
        at = reference.length // 2
        return Figure(
            value=at,
            within=half_width([wall.doubt // 2]),
            readings=(reference.reading,),
            working=(say("middle-halved", length=show(reference.length, units), at=show(at, units)),),
        )
    at = middle_of_wall(marks)
    return Figure(
        value=at,
        within=half_width([wall.doubt // 2] * 2),
        readings=(
            f"{wall.wall.name} middle equal: {marks.equal.typed}",
            f"{wall.wall.name} middle apart: {marks.apart.typed}",
        ),
        working=(
            say(
                "middle-by-equal-marks",
                equal=show(marks.equal.ticks, units),
                sign="-" if marks.crossed else "+",
                apart=show(marks.apart.ticks, units),
                half=show(abs(at - marks.equal.ticks), units),
                at=show(at, units),
            ),
        ),
    )
