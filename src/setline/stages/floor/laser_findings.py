"""What the crew must know of the laser: its proofs, and how its set-ups hang together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from setline.job.job import Job
from setline.job.readings import mark_differences, set_up_in_use, set_up_ties
from setline.lengths import Rounding, fine_step, round_to, show
from setline.result import Finding, Rank, Remedy
from setline.rules import RuleBook
from setline.stages.floor.laser_proof import Proof, Rating, closing_shot, prove_between_walls, prove_by_pegs
from setline.stages.floor.set_ups import floor_doubt
from setline.wording import say

__all__ = ["laser_findings"]

SLIP = 4  # marks that differ by more standard deviations than this are told


def laser_findings(job: Job, book: RuleBook) -> list[Finding]:
    """Return what is out of its rating, what is not proved, and which set-ups are not tied."""
    if not job.floor.set_ups:
        return []
    return [*_proofs(job, book), *_closings(job, book), *_untied(job), *_ties_that_differ(job, book)]


def _rating(job: Job, book: RuleBook) -> Rating:
    """Return what the laser is rated at: the job's, else the rule's."""
    laser = job.tools.laser
    if laser is not None and laser.over.ticks:
        return Rating(error=laser.error.ticks, over=laser.over.ticks)
    return Rating(error=book.length("laser-rating-error"), over=book.length("laser-rating-over"))


def _proofs(job: Job, book: RuleBook) -> Iterator[Finding]:
    """Yield what the two-wall reversal and the two-peg test showed; a note where neither was made."""
    laser, rating = job.tools.laser, _rating(job, book)
    made = False
    if laser is not None and laser.proof is not None:
        made = True
        proof = prove_between_walls(
            distance=laser.proof.distance.ticks, difference=laser.proof.difference.ticks, rating=rating
        )
        if not proof.holds:
            yield _out_of_rating(job, book, proof, say("two-wall-proof"))
    if laser is not None and laser.pegs is not None:
        made, pegs = True, laser.pegs
        proof = prove_by_pegs(
            near=pegs.near.ticks,
            far=pegs.far.ticks,
            true_difference=pegs.midway[1].ticks - pegs.midway[0].ticks,
            difference=pegs.close[1].ticks - pegs.close[0].ticks,
            rating=rating,
        )
        if not proof.holds:
            yield _out_of_rating(job, book, proof, say("two-peg-proof"))
    if not made:
        yield Finding(
            code="laser-not-proved",
            rank=Rank.NOTE,
            where=say("the-laser"),
            text=say("laser-not-proved"),
            rule="laser-rating-error",
        )


def _out_of_rating(job: Job, book: RuleBook, proof: Proof, name: str) -> Finding:
    """Return the finding that a proof came out over what the rating allows."""
    units = job.job.tape
    allowed = round_to(int(proof.allowed), fine_step(units), Rounding.DOWN)
    return Finding(
        code="laser-out-of-rating",
        rank=Rank.DECIDE,
        where=say("the-laser"),
        text=say(
            "laser-out-of-rating", proof=name, found=show(proof.found, units), allowed=show(allowed, units)
        ),
        by_how_much=proof.found - int(proof.allowed),
        rule="laser-rating-error",
        remedies=(_read_again(book, say("prove-again")),),
    )


def _closings(job: Job, book: RuleBook) -> Iterator[Finding]:
    """Yield the set-ups whose closing shot did not come back to the first reading."""
    units, limit = job.job.tape, book.length("laser-closing-limit")
    for set_up in job.floor.set_ups:
        if set_up.closing is None:
            continue
        first, again = set_up.closing.first, set_up.closing.again
        proof = closing_shot(first=first.ticks, again=again.ticks, limit=limit)
        if not proof.holds:
            yield Finding(
                code="closing-shot-off",
                rank=Rank.DECIDE,
                where=set_up.name,
                text=say(
                    "closing-shot-off",
                    set_up=set_up.name,
                    first=first.typed,
                    again=again.typed,
                    found=show(proof.found, units),
                    limit=show(limit, units),
                ),
                by_how_much=proof.found - limit,
                readings=(f"{set_up.name} closing: {first.typed}, {again.typed}",),
                rule="laser-closing-limit",
                remedies=(_read_again(book, say("read-set-up-again", set_up=set_up.name)),),
            )


def _untied(job: Job) -> Iterator[Finding]:
    """Yield the set-ups that no mark ties to the one in use."""
    ties, in_use = set_up_ties(job.floor), set_up_in_use(job.floor)
    for set_up in job.floor.set_ups:
        if set_up.name not in ties and in_use is not None:
            yield Finding(
                code="set-up-not-tied",
                rank=Rank.WATCH,
                where=set_up.name,
                text=say(
                    "set-up-not-tied",
                    set_up=set_up.name,
                    in_use=in_use.name,
                    count=sum(len(line.readings) for line in set_up.lines),
                ),
            )


def _ties_that_differ(job: Job, book: RuleBook) -> Iterator[Finding]:
    """Yield the pairs of set-ups whose shared marks tell of different heights between their lines."""
    units, limit = job.job.tape, SLIP * floor_doubt(job, book)
    for known, other in combinations(job.floor.set_ups, 2):
        shared = mark_differences(known, other)
        apart = max((d for _, d in shared), default=0) - min((d for _, d in shared), default=0)
        if apart > limit:
            yield Finding(
                code="marks-disagree",
                rank=Rank.WATCH,
                where=f"{known.name}, {other.name}",
                text=say(
                    "marks-disagree",
                    one=known.name,
                    other=other.name,
                    marks=", ".join(name for name, _ in shared),
                    apart=show(apart, units),
                ),
                by_how_much=apart - limit,
                rule="floor-reading-doubt",
                remedies=(_read_again(book, say("read-marks-again")),),
            )


def _read_again(book: RuleBook, text: str) -> Remedy:
    """Return the remedy of taking a reading again."""
    cost = book.remedy("read-again")
    return Remedy(kind="read-again", text=text, hours=cost.hours, days=cost.days)
