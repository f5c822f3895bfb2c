"""Runs as a kitchen has them, made up at random: the rows, and what is wished of them."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from setline.lengths import TICKS_PER_INCH
from setline.stages.layout.preference import Wish
from setline.stages.layout.row import Gives, Row, at_least, at_most, exactly

__all__ = ["InventedRun", "invented_run", "invented_runs"]

BOX_WIDTHS = (9, 12, 15, 18, 21, 24, 27, 30, 33, 36)
OPENINGS = ((24, 24.25), (30, 30.5), (36, 37))


@dataclass(frozen=True, slots=True, kw_only=True)
class InventedRun:
    """A run between two walls.

    Attributes:
        rows: What must hold.
        nodes: Number of nodes.
        wishes: What is wished, first what counts most: a centre line, openings, fillers.
    """

    rows: tuple[Row, ...]
    nodes: int
    wishes: tuple[Wish, ...]


def _ticks(inches: float) -> int:
    return round(inches * TICKS_PER_INCH)


class _Run:
    """Lays items side by side from a first joint on."""

    def __init__(self, random: Random, first: int) -> None:
        self.random = random
        self.last = first
        self.length = 0
        self.rows: list[Row] = []
        self.openings: list[Wish] = []
        self.fillers: list[Wish] = []

    def lay(self, least: int, most: int | None, wished: int, softness: tuple[Gives, Gives]) -> Wish:
        """Lay something whose width has a window and return its wish."""
        left, right = self.last, self.last + 1
        name = f"item {right}"
        self.rows.append(at_least(left, right, least, f"{name} at least", f"{name} least", softness[0]))
        if most is not None:
            self.rows.append(at_most(left, right, most, f"{name} at most", f"{name} most", softness[1]))
        self.last = right
        self.length += wished
        return Wish(left, right, wished)

    def filler(self) -> None:
        """Lay a filler of 3/4 to 3."""
        kinds = (Gives.FILLER_LEAST, Gives.FILLER_MOST)
        self.fillers.append(self.lay(_ticks(0.75), _ticks(3), _ticks(1.5), kinds))

    def opening(self) -> None:
        """Lay an opening for an appliance."""
        least, most = self.random.choice(OPENINGS)
        kinds = (Gives.WINDOW_LEAST, Gives.WINDOW_MOST)
        self.openings.append(self.lay(_ticks(least), _ticks(most), _ticks((least + most) / 2), kinds))

    def box(self) -> None:
        """Lay a box, now and then a sixteenth off its width."""
        width = _ticks(self.random.choice(BOX_WIDTHS)) + self.random.choice((0, 0, 0, _ticks(1 / 16)))
        left, right = self.last, self.last + 1
        self.rows += exactly(left, right, width, f"box {right}", f"box {right}", Gives.WIDTH)
        self.last = right
        self.length += width


def invented_run(seed: int, items: int, *, first: int = 1, possible: bool = True) -> InventedRun:
    """Return a run of so many items between two walls.

    Args:
        seed: Makes it up.
        items: How many items stand in it, fillers and openings included; 6 or more.
        first: Number of its first joint.
        possible: Whether it is made so that it has a layout; if not, the walls or a pin leave it short.
    """
    random = Random(seed)
    run = _Run(random, first)
    kinds = ["opening"] * (items // 5) + ["filler"] + ["box"] * (items - items // 5 - 3)
    random.shuffle(kinds)
    for kind in ["filler", *kinds, "filler"]:
        getattr(run, kind)()
    spare = random.randint(-16, 16) * _ticks(1 / 16)
    pinned = random.randrange(first + 2, run.last - 1)
    at = _ticks(3 * random.random()) // 4064 * 4064
    if not possible:
        spare = -_ticks(4)
    rows = [
        *run.rows,
        *exactly(0, first, 0, "left wall", f"left wall {first}", Gives.FACT),
        *exactly(0, run.last, run.length + spare, "right wall", f"right wall {first}", Gives.FACT),
    ]
    half_way = Wish(0, pinned, run.length * (pinned - first) // items + at)
    return InventedRun(rows=tuple(rows), nodes=run.last + 1, wishes=(half_way, *run.openings, *run.fillers))


def invented_runs(count: int, items: int) -> InventedRun:
    """Return so many runs of so many items each that share nothing but the origin."""
    rows: list[Row] = []
    wishes: list[Wish] = []
    nodes = 1
    for seed in range(count):
        run = invented_run(seed, items, first=nodes)
        rows += run.rows
        wishes += run.wishes
        nodes = run.nodes
    return InventedRun(rows=tuple(rows), nodes=nodes, wishes=tuple(wishes))
