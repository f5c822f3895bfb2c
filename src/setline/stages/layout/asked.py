"""The runs as they are asked for: items, ends and wall together, each under a name of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from setline.job.job import Job
from setline.job.readings import height_z
from setline.job.runs import Run
from setline.rules import RuleBook
from setline.stages.layout.ends import RunEnds, find_ends, row_name
from setline.stages.layout.items import Item, Ordered, items_of, ordered_things
from setline.stages.layout.walls import WallAsRead, read_walls

__all__ = ["Kitchen", "RunAsked", "ask", "joint_names"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunAsked:
    """A run as it is asked for.

    Attributes:
        name: ``A base``; a second base run on the same wall is ``A base 2``.
        run: The run.
        items: What its items ask for, left to right.
        ends: Where it starts and stops.
        wall: Its wall as read.
        bottom_by_rule: Whether a wall row's underside stands by the rule, for want of a height.
        struck: For each joint, where its mark is on the wall, or None. [ticks]
        agreed: For each joint, where its mark was said yes to, or None. [ticks]
    """

    name: str
    run: Run
    items: tuple[Item, ...]
    ends: RunEnds
    wall: WallAsRead
    bottom_by_rule: bool = False
    struck: tuple[int | None, ...] = ()
    agreed: tuple[int | None, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """Every run of a job as asked for, and what they are asked by.

    Attributes:
        job: The job.
        book: The rules.
        runs: The runs; set boxes stand in them once the layout begins.
        bare: The same as if no box were set.
    """

    job: Job
    book: RuleBook
    runs: tuple[RunAsked, ...]
    bare: tuple[RunAsked, ...] = ()


def ask(job: Job, book: RuleBook, tops: int) -> Kitchen:
    """Return every run as it is asked for, in the job's order.

    Args:
        job: The job.
        book: The rules.
        tops: z of the box tops. [ticks]
    """
    things = ordered_things(job)
    walls = read_walls(job, book, tops)
    rows: dict[str, tuple[Item, ...]] = {}
    each_items = []
    for run in job.runs:
        items = _items(run, things, job, book, walls, tops)
        each_items.append(items)
        rows[row_name(run)] = rows.get(row_name(run), ()) + items
    names = _names(job)
    struck = {each.name: each.at.ticks for each in job.record.struck}
    agreed = {each.name: each.at.ticks for each in job.record.agreed}
    return Kitchen(
        job=job,
        book=book,
        runs=tuple(
            RunAsked(
                name=name,
                run=run,
                items=items,
                ends=find_ends(run, items, walls[run.wall], rows, job=job, book=book, tops=tops),
                wall=walls[run.wall],
                bottom_by_rule=run.row == "wall" and _own_bottom(run, job, walls, tops) is None,
                struck=tuple(struck.get(joint) for joint in joint_names(name, items)),
                agreed=tuple(agreed.get(joint) for joint in joint_names(name, items)),
            )
            for name, run, items in zip(names, job.runs, each_items, strict=True)
        ),
    )


def joint_names(run: str, items: Iterable[Item]) -> tuple[str, ...]:
    """Return the name of every joint of a run: of the item on its right, the last ``end``.

    Args:
        run: Name of the run.
        items: Its items, left to right.
    """
    return (*(f"{run} {item.number} left" for item in items), f"{run} end")


def _names(job: Job) -> list[str]:
    """Return a name of its own for every run."""
    seen: Counter[str] = Counter()
    names = []
    for run in job.runs:
        name = row_name(run)
        seen[name] += 1
        names.append(name if seen[name] == 1 else f"{name} {seen[name]}")
    return names


def _items(
    run: Run,
    things: dict[int, Ordered],
    job: Job,
    book: RuleBook,
    walls: Mapping[str, WallAsRead],
    tops: int,
) -> tuple[Item, ...]:
    """Return the items of a run at their heights."""
    bottom = -book.length("base-height")
    if run.row == "wall":
        own = _own_bottom(run, job, walls, tops)
        bottom = book.length("wall-box-bottom") if own is None else own
    return items_of(run, things, book, units=job.job.tape, bottom=bottom)


def _own_bottom(run: Run, job: Job, walls: Mapping[str, WallAsRead], tops: int) -> int | None:
    """Return the height of a wall row's underside above the level line, or None where none can be told."""
    if run.bottom is None:
        return None
    wall = walls[run.wall]
    z = height_z(run.bottom, job, subfloor=wall.floor_left, finished=wall.finished_left, tops=tops)
    return None if z is None else z - tops
