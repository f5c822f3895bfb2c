"""The shim map of one wall: every box from above, with what goes under each of its bearing points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from setline.drawings.item_labels import label_item
from setline.drawings.labels import Label
from setline.drawings.scale import on_paper, page_of, usual_scales
from setline.drawings.shapes import Anchor, Drawing, Frame, Layer, Rect, Scale
from setline.drawings.shim_facts import (
    shim_description,
    shim_notes,
    shim_number,
    shim_table,
    shim_words,
)
from setline.drawings.shim_tags import TAG_SIZES, Tag, place_inside, place_outside
from setline.drawings.sketch import Sketch
from setline.drawings.standing import Standing, item_code, plain_name, runs_of, stand, wall_of
from setline.drawings.symbols import draw_item, draw_solid_side
from setline.drawings.title_block import draw_foot, draw_heading, draw_start, foot_height
from setline.lengths import TICKS_PER_INCH, Units, show
from setline.result import ItemKind, Plan, Shim
from setline.wording import say

__all__ = ["shim_map"]

_LEFT, _RIGHT = 9.5, 2.0
_SIZES = (*((size, 5.0) for size in TAG_SIZES if size >= 4.0), *((size, 0.0) for size in TAG_SIZES))
"""Size of the tags' numbers and least size of the boxes', the best to read first."""
_TIGHT = (6.5, 2.5)
"""Paper over the wall and under the fronts where no tag stands outside its box. [mm]"""
_CLEAR_BACK, _CLEAR_FRONT = 1.8, 1.2
"""Tags outside stand this far over the wall and under the fronts. [mm]"""
_TRIAL, _TRIAL_PAPER = (5e4, 5e4), Frame(1e5, 1e5)
_TOE = 20 * TICKS_PER_INCH
"""Where the front pair is drawn in a run that has no shims yet."""
_DEPTH = 24 * TICKS_PER_INCH
"""Depth shown where nothing stands."""
_READABLE = 24
"""A wall is broken into lengths under each other rather than drawn smaller than about this."""
_LARGEST = 8
_WORDS = 3.7


@dataclass(frozen=True, slots=True)
class _Length:
    """A length of the wall that is drawn in one go, with the things in it."""

    start: int
    end: int
    things: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class _Layout:
    """How a wall lies on its paper.

    Attributes:
        scale: The scale.
        lengths: The lengths it is broken into, each under the one before.
        size: Size of the tags' numbers.
        over: Paper over the wall.
        under: Paper under the fronts.
        whole: The wall from corner to corner.
    """

    scale: Scale
    lengths: tuple[_Length, ...]
    size: float
    over: float
    under: float
    whole: int

    def height(self, length: _Length) -> float:
        """Return how much paper a length takes, from top to bottom."""
        deepest = max([thing.item.depth for thing in length.things], default=_DEPTH)
        return self.over + on_paper(deepest, self.scale) + self.under


def shim_map(plan: Plan, wall: str, frame: Frame | None = None) -> Drawing:
    """Return the shim map of one wall.

    Args:
        plan: The plan.
        wall: The wall's letter.
        frame: The paper it may use; without one, a page laid sideways, letter or A4 by the job's tape.

    Returns:
        The drawing: boxes from above, the wall at the top; a tag at every bearing point, black where the
        box rests on the high spot, ``?`` where no reading is near, with a double edge over the limit. A
        long wall is broken into lengths under each other. In a run that cannot be solved boxes stand at
        wished sizes and every tag is ``?``.
    """
    units = Units(plan.units)
    paper = frame or page_of(units)
    runs = runs_of(plan, wall, "base")
    shims = [shim for shim in plan.shims if shim.wall == wall]
    sketch = Sketch(paper)
    short = ", ".join(run.name for run in runs if not run.solved)
    banner = say("do-not-set", run=short) if short else ""
    title = say("shim-title", wall=wall, what=shim_words(shims))
    top = draw_heading(sketch, plan, title, say("shim-aside"), banner=banner)
    notes = shim_notes(shims, short)
    layout = _fit(plan, wall, shims, notes, top, paper)
    start = top
    for length in layout.lengths:
        top = _draw_length(sketch, plan, length, shims, layout, top)
    height = draw_foot(sketch, layout.scale, units, notes, top + 2.0)
    first = layout.lengths[0]
    left = _left(first, layout.scale, paper) - on_paper(first.start, layout.scale)
    return sketch.finish(
        name=f"shims-{wall}",
        title=say("shim-drawing-title", job=plan.job_name, wall=wall),
        description=shim_description(plan, wall, shims),
        height=height,
        scale=layout.scale,
        origin=(left, start + layout.over),
        table=shim_table(shims, units),
    )


def _fit(plan: Plan, wall: str, shims: Sequence[Shim], notes: list[str], top: float, paper: Frame) -> _Layout:
    """Return the largest scale that fits, on one length if that can be read, else on several."""
    things = _things(plan, wall, shims)
    end = max([wall_of(plan, wall).length, *(thing.right for thing in things)])
    units = Units(plan.units)
    found = None
    for scale in usual_scales(units):
        lengths = _broken(things, end, int((paper.width - _LEFT - _RIGHT) / on_paper(1, scale)))
        if lengths is None or scale.ratio < (_READABLE if len(lengths) > 1 else _LARGEST):
            continue
        found = _layout(plan, wall, lengths, shims, scale)
        foot = 2.0 + foot_height(scale, units, notes, paper.width)
        if top + sum(map(found.height, lengths)) + foot <= paper.height:
            return found
    assert found is not None, "the smallest scale holds a thing of any width"
    return found


def _things(plan: Plan, wall: str, shims: Sequence[Shim]) -> tuple[Standing, ...]:
    """Return what stands at a wall, left to right, with its neighbours' corner boxes."""
    own = [thing for run in runs_of(plan, wall, "base") for thing in stand(run)]
    numbers = {thing.item.number for thing in own}
    length = wall_of(plan, wall).length
    for number in dict.fromkeys(shim.box for shim in shims if shim.box not in numbers):
        items = [item for run in plan.runs for item in run.items if item.number == number]
        places = [shim.u for shim in shims if shim.box == number]
        left, right = (0, max(places)) if min(places) < length / 2 else (min(places), length)
        own += [Standing(item, left, right, left, right, True) for item in items[:1]]
    return tuple(sorted(own, key=lambda thing: thing.left))


def _layout(
    plan: Plan, wall: str, lengths: tuple[_Length, ...], shims: Sequence[Shim], scale: Scale
) -> _Layout:
    """Return the layout with the largest tags that all stand in their boxes, else with the least."""
    whole = wall_of(plan, wall).length
    units = Units(plan.units)
    for size, number in _SIZES:
        layout = _Layout(scale, lengths, size, *_TIGHT, whole)
        if all(_stands_inside(length, shims, units, layout, number) for length in lengths):
            return layout
    size = TAG_SIZES[-1]
    over, under = _TIGHT
    for length in lengths:
        tags = _tags_of(length, shims, units, scale, _TRIAL)
        deepest = _TRIAL[1] + on_paper(max([t.item.depth for t in length.things], default=_DEPTH), scale)
        rows = (_TRIAL[1] - _CLEAR_BACK, deepest + _CLEAR_FRONT)
        trial = Sketch(_TRIAL_PAPER)
        outside = place_outside(trial, place_inside(trial, tags, size), size, rows)
        over = max([over, *(_TRIAL[1] - box[1] + 1.0 for box in outside)])
        under = max([under, *(box[3] - deepest + 1.0 for box in outside)])
    return _Layout(scale, lengths, size, over, under, whole)


def _broken(things: tuple[Standing, ...], end: int, most: int) -> tuple[_Length, ...] | None:
    """Return a wall as lengths of at most so much, broken at joints; None if a single thing is longer."""
    lengths: list[_Length] = []
    start = 0
    held: list[Standing] = []
    for thing in things:
        if held and thing.right - start > most:
            lengths.append(_Length(start, held[-1].right, tuple(held)))
            start, held = held[-1].right, []
        if thing.right - thing.left > most:
            return None
        if thing.right - start > most:
            start = thing.left
        held.append(thing)
    last = end if end - start <= most else max([start, *(thing.right for thing in held)])
    if last - start > most:
        last = start + most
    return (*lengths, _Length(start, last, tuple(held)))


def _left(length: _Length, scale: Scale, paper: Frame) -> float:
    """Return the x where a length starts, so that it stands in the middle of its paper."""
    spare = paper.width - _LEFT - _RIGHT - on_paper(length.end - length.start, scale)
    return _LEFT + spare / 2


def _stands_inside(
    length: _Length, shims: Sequence[Shim], units: Units, layout: _Layout, number: float
) -> bool:
    """Return whether every tag and every number of a length has room in its box."""
    trial = Sketch(_TRIAL_PAPER)
    tags = _tags_of(length, shims, units, layout.scale, _TRIAL)
    if place_inside(trial, tags, layout.size):
        return False
    boxes = [(t, _outline(t, *_TRIAL, layout.scale)) for t in length.things]
    return _number_items(trial, boxes, units, number)


def _number_items(
    sketch: Sketch, boxes: list[tuple[Standing, Rect]], units: Units, least: float = 0.0
) -> bool:
    """Write the items' numbers and names between their tags; False if one stands outside."""
    inside = True
    for thing, box in boxes:
        if thing.item.kind in (ItemKind.BOX, ItemKind.OPENING, ItemKind.EXISTING):
            name = plain_name(thing.item, show(thing.right - thing.left, units))
            inside &= label_item(sketch, box, item_code(thing.item), "", name, least=least)
    return inside


def _draw_length(
    sketch: Sketch, plan: Plan, length: _Length, shims: Sequence[Shim], layout: _Layout, top: float
) -> float:
    """Draw one length of the wall; return the y under it."""
    scale, back = layout.scale, top + layout.over
    left = _left(length, scale, sketch.frame) - on_paper(length.start, scale)
    start, end = left + on_paper(length.start, scale), left + on_paper(length.end, scale)
    wall_end = left + on_paper(max(length.start, min(length.end, layout.whole)), scale)
    draw_solid_side(sketch, (start, back), (wall_end, back))
    _write_ends(sketch, length, start, back)
    boxes = [(thing, _outline(thing, left, back, scale)) for thing in length.things]
    for thing, box in boxes:
        draw_item(sketch, thing.item.kind, box)
    tags = _tags_of(length, shims, Units(plan.units), scale, (left, back))
    fronts = [tag.at[1] for tag in tags if tag.away > 0]
    if fronts:
        toe = max(fronts)
        sketch.line(Layer.TOE, (start, toe), (end, toe))
        words = Label(say("shim-toe"), _WORDS)
        sketch.put(words, start - 1.6, toe + 1.2, Anchor.END)
    front = top + layout.height(length) - layout.under
    outside = place_inside(sketch, tags, layout.size)
    place_outside(sketch, outside, layout.size, (back - _CLEAR_BACK, front + _CLEAR_FRONT))
    _number_items(sketch, boxes, Units(plan.units))
    return front + layout.under


def _write_ends(sketch: Sketch, length: _Length, start: float, back: float) -> None:
    """Write where the wall is, and the corner it starts from."""
    sketch.put(Label(say("shim-wall"), _WORDS), start - 1.6, back + 1.2, Anchor.END)
    if length.start == 0:
        draw_start(sketch, start, back)
        sketch.put(Label(say("shim-left-corner"), _WORDS), start + 5.0, back - 2.2)


def _outline(thing: Standing, left: float, back: float, scale: Scale) -> Rect:
    """Return an item from above: its body's width, the wall at the top."""
    return (
        left + on_paper(thing.body_left, scale),
        back,
        left + on_paper(thing.body_right, scale),
        back + on_paper(thing.item.depth, scale),
    )


def _tags_of(
    length: _Length, shims: Sequence[Shim], units: Units, scale: Scale, zero: tuple[float, float]
) -> list[Tag]:
    """Return the tags of every box of a length, from left to right."""
    tags = []
    for thing in length.things:
        if thing.item.kind == ItemKind.BOX:
            box = _outline(thing, *zero, scale)
            tags += (
                _tags(thing, box, shims, units, scale, zero)
                if thing.is_placed
                else _unknown_tags(thing, box, scale)
            )
    return tags


def _unknown_tags(thing: Standing, box: Rect, scale: Scale) -> list[Tag]:
    """Return a ``?`` at each corner of a box whose run is not solved."""
    toe = box[1] + on_paper(min(_TOE, thing.item.depth), scale)
    return [
        Tag(thing.item.number, (x, y), "?", right, down, -down, False, False, False)
        for y, down in ((box[1], 1), (toe, -1))
        for x, right in ((box[0], 1), (box[2], -1))
    ]


def _tags(
    thing: Standing,
    box: Rect,
    shims: Sequence[Shim],
    units: Units,
    scale: Scale,
    zero: tuple[float, float],
) -> list[Tag]:
    """Return a box's tags, one a bearing point."""
    mine = [shim for shim in shims if shim.box == thing.item.number]
    outs = [shim.out for shim in mine]
    middle = (box[0] + box[2]) / 2
    tags = []
    for shim in sorted(mine, key=lambda shim: (shim.u, shim.out)):
        x, y = zero[0] + on_paper(shim.u, scale), zero[1] + on_paper(shim.out, scale)
        tags.append(
            Tag(
                box=shim.box,
                at=(x, y),
                text=shim_number(shim, units),
                right=1 if x <= middle else -1,
                down=1 if shim.out == min(outs) else -1 if shim.out == max(outs) else 0,
                away=-1 if shim.out < median(outs) else 1,
                is_high_spot=shim.is_high_spot,
                over_limit=shim.over_limit,
                is_known=shim.printed is not None,
            )
        )
    return tags
