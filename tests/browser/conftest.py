"""A running app and a real browser: phones and laptops that open its pages."""

from __future__ import annotations

import os
import secrets
import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright

from setline.field_book.database import Database
from setline.job.read import load_job
from setline.job.write import to_dict
from setline.web.app import make_app
from setline.web.pages.jobs import start_job
from setline.web.session import HOST
from setline.web.settings import Settings
from setline.web.site import Site

EXAMPLES = Path(__file__).parents[2] / "examples"
LAN_NAME = "kitchen.test"
"""A name that the browser finds on this machine and yet takes for another one: a plain-http local network."""
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "has_touch": True,
    "is_mobile": True,
    "device_scale_factor": 2,
}
LAPTOP: dict[str, Any] = {"viewport": {"width": 1280, "height": 800}}
PATIENCE = 20.0
"""Seconds that anything awaited may take on a busy machine; a test goes on as soon as it is there."""
expect.set_options(timeout=PATIENCE * 1000)


@dataclass(frozen=True)
class Head:
    """How an address answers: its status, its kind, and whether it is a file to save."""

    status: int
    kind: str
    is_file: bool


@dataclass(frozen=True)
class Served:
    """A running app.

    Attributes:
        app: The app.
        site: Its parts.
        port: Where it listens.
        stop: Stops it; the store stays.
    """

    app: FastAPI
    site: Site
    port: int
    stop: Callable[[], None]

    @property
    def address(self) -> str:
        """Where this machine finds it: a secure context for the browser."""
        return f"http://localhost:{self.port}"

    @property
    def lan_address(self) -> str:
        """The same over plain http by another name, which is none."""
        return f"http://{LAN_NAME}:{self.port}"

    def head(self, address: str) -> Head:
        """Return how an address answers; what never ends is not waited for."""
        asked = HTTPConnection("localhost", self.port, timeout=PATIENCE)
        asked.request("GET", address.partition("#")[0])
        answer = asked.getresponse()
        headers = answer.headers
        if not headers.get("content-type", "").startswith("text/event-stream"):
            answer.read()
        asked.close()
        is_file = headers.get("content-disposition", "").startswith("attachment")
        return Head(answer.status, headers.get("content-type", ""), is_file)

    def start(self, document: dict[str, Any]) -> str:
        """Start a job of its own for a test; return its id."""
        return start_job(self.site, HOST, document, act=secrets.token_hex(10))

    def sample(self, name: str) -> str:
        """Start a job from a sample; return its id."""
        return self.start(to_dict(load_job(EXAMPLES / f"{name}.toml")))

    def values(self, job: str, start: str = "/") -> dict[str, Any]:
        """Return place -> value of what stands in a job, below a place."""
        from setline.field_book.live import live_entries

        live = live_entries(self.site.store.entries(job))
        return {
            place: found[0].value
            for place, found in live.items()
            if place.startswith(start) and not found[0].taken_back
        }


def serve(folder: Path, port: int = 0) -> Served:
    """Run an app whose store lies in a folder, until it is stopped."""
    store = f"sqlite:///{folder / 'setline.db'}"
    settings = Settings(folder=folder, store_url=store, share=True, hosts=(LAN_NAME,))
    database = Database(settings.store_url)
    app = make_app(settings, database=database)
    listening = socket.create_server(("127.0.0.1", port))
    config = uvicorn.Config(app, log_level="error", ws="none", lifespan="off", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, args=([listening],), daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)

    def stop() -> None:
        server.should_exit = True
        thread.join(10)
        listening.close()
        database.close()

    return Served(app=app, site=app.state.site, port=listening.getsockname()[1], stop=stop)


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return an app that runs for all tests; each test starts jobs of its own in it."""
    running = serve(tmp_path_factory.mktemp("served"))
    yield running
    running.stop()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Return the browser of the operating system."""
    with sync_playwright() as playwright:
        browser = browser_of(playwright)
        yield browser
        browser.close()


def browser_of(playwright: Playwright) -> Browser:
    """Start the browser of the operating system."""
    program = os.environ.get("CHROMIUM") or shutil.which("chromium")
    return playwright.chromium.launch(
        executable_path=program,
        args=[
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            f"--host-resolver-rules=MAP {LAN_NAME} 127.0.0.1",
        ],
    )


@dataclass
class Desk:
    """A browser with nothing in it yet, as a phone or laptop of one person.

    Attributes:
        context: Its own cookies, stores and cache.
        page: Its page.
        troubles: What its scripts or its policy complained of.
    """

    context: BrowserContext
    page: Page
    troubles: list[str]


def open_desk(browser: Browser, kind: dict[str, Any], **more: Any) -> Desk:
    """Open a browser of one person."""
    context = browser.new_context(**{**kind, **more})
    context.set_default_timeout(PATIENCE * 1000)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda wrong: troubles.append(str(wrong)))
    page.on(
        "console",
        lambda told: troubles.append(told.text) if "Content Security Policy" in told.text else None,
    )
    return Desk(context, page, troubles)


def settles(page: Page, found: Callable[[], Any]) -> Any:
    """Wait until something that is found is true; return it, or what was found last.

    The wait is the browser's own, so that what stands in for the network meanwhile is heard: a plain sleep
    would hold up the very answer that is waited for.
    """
    end = time.monotonic() + PATIENCE
    while not (value := found()) and time.monotonic() < end:
        page.wait_for_timeout(40)
    return value


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Desk]:
    """Return a phone; its scripts must not have complained by the end."""
    desk = open_desk(chromium, PHONE)
    yield desk
    desk.context.close()
    assert desk.troubles == []


@pytest.fixture
def laptop(chromium: Browser) -> Iterator[Desk]:
    """Return a laptop; its scripts must not have complained by the end."""
    desk = open_desk(chromium, LAPTOP)
    yield desk
    desk.context.close()
    assert desk.troubles == []
