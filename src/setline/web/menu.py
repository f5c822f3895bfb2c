"""The four words that are always at hand, and the pages under each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from setline.job.document import rows, section
from setline.web.planning import Standing

__all__ = ["Group", "Link", "menu"]


class Group(StrEnum):
    """The words of the foot bar."""

    READ = "read"
    PLAN = "plan"
    SET = "set"
    PAPER = "paper"


@dataclass(frozen=True, slots=True)
class Link:
    """A page under a word.

    Attributes:
        name: The key of its name.
        address: Where it is.
        of: The wall it is about, if it is about one.
        for_crew: Whether those who may only look are not led there.
    """

    name: str
    address: str
    of: str = ""
    for_crew: bool = False


def menu(standing: Standing | None) -> dict[Group, tuple[Link, ...]]:
    """Return the pages of a job under each word; the first of each is where the word itself leads."""
    if standing is None:
        return {}
    job = f"/j/{standing.job_id}"
    walls = _walls(standing)
    return {
        Group.READ: (
            Link("page-walk", f"{job}/walk"),
            Link("page-readings", f"{job}/readings"),
            Link("page-room", f"{job}/room"),
            Link("page-order", f"{job}/order"),
            Link("page-sheets", f"{job}/sheets"),
            Link("page-photos", f"{job}/photos"),
        ),
        Group.PLAN: (
            Link("page-floor", f"{job}/floor"),
            *(Link("page-run", f"{job}/run/{wall}", wall) for wall in _all_walls(standing)),
            Link("page-troubles", f"{job}/troubles"),
            Link("page-why", f"{job}/why"),
        ),
        Group.SET: (
            Link("page-set", f"{job}/set"),
            *(Link("page-marks", f"{job}/marks/{wall}", wall) for wall in walls),
            Link("page-shims", f"{job}/shims"),
        ),
        Group.PAPER: (
            Link("page-print", f"{job}/print"),
            Link("page-carry", f"{job}/carry"),
            Link("page-phones", f"{job}/phones"),
            Link("page-copy", f"{job}/copy", for_crew=True),
        ),
    }


def _walls(standing: Standing) -> tuple[str, ...]:
    """Return the walls that have a run."""
    runs = standing.folded.document.get("runs", [])
    return tuple(dict.fromkeys(str(run.get("wall", "?")) for run in runs if isinstance(run, dict)))


def _all_walls(standing: Standing) -> tuple[str, ...]:
    """Return every wall: a run may be started on each."""
    room = section(standing.folded.document, "room")
    return tuple(dict.fromkeys(str(wall.get("name", "?")) for _, wall in rows(room, "walls")))
