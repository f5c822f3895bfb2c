"""Which entries of a place count: those that no other stands over, whatever order they arrived in.

An entry names in ``over`` what it stands over. A name that is not there yet stands for an entry that is
late: when it comes, it is stood over already. No honest device makes entries that stand over each other in
a ring, since each names only what it has seen; where entries do (a copied id, a broken phone), those of the
ring count together until one from outside stands over them. So a place once written keeps a value.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from setline.field_book.entry import Entry, entry_to_dict

__all__ = ["by_device", "live_entries", "unique_entries"]

Over = Mapping[str, tuple[str, ...]]


def by_device(entry: Entry) -> tuple[str, int, str]:
    """Return the key that entries of a place are sorted by; no clock has a say in it."""
    return entry.device, entry.n, entry.id


def unique_entries(entries: Iterable[Entry]) -> dict[str, Entry]:
    """Return id -> entry, each once; of two contents under one id (no store keeps both) always the same."""
    unique: dict[str, Entry] = {}
    for entry in entries:
        other = unique.setdefault(entry.id, entry)
        if other is not entry and other != entry:
            unique[entry.id] = min(entry, other, key=lambda each: repr(entry_to_dict(each)))
    return unique


def live_entries(entries: Iterable[Entry]) -> dict[str, tuple[Entry, ...]]:
    """Return place -> its live entries, by (device, n, id); a taken-back one only where it stands alone."""
    places: dict[str, dict[str, Entry]] = defaultdict(dict)
    for entry in unique_entries(entries).values():
        places[entry.place][entry.id] = entry
    return {place: _live(places[place]) for place in sorted(places)}


def _live(entries: dict[str, Entry]) -> tuple[Entry, ...]:
    """Return the live ones among the entries of one place."""
    if len(entries) == 1:
        return tuple(entries.values())
    over = {
        each.id: tuple(old for old in each.over if old in entries and old != each.id)
        for each in entries.values()
    }
    ring = _rings(over) if _has_ring(over) else {name: name for name in over}
    stood_over = {old for name, olds in over.items() for old in olds if ring[old] != ring[name]}
    stood_over = {ring[name] for name in stood_over}  # what stands over one of a ring stands over all of it
    found = sorted((each for each in entries.values() if ring[each.id] not in stood_over), key=by_device)
    return tuple(each for each in found if not each.taken_back) or tuple(found)


def _has_ring(over: Over) -> bool:
    """Return whether some entries stand over each other, by peeling off what nothing stands over."""
    count = dict.fromkeys(over, 0)
    for olds in over.values():
        for old in olds:
            count[old] += 1
    free = [name for name, times in count.items() if not times]
    peeled = 0
    while free:
        peeled += 1
        for old in over[free.pop()]:
            count[old] -= 1
            if not count[old]:
                free.append(old)
    return peeled < len(over)


def _rings(over: Over) -> dict[str, str]:
    """Return for each entry the name of its ring (its strongly connected part), by Kosaraju's two walks."""
    back: dict[str, list[str]] = {name: [] for name in over}
    for name, olds in over.items():
        for old in olds:
            back[old].append(name)
    seen: set[str] = set()
    done = [name for start in over for name in _walk(start, over, seen)]
    ring: dict[str, str] = {}
    seen = set()
    for start in reversed(done):
        ring |= dict.fromkeys(_walk(start, back, seen), start)
    return ring


def _walk(start: str, ways: Mapping[str, Iterable[str]], seen: set[str]) -> list[str]:
    """Return what can be reached and was not seen yet, each after all that is reached through it."""
    if start in seen:
        return []
    seen.add(start)
    done: list[str] = []
    stack = [(start, iter(ways[start]))]
    while stack:
        name, rest = stack[-1]
        following = next((each for each in rest if each not in seen), None)
        if following is None:
            done.append(name)
            stack.pop()
        else:
            seen.add(following)
            stack.append((following, iter(ways[following])))
    return done
