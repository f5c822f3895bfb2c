"""Invented floors for tests: a truth that is known, and readings taken from it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from tests.tape import inch

from setline.stages.floor.sounding import Sounding

SIGMA = inch("1/32")
Truth = Callable[[float, float], float]  # x, y in inches -> height in inches


def back_and_toe_lines(length: int, step: int) -> list[tuple[int, int]]:
    """Return spots along a wall and its toe line, in inches."""
    return [(u, out) for out in (0, 21) for u in range(2, length, step)]


def read_floor(
    truth: Truth, spots: Sequence[tuple[float, float]], *, sigma: int = SIGMA, seed: int | None = None
) -> list[Sounding]:
    """Read a floor at spots given in inches: exactly, or with a seed, as well as a tape reads."""
    slips = np.zeros(len(spots)) if seed is None else np.random.default_rng(seed).normal(0, sigma, len(spots))
    return [
        Sounding(round(x * inch(1)), round(y * inch(1)), round(truth(x, y) * inch(1) + slip), 0, sigma)
        for (x, y), slip in zip(spots, slips, strict=True)
    ]


def wavy(seed: int) -> Truth:
    """Return a floor that falls and waves: a tilt, a sag between joist ends and two gentle waves."""
    chance = np.random.default_rng(seed)
    fall, cross = chance.normal(0, 0.3 / 120, 2)
    rows = [
        (h, 2 * np.pi / w, a, p)
        for h, w, a, p in chance.uniform((-0.08, 90, 0, 0), (0.08, 260, 6, 6), (3, 4))
    ]

    def height(x: float, y: float) -> float:
        waves = sum(h * np.sin(k * (x * np.cos(a) + y * np.sin(a)) + p) for h, k, a, p in rows)
        return float(-48 + fall * x + cross * y + waves)

    return height
