"""A conflict as a sentence: from where to where, what room there is, what the pieces need, what is missing.

The pieces are named in the order of the room; pieces of nothing are left out. A box pinned by its centre is
a row about its left edge; what a person measured is the centre, so half its width is given back to both
sides of the sum.

Two rows of a wall can miss each other as well: what one brings a joint to at the least, the other keeps it
from. Then both are told, each from its own end. What is neither is listed, demand by demand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from setline.lengths import Units, show
from setline.stages.layout.built import Built, Demand, Piece
from setline.stages.layout.conflict import Conflict, Trouble
from setline.stages.layout.items import Item
from setline.stages.layout.pins import Edge3
from setline.stages.layout.row import Row
from setline.stages.layout.rows import offset_of
from setline.stages.layout.solve import runs_in
from setline.wording import say

__all__ = ["Told", "tell"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A conflict in words.

    Attributes:
        code: Code of its finding.
        run: The run it is told of.
        text: The sentence.
        readings: Addresses of the readings behind its places.
    """

    code: str
    run: str
    text: str
    readings: tuple[str, ...]


def tell(conflict: Conflict, built: Built, units: Units) -> Told:
    """Return a conflict in words."""
    teller = _Teller(conflict, built, units)
    code, text = teller.one_row() or teller.two_rows() or teller.listed()
    return Told(code=code, run=teller.run, text=text, readings=_readings(conflict, built))


def _readings(conflict: Conflict, built: Built) -> tuple[str, ...]:
    """Return the readings behind the places of a conflict."""
    found: list[str] = []
    for name in conflict.pieces:
        piece = built.pieces[name]
        if piece.end is not None:
            found += piece.end.figure.readings
        elif piece.pin is not None:
            found += piece.pin.figure.readings
        elif piece.item is not None and piece.item.stands is not None and piece.side is not None:
            stands = piece.item.stands
            found += (stands.left if piece.side == "left" else stands.right).readings
    return tuple(dict.fromkeys(found))


@dataclass(frozen=True, slots=True)
class _Said:
    """A row with what it comes from."""

    row: Row
    piece: Piece

    @property
    def is_bound(self) -> bool:
        """Whether it speaks of a place along the wall."""
        return 0 in (self.row.low, self.row.high)

    @property
    def is_width(self) -> bool:
        """Whether it is the width of an item of one width."""
        return self.piece.demand in (Demand.WIDTH, Demand.HELD)


class _Teller:
    """One conflict, and the ways to tell it."""

    def __init__(self, conflict: Conflict, built: Built, units: Units) -> None:
        self._conflict, self._built = conflict, built
        self._show: Callable[[int], str] = lambda ticks: show(ticks, units)
        self.run = runs_in(conflict, built)[0]
        self._rows = [_Said(row, built.pieces[row.piece]) for row in conflict.rows]
        self._is_simple = all(uses == 1 for uses in conflict.uses)

    def one_row(self) -> tuple[str, str] | None:
        """Return the sentence of pieces between two places of one row, or None if it is not that."""
        is_short = self._conflict.trouble is Trouble.SHORT
        bounds = [said for said in self._rows if said.is_bound]
        inner = [said for said in self._rows if not said.is_bound]
        if not (
            self._is_simple
            and len(bounds) == 2
            and inner
            and all(said.row.gives.is_piece and (said.row.at_most <= 0) == is_short for said in inner)
            and not any(said.piece.demand in (Demand.PULL, Demand.SIGHT) for said in bounds)
        ):
            return None
        # What is short starts at "at least so far from the origin", what is left over at "at most".
        first, last = sorted(bounds, key=lambda said: (said.row.high == 0) != is_short)
        words, given_back = self._words(inner, first.piece, last.piece)
        text = say(
            "conflict-short" if is_short else "conflict-over",
            run=self.run,
            start=self._place(first.piece),
            end=self._place(last.piece),
            room=self._show(self._conflict.room + given_back),
            needed=self._show(self._conflict.needed + given_back),
            pieces=", ".join(words),
            short=self._show(self._conflict.shortfall),
        )
        return ("run-too-short" if is_short else "run-too-long"), text

    def _words(self, inner: Sequence[_Said], first: Piece, last: Piece) -> tuple[list[str], int]:
        """Return the pieces in words, halves of pinned boxes included, and what these give to both sums."""
        given_back = 0
        before: list[str] = []
        after: list[str] = []
        halved: dict[int, str] = {}
        for piece, added in ((first, before), (last, after)):
            half = self._half(piece)
            if not half or piece.item is None:
                continue
            number = piece.item.number
            word = say("half-of", what=piece.item.said, half=self._show(half))
            if any(said.is_width and said.piece.item and said.piece.item.number == number for said in inner):
                halved[number] = word
                given_back -= half
            else:
                added.append(word)
                given_back += half
        return [*before, *self._labels(inner, halved), *after], given_back

    def _half(self, piece: Piece) -> int:
        """Return half the width of an item pinned by its centre, or 0."""
        if piece.pin is None or piece.item is None or piece.pin.pin.edge != "centre":
            return 0
        return offset_of(piece.item, "centre", self._built.held)[1]

    def _place(self, piece: Piece) -> str:
        """Return what to call a place along the wall."""
        if piece.end is not None:
            return piece.end.said
        assert piece.item is not None, "a place is an end's, a pin's or an item's"
        if piece.demand is Demand.SET:
            return self._said_set("set-edge", piece)
        if piece.pin is None:
            return say("existing-edge", what=piece.item.said)
        if self._half(piece) and piece.pin.pin.at is None:
            return piece.pin.said
        at, edge = self._show(piece.pin.at), piece.pin.pin.edge
        if edge == "centre":
            return say("pinned-centre", what=piece.item.said, at=at)
        return say("pinned-edge", edge=edge, what=piece.item.said, at=at)

    def _said_set(self, key: str, piece: Piece) -> str:
        """Return an edge of a set box in words: a fact, with its place."""
        assert piece.item is not None, "a set box is an item"
        assert piece.item.stands is not None, "a set box stands somewhere"
        stands = piece.item.stands
        at = stands.left_at if piece.side == "left" else stands.right_at
        return say(key, edge=piece.side, what=piece.item.said, at=self._show(at))

    def two_rows(self) -> tuple[str, str] | None:
        """Return the sentence of two rows that miss each other at a joint, or None if it is not that."""
        ties = [said for said in self._rows if said.piece.demand is Demand.TIE]
        if not self._is_simple or len(ties) > 1:
            return None
        tie = ties[0] if ties else None
        upper, lower = self._chain(tie, forward=True), self._chain(tie, forward=False)
        if not upper or not lower or len(upper) + len(lower) + len(ties) != len(self._rows):
            return None
        most = self._edge(upper[-1].row.high, sum(said.row.at_most for said in upper), tie)
        least = self._edge(lower[-1].row.low, -sum(said.row.at_most for said in lower), tie)
        if most is None or least is None:
            return None
        text = say(
            "conflict-in-line",
            least=self._from(lower),
            low_edge=least[0],
            low_at=self._show(least[1]),
            most=self._from(upper),
            high_edge=most[0],
            high_at=self._show(most[1]),
            short=self._show(self._conflict.shortfall),
        )
        return "rows-conflict", text

    def _chain(self, tie: _Said | None, *, forward: bool) -> list[_Said]:
        """Return the rows from the origin on: forward those of "at most", back those of "at least"."""
        chain: list[_Said] = []
        node = 0
        while True:
            step = next(
                (
                    said
                    for said in self._rows
                    if said is not tie
                    and said not in chain
                    and (said.row.low if forward else said.row.high) == node
                    and (said.is_bound or (said.row.at_most >= 0) == forward)
                ),
                None,
            )
            if step is None or (chain and step.is_bound):
                return chain
            chain.append(step)
            node = step.row.high if forward else step.row.low

    def _edge(self, node: int, at: int, tie: _Said | None) -> tuple[str, int] | None:
        """Return what to call the edge at a joint, and its place: the one that is tied, else a tall box's."""
        if tie is not None and tie.piece.tie is not None:
            own = tie.piece.tie
            for on, item, edge in (
                (own.run, own.item, own.edge),
                (own.other_run, own.other, own.other_edge),
            ):
                if node in self._built.sides(on, item.number):
                    return self._said_edge(item, edge), at + offset_of(item, edge, self._built.held)[1]
            return None
        for asked, nodes in zip(self._built.runs, self._built.joints, strict=True):
            for item, left, right in zip(asked.items, nodes, nodes[1:], strict=False):
                if node in (left, right) and self._built.is_shared(item.number):
                    return self._said_edge(item, "left" if node == left else "right"), at
        return None

    @staticmethod
    def _said_edge(item: Item, edge: Edge3) -> str:
        return say(f"{edge}-of", what=item.said)

    def _from(self, chain: Sequence[_Said]) -> str:
        """Return a place and the pieces that lead on from it."""
        start = self._place(chain[0].piece)
        words = self._labels(chain[1:], {})
        at = self._show(abs(chain[0].row.at_most))
        key = "from-with" if words else "from-alone"
        return say(key, run=chain[0].piece.run, start=start, at=at, pieces=", ".join(words))

    def listed(self) -> tuple[str, str]:
        """Return the sentence that lists every demand."""
        short = self._show(self._conflict.shortfall)
        demands = "; ".join(dict.fromkeys(self._demands()))
        return "places-conflict", say("conflict-listed", run=self.run, pieces=demands, short=short)

    def _demands(self) -> Iterator[str]:
        """Yield every demand in words."""
        for said in self._rows:
            row, piece = said.row, said.piece
            if piece.pin is not None and piece.item is not None:
                edge = piece.pin.pin.edge
                yield say("pin-demand", what=piece.item.said, edge=edge, place=piece.pin.said)
            elif piece.tie is not None:
                yield say("tie-demand", what=piece.tie.item.said, edge=piece.tie.edge, place=piece.tie.said)
            elif piece.demand is Demand.SET:
                yield self._said_set("set-demand", piece)
            elif piece.demand is Demand.END and piece.end is not None:
                is_open = piece.end.kind == "open"
                at = piece.end.wall_at if is_open else piece.end.at
                what = say(f"{piece.end.side}-wall") if is_open else piece.end.said
                yield say("end-demand", what=what, at=self._show(at or 0))
            elif row.at_most or piece.demand is Demand.TOUCH:
                yield self._word(said)

    def _labels(self, inner: Sequence[_Said], halved: dict[int, str]) -> list[str]:
        """Return the pieces in words; some are halved, and those of nothing are left out."""
        words = []
        for said in inner:
            number = said.piece.item.number if said.piece.item is not None else 0
            if said.is_width and number in halved:
                words.append(halved[number])
            elif said.row.at_most:
                words.append(self._word(said))
        return words

    def _word(self, said: _Said) -> str:
        """Return one demand in words."""
        piece, size = said.piece, self._show(abs(said.row.at_most))
        if piece.item is None:
            return piece.end.said if piece.end is not None else ""
        what, blind = piece.item.said, piece.blind
        if blind is not None and piece.demand is Demand.PULL:
            return say("pulled-at-most", what=what, pull=self._show(blind.most_pull))
        if blind is not None and piece.demand is Demand.SIGHT:
            return say(
                "in-sight",
                what=what,
                visible=self._show(blind.visible),
                beside=blind.said,
                away=self._show(blind.in_sight_from or 0),
            )
        keys = {
            Demand.LEAST: "at-least",
            Demand.MOST: "at-most",
            Demand.TOUCH: "touches",
            Demand.FACT: "stands-at",
        }
        return say(keys.get(piece.demand, "of-width"), what=what, width=size)
