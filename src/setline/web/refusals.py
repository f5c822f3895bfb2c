"""A refusal told: a page for a person, one shape of JSON for a script. What was typed comes back with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlsplit

from fastapi import Request
from fastapi.responses import JSONResponse, PlainTextResponse, Response

from setline.web.render import Frame, render
from setline.web.site import site_of
from setline.wording import say

__all__ = ["Refusal", "refused", "wants_json"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """The page of a refusal.

    Attributes:
        sentence: What was wrong and what to do.
        typed: What was sent, field by field, so that none of it is lost.
        back: Where to go back to.
    """

    sentence: str
    typed: tuple[tuple[str, str], ...] = ()
    back: str = "/jobs"


def wants_json(request: Request) -> bool:
    """Return whether a script is asking."""
    return request.url.path.endswith("/entries") or "application/json" in request.headers.get("accept", "")


def refused(
    request: Request, status: int, sentence: str, *, headers: Mapping[str, str] | None = None
) -> Response:
    """Return the answer to what cannot be done."""
    if wants_json(request):
        body = {"ok": False, "errors": [{"text": sentence}]}
        return JSONResponse(body, status_code=status, headers=dict(headers or {}))
    device = site_of(request).sessions.device_of(request)
    if device is None:
        return PlainTextResponse(sentence, status_code=status)
    back = urlsplit(request.headers.get("referer", "")).path or "/jobs"  # a path: it leads nowhere else
    page = Refusal(sentence=sentence, typed=_typed(request), back=back)
    frame = Frame(title=say("page-refusal"), device=device)
    return render(request, "refusal.html", frame, page, status=status)


def _typed(request: Request) -> tuple[tuple[str, str], ...]:
    """Return the fields of the form that was sent, if it was read."""
    form = getattr(request, "_form", None)
    if form is None:
        return ()
    return tuple((key, value) for key, value in form.multi_items() if isinstance(value, str) and key != "act")
