"""A spot of the walk: one reading, where it is taken, where it is kept, and what stands there already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from setline.errors import InputError
from setline.field_book.entry import Entry
from setline.field_book.places import pointer, steps_of
from setline.lengths import Tape, read_length

__all__ = ["Kind", "Live", "Spot", "State", "WalkGroup", "live_under", "spot_at", "ticks_or_none"]

Live = Mapping[str, tuple[Entry, ...]]
"""Place -> its live entries."""


class WalkGroup(StrEnum):
    """Readings that are taken in one go with the same tool, in the order of the walk."""

    OUTLINE = "outline"
    TIE = "tie"
    FLOOR = "floor"
    COVERINGS = "coverings"
    CEILING = "ceiling"
    PLUMB = "plumb"
    WINDOWS = "windows"
    HEIGHTS = "heights"
    BOXES = "boxes"
    SHEETS = "sheets"


class State(StrEnum):
    """How far a spot has come."""

    OPEN = "open"
    READ = "read"
    SKIPPED = "skipped"


class Kind(StrEnum):
    """What is read, for its picture and its words."""

    FLOOR = "floor"
    TIE = "tie"
    CEILING = "ceiling"
    PLUMB = "plumb"
    LENGTH = "length"
    EDGE = "edge"
    SILL = "sill"
    HEAD = "head"
    BOX = "box"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One reading of the walk.

    Attributes:
        key: Its own name in the walk, whatever set-up it is read from: ``floor A 48 toe``.
        group: What it is walked with.
        kind: What is read.
        wall: Letter of the wall, or empty.
        words: Its short name for lists, such as ``A 48 toe``.
        stand: Where to stand, as the prompt says it.
        hold: How the tape is held.
        read: What is read, and from where: the zero.
        say: What a person calls out who reads while another holds the phone.
        place: Where the reading is kept.
        line: Spots of one line are neighbours of each other.
        along: Where it lies along its line. [ticks]
        family: Whole inches are carried over from one reading of a family to the next.
        height: ``up`` or ``down`` and the zero, where the value is a height; else None.
        also: What is kept with it: place and value.
        is_short: Whether it belongs to the short form, which comes first.
        expected: What it ought to be near, such as a box's ordered width. [ticks]
        state: How far it has come.
        typed: What stands there, as typed.
        ticks: The same, or None where nothing does.
        over: Ids of what stands there now.
        short: What stands at it on the strip of its line, such as ``48``.
        first: For a reading taken again: what was read the first time, as typed.
        first_place: And where that is kept.
        skipped: Why it was skipped.
    """

    key: str
    group: WalkGroup
    kind: Kind
    wall: str
    words: str
    stand: str
    hold: str
    read: str
    say: str
    place: str
    line: str
    along: int
    family: str
    height: tuple[str, str] | None = None
    also: tuple[tuple[str, Any], ...] = ()
    is_short: bool = True
    expected: int | None = None
    state: State = State.OPEN
    typed: str = ""
    ticks: int | None = None
    over: tuple[str, ...] = ()
    short: str = ""
    first: str = ""
    first_place: str = ""
    skipped: str = ""

    def value_of(self, text: str) -> Any:
        """Return what is kept at its place for a typed text."""
        if self.height is None:
            return text
        way, zero = self.height
        return {way: text, "from": zero}

    def again(self) -> Spot:
        """Return the same spot to be read once more: another take, beside the first."""
        *steps, take = steps_of(self.place)
        number = int(take) + 1 if take.isascii() and take.isdigit() else 2
        return replace(
            self,
            place=pointer((*steps, str(number))),
            state=State.OPEN,
            first=self.typed,
            first_place=self.place,
            typed="",
            ticks=None,
            over=(),
        )


def spot_at(spot: Spot, live: Live, tape: Tape, skipped: Mapping[str, str]) -> Spot:
    """Return a spot with what stands at its place, or why it was skipped."""
    found = live.get(spot.place, ())
    if found and not found[0].taken_back:
        typed = _typed(found[0].value)
        ids = tuple(entry.id for entry in found)
        return replace(spot, state=State.READ, typed=typed, ticks=ticks_or_none(typed, tape), over=ids)
    over = tuple(entry.id for entry in found)
    if spot.key in skipped:
        return replace(spot, state=State.SKIPPED, skipped=skipped[spot.key], over=over)
    return replace(spot, over=over)


def _typed(value: Any) -> str:
    """Return what was typed: the value itself, or the length of a height."""
    if isinstance(value, dict):
        return str(value.get("up") or value.get("down") or "")
    return str(value)


def ticks_or_none(text: str, tape: Tape) -> int | None:
    """Return the ticks of a text, or None where it is no length."""
    try:
        return read_length(text, tape).ticks
    except InputError:
        return None


def live_under(live: Live, *start: str) -> Sequence[tuple[tuple[str, ...], tuple[Entry, ...]]]:
    """Return the steps below a start and the live entries there, for every place that has a value."""
    below = pointer(start) + "/"
    return [
        (steps[len(start) :], found)
        for place, found in live.items()
        if place.startswith(below) and not found[0].taken_back
        if (steps := steps_of(place))
    ]
