"""The packet: the sheets that go to the site, as one PDF on letter or A4, in black only.

Each kind of page is a file that turns the plan into plain page data; the templates place it; ``compile``
typesets.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from setline.job.job import Job
from setline.lengths import Units
from setline.packet.as_set_sheet import as_set_sheet
from setline.packet.compile import typeset
from setline.packet.cover import Contents, cover_page
from setline.packet.findings_page import findings_page
from setline.packet.floor_page import floor_page
from setline.packet.marks_sheet import marks_sheet
from setline.packet.next_readings import next_page
from setline.packet.paper import BOTTOM, PAPERS, SIDE, TOP
from setline.packet.pictures import Pictures
from setline.packet.shim_page import shim_page
from setline.packet.true_scale import pole_pages
from setline.packet.words_page import words_page
from setline.result import Plan
from setline.result.doubts import Doubts
from setline.rules.rule import RuleBook
from setline.told import walls_with_runs
from setline.wording import SENTENCES, say

__all__ = ["KINDS", "packet", "packet_pages"]

KINDS = ("cover", "findings", "floor", "next", "marks", "shims", "as_set", "words", "pole")
"""Every kind of page, in the order they are printed; the marks and shims of a wall stand together."""

_LABEL = "packet-label-"
Page = Mapping[str, Any]


def packet(
    plan: Plan,
    job: Job,
    book: RuleBook,
    *,
    paper: str | None = None,
    doubts: Doubts | None = None,
    story_pole: bool = True,
    kinds: Collection[str] | None = None,
) -> bytes:
    """Return the packet as a PDF.

    Args:
        plan: The plan.
        job: The job it follows from.
        book: The rules it was planned by, for the sources that findings name.
        paper: ``letter`` or ``a4``; without it the job's, or letter for an inch tape and A4 for a metric one.
        doubts: How sure the plan is and what to read next, for the page that says so.
        story_pole: Whether the true-size strips of the story poles close the packet.
        kinds: The kinds of page that are wanted (`KINDS`); without it, all of them.

    Returns:
        The PDF: the same bytes for the same plan, on one machine and lock.
    """
    chosen = paper or job.job.paper or ("letter" if plan.units == Units.INCH else "a4")
    pictures = Pictures(plan, PAPERS[chosen])
    document = {
        "title": say("packet-title", job=plan.job_name),
        "paper": PAPERS[chosen].name,
        "margins": {"side": SIDE, "top": TOP, "bottom": BOTTOM},
        "foot": _foot(plan, job),
        "words": {
            key.removeprefix(_LABEL): text for key, text in SENTENCES.items() if key.startswith(_LABEL)
        },
        "pages": packet_pages(plan, job, book, pictures, doubts=doubts, story_pole=story_pole, kinds=kinds),
    }
    return typeset(document, pictures.files)


def packet_pages(
    plan: Plan,
    job: Job,
    book: RuleBook,
    pictures: Pictures,
    *,
    doubts: Doubts | None = None,
    story_pole: bool = True,
    kinds: Collection[str] | None = None,
) -> list[Page]:
    """Return the data of every page that is wanted, in the order they are printed."""
    pages: list[Page] = [
        findings_page(plan, book),
        floor_page(plan, book, pictures.floor()),
        next_page(plan, doubts),
    ]
    for wall in walls_with_runs(plan):
        pages.append(marks_sheet(plan, wall, pictures.elevation(wall)))
        under = shim_page(plan, wall, pictures.shim_map(wall))
        pages.extend([] if under is None else [under])
    pages.append(as_set_sheet(plan))
    pages.append(words_page())
    if story_pole:
        pages.extend(pole_pages(plan))
    wanted = pages if kinds is None else [page for page in pages if page["kind"] in kinds]
    cover = (
        [cover_page(plan, job, _contents(wanted))] if kinds is None or "cover" in kinds or not wanted else []
    )
    return [*cover, *wanted]


def _foot(plan: Plan, job: Job) -> dict[str, str]:
    """Return what dates every page."""
    date = f"{job.job.date} · " if job.job.date else ""
    right = say("packet-foot", revision=plan.revision, date=date, check=plan.check_code)
    return {"job": plan.job_name, "right": right}


def _contents(pages: list[Page]) -> list[Contents]:
    """Return what stands on which page: a row a kind, and a row a wall for all of its sheets."""
    rows: dict[str, list[Page]] = {}
    for page in pages:
        of_wall = page["kind"] in {"marks", "shims", "pole"}
        rows.setdefault(page["key"].split("-")[1] if of_wall else page["kind"], []).append(page)
    return [_row_of_contents(name, found) for name, found in rows.items()]


def _row_of_contents(name: str, pages: list[Page]) -> Contents:
    """Return one row: the first page of each kind in it; the sheets of one story pole count as one."""
    first = {page["kind"]: page for page in reversed(pages)}
    kinds = list(dict.fromkeys(page["kind"] for page in pages))
    what = ", ".join(say(f"packet-contents-{kind}") for kind in kinds)
    of_wall = kinds[0] in {"marks", "shims", "pole"}
    return Contents(
        what=say("packet-contents-wall", wall=name, what=what) if of_wall else what,
        keys=[first[kind]["key"] for kind in kinds],
    )
