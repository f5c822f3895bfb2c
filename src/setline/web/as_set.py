"""What is asked once a box stands: one question a number, three answers each, nothing typed for anybody.

The right edge is asked of every box: it decides where the next one goes. The left edge, the tops and the
face off the wall are asked of the first and the last box of a run, beside openings, and where the doubt has
grown.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from setline.field_book.places import pointer
from setline.job.record import SetBox
from setline.lengths import Units, mark_step, show
from setline.result import Change, ItemKind, Plan
from setline.stages.recording import EdgeAsSet, edge_to_read, set_box
from setline.web.planning import Standing
from setline.web.set_order import ListedBox
from setline.wording import say

__all__ = ["HEIGHTS", "Asked", "answer_changes", "questions"]

HEIGHTS = {"top-left": "below_line_left", "top-right": "below_line_right", "off-wall": "off_wall"}
"""Field of a set box for each question that is not about an edge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One question about a box that stands.

    Attributes:
        key: ``right``, ``left``, ``top-left``, ``top-right`` or ``off-wall``.
        title: What is read.
        hold: From where, and how.
        planned: The number planned, as text; nothing where none is known.
        planned_ticks: The same in ticks.
        on_mark: What the first answer says; nothing where there is no mark.
        why: Why it is asked, where it would not be otherwise.
        recorded: What was answered before, in words.
        of: What its mark names, of an edge: the frame or the body.
        agree: Place and value of a yes to its mark, which an edge not read asks for where there was none.
    """

    key: str
    title: str
    hold: str
    planned: str
    planned_ticks: int | None
    on_mark: str
    why: str
    recorded: str
    of: str = ""
    agree: tuple[str, str] | None = None


def questions(standing: Standing, box: ListedBox) -> tuple[Asked, ...]:
    """Return what is asked of a box once it stands, in order.

    Args:
        standing: The job as it stands.
        box: The box.
    """
    plan, job = standing.plan, standing.job
    if plan is None or job is None:
        return ()
    record = next((each for each in job.record.set if each.box == box.number), None)
    found = [_edge(plan, box, "right", record, "")]
    growth = _growth(box, mark_step(Units(plan.units)))
    if growth or _counts(box):
        why = say("asked-growth", growth=show(growth, Units(plan.units))) if growth else ""
        found.append(_edge(plan, box, "left", record, why))
    if _counts(box) and box.order.kind == "base":
        found += [_top(plan, side, record) for side in ("left", "right")]
    if _counts(box):
        found.append(_off_wall(record))
    return tuple(found)


def _counts(box: ListedBox) -> bool:
    """Return whether a box is the first or last of its run, or stands beside an opening."""
    boxes = [at for at, item in enumerate(box.run.items) if item.kind is ItemKind.BOX]
    beside = (
        *box.run.items[max(0, box.place - 1) : box.place],
        *box.run.items[box.place + 1 : box.place + 2],
    )
    return box.place in (boxes[0], boxes[-1]) or any(item.kind is ItemKind.OPENING for item in beside)


def _growth(box: ListedBox, step: int) -> int:
    """Return by how much the left edge may be off, where that is over a step; 0 where it was read."""
    if box.place == 0:
        return 0
    before = box.run.items[box.place - 1]
    within = box.run.marks[box.place].at.within or 0
    unread = before.as_set is not None and before.as_set.right is None
    return within if unread and within > step else 0


def _edge(plan: Plan, box: ListedBox, side: str, record: SetBox | None, why: str) -> Asked:
    """Return the question for an edge."""
    known = box.item.as_set
    planned = _planned_edge(plan, box, side)
    read = None if record is None else next((each for each in record.edges if each.edge == side), None)
    recorded = ""
    if read is not None:
        recorded = say(f"recorded-{read.how.replace(' ', '-')}", at=read.at.typed)
    elif known is not None:
        recorded = say("recorded-not-read")
    of = "frame" if planned is None else planned.of
    return Asked(
        key=side,
        title=_capital(say("asked-edge", side=say(f"side-{side}"), of=say(f"of-{of}"))),
        hold=say("asked-edge-hold", wall=box.run.wall),
        planned="" if planned is None else planned.at,
        planned_ticks=_planned_at(box, side),
        on_mark=say("answer-on-mark") if planned is not None else "",
        why=why,
        recorded=recorded,
        of=of,
        agree=_agree(box, side, planned),
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _agree(box: ListedBox, side: str, planned: EdgeAsSet | None) -> tuple[str, str] | None:
    """Return place and value of a yes to a mark that was neither struck nor agreed."""
    mark = box.run.marks[box.place if side == "left" else box.place + 1]
    if planned is None or mark.struck is not None or mark.agreed is not None:
        return None
    return pointer(("record", "agreed", mark.name, "at")), planned.at


def _planned_edge(plan: Plan, box: ListedBox, side: str) -> EdgeAsSet | None:
    """Return the edge that a mark names, with the number it was set to; a mark on the wall has one always."""
    planned = _planned_at(box, side)
    return None if planned is None else edge_to_read(plan, box.number, side, planned)


def _planned_at(box: ListedBox, side: str) -> int | None:
    """Return where an edge was planned: once the box stands, what its mark said before."""
    mark = box.run.marks[box.place if side == "left" else box.place + 1]
    if box.item.is_set:
        return next((at for at in (mark.struck, mark.agreed) if at is not None), mark.printed)
    return mark.printed


def _top(plan: Plan, side: str, record: SetBox | None) -> Asked:
    """Return the question for a front corner of the top: how far below the struck line."""
    clearance = plan.level_line.clearance
    units = Units(plan.units)
    field = getattr(record, f"below_line_{side}") if record is not None else None
    return Asked(
        key=f"top-{side}",
        title=say("asked-top", side=say(f"side-{side}")),
        hold=say("asked-top-hold"),
        planned=show(clearance, units),
        planned_ticks=clearance,
        on_mark=say("answer-on-line"),
        why="",
        recorded="" if field is None else say("recorded-read", at=field.typed),
    )


def _off_wall(record: SetBox | None) -> Asked:
    """Return the question how far the back stands off the wall."""
    field = record.off_wall if record is not None else None
    return Asked(
        key="off-wall",
        title=say("asked-off-wall"),
        hold=say("asked-off-wall-hold"),
        planned="",
        planned_ticks=None,
        on_mark="",
        why="",
        recorded="" if field is None else say("recorded-read", at=field.typed),
    )


def answer_changes(
    standing: Standing, box: ListedBox, asked: Asked, answer: str, text: str, *, screwed: bool
) -> tuple[Change, ...]:
    """Return what an answer writes down, beside what was answered before.

    Args:
        standing: The job as it stands.
        box: The box.
        asked: The question.
        answer: ``mark``, ``typed`` or ``not-read``.
        text: The number as typed.
        screwed: Whether the screws are in.
    """
    plan, job = standing.plan, standing.job
    assert plan is not None, "a box that is asked about has a plan"
    assert job is not None, "a box that is asked about has a job"
    record = next((each for each in job.record.set if each.box == box.number), None)
    edges = {each.side: each for each in _recorded_edges(record)}
    heights: dict[str, Any] = {field: _typed(record, field) for field in HEIGHTS.values()}
    if asked.key in HEIGHTS:
        value = None if answer == "not-read" else asked.planned if answer == "mark" else text
        heights[HEIGHTS[asked.key]] = value
    elif answer == "not-read":
        edges.pop(asked.key, None)
    else:
        planned = _planned_edge(plan, box, asked.key)
        of = "frame" if planned is None else planned.of
        at, how = (asked.planned, "on the mark") if answer == "mark" else (text, "read")
        edges[asked.key] = EdgeAsSet(side=asked.key, of=of, at=at, how=how)
    ordered = [edges[side] for side in ("left", "right") if side in edges]
    return set_box(plan, box.number, ordered, screwed=screwed, **heights)


def _recorded_edges(record: SetBox | None) -> Iterator[EdgeAsSet]:
    """Yield the edges read before, as they were typed."""
    for each in () if record is None else record.edges:
        yield EdgeAsSet(side=each.edge, of=each.of, at=each.at.typed, how=each.how)


def _typed(record: SetBox | None, field: str) -> str | None:
    """Return a number read before, as it was typed."""
    length = None if record is None else getattr(record, field)
    return None if length is None else str(length.typed)
