"""Rooms that a seed makes up, and the worst that a job may hold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random

from setline.lengths import TICKS_PER_INCH, Units
from setline.result import FloorAsFound, ItemKind, Plan, RunPlan, ShimKind, WallLine, WallOpening
from tests.drawings.sample_plans import (
    Piece,
    Surface,
    box,
    floor_of,
    plan_of,
    run_of,
    sloped,
    thing,
    wall_box,
    walls_of,
)
from tests.tape import inch, mm

_NAMES = (
    "",
    "drawers",
    "sink",
    "pots & pans",
    "Eckunterschrank mit Drehkarussell",
    "trays <narrow>",
    "spice pull-out",
    "Geschirrspülerfront",
    "dishwasher",
    "range",
    "Å",
    "island-side cabinet with two roll-out shelves",
)
_OWNERS = (
    "high spot, 3 back-left",
    "dishwasher 21, least height",
    "range 4, greatest height",
    "legs all the way out, 12 left 3",
    "sill of the window over the sink",
    "ceiling over tall box 31",
    "toe kick, 7 front-right",
    "top of the old counter that stays 40",
    "Unterkante der Fensterbank im Essbereich",
)


@cache
def random_plan(seed: int) -> Plan:
    """Return the plan of a room made up from a seed: one to four walls, any tape, solved runs or not."""
    pick = Random(seed)
    units = Units.METRIC if pick.random() < 0.3 else Units.INCH
    walls = _walls(pick, units)
    numbers = iter(range(1, 1000))
    runs: list[RunPlan] = []
    for wall in walls:
        if pick.random() < 0.85:
            runs.append(_base_run(pick, wall, units, numbers))
        if pick.random() < 0.55:
            runs.append(_wall_run(pick, wall, units, numbers))
    surface = sloped(
        -round(TICKS_PER_INCH * pick.uniform(30, 60)),
        pick.uniform(-0.006, 0.006),
        pick.uniform(-0.006, 0.006),
        [
            (
                round(pick.uniform(0, walls[0].length)),
                inch(20),
                inch(30),
                round(inch(1) * pick.uniform(-0.5, 0.5)),
            )
        ],
    )
    return plan_of(
        pick.choice(("Thistle Lane 8", "7104482", "Fußgängerbrückenweg 1117, Hinterhaus links <3. Stock>")),
        walls,
        tuple(runs),
        surface,
        floor=_floor(pick, walls, surface, units),
        limits=_limits(pick),
        units=units,
        kind=pick.choice((ShimKind.SHIM, ShimKind.LEG)),
        set_ups=("S1",) if pick.random() < 0.6 else ("S1", "S2", "by-the-window"),
    )


def _walls(pick: Random, units: Units) -> tuple[WallLine, ...]:
    count = pick.choice((1, 1, 2, 2, 3, 3, 4))
    step = inch("1/16") if units == Units.INCH else mm(1)
    lengths = [round(pick.uniform(inch(50), inch(240)) / step) * step for _ in range(count)]
    if count == 4:
        lengths[2:] = lengths[:2]
    openings = {}
    for letter, length in zip("ABCD", lengths, strict=False):
        if pick.random() < 0.5:
            left = round(length * pick.uniform(0.1, 0.4))
            width = round(inch(36) * pick.uniform(0.5, 1.0))
            is_read = pick.random() < 0.8
            openings[letter] = (
                WallOpening(
                    kind=pick.choice(("window", "door")),
                    name=pick.choice(("window", "back door", "Terrassentür mit Oberlicht")),
                    left=left if is_read else None,
                    right=left + width if is_read else None,
                    centre=left + width // 2,
                    bottom=-inch(8) if pick.random() < 0.7 else None,
                    top=inch(30) if pick.random() < 0.7 else None,
                ),
            )
    ceiling = inch("45 3/8") if pick.random() < 0.4 else None
    return walls_of(lengths, openings, ceiling)


def _widths(pick: Random, room: int, units: Units) -> Iterator[int]:
    """Yield widths that fill a room: boxes of stock sizes, now and then a strip of 3/8 in."""
    while room > 0:
        if units == Units.INCH:
            width = pick.choice(
                [inch(size) for size in (9, 12, 15, 18, 21, 24, 30, 36)] + [inch("3/8"), inch("1 7/16")]
            )
        else:
            width = mm(pick.choice((150, 300, 400, 450, 500, 600, 800, 900, 10, 38)))
        width = min(width, room)
        room -= width
        yield width


def _base_run(pick: Random, wall: WallLine, units: Units, numbers: Iterator[int]) -> RunPlan:
    pieces: list[Piece] = []
    frameless = {} if units == Units.INCH else {"overhang": 0, "bottom": -mm(820), "depth": mm(560)}
    left = pick.choice((0, 0, inch(25), wall.length // 5))
    for width in _widths(pick, wall.length - left, units):
        number, name = next(numbers), pick.choice(_NAMES)
        if width < inch(3):
            kind = pick.choice((ItemKind.FILLER, ItemKind.FILLER, ItemKind.PANEL))
            pieces.append(thing(kind, number, kind.value, width))
        elif pick.random() < 0.2:
            kind = pick.choice((ItemKind.OPENING, ItemKind.OPENING, ItemKind.EXISTING))
            pieces.append(thing(kind, number, name, width))
        elif pick.random() < 0.12:
            pieces.append(box(number, name, width, **{**frameless, "top": inch(54)}))
        else:
            pieces.append(box(number, name, width, **frameless))
    short = round(inch(1) * pick.uniform(0.05, 9)) if pick.random() < 0.2 else None
    return run_of(wall.name, "base", pieces, left=left, right=wall.length, units=units, short=short)


def _wall_run(pick: Random, wall: WallLine, units: Units, numbers: Iterator[int]) -> RunPlan:
    pieces = []
    for width in _widths(pick, wall.length, units):
        number, name = next(numbers), pick.choice(_NAMES)
        if width < inch(3):
            pieces.append(
                thing(ItemKind.FILLER, number, "filler", width, bottom=inch("19 1/2"), top=inch("49 1/2"))
            )
        else:
            pieces.append(
                wall_box(number, name, width, overhang=0, bottom=pick.choice((inch("19 1/2"), inch(30))))
            )
    short = inch("3/16") if pick.random() < 0.2 else None
    return run_of(wall.name, "wall", pieces, left=0, right=wall.length, units=units, short=short)


def _floor(pick: Random, walls: tuple[WallLine, ...], surface: Surface, units: Units) -> FloorAsFound:
    kept = pick.choice((1.0, 1.0, 0.7, 0.2, 0.0))
    return floor_of(
        walls,
        surface,
        pitch=pick.choice((inch(12), inch(16), inch(24), inch(36))),
        units=units,
        skip=lambda wall, u, out: pick.random() >= kept,
        grid_pitch=inch(9),
        untied=("B",) if pick.random() < 0.2 else (),
    )


def _limits(pick: Random) -> list[tuple[str, bool, int]]:
    limits = [("high spot, 3 back-left", True, 0)]
    for _ in range(pick.choice((0, 2, 5, 9, 25))):
        above = round(inch(1) * pick.choice((pick.uniform(-1, 1), pick.uniform(-8, 8), 0.0)))
        limits.append((pick.choice(_OWNERS), pick.random() < 0.5, above))
    return limits


@cache
def crowded_plan() -> Plan:
    """Return 40 boxes and a strip between each two on a wall of 31' 11 15/16, with long names."""
    length = inch("31' 11 15/16")
    walls = walls_of([length])
    pieces = []
    for number in range(1, 41):
        pieces.append(box(2 * number, "Eckunterschrank mit Drehkarussell", inch(9)))
        if number <= 30:
            pieces.append(thing(ItemKind.FILLER, 2 * number + 1, "filler", inch("3/8")))
    used = sum(piece.width for piece in pieces)
    pieces.append(thing(ItemKind.FILLER, 999, "filler", length - used))
    uppers = [wall_box(100 + number, "Glas", inch(9)) for number in range(40)]
    runs = (
        run_of("A", "base", pieces, left=0, right=length),
        run_of("A", "wall", uppers, left=inch("11 15/16"), right=length),
    )
    surface = sloped(-inch("48 1/8"), 0.004, 0.001)
    floor = floor_of(walls, surface, pitch=inch(6))
    return plan_of("7104482", walls, runs, surface, floor=floor, set_ups=("S1", "S2"))


@cache
def unread_plan() -> Plan:
    """Return a room without one floor reading: every number that rests on the floor is ``?``."""
    walls = walls_of([inch("121 5/8"), inch("97 3/8")])
    pieces = [box(1, "drawers", inch(33)), box(2, "sink", inch(39)), box(3, "", inch("49 5/8"))]
    runs = (run_of("A", "base", pieces, left=0, right=walls[0].length),)
    surface = sloped(-inch(48), 0.0, 0.0)
    floor = floor_of(walls, surface, pitch=inch(12), skip=lambda wall, u, out: True)
    return plan_of("Thistle Lane 8", walls, runs, surface, floor=floor)


@cache
def empty_plan() -> Plan:
    """Return one wall with nothing at it."""
    walls = walls_of([mm(2_400)])
    surface = sloped(-mm(1_200), 0.0, 0.0)
    floor = floor_of(walls, surface, pitch=mm(300), units=Units.METRIC)
    return plan_of("leer", walls, (), surface, floor=floor, units=Units.METRIC)


NASTY = {"crowded": crowded_plan, "unread": unread_plan, "empty": empty_plan}
