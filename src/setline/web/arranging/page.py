"""The run editor's page: everything that it shows of a wall."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fastapi import HTTPException, Request
from fastapi.responses import Response

from setline.job.document import rows, section
from setline.lengths import Units, show
from setline.result import Plan, Rank
from setline.told import wall_differs
from setline.web.arranging.edits import named_runs
from setline.web.arranging.gaps import Gap, gaps_of
from setline.web.arranging.pin_form import EDGES, PinForm, pin_form
from setline.web.arranging.view import Chosen, Loose, RunList, chosen_item, loose_items, run_lists
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.strips import Picture, strip_picture
from setline.web.walk.typed import Choice
from setline.web.ways import Told, told
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["ASKS", "EndForm", "RunEditorPage", "Start", "Wrong", "page_of", "shown", "walls_in"]

ASKS = frozenset({"put", "swap", "width", *(f"pin-{edge}" for edge in EDGES)})
"""What the page may ask about the item chosen."""

_GIVES = frozenset({"nothing-gives", "wish-missed"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """What was sent and not taken.

    Attributes:
        sentence: What was wrong.
        choices: What a text could mean, to be pressed.
        form: What was sent, field by field.
    """

    sentence: str
    choices: tuple[Choice, ...] = ()
    form: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A row that has no run yet, and what could stand in it."""

    row: str
    loose: tuple[Loose, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndForm:
    """How one end of a run is closed, as it stands."""

    run: str
    side: str
    kind: str
    at: str
    corner: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RunEditorPage:
    """The run editor.

    Attributes:
        act: The forms' act.
        wall: The wall's letter.
        length: Its length as text.
        walls: Every wall, to go to the next.
        picture: The strip, or None while there is no plan.
        runs: Its runs as lists.
        chosen: The item that is chosen.
        ask: What is asked about it: ``put``, ``swap``, ``width``, ``pin-left`` ...
        gaps: The places it could be put at.
        pin: The form that pins it.
        conflicts: Stops of this wall's runs.
        gives: What is to be known of what can give.
        loose: What stands in no run and could stand here.
        starts: Rows without a run.
        ends: The ends of its runs.
        bottoms: Height of each wall run's underside over the level line, as typed.
        differs: Where marks on the wall say other numbers than the plan.
        wrong: What was sent and not taken.
        faults: Why there is no plan.
    """

    act: str
    wall: str
    length: str
    walls: tuple[str, ...]
    picture: Picture | None
    runs: tuple[RunList, ...]
    chosen: Chosen | None
    ask: str
    gaps: tuple[Gap, ...]
    pin: PinForm | None
    conflicts: tuple[Told, ...]
    gives: tuple[str, ...]
    loose: tuple[Loose, ...]
    starts: tuple[Start, ...]
    ends: tuple[EndForm, ...]
    bottoms: Mapping[str, str]
    differs: str
    wrong: Wrong | None
    faults: tuple[str, ...]


def page_of(
    standing: Standing,
    wall: str,
    *,
    name: str = "",
    number: int = 0,
    ask: str = "",
    wrong: Wrong | None = None,
) -> RunEditorPage:
    """Return the page of a wall, with an item chosen.

    Args:
        standing: The job.
        wall: The wall's letter.
        name: The run that was chosen, or nothing.
        number: The item that was chosen, or 0.
        ask: What is asked about it, one of ``ASKS``, or nothing.
        wrong: What was sent and not taken.

    Raises:
        HTTPException: The job has no such wall.
    """
    document, plan = standing.folded.document, standing.plan
    walls = walls_in(document)
    if wall not in walls:
        raise HTTPException(404, say("no-such-wall", wall=wall[:20]))
    runs = () if plan is None else run_lists(standing, plan, wall)
    chosen = None if plan is None else chosen_item(standing, runs, plan, name, number)
    ask = ask if chosen is not None and ask in ASKS else ""
    gaps = _gaps(standing, chosen) if ask == "put" else ()
    address = f"/j/{standing.job_id}/run/{wall}"
    length = None if plan is None else next(line.length for line in plan.walls if line.name == wall)
    loose = loose_items(document)
    rows = {run.row for run in runs}
    return RunEditorPage(
        act=new_act(),
        wall=wall,
        length="?" if length is None or plan is None else show(length, Units(plan.units)),
        walls=walls,
        picture=None
        if plan is None or not runs
        else strip_picture(
            plan,
            wall,
            address=address,
            chosen=None if chosen is None else (name, chosen.item.number),
            places={(name, gap.between): gap.label for gap in gaps},
        ),
        runs=runs,
        chosen=chosen,
        ask=ask,
        gaps=gaps,
        pin=_pin(plan, wall, chosen, ask),
        conflicts=_conflicts(standing, runs),
        gives=_gives(plan, runs),
        loose=tuple(each for each in loose if rows.intersection(each.rows)),
        starts=tuple(
            Start(row=row, loose=tuple(each for each in loose if row in each.rows))
            for row in ("base", "wall")
            if row not in rows
        ),
        ends=_ends(document, wall),
        bottoms=_bottoms(document, wall),
        differs=_differs(plan, wall),
        wrong=wrong,
        faults=_faults(standing),
    )


def shown(
    request: Request, standing: Standing, device: Device, page: RunEditorPage, *, status: int = 200
) -> Response:
    """Return the page."""
    frame = Frame(
        title=say("page-run", wall=page.wall),
        device=device,
        standing=standing,
        group=Group.PLAN,
        scripts=("run-editor.js",),
        styles=("plan.css", "run-editor.css"),
    )
    return render(request, "run_editor.html", frame, page, status=status)


def walls_in(document: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the letters of the walls, whole job or not."""
    return tuple(str(wall.get("name", "")) for _, wall in rows(section(document, "room"), "walls"))


def _gaps(standing: Standing, chosen: Chosen | None) -> tuple[Gap, ...]:
    """Return the places that the chosen item could be put at."""
    if chosen is None or standing.job is None or standing.book is None or standing.plan is None:
        return ()
    return gaps_of(standing.job, standing.book, standing.plan, chosen)


def _pin(plan: Plan | None, wall: str, chosen: Chosen | None, ask: str) -> PinForm | None:
    """Return the form that pins an edge, where that is asked."""
    edge = ask.removeprefix("pin-")
    if plan is None or chosen is None or edge not in EDGES:
        return None
    return pin_form(plan, wall, chosen, edge)


def _conflicts(standing: Standing, runs: tuple[RunList, ...]) -> tuple[Told, ...]:
    """Return the stops of a wall's runs."""
    names = {run.name for run in runs}
    findings = () if standing.plan is None else standing.plan.findings
    return tuple(
        told(standing, found) for found in findings if found.rank is Rank.STOP and found.where in names
    )


def _gives(plan: Plan | None, runs: tuple[RunList, ...]) -> tuple[str, ...]:
    """Return the sentences about what cannot give, and which wishes are missed."""
    names = {run.name for run in runs}
    findings = () if plan is None else plan.findings
    return tuple(found.text for found in findings if found.code in _GIVES and found.where in names)


def _ends(document: Mapping[str, Any], wall: str) -> tuple[EndForm, ...]:
    """Return how the ends of a wall's runs are closed."""
    found: list[EndForm] = []
    for name, run in named_runs(document):
        if run.get("wall") != wall:
            continue
        for side in ("left", "right"):
            end = run.get(side)
            end = end if isinstance(end, dict) else {}
            kind, at, corner = (str(end.get(key, "")) for key in ("kind", "at", "run"))
            found.append(EndForm(run=name, side=side, kind=kind or "wall", at=at, corner=corner))
    return tuple(found)


def _bottoms(document: Mapping[str, Any], wall: str) -> dict[str, str]:
    """Return the height of each wall run's underside, as typed; empty where the rule sets it."""
    found = {}
    for name, run in named_runs(document):
        if run.get("wall") == wall and run.get("row") == "wall":
            height = run.get("bottom")
            found[name] = str(height.get("up", "")) if isinstance(height, dict) else ""
    return found


def _differs(plan: Plan | None, wall: str) -> str:
    """Return where marks on the wall say other numbers than the plan, as a sentence."""
    found = () if plan is None else wall_differs(plan)
    return next((each.text for each in found if each.wall == wall), "")


def _faults(standing: Standing) -> tuple[str, ...]:
    """Return why there is no plan."""
    faults = tuple(map(str, standing.folded.faults)) if standing.job is None else ()
    return faults if standing.trouble is None else (*faults, standing.trouble)
