"""A running app in memory for tests, with a job in it, and what a person does with it."""

from __future__ import annotations

import re
import secrets
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import Any

from fastapi.testclient import TestClient

from setline.field_book.database import Database
from setline.job.job import Job
from setline.job.read import load_job
from setline.job.write import to_dict
from setline.web.app import make_app
from setline.web.pages.jobs import start_job
from setline.web.planning import Standing
from setline.web.session import HOST
from setline.web.settings import Settings
from setline.web.site import Site

__all__ = ["EXAMPLES", "App", "open_app", "text_of"]

EXAMPLES = Path(__file__).parents[2] / "examples"


def text_of(html: str) -> str:
    """Return a page's text: no tags, single spaces."""
    body = re.sub(r"<(script|style|svg)\b.*?</\1>", " ", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", body)).split())


@dataclass(frozen=True)
class App:
    """An app with one job.

    Attributes:
        client: What asks it.
        site: Its parts.
        job: The job's id.
    """

    client: TestClient
    site: Site
    job: str

    @property
    def standing(self) -> Standing:
        """The job as it stands."""
        return self.site.planner.standing(self.job)

    @property
    def document(self) -> dict[str, Any]:
        """The job's document."""
        return self.standing.folded.document

    def get(self, page: str, status: int = 200) -> str:
        """Return a page of the job as HTML."""
        answer = self.client.get(f"/j/{self.job}{page}")
        assert answer.status_code == status, answer.text[:2000]
        return answer.text

    def post(self, page: str, status: int | tuple[int, ...] = 200, **fields: Any) -> str:
        """Send a form of the job as a browser does, and return the page it leads to."""
        sent = {"act": secrets.token_hex(10), **fields}
        answer = self.client.post(f"/j/{self.job}{page}", data=sent)
        wanted = (status,) if isinstance(status, int) else status
        assert answer.status_code in wanted, (answer.status_code, text_of(answer.text)[:2000])
        return answer.text


def open_app(folder: Path, job: Job | Path | dict[str, Any], **how: Any) -> App:
    """Return an app with one job, its store in a folder; ``how`` it is run besides, as in ``Settings``."""
    settings = Settings(folder=folder, store_url=f"sqlite:///{folder / 'setline.db'}", **how)
    app = make_app(settings, database=Database(settings.store_url))
    site: Site = app.state.site
    if isinstance(job, Path):
        job = load_job(job)
    document = to_dict(job) if isinstance(job, Job) else job
    name = start_job(site, HOST, document, act=secrets.token_hex(10))
    client = TestClient(app, base_url="http://localhost")
    return App(client, site, name)
