"""The spots of every group but the floor: outline, ceiling, plumb, windows, more lengths, boxes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from setline.field_book.places import pointer
from setline.lengths import Rounding, round_to, show
from setline.web.walk.context import WalkContext
from setline.web.walk.spots import Kind, Spot, WalkGroup, live_under, spot_at, ticks_or_none
from setline.wording import say

__all__ = [
    "box_spots",
    "ceiling_spots",
    "height_spots",
    "height_words",
    "outline_spots",
    "plumb_spots",
    "window_spots",
]

LINE = "line"
_HEIGHTS = (("4", "100"), ("34", "860"), ("54", "1370"), ("84", "2130"))
"""Heights above the subfloor where walls are read, for an inch and for a metric tape."""
_PLUMB_LOW = 2  # of a wall without wall boxes or talls only so many heights are asked


def outline_spots(context: WalkContext) -> list[Spot]:
    """Return one length a wall: at the height of the line, from corner to corner."""
    return [
        _placed(context, _length(context, wall, LINE, "wall", WalkGroup.OUTLINE)) for wall in context.walls
    ]


def height_spots(context: WalkContext) -> list[Spot]:
    """Return the other lengths of a wall with boxes: at the floor, higher up, and out at the faces."""
    found: list[Spot] = []
    for wall in _walls_with_runs(context):
        heights = [f"up {context.by_tape(*each)} from subfloor" for each in (_HEIGHTS[0], _HEIGHTS[2])]
        for height, at in ((heights[0], "wall"), (heights[1], "wall"), (LINE, "face")):
            found.append(_placed(context, _length(context, wall, height, at, WalkGroup.HEIGHTS)))
    return found


def _length(context: WalkContext, wall: str, height: str, at: str, group: WalkGroup) -> Spot:
    """Return one length of a wall."""
    where = say("walk-length-faces") if at == "face" else height_words(height)
    return Spot(
        key=f"{group} {wall} {at} {height}",
        group=group,
        kind=Kind.LENGTH,
        wall=wall,
        words=say("walk-length-words", wall=wall, where=where),
        stand=say("walk-length-stand", wall=wall, where=where),
        hold=say("walk-length-hold"),
        read=say("walk-length-read"),
        say=say("walk-length-say", wall=wall, where=where),
        place=pointer(("room", "walls", wall, "lengths", at, height, "1")),
        line=f"length {wall}",
        along=_height_ticks(context, height),
        family=f"length {wall}",
    )


def height_words(height: str) -> str:
    """Return a height in words: ``4 up from the subfloor``."""
    if height == LINE:
        return say("walk-at-line")
    length = height.removeprefix("up ").partition(" from ")[0]
    return say("walk-at-height", height=length)


def _height_ticks(context: WalkContext, height: str) -> int:
    """Return how high a height is, for the order of readings; the line stands where tops are."""
    text = (
        context.by_tape("34 1/2", "876") if height == LINE else height.split(" ", 1)[1].partition(" from ")[0]
    )
    return ticks_or_none(text, context.tape) or 0


def ceiling_spots(context: WalkContext) -> list[Spot]:
    """Return two readings over each tall box, at the wall and at its front, once a laser is set up."""
    plan = context.standing.plan
    if plan is None or context.set_up not in context.set_ups:
        return []
    talls = [box.get("number") for box in context.listed("order", "boxes") if box.get("kind") == "tall"]
    found: list[Spot] = []
    for run in plan.runs:
        for item in run.items:
            if (
                run.row == "base"
                and item.number in talls
                and item.left is not None
                and item.right is not None
            ):
                u = round_to((item.left + item.right) // 2, context.whole, Rounding.NEAREST_UP)
                front = round_to(item.depth, context.whole, Rounding.NEAREST_UP)
                for out in (None, show(front, context.units)):
                    found.append(_ceiling(context, run.wall, show(u, context.units), out, item.number))
    return found


def _ceiling(context: WalkContext, wall: str, u: str, out: str | None, box: int) -> Spot:
    """Return a ceiling reading over a tall box, or the one that was taken close by."""
    at = say("walk-line-wall") if out is None else say("walk-line-out", out=out)
    spot = Spot(
        key=f"ceiling {box} {'wall' if out is None else 'front'}",
        group=WalkGroup.CEILING,
        kind=Kind.CEILING,
        wall=wall,
        words=say("walk-ceiling-words", wall=wall, u=u, at=at),
        stand=say("walk-ceiling-stand", wall=wall, u=u, at=at, box=box),
        hold=say("walk-ceiling-hold"),
        read=say("walk-ceiling-read", set_up=context.set_up),
        say=say("walk-ceiling-say", u=u, at=at),
        place=pointer(("room", "ceiling", context.set_up, wall, u, out or "wall", "1")),
        line=f"ceiling {context.set_up} {wall}",
        along=ticks_or_none(u, context.tape) or 0,
        family=f"ceiling {context.set_up}",
        short=u,
    )
    near = context.book.length("nearest-reading")
    for steps, _ in live_under(context.live, "room", "ceiling"):
        is_alike = len(steps) == 5 and steps[1] == wall and (steps[3] == "wall") == (out is None)
        if is_alike and abs((ticks_or_none(steps[2], context.tape) or 0) - spot.along) <= near:
            return _placed(context, _at(spot, pointer(("room", "ceiling", *steps))))
    return _placed(context, spot)


def plumb_spots(context: WalkContext) -> list[Spot]:
    """Return the offsets of the walls that close each end of a run, at several heights."""
    found: list[Spot] = []
    for wall, end, is_tall in _closed_ends(context):
        heights = _HEIGHTS if is_tall else _HEIGHTS[:_PLUMB_LOW]
        for height in heights:
            found.append(_plumb(context, wall, end, f"up {context.by_tape(*height)} from subfloor"))
    return found


def _plumb(context: WalkContext, wall: str, end: str, height: str) -> Spot:
    """Return one plumb offset, or the one that was read at that height."""
    facts = {"wall": wall, "end": say(f"walk-end-{end}"), "where": height_words(height)}
    spot = Spot(
        key=f"plumb {wall} {end} {height}",
        group=WalkGroup.PLUMB,
        kind=Kind.PLUMB,
        wall=wall,
        words=say("walk-plumb-words", **facts),
        stand=say("walk-plumb-stand", **facts),
        hold=say("walk-plumb-hold"),
        read=say("walk-plumb-read"),
        say=say("walk-plumb-say", **facts),
        place=pointer(("room", "walls", wall, "plumb", end, "1", height, "wall", "1")),
        line=f"plumb {wall} {end} 1",
        along=_height_ticks(context, height),
        family=f"plumb {wall} {end}",
        short=height.removeprefix("up ").partition(" from ")[0],
    )
    for steps, _ in live_under(context.live, "room", "walls", wall, "plumb", end):
        if len(steps) == 4 and steps[2] == "wall" and _height_ticks(context, steps[1]) == spot.along:
            place = pointer(("room", "walls", wall, "plumb", end, *steps))
            return _placed(context, _at(spot, place))
    return _placed(context, spot)


def _closed_ends(context: WalkContext) -> Iterator[tuple[str, str, bool]]:
    """Yield wall, end and whether boxes stand high there, for each end of a wall that a run reaches."""
    ends: dict[tuple[str, str], bool] = {}
    talls = [box.get("number") for box in context.listed("order", "boxes") if box.get("kind") == "tall"]
    for run in context.runs:
        items = run.get("items", [])
        is_tall = run.get("row") == "wall" or (
            isinstance(items, list) and any(item in talls for item in items)
        )
        for end in ("left", "right"):
            closed = run.get(end)
            kind = closed.get("kind", "wall") if isinstance(closed, dict) else "wall"
            if kind != "open":
                key = (str(run.get("wall", "")), end)
                ends[key] = ends.get(key, False) or is_tall
    yield from ((wall, end, is_tall) for (wall, end), is_tall in sorted(ends.items()))


def window_spots(context: WalkContext) -> list[Spot]:
    """Return the edges of every window that was named, its centre for a check, its sill and its head."""
    found: list[Spot] = []
    for wall in context.walls:
        for name in context.windows(wall):
            # the centre first: with it alone the window is whole, with one edge alone it is not
            found += [_edge(context, wall, name, edge) for edge in ("centre", "left", "right")]
            if context.set_up in context.set_ups:
                found += [_sill_or_head(context, wall, name, which) for which in ("sill", "head")]
    return found


def _edge(context: WalkContext, wall: str, window: str, edge: str) -> Spot:
    """Return one edge of a window, or its centre line."""
    facts = {"wall": wall, "window": window, "edge": say(f"walk-edge-{edge}")}
    return _placed(
        context,
        Spot(
            key=f"window {wall} {window} {edge}",
            group=WalkGroup.WINDOWS,
            kind=Kind.EDGE,
            wall=wall,
            words=say("walk-edge-words", **facts),
            stand=say("walk-edge-stand", **facts),
            hold=say("walk-edge-hold"),
            read=say("walk-edge-read", wall=wall),
            say=say("walk-edge-say", **facts),
            place=pointer(("room", "walls", wall, "windows", window, edge)),
            line=f"window {wall} {window} {edge}",
            along=0,
            family=f"window {wall}",
        ),
    )


def _sill_or_head(context: WalkContext, wall: str, window: str, which: str) -> Spot:
    """Return the height of a window's sill, down from the laser, or of its head, up from it."""
    is_sill = which == "sill"
    facts = {"wall": wall, "window": window, "edge": say(f"walk-edge-{which}")}
    return _placed(
        context,
        Spot(
            key=f"window {wall} {window} {which}",
            group=WalkGroup.WINDOWS,
            kind=Kind.SILL if is_sill else Kind.HEAD,
            wall=wall,
            words=say("walk-edge-words", **facts),
            stand=say("walk-edge-stand", **facts),
            hold=say("walk-height-hold"),
            read=say(f"walk-{which}-read", set_up=context.set_up),
            say=say("walk-edge-say", **facts),
            place=pointer(("room", "walls", wall, "windows", window, which)),
            line=f"window {wall} {window} {which}",
            along=0,
            family=f"window {wall} {which}",
            height=("down" if is_sill else "up", f"laser {context.set_up}"),
        ),
    )


def box_spots(context: WalkContext) -> list[Spot]:
    """Return the real width of every box that is there."""
    found: list[Spot] = []
    for box in context.listed("order", "boxes"):
        if box.get("delivery", "here") == "not here":
            continue
        number, ordered = str(box.get("number", "?")), str(box.get("width", ""))
        facts = {"number": number, "name": str(box.get("name") or box.get("kind", "")), "ordered": ordered}
        found.append(
            _placed(
                context,
                Spot(
                    key=f"box {number}",
                    group=WalkGroup.BOXES,
                    kind=Kind.BOX,
                    wall="",
                    words=say("walk-box-words", **facts),
                    stand=say("walk-box-stand", **facts),
                    hold=say("walk-box-hold"),
                    read=say("walk-box-read"),
                    say=say("walk-box-say", **facts),
                    place=pointer(("order", "boxes", number, "measured")),
                    line=f"box {number}",
                    along=0,
                    family=f"box {number}",
                    expected=ticks_or_none(ordered, context.tape),
                ),
            )
        )
    return found


def _walls_with_runs(context: WalkContext) -> list[str]:
    """Return the walls that boxes stand at, or every wall before any run is arranged."""
    named = {str(run.get("wall", "")) for run in context.runs}
    return [wall for wall in context.walls if wall in named or not named]


def _at(spot: Spot, place: str) -> Spot:
    """Return a spot whose reading is kept at another place."""
    return replace(spot, place=place)


def _placed(context: WalkContext, spot: Spot) -> Spot:
    """Return a spot with what stands at its place."""
    return spot_at(spot, context.live, context.tape, context.skipped)
