"""Where every joint comes to stand: first what must hold, then what is wished, in strict order.

1. Facts, widths, windows, limits and *must* pins. They alone make each joint's earliest and latest place.
   Within them the fewest struck marks change, then the fewest agreed ones (`kept_marks`).
2. Wishes by their rank, then in the job's order.
3. Marks of openings and of pinned items on whole steps of the tape. An opening may be a step wider or
   narrower for it than it is wished.
4. Openings at their wished width.
5. Fillers that do not take up slack at their wished width.
6. Slack: fillers that may give keep their wished width as long as another can give before them. The first
   to give is the one scribed to a wall at an end of the run, the right one of two; among the others the
   right one first, and one without a wish of its own before one with. A group that stays equal shares what
   comes to its first.
7. A blind box as near to its corner as it can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from setline.lengths import Units, mark_step
from setline.result import ItemKind
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built
from setline.stages.layout.items import Item
from setline.stages.layout.kept_marks import hold_marks, marks_to_keep
from setline.stages.layout.mark_places import mark_places
from setline.stages.layout.pins import Edge3, PinPlace, Tie
from setline.stages.layout.preference import Wish, follow, share
from setline.stages.layout.row import Row
from setline.stages.layout.rows import build, offset_of
from setline.stages.layout.stretch import Stretch, nearest_widths
from setline.stages.layout.whole_marks import WholeMark, lay_on_steps
from setline.stages.layout.windows import Windows, windows

__all__ = ["Missed", "Settled", "choose", "hold_centres", "in_the_way", "pinned_items"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A wish that could not be met, and by how much it was missed: to the right positive. [ticks]."""

    pin: PinPlace | Tie
    by: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Runs with every joint in its place.

    Attributes:
        built: Their rows.
        allowed: What all hard rows together allow.
        wished: The same once all wishes are met as well as they can be.
        places: u of every node.
        missed: Wishes that could not be met.
    """

    built: Built
    allowed: Windows
    wished: Windows
    places: tuple[int, ...]
    missed: tuple[Missed, ...]


def choose(built: Built, allowed: Windows, units: Units) -> Settled:
    """Return the places that follow what is wished, all rows holding.

    Args:
        built: Rows that can hold together.
        allowed: What they allow; left as it is.
        units: The job's tape, for the step of marks.
    """
    soft = _soft(built)
    wished, places = _followed(built, allowed, soft, units)
    kept = marks_to_keep(built, pinned_items(built), units)
    held = hold_marks(allowed, kept, places, lambda seen: _misses(built, seen, soft))
    if held is not None:
        _, places = _followed(built, held, soft, units)
    missed = [Missed(pin=wish, by=by) for wish in soft if (by := _miss(wish, built, places))]
    return Settled(built=built, allowed=allowed, wished=wished, places=places, missed=tuple(missed))


def _followed(
    built: Built, allowed: Windows, soft: Sequence[PinPlace | Tie], units: Units
) -> tuple[Windows, tuple[int, ...]]:
    """Return what is left once all wishes are followed, and the places once all else is."""
    seen = allowed.copy()
    for wish in soft:
        follow(seen, _wishes_of(wish, built, seen))
    wished = seen.copy()
    _lay_marks(built, seen, mark_step(units))
    _follow_sizes(built, seen, mark_step(units))
    return wished, seen.places()


def _misses(built: Built, allowed: Windows, soft: Sequence[PinPlace | Tie]) -> tuple[int, ...]:
    """Return by how much each wish is missed in given windows, the first that counts first."""
    seen = allowed.copy()
    missed: list[int] = []
    for wish in soft:
        targets = _wishes_of(wish, built, seen)
        came_to = follow(seen, targets)
        missed.append(sum(abs(value - each.target) for value, each in zip(came_to, targets, strict=True)))
    return tuple(missed)


def pinned_items(built: Built) -> frozenset[int]:
    """Return the numbers of all items pinned by an edge or a centre."""
    return frozenset(each.pin.item for each in built.pins)


def _soft(built: Built) -> list[PinPlace | Tie]:
    """Return the wishes in the order in which they count."""
    wishes = [each for each in built.pins if each.pin.strength == "wish"]
    return sorted(wishes, key=lambda each: each.pin.rank)


def in_the_way(settled: Settled, missed: Missed) -> list[PinPlace | Tie]:
    """Return the earlier wishes of which any one, let go, lets a missed one be met."""
    soft = _soft(settled.built)
    earlier = soft[: soft.index(missed.pin)]
    return [each for each in earlier if _is_met(settled, [*earlier, missed.pin], without=each)]


def _is_met(settled: Settled, wishes: Sequence[PinPlace | Tie], *, without: PinPlace | Tie) -> bool:
    """Return whether the last of some wishes is met when one of them is let go."""
    seen = settled.allowed.copy()
    targets: list[Wish] = []
    for pin in wishes:
        if pin is not without:
            targets = _wishes_of(pin, settled.built, seen)
            came_to = follow(seen, targets)
    return came_to == tuple(wish.target for wish in targets)


def _wishes_of(pin: PinPlace | Tie, built: Built, seen: Windows) -> list[Wish]:
    """Return a soft pin as wishes about joints."""
    if isinstance(pin, PinPlace):
        item = _item(built, pin.run, pin.pin.item)
        left, right = built.sides(pin.run, item.number)
        if pin.pin.edge == "centre" and not item.is_fixed_width and item.number not in built.held:
            return [Wish(left, right, 2 * pin.at, is_middle=True)]
        from_right, beyond = offset_of(item, pin.pin.edge, built.held)
        return [Wish(0, right if from_right else left, pin.at - beyond)]
    wishes, held = [], dict(built.held)
    for run, item, edge in ((pin.run, pin.item, pin.edge), (pin.other_run, pin.other, pin.other_edge)):
        if edge == "centre" and not item.is_fixed_width and item.number not in held:
            left, right = built.sides(run, item.number)
            held[item.number] = seen.nearest(left, right, item.wished)
            wishes.append(Wish(left, right, held[item.number]))
    one, beyond = _edge(built, pin.run, pin.item, pin.edge, held)
    other, past = _edge(built, pin.other_run, pin.other, pin.other_edge, held)
    return [*wishes, Wish(other, one, past - beyond)]


def _edge(built: Built, run: str, item: Item, edge: Edge3, held: Mapping[int, int]) -> tuple[int, int]:
    """Return the node that an edge is counted from, and how far beyond it the edge stands."""
    from_right, beyond = offset_of(item, edge, held)
    return built.sides(run, item.number)[from_right], beyond


def _item(built: Built, run: str, number: int) -> Item:
    for asked in built.runs:
        if asked.name == run:
            return next(item for item in asked.items if item.number == number)
    raise KeyError(run)


def _edge_at(built: Built, places: Sequence[int], run: str, number: int, edge: str) -> int:
    """Return twice the place of an item's edge or centre."""
    left, right = (places[node] for node in built.sides(run, number))
    return left + right if edge == "centre" else 2 * (left if edge == "left" else right)


def _miss(pin: PinPlace | Tie, built: Built, places: Sequence[int]) -> int:
    """Return by how much a pin is missed, to the right positive, to the tick."""
    here = _edge_at(built, places, pin.run, pin.pin.item, pin.pin.edge)
    if isinstance(pin, PinPlace):
        return (here - 2 * pin.at) // 2
    return (here - _edge_at(built, places, pin.other_run, pin.other.number, pin.other_edge)) // 2


def _openings(built: Built) -> list[tuple[Wish, Item]]:
    """Return every opening's wished width."""
    return [
        (Wish(left, right, item.wished), item)
        for _, item, left, right in _standing(built)
        if item.kind is ItemKind.OPENING
    ]


def _standing(built: Built) -> Iterable[tuple[RunAsked, Item, int, int]]:
    """Yield every item with its run and its joints."""
    for run, nodes in zip(built.runs, built.joints, strict=True):
        for item, left, right in zip(run.items, nodes, nodes[1:], strict=False):
            yield run, item, left, right


def _lay_marks(built: Built, seen: Windows, step: int) -> None:
    """Lay the marks of openings and of pinned items on whole steps, near to where they would come anyhow."""
    tried = seen.copy()
    _follow_sizes(built, tried, step)
    near = tried.places()
    for wish, _ in _openings(built):
        width = near[wish.high] - near[wish.low]
        loose = step + width % 2  # beside a held centre what lies between two joints is even
        seen.add(Row(wish.low, wish.high, width + loose))
        seen.add(Row(wish.high, wish.low, loose - width))
    pinned = pinned_items(built)
    marks: dict[tuple[int, int], WholeMark] = {}
    for run, nodes in zip(built.runs, built.joints, strict=True):
        for node, place in zip(nodes, mark_places(run.items, pinned), strict=True):
            if place.is_fine:
                marks[node, place.offset] = WholeMark(node, place.offset, near[node])
    lay_on_steps(seen, tuple(marks.values()), step)


def _follow_sizes(built: Built, seen: Windows, step: int) -> None:
    """Follow the wished widths: openings, then fillers, the first to give slack last."""
    follow(seen, (wish for wish, _ in _openings(built)))
    fillers = [each for each in _standing(built) if each[1].kind is ItemKind.FILLER]
    follow(seen, (Wish(left, right, item.wished) for _, item, left, right in fillers if not item.gives))
    for group in _giving(fillers):
        if len(group) > 1:
            share(seen, group, step)
        else:
            follow(seen, group)
    for run, nodes in zip(built.runs, built.joints, strict=True):
        for blind, end, node in (
            (run.ends.blind_left, run.ends.left, nodes[0]),
            (run.ends.blind_right, run.ends.right, nodes[-1]),
        ):
            if blind is not None and end.at is not None:
                follow(seen, [Wish(0, node, end.at)])


def _giving(fillers: Sequence[tuple[RunAsked, Item, int, int]]) -> list[list[Wish]]:
    """Return the fillers that may give, group by group, the last to give first."""
    ordered = sorted((each for each in fillers if each[1].gives), key=_gives_before)
    groups: dict[str, list[Wish]] = {}
    for _, item, left, right in ordered:
        name = f"group {item.group}" if item.group else f"filler {item.number}"
        groups.setdefault(name, []).append(Wish(left, right, item.wished))
    # In a group the last takes what does not come out even: let that be the first to give.
    return [group[::-1] for group in list(groups.values())[::-1]]


def _gives_before(standing: tuple[RunAsked, Item, int, int]) -> tuple[bool, bool, int]:
    """Return the order in which fillers take up slack."""
    run, item, _, _ = standing
    place = run.run.items.index(item.number)
    is_left_end = place == 0 and run.ends.left.kind == "wall"
    is_right_end = place == len(run.items) - 1 and run.ends.right.kind == "wall"
    return not (item.scribed and (is_left_end or is_right_end)), item.has_wish, -place


def hold_centres(
    runs: Sequence[RunAsked], placed: Sequence[PinPlace], ties: Sequence[Tie], units: Units
) -> tuple[Built, Windows | None]:
    """Return the rows of runs, with the items held whose centres other rows are tied to, and what they allow.

    Each is held at the width nearest to its wished one with which all can be solved (`stretch`).
    """
    free = build(runs, placed, ties, held={})
    allowed = windows(free.rows, free.nodes)
    items = _centred(free)
    if not items:
        return free, allowed
    if allowed is None:
        return build(runs, placed, ties, held={item.number: item.wished for item, _, _ in items}), None
    stretches = [_stretch(allowed, item, left, right) for item, left, right in items]

    def built_at(widths: Iterable[int]) -> Built:
        held = {item.number: width for (item, _, _), width in zip(items, widths, strict=True)}
        return build(runs, placed, ties, held=held)

    widths = nearest_widths(lambda each: built_at(each).rows, free.nodes, stretches)
    if widths is None:
        return built_at(stretch.wished for stretch in stretches), None
    built = built_at(widths)
    return built, windows(built.rows, built.nodes)


def _stretch(allowed: Windows, item: Item, left: int, right: int) -> Stretch:
    """Return the widths that an item may have, its wished one with a half that is whole and even."""
    wished = _halved_twice(allowed, left, right, item.wished)
    return Stretch(wished, allowed.least(left, right) or 0, allowed.most(left, right))


def _centred(built: Built) -> list[tuple[Item, int, int]]:
    """Return the items of varying width whose centres a *must* ties to another row, with their joints."""
    found: dict[int, tuple[Item, int, int]] = {}
    for tie in built.ties:
        if tie.pin.strength != "must":
            continue
        for run, item, edge in ((tie.run, tie.item, tie.edge), (tie.other_run, tie.other, tie.other_edge)):
            if edge == "centre" and not item.is_fixed_width:
                found[item.number] = (item, *built.sides(run, item.number))
    return list(found.values())


def _halved_twice(allowed: Windows, left: int, right: int, wished: int) -> int:
    """Return the width nearest to the wished one that has a whole half and an even one, if there is one."""
    width = allowed.nearest(left, right, wished)
    for near in (width - width % 4, width + -width % 4):
        if allowed.nearest(left, right, near) == near:
            return near
    return width
