"""One entry of the field book: a value at a place, or a value taken back. Nothing is ever erased.

The device that makes an entry gives it its id and its number ``n``; ``at`` is what that device's clock
said and is only shown, never used to order anything. ``over`` names the entries that this one stands in
for: what an entry replaces is said by the one who replaces it, so the order of arrival does not matter.

What was done in one go is an **act**: its entries have ids of one name and a count, ``<act>-1``, ``<act>-2``.
They are taken back together. An id without a count is an act by itself.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import Any

from setline.errors import InputError
from setline.wording import say

__all__ = ["Entry", "act_of", "checked", "entry_from_dict", "entry_to_dict"]

LONGEST_ID = 64
LONGEST_PLACE = 300
LONGEST_VALUE = 200_000  # as JSON; the order of five thousand readings fits
DEEPEST_VALUE = 40  # lists within lists; the deepest of a job file has six
MOST_OVER = 50
GREATEST_N = 2**53 - 1  # what a phone's own numbers hold exactly

_OF_AN_ACT = re.compile(r"(?P<act>.+)-[0-9]+", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """An entry.

    Attributes:
        id: Made on the device, unique.
        job: The job's id in the store.
        device: The device that made it.
        n: That device's own count of entries, growing.
        over: Ids of the entries it stands in for.
        by: Who was holding the device.
        at: What the device's clock said, as ISO 8601 text; shown only.
        place: An address in the job (``places``).
        value: The value as JSON has it; None where ``taken_back``.
        taken_back: Whether this takes back what it stands over and puts nothing there.
    """

    id: str
    job: str
    device: str
    n: int
    over: tuple[str, ...] = ()
    by: str = ""
    at: str = ""
    place: str
    value: Any = None
    taken_back: bool = False


def act_of(entry: Entry) -> str:
    """Return the act that an entry is of.

    Example:
        >>> act_of(Entry(id="9f3a-2", job="j", device="truck", n=7, place="/job/name", value="Tern Lane"))
        '9f3a'
    """
    found = _OF_AN_ACT.fullmatch(entry.id)
    return entry.id if found is None else found["act"]


def entry_to_dict(entry: Entry) -> dict[str, Any]:
    """Return the entry as a JSON object, for the wire and for backups."""
    fields = {field: getattr(entry, field) for field in Entry.__dataclass_fields__}
    return {**fields, "over": list(entry.over)}


def entry_from_dict(given: Any) -> Entry:
    """Return the entry that a JSON object describes.

    Raises:
        InputError: Something is missing, of the wrong kind or too long; the sentence says which.
    """
    if not isinstance(given, dict):
        raise InputError(say("entry-not-an-object", given=type(given).__name__))
    unknown = sorted(set(map(str, given)) - set(Entry.__dataclass_fields__))
    if unknown:
        raise InputError(say("entry-unknown-field", field=unknown[0][:40]))
    over = given.get("over", [])
    if not isinstance(over, list):
        raise _wrong("over", say("entry-over", most=MOST_OVER))
    needed = {field: given.get(field, "") for field in ("id", "job", "device", "place")}
    maybe = {field: given[field] for field in ("n", "by", "at", "value", "taken_back") if field in given}
    return checked(Entry(over=tuple(over), **{"n": None, **needed, **maybe}))


def checked(entry: Entry) -> Entry:
    """Return the entry if every field of it can be kept, whatever made it.

    Raises:
        InputError: A field is of the wrong kind, missing or too long; the sentence says which.
    """
    for field, longest in (("id", LONGEST_ID), ("job", LONGEST_ID), ("device", LONGEST_ID)):
        _check_text(field, getattr(entry, field), longest)
    for field, longest in (("by", 80), ("at", 40)):
        _check_text(field, getattr(entry, field), longest, needed=False)
    _check_text("place", entry.place, LONGEST_PLACE)
    if not entry.place.startswith("/"):
        raise InputError(say("place-not-a-pointer", place=entry.place))
    if len(entry.over) > MOST_OVER:
        raise _wrong("over", say("entry-over", most=MOST_OVER))
    for old in entry.over:
        _check_text("over", old, LONGEST_ID)
    if not isinstance(entry.n, int) or isinstance(entry.n, bool) or not 0 <= entry.n <= GREATEST_N:
        raise _wrong("n", say("entry-count"))
    if not isinstance(entry.taken_back, bool):
        raise _wrong("taken_back", say("entry-yes-or-no"))
    _check_value(entry)
    return entry


def _wrong(field: str, allowed: str) -> InputError:
    """Return the refusal of one field."""
    return InputError(say("entry-field", field=field, allowed=allowed))


def _check_text(field: str, value: Any, longest: int, *, needed: bool = True) -> None:
    """Refuse a text that the store cannot hold, or none where one is needed."""
    is_text = isinstance(value, str) and len(value) <= longest and "\x00" not in value
    if not is_text or (needed and not value) or not _is_unicode(value):
        raise _wrong(field, say("entry-text", longest=longest))


def _check_value(entry: Entry) -> None:
    """Refuse a value that JSON does not have, that is too long, or that is missing or too many."""
    if entry.taken_back:
        if entry.value is not None:
            raise _wrong("value", say("entry-value-taken-back"))
        return
    if entry.value is None:
        raise _wrong("value", say("entry-value-needed"))
    try:
        text = json.dumps(entry.value, ensure_ascii=False, allow_nan=False)
    except (TypeError, ValueError, RecursionError):
        raise _wrong("value", say("entry-value-json")) from None
    if not _is_within(entry.value, DEEPEST_VALUE):
        raise _wrong("value", say("entry-value-json"))
    if len(text) > LONGEST_VALUE or not _is_unicode(text):
        raise _wrong("value", say("entry-value-long", longest=LONGEST_VALUE))


def _is_within(value: Any, depth: int) -> bool:
    """Return whether a value nests no deeper than so many levels."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return depth > 0 and all(_is_within(each, depth - 1) for each in inner)


def _is_unicode(text: str) -> bool:
    """Return whether a text can be written down; half a sign, as some programs cut them, cannot."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True
