"""Ways out of runs that cannot be solved, one kind at a time, each solved again to prove it.

A kind is offered only if it cures every conflict of its runs alone: where two conflicts meet, what mends
the one may make the other worse, and the shortfall of one is no cure. What gives is the least total over
the whole. Boxes change by the steps they are sold in (``other_box``). What a way out changes in the job
(``changes``) stands with it, unless it is work on site or a maker's sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from setline.job.order import Appliance
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Change, Remedy
from setline.rules import RuleBook
from setline.stages.layout.built import Built, Demand, Piece
from setline.stages.layout.changes import (
    corner_filler_change,
    filler_change,
    loosened_pins,
    open_end_change,
    stile_change,
)
from setline.stages.layout.elastic import least_relaxation
from setline.stages.layout.items import Item
from setline.stages.layout.other_box import can_stand, other_boxes, priced
from setline.stages.layout.row import Form, Gives, Row
from setline.stages.layout.solve import Stuck
from setline.wording import say

__all__ = ["ways_out"]


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
    found += other_boxes(stuck, book, units)
    return tuple(sorted(found, key=lambda each: (each.days, each.hours, each.amount)))


Given = Sequence[tuple[Row, int]]
"""Rows that give, and by how much."""


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

    def written(self, given: Given) -> Iterator[Change]:
        """Yield what it changes in the job; nothing where it is work on site or a maker's sheet."""
        yield from ()

    def item(self, row: Row) -> Item:
        """Return the item whose row it is."""
        item = self.built.pieces[row.piece].item
        assert item is not None, "this row is an item's"
        return item

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
        amount = sum(by for _, by in given)
        yield priced(self.book, kind, text[:1].upper() + text[1:], amount, self.written(given))

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
        width = self._width(row, by)
        if piece.demand is Demand.SIGHT:
            return say("change-corner-filler", what=piece.item.said, width=self.show(width))
        least = row.gives is Gives.FILLER_LEAST
        told = say(
            "change-narrower" if least else "change-wider",
            what=piece.item.said,
            width=self.show(width),
            limit=self.show(abs(row.at_most)),
        )
        stock = self.book.length("filler-stock")
        return told if width <= stock else say("change-over-stock", told=told, stock=self.show(stock))

    def _width(self, row: Row, by: int) -> int:
        """Return the width that a filler comes to."""
        if row.gives is Gives.FILLER_LEAST:
            return -row.at_most - by
        return row.at_most + by if row.gives is Gives.FILLER_MOST else self.book.length("corner-filler") - by

    def kind_of(self, given: Iterable[Row]) -> str:
        return "wider-filler" if all(row.gives is Gives.FILLER_MOST for row in given) else "narrower-filler"

    def written(self, given: Given) -> Iterator[Change]:
        corners = [self._width(row, by) for row, by in given if self._is_corner(row)]
        if corners:
            yield corner_filler_change(min(corners), self.units)
        for row, by in given:
            if not self._is_corner(row):
                least = row.gives is Gives.FILLER_LEAST
                yield filler_change(self.item(row), self._width(row, by), self.units, is_least=least)

    def _is_corner(self, row: Row) -> bool:
        """Return whether a row is about the filler beside a blind box."""
        return self.built.pieces[row.piece].demand is Demand.SIGHT


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

    def written(self, given: Given) -> Iterator[Change]:
        pieces = [self.built.pieces[row.piece] for row, _ in given]
        pins = [pin for piece in pieces if (pin := piece.pin or piece.tie) is not None]
        return loosened_pins(pins, self.built.runs)


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

    def written(self, given: Given) -> Iterator[Change]:
        narrower = {self.item(row).number: self.item(row).least - by for row, by in given}
        if can_stand(self.built, narrower, self.units):
            yield from (stile_change(self.item(row), by, self.units) for row, by in given)


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

    def written(self, given: Given) -> Iterator[Change]:
        runs = {run.name: run for run in self.built.runs}
        for row, by in given:
            piece = self.built.pieces[row.piece]
            assert piece.end is not None, "an end's row comes from an end"
            assert piece.end.at is not None, "this open end has a place"
            at = piece.end.at - by if piece.end.side == "left" else piece.end.at + by
            yield open_end_change(runs[piece.run], piece.end.side, at, self.units)


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
