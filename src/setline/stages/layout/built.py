"""The rows of runs that hang together, with what each of them comes from.

A `Piece` says what a demand comes from, so that a conflict can be told and a remedy can name what gives.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from setline.stages.layout.asked import RunAsked
from setline.stages.layout.ends import BlindCorner, EndPlace
from setline.stages.layout.items import Item
from setline.stages.layout.lean import Side
from setline.stages.layout.pins import PinPlace, Tie
from setline.stages.layout.row import Row

__all__ = ["Built", "Demand", "Piece"]


class Demand(StrEnum):
    """What a piece of a conflict demands."""

    WIDTH = "width"
    LEAST = "least"
    MOST = "most"
    HELD = "held"
    END = "end"
    OPEN = "open"
    PULL = "pull"
    SIGHT = "sight"
    FACT = "fact"
    PIN = "pin"
    TIE = "tie"
    TOUCH = "touch"
    SET = "set"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What one quantity of the rows comes from.

    Attributes:
        demand: What it demands.
        run: The run it belongs to.
        item: The item, where it is one's.
        end: The end, where it is one's.
        blind: How a blind box may be pulled, where it is about that.
        pin: The pin, where it is one.
        tie: The tie, where it is one.
        side: Which edge of a set box it is.
    """

    demand: Demand
    run: str
    item: Item | None = None
    end: EndPlace | None = None
    blind: BlindCorner | None = None
    pin: PinPlace | None = None
    tie: Tie | None = None
    side: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """The rows of runs that hang together.

    Attributes:
        runs: The runs.
        rows: What must hold.
        nodes: Number of nodes, the origin included.
        joints: The node of every joint, run by run.
        pieces: What each piece of the rows comes from.
        placed: The pins at a place, must and wish.
        ties: The pins in line with another item, must and wish.
        held: Width at which an item is held for a tie by its centre, by the item's number.
    """

    runs: tuple[RunAsked, ...]
    rows: tuple[Row, ...]
    nodes: int
    joints: tuple[tuple[int, ...], ...]
    pieces: Mapping[str, Piece]
    placed: tuple[PinPlace, ...]
    ties: tuple[Tie, ...]
    held: Mapping[int, int]

    @property
    def pins(self) -> tuple[PinPlace | Tie, ...]:
        """All pins, those at a place first."""
        return (*self.placed, *self.ties)

    def is_shared(self, number: int) -> bool:
        """Return whether an item stands in more than one of the runs."""
        return sum(number in run.run.items for run in self.runs) > 1

    def sides(self, run: str, number: int) -> tuple[int, int]:
        """Return the nodes left and right of an item."""
        for asked, nodes in zip(self.runs, self.joints, strict=True):
            if asked.name == run:
                place = asked.run.items.index(number)
                return nodes[place], nodes[place + 1]
        raise KeyError(run)
