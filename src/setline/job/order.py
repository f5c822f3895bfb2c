"""What was ordered: boxes, fillers, panels, appliances, tops; and what stands there already."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from setline.job.fields import Height, LengthField, Model, Span
from setline.job.room import WallName

__all__ = [
    "Appliance",
    "Blind",
    "Box",
    "Corner",
    "Existing",
    "Filler",
    "Legs",
    "Order",
    "Panel",
    "Tops",
]

Number = Field(ge=1, le=9999, strict=True)


class Legs(Model):
    """Adjustable legs under a box."""

    least: LengthField
    """Least height they can be turned to."""
    most: LengthField
    """Greatest height."""
    inset: LengthField | None = None
    """From the body edge to a leg's centre; without it, by the rule ``leg-inset``."""


class Corner(Model):
    """A corner box fills the corner: its width lies along its own run, this much along the next wall."""

    along_next: LengthField
    """How much of the neighbouring wall it takes, from the corner."""


class Blind(Model):
    """A blind corner box: part of it hides behind the neighbouring run."""

    side: Literal["left", "right"]
    """Which of its ends is blind, facing it."""
    visible: LengthField
    """Width of frame that must stay in sight beside the neighbouring run and its filler."""
    most_pull: LengthField
    """Farthest it may be pulled from the corner."""


class Box(Model):
    """A cabinet."""

    number: int = Number
    """Unique in the job, kept for life."""
    kind: Literal["base", "wall", "tall"]
    """A tall box belongs to both rows of its wall."""
    name: str = ""
    """What it is, such as ``sink`` or ``drawers``."""
    width: LengthField
    """Width of its frame as ordered (of its body, if frameless)."""
    measured: LengthField | None = None
    """Width of its frame as measured; it stands over the ordered width."""
    overhang_left: LengthField | None = None
    """How far the frame stands past the body on the left; without it, 0."""
    overhang_right: LengthField | None = None
    """The same on the right."""
    height: LengthField
    """Height as ordered, kick or legs included."""
    depth: LengthField
    """Body and frame, without the front."""
    front: LengthField | None = None
    """Thickness of door and drawer fronts; without it, by the rule ``front-thickness``."""
    rear_void: LengthField | None = None
    """Space behind its back for services; without it, 0."""
    toe_height: LengthField | None = None
    """Height of its toe kick; without it, by the rule ``toe-height``."""
    support: Literal["sides", "legs", "ladder base", "ledger and front legs", "wall rail"] | None = None
    """What it stands or hangs on; without it, ``wall rail`` for a wall box, ``sides`` for others."""
    legs: Legs | None = None
    """Its legs, where it has them."""
    finished: tuple[Literal["left", "right"], ...] = ()
    """Ends that show."""
    may_trim: LengthField | None = None
    """How much may be cut off its foot; without it, by the rule ``trim-limit``; 0 forbids it."""
    corner: Corner | None = None
    """For a box that fills an inside corner."""
    blind: Blind | None = None
    """For a blind corner box."""
    delivery: Literal["here", "not here", "damaged"] = "here"
    """Its state."""


class Filler(Model):
    """A strip between a box and a wall, a box or an appliance."""

    number: int = Number
    """Unique in the job."""
    name: str = ""
    """What it is for."""
    width: Span
    """Least, most, and what is wished; without a wish it takes what is left."""
    gives: bool = Field(default=True, strict=True)
    """Whether it may take up slack."""
    scribed: bool = Field(default=False, strict=True)
    """Whether it is scribed to a wall."""
    group: str | None = None
    """Fillers of one group stay equal."""


class Panel(Model):
    """A panel that stands in a run."""

    number: int = Number
    """Unique in the job."""
    name: str = ""
    """What it is for."""
    thickness: LengthField
    """Its thickness."""
    height: LengthField | None = None
    """Its height; without it, as the row beside it."""
    finished: bool = Field(default=True, strict=True)
    """Whether it shows."""


class Appliance(Model):
    """An appliance, by its maker's sheet; it stands in a run as an opening."""

    number: int = Number
    """Number of its opening, unique in the job."""
    kind: Literal["dishwasher", "range", "refrigerator", "oven", "hood", "microwave", "other"]
    """What it is."""
    name: str = ""
    """What to call it; without it, its kind."""
    width: Span
    """Clear width of its opening between frames."""
    height: Span | None = None
    """Clear height it needs from the finished floor, see ``height_to``."""
    height_to: Literal["under the top", "top of the top"] = "under the top"
    """Whether ``height`` is measured to the underside of the stone (the box tops) or to its upper face."""
    depth: LengthField | None = None
    """Depth with its handle."""
    sheet: Literal["from the sheet", "general, check the sheet"] = "general, check the sheet"
    """Where its sizes come from."""
    sheet_date: str | None = None
    """Date or edition of the sheet."""


class Tops(Model):
    """The tops, as far as heights rest on them."""

    thickness: LengthField
    """From the box tops to the upper face, with any board under the stone."""


class Existing(Model):
    """Something that stands already and stays: a fact of the layout."""

    number: int = Number
    """Unique in the job."""
    name: str
    """What it is."""
    wall: str = WallName
    """The wall it stands at."""
    row: Literal["base", "wall"] = "base"
    """The row it stands in."""
    left: LengthField
    """u of its left edge, as read."""
    right: LengthField
    """u of its right edge, as read."""
    top: Height | None = None
    """Height of its top, where it binds the level line (a top that stays)."""


class Order(Model):
    """The order."""

    boxes: tuple[Box, ...] = ()
    """Cabinets."""
    fillers: tuple[Filler, ...] = ()
    """Fillers."""
    panels: tuple[Panel, ...] = ()
    """Panels."""
    appliances: tuple[Appliance, ...] = ()
    """Appliances that take an opening."""
    existing: tuple[Existing, ...] = ()
    """What stands already."""
    tops: Tops | None = None
    """The tops."""
