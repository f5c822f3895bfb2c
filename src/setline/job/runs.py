"""The runs: what stands in which order between which ends, and what is pinned where."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from setline.job.fields import Height, LengthField, Model
from setline.job.order import Number
from setline.job.room import WallName

__all__ = ["End", "Pin", "Run"]


class End(Model):
    """What closes one end of a run."""

    kind: Literal["wall", "corner", "open"] = "wall"
    """``wall``: the wall of the room at that corner. ``corner``: the faces of the run round that corner.
    ``open``: a finished end that stops at ``at``, or anywhere if ``at`` is not given."""
    at: LengthField | None = None
    """For an open end: farthest u it may reach."""
    run: str | None = Field(default=None, pattern=r"^[A-Z] (base|wall)$")
    """For a corner: the run round it, such as ``B base``."""


class Pin(Model):
    """Ties one edge or the centre of an item to a place or to an item of another row.

    One of ``at``, ``window``, ``middle`` and ``beside`` says where.
    """

    item: int = Number
    """Number of the item."""
    edge: Literal["left", "centre", "right"]
    """Which of its edges (a box's frame)."""
    at: LengthField | None = None
    """At this u."""
    window: str | None = None
    """At the centre of the window of this name."""
    middle: bool = Field(default=False, strict=True)
    """At the middle of the wall."""
    beside: Annotated[int, Number] | None = None
    """In line with the item of this number, in any row of the same wall."""
    beside_edge: Literal["left", "centre", "right"] | None = None
    """Which of that item's edges; without it, the same edge."""
    strength: Literal["must", "wish"] = "must"
    """Whether it holds or only ought to."""
    rank: int = Field(default=1, ge=1, le=9, strict=True)
    """Among wishes, which counts first."""

    @model_validator(mode="after")
    def _one_place(self) -> Self:
        places = [self.at is not None, self.window is not None, self.middle, self.beside is not None]
        if sum(places) != 1:
            raise ValueError("a pin names one place: at, window, middle or beside")
        return self


class Run(Model):
    """One row of items along a wall, left to right facing it."""

    wall: str = WallName
    """The wall's letter."""
    row: Literal["base", "wall"] = "base"
    """A tall box is listed in the base row and, where there is one, in the wall row of the same wall."""
    items: tuple[Annotated[int, Number], ...] = Field(min_length=1)
    """Numbers of boxes, fillers, panels, openings and existing things, left to right."""
    left: End = End()
    """What closes its left end."""
    right: End = End()
    """What closes its right end."""
    pins: tuple[Pin, ...] = ()
    """What is pinned."""
    bottom: Height | None = None
    """For a wall row: height of its underside; without it, ``wall-box-bottom`` above the level line."""
