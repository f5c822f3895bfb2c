"""The bare floor's surface from its readings: height and doubt anywhere, with the steps kept.

``fit_floor`` takes soundings (signs and coverings dealt with) and gives a ``FloorModel``. The belief about
floors that stands behind it is in ``kernel``. At four or five readings nothing beats a plane by much, and the
width of the band says so.

Large floors (over 300 readings) are fitted per part of the room: each part takes its own readings and the
nearest of the others.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setline.lengths import TICKS_PER_INCH
from setline.stages.floor.kernel import SLOPE_SD, STEP_SD, ZERO_SD, Belief
from setline.stages.floor.sounding import (
    LaserDoubt,
    Merged,
    Repeat,
    Sounding,
    StepLine,
    merge_repeats,
    sides,
)

__all__ = ["FloorHeight", "FloorModel", "LaserDoubt", "Nearest", "Sounding", "StepLine", "fit_floor"]

Array = NDArray[np.float64]
Spot = tuple[int, int]

MOST_READINGS = 300  # more are fitted per part of the room
CORE_READINGS = 200  # a part's own; the rest of the 300 are its neighbours
SIDE_OF_95 = 1.959963984540054  # half the 95 % range of a normal law, in standard deviations


class FloorHeight(NamedTuple):
    """The floor at a spot: its height and half the width of its 95 % range, in ticks."""

    height: int
    within: int


class Nearest(NamedTuple):
    """The nearest reading on the same side of every step: its place in the list and its distance in ticks."""

    reading: int
    distance: int


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the room with its fit.

    ``least`` and ``most`` bound the spots it answers for (in inches about the middle of all readings).
    """

    least: tuple[float, float]
    most: tuple[float, float]
    belief: Belief


class FloorModel:
    """The bare floor as fitted; made by ``fit_floor``.

    Attributes:
        soundings: The readings, in the order given.
        steps: The marked steps.
        repeats: Spots read more than once, and whether the readings disagree.
    """

    def __init__(
        self, soundings: Sequence[Sounding], steps: Sequence[StepLine], lasers: Sequence[LaserDoubt] = ()
    ) -> None:
        self.soundings = tuple(soundings)
        self.steps = tuple(steps)
        merged = merge_repeats(self.soundings)
        self.repeats: tuple[Repeat, ...] = merged.repeats
        self._places = np.array([(s.x, s.y) for s in self.soundings], dtype=np.float64)
        self._sides = np.array([sides((s.x, s.y), self.steps) for s in self.soundings], dtype=np.int8)
        self._zero, heights = _level_set_ups(merged)
        self._middle = np.array(merged.spots, dtype=np.float64).mean(axis=0)
        spots, floor_terms = self._spots_and_terms(merged.spots)
        set_up_terms, set_up_variances = _set_up_terms(merged, spots, lasers)
        terms = np.hstack((floor_terms, set_up_terms))
        deviations = [ZERO_SD, SLOPE_SD, SLOPE_SD, *([STEP_SD] * len(self.steps))]
        variances = np.concatenate((np.square(deviations), set_up_variances))
        doubts = np.array(merged.variances) / TICKS_PER_INCH**2
        self._parts = tuple(
            _Part(least, most, Belief(spots[own], terms[own], variances, heights[own], doubts[own]))
            for least, most, own in _split(spots)
        )

    def at(self, points: Sequence[Spot]) -> tuple[FloorHeight, ...]:
        """Return the floor's height and doubt at each point, rounded once to the nearest tick.

        Many points in one call cost far less than many calls.

        Args:
            points: x, y in the room. [ticks]
        """
        if len(points) == 0:
            return ()
        spots, terms = self._spots_and_terms(points)
        height, within = np.empty(len(spots)), np.empty(len(spots))
        for part, inside in self._by_part(spots):
            mean, variance = part.belief.at(spots[inside], terms[inside])
            height[inside], within[inside] = mean, SIDE_OF_95 * np.sqrt(variance)
        heights = np.rint(height * TICKS_PER_INCH + self._zero).astype(int).tolist()
        halves = np.rint(within * TICKS_PER_INCH).astype(int).tolist()
        return tuple(map(FloorHeight, heights, halves))

    def samples(self, points: Sequence[Spot], count: int, seed: int) -> Array:
        """Return floors that the readings allow: joint draws of the heights at the points.

        The same seed gives the same draws. Parts of a large room are drawn apart from each other.

        Args:
            points: x, y in the room. [ticks]
            count: How many floors.
            seed: Seed of the draws.

        Returns:
            One floor a row, one point a column. [ticks, not whole]
        """
        spots, terms = self._spots_and_terms(points)
        chance = np.random.default_rng(seed)
        floors = np.empty((count, len(spots)))
        for part, inside in self._by_part(spots):
            drawn = part.belief.draw(spots[inside], terms[inside], count, chance)
            floors[:, inside] = drawn
        return floors * TICKS_PER_INCH + self._zero

    def nearest_to_each(self, points: Sequence[Spot]) -> tuple[Nearest | None, ...]:
        """Return for each point the nearest reading on the same side of every step, or None without one.

        Distances are rounded up to a tick; of equally near readings it is the first.
        """
        if len(points) == 0:
            return ()
        spots = np.array(points, dtype=np.float64)
        away = np.hypot(spots[:, :1] - self._places[:, 0], spots[:, 1:] - self._places[:, 1])
        if self.steps:
            where = np.array([sides(point, self.steps) for point in points], dtype=np.int8)
            away[(where[:, None, :] != self._sides[None, :, :]).any(axis=2)] = math.inf
        best = away.argmin(axis=1)
        least = away[np.arange(len(spots)), best]
        return tuple(
            Nearest(int(place), math.ceil(distance)) if math.isfinite(distance) else None
            for place, distance in zip(best, least, strict=True)
        )

    def _spots_and_terms(self, points: Sequence[Spot]) -> tuple[Array, Array]:
        """Return points in inches about the middle of the readings, and their plane and step terms."""
        spots = (np.array(points, dtype=np.float64) - self._middle) / TICKS_PER_INCH
        terms = np.ones((len(spots), 3 + len(self.steps)))
        terms[:, 1:3] = spots
        if self.steps:
            where = np.array([sides(point, self.steps) for point in points], dtype=np.float64)
            terms[:, 3:] = 0.5 * where
        return spots, terms

    def _by_part(self, spots: Array) -> list[tuple[_Part, NDArray[np.intp]]]:
        """Return each part of the room with the points it answers for."""
        if len(self._parts) == 1:
            return [(self._parts[0], np.arange(len(spots)))]
        found = []
        for part in self._parts:
            inside = np.flatnonzero(((spots >= part.least) & (spots < part.most)).all(axis=1))
            if len(inside):
                found.append((part, inside))
        return found


def fit_floor(
    soundings: Sequence[Sounding], steps: Sequence[StepLine] = (), lasers: Sequence[LaserDoubt] = ()
) -> FloorModel:
    """Fit the bare floor.

    Args:
        soundings: At least one reading; heights of the bare floor, up positive. [ticks]
        steps: Marked steps; the floor may jump there.
        lasers: How far each other set-up's laser line is doubted; it widens the band where the floor was read
            from there.

    Raises:
        ValueError: There is no reading at all.

    Source:
        Gaussian process regression averaged over twelve kernels, see ``kernel``.
    """
    if not soundings:
        raise ValueError("a floor needs at least one reading")
    return FloorModel(soundings, steps, lasers)


def _level_set_ups(merged: Merged) -> tuple[float, Array]:
    """Take each set-up's own mean off its heights; return the mean in use (in ticks) and the rest in inches.

    What an untied set-up's zero truly is stays unknown: only numbers near 0 are easier to reckon with.
    """
    heights, set_ups = np.array(merged.heights), np.array(merged.set_ups)
    means = {int(set_up): float(heights[set_ups == set_up].mean()) for set_up in set(merged.set_ups)}
    own = np.array([means[set_up] for set_up in merged.set_ups])
    zero = means.get(0, float(heights.mean()))
    return zero, (heights - own) / TICKS_PER_INCH


def _set_up_terms(merged: Merged, spots: Array, lasers: Sequence[LaserDoubt]) -> tuple[Array, Array]:
    """Return what untied zeros and doubted lasers add to each reading, a column each, and their variances.

    A point of the floor is asked for in the frame in use, so these belong to readings alone.
    """
    columns, variances = [], []
    for set_up in sorted(set(merged.set_ups) - {0}):
        columns.append(np.equal(merged.set_ups, set_up).astype(np.float64))
        variances.append(ZERO_SD**2)
    for doubt in lasers:
        own = np.equal(merged.lasers, doubt.laser)
        if own.any():
            about = (spots - spots[own].mean(axis=0)) * own[:, None]
            columns += [own.astype(np.float64), about[:, 0], about[:, 1]]
            variances += [(doubt.zero / TICKS_PER_INCH) ** 2, doubt.slope**2, doubt.slope**2]
    if not columns:
        return np.empty((len(spots), 0)), np.empty(0)
    return np.column_stack(columns), np.array(variances)


def _split(
    spots: Array,
) -> list[tuple[tuple[float, float], tuple[float, float], NDArray[np.intp]]]:
    """Split a room into parts of few enough readings, halving the longer way; return bounds and readings."""
    everywhere = (-math.inf, -math.inf), (math.inf, math.inf)
    if len(spots) <= MOST_READINGS:
        return [(*everywhere, np.arange(len(spots)))]
    parts = []
    open_parts = [(*everywhere, np.arange(len(spots)))]
    while open_parts:
        least, most, own = open_parts.pop()
        if len(own) <= CORE_READINGS:
            parts.append((least, most, _with_neighbours(spots, own)))
            continue
        way = int(np.ptp(spots[own], axis=0).argmax())
        cut = float(np.median(spots[own, way]))
        below = own[spots[own, way] < cut]
        if len(below) == 0:  # half of them at one spot's height: nothing to halve
            parts.append((least, most, _with_neighbours(spots, own)))
            continue
        upper, lower = list(least), list(most)
        upper[way], lower[way] = cut, cut
        open_parts.append((least, (lower[0], lower[1]), below))
        open_parts.append(((upper[0], upper[1]), most, own[spots[own, way] >= cut]))
    return parts


def _with_neighbours(spots: Array, own: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return a part's readings and the nearest of the others, up to the most that are fitted at once."""
    least, most = spots[own].min(axis=0), spots[own].max(axis=0)
    beyond = np.maximum(np.maximum(least - spots, spots - most), 0.0)
    away = np.hypot(beyond[:, 0], beyond[:, 1])
    away[own] = -1.0
    return np.sort(np.argsort(away, kind="stable")[: max(MOST_READINGS, len(own))])
