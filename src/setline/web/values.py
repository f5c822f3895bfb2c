"""A value of the field book as text for people: a height with its zero, a list, a plain text."""

from __future__ import annotations

from typing import Any

from setline.wording import say

__all__ = ["value_text"]


def value_text(value: Any) -> str:
    """Return a value as text.

    Example:
        >>> value_text({"down": "11 1/4", "from": "laser S1"})
        '11 1/4 down from laser S1'
    """
    if isinstance(value, dict) and "from" in value:
        way = "up" if value.get("up") is not None else "down"
        return say("value-height", length=value.get(way), way=way, zero=value["from"])
    if isinstance(value, dict):
        return ", ".join(f"{field} {value_text(inner)}" for field, inner in value.items())
    if isinstance(value, list):
        return ", ".join(map(value_text, value))
    if isinstance(value, bool):
        return say("value-yes" if value else "value-no")
    return str(value)
