"""Styles, scripts and the font: kept by the browser for ever, since each address holds its content's hash."""

from __future__ import annotations

from fastapi import APIRouter, HTTPException
from fastapi.responses import Response

from setline.web.assets import content, digest_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

KINDS = {"css": "text/css", "js": "text/javascript", "woff": "font/woff", "svg": "image/svg+xml"}
FOR_EVER = {"cache-control": "public, max-age=31536000, immutable"}


@router.get("/static/{digest}/{name}")
def static(digest: str, name: str) -> Response:
    """Return a static file, at no address but its own: an old page gets no new script."""
    kind = KINDS.get(name.rpartition(".")[2])
    found = content(name) if kind and name.replace("-", "").replace(".", "").isalnum() else None
    if found is None or digest not in {"font", digest_of(name)}:
        raise HTTPException(404, say("no-such-page"))
    return Response(found, media_type=kind, headers=FOR_EVER)
