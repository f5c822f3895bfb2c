"""A refusal told: a page for a person, one shape of JSON for a script. What was typed comes back with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlsplit

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from setline.errors import InputError
from setline.field_book.faults import NotInStore, StoreBusy, StoreError, StoreFull
from setline.web.render import Frame, render
from setline.web.session import STRANGER
from setline.web.site import NotPaired, site_of
from setline.wording import say

__all__ = ["Refusal", "tell_refusals", "wants_json"]

_SAID = {404: "no-such-page", 405: "no-such-page", 400: "form-not-read"}
"""Sentences for what the framework refuses in words of its own, by status."""

_STATUS: dict[type[Exception], int] = {InputError: 422, NotInStore: 404, StoreFull: 507, StoreBusy: 503}
"""HTTP status of what the store refuses; of anything else in it: 503."""


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


def tell_refusals(app: FastAPI) -> None:
    """Answer each kind of refusal with its sentence, as a page or as JSON."""

    @app.exception_handler(NotPaired)
    async def not_paired(request: Request, _: NotPaired) -> Response:
        if request.method == "GET" and "text/html" in request.headers.get("accept", ""):
            return Response(status_code=303, headers={"location": "/pair"})
        return await _refused(request, 401, say("not-paired"))

    @app.exception_handler(RequestValidationError)
    async def wrong_form(request: Request, wrong: RequestValidationError) -> Response:
        fields = ", ".join(sorted({str(error["loc"][-1]) for error in wrong.errors()}))
        return await _refused(request, 422, say("form-fields", fields=fields))

    @app.exception_handler(HTTPException)
    async def told(request: Request, why: HTTPException) -> Response:
        in_own_words = why.detail == HTTPException(why.status_code).detail or why.status_code == 400
        sentence = say(_SAID[why.status_code]) if in_own_words and why.status_code in _SAID else why.detail
        return await _refused(request, why.status_code, sentence, headers=why.headers)

    @app.exception_handler(InputError)
    async def wrong_input(request: Request, wrong: InputError) -> Response:
        return await _refused(request, 422, str(wrong))

    @app.exception_handler(StoreError)
    async def store_refused(request: Request, wrong: StoreError) -> Response:
        status = next((status for kind, status in _STATUS.items() if isinstance(wrong, kind)), 503)
        return await _refused(request, status, str(wrong))


async def _refused(
    request: Request, status: int, sentence: str, *, headers: Mapping[str, str] | None = None
) -> Response:
    """Return the answer to what cannot be done, with what was typed."""
    if wants_json(request):
        body = {"ok": False, "errors": [{"text": sentence}]}
        return JSONResponse(body, status_code=status, headers=dict(headers or {}))
    typed = await _typed(request)
    return await run_in_threadpool(_page, request, status, sentence, typed)


def _page(request: Request, status: int, sentence: str, typed: tuple[tuple[str, str], ...]) -> Response:
    """Return the page of a refusal; who is not known gets their own text back as well."""
    back = urlsplit(request.headers.get("referer", "")).path or "/jobs"  # a path: it leads nowhere else
    page = Refusal(sentence=sentence, typed=typed, back=back)
    device = site_of(request).sessions.device_of(request) or STRANGER
    frame = Frame(title=say("page-refusal"), device=device)
    return render(request, "refusal.html", frame, page, status=status)


async def _typed(request: Request) -> tuple[tuple[str, str], ...]:
    """Return the fields of the form that was sent; nothing where none can be read."""
    if request.method != "POST":
        return ()
    try:
        async with request.form() as form:
            fields = form.multi_items()
    except Exception:  # it was refused because it cannot be read, or was read away in another way
        return ()
    return tuple((key, value) for key, value in fields if isinstance(value, str) and key != "act")
