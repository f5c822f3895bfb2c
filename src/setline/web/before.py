"""A job as it was: at an earlier revision, before an act, or before a box was set. Nothing is kept."""

from __future__ import annotations

from collections.abc import Iterable

from setline.field_book.entry import Entry, act_of
from setline.field_book.places import pointer
from setline.web.planning import Planner, Standing

__all__ = ["as_of", "before_revision", "before_set", "set_box_of"]

_START = "/format"  # only what starts a job writes this
_SET = pointer(("record", "set", ""))


def as_of(planner: Planner, standing: Standing, revision: int) -> Standing:
    """Return a job as it stood at a revision; the newest is itself."""
    if revision >= standing.revision:
        return standing
    return standing.remembered(f"at {revision}", lambda: planner.of(standing, standing.entries[:revision]))


def before_revision(planner: Planner, standing: Standing, revision: int) -> Standing:
    """Return a job as it stood before the act that led to a revision.

    Where that act was the last of a box that was set, it is the job as it stood before that box was set at
    all: what one box changes is told at once, whatever was read of it in how many presses.
    """
    return standing.remembered(f"before {revision}", lambda: _before_revision(planner, standing, revision))


def _before_revision(planner: Planner, standing: Standing, revision: int) -> Standing:
    """Work out the job before the act that led to a revision."""
    entries = standing.entries[:revision]
    if not entries:
        return planner.of(standing, ())
    number = set_box_of(entries[-1])
    if number is not None and not entries[-1].taken_back:
        return planner.of(standing, tuple(_without_box(entries, number)))
    act = act_of(entries[-1])
    return planner.of(standing, tuple(entry for entry in entries if act_of(entry) != act))


def before_set(planner: Planner, standing: Standing, number: int) -> Standing:
    """Return a job as it stands but for one box that was set."""
    return standing.remembered(
        f"before box {number}",
        lambda: planner.of(standing, tuple(_without_box(standing.entries, number))),
    )


def set_box_of(entry: Entry) -> int | None:
    """Return the box that an entry tells was set, or None if it tells something else."""
    number = entry.place.removeprefix(_SET).partition("/")[0] if entry.place.startswith(_SET) else ""
    return int(number) if number.isdecimal() else None


def _without_box(entries: Iterable[Entry], number: int) -> Iterable[Entry]:
    """Yield the entries without the acts that set a box; of what started the job, all but that box."""
    entries = tuple(entries)
    started = {act_of(entry) for entry in entries if entry.place == _START}
    acts = {act_of(entry) for entry in entries if set_box_of(entry) == number} - started
    for entry in entries:
        if act_of(entry) not in acts and set_box_of(entry) != number:
            yield entry
