"""A run as it is handed on: items, joints and marks with what they rest on; or all without a place."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from setline.lengths import Units, show
from setline.result import AsSetPlace, Figure, ItemPlace, Joint, Mark, RunPlan
from setline.stages.layout.asked import RunAsked, joint_names
from setline.stages.layout.items import Item
from setline.stages.layout.mark_places import MarkPlace, mark_places
from setline.stages.layout.marks import printed_marks, what_to_write
from setline.stages.layout.settle import Settled, pinned_items
from setline.stages.layout.stands import Stands
from setline.stages.layout.working import Workings
from setline.wording import say

__all__ = ["solved_run", "unsolved_run"]


def solved_run(run: RunAsked, settled: Settled, workings: Workings, units: Units) -> RunPlan:
    """Return a run in its places.

    Args:
        run: The run.
        settled: The runs that were settled with it.
        workings: Their figures.
        units: The job's tape.
    """
    nodes = settled.built.joints[[each.name for each in settled.built.runs].index(run.name)]
    at = [settled.places[node] for node in nodes]
    joints = tuple(
        Joint(
            name=name,
            chosen=place,
            earliest=settled.allowed.earliest(node),
            latest=settled.allowed.latest(node),
            play_left=_apart(settled.wished.earliest(node), place),
            play_right=_apart(place, settled.wished.latest(node)),
        )
        for name, place, node in zip(joint_names(run.name, run.items), at, nodes, strict=True)
    )
    return RunPlan(
        name=run.name,
        wall=run.run.wall,
        row=run.run.row,
        left_end=_end(run.ends.left.figure, at[0], units),
        right_end=_end(run.ends.right.figure, at[-1], units),
        solved=True,
        overrun=None,
        items=tuple(
            _item(item, left, right) for item, left, right in zip(run.items, at, at[1:], strict=False)
        ),
        joints=joints,
        marks=_marks(run, at, workings.of_run(run.name), pinned_items(settled.built), units),
    )


def unsolved_run(run: RunAsked, overrun: int | None, pinned: Collection[int], units: Units) -> RunPlan:
    """Return a run without places: nothing stands anywhere, and every mark is ``?``."""
    names = joint_names(run.name, run.items)
    nowhere = Figure(value=None, working=(say("no-place", run=run.name),))
    return RunPlan(
        name=run.name,
        wall=run.run.wall,
        row=run.run.row,
        left_end=run.ends.left.figure,
        right_end=run.ends.right.figure,
        solved=False,
        overrun=overrun,
        items=tuple(_item(item, None, None) for item in run.items),
        joints=tuple(Joint(name=name, chosen=None, earliest=None, latest=None) for name in names),
        marks=tuple(
            Mark(
                name=name,
                at=nowhere,
                printed=None,
                edge=place.edge,
                of_item=place.box.number if place.box else None,
                write=what_to_write(place, None, units),
                struck=struck,
                agreed=agreed,
            )
            for name, place, struck, agreed in zip(
                names, mark_places(run.items, pinned), run.struck, run.agreed, strict=True
            )
        ),
    )


def _apart(low: int | None, high: int | None) -> int | None:
    """Return how far apart two places are, or None where one of them is nowhere."""
    return None if low is None or high is None else high - low


def _end(figure: Figure, place: int, units: Units) -> Figure:
    """Return an end's figure; one that is open anywhere is where the run came to end."""
    if figure.value is not None:
        return figure
    line = say("end-comes-to", at=show(place, units))
    return replace(figure, value=place, working=(*figure.working, line))


def _item(item: Item, left: int | None, right: int | None) -> ItemPlace:
    """Return an item where it stands."""
    return ItemPlace(
        number=item.number,
        kind=item.kind,
        name=item.name,
        left=left,
        right=right,
        body_left=None if left is None else left + item.overhang_left,
        body_right=None if right is None else right - item.overhang_right,
        wished=item.wished if item.stands is None else item.stands.asked,
        least=item.least,
        most=item.most,
        bottom=item.bottom,
        top=item.top,
        depth=item.depth,
        as_set=None if item.stands is None else _as_set(item.stands),
    )


def _as_set(stands: Stands) -> AsSetPlace:
    """Return what was read of a box that is set."""
    record = stands.record
    left, right, off = record.below_line_left, record.below_line_right, record.off_wall
    return AsSetPlace(
        left=stands.read_left,
        right=stands.read_right,
        below_line_left=None if left is None else left.ticks,
        below_line_right=None if right is None else right.ticks,
        off_wall=None if off is None else off.ticks,
        growth=stands.right_at - stands.left_at - stands.asked,
        screwed=record.screwed,
    )


def _marks(
    run: RunAsked, at: Sequence[int], figures: Sequence[Figure], pinned: Collection[int], units: Units
) -> tuple[Mark, ...]:
    """Return the marks of a run in its places."""
    places = mark_places(run.items, pinned)
    exact = [joint + place.offset for joint, place in zip(at, places, strict=True)]
    printed = printed_marks(run.items, places, exact, units, texts=(run.struck, run.agreed))
    marks = []
    for number, (name, place) in enumerate(zip(joint_names(run.name, run.items), places, strict=True)):
        marks.append(
            Mark(
                name=name,
                at=_at(figures[number], place, exact[number], printed[number], units),
                printed=printed[number],
                edge=place.edge,
                of_item=place.box.number if place.box else None,
                write=what_to_write(place, printed[number], units, _clear(places, printed, number)),
                struck=run.struck[number],
                agreed=run.agreed[number],
            )
        )
    return tuple(marks)


def _clear(places: Sequence[MarkPlace], printed: Sequence[int], number: int) -> int | None:
    """Return the clear width that the printed marks leave an opening right of a joint, if one is there."""
    if not places[number].opening_right:
        return None
    return (printed[number + 1] - places[number + 1].offset) - (printed[number] - places[number].offset)


def _at(joint: Figure, place: MarkPlace, exact: int, printed: int, units: Units) -> Figure:
    """Return a mark's figure: its joint's, the overhang, and the one rounding."""
    assert joint.value is not None, "a settled joint has a place"
    working = list(joint.working)
    if place.box is not None and place.offset:
        working.append(
            say(
                "body-edge",
                what=place.box.said,
                overhang=show(abs(place.offset), units),
                start=show(joint.value, units),
                sign="+" if place.offset > 0 else "-",
                end=show(exact, units),
            )
        )
    if printed != exact:
        working.append(say("printed-at", exact=show(exact, units), printed=show(printed, units)))
    return replace(joint, value=exact, working=tuple(working))
