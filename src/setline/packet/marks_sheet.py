"""A marks sheet a wall: what to write where, word for word, with boxes to tick and room for what was set."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Rounding, Units, mark_step, round_to, show
from setline.packet.picture import Picture
from setline.result import Edge, ItemKind, Joint, Mark, Plan, Rank, RunPlan, Shim, ShimKind
from setline.told import UNKNOWN, number, strike_words, tops_words, wall_differs, within
from setline.wording import say

__all__ = ["FloorRow", "MarkCell", "MarksSheet", "RunMarks", "marks_sheet"]

_CORNERS = ("back-left", "back-right", "front-left", "front-right")
_COLUMNS = 5


class MarkCell(TypedDict):
    """One mark: what to write, and what it is."""

    write: str
    beside: str
    """Written on, where an opening starts: what goes into it and how wide."""
    what: list[str]
    as_set: bool
    """Whether there is room to pencil in what was set."""


class RunMarks(TypedDict):
    """The marks of one run."""

    name: str
    line: str
    is_loud: bool
    columns: int
    marks: list[MarkCell]


class FloorRow(TypedDict):
    """What goes under one box, as a row of the floor table."""

    box: str
    corners: list[str]
    others: str


class MarksSheet(TypedDict):
    """Data of a wall's marks sheet."""

    kind: str
    key: str
    landscape: bool
    title: str
    start: str
    warning: str | None
    strike: str
    tops: str
    picture: Picture
    troubles: list[str]
    order: str
    runs: list[RunMarks]
    shims: list[FloorRow]


def marks_sheet(plan: Plan, wall: str, picture: Picture) -> MarksSheet:
    """Return the data of a wall's marks sheet.

    Args:
        plan: The plan.
        wall: The wall's letter.
        picture: The wall's elevation.
    """
    units = Units(plan.units)
    runs = [run for run in plan.runs if run.wall == wall]
    unsolved = ", ".join(run.name for run in runs if not run.solved)
    strike, tops = _line(plan, units)
    return MarksSheet(
        kind="marks",
        key=f"marks-{wall}",
        landscape=True,
        title=say("packet-marks-title", wall=wall),
        start=say("packet-start"),
        warning=say("packet-do-not-set", runs=unsolved) if unsolved else None,
        strike=strike,
        tops=tops,
        picture=picture,
        troubles=[*_differs(plan, wall), *_troubles(plan, wall)],
        order=say("packet-marks-order"),
        runs=[_run(run, plan.level_line.clearance, units) for run in runs],
        shims=_floor_rows(plan, wall, units),
    )


def _line(plan: Plan, units: Units) -> tuple[str, str]:
    """Return the struck line and the tops below it, for the head of the sheet."""
    line = next((line for line in plan.level_line.set_ups if line.in_use), None)
    if line is None or line.printed_strike is None:
        return say("packet-no-line-short"), say("packet-no-line")
    text, way = strike_words(line, units)
    strike = say("packet-strike-short", strike=text, way=way.lower(), set_up=line.set_up)
    return strike, tops_words(line, plan.level_line.clearance, units)


def _differs(plan: Plan, wall: str) -> list[str]:
    """Return where the marks on this wall say other numbers than the sheet, and which to strike out."""
    return [
        say("packet-differs", text=each.text, marks=", ".join(_other(mark, units) for mark in each.marks))
        for units in [Units(plan.units)]
        for each in wall_differs(plan)
        if each.wall == wall
    ]


def _other(mark: Mark, units: Units) -> str:
    """Return a mark on the wall beside what the sheet says: ``3 for 3 1/16 |2>``."""
    return say("packet-differs-mark", was=number(mark.struck, units), write=mark.write)


def _troubles(plan: Plan, wall: str) -> list[str]:
    """Return the stops and choices of this wall, by their number in the list of findings."""
    return [
        say("packet-trouble", n=place, rank=say(f"packet-rank-{finding.rank}"), text=finding.text)
        for place, finding in enumerate(plan.findings, start=1)
        if finding.rank in {Rank.STOP, Rank.DECIDE} and _is_on_wall(finding.where, plan, wall)
    ]


def _is_on_wall(where: str, plan: Plan, wall: str) -> bool:
    """Return whether a finding's place lies on a wall: it begins with its letter or with an item there."""
    first = where.split(" ", 1)[0].rstrip(":,")
    if first == wall:
        return True
    return any(str(item.number) == first for run in plan.runs if run.wall == wall for item in run.items)


def _run(run: RunPlan, clearance: int, units: Units) -> RunMarks:
    """Return a run's marks, left to right, and how high its boxes hang over the struck line."""
    joints = {joint.name: joint for joint in run.joints}
    ends = say(
        "packet-run-ends", left=number(run.left_end.value, units), right=number(run.right_end.value, units)
    )
    hang = _undersides(run, clearance, units)
    if hang:
        ends = say("packet-run-hangs", ends=ends, up=hang)
    over = number(run.overrun, units)
    return RunMarks(
        name=say("packet-run", name=run.name, count=len(run.marks)) if run.solved else run.name,
        line=ends if run.solved else say("packet-run-unsolved", over=over),
        is_loud=not run.solved,
        columns=_COLUMNS,
        marks=[_cell(mark, joints.get(mark.name), run, units) for mark in run.marks],
    )


def _undersides(run: RunPlan, clearance: int, units: Units) -> str:
    """Return how far the undersides of a wall row lie over the struck line; nothing for a base row."""
    hung = {item.bottom for item in run.items if item.kind == ItemKind.BOX and item.bottom > clearance}
    ups = [round_to(bottom - clearance, mark_step(units), Rounding.NEAREST_UP) for bottom in sorted(hung)]
    return " and ".join(show(up, units) for up in ups)


def _cell(mark: Mark, joint: Joint | None, run: RunPlan, units: Units) -> MarkCell:
    """Return one mark with what it is: the body's edge or the joint, its doubt, how far it may move."""
    edge = ", ".join(text for text in (_what(mark, run), within(mark.at, units)) if text)
    play = _play(mark, joint, units)
    sign, bar, beside = mark.write.partition("| ")
    return MarkCell(
        write=sign + bar.rstrip(), beside=beside, what=[edge, play] if play else [edge], as_set=run.solved
    )


def _what(mark: Mark, run: RunPlan) -> str:
    """Return which edge stands at a mark."""
    if mark.edge == Edge.BODY:
        return say("packet-mark-body", box=mark.of_item)
    place = next((at for at, joint in enumerate(run.joints) if joint.name == mark.name), None)
    sides = [] if place is None else run.items[max(place - 1, 0) : place + 1]
    if len(sides) == 2 and all(item.kind == ItemKind.BOX for item in sides):
        return say("packet-mark-frames")
    return say("packet-mark-joint")


def _play(mark: Mark, joint: Joint | None, units: Units) -> str:
    """Return how far a mark may move, rounded inwards, where that is a step of the tape or more."""
    if joint is None or joint.chosen is None or joint.earliest is None or joint.latest is None:
        return ""
    if mark.at.value is None or mark.printed is None:
        return ""
    to_mark = mark.at.value - joint.chosen
    step = mark_step(units)
    least = round_to(joint.earliest + to_mark, step, Rounding.UP)
    most = round_to(joint.latest + to_mark, step, Rounding.DOWN)
    if most - least < step:
        return ""
    return say("packet-mark-play", least=show(least, units), most=show(most, units))


def _floor_rows(plan: Plan, wall: str, units: Units) -> list[FloorRow]:
    """Return what goes under each box of the wall: four corners, and any further points by name."""
    names = {item.number: item.name for run in plan.runs for item in run.items}
    boxes: dict[int, list[Shim]] = {}
    for shim in plan.shims:
        if shim.wall == wall:
            boxes.setdefault(shim.box, []).append(shim)
    return [
        FloorRow(
            box=f"{box} {names.get(box, '')}".rstrip(),
            corners=[_at(corner, shims, units) for corner in _CORNERS],
            others=", ".join(
                f"{shim.corner}: {_under(shim, units)}" for shim in shims if shim.corner not in _CORNERS
            ),
        )
        for box, shims in boxes.items()
    ]


def _at(corner: str, shims: list[Shim], units: Units) -> str:
    """Return what goes under one corner, or nothing where the box does not bear there."""
    return next((_under(shim, units) for shim in shims if shim.corner == corner), "")


def _under(shim: Shim, units: Units) -> str:
    """Return what goes under a point: its thickness, ``X 0 HIGH`` at the high spot, ``?`` if not read."""
    if shim.printed is None:
        return UNKNOWN
    if shim.kind == ShimKind.LEDGER:  # nothing goes under it: the wall carries it there
        return say("packet-ledger-short")
    if shim.is_high_spot:
        return say("packet-high-spot-short", under=show(shim.printed, units))
    return show(shim.printed, units)
