"""Runs made up at random, as rows: one or two rows of items between walls, some of them not possible."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from random import Random

from setline.stages.layout.preference import Wish
from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly

SIXTEENTH = 4064


@dataclass(frozen=True, slots=True, kw_only=True)
class RandomRun:
    """A run at random.

    Attributes:
        rows: What must hold.
        nodes: Number of nodes.
        wishes: Wished widths, first the one that counts most.
        fillers: Fillers that stay equal.
        has_centre: Whether a centre of something of varying width is held.
    """

    rows: tuple[Row, ...]
    nodes: int
    wishes: tuple[Wish, ...]
    fillers: tuple[Wish, ...]
    has_centre: bool


class _Maker:
    """Lays rows of items side by side."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.rows: list[Row] = []
        self.nodes = 1
        self.wishes: list[Wish] = []
        self.fillers: list[Wish] = []

    def length(self, least: int, most: int) -> int:
        """Return a length of so many sixteenths, now and then off by some ticks; even."""
        off = 2 * self.random.randint(-600, 600) if self.random.random() < 0.2 else 0
        return self.random.randint(least, most) * SIXTEENTH + off

    def item(self, left: int, right: int) -> int:
        """Lay a box, an opening or a filler between two joints and return its wished width."""
        name = f"item {right}"
        kind = self.random.random()
        if kind < 0.5:
            width = self.length(9 * 16, 36 * 16)
            self.rows += exactly(left, right, width, name, name, Gives.WIDTH)
            return width
        is_filler = kind < 0.8
        least = self.length(12, 40) if is_filler else self.length(24 * 16, 30 * 16)
        most = least + self.length(8, 60)
        softness = (
            (Gives.FILLER_LEAST, Gives.FILLER_MOST) if is_filler else (Gives.WINDOW_LEAST, Gives.WINDOW_MOST)
        )
        self.rows.append(at_least(left, right, least, f"{name} at least", f"{name} least", softness[0]))
        if self.random.random() < 0.8:
            self.rows.append(at_most(left, right, most, f"{name} at most", f"{name} most", softness[1]))
        wished = self.random.randrange(least, most + 1, 2)
        wish = Wish(left, right, wished)
        self.wishes.append(wish)
        if is_filler:
            self.fillers.append(wish._replace(target=0))
        return wished

    def row(self, items: int) -> tuple[list[int], list[int]]:
        """Lay a row of items between two walls and return its joints and where they come at wished widths."""
        joints = list(range(self.nodes, self.nodes + items + 1))
        self.nodes += items + 1
        start = self.length(0, 8)
        places = [start]
        for left, right in pairwise(joints):
            places.append(places[-1] + self.item(left, right))
        ends = f"walls {joints[0]}"
        self.rows += exactly(0, joints[0], start, ends, f"{ends} left", Gives.FACT)
        spare = self.length(0, 24) if self.random.random() < 0.8 else -self.length(0, 24)
        self.rows += exactly(0, joints[-1], places[-1] + spare, ends, f"{ends} right", Gives.FACT)
        return joints, places

    def pin(self, joints: list[int], places: list[int]) -> None:
        """Pin the edge of something near to where it comes."""
        at = self.random.randrange(1, len(joints))
        place = places[at] + self.length(-4, 4)
        self.rows += exactly(0, joints[at], place, f"pin {joints[at]}", f"pin {joints[at]}", Gives.PIN)

    def centre(self, joints: list[int], places: list[int]) -> None:
        """Hold the centre of something near to where it comes."""
        at = self.random.randrange(len(joints) - 1)
        twice = places[at] + places[at + 1] + 2 * self.length(-2, 2)
        name = f"centre {joints[at]}"
        self.rows += centred(joints[at], joints[at + 1], twice - twice % 2, name, name, Gives.PIN)

    def line_up(self, upper: tuple[list[int], list[int]], lower: tuple[list[int], list[int]]) -> None:
        """Line up a joint of one row with one of the other, near to how they come."""
        over, over_at = self.random.choice(list(zip(*upper, strict=True))[1:-1])
        under, under_at = self.random.choice(list(zip(*lower, strict=True))[1:-1])
        apart = over_at - under_at + self.length(-3, 3)
        name = f"line-up {over} {under}"
        self.rows += exactly(under, over, apart, name, name, Gives.PIN)


def random_run(seed: int) -> RandomRun:
    """Return a run made up from a seed; about half of them have a layout."""
    random = Random(seed)
    maker = _Maker(random)
    first = maker.row(random.randint(3, 9))
    for _ in range(random.choice((0, 0, 1, 2))):
        maker.pin(*first)
    if random.random() < 0.3:
        second = maker.row(random.randint(3, 7))
        maker.line_up(first, second)
    has_centre = random.random() < 0.3
    if has_centre:
        maker.centre(*first)
    return RandomRun(
        rows=tuple(maker.rows),
        nodes=maker.nodes,
        wishes=tuple(random.sample(maker.wishes, len(maker.wishes))),
        fillers=tuple(maker.fillers),
        has_centre=has_centre,
    )
