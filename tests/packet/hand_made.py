"""A plan and a job made by hand for the packet: two walls, bases and wall boxes, one point that was not read.

The numbers stand as the stages would give them, so that the sheets can be read back; nothing here is computed
by the engine.
"""

from __future__ import annotations

from dataclasses import replace

from tests.tape import inch

from setline.job.floor import Floor, SetUp, SharedMark
from setline.job.job import About, Job
from setline.job.room import Room, Wall, WallLength
from setline.lengths import TICKS_PER_INCH, Length, Units, show
from setline.result import (
    Band,
    BandLimit,
    Edge,
    FallOption,
    Figure,
    Finding,
    FlatnessLine,
    FloorAsFound,
    FloorSpot,
    HighSpot,
    ItemKind,
    ItemPlace,
    Joint,
    LevelLine,
    Mark,
    Plan,
    Rank,
    Remedy,
    RunPlan,
    SetUpLine,
    Shim,
    ShimKind,
    SurfaceGrid,
    WallLine,
)

SIXTEENTH = TICKS_PER_INCH // 16


def length(text: str) -> Length:
    """Return a length as a job keeps it."""
    return Length(inch(text), text)


def make_job(name: str = "Cedar Lane 4", *, paper: str | None = None) -> Job:
    """Return the job that goes with the plan."""
    walls = tuple(Wall(name=letter, lengths=(WallLength(length=length(long)),)) for letter, long in WALLS)
    mark = SharedMark(name="the door head", up=length("30 5/8"))
    return Job(
        format=1,
        job=About(
            name=name,
            tape=Units.INCH,
            paper="a4" if paper == "a4" else None,
            measured_by="R. Osei",
            date="4 May",
            notes=("Key is with the neighbour, number 6.",),
        ),
        room=Room(walls=walls),
        floor=Floor(set_ups=(SetUp(name="S1", marks=(mark,)), SetUp(name="S2"))),
    )


WALLS = (("A", "131 1/4"), ("B", "96 3/4"))
ROWS = {
    "A base": (
        ("filler", 1, "filler", "1 1/4"),
        ("box", 2, "drawers 15", "15"),
        ("opening", 3, "dishwasher", "24 1/8"),
        ("box", 4, "sink 36", "36"),
        ("box", 5, "doors 24", "24"),
        ("filler", 6, "filler", "3"),
        ("box", 7, "blind corner", "27 7/8"),
    ),
    "A wall": (
        ("filler", 11, "filler", "1 5/16"),
        ("box", 12, "wall 30", "30"),
        ("box", 13, "wall 36", "36"),
        ("box", 14, "wall 27", "27"),
        ("box", 15, "corner wall 36", "36 15/16"),
    ),
    "B base": (
        ("filler", 21, "corner filler", "27"),
        ("box", 22, "doors 18", "18"),
        ("opening", 23, "range", "30 1/4"),
        ("box", 24, "drawers 21", "21 1/2"),
    ),
}


def _run(name: str, rows: tuple[tuple[str, int, str, str], ...], *, solved: bool) -> RunPlan:
    """Lay a run's things end to end from the left corner."""
    wall, row = name.split()
    edges = [0]
    for _, _, _, width in rows:
        edges.append(edges[-1] + inch(width))
    items = tuple(
        ItemPlace(
            number=number,
            kind=ItemKind(kind),
            name=what,
            left=left if solved else None,
            right=right if solved else None,
            body_left=left if solved else None,
            body_right=right if solved else None,
            wished=right - left,
            least=right - left,
            most=right - left,
            bottom=inch("-34 1/2") if row == "base" else inch("19 1/2"),
            top=0 if row == "base" else inch("49 1/2"),
            depth=inch(24 if row == "base" else 12),
        )
        for (kind, number, what, _), left, right in zip(rows, edges, edges[1:], strict=False)
    )
    names = [f"{name} {number} left" for _, number, _, _ in rows] + [f"{name} end"]
    numbers = [number for _, number, _, _ in rows]
    joints = tuple(
        Joint(
            name=joint,
            chosen=at if solved else None,
            earliest=max(at - 3 * SIXTEENTH, 0) if solved else None,
            latest=at + 2 * SIXTEENTH if solved else None,
        )
        for joint, at in zip(names, edges, strict=True)
    )
    marks = tuple(
        _mark(joint, at, numbers[place] if place < len(numbers) else None, solved=solved)
        for place, (joint, at) in enumerate(zip(names, edges, strict=True))
    )
    long = edges[-1]
    return RunPlan(
        name=name,
        wall=wall,
        row=row,
        left_end=Figure(value=0),
        right_end=Figure(value=long if solved else long - inch("1/2")),
        solved=solved,
        overrun=None if solved else inch("1/2"),
        items=items,
        joints=joints,
        marks=marks,
    )


def _mark(name: str, at: int, right_of: int | None, *, solved: bool) -> Mark:
    text = show(at, Units.INCH) if solved else "?"
    return Mark(
        name=name,
        at=Figure(
            value=at if solved else None,
            within=SIXTEENTH // 2,
            readings=("A 131 1/4",),
            working=("0 + 1 1/4 = 1 1/4", f"mark at {text}"),
            rule="struck-line-clearance",
        ),
        printed=at if solved else None,
        edge=Edge.JOINT if right_of is None else Edge.BODY,
        of_item=right_of,
        write=f"{text} |{right_of}>" if right_of is not None else f"{text} |",
    )


def _shims(run: RunPlan) -> tuple[Shim, ...]:
    """Return four points a box of a base run; the sink's front right was not read."""
    shims = []
    for item in run.items:
        if item.kind != ItemKind.BOX:
            continue
        for side, u in (("left", item.body_left or 0), ("right", item.body_right or 0)):
            for depth, out in (("back", 0), ("front", inch("20 7/8"))):
                shims.append(_shim(item.number, f"{depth}-{side}", run.wall, u, out))
    return tuple(shims)


def _shim(box: int, corner: str, wall: str, u: int, out: int) -> Shim:
    high = (box, corner) == (2, "back-right")
    unread = (box, corner) == (4, "front-right")
    value = 0 if high else (box % 5) * inch("1/8") + (inch("3/32") if "front" in corner else inch("1/16"))
    stack = tuple(piece for piece in (inch("1/4"), inch("1/8"), inch("1/16")) if piece <= value)[:2]
    return Shim(
        name=f"{box} {corner}",
        box=box,
        corner=corner,
        kind=ShimKind.SHIM,
        wall=wall,
        u=u,
        out=out,
        x=u,
        y=out,
        thickness=Figure(
            value=None if unread else value,
            within=inch("1/32"),
            readings=(f"S1 {wall} {show(u, Units.INCH)} wall: 48 3/16",),
        ),
        printed=None if unread else value,
        stack=() if unread or high else stack,
        over_limit=(box, corner) == (24, "front-right"),
        is_high_spot=high,
    )


def _level_line() -> LevelLine:
    height = Figure(value=inch("-48"), within=inch("1/32"), readings=("S1 A 16 wall: 48",))
    spot = HighSpot(
        point="2 back-right",
        wall="A",
        u=inch("16 1/4"),
        out=0,
        x=inch("16 1/4"),
        y=0,
        height=height,
    )
    level = Figure(
        value=inch("13 1/2"),
        within=inch("1/16"),
        readings=("S1 A 16 wall: 48",),
        rule="base-height",
        working=("high spot 48 down", "48 - 34 1/2 = 13 1/2"),
    )
    strike = replace(level, value=inch("13 3/8"), working=("13 1/2 - 1/8 = 13 3/8",))
    other = replace(level, value=inch("12 5/32"))
    limits = (
        BandLimit(owner="high spot 2 back-right", is_least=True, tops=Figure(value=inch("-13 1/2"))),
        BandLimit(owner="sill of the north window", is_least=False, tops=Figure(value=inch("-12 3/4"))),
    )
    return LevelLine(
        tops=Figure(value=inch("-13 1/2"), within=inch("1/16")),
        clearance=inch("1/8"),
        high_spot=spot,
        set_ups=(
            SetUpLine(
                set_up="S1",
                in_use=True,
                level=level,
                strike=strike,
                printed_level=inch("13 1/2"),
                printed_strike=inch("13 3/8"),
                is_exact=True,
            ),
            SetUpLine(
                set_up="S2",
                in_use=False,
                level=other,
                strike=other,
                printed_level=inch("12 5/32"),
                printed_strike=inch("12 1/32"),
                is_exact=False,
            ),
        ),
        band=Band(
            limits=limits,
            lowest=inch("-13 1/2"),
            highest=inch("-12 3/4"),
            binds_low="high spot 2 back-right",
            binds_high="sill of the north window",
            is_empty=False,
        ),
        options=(
            FallOption(
                what="Trim box 2 and box 24",
                lowered=inch("1/4"),
                greatest_shim=inch("5/8"),
                trims=((2, inch("1/4")), (24, inch("1/8"))),
                hours=1.5,
                days=0.0,
            ),
        ),
    )


def _grid() -> SurfaceGrid:
    """Return a floor that is known all over the room, falling away from the left corner."""
    xs, ys = tuple(range(0, inch(132), inch(12))), tuple(range(0, inch(98), inch(12)))
    heights = tuple(tuple(-inch(48) - (x + y) // 400 for x in xs) for y in ys)
    return SurfaceGrid(xs=xs, ys=ys, heights=heights, within=tuple(tuple(SIXTEENTH for _ in xs) for _ in ys))


def _floor() -> FloorAsFound:
    spots = tuple(
        FloorSpot(
            address=f"S1 {wall} {show(u, Units.INCH)} {line}",
            typed=show(inch("48") + u // 300, Units.INCH),
            wall=wall,
            u=u,
            out=0 if line == "wall" else inch("20 7/8"),
            x=u,
            y=0,
            z=-inch("48") - (u // 300 // SIXTEENTH) * SIXTEENTH,
        )
        for wall, long in (("A", 130), ("B", 96))
        for line in ("wall", "toe")
        for u in range(inch(4), inch(long), inch(12))
    )
    flat = FlatnessLine(
        name="A toe line",
        gap=Figure(value=inch("3/16"), within=inch("1/32")),
        gap_at=inch("62"),
        slope=Figure(value=inch("-5/16")),
        ff=None,
        fl=None,
    )
    return FloorAsFound(
        set_up_in_use="S1",
        spots=spots,
        grid=_grid(),
        flatness=(replace(flat, name="A at the wall", ff=31.2, fl=22.6), flat),
    )


def _findings() -> tuple[Finding, ...]:
    remedies = (
        Remedy(kind="narrower-filler", text="Cut filler 6 to 2 1/2.", amount=inch("1/2"), hours=0.5),
        Remedy(kind="smaller-box", text="Order box 7 as 27.", amount=inch("7/8"), hours=0.5, days=14),
    )
    return (
        Finding(
            code="line-not-lowest",
            rank=Rank.DECIDE,
            where="line",
            text="The dishwasher sets the line, 1/8 above the high spot. All shims grow 1/8.",
            by_how_much=inch("1/8"),
            readings=("S1 A 16 wall: 48", "S1 A 28 wall: 48 1/16"),
            rule="struck-line-clearance",
            remedies=remedies,
        ),
        Finding(
            code="no-reading-near",
            rank=Rank.WATCH,
            where="4 front-right",
            text="No reading within 12 of 4 front-right: it prints as ?.",
        ),
    )


SHORT = Finding(
    code="run-too-short",
    rank=Rank.STOP,
    where="B base",
    text="Wall B is 1/2 short from corner to corner. You have 96 1/4, the pieces need 96 3/4.",
    by_how_much=inch("1/2"),
    remedies=(
        Remedy(kind="smaller-box", text="Order box 24 as 21.", amount=inch("1/2"), hours=0.5, days=10),
    ),
)


def make_plan(name: str = "Cedar Lane 4", *, unsolved: tuple[str, ...] = ()) -> Plan:
    """Return the plan; runs named in ``unsolved`` cannot be solved."""
    runs = tuple(_run(run, rows, solved=run not in unsolved) for run, rows in ROWS.items())
    shims = tuple(shim for run in runs if run.row == "base" for shim in _shims(run))
    walls = (
        WallLine(name="A", x0=0, y0=0, x1=inch("131 1/4"), y1=0, length=inch("131 1/4")),
        WallLine(
            name="B", x0=inch("131 1/4"), y0=0, x1=inch("131 1/4"), y1=inch("96 3/4"), length=inch("96 3/4")
        ),
    )
    line = _level_line()
    named = {mark.name: mark.at for run in runs for mark in run.marks}
    named |= {shim.name: shim.thickness for shim in shims}
    for set_up in line.set_ups:
        named |= {f"{set_up.set_up} line": set_up.level, f"{set_up.set_up} strike": set_up.strike}
    if line.high_spot is not None:
        named["high spot"] = line.high_spot.height
    named |= {f"limit {limit.owner}": limit.tops for limit in line.band.limits}
    named |= {f"{run.name} left end": run.left_end for run in runs}
    return Plan(
        job_name=name,
        units="inch",
        revision="B",
        check_code="7f3a9c",
        walls=walls,
        runs=runs,
        floor=_floor(),
        level_line=line,
        shims=shims,
        findings=((SHORT,) if unsolved else ()) + _findings(),
        named=named,
    )
