"""What the walk goes by: the job as far as it has come, its entries, and what was said about the walk."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from setline.field_book.book_order import in_book_order
from setline.field_book.fold import ASIDE
from setline.field_book.places import pointer, steps_of
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Tape, Units, crew_tape, read_length
from setline.rules import RuleBook, rule_book
from setline.web.planning import Standing
from setline.web.walk.spots import Live, live_under, ticks_or_none

__all__ = [
    "ENOUGH",
    "EVERY",
    "STARTED",
    "WalkContext",
    "group_place",
    "kept_place",
    "laser_place",
    "named_place",
    "skip_place",
]

STARTED, EVERY, ENOUGH = "started", "every", "enough"
"""What may be said about a group: begun, all of it, no more of it."""


def skip_place(key: str) -> str:
    """Return the place that says why a spot was skipped."""
    return pointer(("walk", "skipped", key))


def group_place(group: str) -> str:
    """Return the place that says how far a group is wanted."""
    return pointer(("walk", "group", group))


def kept_place(place: str) -> str:
    """Return the place that says that an odd reading was looked at and stays."""
    return pointer(("walk", "kept", place))


def named_place(wall: str, window: str) -> str:
    """Return the place that says that a wall has a window of a name, read or not."""
    return pointer(("walk", "window", wall, window))


def laser_place() -> str:
    """Return the place that says which set-up the laser stands in now."""
    return pointer(("walk", "laser"))


@dataclass
class WalkContext:
    """A job for the walk.

    Attributes:
        standing: The job as it stands; it need not be a whole job yet.
    """

    standing: Standing

    @property
    def live(self) -> Live:
        """Every place with its live entries."""
        return self.standing.live

    @property
    def document(self) -> dict[str, Any]:
        """The job document."""
        return self.standing.folded.document

    def section(self, name: str) -> dict[str, Any]:
        """Return one section of the document; an empty one where it is not there, or is no section."""
        found = self.document.get(name)
        return found if isinstance(found, dict) else {}

    def listed(self, section: str, name: str) -> list[dict[str, Any]]:
        """Return a list of things in a section; whatever in it is no thing is left out."""
        found = self.section(section).get(name)
        return [each for each in found if isinstance(each, dict)] if isinstance(found, list) else []

    @property
    def runs(self) -> list[dict[str, Any]]:
        """The runs, as the document has them."""
        found = self.document.get("runs")
        return [each for each in found if isinstance(each, dict)] if isinstance(found, list) else []

    @cached_property
    def tape(self) -> Tape:
        """The crew's tape."""
        about = self.section("job")
        units = Units.METRIC if about.get("tape") == "metric" else Units.INCH
        strong = ticks_or_none(str(about.get("strong", "")), Tape(units))
        return crew_tape(units, strong)

    @property
    def units(self) -> Units:
        """Inch or metric."""
        return self.tape.units

    @cached_property
    def book(self) -> RuleBook:
        """The rules the job works by."""
        return self.standing.book or rule_book({}, tape=self.tape)

    @property
    def whole(self) -> int:
        """The step that spots are laid out on: 1 in, or 10 mm."""
        return TICKS_PER_INCH if self.units == Units.INCH else 10 * TICKS_PER_MM

    @cached_property
    def walls(self) -> dict[str, int | None]:
        """Every wall with its length, or None where it was not read."""
        found: dict[str, int | None] = {}
        for wall in sorted(
            {steps[0] for steps, _ in live_under(self.live, "room", "walls")}, key=in_book_order
        ):
            read = [
                ticks_or_none(str(entries[0].value), self.tape)
                for steps, entries in live_under(self.live, "room", "walls", wall, "lengths")
                if steps[:1] == ("wall",)
            ]
            found[wall] = next((ticks for ticks in read if ticks is not None), None)
        return found

    @cached_property
    def set_ups(self) -> tuple[str, ...]:
        """Every set-up that something was read from."""
        names = {steps[0] for steps, _ in live_under(self.live, "floor", "set_ups")}
        return tuple(sorted(names, key=in_book_order))

    @cached_property
    def set_up(self) -> str:
        """The set-up that the laser stands in now: the one that was said, else the last, else the first."""
        return self._aside(laser_place()) or next(reversed(self.set_ups), "S1")

    def _aside(self, place: str) -> str:
        """Return what was said aside at a place, or an empty text."""
        return str(self.standing.folded.aside.get(place, ""))

    @cached_property
    def skipped(self) -> dict[str, str]:
        """Key of every skipped spot, and why."""
        start = f"{ASIDE}skipped/"
        return {
            steps_of(place)[-1]: str(why)
            for place, why in self.standing.folded.aside.items()
            if place.startswith(start)
        }

    def windows(self, wall: str) -> tuple[str, ...]:
        """Return the names of a wall's windows, those too of which nothing was read yet."""
        named = pointer(("walk", "window", wall)) + "/"
        names = {steps_of(place)[-1] for place in self.standing.folded.aside if place.startswith(named)}
        names |= {steps[0] for steps, _ in live_under(self.live, "room", "walls", wall, "windows")}
        return tuple(sorted(names, key=in_book_order))

    def said(self, group: str) -> str:
        """Return how far a group is wanted, or an empty text where nobody has said."""
        return self._aside(group_place(group))

    def was_kept(self, place: str, typed: str) -> bool:
        """Return whether somebody looked at an odd reading and let it stand."""
        return self._aside(kept_place(place)) == typed

    def by_tape(self, inches: str, millimetres: str) -> str:
        """Return the text of a length for this tape."""
        return inches if self.units == Units.INCH else millimetres

    def ticks(self, text: str) -> int:
        """Return the ticks of a text that is known to be a length."""
        return read_length(text, self.tape).ticks
