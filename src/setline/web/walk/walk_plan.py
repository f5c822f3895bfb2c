"""The walk: from a job as it stands to the readings that are asked, in order, and the card that comes next.

The short form of the floor comes first; after it the plan already answers, and each further reading is
offered by what it is worth. Nothing here keeps anything.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from setline.field_book.places import pointer, steps_of
from setline.result import NextReading
from setline.web.planning import Standing
from setline.web.walk.context import ENOUGH, EVERY, WalkContext
from setline.web.walk.floor import floor_spot, floor_spots, tie_spots
from setline.web.walk.groups import (
    box_spots,
    ceiling_spots,
    height_spots,
    outline_spots,
    plumb_spots,
    window_spots,
)
from setline.web.walk.spots import Kind, Spot, State, WalkGroup, spot_at

__all__ = ["COVERINGS_SAID", "LATER", "Card", "CardKind", "Walk", "WalkPart", "walk_of"]

CardKind = Literal["no-walls", "group", "worth", "coverings", "sheets", "done"]

_SPOTS = {
    WalkGroup.OUTLINE: outline_spots,
    WalkGroup.TIE: tie_spots,
    WalkGroup.FLOOR: floor_spots,
    WalkGroup.CEILING: ceiling_spots,
    WalkGroup.PLUMB: plumb_spots,
    WalkGroup.WINDOWS: window_spots,
    WalkGroup.HEIGHTS: height_spots,
    WalkGroup.BOXES: box_spots,
}
_AT_ONCE = frozenset({WalkGroup.OUTLINE, WalkGroup.TIE})
"""Groups that need no card of their own before they begin."""
LATER = "later"
COVERINGS_SAID = pointer(("walk", "coverings"))


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkPart:
    """The readings of one group.

    Attributes:
        group: Which.
        spots: Every spot of it, read or not, in the order of walking.
        said: What was said of it: ``started``, ``every``, ``enough``, or nothing.
    """

    group: WalkGroup
    spots: tuple[Spot, ...]
    said: str

    @property
    def asked(self) -> tuple[Spot, ...]:
        """The spots that are still asked: first those not skipped, then those skipped until later."""
        spots = [spot for spot in self.spots if spot.is_short or self.said == EVERY]
        open_spots = tuple(spot for spot in spots if spot.state is State.OPEN)
        return open_spots + tuple(spot for spot in spots if spot.skipped == LATER)

    @property
    def has_begun(self) -> bool:
        """Whether somebody began it."""
        return bool(self.said) or any(spot.state is State.READ for spot in self.spots)


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What comes between readings.

    Attributes:
        kind: Which card.
        group: The group it is about.
        count: How many readings it would take.
        readings: For ``worth``: the readings that would help most.
        within: For ``worth``: what the line is known within now. [ticks]
        things: For ``sheets``: what has no sheet yet.
    """

    kind: CardKind
    group: WalkGroup
    count: int = 0
    readings: tuple[NextReading, ...] = ()
    within: int | None = None
    things: tuple[str, ...] = ()


@dataclass
class Walk:
    """The walk of one job.

    Attributes:
        context: What it goes by.
    """

    context: WalkContext

    @cached_property
    def parts(self) -> tuple[WalkPart, ...]:
        """Every group that has readings, in order."""
        parts = (
            WalkPart(group=group, spots=tuple(spots_of(self.context)), said=self.context.said(group))
            for group, spots_of in _SPOTS.items()
        )
        return tuple(part for part in parts if part.spots)

    @cached_property
    def by_key(self) -> dict[str, Spot]:
        """Every spot by its key."""
        return {spot.key: spot for part in self.parts for spot in part.spots}

    def part(self, group: WalkGroup) -> WalkPart:
        """Return the readings of one group."""
        empty = WalkPart(group=group, spots=(), said=self.context.said(group))
        return next((part for part in self.parts if part.group is group), empty)

    def spot(self, key: str, *, again: bool = False) -> Spot | None:
        """Return the spot of that key, or None if no such spot is known.

        Args:
            key: A spot's key; a floor spot may be one that the walk does not ask for by itself.
            again: To read it once more beside what stands there.
        """
        found = self.by_key.get(key) or self._floor_spot(key)
        return self.again(found) if found is not None and again and found.state is State.READ else found

    def again(self, spot: Spot) -> Spot:
        """Return a spot to be read once more, from where the laser stands now."""
        if spot.kind in (Kind.FLOOR, Kind.CEILING) and self._set_up_of(spot) != self.context.set_up:
            steps = list(steps_of(spot.place))
            steps[2] = self.context.set_up
            moved = replace(
                spot, place=pointer(tuple(steps)), state=State.OPEN, typed="", ticks=None, over=()
            )
            moved = replace(moved, line=moved.line.replace(self._set_up_of(spot), self.context.set_up, 1))
            spot = spot_at(moved, self.context.live, self.context.tape, {})
        return spot.again() if spot.state is State.READ else spot

    def _set_up_of(self, spot: Spot) -> str:
        """Return the set-up that a spot was read from."""
        return steps_of(spot.place)[2]

    def _floor_spot(self, key: str) -> Spot | None:
        """Return the floor spot of a key that the walk does not list, such as one offered by its worth."""
        words = key.split(" ")
        if len(words) < 4 or words[0] != WalkGroup.FLOOR or words[1] not in self.context.walls:
            return None
        wall, line, u = words[1], words[-1], " ".join(words[2:-1])
        spot = floor_spot(self.context, wall, u, line)
        return spot_at(spot, self.context.live, self.context.tape, self.context.skipped)

    def next(self) -> Spot | Card:
        """Return what comes next: a reading, or a card."""
        if not self.context.walls:
            return Card(kind="no-walls", group=WalkGroup.OUTLINE)
        for group in WalkGroup:
            found = self._next_of(group)
            if found is not None:
                return found
        return Card(kind="done", group=WalkGroup.SHEETS)

    def _next_of(self, group: WalkGroup) -> Spot | Card | None:
        """Return what comes next of one group, or None if it asks for nothing more."""
        if self.context.said(group) == ENOUGH:
            return None
        if group is WalkGroup.COVERINGS:
            return Card(kind="coverings", group=group) if self.asks_coverings else None
        if group is WalkGroup.SHEETS:
            things = self._without_sheet
            return Card(kind="sheets", group=group, count=len(things), things=things) if things else None
        part = self.part(group)
        asked = part.asked
        if asked and not part.has_begun and group not in _AT_ONCE:
            return Card(kind="group", group=group, count=len(asked))
        if asked:
            return asked[0]
        return self._worth(part) if group is WalkGroup.FLOOR and part.said != EVERY else None

    def _worth(self, part: WalkPart) -> Card | None:
        """Return the offer of further floor readings by what they are worth, once the short form is done."""
        doubts = self.context.standing.doubts
        rest = tuple(spot for spot in part.spots if not spot.is_short and spot.state is State.OPEN)
        readings = () if doubts is None else doubts.next_readings
        if not rest and not readings:
            return None
        risk = None if doubts is None else doubts.high_spot
        within = readings[0].within_before if readings else None if risk is None else risk.within
        return Card(kind="worth", group=part.group, count=len(rest), readings=readings, within=within)

    @property
    def asks_coverings(self) -> bool:
        """Whether nobody has said yet what floor is to come."""
        return not self.context.document.get("floor", {}).get("coverings") and (
            COVERINGS_SAID not in self.context.standing.folded.aside
        )

    @property
    def _without_sheet(self) -> tuple[str, ...]:
        """Return the appliances whose sizes do not come from a sheet yet."""
        return tuple(
            f"{each.get('name') or each.get('kind', '')} {each.get('number', '')}"
            for each in self.context.listed("order", "appliances")
            if each.get("kind") != "other" and each.get("sheet") != "from the sheet"
        )

    @property
    def left(self) -> int:
        """How many readings are still to be decided."""
        return sum(len(part.asked) for part in self.parts if part.said != ENOUGH)


def walk_of(standing: Standing) -> Walk:
    """Return the walk of a job as it stands."""
    return standing.remembered("walk", lambda: Walk(WalkContext(standing)))
