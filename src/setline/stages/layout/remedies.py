"""Ways out of runs that cannot be solved, one kind at a time, each solved again to prove it.

A kind is offered only if it cures every conflict of its runs alone: where two conflicts meet, what mends
the one may make the other worse, and the shortfall of one is no cure. What gives is the least total over
the whole. Boxes change by the steps they are sold in, so there a box is changed, and the runs are built and
solved anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from setline.job.order import Appliance, Box
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import ItemKind, Remedy
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built, Demand, Piece
from setline.stages.layout.conflict import Trouble
from setline.stages.layout.elastic import least_relaxation
from setline.stages.layout.items import Item
from setline.stages.layout.pins import Tie
from setline.stages.layout.row import Form, Gives, Row
from setline.stages.layout.settle import hold_centres, pinned_items
from setline.stages.layout.solve import Stuck
from setline.wording import say

__all__ = ["ways_out", "with_width"]


def ways_out(stuck: Stuck, book: RuleBook, units: Units) -> tuple[Remedy, ...]:
    """Return every kind of remedy that cures all conflicts alone: by days, then hours, then amount.

    Args:
        stuck: Runs that cannot all be solved.
        book: The rules, for what each kind costs and how far it goes.
        units: The job's tape.
    """
    found: list[Remedy] = []
    for way in (_Fillers, _Pins, _Stiles, _Plaster, _OpenEnds, _Sheets):
        found += way(stuck.built, book, units).remedies()
    found += _other_box(stuck, book, units)
    return tuple(sorted(found, key=lambda each: (each.days, each.hours, each.amount)))


def _remedy(book: RuleBook, kind: str, text: str, amount: int) -> Remedy:
    """Return a remedy with what its kind costs."""
    cost = book.remedy(kind)
    return Remedy(kind=kind, text=text, amount=amount, hours=cost.hours, days=cost.days)


class _Way:
    """One kind of remedy: which rows may give, how far, and what to say of each that does."""

    kind = ""

    def __init__(self, built: Built, book: RuleBook, units: Units) -> None:
        self.built, self.book, self.units = built, book, units

    def limit(self, row: Row, piece: Piece) -> int | None:
        """Return by how much a row may give: 0 not at all, None without limit."""
        raise NotImplementedError

    def change(self, row: Row, piece: Piece, by: int) -> str:
        """Return what it means that a row gives."""
        raise NotImplementedError

    def kind_of(self, given: Iterable[Row]) -> str:
        """Return the kind of remedy by what gives."""
        return self.kind

    def remedies(self) -> Iterator[Remedy]:
        """Yield the remedy, if it cures all."""
        pieces, rows = self.built.pieces, self.built.rows
        limits = {id(row): self.limit(row, pieces[row.piece]) for row in rows}
        if not any(limit != 0 for limit in limits.values()):
            return
        cure = least_relaxation(rows, self.built.nodes, lambda row: limits[id(row)])
        if cure is None or not cure.given:
            return
        # What gives more than it must still cures: nobody planes 19/64 and a bit.
        given = [(row, self._whole(by, limits[id(row)])) for row, by in cure.given]
        kind = self.kind_of(row for row, _ in given)
        changes = "; ".join(self.change(row, pieces[row.piece], by) for row, by in given)
        text = say(f"remedy-{kind}", changes=changes)
        yield _remedy(self.book, kind, text[:1].upper() + text[1:], sum(by for _, by in given))

    def _whole(self, by: int, limit: int | None) -> int:
        """Return an amount rounded up to what a tape shows, within its limit."""
        whole = round_to(by, fine_step(self.units), Rounding.UP)
        return whole if limit is None else min(whole, limit)

    def show(self, ticks: int) -> str:
        """Return a length as the job's tape shows it."""
        return show(ticks, self.units)


class _Fillers(_Way):
    """Fillers narrower than their least, or wider than their most."""

    def limit(self, row: Row, piece: Piece) -> int | None:
        narrowest = self.book.length("filler-narrowest")
        if row.gives is Gives.FILLER_LEAST:
            return max(0, -row.at_most - narrowest)
        if row.gives is Gives.FILLER_MOST:
            return max(0, 2 * self.book.length("filler-stock") - row.at_most)
        if piece.demand is Demand.SIGHT:
            return max(0, self.book.length("corner-filler") - narrowest)
        return 0

    def change(self, row: Row, piece: Piece, by: int) -> str:
        assert piece.item is not None, "a filler's limit is an item's"
        if piece.demand is Demand.SIGHT:
            filler = self.book.length("corner-filler")
            return say("change-corner-filler", what=piece.item.said, width=self.show(filler - by))
        least = row.gives is Gives.FILLER_LEAST
        width = -row.at_most - by if least else row.at_most + by
        told = say(
            "change-narrower" if least else "change-wider",
            what=piece.item.said,
            width=self.show(width),
            limit=self.show(abs(row.at_most)),
        )
        stock = self.book.length("filler-stock")
        return told if width <= stock else say("change-over-stock", told=told, stock=self.show(stock))

    def kind_of(self, given: Iterable[Row]) -> str:
        return "wider-filler" if all(row.gives is Gives.FILLER_MOST for row in given) else "narrower-filler"


class _Pins(_Way):
    """Edges and centres that are pinned moved off their places."""

    kind = "move-pin"

    def limit(self, row: Row, piece: Piece) -> int | None:
        return None if row.gives is Gives.PIN else 0

    def change(self, row: Row, piece: Piece, by: int) -> str:
        pin = piece.pin or piece.tie
        assert pin is not None, "a pin's row comes from a pin"
        assert piece.item is not None, "a pin is an item's"
        if row.form is Form.APART:
            to_right = row.high in self.built.sides(pin.run, piece.item.number)
        else:
            to_right, by = row.form is Form.SUM_MOST, -(-by // 2)
        return say(
            "change-pin",
            what=piece.item.said,
            by=self.show(by),
            way=say("to-the-right" if to_right else "to-the-left"),
            place=pin.said,
        )


class _Stiles(_Way):
    """Stiles planed, no farther than the frame stands past the body."""

    kind = "scribe-stile"

    def limit(self, row: Row, piece: Piece) -> int | None:
        if piece.demand is not Demand.WIDTH or piece.item is None or row.at_most > 0:
            return 0
        return piece.item.overhang_left + piece.item.overhang_right

    def change(self, row: Row, piece: Piece, by: int) -> str:
        assert piece.item is not None, "a width is an item's"
        return say("change-stile", what=piece.item.said, by=self.show(by))


class _Plaster(_Way):
    """End walls cut back."""

    kind = "cut-plaster"

    def limit(self, row: Row, piece: Piece) -> int | None:
        end = piece.end
        if piece.demand is not Demand.END or end is None or end.kind != "wall":
            return 0
        outward = row.high == 0 if end.side == "left" else row.low == 0
        return self.book.length("plaster-depth") if outward else 0

    def change(self, row: Row, piece: Piece, by: int) -> str:
        assert piece.end is not None, "an end's row comes from an end"
        return say("change-plaster", what=piece.end.said, by=self.show(by))


class _OpenEnds(_Way):
    """Open ends that reach past their limit."""

    kind = "shift-run"

    def limit(self, row: Row, piece: Piece) -> int | None:
        return None if piece.demand is Demand.OPEN else 0

    def change(self, row: Row, piece: Piece, by: int) -> str:
        assert piece.end is not None, "an end's row comes from an end"
        return say("change-open", run=piece.run, by=self.show(by), what=piece.end.said)


class _Sheets(_Way):
    """Openings that stand at general sizes: the maker's sheet may ask for less, or allow more."""

    kind = "check-sheet"

    def limit(self, row: Row, piece: Piece) -> int | None:
        thing = piece.item.order if piece.item else None
        if piece.demand not in (Demand.LEAST, Demand.MOST) or not isinstance(thing, Appliance):
            return 0
        is_general = thing.sheet != "from the sheet" and thing.kind != "other"
        return self.book.length("sheet-may-differ") if is_general else 0

    def change(self, row: Row, piece: Piece, by: int) -> str:
        assert piece.item is not None, "a window is an item's"
        width = abs(row.at_most) + (by if row.at_most > 0 else -by)
        return say("change-sheet", what=piece.item.said, width=self.show(width))


@dataclass(frozen=True, slots=True)
class _Swap:
    """A box to be had in another width."""

    item: Item
    width: int
    steps: int


def _other_box(stuck: Stuck, book: RuleBook, units: Units) -> Iterator[Remedy]:
    """Yield the one box that cures all in a narrower width, and the one in a wider."""
    built = stuck.built
    pinned = pinned_items(built)
    for trouble, kind in ((Trouble.SHORT, "smaller-box"), (Trouble.OVER, "next-stock-size")):
        swaps = list(_swaps(stuck, trouble, book.length("stock-step")))
        swaps.sort(key=lambda swap: (swap.steps, swap.item.number in pinned, -swap.item.wished))
        for swap in swaps:
            if _cures(built, swap, units):
                text = say(
                    f"remedy-{kind}",
                    what=swap.item.said,
                    width=show(swap.width, units),
                    instead=show(swap.item.wished, units),
                )
                yield _remedy(book, kind, text[:1].upper() + text[1:], abs(swap.width - swap.item.wished))
                break


def _swaps(stuck: Stuck, trouble: Trouble, step: int) -> Iterator[_Swap]:
    """Yield the boxes of conflicts of one kind in the widths that could cure them."""
    seen: set[int] = set()
    for reason in stuck.reasons:
        conflict = reason.conflict
        if conflict.trouble is not trouble:
            continue
        for name in conflict.pieces:
            piece = reason.built.pieces[name]
            item = piece.item
            if item is None or piece.demand is not Demand.WIDTH or item.number in seen:
                continue
            if not isinstance(item.order, Box) or item.order.corner or item.order.blind:
                continue
            seen.add(item.number)
            sign = -1 if trouble is Trouble.SHORT else 1
            for steps in (1, 2, 3, 4):
                width = item.order.width.ticks + sign * steps * step
                enough = abs(width - item.wished) >= conflict.shortfall
                if enough and 3 * step <= width <= 16 * step:
                    yield _Swap(item, width, steps)


def _cures(built: Built, swap: _Swap, units: Units) -> bool:
    """Return whether the runs can be solved with one box in another width."""
    runs, ties = with_width(built.runs, built.ties, swap.item.number, swap.width)
    return hold_centres(runs, built.placed, ties, units)[1] is not None


def with_width(
    runs: Iterable[RunAsked], ties: Iterable[Tie], number: int, width: int
) -> tuple[tuple[RunAsked, ...], tuple[Tie, ...]]:
    """Return runs and ties with one item of another width."""

    def changed(item: Item) -> Item:
        if item.number != number or item.kind is not ItemKind.BOX:
            return item
        return replace(item, least=width, most=width, wished=width)

    return (
        tuple(replace(run, items=tuple(changed(item) for item in run.items)) for run in runs),
        tuple(replace(tie, item=changed(tie.item), other=changed(tie.other)) for tie in ties),
    )
