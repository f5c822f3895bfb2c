"""The kinds of field that a job is made of: lengths as typed, heights with their zero, spans.

A length in a file is a string as the tape shows it, or a whole number of the job's tape units; a float is
refused. Which tape it is stands in the validation context under ``tape``, put there by ``job.read``.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    WithJsonSchema,
    model_validator,
)
from pydantic_core.core_schema import ValidationInfo

from setline.lengths import Length, Tape, length_from_number, read_length

__all__ = ["NO_LIMIT", "ZERO", "Height", "LengthField", "Limit", "Model", "NoLimit", "Span"]

NoLimit = Literal["no limit"]
NO_LIMIT: NoLimit = "no limit"


def _as_length(value: Any, info: ValidationInfo) -> Length:
    """Read a length as typed on the job's tape."""
    tape = (info.context or {}).get("tape", Tape())
    if isinstance(value, Length):
        return value
    if isinstance(value, str):
        return read_length(value, tape)
    return length_from_number(value, tape)


LengthField = Annotated[
    Length,
    BeforeValidator(_as_length),
    PlainSerializer(lambda length: length.typed, return_type=str),
    WithJsonSchema(
        {
            "type": ["string", "integer"],
            "description": "A length as the tape shows it, such as 27 7/16 or 874 mm; "
            "a bare integer is whole tape units.",
            "examples": ["27 7/16", "9' 4 3/16", "874 mm", 24],
        }
    ),
]

Limit = LengthField | NoLimit


ZERO = r"^(subfloor|finished floor|level line|laser \S.*|line \S.*)$"
"""What a height may be stated from."""


class Model(BaseModel):
    """The base of every part of a job: frozen, and closed to names it does not know.

    What each field means stands in the text below it. ``job.schema`` reads those texts when the schema is
    asked for; letting pydantic read them on every start would cost more than all the rest of it.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        arbitrary_types_allowed=True,
        populate_by_name=True,
    )


class Height(Model):
    """A height with its zero: ``{ up = "34 1/2", from = "subfloor" }``; one without a zero is refused."""

    up: LengthField | None = None
    """Up from the zero."""
    down: LengthField | None = None
    """Down from the zero."""
    zero: str = Field(alias="from", pattern=ZERO)
    """``subfloor`` or ``finished floor`` (at the same place), ``laser S1`` (a set-up's laser line),
    ``line 1`` (a struck line), or, in a wish only, ``level line``."""

    @model_validator(mode="after")
    def _one_direction(self) -> Self:
        if (self.up is None) == (self.down is None):
            raise ValueError("a height goes up or down from its zero: give one of the two")
        return self


class Span(Model):
    """The least and the greatest that a width or height may be, and what is wished between them."""

    least: LengthField
    """Least it may be."""
    most: Limit = NO_LIMIT
    """Greatest it may be, or ``no limit``."""
    wish: LengthField | None = None
    """What is wished; without one, the middle of the window (the least, where there is no limit)."""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        most = self.most
        if isinstance(most, Length) and most.ticks < self.least.ticks:
            raise ValueError(f"the least, {self.least.typed}, is more than the most, {most.typed}")
        if self.wish is not None and (
            self.wish.ticks < self.least.ticks or (isinstance(most, Length) and self.wish.ticks > most.ticks)
        ):
            raise ValueError(f"the wish, {self.wish.typed}, lies outside the window")
        return self
