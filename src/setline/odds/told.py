"""What somebody should know of the doubts, as findings."""

from __future__ import annotations

from collections.abc import Sequence

from setline.lengths import Units, show
from setline.result import Finding, HighSpotRisk, NextReading, Rank, Remedy
from setline.rules import RuleBook
from setline.wording import say

__all__ = ["risk_findings"]


def risk_findings(
    risk: HighSpotRisk, readings: Sequence[NextReading], book: RuleBook, units: Units
) -> tuple[Finding, ...]:
    """Return a *watch* where the line may still move by more than matters; nothing once it is settled."""
    if risk.settled:
        return ()
    spot = risk.where[0]
    return (
        Finding(
            code="line-may-move",
            rank=Rank.WATCH,
            where=spot.point,
            text=say(
                "line-may-move",
                odds=_in_a_hundred(risk.odds_of_a_move),
                move=show(risk.move, units),
                point=spot.point,
                point_odds=_in_a_hundred(spot.odds),
            ),
            by_how_much=risk.nine_in_ten,
            remedies=tuple(_read(reading, book) for reading in readings[:1]),
        ),
    )


def _read(reading: NextReading, book: RuleBook) -> Remedy:
    """Return the reading to take as a way out."""
    kind = book.remedy("read-again" if reading.again else "more-readings")
    return Remedy(
        kind=kind.key,
        text=reading.would_settle,
        amount=reading.within_before - reading.within_after,
        hours=kind.hours,
        days=kind.days,
    )


def _in_a_hundred(odds: float) -> str:
    """Return odds as whole parts in a hundred, never 0 or 100 by rounding."""
    return str(min(max(round(100 * odds), 1), 99))
