"""All that follows from a job."""

from __future__ import annotations

from dataclasses import dataclass, field

from setline.result.figure import Figure
from setline.result.finding import Finding
from setline.result.floor import FloorAsFound, WallLine
from setline.result.level_line import LevelLine
from setline.result.run import RunPlan
from setline.result.shim import Shim

__all__ = ["Plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """All that follows from a job.

    Attributes:
        job_name: The job's name.
        units: ``inch`` or ``metric``.
        revision: The job's revision letter.
        check_code: First six characters of the hash of job, rules and version.
        walls: The room's outline.
        runs: Every run, in the job's order.
        floor: The floor as found.
        level_line: The datum.
        shims: Every bearing point, box by box.
        findings: The worst first.
        named: Every figure that ``why`` answers for, by name.
    """

    job_name: str
    units: str
    revision: str
    check_code: str
    walls: tuple[WallLine, ...]
    runs: tuple[RunPlan, ...]
    floor: FloorAsFound
    level_line: LevelLine
    shims: tuple[Shim, ...]
    findings: tuple[Finding, ...]
    named: dict[str, Figure] = field(default_factory=dict)
