"""The floor's surface and the doubts: against twelve plain solves, and as the readings grow."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from statistics import median

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from bench.measure import BenchRow, median_seconds, seconds
from setline.lengths import TICKS_PER_INCH
from setline.stages.floor.kernel import (
    SLOPE_SD,
    WAVE_HEIGHTS,
    WAVE_LENGTHS,
    ZERO_SD,
    wave_shape,
)
from setline.stages.floor.surface import Sounding, fit_floor

SAMPLE = Path(__file__).parents[1] / "examples" / "larkspur-street.toml"
DOUBT = 1 / 32


def _soundings(count: int) -> tuple[Sounding, ...]:
    """Return so many readings of a floor that falls and waves, a foot or two apart."""
    chance = np.random.default_rng(count)
    side = 18 * count**0.5
    spots = chance.uniform(0, side, (count, 2))
    heights = -48 + spots[:, 0] / 300 + 0.1 * np.sin(spots[:, 1] / 40) + chance.normal(0, DOUBT, count)
    return tuple(
        Sounding(round(x * TICKS_PER_INCH), round(y * TICKS_PER_INCH), round(z * TICKS_PER_INCH), 0, 2032)
        for (x, y), z in zip(spots, heights, strict=True)
    )


def _points(count: int) -> list[tuple[int, int]]:
    """Return so many points of a room of 14 ft."""
    spots = np.random.default_rng(1).uniform(0, 168, (count, 2))
    return [(round(x * TICKS_PER_INCH), round(y * TICKS_PER_INCH)) for x, y in spots]


def _plain(soundings: Sequence[Sounding], points: Sequence[tuple[int, int]]) -> None:
    """Fit and predict kernel by kernel with scipy's Cholesky solves: the same answers, nothing shared."""
    spots = np.array([(s.x, s.y) for s in soundings]) / TICKS_PER_INCH
    asked = np.array(points) / TICKS_PER_INCH - spots.mean(axis=0)
    heights = np.array([s.z for s in soundings]) / TICKS_PER_INCH
    spots, heights = spots - spots.mean(axis=0), heights - heights.mean()
    between = np.hypot(*(spots[:, None] - spots).transpose(2, 0, 1))
    away = np.hypot(*(asked[:, None] - spots).transpose(2, 0, 1))
    for length, s in itertools.product(WAVE_LENGTHS, WAVE_HEIGHTS):
        plane = ZERO_SD**2 + SLOPE_SD**2 * (spots @ spots.T)
        factor = cho_factor(s * s * wave_shape(between, length) + plane + DOUBT**2 * np.eye(len(spots)))
        across = s * s * wave_shape(away, length) + ZERO_SD**2 + SLOPE_SD**2 * (asked @ spots.T)
        mean = across @ cho_solve(factor, heights)
        variance = (across * cho_solve(factor, across.T).T).sum(axis=1)
        assert len(mean) == len(variance)


def _surface() -> list[BenchRow]:
    """Return the rows of one kitchen's surface: 80 readings, 150 bearing points, a grid of 400."""
    soundings, bearing, grid = _soundings(80), _points(150), _points(400)

    def ours() -> None:
        model = fit_floor(soundings)
        model.at(bearing)
        model.at(grid)

    pairs = [(seconds(ours), seconds(lambda: _plain(soundings, [*bearing, *grid]))) for _ in range(25)][3:]
    return [
        BenchRow(
            what="surface: 80 readings fitted and asked at 550 points",
            seconds=median(own for own, _ in pairs),
            against="twelve Cholesky solves, scipy",
            ratio=median(other / own for own, other in pairs),
            reach=1.5,
            goal="15 ms",
        )
    ]


def _growth() -> list[BenchRow]:
    """Return the rows of larger floors; over 300 readings are fitted in parts, so that time grows evenly."""
    rows = []
    for count in (80, 300, 1200):
        readings = _soundings(count)
        took = median_seconds(partial(fit_floor, readings), 5)
        rows.append(BenchRow(what=f"surface: {count} readings fitted", seconds=took))
    return rows


def _doubts() -> BenchRow:
    """Return the row of the inch sample's doubts."""
    from setline import doubts, load_job, plan

    job = load_job(SAMPLE)
    planned = plan(job)
    took = median_seconds(lambda: doubts(job, planned), 9)
    return BenchRow(what="doubts of the inch sample", seconds=took, goal="300 ms")


def run() -> list[BenchRow]:
    """Time the floor's surface and the doubts."""
    return [*_surface(), *_growth(), _doubts()]
