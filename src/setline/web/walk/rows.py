"""A spot as the page's script knows it: one flat record, so that a walk goes on without the server."""

from __future__ import annotations

from typing import Any

from setline.web.walk.context import WalkContext, skip_place
from setline.web.walk.spots import Spot, ticks_or_none

__all__ = ["record_of"]


def record_of(spot: Spot, context: WalkContext) -> dict[str, Any]:
    """Return what the script needs of a spot; what is empty is left out."""
    skip = skip_place(spot.key)
    record: dict[str, Any] = {
        "key": spot.key,
        "place": spot.place,
        "group": spot.group,
        "words": spot.words,
        "stand": spot.stand,
        "hold": spot.hold,
        "read": spot.read,
        "say": spot.say,
        "short": spot.short,
        "line": spot.line,
        "along": spot.along,
        "family": spot.family,
        "state": spot.state,
        "height": spot.height,
        "also": [each for each in spot.also if each[0] not in context.live],
        "over": spot.over,
        "typed": spot.typed,
        "ticks": spot.ticks,
        "expected": spot.expected,
        "value": _value(context, spot.place),
        "skip": skip,
        "skipOver": tuple(entry.id for entry in context.live.get(skip, ())),
        "skipped": spot.skipped,
        "skipValue": _value(context, skip),
    }
    if spot.first_place:
        record |= {
            "first": spot.first,
            "firstTicks": ticks_or_none(spot.first, context.tape),
            "firstPlace": spot.first_place,
            "firstOver": tuple(entry.id for entry in context.live.get(spot.first_place, ())),
            "firstValue": _value(context, spot.first_place),
        }
    return {name: value for name, value in record.items() if value not in (None, "", (), [])}


def _value(context: WalkContext, place: str) -> Any:
    """Return the value that stands at a place, or None."""
    found = context.live.get(place, ())
    return None if not found or found[0].taken_back else found[0].value
