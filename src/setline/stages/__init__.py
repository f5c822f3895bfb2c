"""The stages, in the order of the work: from a job to its plan, and nothing else.

``plan`` is one pure function: the same job gives the same plan, byte for byte. The floor comes after the
layout because a high spot counts only under a bearing point. The layout needs the height band of the boxes,
so it takes a provisional line first, and runs once more only if the line found lies over an inch from it.
"""

from __future__ import annotations

from hashlib import sha256

from setline.job.job import Job, tape_of
from setline.lengths import TICKS_PER_INCH
from setline.result import Finding, Plan, Rank
from setline.rules import rule_book
from setline.stages.floor import find_level, provisional_tops
from setline.stages.gaps.shim import shim_all
from setline.stages.layout import lay_out
from setline.stages.naming import name_figures
from setline.stages.room import outline
from setline.stages.set_tops import set_top_findings
from setline.stages.tape import tape_notes
from setline.stages.wall_openings import walls_as_read
from setline.version import VERSION

__all__ = ["plan"]

WORST_FIRST = tuple(Rank)


def plan(job: Job) -> Plan:
    """Return all that follows from a job: marks, openings, the level line, shims and findings.

    Args:
        job: What the crew told; ``load_job`` reads one from a file.

    Returns:
        The plan: lengths in ticks, z from the laser line of the set-up in use. A run that cannot be solved
        has no positions and everything else is complete; what no reading supports is None.

    Raises:
        RuleError: The job overrides a rule that there is not.
        InputError: The job gives a rule a value of the wrong kind.

    Example:
        >>> from setline import load_job, plan
        >>> plan(load_job("examples/larkspur-street.toml")).job_name
        'Larkspur Street'
    """
    book = rule_book(job.rules, tape=tape_of(job))
    room = outline(job, book)
    tops = provisional_tops(job, book)
    layout = lay_out(job, book, tops=tops)
    level = find_level(job, book, room, layout.runs)
    found = level.level_line.tops.value
    if found is not None and abs(found - tops) > TICKS_PER_INCH:
        layout = lay_out(job, book, tops=found)
        level = find_level(job, book, room, layout.runs)
    shims = shim_all(job, book, level)
    findings = (
        *room.findings,
        *tape_notes(job),
        *layout.findings,
        *set_top_findings(job, book, layout.runs),
        *level.findings,
        *shims.findings,
    )
    return Plan(
        job_name=job.job.name,
        units=job.job.tape,
        revision=job.job.revision,
        check_code=_check_code(job),
        walls=walls_as_read(level.ground),
        runs=layout.runs,
        floor=level.floor,
        level_line=level.level_line,
        shims=shims.shims,
        findings=_worst_first(findings),
        named=name_figures(layout.runs, level.level_line, shims.shims),
    )


def _worst_first(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings by rank; within a rank in the order of the stages."""
    return tuple(sorted(findings, key=lambda finding: WORST_FIRST.index(finding.rank)))


def _check_code(job: Job) -> str:
    """Return the code on each sheet's foot: it differs when the job, its rules or the version differ."""
    return sha256(f"{VERSION}\n{job.model_dump_json(by_alias=True)}".encode()).hexdigest()[:6].upper()
