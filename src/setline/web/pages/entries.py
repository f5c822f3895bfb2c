"""Entries as a phone's own store sends them: in order, safe to repeat; and word of new ones to open pages."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import UTC, datetime
from typing import Any

from fastapi import APIRouter, Body, HTTPException, Request
from fastapi.responses import JSONResponse, Response, StreamingResponse

from setline.field_book.entry import entry_from_dict, entry_to_dict
from setline.web.site import JobPage, Visitor, Writer, site_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

MOST_AT_ONCE = 500


@router.post("/j/{j}/entries")
def add(request: Request, j: str, device: Writer, entries: Any = Body()) -> Response:  # noqa: B008
    """Keep a list of entries; answer how many were new and the job's revision."""
    if not isinstance(entries, list) or len(entries) > MOST_AT_ONCE:
        raise HTTPException(422, say("entries-list", most=MOST_AT_ONCE))
    made = tuple(entry_from_dict(entry) for entry in entries)
    if any(entry.job != j for entry in made):
        raise HTTPException(422, say("entries-other-job"))
    site = site_of(request)
    kept = site.store.keep(made, made_at=datetime.now(UTC).isoformat(timespec="seconds"))
    revision = kept.revisions[j] if made else site.store.revision(j)
    if kept.new:
        site.feed.tell(j, revision)
    return JSONResponse({"ok": True, "new": kept.new, "revision": revision})


@router.get("/j/{j}/entries")
def entries(standing: JobPage, _: Visitor, place: str = "") -> Response:
    """Return a job's entries, or those of one place."""
    found = [entry for entry in standing.entries if not place or entry.place == place]
    return JSONResponse(
        {"ok": True, "revision": standing.revision, "entries": [entry_to_dict(entry) for entry in found]}
    )


@router.get("/j/{j}/feed")
async def feed(request: Request, standing: JobPage, _: Visitor) -> StreamingResponse:
    """Tell an open page each new revision as it comes."""
    site = site_of(request)

    async def events() -> AsyncIterator[str]:
        yield f"event: revision\ndata: {standing.revision}\n\n"
        async for revision in site.feed.listen(standing.job_id):
            yield f"event: revision\ndata: {revision}\n\n"

    headers = {"cache-control": "no-store", "x-accel-buffering": "no"}
    return StreamingResponse(events(), media_type="text/event-stream", headers=headers)
