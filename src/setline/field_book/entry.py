"""One entry of the field book: a value at a place, or a value taken back. Nothing is ever erased.

The device that makes an entry gives it its id and its number ``n``; ``at`` is what that device's clock
said and is only shown, never used to order anything. ``over`` names the entries that this one stands in
for: what an entry replaces is said by the one who replaces it, so the order of arrival does not matter.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from setline.errors import InputError
from setline.wording import say

__all__ = ["Entry", "entry_from_dict", "entry_to_dict"]

LONGEST_ID = 64
LONGEST_PLACE = 300
MOST_OVER = 50
GREATEST_N = 2**53 - 1  # what a phone's own numbers hold exactly


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


def entry_to_dict(entry: Entry) -> dict[str, Any]:
    """Return the entry as a JSON object, for the wire and for backups."""
    return {**asdict(entry), "over": list(entry.over)}


def entry_from_dict(given: Any) -> Entry:
    """Return the entry that a JSON object describes.

    Raises:
        InputError: Something is missing, of the wrong kind or too long; the sentence says which.
    """
    if not isinstance(given, dict):
        raise InputError(say("entry-not-an-object", given=type(given).__name__))
    unknown = sorted(set(given) - set(Entry.__dataclass_fields__))
    if unknown:
        raise InputError(say("entry-unknown-field", field=unknown[0][:40]))
    over = given.get("over", [])
    if not isinstance(over, list) or len(over) > MOST_OVER:
        raise InputError(say("entry-field", field="over", allowed=f"a list of at most {MOST_OVER} ids"))
    taken_back = given.get("taken_back", False)
    if not isinstance(taken_back, bool):
        raise InputError(say("entry-field", field="taken_back", allowed="true or false"))
    if not taken_back and given.get("value") is None:
        raise InputError(
            say("entry-field", field="value", allowed="a value, unless the entry takes one back")
        )
    return Entry(
        id=_text(given, "id", LONGEST_ID),
        job=_text(given, "job", LONGEST_ID),
        device=_text(given, "device", LONGEST_ID),
        n=_count(given),
        over=tuple(_text({"over": item}, "over", LONGEST_ID) for item in over),
        by=_text(given, "by", 80, needed=False),
        at=_text(given, "at", 40, needed=False),
        place=_text(given, "place", LONGEST_PLACE),
        value=None if taken_back else given.get("value"),
        taken_back=taken_back,
    )


def _text(given: dict[str, Any], field: str, longest: int, *, needed: bool = True) -> str:
    """Return a text field, of a length that the store holds."""
    value = given.get(field, "")
    if not isinstance(value, str) or len(value) > longest or (needed and not value) or "\x00" in value:
        raise InputError(say("entry-field", field=field, allowed=f"a text of 1 to {longest} characters"))
    return value


def _count(given: dict[str, Any]) -> int:
    """Return the device's count."""
    n = given.get("n")
    if not isinstance(n, int) or isinstance(n, bool) or not 0 <= n <= GREATEST_N:
        raise InputError(say("entry-field", field="n", allowed="a whole number, 0 or more"))
    return n
