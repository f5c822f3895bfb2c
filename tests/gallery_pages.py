"""Every page of the app as a phone and a laptop show it, of both samples: pictures to look at."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator
from pathlib import Path

from fastapi.testclient import TestClient
from playwright.sync_api import Page, sync_playwright

from tests.browser.conftest import EXAMPLES, LAPTOP, PHONE, Served, browser_of, open_desk, serve
from tests.web.app import App
from tests.web.every_page import GET_ROUTES, addresses, fill

__all__ = ["shoot_pages"]


def shoot_pages(folder: Path) -> Iterator[Path]:
    """Write a picture of every page into a folder, one folder a sample and size; yield each as it is there.

    A picture is of the whole page, however long; the foot bar stands where it stood at first.
    """
    with tempfile.TemporaryDirectory() as data, sync_playwright() as playwright:
        served = serve(Path(data))
        browser = browser_of(playwright)
        for sample in sorted(path.stem for path in EXAMPLES.glob("*.toml")):
            job = served.sample(sample)
            parts = fill(App(TestClient(served.app, base_url="http://localhost"), served.site, job))
            for size, kind in (("phone", {**PHONE, "device_scale_factor": 1}), ("laptop", LAPTOP)):
                desk = open_desk(browser, kind, service_workers="block")
                for route in GET_ROUTES:
                    for number, address in enumerate(addresses(route, parts)):
                        target = folder / sample / size / f"{_name(route, number)}.png"
                        if _shoot(desk.page, served, address, target):
                            yield target
                desk.context.close()
        browser.close()
        served.stop()


def _name(route: str, number: int) -> str:
    """Return a picture's name: the parts of the address that are always the same, and which view of it."""
    words = re.findall(r"[a-z-]+", re.sub(r"\{[^}]*\}", "one", route.removeprefix("/j/{j}")))
    return "-".join(words or ["home"]) + (f"-{number + 1}" if number else "")


def _shoot(page: Page, served: Served, address: str, target: Path) -> bool:
    """Take a picture of a page; False where an address leads to no page of its own."""
    head = served.head(address)
    if head.is_file or not head.kind.startswith("text/html"):
        return False
    page.goto(served.address + address)
    page.evaluate("document.fonts.ready")
    target.parent.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=target, full_page=True)
    return True
