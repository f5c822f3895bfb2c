"""Floor readings as the surface takes them: a spot, a height and a doubt; and the steps between them.

Heights here are heights (up positive) of the floor that is fitted, the bare one: signs and coverings were
dealt with before. A reading whose laser set-up is tied to no other has a height above its own, unknown zero:
it still tells of the floor's shape.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = [
    "LaserDoubt",
    "Merged",
    "Repeat",
    "Sounding",
    "StepLine",
    "merge_repeats",
    "sides",
]

Spot = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Sounding:
    """One floor reading.

    Attributes:
        x: In the room. [ticks]
        y: In the room. [ticks]
        z: Height of the bare floor, up positive, from the zero of its set-up. [ticks]
        set_up: 0 for the set-up in use and all that are tied to it; each untied one has a number of its own.
        sigma: One standard deviation of the reading. [ticks]
        laser: 0 for the set-up in use; any other, tied or not, may have a number by which its own zero and
            slope are doubted (``LaserDoubt``).
    """

    x: int
    y: int
    z: int
    set_up: int
    sigma: int
    laser: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class LaserDoubt:
    """How far another set-up's laser line may lie off the one in use: a doubt common to all its readings.

    Attributes:
        laser: Its number in the soundings.
        zero: One standard deviation of its tied zero: what the tie marks leave open. [ticks]
        slope: One standard deviation of its slope each way, about the middle of its readings: the tool's
            rating. [ticks a tick]
    """

    laser: int
    zero: float
    slope: float


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step in the floor, from one spot to another; it is taken to run on straight both ways to the walls.

    Attributes:
        x0: First end, in the room. [ticks]
        y0: First end. [ticks]
        x1: Second end. [ticks]
        y1: Second end. [ticks]
    """

    x0: int
    y0: int
    x1: int
    y1: int

    def side(self, spot: Spot) -> int:
        """Return 1 or -1 for the two sides of the step, 0 on the line itself. Exact."""
        across = (self.x1 - self.x0) * (spot[1] - self.y0) - (self.y1 - self.y0) * (spot[0] - self.x0)
        return (across > 0) - (across < 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Readings of one spot from one set-up.

    Attributes:
        members: Their places in the list of readings.
        spread: Greatest less least. [ticks]
        disagrees: Whether the spread is over four standard deviations: one of them is likely a slip.
    """

    members: tuple[int, ...]
    spread: int
    disagrees: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """Readings with the repeats of a spot averaged.

    Attributes:
        spots: One a spot, in the order first read.
        heights: Mean height of each. [ticks, not whole]
        set_ups: Set-up of each.
        lasers: Laser of each.
        variances: Variance of each mean. [square ticks]
        repeats: Every spot read more than once.
    """

    spots: tuple[Spot, ...]
    heights: tuple[float, ...]
    set_ups: tuple[int, ...]
    lasers: tuple[int, ...]
    variances: tuple[float, ...]
    repeats: tuple[Repeat, ...]


SLIP = 4  # repeats that differ by more standard deviations than this are told


def sides(spot: Spot, steps: Sequence[StepLine]) -> tuple[int, ...]:
    """Return on which side of each step a spot lies; spots with equal answers have no step between them."""
    return tuple(step.side(spot) for step in steps)


def merge_repeats(soundings: Sequence[Sounding]) -> Merged:
    """Average readings of one spot from one set-up, each weighted by its certainty.

    Two readings that differ are two tries at one height, not a slope of no length. Readings of a spot from
    two lasers that are tied stay apart (their lines are doubted apart) but are compared all the same.

    Args:
        soundings: Readings in any order.
    """
    groups: dict[tuple[int, int, int, int], list[int]] = {}
    compared: dict[tuple[int, int, int], list[int]] = {}
    for place, sounding in enumerate(soundings):
        spot = (sounding.x, sounding.y, sounding.set_up)
        groups.setdefault((*spot, sounding.laser), []).append(place)
        compared.setdefault(spot, []).append(place)
    means = [_mean([soundings[place] for place in members]) for members in groups.values()]
    return Merged(
        spots=tuple((x, y) for x, y, _, _ in groups),
        heights=tuple(height for height, _ in means),
        set_ups=tuple(set_up for _, _, set_up, _ in groups),
        lasers=tuple(laser for _, _, _, laser in groups),
        variances=tuple(variance for _, variance in means),
        repeats=tuple(_repeat(members, soundings) for members in compared.values() if len(members) > 1),
    )


def _mean(tries: Sequence[Sounding]) -> tuple[float, float]:
    """Return the weighted mean height of several tries at one spot, and its variance."""
    if len(tries) == 1:
        return float(tries[0].z), float(tries[0].sigma) ** 2
    weights = [1 / sounding.sigma**2 for sounding in tries]
    low = min(sounding.z for sounding in tries)
    above = sum(weight * (sounding.z - low) for weight, sounding in zip(weights, tries, strict=True))
    return low + above / sum(weights), 1 / sum(weights)


def _repeat(members: Sequence[int], soundings: Sequence[Sounding]) -> Repeat:
    """Return how far the readings of one spot spread."""
    heights = [soundings[place].z for place in members]
    spread = max(heights) - min(heights)
    doubt = max(soundings[place].sigma for place in members)
    return Repeat(members=tuple(members), spread=spread, disagrees=spread > SLIP * doubt)
