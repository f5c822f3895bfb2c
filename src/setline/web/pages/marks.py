"""What to write on a wall: the line, then every mark from START; each ticked once it is struck."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.field_book.places import pointer
from setline.field_book.prints import Prints
from setline.job.job import tape_of
from setline.lengths import Units, show
from setline.result import Change, Mark, Plan, RunPlan, SetUpLine
from setline.stages.changes import edge_said
from setline.stages.recording import agree_all, stray_marks, strike, strike_line, strike_out
from setline.told import WallDiffers, strike_words, tops_words, wall_differs, why_elsewhere
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.printed import OldPaper, old_paper
from setline.web.recorded import keep_changes
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.strike_told import line_is_stopped
from setline.web.strips import Picture, strip_picture
from setline.web.walk.typed import Typed, read_typed
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
Name = Annotated[str, Form(max_length=80)]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkRow:
    """A mark as the page shows it.

    Attributes:
        mark: The mark.
        run: Its run.
        said: What it names, in words.
        number: Its number as text.
        state: ``open``, ``struck``, ``changed`` (the wall says another number), ``stands`` (a box stands
            there) or ``unknown``.
        was: What is on the wall, where that is another number.
        why: Why the plan does not go by that, as a sentence.
        place: Where its being struck is kept.
        over: Ids of what says so now.
    """

    mark: Mark
    run: str
    said: str
    number: str
    state: str
    was: str
    why: str
    place: str
    over: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """The line to strike first.

    Attributes:
        strike: Its number and way, such as ``13 3/8 DOWN``.
        from_laser: The laser line that it is measured from.
        tops: Where the box tops are, as a sentence.
        struck: What is on the wall, or nothing.
        stopped: Whether something stands against setting to it.
    """

    strike: str
    from_laser: str
    tops: str
    struck: str
    stopped: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MarksPage:
    """The marks of a wall.

    Attributes:
        act: The forms' act.
        wall: The wall's letter.
        line: The line, or None where there is none to strike.
        rows: Every mark, base row first, from START.
        stray: Marks on the wall that belong to nothing any more: name and number.
        unsolved: Runs that do not fit, in words; their marks are ``?``.
        differs: Where plan and wall differ.
        may_agree: Whether a yes would write anything.
        revision: The job's revision.
        picture: The wall's strip, or None.
        old: What of the last paper is old, or None.
        wrong: What was typed and not taken: the mark's name and the sentence.
        typed: What that was.
    """

    act: str
    wall: str
    line: LineRow | None
    rows: tuple[MarkRow, ...]
    stray: tuple[tuple[str, str], ...]
    unsolved: str
    differs: tuple[WallDiffers, ...]
    may_agree: bool
    revision: int
    picture: Picture | None
    old: OldPaper | None = None
    wrong: tuple[str, str] = ("", "")
    typed: str = ""


@router.get("/j/{j}/marks/{w}")
def marks(request: Request, standing: JobPage, device: Visitor, w: str) -> Response:
    """Show what to write on a wall."""
    return _show(request, standing, device, w)


@router.post("/j/{j}/marks/{w}/strike")
def strike_one(
    request: Request,
    standing: WriterPage,
    device: Writer,
    w: str,
    act: Act,
    mark: Name,
    at: Annotated[str, Form(max_length=60)] = "",
    out: Annotated[str, Form(max_length=3)] = "",
    then: Annotated[str, Form(max_length=20, pattern=r"^[a-z0-9-]*$")] = "",
) -> Response:
    """Keep that a mark is on the wall, where it was struck; or that it was struck out."""
    found = next((row.mark for row in _rows(standing, _plan(standing), w) if row.mark.name == mark), None)
    changed: tuple[Change, ...]
    if out == "yes":
        changed = strike_out(mark)
    elif found is None or found.printed is None:
        raise HTTPException(404, say("no-such-mark", mark=mark))
    elif at.strip():
        taken = _read(standing, at)
        if taken.ticks is None:
            return _show(request, standing, device, w, wrong=(mark, taken.sentence), typed=at)
        changed = (Change(place=("record", "struck", mark, "at"), value=taken.text),)
    else:
        changed = strike(found, Units(_plan(standing).units))
    keep_changes(site_of(request), standing, device, changed, act=act)
    return RedirectResponse(f"/j/{standing.job_id}/marks/{w}#{then}", status_code=303)


@router.post("/j/{j}/marks/{w}/sheet")
def strike_many(
    request: Request,
    standing: WriterPage,
    device: Writer,
    w: str,
    act: Act,
    shown: Annotated[list[str], Form()] = [],  # noqa: B006 - FastAPI copies it
    struck: Annotated[list[str], Form()] = [],  # noqa: B006
) -> Response:
    """Keep which marks of the whole sheet are on the wall: what is ticked and was not, and the reverse."""
    plan = _plan(standing)
    ticked, known = set(struck), set(shown)
    changed: list[Change] = []
    for row in _rows(standing, plan, w):
        name = row.mark.name
        if name not in known or row.mark.printed is None:
            continue
        if name in ticked and row.state in {"open", "changed"}:
            changed += strike(row.mark, Units(plan.units))
        elif name not in ticked and row.mark.struck is not None and row.state == "struck":
            changed += strike_out(name)
    keep_changes(site_of(request), standing, device, changed, act=act)
    return RedirectResponse(f"/j/{standing.job_id}/marks/{w}?told=marks-kept", status_code=303)


@router.post("/j/{j}/marks/{w}/line")
def strike_the_line(
    request: Request,
    standing: WriterPage,
    device: Writer,
    w: str,
    act: Act,
    down: Annotated[str, Form(max_length=60)] = "",
) -> Response:
    """Keep that the line is on the wall: its own reading down from the laser line."""
    plan = _plan(standing)
    line = _in_use(plan)
    if line is None or line.printed_strike is None or line.printed_strike < 0:
        raise HTTPException(409, say("no-line-to-strike"))
    text = None
    if down.strip():
        taken = _read(standing, down)
        if taken.ticks is None:
            return _show(request, standing, device, w, wrong=("line", taken.sentence), typed=down)
        text = taken.text
    keep_changes(site_of(request), standing, device, strike_line(plan, down=text), act=act)
    return RedirectResponse(f"/j/{standing.job_id}/marks/{w}?told=marks-kept", status_code=303)


# --- what the page shows ----------------------------------------------------------------------------------


def _show(
    request: Request,
    standing: Standing,
    device: Device,
    wall: str,
    *,
    wrong: tuple[str, str] = ("", ""),
    typed: str = "",
) -> Response:
    """Return the page of a wall."""
    plan = standing.plan
    frame = Frame(
        title=say("page-marks", wall=wall),
        device=device,
        standing=standing,
        group=Group.SET,
        scripts=("marks.js",),
        styles=("plan.css", "set.css"),
        look="marks",
    )
    if plan is None or standing.job is None:
        empty = MarksPage(
            act=new_act(), wall=wall, line=None, rows=(), stray=(), unsolved="", differs=(), may_agree=False,
            revision=standing.revision, picture=None,
        )  # fmt: skip
        return render(request, "marks.html", frame, empty)
    runs = [run for run in plan.runs if run.wall == wall]
    if not runs:
        raise HTTPException(404, say("no-run-there", wall=wall))
    units, record = Units(plan.units), standing.job.record
    stray = [each for each in stray_marks(plan, record) if each[0].startswith(f"{wall} ")]
    page = MarksPage(
        act=new_act(),
        wall=wall,
        line=_line(standing, plan),
        rows=tuple(_rows(standing, plan, wall)),
        stray=tuple((name, show(at, units)) for name, at in stray),
        unsolved=", ".join(run.name for run in runs if not run.solved),
        differs=tuple(each for each in wall_differs(plan) if each.wall == wall),
        may_agree=bool(agree_all(plan, record)),
        revision=standing.revision,
        picture=strip_picture(plan, wall),
        old=old_paper(plan, Prints(site_of(request).store.database).latest(standing.job_id)),
        wrong=wrong,
        typed=typed,
    )
    return render(request, "marks.html", frame, page, status=422 if wrong[0] else 200)


def _plan(standing: Standing) -> Plan:
    """Return the plan, or refuse where there is none."""
    if standing.plan is None:
        raise HTTPException(409, say("no-plan-yet"))
    return standing.plan


def _read(standing: Standing, text: str) -> Typed:
    """Return what was typed."""
    assert standing.job is not None, "a planned job is whole"
    taken = read_typed(text, tape_of(standing.job))
    return Typed(text=text, sentence=say("walk-nothing-typed")) if taken.skip else taken


def _in_use(plan: Plan) -> SetUpLine | None:
    """Return the line from the laser in use."""
    return next((line for line in plan.level_line.set_ups if line.in_use), None)


def _line(standing: Standing, plan: Plan) -> LineRow | None:
    """Return the line as it is struck, or None where there is none."""
    line = _in_use(plan)
    if line is None or line.printed_strike is None:
        return None
    assert standing.job is not None, "a planned job is whole"
    units = Units(plan.units)
    struck = standing.job.record.struck_lines[:1]
    return LineRow(
        strike=" ".join(strike_words(line, units)),
        from_laser=line.set_up,
        tops=tops_words(line, plan.level_line.clearance, units),
        struck=say("line-is-struck", line=struck[0].name, at=struck[0].down.typed) if struck else "",
        stopped=line_is_stopped(plan),
    )


def _rows(standing: Standing, plan: Plan, wall: str) -> Iterator[MarkRow]:
    """Yield the marks of a wall, base row first, each from START."""
    units, live = Units(plan.units), standing.live
    runs = [run for run in plan.runs if run.wall == wall]
    for run in sorted(runs, key=lambda each: each.row):
        for place, mark in enumerate(run.marks):
            state = _state(run, place)
            where = pointer(("record", "struck", mark.name, "at"))
            is_other = state == "changed" and mark.struck is not None
            yield MarkRow(
                mark=mark,
                run=run.name,
                said=edge_said(run, place),
                number="?" if mark.printed is None else show(mark.printed, units),
                state=state,
                was=show(mark.struck, units) if is_other and mark.struck is not None else "",
                why=why_elsewhere(run, place, units) if is_other else "",
                place=where,
                over=tuple(entry.id for entry in live.get(where, ())),
            )


def _state(run: RunPlan, place: int) -> str:
    """Return how far a mark is."""
    mark: Any = run.marks[place]
    beside = (*run.items[max(0, place - 1) : place], *run.items[place : place + 1])
    if any(item.is_set for item in beside):
        return "stands"
    if mark.printed is None:
        return "unknown"
    if mark.struck is None:
        return "open"
    return "struck" if mark.struck == mark.printed else "changed"
