"""How sure the plan is, and which reading would make it surer: slower than the plan, shown when ready."""

from __future__ import annotations

from dataclasses import dataclass

from setline.result.finding import Finding

__all__ = ["Doubts", "HighSpotRisk", "NextReading", "OddSpot"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OddSpot:
    """A bearing point that may be the true high spot.

    Attributes:
        point: Its name, such as ``3 back-left``.
        wall: The wall's letter.
        u: Along the wall.
        out: From the wall.
        odds: Share of the floors that the readings allow in which it is the high spot.
    """

    point: str
    wall: str
    u: int
    out: int
    odds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HighSpotRisk:
    """The risk that the true high spot stands over the one that set the line.

    How high the true high spot would carry the tops is counted from the tops as planned, up positive. Below 0
    the line stands as it is; above 0 the box over the spot could not come down to the line.

    Attributes:
        odds: Share of the floors that the readings allow in which it stands over the line.
        odds_of_a_move: Share in which it stands over it by more than ``move``.
        move: 1/16 in, or 2 mm on a metric job.
        mean: Mean height over the line.
        middle: Half of the floors lie above this.
        nine_in_ten: Nine in ten lie below this.
        within: Half its 95 % range about the mean.
        where: The likeliest spots, the likeliest first.
        settled: Whether a move is less likely than 5 in 100: enough was read for the line.
    """

    odds: float
    odds_of_a_move: float
    move: int
    mean: int
    middle: int
    nine_in_ten: int
    within: int
    where: tuple[OddSpot, ...]
    settled: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NextReading:
    """A floor reading worth taking.

    Attributes:
        spot: Where, in the crew's words, such as ``A 64 toe``.
        wall: The wall's letter.
        u: Along the wall.
        out: From the wall.
        again: Whether that spot was read already.
        within_before: What the height of the high spot is known within, before it, as it is printed.
        within_after: The same after it (and after those listed before it).
        would_settle: What it would settle, as a sentence.
    """

    spot: str
    wall: str
    u: int
    out: int
    again: bool
    within_before: int
    within_after: int
    would_settle: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """How sure the plan is.

    Attributes:
        high_spot: The risk of a higher spot; None where no line or no reading is there to doubt.
        next_readings: The floor readings that would help the line most, in the order to take them.
        findings: What somebody should know; apart from the plan's own findings.
    """

    high_spot: HighSpotRisk | None = None
    next_readings: tuple[NextReading, ...] = ()
    findings: tuple[Finding, ...] = ()
