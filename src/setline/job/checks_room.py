"""What the room, the floor and the heights of a job must agree on: letters, set-ups, lines, and distances."""

from __future__ import annotations

from collections.abc import Iterator

from setline.job.document import NOTHING, Place, Table, Wrong, rows, section, text_at, ticks_at
from setline.lengths import TICKS_PER_INCH, Tape, Units, show
from setline.wording import say

__all__ = ["check_room"]

_PAST_THE_WALL = 2 * TICKS_PER_INCH
"""A reading may lie a little past the longest length of its wall, where a corner leans; more is a slip."""


def check_room(job: Table, tape: Tape | None) -> Iterator[Wrong]:
    """Yield everything on which walls, set-ups, heights and distances do not agree."""
    walls = list(rows(section(job, "room"), "walls", ("room",)))
    reach = {text_at(wall, "name"): _longest(wall, tape) for _, wall in walls}
    yield from _check_letters(walls)
    yield from _check_windows(walls)
    for place, row, wall in _along_walls(job):
        yield from _check_wall_known(place, row, list(reach))
        yield from _check_on_wall(place, row, wall, reach.get(wall), tape)
    yield from _check_set_ups(job)
    yield from _check_heights(job)
    yield from _check_least_and_most(job, tape)
    yield from _check_strong(job, tape)


def _longest(wall: Table, tape: Tape | None) -> int | None:
    """Return the greatest length read of a wall, or None if none was."""
    lengths = (ticks_at(row.get("length"), tape) for _, row in rows(wall, "lengths"))
    return max((ticks for ticks in lengths if ticks is not None), default=None)


def _check_letters(walls: list[tuple[Place, Table]]) -> Iterator[Wrong]:
    """Walls are lettered A, B, C ... in the order of the file, clockwise as seen from above."""
    for index, (place, wall) in enumerate(walls):
        letter, name = chr(ord("A") + index), text_at(wall, "name")
        if index < 26 and name is not None and len(name) == 1 and name != letter:
            yield Wrong((*place, "name"), name, say("fault-wall-order", letter=letter), f'name = "{letter}"')


def _check_windows(walls: list[tuple[Place, Table]]) -> Iterator[Wrong]:
    """A window has a name of its own, and a centre or both edges."""
    for place, wall in walls:
        seen: set[str | None] = set()
        for at, window in rows(wall, "windows", place):
            name = text_at(window, "name")
            if name in seen:
                yield Wrong((*at, "name"), name, say("fault-window-twice", wall=text_at(wall, "name")))
            seen.add(name)
            edges = [window.get(edge) is not None for edge in ("left", "right")]
            if window.get("centre") is None and not all(edges):
                yield Wrong((*at, "centre"), NOTHING, say("fault-window-where"))


# --- along walls ----------------------------------------------------------------------------------------


def _along_walls(job: Table) -> Iterator[tuple[Place, Table, str | None]]:
    """Yield everything that lies along a wall, with its place and the wall's letter."""
    room, floor = section(job, "room"), section(job, "floor")
    for place, wall in rows(room, "walls", ("room",)):
        for at, opening in (*rows(wall, "windows", place), *rows(wall, "doors", place)):
            yield at, opening, text_at(wall, "name")
    for place, run in rows(job, "runs"):
        yield place, run, text_at(run, "wall")
        for at, pin in rows(run, "pins", place):
            yield at, pin, text_at(run, "wall")
        for side in ("left", "right"):
            yield (*place, side), section(run, side), text_at(run, "wall")
    named = [*rows(room, "ceiling", ("room",)), *rows(floor, "steps", ("floor",))]
    named += rows(section(job, "order"), "existing", ("order",))
    for place, set_up in rows(floor, "set_ups", ("floor",)):
        named += rows(set_up, "lines", place)
    for place, covering in rows(floor, "coverings", ("floor",)):
        named += rows(covering, "areas", place)
    yield from ((place, row, text_at(row, "wall")) for place, row in named)


def _check_wall_known(place: Place, row: Table, letters: list[str | None]) -> Iterator[Wrong]:
    """A wall that is named has been read."""
    wall = text_at(row, "wall")
    if wall is not None and wall not in letters and all(each and len(each) == 1 for each in letters):
        known = ", ".join(letter for letter in letters if letter) or say("fault-none-yet")
        yield Wrong((*place, "wall"), wall, say("fault-wall-unknown", known=known))


_ALONG = ("u", "left", "right", "centre", "at", "from_u", "to_u")


def _check_on_wall(
    place: Place, row: Table, wall: str | None, most: int | None, tape: Tape | None
) -> Iterator[Wrong]:
    """What lies along a wall lies on it, and not past its far end."""
    if most is None or tape is None:
        return
    for at, given in _distances(place, row):
        ticks = ticks_at(given, tape)
        if ticks is not None and ticks > most + _PAST_THE_WALL:
            yield Wrong(at, given, say("fault-past-wall", wall=wall, length=show(most, tape.units)))


def _distances(place: Place, row: Table) -> Iterator[tuple[Place, object]]:
    """Yield every distance along a wall that a row states; on a line of readings ``at`` is none."""
    readings = row.get("readings")
    if isinstance(readings, list):
        for index, pair in enumerate(readings):
            if isinstance(pair, list) and pair:
                yield (*place, "readings", index, 0), pair[0]
        return
    for key in _ALONG:
        if key in row and not isinstance(row[key], dict):
            yield (*place, key), row[key]


_PAIRS = (("left", "right"), ("least", "most"), ("out_least", "out_most"))


def _check_least_and_most(job: Table, tape: Tape | None) -> Iterator[Wrong]:
    """Where a thing has two edges or limits, the second is not less than the first."""
    legs = [
        ((*place, "legs"), section(box, "legs"))
        for place, box in rows(section(job, "order"), "boxes", ("order",))
    ]
    for place, row in [*((place, row) for place, row, _ in _along_walls(job)), *legs]:
        for first, second in _PAIRS:
            if isinstance(row.get(first), dict) or isinstance(row.get(second), dict):
                continue
            low, high = ticks_at(row.get(first), tape), ticks_at(row.get(second), tape)
            if low is not None and high is not None and high < low:
                yield Wrong((*place, second), row[second], say("fault-order", second=second, first=first))


# --- set-ups, heights -----------------------------------------------------------------------------------


def _check_set_ups(job: Table) -> Iterator[Wrong]:
    """A set-up's name is its own, its marks are shot up or down, and a set-up that is named was made."""
    floor, record = section(job, "floor"), section(job, "record")
    names: list[str] = []
    for place, set_up in rows(floor, "set_ups", ("floor",)):
        name = text_at(set_up, "name")
        if name in names:
            yield Wrong((*place, "name"), name, say("fault-set-up-twice"))
        names += [name] if name is not None else []
        for at, mark in rows(set_up, "marks", place):
            if (mark.get("up") is None) == (mark.get("down") is None):
                yield Wrong((*at, "down"), mark.get("down") or NOTHING, say("fault-mark-way"))
    named: list[tuple[Place, Table, str]] = [(("floor",), floor, "use")]
    named += [(place, row, "set_up") for place, row in rows(section(job, "room"), "ceiling", ("room",))]
    named += [(place, row, "set_up") for place, row in rows(record, "struck_lines", ("record",))]
    named.append((("record", "agreed_line"), section(record, "agreed_line"), "set_up"))
    for where, row, key in named:
        name = text_at(row, key)
        if name is not None and name not in names:
            known = ", ".join(names) or say("fault-none-yet")
            yield Wrong((*where, key), name, say("fault-set-up-unknown", known=known))


def _check_heights(job: Table) -> Iterator[Wrong]:
    """A height's zero is known, and no reading is stated from the level line, since that line moves."""
    set_ups = [text_at(row, "name") for _, row in rows(section(job, "floor"), "set_ups")]
    lines = [text_at(row, "name", "line 1") for _, row in rows(section(job, "record"), "struck_lines")]
    for place, height, is_wish in _heights(job):
        zero = text_at(height, "from") or ""
        at = (*place, "from")
        if zero == "level line" and not is_wish:
            yield Wrong(at, zero, say("fault-reading-from-line"), 'from = "laser S1"')
        if zero.startswith("laser ") and zero.removeprefix("laser ") not in set_ups:
            known = ", ".join(str(name) for name in set_ups) or say("fault-none-yet")
            yield Wrong(at, zero, say("fault-set-up-unknown", known=known))
        if zero.startswith("line ") and not {zero, zero.removeprefix("line ")} & set(lines):
            known = ", ".join(str(name) for name in lines) or say("fault-none-yet")
            yield Wrong(at, zero, say("fault-line-unknown", known=known))


def _heights(job: Table) -> Iterator[tuple[Place, Table, bool]]:
    """Yield every height of a job with its place, and whether it is a wish."""
    for place, wall in rows(section(job, "room"), "walls", ("room",)):
        for at, row in rows(wall, "lengths", place):
            yield (*at, "height"), section(row, "height"), False
        for at, plumb in rows(wall, "plumb", place):
            for spot, row in rows(plumb, "offsets", at):
                yield (*spot, "height"), section(row, "height"), False
        for at, window in rows(wall, "windows", place):
            yield (*at, "sill"), section(window, "sill"), False
            yield (*at, "head"), section(window, "head"), False
    for place, row in rows(section(job, "order"), "existing", ("order",)):
        yield (*place, "top"), section(row, "top"), False
    for place, run in rows(job, "runs"):
        yield (*place, "bottom"), section(run, "bottom"), True


def _check_strong(job: Table, tape: Tape | None) -> Iterator[Wrong]:
    """A crew's strong is a hair: more than nothing, and at most a sixteenth."""
    given = section(job, "job").get("strong")
    ticks = ticks_at(given, tape)
    if tape is not None and ticks is not None and not 0 < ticks <= TICKS_PER_INCH // 16:
        example = 'strong = "1/32"' if tape.units == Units.INCH else 'strong = "0.5"'
        yield Wrong(("job", "strong"), given, say("fault-strong"), example)
