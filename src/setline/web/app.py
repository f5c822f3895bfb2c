"""The app as a whole: its parts put together, its pages, its refusals told."""

from __future__ import annotations

from importlib import import_module

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware

from setline.errors import InputError
from setline.field_book.database import Database
from setline.field_book.faults import NotInStore, StoreBusy, StoreError, StoreFull
from setline.field_book.folder import PHOTOS
from setline.field_book.photos import Photos
from setline.field_book.store import Store
from setline.version import VERSION
from setline.web.feed import Feed
from setline.web.pairing import Pairing
from setline.web.planning import Planner
from setline.web.refusals import refused
from setline.web.security import Guard
from setline.web.session import Sessions
from setline.web.settings import Settings
from setline.web.site import NotPaired, Site
from setline.wording import say

__all__ = ["PAGES", "make_app"]

PAGES = (
    "static",
    "pair",
    "jobs",
    "home",
    "entries",
    "phones",
    "undo",
    "troubles",
    "remedy",
    "run_editor",
    "run_presses",
    "worker",
    "set_list",
    "set_box",
    "changes",
    "marks",
    "shims",
    "print",
    "walk",
    "walk_cards",
    "readings",
    "room",
    "carry",
    "help",
)
"""Modules of ``web.pages``; each has a ``router``."""


def make_app(settings: Settings, *, database: Database | None = None) -> FastAPI:
    """Return the app.

    Args:
        settings: How it is run.
        database: The store's database, where a test has opened one; else the settings' is opened.

    Raises:
        StoreUnusable: The store cannot be opened.
    """
    opened = database or Database(settings.store_url, keep_in=settings.folder)
    store = Store(opened, Photos(opened, settings.folder / PHOTOS))
    app = FastAPI(title="Setline", version=VERSION, docs_url=None, redoc_url=None)
    app.state.site = Site(
        settings=settings,
        store=store,
        planner=Planner(store),
        sessions=Sessions(opened, settings),
        pairing=Pairing(),
        feed=Feed(),
    )
    for page in PAGES:
        app.include_router(import_module(f"setline.web.pages.{page}").router)
    _tell_refusals(app)
    app.add_middleware(GZipMiddleware, minimum_size=600)
    app.add_middleware(Guard, hosts=settings.hosts, is_secure=settings.is_secure)
    return app


def _tell_refusals(app: FastAPI) -> None:
    """Answer each kind of refusal with its sentence, as a page or as JSON."""

    @app.exception_handler(NotPaired)
    def not_paired(request: Request, _: NotPaired) -> Response:
        if request.method == "GET" and "text/html" in request.headers.get("accept", ""):
            return Response(status_code=303, headers={"location": "/pair"})
        return refused(request, 401, say("not-paired"))

    @app.exception_handler(RequestValidationError)
    def wrong_form(request: Request, wrong: RequestValidationError) -> Response:
        fields = ", ".join(sorted({str(error["loc"][-1]) for error in wrong.errors()}))
        return refused(request, 422, say("form-fields", fields=fields))

    @app.exception_handler(HTTPException)
    def told(request: Request, why: HTTPException) -> Response:
        return refused(request, why.status_code, str(why.detail), headers=dict(why.headers or {}))

    @app.exception_handler(InputError)
    def wrong_input(request: Request, wrong: InputError) -> Response:
        return refused(request, 422, str(wrong))

    @app.exception_handler(StoreError)
    def store_refused(request: Request, wrong: StoreError) -> Response:
        status = {StoreFull: 507, StoreBusy: 503, NotInStore: 404}.get(type(wrong), 500)
        return refused(request, status, str(wrong))
