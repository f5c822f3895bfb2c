"""Undo: the last kept act of a device is taken back, by entries that say so. Nothing is erased.

An act is what was done in one go (``entry``). Where an act stood over something, that counts again; where it
did not, the place is empty again. What somebody else has written over it since is left alone, and named,
unless it is to be taken back all the same. An undo is no act of its own: pressed again, it goes one act
further back. What started a job (all of it, from a file or a form) is not taken back by a press.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from setline.field_book.entry import LONGEST_ID, Entry, act_of
from setline.field_book.live import by_device, live_entries, unique_entries

__all__ = ["DEEPEST", "Undo", "last_act", "undo"]

DEEPEST = 50
"""How many acts of a device can be taken back, counted from its last."""

_UNDO = "undo-"
_START = "/format"  # only what starts a job writes this


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo:
    """What taking an act back means.

    Attributes:
        name: The act's name.
        act: The entries of the act, in the order they were made.
        entries: The entries that take it back; to be kept by the store.
        built_on: Live entries of others that stand over the act. Unless undo was told otherwise, their places
            are left alone; a page shows them and asks.
    """

    name: str
    act: tuple[Entry, ...]
    entries: tuple[Entry, ...]
    built_on: tuple[Entry, ...]


def last_act(entries: Iterable[Entry], device: str) -> tuple[Entry, ...]:
    """Return the entries of a device's last act that can be taken back; none if there is none."""
    found = undo(entries, device)
    return () if found is None else found.act


def undo(
    entries: Iterable[Entry],
    device: str,
    *,
    by: str = "",
    at: str = "",
    only: str = "",
    over_others: bool = False,
) -> Undo | None:
    """Return what takes a device's last act back, or None if there is nothing to take back.

    Args:
        entries: Every entry of the job.
        device: The device that takes back.
        by: Who holds it.
        at: When, shown only.
        only: Name of the act that was shown as the last (``Undo.name``); of another, nothing is taken back,
            so that a press that arrives twice counts once.
        over_others: Take back also what others have written over the act since.
    """
    unique = unique_entries(entries)
    live = live_entries(unique.values())
    last = max((entry.n for entry in unique.values() if entry.device == device), default=0)
    for name, act in _acts_left(unique, device):
        taken, built_on = _take_back(act, live, unique, over_others=over_others)
        if not taken and not built_on:  # all that it wrote was settled by others: there is nothing of it left
            continue
        if only and only != name:
            return None
        made = tuple(
            Entry(
                id=f"{_undo_of(name)}-{count}",
                job=entry.job,
                device=device,
                n=last + count,
                over=over,
                by=by,
                at=at,
                place=entry.place,
                value=entry.value,
                taken_back=entry.taken_back,
            )
            for count, (entry, over) in enumerate(taken, start=1)
        )
        return Undo(name=name, act=act, entries=made, built_on=built_on)
    return None


def _acts_left(unique: Mapping[str, Entry], device: str) -> Iterator[tuple[str, tuple[Entry, ...]]]:
    """Yield a device's acts that are not taken back, the last first, as far back as undo goes."""
    acts: dict[str, list[Entry]] = {}
    for entry in sorted(unique.values(), key=by_device):
        if entry.device == device:
            acts.setdefault(act_of(entry), []).append(entry)
    starts = {act_of(entry) for entry in unique.values() if entry.place == _START}
    own = [name for name in acts if not name.startswith(_UNDO) and name not in starts]
    newest = sorted(own, key=lambda name: (acts[name][-1].n, name), reverse=True)[:DEEPEST]
    yield from ((name, tuple(acts[name])) for name in newest if _undo_of(name) not in acts)


def _take_back(
    act: tuple[Entry, ...],
    live: Mapping[str, tuple[Entry, ...]],
    unique: Mapping[str, Entry],
    *,
    over_others: bool,
) -> tuple[list[tuple[Entry, tuple[str, ...]]], tuple[Entry, ...]]:
    """Return what an undo writes, each with the ids it stands over, and what others have built on the act."""
    taken: list[tuple[Entry, tuple[str, ...]]] = []
    built_on: list[Entry] = []
    at_place: dict[str, list[Entry]] = {}
    for entry in act:
        at_place.setdefault(entry.place, []).append(entry)
    for place, own in at_place.items():
        names = {entry.id for entry in own}
        standing = [each for each in live[place] if each.id in names or _stands_over(each, names, unique)]
        others = [each for each in standing if each.device != own[0].device]
        built_on += others
        if standing and (over_others or not others):
            over = tuple(each.id for each in standing)
            taken += [(before, over) for before in _before(own, unique)]
    return taken, tuple(built_on)


def _before(own: list[Entry], unique: Mapping[str, Entry]) -> list[Entry]:
    """Return what counted at a place before an act: values, or one entry that takes back."""
    names = {entry.id for entry in own}
    earlier = [unique[old] for entry in own for old in entry.over if old in unique and old not in names]
    values = {entry.id: entry for entry in earlier if entry.place == own[0].place and not entry.taken_back}
    return list(values.values()) or [replace(own[0], value=None, taken_back=True)]


def _undo_of(act: str) -> str:
    """Return the name of the act that takes an act back: always the same, so that it may be sent twice."""
    if len(act) > LONGEST_ID - 10:  # no room left for the count
        act = hashlib.sha256(act.encode()).hexdigest()[:32]
    return _UNDO + act


def _stands_over(entry: Entry, names: set[str], unique: Mapping[str, Entry]) -> bool:
    """Return whether an entry stands over one of these, directly or through others."""
    seen, ahead = {entry.id}, [entry]
    while ahead:
        for old in ahead.pop().over:
            if old in names:
                return True
            if old in unique and old not in seen:
                seen.add(old)
                ahead.append(unique[old])
    return False
