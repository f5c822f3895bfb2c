"""Plans made directly, without a job: two samples, and rooms that a seed makes up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from setline.lengths import (
    Rounding,
    Units,
    fine_step,
    mark_step,
    round_to,
    shim_step,
    show,
)
from setline.result import (
    Band,
    BandLimit,
    Edge,
    Figure,
    FloorAsFound,
    FloorSpot,
    HighSpot,
    ItemKind,
    ItemPlace,
    Joint,
    LevelLine,
    Mark,
    Plan,
    RunPlan,
    SetUpLine,
    Shim,
    ShimKind,
    SurfaceGrid,
    WallLine,
    WallOpening,
)
from tests.tape import inch, mm

Surface = Callable[[int, int], int]
"""Height of the floor (z) at a place in the room."""


@dataclass(frozen=True)
class Piece:
    """A thing to stand in a run."""

    kind: ItemKind
    number: int
    name: str
    width: int
    overhang: int = 0
    bottom: int = -inch("34 1/2")
    top: int = 0
    depth: int = inch(24)


def box(number: int, name: str, width: int, **more: int) -> Piece:
    """Return a base box, framed unless told."""
    return Piece(ItemKind.BOX, number, name, width, **{"overhang": inch("1/4"), **more})


def wall_box(number: int, name: str, width: int, **more: int) -> Piece:
    """Return a wall box."""
    usual = {"overhang": inch("1/4"), "bottom": inch("19 1/2"), "top": inch("49 1/2"), "depth": inch(12)}
    return Piece(ItemKind.BOX, number, name, width, **{**usual, **more})


def thing(kind: ItemKind, number: int, name: str, width: int, **more: int) -> Piece:
    """Return an opening, a filler, a panel or a thing that stands already."""
    return Piece(kind, number, name, width, **more)


def run_of(
    wall: str,
    row: str,
    pieces: Sequence[Piece],
    *,
    left: int,
    right: int,
    units: Units = Units.INCH,
    short: int | None = None,
) -> RunPlan:
    """Return a run of pieces from its left end on; ``short`` makes it one that cannot be solved."""
    places = [left]
    for piece in pieces:
        places.append(places[-1] + piece.width)
    solved = short is None
    name = f"{wall} {row}"
    return RunPlan(
        name=name,
        wall=wall,
        row=row,
        left_end=Figure(value=left),
        right_end=Figure(value=right),
        solved=solved,
        overrun=short,
        items=tuple(_item(piece, place, solved) for piece, place in zip(pieces, places, strict=False)),
        joints=tuple(_joint(name, pieces, index, places, solved) for index in range(len(places))),
        marks=tuple(_mark(name, pieces, index, places, solved, units) for index in range(len(places))),
    )


def _item(piece: Piece, left: int, solved: bool) -> ItemPlace:
    right = left + piece.width
    return ItemPlace(
        number=piece.number,
        kind=piece.kind,
        name=piece.name,
        left=left if solved else None,
        right=right if solved else None,
        body_left=left + piece.overhang if solved else None,
        body_right=right - piece.overhang if solved else None,
        wished=piece.width,
        least=piece.width,
        most=piece.width,
        bottom=piece.bottom,
        top=piece.top,
        depth=piece.depth,
    )


def _mark_name(name: str, pieces: Sequence[Piece], index: int) -> str:
    return f"{name} end" if index == len(pieces) else f"{name} {pieces[index].number} left"


def _joint(name: str, pieces: Sequence[Piece], index: int, places: list[int], solved: bool) -> Joint:
    at = places[index] if solved else None
    return Joint(name=_mark_name(name, pieces, index), chosen=at, earliest=at, latest=at)


def _mark(
    name: str, pieces: Sequence[Piece], index: int, places: list[int], solved: bool, units: Units
) -> Mark:
    """Return a joint's mark: at the joint between two boxes or away from any, else at a body edge."""
    before = pieces[index - 1] if index else None
    after = pieces[index] if index < len(pieces) else None
    at, of_item, edge = places[index], None, Edge.JOINT
    boxes = [piece for piece in (before, after) if piece and piece.kind == ItemKind.BOX]
    if len(boxes) == 1:
        edge, of_item = Edge.BODY, boxes[0].number
        at += boxes[0].overhang if boxes[0] is after else -boxes[0].overhang
    printed = round_to(at, mark_step(units), Rounding.NEAREST_UP) if solved else None
    text = "?" if printed is None else show(printed, units)
    sign = "|" if of_item is None else f"|{of_item}>" if boxes[0] is after else f"<{of_item}|"
    return Mark(
        name=_mark_name(name, pieces, index),
        at=Figure(value=at if solved else None),
        printed=printed,
        edge=edge,
        of_item=of_item,
        write=f"{text} {sign}",
    )


def walls_of(
    lengths: Sequence[int],
    openings: dict[str, tuple[WallOpening, ...]] | None = None,
    ceiling: int | None = None,
) -> tuple[WallLine, ...]:
    """Return walls round inside corners, A along x."""
    x, y, dx, dy = 0, 0, 1, 0
    walls = []
    for index, length in enumerate(lengths):
        letter = "ABCDEFGH"[index]
        x1, y1 = x + dx * length, y + dy * length
        overhead = (
            () if ceiling is None else ((inch(10), ceiling), (length - inch(10), ceiling - inch("3/8")))
        )
        walls.append(
            WallLine(
                name=letter,
                x0=x,
                y0=y,
                x1=x1,
                y1=y1,
                length=length,
                openings=(openings or {}).get(letter, ()),
                ceiling=overhead,
            )
        )
        x, y, dx, dy = x1, y1, -dy, dx
    return tuple(walls)


def in_room(wall: WallLine, u: int, out: int) -> tuple[int, int]:
    """Return the room's x, y of a spot along a wall that runs square to the axes."""
    dx, dy = (wall.x1 - wall.x0) // wall.length, (wall.y1 - wall.y0) // wall.length
    return wall.x0 + dx * u - dy * out, wall.y0 + dy * u + dx * out


def floor_of(
    walls: Sequence[WallLine],
    surface: Surface,
    *,
    pitch: int,
    units: Units = Units.INCH,
    skip: Callable[[str, int, int], bool] = lambda wall, u, out: False,
    grid_pitch: int = inch(6),
    untied: tuple[str, ...] = (),
) -> FloorAsFound:
    """Return a floor read at the wall and at the toe line of every wall, at a pitch."""
    step = mark_step(units)
    spots = []
    for wall in walls:
        set_up = "S1" if wall.name not in ("C", "D") else "S2"
        for line, out in (("wall", 0), ("toe", inch("20 7/8"))):
            for u in range(inch(2), wall.length - inch(1), pitch):
                x, y = in_room(wall, u, out)
                if skip(wall.name, u, out):
                    continue
                z = round_to(surface(x, y), step, Rounding.NEAREST_UP)
                spots.append(
                    FloorSpot(
                        address=f"{set_up} {wall.name} {show(u, units)} {line}",
                        typed=show(-z, units),
                        wall=wall.name,
                        u=u,
                        out=out,
                        x=x,
                        y=y,
                        z=None if wall.name in untied else z,
                    )
                )
    return FloorAsFound(
        set_up_in_use="S1",
        spots=tuple(spots),
        grid=_grid(walls, surface, spots, grid_pitch),
        flatness=(),
    )


def _grid(
    walls: Sequence[WallLine], surface: Surface, spots: Sequence[FloorSpot], pitch: int
) -> SurfaceGrid | None:
    """Return the floor on a grid over the room, known within 18 in of a reading."""
    if not spots:
        return None
    xs = [value for wall in walls for value in (wall.x0, wall.x1)] + [spot.x for spot in spots]
    ys = [value for wall in walls for value in (wall.y0, wall.y1)] + [spot.y for spot in spots]
    columns = tuple(range(min(xs), max(xs) + pitch, pitch))
    rows = tuple(range(min(ys), max(ys) + pitch, pitch))
    reach = inch(18) ** 2

    def known(x: int, y: int) -> bool:
        return any((spot.x - x) ** 2 + (spot.y - y) ** 2 <= reach for spot in spots)

    heights = tuple(tuple(surface(x, y) if known(x, y) else None for x in columns) for y in rows)
    return SurfaceGrid(
        xs=columns,
        ys=rows,
        heights=heights,
        within=tuple(tuple(None if z is None else inch("1/32") for z in row) for row in heights),
    )


def shims_of(
    walls: Sequence[WallLine],
    runs: Sequence[RunPlan],
    surface: Surface,
    *,
    floor: FloorAsFound,
    units: Units = Units.INCH,
    kind: ShimKind = ShimKind.SHIM,
    limit: int = inch("3/4"),
) -> tuple[int, HighSpot | None, tuple[Shim, ...]]:
    """Return the tops, the high spot and a shim at the four corners of every box that stands."""
    by_name = {wall.name: wall for wall in walls}
    points: list[tuple[ItemPlace, str, WallLine, int, int, int | None]] = []
    for run in runs:
        for item in run.items:
            if run.row != "base" or item.kind != ItemKind.BOX or item.body_left is None:
                continue
            assert item.body_right is not None
            wall = by_name[run.wall]
            for out, back in ((0, "back"), (inch("20 7/8"), "front")):
                for u, side in ((item.body_left, "left"), (item.body_right, "right")):
                    x, y = in_room(wall, u, out)
                    near = any(
                        spot.z is not None and (spot.x - x) ** 2 + (spot.y - y) ** 2 <= inch(12) ** 2
                        for spot in floor.spots
                    )
                    height = round_to(surface(x, y), shim_step(units), Rounding.NEAREST_UP)
                    points.append((item, f"{back}-{side}", wall, u, out, height if near else None))
    known = [point for point in points if point[5] is not None]
    if not known:
        return -inch("13 1/2"), None, ()
    high = max(known, key=lambda point: point[5] or -(10**9))
    base = -high[0].bottom
    top = (high[5] or 0) + base
    shims = tuple(_shim(point, top - base, high, units, kind, limit) for point in points)
    x, y = in_room(high[2], high[3], high[4])
    spot = HighSpot(
        point=f"{high[0].number} {high[1]}",
        wall=high[2].name,
        u=high[3],
        out=high[4],
        x=x,
        y=y,
        height=Figure(value=high[5]),
    )
    return top, spot, shims


def _shim(
    point: tuple[ItemPlace, str, WallLine, int, int, int | None],
    underside: int,
    high: tuple[ItemPlace, str, WallLine, int, int, int | None],
    units: Units,
    kind: ShimKind,
    limit: int,
) -> Shim:
    item, corner, wall, u, out, height = point
    x, y = in_room(wall, u, out)
    thickness = None if height is None else underside - height + (mm(100) if kind == ShimKind.LEG else 0)
    printed = None if thickness is None else round_to(thickness, shim_step(units), Rounding.NEAREST_UP)
    stack = () if kind == ShimKind.LEG or not printed else (printed,)
    return Shim(
        name=f"{item.number} {corner}",
        box=item.number,
        corner=corner,
        kind=kind,
        wall=wall.name,
        u=u,
        out=out,
        x=x,
        y=y,
        thickness=Figure(value=thickness),
        printed=printed,
        stack=stack,
        over_limit=kind == ShimKind.SHIM and thickness is not None and thickness > limit,
        is_high_spot=point is high,
    )


def level_line_of(
    tops: int,
    high: HighSpot | None,
    limits: Sequence[tuple[str, bool, int]],
    *,
    units: Units = Units.INCH,
    set_ups: tuple[str, ...] = ("S1",),
) -> LevelLine:
    """Return the level line at these tops; limits are owner, is least, and height above the tops."""
    clearance = inch("1/8") if units == Units.INCH else mm(3)
    lines = []
    for index, name in enumerate(set_ups):
        offset = 0 if index == 0 else inch("2 5/16")
        level = -tops + offset
        step = mark_step(units) if index == 0 else fine_step(units)
        printed = round_to(level, step, Rounding.DOWN)
        lines.append(
            SetUpLine(
                set_up=name,
                in_use=index == 0,
                level=Figure(value=level),
                strike=Figure(value=level - clearance),
                printed_level=printed,
                printed_strike=printed - clearance,
                is_exact=index == 0,
            )
        )
    made = tuple(
        BandLimit(owner=owner, is_least=is_least, tops=Figure(value=tops + above))
        for owner, is_least, above in limits
    )
    least = max((limit for limit in made if limit.is_least), key=lambda limit: limit.tops.value or 0)
    most = [limit for limit in made if not limit.is_least]
    top = min(most, key=lambda limit: limit.tops.value or 0) if most else None
    low, high_end = least.tops.value or 0, top.tops.value if top else None
    return LevelLine(
        tops=Figure(value=tops),
        clearance=clearance,
        high_spot=high,
        set_ups=tuple(lines),
        band=Band(
            limits=made,
            lowest=low,
            highest=high_end,
            binds_low=least.owner,
            binds_high=top.owner if top else None,
            is_empty=high_end is not None and high_end < low,
        ),
        options=(),
    )


def plan_of(
    name: str,
    walls: tuple[WallLine, ...],
    runs: tuple[RunPlan, ...],
    surface: Surface,
    *,
    floor: FloorAsFound,
    limits: Sequence[tuple[str, bool, int]] = (("high spot", True, 0),),
    units: Units = Units.INCH,
    kind: ShimKind = ShimKind.SHIM,
    set_ups: tuple[str, ...] = ("S1",),
) -> Plan:
    """Return a plan that holds what drawings need."""
    tops, high, shims = shims_of(walls, runs, surface, floor=floor, units=units, kind=kind)
    return Plan(
        job_name=name,
        units=units.value,
        revision="B",
        check_code="4c07fe",
        walls=walls,
        runs=runs,
        floor=floor,
        level_line=level_line_of(tops, high, limits, units=units, set_ups=set_ups),
        shims=shims,
        findings=(),
    )


def sloped(at: int, fall_x: float, fall_y: float, bumps: Sequence[tuple[int, int, int, int]] = ()) -> Surface:
    """Return a floor that falls along x and y, with round bumps (x, y, reach, height)."""

    def height(x: int, y: int) -> int:
        z = at - fall_x * x - fall_y * y
        for bump_x, bump_y, reach, rise in bumps:
            away = ((x - bump_x) ** 2 + (y - bump_y) ** 2) / reach**2
            z += rise * max(0.0, 1.0 - away) ** 2
        return round(z)

    return height


_B, _O, _F, _P, _E = (
    ItemKind.BOX,
    ItemKind.OPENING,
    ItemKind.FILLER,
    ItemKind.PANEL,
    ItemKind.EXISTING,
)


def inch_sample() -> Plan:
    """Return a kitchen of three walls on an inch tape: boxes on shims, a floor that falls, one run short."""
    a, b, c = inch("151 7/8"), inch("127 3/16"), inch("96 3/8")
    window = WallOpening(
        kind="window",
        name="window",
        left=inch("55 1/4"),
        right=inch("93 3/4"),
        centre=inch("74 1/2"),
        bottom=inch("-5 3/8"),
        top=inch(34),
    )
    door = WallOpening(
        kind="door", name="back door", left=inch("62 1/2"), right=inch("92 1/2"), centre=inch("77 1/2")
    )
    walls = walls_of([a, b, c], {"A": (window,), "C": (door,)}, ceiling=inch("47 1/2"))
    base_a = [
        thing(_F, 1, "scribe filler", inch("1 5/16")),
        box(2, "drawers", inch(21)),
        box(3, "trays", inch(9)),
        box(4, "drawers", inch(24)),
        box(5, "sink", inch(36)),
        thing(_O, 6, "dishwasher", inch("24 1/8")),
        box(7, "corner", inch(33)),
        thing(_F, 8, "filler", inch("3 7/16")),
    ]
    wall_a = [
        thing(_F, 9, "scribe filler", inch("1 5/16"), bottom=inch("19 1/2"), top=inch("49 1/2")),
        wall_box(10, "", inch(30)),
        wall_box(11, "open shelves", inch(21)),
        thing(_O, 12, "window", inch("43 1/4"), bottom=inch("19 1/2"), top=inch("49 1/2")),
        wall_box(13, "dishes", inch(27)),
        wall_box(14, "corner", inch("26 7/8")),
        thing(_F, 15, "filler", inch("2 7/16"), bottom=inch("19 1/2"), top=inch("49 1/2")),
    ]
    base_b = [
        box(16, "pots", inch(18)),
        thing(_O, 17, "range", inch(30)),
        box(18, "spices", inch(12)),
        box(19, "drawers", inch(30)),
        thing(_F, 20, "filler", inch("1 1/2")),
    ]
    wall_b = [
        wall_box(21, "", inch(18)),
        wall_box(22, "over range", inch(30), bottom=inch("31 1/2")),
        wall_box(23, "", inch(12)),
        wall_box(24, "glasses", inch(30)),
    ]
    tall = {"top": inch("55 1/2"), "bottom": -inch("34 1/2")}
    base_c = [
        thing(_P, 25, "panel", inch("3/4"), **tall, depth=inch(27)),
        thing(_O, 26, "refrigerator", inch("36 1/4"), top=inch(37), depth=inch(29)),
        box(27, "pantry", inch(24), **tall),
    ]
    runs = (
        run_of("A", "base", base_a, left=0, right=a),
        run_of("A", "wall", wall_a, left=0, right=a),
        run_of("B", "base", base_b, left=inch("25 1/2"), right=b, short=inch("9/16")),
        run_of("B", "wall", wall_b, left=inch("14 1/4"), right=b - inch("6 1/2")),
        run_of("C", "base", base_c, left=0, right=inch("61")),
    )
    surface = sloped(
        -inch("48 1/8"),
        0.0044,
        0.0021,
        [(inch(52), inch(4), inch(30), inch("3/16")), (inch(140), inch(70), inch(30), -inch("1/4"))],
    )
    floor = floor_of(walls, surface, pitch=inch(12), skip=lambda wall, u, out: wall == "B" and u > inch(95))
    limits = (
        ("high spot, 4 back-right", True, 0),
        ("dishwasher 6, least height", True, -inch("5/32")),
        ("range 17, greatest height", False, inch("3/8")),
        ("sill of the window on A", False, inch("4 1/4")),
        ("tall 27 under the low ceiling", False, inch("1 7/16")),
        ("toe kick left to cut", True, -inch("1 1/8")),
    )
    return plan_of("Thistle Lane 8", walls, runs, surface, floor=floor, limits=limits, set_ups=("S1", "S2"))


def metric_sample() -> Plan:
    """Return a galley on a metric tape: frameless boxes on legs."""
    a, b = mm(3_870), mm(3_240)
    walls = walls_of([a, mm(2_310), b])
    base = {"overhang": 0, "bottom": -mm(820), "top": 0, "depth": mm(560)}
    high = {"overhang": 0, "bottom": mm(560), "top": mm(1_280), "depth": mm(330)}
    base_a = [
        thing(_F, 1, "Passleiste", mm(38), bottom=-mm(820)),
        box(2, "Auszug", mm(600), **base),
        box(3, "Spüle", mm(800), **base),
        thing(_O, 4, "dishwasher", mm(605), bottom=-mm(820)),
        box(5, "Flaschen", mm(300), **base),
        thing(_O, 6, "range", mm(602), bottom=-mm(820)),
        box(7, "Auszug", mm(900), **base),
        thing(_F, 8, "Passleiste", mm(25), bottom=-mm(820)),
    ]
    wall_a = [
        thing(_F, 9, "Passleiste", mm(38), bottom=mm(560), top=mm(1_280)),
        wall_box(10, "Gläser", mm(600), **high),
        wall_box(11, "Teller", mm(800), **high),
        wall_box(12, "", mm(905), **high),
        thing(_O, 13, "hood", mm(602), bottom=mm(650), top=mm(1_280)),
        wall_box(14, "", mm(900), **high),
    ]
    tall = {**base, "top": mm(1_380)}
    base_c = [
        box(15, "Vorrat", mm(600), **tall),
        thing(_O, 16, "refrigerator", mm(610), bottom=-mm(820), top=mm(1_100)),
        box(17, "Ofen", mm(600), **tall),
        box(18, "Auszug", mm(1_000), **base),
        thing(_F, 19, "Passleiste", mm(30), bottom=-mm(820)),
    ]
    runs = (
        run_of("A", "base", base_a, left=0, right=a, units=Units.METRIC),
        run_of("A", "wall", wall_a, left=0, right=mm(3_850), units=Units.METRIC),
        run_of("C", "base", base_c, left=mm(200), right=b, units=Units.METRIC),
    )
    surface = sloped(-mm(1_231), 0.0031, -0.0012, [(mm(2_100), mm(300), mm(700), mm(5))])
    floor = floor_of(
        walls, surface, pitch=mm(400), units=Units.METRIC, grid_pitch=mm(150), skip=lambda w, u, o: w == "B"
    )
    limits = (
        ("high spot, 5 back-left", True, 0),
        ("dishwasher 4, least height", True, -mm(2)),
        ("legs at their longest", False, mm(21)),
    )
    return plan_of(
        "Mühlenweg 12 <Hof & Garten>",
        walls,
        runs,
        surface,
        floor=floor,
        limits=limits,
        units=Units.METRIC,
        kind=ShimKind.LEG,
    )
