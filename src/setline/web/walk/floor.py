"""Floor spots: the short form first, then every two feet under the boxes; and tying a moved laser."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from setline.field_book.book_order import in_book_order
from setline.field_book.places import pointer, steps_of
from setline.lengths import Rounding, round_to, show
from setline.result import ItemKind, RunPlan
from setline.web.walk.context import WalkContext
from setline.web.walk.spots import Kind, Spot, State, WalkGroup, live_under, spot_at, ticks_or_none
from setline.wording import say

__all__ = ["floor_spot", "floor_spots", "line_words", "tie_spots"]

AT_WALL, AT_TOE = "wall", "toe"
_RANK = {AT_WALL: 0, AT_TOE: 2}  # a line so far out from the wall lies between the two


@dataclass(frozen=True, slots=True)
class _Target:
    """Where the floor ought to be read."""

    wall: str
    u: int
    line: str
    is_short: bool


def floor_spot(context: WalkContext, wall: str, u: str, line: str, *, is_short: bool = True) -> Spot:
    """Return a floor spot, read from where the laser stands now; without what stands there.

    Args:
        context: The job.
        wall: The wall's letter.
        u: From its left corner, as text.
        line: ``wall``, ``toe`` or how far out from the wall, as text.
        is_short: Whether it belongs to the short form.
    """
    set_up, facts = context.set_up, {"wall": wall, "u": u, "line": line_words(line)}
    words = say("walk-floor-words", wall=wall, u=u, line=line) if line in (AT_WALL, AT_TOE) else None
    return Spot(
        key=f"floor {wall} {u} {line}",
        group=WalkGroup.FLOOR,
        kind=Kind.FLOOR,
        wall=wall,
        words=words or say("walk-floor-words-out", wall=wall, u=u, out=line),
        short=u,
        stand=say("walk-floor-stand", **facts),
        hold=say("walk-floor-hold"),
        read=say("walk-floor-read", set_up=set_up),
        say=say("walk-floor-say", **facts),
        place=pointer(("floor", "set_ups", set_up, "readings", wall, line, u, "1")),
        line=f"floor {set_up} {wall} {line}",
        along=ticks_or_none(u, context.tape) or 0,
        family=f"floor {set_up}",
        is_short=is_short,
    )


def line_words(line: str) -> str:
    """Return a line in words: at the wall, toe line, so far out."""
    at = line.partition(", ")[0]
    if at == AT_WALL:
        return say("walk-line-wall")
    return say("walk-line-toe") if at == AT_TOE else say("walk-line-out", out=at)


def floor_spots(context: WalkContext) -> list[Spot]:
    """Return every floor spot: what was read, and what is still to be read, in the order of walking."""
    read = list(_read(context))
    near = context.book.length("as-read-within")
    fresh = [
        target
        for target in _targets(context)
        if not any(
            spot.wall == target.wall
            and spot.line.endswith(f" {target.line}")
            and abs(spot.along - target.u) <= near
            for spot in read
        )
    ]
    asked = [
        spot_at(
            floor_spot(context, each.wall, show(each.u, context.units), each.line, is_short=each.is_short),
            context.live,
            context.tape,
            context.skipped,
        )
        for each in fresh
    ]
    walls = list(context.walls)
    return sorted(
        [*read, *asked],
        key=lambda spot: (
            not spot.is_short and spot.state is not State.READ,
            walls.index(spot.wall) if spot.wall in walls else len(walls),
            spot.along,
            _RANK.get(spot.line.rpartition(" ")[2], 1),
        ),
    )


def _read(context: WalkContext) -> Iterator[Spot]:
    """Yield every floor reading as a spot; of several takes the last."""
    seen: dict[tuple[str, ...], Spot] = {}
    for steps, _ in live_under(context.live, "floor", "set_ups"):
        if len(steps) != 6 or steps[1] != "readings":
            continue
        set_up, _, wall, line, u, take = steps
        spot = floor_spot(context, wall, u, line)
        is_from_here = set_up == context.set_up
        spot = replace(
            spot,
            key=spot.key if is_from_here else f"{spot.key} from {set_up}",
            words=spot.words if is_from_here else f"{spot.words} ({set_up})",
            place=pointer(("floor", "set_ups", *steps)),
            line=f"floor {set_up} {wall} {line}",
            family=f"floor {set_up}",
        )
        before = seen.get(steps[:5])
        if before is None or in_book_order(take) > in_book_order(steps_of(before.place)[-1]):
            seen[steps[:5]] = spot_at(spot, context.live, context.tape, {})
    yield from seen.values()


def _targets(context: WalkContext) -> list[_Target]:
    """Return where the floor ought to be read, the short form first; none stands close to another."""
    near = context.book.length("as-read-within")
    found: list[_Target] = []
    for target in (*_short(context), *_every_step(context)):
        if not any(
            other.wall == target.wall and other.line == target.line and abs(other.u - target.u) <= near
            for other in found
        ):
            found.append(target)
    return found


def _short(context: WalkContext) -> Iterator[_Target]:
    """Yield the ends of every run at the wall and at the toe line, and the front of every opening."""
    runs = _base_runs(context)
    for wall, left, right in _stretches(context, runs):
        for u in (left, right):
            for line in (AT_WALL, AT_TOE):
                yield _Target(wall, u, line, True)
    for run in runs:
        for item in run.items:
            if item.kind is ItemKind.OPENING and item.left is not None and item.right is not None:
                middle = round_to((item.left + item.right) // 2, context.whole, Rounding.NEAREST_UP)
                yield _Target(run.wall, middle, AT_TOE, True)


def _every_step(context: WalkContext) -> Iterator[_Target]:
    """Yield a spot every two feet under each run, at the wall and at the toe line."""
    step = context.book.length("floor-walk-step")
    for wall, left, right in _stretches(context, _base_runs(context)):
        for u in range(-(-left // step) * step, right + 1, step):
            for line in (AT_WALL, AT_TOE):
                yield _Target(wall, u, line, False)


def _base_runs(context: WalkContext) -> tuple[RunPlan, ...]:
    """Return the base runs of the plan, if there is one."""
    plan = context.standing.plan
    return () if plan is None else tuple(run for run in plan.runs if run.row == "base")


def _stretches(context: WalkContext, runs: Iterable[RunPlan]) -> list[tuple[str, int, int]]:
    """Return wall, left and right of every stretch of floor under boxes, an inch inside its ends.

    Before any run is arranged that is every wall from corner to corner.
    """
    known = [(run.wall, run.left_end.value, run.right_end.value) for run in runs]
    if not known:
        known = [(wall, 0, length) for wall, length in context.walls.items() if length]
    found: list[tuple[str, int, int]] = []
    for wall, left, right in known:
        if left is None or right is None:
            left, right = 0, context.walls.get(wall) or 0
        inside = (
            round_to(left + context.whole // 2, context.whole, Rounding.UP),
            round_to(right - context.whole // 2, context.whole, Rounding.DOWN),
        )
        if inside[0] < inside[1]:
            found.append((wall, *inside))
    return found


def tie_spots(context: WalkContext) -> list[Spot]:
    """Return the mark to shoot again where the laser was moved and nothing ties its new place yet."""
    others = [name for name in context.set_ups if name != context.set_up]
    if not others or _marks(context, context.set_up):
        return []
    spot = _tie_by_mark(context, others[-1]) or _tie_by_first_spot(context, others[-1])
    return [] if spot is None else [spot_at(spot, context.live, context.tape, context.skipped)]


def _marks(context: WalkContext, set_up: str) -> list[tuple[str, str]]:
    """Return the marks shot from a set-up: name, and up or down."""
    return [
        (steps[0], steps[1])
        for steps, _ in live_under(context.live, "floor", "set_ups", set_up, "marks")
        if len(steps) == 2
    ]


def _tie_by_mark(context: WalkContext, other: str) -> Spot | None:
    """Return the first mark of another set-up, to be shot from here."""
    marks = _marks(context, other)
    if not marks:
        return None
    name, way = marks[0]
    read = say("walk-tie-up" if way == "up" else "walk-tie-down", set_up=context.set_up)
    return _tie(context, name, way, say("walk-tie-mark", mark=name, set_up=context.set_up), read, ())


def _tie_by_first_spot(context: WalkContext, other: str) -> Spot | None:
    """Return the first spot that was read from another set-up, to be shot from here as a mark of both."""
    start = pointer(("floor", "set_ups", other, "readings")) + "/"
    for entry in context.standing.entries:
        found = context.live.get(entry.place, ())
        if not entry.place.startswith(start) or not found or found[0].taken_back:
            continue
        wall, line, u = steps_of(entry.place)[4:7]
        name = f"{wall} {u} {line}"
        stand = say("walk-tie-spot", wall=wall, u=u, line=line_words(line), set_up=context.set_up)
        also = ((pointer(("floor", "set_ups", other, "marks", name, "down")), str(found[0].value)),)
        return _tie(context, name, "down", stand, say("walk-floor-read", set_up=context.set_up), also)
    return None


def _tie(
    context: WalkContext, name: str, way: str, stand: str, read: str, also: tuple[tuple[str, str], ...]
) -> Spot:
    """Return a spot that ties the set-up the laser stands in."""
    return Spot(
        key=f"tie {context.set_up}",
        group=WalkGroup.TIE,
        kind=Kind.TIE,
        wall="",
        words=say("walk-tie-words", mark=name, set_up=context.set_up),
        stand=stand,
        hold=say("walk-tie-hold"),
        read=read,
        say=stand,
        place=pointer(("floor", "set_ups", context.set_up, "marks", name, way)),
        line=f"tie {context.set_up}",
        along=0,
        family=f"floor {context.set_up}",
        also=also,
    )
