"""Where the boxes bear: the points at which the floor counts, for the line and for the shims.

A box stands on its bearing points, not on the floor between them: a hump in the middle of the room does not
count.

* *sides*: each side bears at its two ends, at the wall and at the toe line, and at every reading within 3
in of it; * *legs*: at their centres, inset from the body's edges; * *ladder base*: at the corners of the
box's outline and at every reading within 3 in of it; * *ledger and front legs*: at the two front legs; the
ledger is on the wall, where the floor does not count; * *wall rail*: nowhere.

A run that cannot be solved has no positions; for the line alone it bears at every reading of its row, wall
and toe line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from setline.job.order import Box
from setline.lengths import show
from setline.result import ItemKind, ItemPlace, RunPlan, ShimKind
from setline.stages.floor.footprint import Footprint, Side, footprint_of
from setline.stages.floor.ground import Ground, GroundHeight

__all__ = ["Bearing", "Stood", "bearing_points", "stand", "trim_cap"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """One bearing point.

    Attributes:
        name: ``3 back-left``; in a run that cannot be solved the address of a reading.
        box: The box's number, or None as above.
        corner: ``back-left``; between the ends of a side ``left 12`` (its out).
        kind: What takes up the height there.
        wall: The wall's letter.
        u: Along the wall. [ticks]
        out: From the wall. [ticks]
        x: In the room. [ticks]
        y: In the room. [ticks]
        foot: Height above the level line of what the shim, leg or ladder carries: always below 0. [ticks]
        nominal: What stands under it where the box has its ordered height: 0, or a leg's height. [ticks]
        least: Least that may stand under it: 0, or a leg turned all the way in. [ticks]
        most: Greatest, or None for no limit. [ticks]
        readings: Those that stand here as read, where it is not a matter of the nearest ones.
        is_front: Whether it stands at the toe line, where the kick is measured.
    """

    name: str
    box: int | None
    corner: str
    kind: ShimKind
    wall: str
    u: int
    out: int
    x: int
    y: int
    foot: int
    nominal: int = 0
    least: int = 0
    most: int | None = None
    readings: tuple[int, ...] = ()
    is_front: bool = False

    def tops_over(self, z: int, thickness: int) -> int:
        """Return where the tops come with so much under this point, on a floor at z. [ticks]."""
        return z + thickness - self.foot

    def thickness(self, tops: int, z: int) -> int:
        """Return what must stand under this point so that the tops come to their height. [ticks]."""
        return tops + self.foot - z


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A bearing point and the floor under it.

    Attributes:
        at: The bearing point.
        ground: The bare floor there.
        z: Height of the floor that the box stands on, or None for ``?``. [ticks]
        guess: The same, or what the surface says where it is ``?``. [ticks]
    """

    at: Bearing
    ground: GroundHeight
    z: int | None
    guess: int | None


def bearing_points(ground: Ground, runs: Sequence[RunPlan]) -> tuple[Bearing, ...]:
    """Return every bearing point, box by box, left to right; ledgers are among them (see ``stand``).

    Args:
        ground: The floor.
        runs: The runs as laid out.
    """
    boxes = {box.number: box for box in ground.job.order.boxes}
    found: list[Bearing] = []
    for run in runs:
        if run.row != "base":
            continue
        if not run.solved:
            found.extend(_row_points(ground, run))
            continue
        for item in run.items:
            if item.kind is ItemKind.BOX:
                found.extend(_box_points(ground, run, item, boxes[item.number]))
    return tuple(found)


def stand(ground: Ground, bearings: Sequence[Bearing]) -> tuple[Stood, ...]:
    """Return the floor under each bearing point; a ledger has none under it and is left out."""
    on_floor = [each for each in bearings if each.kind is not ShimKind.LEDGER]
    heights = ground.heights([(each.x, each.y) for each in on_floor])
    return tuple(
        _stood(ground, each, ground.as_read(each.readings) if each.readings else height)
        for each, height in zip(on_floor, heights, strict=True)
    )


def _stood(ground: Ground, at: Bearing, height: GroundHeight) -> Stood:
    """Return a bearing point with the coverings that the box stands on laid over the bare floor."""
    over = ground.coverings.under_boxes((at.x, at.y)) if ground.coverings.all else 0
    return Stood(
        at=at,
        ground=height,
        z=None if height.bare is None else height.bare + over,
        guess=None if height.guess is None else height.guess + over,
    )


def trim_cap(ground: Ground, box: Box) -> int:
    """Return how much may be cut off a box's foot, in ticks.

    What the order says stands. Else nothing off a box on legs or one with an end that shows, and no more
    than the rule and the toe kick's height off any other.
    """
    if box.may_trim is not None:
        return box.may_trim.ticks
    if box.finished or box.support in ("legs", "ledger and front legs", "wall rail"):
        return 0
    toe = box.toe_height.ticks if box.toe_height is not None else ground.book.length("toe-height")
    return min(ground.book.length("trim-limit"), toe)


def _row_points(ground: Ground, run: RunPlan) -> Iterator[Bearing]:
    """Yield the readings of an unsolved run's row, between its ends, as bearing points."""
    feet = [item.bottom for item in run.items if item.kind is ItemKind.BOX]
    foot = min(feet, default=-ground.book.length("base-height"))
    spots: dict[tuple[int, int], tuple[int, ...]] = {}
    for index, reading in enumerate(ground.readings):
        in_row = reading.wall == run.wall and reading.line in ("wall", "toe")
        if in_row and ground.is_tied(index) and _is_between_ends(ground, run, reading.u):
            spots[ground.place(index)] = (*spots.get(ground.place(index), ()), index)
    for (x, y), takes in spots.items():
        reading = ground.readings[takes[0]]
        yield Bearing(
            name=reading.address,
            box=None,
            corner=reading.address,
            kind=ShimKind.SHIM,
            wall=run.wall,
            u=reading.u,
            out=reading.out,
            x=x,
            y=y,
            foot=foot,
            readings=takes,
            is_front=reading.line == "toe",
        )


def _is_between_ends(ground: Ground, run: RunPlan, u: int) -> bool:
    """Return whether a place along the wall lies between a run's ends, or within 3 in of one."""
    reach = ground.book.length("as-read-within")
    left, right = run.left_end.value, run.right_end.value
    return (left is None or u >= left - reach) and (right is None or u <= right + reach)


def _box_points(ground: Ground, run: RunPlan, item: ItemPlace, box: Box) -> Iterator[Bearing]:
    """Yield the bearing points of one box."""
    support = box.support or ("wall rail" if box.kind == "wall" else "sides")
    if support == "wall rail" or item.body_left is None or item.body_right is None:
        return
    if support in ("sides", "ladder base"):
        kind = ShimKind.SHIM if support == "sides" else ShimKind.LADDER
        yield from _outline_points(ground, footprint_of(ground, run, item, box, inset=0), item, kind)
        return
    given = box.legs.inset if box.legs is not None else None
    inset = given.ticks if given is not None else ground.book.length("leg-inset")
    legs = footprint_of(ground, run, item, box, inset=inset)
    for point in _leg_points(ground, legs, item, box):
        is_ledger = support == "ledger and front legs" and not point.is_front
        yield replace(point, kind=ShimKind.LEDGER) if is_ledger else point


def _leg_points(ground: Ground, feet: Footprint, item: ItemPlace, box: Box) -> Iterator[Bearing]:
    """Yield a box's legs; their nominal height is that of its toe kick."""
    toe = box.toe_height.ticks if box.toe_height is not None else ground.book.length("toe-height")
    for corner, wall, u, out, is_front in feet.corners:
        x, y = ground.outline.to_room(wall, u, out)
        yield Bearing(
            name=f"{item.number} {corner}",
            box=item.number,
            corner=corner,
            kind=ShimKind.LEG,
            wall=wall,
            u=u,
            out=out,
            x=x,
            y=y,
            foot=item.bottom + toe,
            nominal=toe,
            least=box.legs.least.ticks if box.legs is not None else 0,
            most=box.legs.most.ticks if box.legs is not None else None,
            is_front=is_front,
        )


def _outline_points(ground: Ground, feet: Footprint, item: ItemPlace, kind: ShimKind) -> Iterator[Bearing]:
    """Yield the corners of a box on its sides or on a ladder base, then the readings close to its edges."""
    spots = [ground.outline.to_room(wall, u, out) for _, wall, u, out, _ in feet.corners]
    for (corner, wall, u, out, is_front), (x, y) in zip(feet.corners, spots, strict=True):
        yield Bearing(
            name=f"{item.number} {corner}",
            box=item.number,
            corner=corner,
            kind=kind,
            wall=wall,
            u=u,
            out=out,
            x=x,
            y=y,
            foot=item.bottom,
            is_front=is_front,
        )
    taken = {index for readings in ground.stands_as_read(spots) for index in readings}
    named: set[str] = set()
    for side in feet.sides if kind is ShimKind.SHIM else feet.sides + feet.ends:
        yield from _readings_along(ground, side, item, kind, taken, named)


def _readings_along(
    ground: Ground, side: Side, item: ItemPlace, kind: ShimKind, taken: set[int], named: set[str]
) -> Iterator[Bearing]:
    """Yield a bearing point for every reading close to a side that does not stand at a corner already."""
    units = ground.job.job.tape
    for close in ground.close_to(side.wall, side.u, side.out):
        if taken.issuperset(close.readings):
            continue
        taken.update(close.readings)
        corner = f"{side.name} {show(close.out if side.runs_out else close.u, units)}"
        if corner in named:
            corner += f" read at {ground.readings[close.readings[0]].address}"
        named.add(corner)
        x, y = ground.outline.to_room(side.wall, close.u, close.out)
        yield Bearing(
            name=f"{item.number} {corner}",
            box=item.number,
            corner=corner,
            kind=kind,
            wall=side.wall,
            u=close.u,
            out=close.out,
            x=x,
            y=y,
            foot=item.bottom,
            readings=close.readings,
        )
