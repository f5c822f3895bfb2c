"""A plan as plain data for other programs: what ``plan.json`` holds (docs/plan.md names every field).

A length becomes ``{"text": "13 3/8", "ticks": 869696}``: the text as every face prints it, and exact ticks. A
length that is not known is ``null``. The grid of the floor picture is left in bare ticks, since it is long.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import StrEnum
from typing import Any

from setline.lengths import Units, show
from setline.result.finding import Change
from setline.result.floor import SurfaceGrid
from setline.result.plan import Plan

__all__ = ["COUNTS", "FORMAT", "plan_as_dict"]

FORMAT = 1
"""Version of the form; it steps when a field goes away or changes its meaning."""
COUNTS = frozenset({"number", "box", "of_item", "beside", "wish_rank"})
"""Whole numbers that are names and not lengths."""


def plan_as_dict(plan: Plan) -> dict[str, Any]:
    """Return the plan as dicts, lists, texts and numbers, ready for JSON.

    Args:
        plan: Any plan.

    Returns:
        The plan's fields by name, with ``format`` before them; the same for the same plan.
    """
    units = Units(plan.units)
    return {"format": FORMAT, **_fields(plan, units)}


def length(ticks: int, units: Units) -> dict[str, Any]:
    """Return a length as its printed text and its exact ticks."""
    return {"text": show(ticks, units), "ticks": ticks}


def _fields(thing: Any, units: Units) -> dict[str, Any]:
    """Return a result class by the names of its fields."""
    return {field.name: _value(field.name, getattr(thing, field.name), units) for field in fields(thing)}


def _value(name: str, value: Any, units: Units) -> Any:
    """Return one value: a length where a whole number is one, as it is anywhere else."""
    if value is None or isinstance(value, bool | float | str):
        return str(value) if isinstance(value, StrEnum) else value
    if isinstance(value, int):
        return value if name in COUNTS else length(value, units)
    if isinstance(value, dict):
        return {key: _value(key, part, units) for key, part in value.items()}
    if name == "trims":
        return [{"box": box, "trim": length(trim, units)} for box, trim in value]
    if isinstance(value, tuple):
        return [_value(name, part, units) for part in value]
    if isinstance(value, Change):  # a piece of a job's document: its numbers are no ticks
        return {"place": list(value.place), "value": value.value}
    assert is_dataclass(value), f"{name} is of no kind that a plan holds"
    if isinstance(value, SurfaceGrid):
        return {field.name: _bare(getattr(value, field.name)) for field in fields(value)}
    return _fields(value, units)


def _bare(value: Any) -> Any:
    """Return the grid's numbers as they are, in ticks."""
    return [_bare(part) for part in value] if isinstance(value, tuple) else value
