"""Where each run starts and stops: a wall, the faces round a corner, an open end, what stands there already.

Round an inside corner two runs share the floor. With square corners and no gap behind the boxes, a run that
ends at a corner stops at the face of the deepest box that stands there on the other wall; a corner box takes
so much of the other wall instead. A blind corner box runs into the corner itself and may be pulled from it,
as long as enough of it stays in sight beside the other run's faces and the filler there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from setline.job.job import Job
from setline.job.order import Box, Existing
from setline.job.runs import End, Run
from setline.lengths import show
from setline.result import Figure
from setline.rules import RuleBook
from setline.stages.layout.items import Item
from setline.stages.layout.lean import Band, Side
from setline.stages.layout.walls import Usable, WallAsRead, half_width
from setline.wording import say

__all__ = ["BlindCorner", "EndKind", "EndPlace", "RunEnds", "deepest_at", "find_ends", "row_name"]

EndKind = Literal["wall", "corner", "open", "existing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndPlace:
    """What closes one end of a run.

    Attributes:
        side: Which end.
        kind: A wall, the faces round a corner, an open end, or something that stands there already.
        at: u where the run starts or stops; of an open end the farthest it may reach, None for the wall's
            own.
        wall_at: u of the end wall, which an open end cannot pass either.
        figure: The same with what it rests on.
        said: What to call it in a sentence, such as ``the left wall``.
    """

    side: Side
    kind: EndKind
    at: int | None
    wall_at: int
    figure: Figure
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindCorner:
    """How far a blind corner box may be pulled from its corner.

    Attributes:
        most_pull: Farthest from the end wall. [ticks]
        in_sight_from: Its frame must show from this far from the end wall on, or None where no run stands
            there.
        visible: Width that must show.
        said: What takes the room beside it, such as ``the faces of B base``.
    """

    most_pull: int
    in_sight_from: int | None
    visible: int
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RunEnds:
    """Both ends of a run, the blind boxes at them, and what the end walls leave."""

    left: EndPlace
    right: EndPlace
    blind_left: BlindCorner | None
    blind_right: BlindCorner | None
    usable: Usable


def row_name(run: Run) -> str:
    """Return the name of a run's row, such as ``A base``."""
    return f"{run.wall} {run.row}"


def find_ends(
    run: Run,
    items: Sequence[Item],
    wall: WallAsRead,
    others: Mapping[str, tuple[Item, ...]],
    *,
    job: Job,
    book: RuleBook,
    tops: int,
) -> RunEnds:
    """Return where a run starts and stops.

    Args:
        run: The run.
        items: What its items ask for.
        wall: Its wall as read.
        others: The items of the other runs by their row's name.
        job: The job.
        book: The rules.
        tops: z of the box tops. [ticks]
    """
    bands = (
        _band(items[0], wall.floor_left, tops),
        _band(items[-1], wall.floor_right, tops),
    )
    usable = wall.usable(*bands)
    corner = _Corners(run, items, wall, others, job, book)
    return RunEnds(
        left=corner.end("left", run.left, usable.left),
        right=corner.end("right", run.right, usable.right),
        blind_left=corner.blind("left"),
        blind_right=corner.blind("right"),
        usable=usable,
    )


def _band(item: Item, floor: int, tops: int) -> Band:
    """Return the part of an end wall that an item could meet, down to the floor if it stands there."""
    low = tops + item.bottom
    return Band(low=min(low, floor) if item.bottom < 0 else low, high=tops + item.top, out=item.depth)


def deepest_at(items: Sequence[Item], side: Side, reach: int) -> tuple[int, Item]:
    """Return how far a run's faces stand from its wall at one of its ends, and the item that decides.

    Args:
        items: The run's items.
        side: The end that lies at the corner.
        reach: How far from the corner boxes count: as far as the other run is deep. [ticks]
    """
    ordered = items if side == "left" else items[::-1]
    end = ordered[0]
    if isinstance(end.order, Box) and end.order.corner:
        return end.order.corner.along_next.ticks, end
    passed = 0
    standing: list[Item] = []
    for item in ordered:
        standing.append(item)
        passed += item.least
        if passed >= reach:
            break
    boxes = [item for item in standing if item.is_box] or standing
    decides = max(boxes, key=lambda item: item.face)
    return decides.face, decides


class _Corners:
    """One run among the others: what closes its ends."""

    def __init__(
        self,
        run: Run,
        items: Sequence[Item],
        wall: WallAsRead,
        others: Mapping[str, tuple[Item, ...]],
        job: Job,
        book: RuleBook,
    ) -> None:
        self.run, self.items, self.wall, self.others = run, items, wall, others
        self.job, self.book = job, book
        self.units = job.job.tape

    def end(self, side: Side, end: End, surface: Figure) -> EndPlace:
        """Return what closes one end, given where its end wall stands."""
        assert surface.value is not None, "a wall has a length"
        item = self.items[0 if side == "left" else -1]
        if isinstance(item.order, Existing):
            return self._existing(side, item.order, surface.value)
        if end.kind == "corner":
            return self._corner(side, end, surface)
        if end.kind == "open":
            return self._open(side, end, surface.value)
        said = say(f"{side}-wall")
        return EndPlace(
            side=side, kind="wall", at=surface.value, wall_at=surface.value, figure=surface, said=said
        )

    def _existing(self, side: Side, thing: Existing, wall_at: int) -> EndPlace:
        """Return an end at something that stands there already: its own edge, as read."""
        read = thing.left if side == "left" else thing.right
        address = f"{thing.name} {thing.number} {side}: {read.typed}"
        return EndPlace(
            side=side,
            kind="existing",
            at=read.ticks,
            wall_at=wall_at,
            figure=Figure(
                value=read.ticks,
                within=half_width([self.wall.doubt]),
                readings=(address,),
                working=(say("end-as-read", what=thing.name, at=show(read.ticks, self.units)),),
            ),
            said=say("existing-edge", what=thing.name, side=side),
        )

    def _open(self, side: Side, end: End, wall_at: int) -> EndPlace:
        """Return an open end: the farthest it may reach."""
        if end.at is None:
            figure = Figure(value=None, working=(say("end-open-anywhere"),))
            said = say("open-end", side=side)
            return EndPlace(side=side, kind="open", at=None, wall_at=wall_at, figure=figure, said=said)
        place = end.at.ticks
        return EndPlace(
            side=side,
            kind="open",
            at=place,
            wall_at=wall_at,
            figure=Figure(
                value=place,
                within=0,
                readings=(f"{row_name(self.run)} {side} end: {end.at.typed}",),
                working=(say("end-open-at", at=show(place, self.units)),),
            ),
            said=say("open-end-at", side=side, at=show(place, self.units)),
        )

    def _corner(self, side: Side, end: End, surface: Figure) -> EndPlace:
        """Return an end at the faces of the run round the corner."""
        assert surface.value is not None, "a wall has a length"
        away, said, rule = self._faces(side, end.run or self._neighbour(side) or "")
        place = surface.value + (away if side == "left" else -away)
        sign = "+" if side == "left" else "-"
        step = say(
            "end-at-faces",
            what=said,
            wall=show(surface.value, self.units),
            sign=sign,
            away=show(away, self.units),
            at=show(place, self.units),
        )
        figure = Figure(
            value=place,
            within=surface.within,
            readings=surface.readings,
            rule=rule,
            working=(*surface.working, step),
        )
        return EndPlace(side=side, kind="corner", at=place, wall_at=surface.value, figure=figure, said=said)

    def _faces(self, side: Side, name: str) -> tuple[int, str, str | None]:
        """Return how far the faces round a corner stand from the end wall, their name, and the rule."""
        others = self.others.get(name)
        if not others:
            is_wall = self.run.row == "wall"
            depth = self.book.length("wall-depth" if is_wall else "base-depth")
            return depth + self.book.length("front-thickness"), say("faces", run=name), "front-thickness"
        reach = max(item.face for item in self.items)
        away, item = deepest_at(others, "right" if side == "left" else "left", reach)
        if isinstance(item.order, Box):
            if item.order.corner:
                return away, say("corner-box", number=item.number), None
            return away, say("faces", run=name), None if item.order.front else "front-thickness"
        return away, say("faces", run=name), "front-thickness"

    def _neighbour(self, side: Side) -> str | None:
        """Return the name of the row of the same kind round an inside corner, or None where there is none."""
        walls = self.job.room.walls
        place = [wall.name for wall in walls].index(self.run.wall)
        other = place + (-1 if side == "left" else 1)
        if not (self.job.room.closed or 0 <= other < len(walls)):
            return None
        other %= len(walls)
        turns = walls[other if side == "left" else place]
        return f"{walls[other].name} {self.run.row}" if turns.corner == "inside" else None

    def blind(self, side: Side) -> BlindCorner | None:
        """Return how a blind corner box at this end may be pulled, or None if none stands there."""
        box = self.items[0 if side == "left" else -1].order
        end = self.run.left if side == "left" else self.run.right
        if not isinstance(box, Box) or box.blind is None or box.blind.side != side or end.kind != "wall":
            return None
        name = self._neighbour(side)
        in_sight = None
        said = ""
        if name is not None and name in self.others:
            away, said, _ = self._faces(side, name)
            in_sight = away + self.book.length("corner-filler")
        return BlindCorner(
            most_pull=box.blind.most_pull.ticks,
            in_sight_from=in_sight,
            visible=box.blind.visible.ticks,
            said=said,
        )
