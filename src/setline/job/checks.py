"""What two places of a job must agree on: numbers, names, and what stands in which run.

The models look at one value at a time; here a run's items are looked up in the order, and walls, set-ups and
windows by their names. All of it works on the raw document, so that it also says what is wrong where some
lengths were not read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from setline.job.checks_room import check_room
from setline.job.document import NOTHING, Place, Table, Wrong, rows, section, text_at, value_at, whole_at
from setline.lengths import Tape
from setline.wording import say

__all__ = ["check_document"]

_MOST_ITEMS = 500
_MOST_READINGS = 5000
_LAST_NUMBER = 9999
_KINDS = ("boxes", "fillers", "panels", "appliances", "existing")
_RUN = re.compile("[A-Z] (base|wall)")
_ROW_OF_BOX = {"base": "base", "wall": "wall"}
_ROW_OF_APPLIANCE = {"dishwasher": "base", "range": "base", "refrigerator": "base", "hood": "wall"}


def check_document(document: object, tape: Tape | None) -> list[Wrong]:
    """Return everything on which two places of a document do not agree.

    Args:
        document: The document as tables and lists.
        tape: The job's tape, or None if it is not known; then no lengths are compared.
    """
    job = document if isinstance(document, dict) else {}
    order = section(job, "order")
    items = [row for kind in _KINDS for row in rows(order, kind, ("order",))]
    return [
        *_check_size(job, len(items)),
        *_check_numbers(items),
        *_check_runs(job, items),
        *_check_boxes(order),
        *_check_rules(job),
        *check_room(job, tape),
    ]


def _check_size(job: Table, items: int) -> Iterator[Wrong]:
    """A job of this size is planned at once; more is several jobs."""
    readings = sum(
        len(pairs) if isinstance(pairs := line.get("readings"), list) else 0
        for place, set_up in rows(section(job, "floor"), "set_ups", ("floor",))
        for _, line in rows(set_up, "lines", place)
    )
    if items > _MOST_ITEMS:
        yield Wrong(("order",), NOTHING, say("fault-too-many-items", count=items, most=_MOST_ITEMS))
    if readings > _MOST_READINGS:
        yield Wrong(("floor",), NOTHING, say("fault-too-many-readings", count=readings, most=_MOST_READINGS))


def _check_numbers(items: list[tuple[Place, Table]]) -> Iterator[Wrong]:
    """Every item's number is its own, whatever kind of thing it is."""
    first: dict[int, Place] = {}
    taken = {whole_at(item, "number") for _, item in items}
    for place, item in items:
        number = whole_at(item, "number")
        if number is None:
            continue
        if number in first:
            free = next(each for each in range(1, len(taken) + 2) if each not in taken)
            allowed = say("fault-number-taken", number=number, by=_spoken(first[number]))
            yield Wrong((*place, "number"), number, allowed, f"number = {free}")
        first.setdefault(number, place)


def _spoken(place: Place) -> str:
    """Return a place in a list as ``boxes[3]``."""
    return f"{place[-2]}[{place[-1]}]"


def _check_boxes(order: Table) -> Iterator[Wrong]:
    """Legs and a box's support go together."""
    for place, box in rows(order, "boxes", ("order",)):
        has_legs, support = box.get("legs") is not None, box.get("support")
        if support == "legs" and not has_legs:
            yield Wrong(
                (*place, "legs"), NOTHING, say("fault-legs-needed"), 'legs = { least = "4", most = "6" }'
            )
        if has_legs and support not in ("legs", "ledger and front legs"):
            given = NOTHING if support is None else support
            yield Wrong((*place, "support"), given, say("fault-legs-support"), 'support = "legs"')


def _check_rules(job: Table) -> Iterator[Wrong]:
    """A rule is overridden by a value; true and false are none."""
    for key, value in section(job, "rules").items():
        if isinstance(value, bool):
            yield Wrong(("rules", key), value, say("fault-rule-value"), f'{key} = "1/8"')


# --- runs -----------------------------------------------------------------------------------------------


def _check_runs(job: Table, items: list[tuple[Place, Table]]) -> Iterator[Wrong]:
    """A run's items are in the order, stand in one run, and in a row that they can stand in."""
    known = {whole_at(item, "number"): (place, item) for place, item in reversed(items)}
    all_read = all(1 <= (number or 0) <= _LAST_NUMBER for number in known)
    rows_of: dict[int, list[tuple[str, str]]] = {}
    for place, run in rows(job, "runs"):
        name = (text_at(run, "wall", "?") or "?", text_at(run, "row", "base") or "base")
        for index, number in _numbers(run):
            at = (*place, "items", index)
            if number not in known:
                if all_read:  # else it may be the one whose number was refused
                    yield Wrong(at, number, say("fault-item-unknown", number=number, known=_listed(known)))
                continue
            yield from _check_row(at, name, number, *known[number])
            yield from _check_once(at, name, number, rows_of.get(number, []), known[number][1])
            rows_of.setdefault(number, [])
            rows_of[number] += [name] if name not in rows_of[number] else []
        yield from _check_pins(job, place, run)
    yield from _check_ends(job)


def _numbers(run: Table) -> Iterator[tuple[int, int]]:
    """Yield the places and numbers of a run's items; what is no number was refused elsewhere."""
    listed = run.get("items")
    for index, number in enumerate(listed if isinstance(listed, list) else ()):
        if isinstance(number, int) and not isinstance(number, bool):
            yield index, number


def _listed(known: dict[int | None, tuple[Place, Table]]) -> str:
    """Return the numbers that the order knows, the first of them."""
    numbers = sorted(number for number in known if number is not None)
    if not numbers:
        return say("fault-none-yet")
    shown, more = ", ".join(map(str, numbers[:12])), len(numbers) - 12
    return say("fault-known-more", shown=shown, more=more) if more > 0 else shown


def _check_row(at: Place, run: tuple[str, str], number: int, place: Place, item: Table) -> Iterator[Wrong]:
    """A base box stands in a base row, a wall box hangs in a wall row, an existing thing is where it is."""
    wall, row = run
    if row not in ("base", "wall"):
        return
    kind = str(place[-2])
    if kind == "existing":
        own = (text_at(item, "wall", "?"), text_at(item, "row", "base"))
        if own != run:
            yield Wrong(at, number, say("fault-item-stands", number=number, own=" ".join(map(str, own))))
        return
    rows_by_kind = {"boxes": _ROW_OF_BOX, "appliances": _ROW_OF_APPLIANCE}.get(kind, {})
    needed = rows_by_kind.get(text_at(item, "kind") or "")
    if needed is not None and needed != row:
        name = f"{text_at(item, 'kind')}{' box' if kind == 'boxes' else ''}"
        yield Wrong(at, number, say("fault-item-row", number=number, kind=name, row=needed, wall=wall))


def _check_once(
    at: Place, run: tuple[str, str], number: int, before: list[tuple[str, str]], item: Table
) -> Iterator[Wrong]:
    """An item stands in one run; a tall box in the base row and the wall row of one wall."""
    is_tall = item.get("kind") == "tall"
    for other in before:
        if not (is_tall and other[0] == run[0] and other[1] != run[1] and len(before) == 1):
            yield Wrong(at, number, say("fault-item-twice", number=number, run=" ".join(other)))
            return


def _check_pins(job: Table, place: Place, run: Table) -> Iterator[Wrong]:
    """A pin holds an item of its run: to a window of its wall, or to another item of the same wall."""
    own = {number for _, number in _numbers(run)}
    if not own:
        return
    wall = text_at(run, "wall")
    neighbours = [other for _, other in rows(job, "runs") if text_at(other, "wall") == wall]
    beside = {number for other in neighbours for _, number in _numbers(other)}
    all_read = all(any(_numbers(other)) for other in neighbours)
    windows = _windows(job, wall)
    for at, pin in rows(run, "pins", place):
        item, other, window = whole_at(pin, "item"), whole_at(pin, "beside"), text_at(pin, "window")
        if item is not None and item not in own:
            yield Wrong((*at, "item"), item, say("fault-pin-item", number=item))
        if other is not None and all_read and (other not in beside or other == item):
            yield Wrong((*at, "beside"), other, say("fault-pin-beside", wall=wall))
        if window is not None and windows is not None and window not in windows:
            names = ", ".join(f'"{name}"' for name in windows) or say("fault-none-yet")
            yield Wrong((*at, "window"), window, say("fault-pin-window", wall=wall, known=names))


def _windows(job: Table, wall: str | None) -> list[str] | None:
    """Return the names of a wall's windows, or None where no wall of that letter was read."""
    for place, each in rows(section(job, "room"), "walls", ("room",)):
        if text_at(each, "name") == wall:
            return [text_at(window, "name", "") or "" for _, window in rows(each, "windows", place)]
    return None


def _check_ends(job: Table) -> Iterator[Wrong]:
    """A corner end names the run round that corner; only an open end says how far it may reach."""
    names = {f"{text_at(run, 'wall')} {text_at(run, 'row', 'base')}" for _, run in rows(job, "runs")}
    for place, run in rows(job, "runs"):
        for side in ("left", "right"):
            at, end = (*place, side), run.get(side)
            if not isinstance(end, dict):
                continue
            kind = end.get("kind", "wall")
            if kind != "open" and end.get("at") is not None:
                yield Wrong((*at, "at"), end["at"], say("fault-end-at"), 'kind = "open"')
            if kind != "corner" and end.get("run") is not None:
                yield Wrong((*at, "run"), end["run"], say("fault-end-run"), 'kind = "corner"')
            if kind == "corner" and _RUN.fullmatch(text_at(end, "run", "A base") or ""):
                yield from _check_corner(job, (*at, "run"), run, side, names)


def _check_corner(job: Table, at: Place, run: Table, side: str, names: set[str]) -> Iterator[Wrong]:
    """The run that closes a corner is there, and on the wall that meets this one in that corner."""
    other = value_at(job, at)
    wall, row = text_at(run, "wall"), text_at(run, "row", "base")
    walls = [(text_at(each, "name"), each) for _, each in rows(section(job, "room"), "walls")]
    here = next((index for index, (name, _) in enumerate(walls) if name == wall), None)
    if here is None:
        return
    left_of_corner = here - 1 if side == "left" else here
    neighbour = left_of_corner if side == "left" else here + 1
    is_closed = section(job, "room").get("closed") is True and len(walls) > 2
    if not 0 <= neighbour < len(walls) and not is_closed:
        yield Wrong(at, other, say("fault-corner-none", wall=wall, side=side))
        return
    wanted = f"{walls[neighbour % len(walls)][0]} {row}"
    if walls[left_of_corner % len(walls)][1].get("corner", "inside") != "inside":
        yield Wrong(at, other, say("fault-corner-outside", wall=wall, side=side))
    elif other != wanted:
        yield Wrong(at, other, say("fault-corner-run", wanted=wanted), f'run = "{wanted}"')
    elif wanted not in names:
        yield Wrong(at, other, say("fault-corner-missing", wanted=wanted))
