"""Runs as laid out: items, joints and marks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from setline.result.figure import Figure

__all__ = ["AsSetPlace", "Edge", "ItemKind", "ItemPlace", "Joint", "Mark", "RunPin", "RunPlan"]


class ItemKind(StrEnum):
    """What stands in a run."""

    BOX = "box"
    OPENING = "opening"
    FILLER = "filler"
    PANEL = "panel"
    EXISTING = "existing"


class Edge(StrEnum):
    """Which edge a mark is struck at."""

    JOINT = "joint"
    BODY = "body"


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Where two items of a run meet, or an item and the end.

    Attributes:
        name: ``A base 3 left``; the last of a run is ``A base end``.
        chosen: u of the joint, or None in a run that cannot be solved.
        earliest: Least u that every hard limit allows, or None as above.
        latest: Greatest u that every hard limit allows.
        play_left: How far it can still go to the left while pins hold and wishes are met as well as they are;
            None where nothing limits it, or as above.
        play_right: The same to the right.
    """

    name: str
    chosen: int | None
    earliest: int | None
    latest: int | None
    play_left: int | None = None
    play_right: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPin:
    """What holds one edge or the centre of an item, or would like to.

    Attributes:
        of_item: Number of the item.
        edge: ``left``, ``centre`` or ``right``.
        said: What the place is called, such as ``the window centre``.
        at: u of the place, or None where it lies at an item that has no place.
        beside: Number of the item that it lines up with, if it does.
        wish_rank: None for a *must*; of a wish, which counts first.
        missed: By how much a wish is missed, to the right positive.
    """

    of_item: int
    edge: str
    said: str
    at: int | None
    beside: int | None = None
    wish_rank: int | None = None
    missed: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """What is struck on the wall for a joint.

    Attributes:
        name: The joint's name.
        at: The exact u of the mark, from the wall's left corner.
        printed: The same in ticks after the one rounding, or None for ``?``; every face prints this.
        edge: Whether it stands at the joint or at a box's body edge.
        of_item: Number of the box whose body edge it is, if it is one.
        write: What to write on the wall, literally, such as ``31 1/2 |3>``.
        struck: u of the mark as it is on the wall, or None if it is not.
        agreed: u of the mark as it was said yes to, or None if it was not.
    """

    name: str
    at: Figure
    printed: int | None
    edge: Edge
    of_item: int | None
    write: str
    struck: int | None = None
    agreed: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AsSetPlace:
    """What was read of a box that is set.

    Attributes:
        left: u of the left edge of its frame as read, or None where it was not; it stands as planned.
        right: The same on the right.
        below_line_left: From the struck line down to its top, front left, or None where it was not read.
        below_line_right: The same at the front right.
        off_wall: How far its back stands off the wall, or None.
        growth: How much wider it came to stand than it was measured or ordered.
        screwed: Whether its screws are in.
    """

    left: Figure | None
    right: Figure | None
    below_line_left: int | None = None
    below_line_right: int | None = None
    off_wall: int | None = None
    growth: int = 0
    screwed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemPlace:
    """An item of a run where it stands.

    Attributes:
        number: Its number, unique in the job.
        kind: Box, opening, filler, panel or existing.
        name: What to call it on a drawing, such as ``sink 33`` or ``dishwasher``.
        left: u of its left joint (a box's frame edge), or None in an unsolved run.
        right: u of its right joint.
        body_left: u of a box's body edge; of any other thing, ``left``.
        body_right: The same on the right.
        wished: The width it was ordered or wished at.
        least: Least width it may have (equal to ``most`` for a box).
        most: Greatest width it may have, or None for no limit.
        bottom: Height of its underside above the level line (negative is below).
        top: Height of its top above the level line.
        depth: Front to back.
        as_set: What was read of it, if it is a box that is set.
    """

    number: int
    kind: ItemKind
    name: str
    left: int | None
    right: int | None
    body_left: int | None
    body_right: int | None
    wished: int
    least: int
    most: int | None
    bottom: int
    top: int
    depth: int
    as_set: AsSetPlace | None = None

    @property
    def is_set(self) -> bool:
        """Whether it is a box that stands."""
        return self.as_set is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPlan:
    """One row of items between two ends, solved or not.

    Attributes:
        name: ``A base`` or ``A wall``.
        wall: The wall's letter.
        row: ``base`` or ``wall``.
        left_end: u of the usable left end.
        right_end: u of the usable right end.
        solved: False if no layout satisfies every hard limit; then nothing is placed and the run is
            drawn at wished sizes, headed DO NOT SET.
        overrun: By how much the pieces overrun the room they have; below 0, how much they leave over at their
            most. None if solved, or if the run only waits for another that cannot be.
        items: Left to right.
        joints: One more than items.
        marks: One a joint.
        pins: What is pinned, in the job's order.
    """

    name: str
    wall: str
    row: str
    left_end: Figure
    right_end: Figure
    solved: bool
    overrun: int | None
    items: tuple[ItemPlace, ...]
    joints: tuple[Joint, ...]
    marks: tuple[Mark, ...]
    pins: tuple[RunPin, ...] = ()
