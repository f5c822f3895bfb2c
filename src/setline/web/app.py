"""The app as a whole: its parts put together, its pages, its refusals told."""

from __future__ import annotations

from importlib import import_module

from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware

from setline.field_book.database import Database
from setline.field_book.folder import PHOTOS
from setline.field_book.photos import Photos
from setline.field_book.store import Store
from setline.version import VERSION
from setline.web.behind_proxy import BehindProxy
from setline.web.feed import Feed
from setline.web.pairing import Pairing
from setline.web.planning import Planner
from setline.web.refusals import tell_refusals
from setline.web.security import Guard
from setline.web.session import Sessions
from setline.web.settings import Settings
from setline.web.site import Site

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
    "order",
    "order_list",
    "sheets",
    "carry",
    "help",
    "floor",
    "why",
    "photos",
    "copy",
    "delete_job",
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
    tell_refusals(app)
    app.add_middleware(GZipMiddleware, minimum_size=600)
    app.add_middleware(Guard, hosts=settings.hosts, is_secure=settings.is_secure)
    if settings.behind_proxy:
        app.add_middleware(BehindProxy, proxies=settings.proxies)
    return app
