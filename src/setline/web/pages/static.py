"""Styles, scripts and the font: kept by the browser for ever, since each address holds its content's hash."""

from __future__ import annotations

from functools import cache
from importlib import resources

from fastapi import APIRouter, HTTPException
from fastapi.responses import Response

from setline.web.font import subset_font
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

KINDS = {"css": "text/css", "js": "text/javascript", "woff": "font/woff", "svg": "image/svg+xml"}
FOR_EVER = {"cache-control": "public, max-age=31536000, immutable"}


@router.get("/static/{digest}/{name}")
def static(digest: str, name: str) -> Response:
    """Return a static file."""
    kind = KINDS.get(name.rpartition(".")[2])
    content = _content(name) if kind and name.replace("-", "").replace(".", "").isalnum() else None
    if content is None:
        raise HTTPException(404, say("no-such-page"))
    return Response(content, media_type=kind, headers=FOR_EVER)


@cache
def _content(name: str) -> bytes | None:
    """Return a file's bytes, or None if there is none of that name."""
    if name in {"text-regular.woff", "text-bold.woff"}:
        return subset_font(name.removeprefix("text-").removesuffix(".woff"))
    file = resources.files("setline.web") / "static" / name
    return file.read_bytes() if file.is_file() else None
