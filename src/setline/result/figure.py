"""A printed number and what it rests on."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Figure"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A printed number with what it rests on.

    Attributes:
        value: The exact value in ticks, or None where no reading supports one (it prints as ``?``).
        within: Half the width of its 95 % range in ticks, or None where no doubt was worked out.
        readings: Addresses of the readings it rests on, each with the text as typed.
        rule: Id of the rule of the trade it rests on, if any.
        working: The arithmetic, a line a step, in the crew's own notation.
    """

    value: int | None
    within: int | None = None
    readings: tuple[str, ...] = ()
    rule: str | None = None
    working: tuple[str, ...] = ()
