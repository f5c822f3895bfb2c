"""The laser's set-ups: what a tie between them adds to the doubt of a reading."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, sqrt

from setline.job.job import Job
from setline.job.readings import FloorReading, set_up_in_use, set_up_ties
from setline.rules import RuleBook
from setline.stages.floor.sounding import LaserDoubt

__all__ = ["TieDoubts", "floor_doubt", "laser_doubts", "laser_numbers", "laser_slope"]


class TieDoubts:
    """What the tie of its set-up adds to a reading's doubt, one standard deviation in ticks.

    A tie of n marks has a variance of 2/n readings, and a chain the sum of its links. The other laser's
    line has a slope of mean 0 and its rating as spread, about the middle of what was read from it. The set-
    up in use adds
    nothing: its own slope cancels in every shim, since the boxes are set by the same line.

    Args:
        job: The job.
        book: Its rules.
        readings: Every floor reading.
        places: x, y of each. [ticks]
    """

    def __init__(
        self,
        job: Job,
        book: RuleBook,
        readings: Sequence[FloorReading],
        places: Sequence[tuple[int, int]],
    ) -> None:
        doubt, slope = floor_doubt(job, book), laser_slope(job, book)
        ties = {name: tie.links for name, tie in set_up_ties(job.floor).items() if tie.links}
        self._of: list[float] = [0.0] * len(readings)
        for name, links in ties.items():
            own = [index for index, each in enumerate(readings) if each.set_up == name]
            variance = _tie_variance(links, doubt)
            middle_x = sum(places[index][0] for index in own) / max(len(own), 1)
            middle_y = sum(places[index][1] for index in own) / max(len(own), 1)
            for index in own:
                x, y = places[index]
                self._of[index] = sqrt(variance + (slope * hypot(x - middle_x, y - middle_y)) ** 2)

    def of(self, reading: int) -> float:
        """Return the doubt that is added to one reading."""
        return self._of[reading]


def laser_numbers(job: Job) -> dict[str, int]:
    """Return a number for each set-up by which the surface doubts its laser line: 0 for the one in use."""
    in_use = set_up_in_use(job.floor)
    return {
        each.name: 0 if in_use is not None and each.name == in_use.name else number
        for number, each in enumerate(job.floor.set_ups, start=1)
    }


def laser_doubts(job: Job, book: RuleBook) -> tuple[LaserDoubt, ...]:
    """Return how far the laser line of each set-up but the one in use is doubted.

    An untied set-up's zero is unknown altogether, which the surface knows; its slope is doubted like any
    other.
    """
    doubt, slope, ties = floor_doubt(job, book), laser_slope(job, book), set_up_ties(job.floor)
    return tuple(
        LaserDoubt(
            laser=number,
            zero=sqrt(_tie_variance(ties[name].links, doubt)) if name in ties else 0.0,
            slope=slope,
        )
        for name, number in laser_numbers(job).items()
        if number
    )


def _tie_variance(links: Sequence[int], doubt: int) -> float:
    """Return the variance of a chain of ties: each link is the mean of differences of two readings."""
    return 2 * doubt**2 * sum(1 / marks for marks in links)


def floor_doubt(job: Job, book: RuleBook) -> int:
    """Return one standard deviation of a floor reading: the job's, else the rule's, in ticks."""
    given = job.tools.floor_doubt
    return given.ticks if given is not None else book.length("floor-reading-doubt")


def laser_slope(job: Job, book: RuleBook) -> float:
    """Return the laser's rated slope: its error over its distance."""
    laser = job.tools.laser
    if laser is not None and laser.over.ticks:
        return laser.error.ticks / laser.over.ticks
    return book.length("laser-rating-error") / book.length("laser-rating-over")
