"""What each item of a run asks for: its widths, its overhangs, how high it stands, and whether it may give.

A box asks for exactly its frame's width, as measured where it was measured. An opening asks for a clear width
between frames within its maker's window; it is wished at the wish of its sheet, else at the middle of its
window. A filler asks for a width within its limits and may take up slack. Heights are counted from the level
line, up positive: a base box hangs its top on it, a tall box stands on the bases' foot, and the boxes of a
wall row all reach the same line at their tops, since that is the line the eye follows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from setline.job.fields import Span
from setline.job.job import Job
from setline.job.order import Appliance, Box, Existing, Filler, Panel
from setline.job.runs import Run
from setline.lengths import TICKS_PER_INCH, Length, Units, show
from setline.result import ItemKind
from setline.rules import RuleBook
from setline.stages.layout.stands import Stands
from setline.wording import say

__all__ = ["Item", "Ordered", "items_of", "ordered_things"]

Ordered = Box | Filler | Panel | Appliance | Existing


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """An item of a run, as the layout sees it.

    Attributes:
        number: Its number.
        kind: Box, opening, filler, panel or existing.
        name: What to call it on a drawing, such as ``sink 33``.
        said: What to call it in a sentence, such as ``sink box 3``.
        least: Least width. [ticks]
        most: Greatest width, or None for no limit.
        wished: Width it is wished at.
        has_wish: Whether that width was asked for in so many words.
        overhang_left: Frame past the body on the left.
        overhang_right: Frame past the body on the right.
        bottom: Height of its underside above the level line.
        top: Height of its top above the level line.
        depth: Front to back, without the front.
        face: How far its front stands from the wall.
        gives: Whether it takes up slack.
        order: What was ordered (or stands there already).
        stands: Where it stands, if it is a box that is set; then its width is the one it came to.
    """

    number: int
    kind: ItemKind
    name: str
    said: str
    least: int
    most: int | None
    wished: int
    has_wish: bool = False
    overhang_left: int = 0
    overhang_right: int = 0
    bottom: int = 0
    top: int = 0
    depth: int = 0
    face: int = 0
    gives: bool = False
    order: Ordered
    stands: Stands | None = None

    @property
    def is_box(self) -> bool:
        """Whether it is a cabinet."""
        return self.kind is ItemKind.BOX

    @property
    def is_tall(self) -> bool:
        """Whether it is a box that belongs to both rows."""
        return isinstance(self.order, Box) and self.order.kind == "tall"

    @property
    def is_fixed_width(self) -> bool:
        """Whether its width is one number."""
        return self.least == self.most

    @property
    def group(self) -> str | None:
        """The group of fillers that it stays equal with."""
        return self.order.group if isinstance(self.order, Filler) else None

    @property
    def scribed(self) -> bool:
        """Whether it is a filler scribed to a wall."""
        return isinstance(self.order, Filler) and self.order.scribed


def ordered_things(job: Job) -> dict[int, Ordered]:
    """Return all that was ordered or stands there, by number."""
    order = job.order
    everything: tuple[Ordered, ...] = (
        *order.boxes,
        *order.fillers,
        *order.panels,
        *order.appliances,
        *order.existing,
    )
    return {each.number: each for each in everything}


def items_of(
    run: Run, things: dict[int, Ordered], book: RuleBook, *, units: Units, bottom: int
) -> tuple[Item, ...]:
    """Return what the items of a run ask for, left to right.

    Args:
        run: The run.
        things: All that was ordered, by number.
        book: The rules.
        units: The job's tape, for names.
        bottom: Underside of a wall row above the level line; of a base row minus the base height. [ticks]
    """
    found = [_item(things[number], units) for number in run.items]
    is_wall = run.row == "wall"
    boxes = [item for item in found if item.is_box and not item.is_tall]
    depth = _row_depth(boxes) or book.length("wall-depth" if is_wall else "base-depth")
    front = book.length("front-thickness")
    foot = -book.length("base-height")
    top = bottom + max((item.top for item in boxes), default=_HEIGHT_WITHOUT_BOX) if is_wall else 0
    stood = []
    for item in found:
        low, high = _heights(item, is_wall=is_wall, foot=foot, bottom=bottom, top=top)
        is_deep = isinstance(item.order, Box)
        face = item.face or (item.depth if is_deep else depth) + front
        stood.append(replace(item, bottom=low, top=high, depth=item.depth if is_deep else depth, face=face))
    return tuple(_beside(stood, place) for place in range(len(stood)))


_HEIGHT_WITHOUT_BOX = 30 * TICKS_PER_INCH
"""How high a wall row is taken to be that has no box in it to tell."""


def _row_depth(boxes: Sequence[Item]) -> int | None:
    """Return the depth that most boxes of a row have, the deeper of equals, or None without a box."""
    counted = Counter(item.depth for item in boxes)
    return max(counted, key=lambda depth: (counted[depth], depth), default=None)


def _item(thing: Ordered, units: Units) -> Item:
    """Return one thing as an item; a box's own height stands in ``top`` until it has its place."""
    if isinstance(thing, Box):
        return _box(thing, units)
    if isinstance(thing, Appliance):
        name = thing.name or thing.kind
        return _spanned(thing, ItemKind.OPENING, name, f"{name} {thing.number}", thing.width)
    if isinstance(thing, Filler):
        name = thing.name or say("filler-name")
        said = say("scribed-filler" if thing.scribed else "plain-filler", number=thing.number)
        return _spanned(thing, ItemKind.FILLER, name, said, thing.width, gives=thing.gives)
    if isinstance(thing, Panel):
        width, name = thing.thickness.ticks, thing.name or say("panel-name")
        return _fixed(thing, ItemKind.PANEL, name, say("panel-said", number=thing.number), width)
    width = thing.right.ticks - thing.left.ticks
    return _fixed(thing, ItemKind.EXISTING, thing.name, f"{thing.name} {thing.number}", width)


def _fixed(thing: Ordered, kind: ItemKind, name: str, said: str, width: int) -> Item:
    """Return an item of one width."""
    return Item(
        number=thing.number,
        kind=kind,
        name=name,
        said=said,
        least=width,
        most=width,
        wished=width,
        order=thing,
    )


def _spanned(
    thing: Ordered, kind: ItemKind, name: str, said: str, span: Span, *, gives: bool = False
) -> Item:
    """Return an item whose width may vary: wished at its wish, else at the middle of its window."""
    least = span.least.ticks
    most = span.most.ticks if isinstance(span.most, Length) else None
    middle = least if most is None else (least + most) // 2
    return Item(
        number=thing.number,
        kind=kind,
        name=name,
        said=said,
        least=least,
        most=most,
        wished=middle if span.wish is None else span.wish.ticks,
        has_wish=span.wish is not None,
        gives=gives,
        order=thing,
    )


def _box(box: Box, units: Units) -> Item:
    """Return a box as an item: as wide as measured, else as ordered."""
    width = (box.measured or box.width).ticks
    left = box.overhang_left.ticks if box.overhang_left else 0
    right = box.overhang_right.ticks if box.overhang_right else 0
    said = say("named-box" if box.name else "box-said", name=box.name, number=box.number)
    return Item(
        number=box.number,
        kind=ItemKind.BOX,
        name=f"{box.name or box.kind} {show(box.width.ticks, units)}",
        said=said,
        least=width,
        most=width,
        wished=width,
        overhang_left=left,
        overhang_right=right,
        top=box.height.ticks,
        depth=box.depth.ticks,
        face=box.depth.ticks + box.front.ticks if box.front else 0,
        order=box,
    )


def _heights(item: Item, *, is_wall: bool, foot: int, bottom: int, top: int) -> tuple[int, int]:
    """Return an item's underside and top: a box's by its own height, an opening's by what it needs."""
    thing = item.order
    if item.is_tall:
        return foot, foot + item.top
    if isinstance(thing, Box):
        return top - item.top, top
    if isinstance(thing, Appliance) and not is_wall:
        needed = foot + thing.height.least.ticks if thing.height else 0
        return foot, max(0, needed) if thing.height_to == "under the top" else 0
    if isinstance(thing, Panel) and thing.height:
        height = thing.height.ticks
        return (top - height, top) if is_wall else (foot, foot + height)
    return (bottom if is_wall else foot), top


def _beside(row: Sequence[Item], place: int) -> Item:
    """Return the item at a place; a filler or a panel without a height stands as the lower box beside it."""
    item = row[place]
    thing = item.order
    if not isinstance(thing, Filler | Panel) or (isinstance(thing, Panel) and thing.height):
        return item
    near = [each for each in (*row[max(0, place - 1) : place], *row[place + 1 : place + 2]) if each.is_box]
    if not near:
        return item
    lower = min(near, key=lambda each: each.top - each.bottom)
    return replace(item, bottom=lower.bottom, top=lower.top, depth=lower.depth, face=lower.face)
