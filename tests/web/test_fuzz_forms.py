"""Every form of the app, sent as nobody means it: taken, or refused in a sentence with what was typed.

The forms are found in the app itself, so that a new one cannot be forgotten. In memory, a fault of the app
comes through as an exception of its own.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import unescape
from importlib import import_module

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from sqlalchemy import delete

from setline.field_book.tables import entries, jobs
from setline.job.read import read_job
from setline.job.starter import starter
from setline.lengths import Units
from setline.web.app import PAGES
from setline.web.pages.jobs import start_job
from setline.web.session import COOKIE, HOST
from tests.web.app import App, open_app, text_of
from tests.web.forms import FormRoute, PageForm, crawl, form_routes, match
from tests.web.strange import Sent, bodies, strange_steps

TRIES = int(os.environ.get("SETLINE_FUZZ_TRIES", "6"))
"""Calls a form; more by hand, when something was changed that all forms share."""

MOST_FIELDS = 12
"""Fields of one form that are sent at once: a table of readings has hundreds, all alike."""

PATHS = sorted(
    route.path
    for page in PAGES
    for route in import_module(f"setline.web.pages.{page}").router.routes
    if "POST" in route.methods and not route.path.endswith("/entries")
)


@dataclass(frozen=True)
class Ground:
    """An app to send things to.

    Attributes:
        app: The app, with one small kitchen.
        routes: Path -> what it takes.
        forms: Address -> the form that pages send there.
        pages: Pages that links lead to.
        count: How many entries the kitchen is made of.
    """

    app: App
    routes: Mapping[str, FormRoute]
    forms: Mapping[str, PageForm]
    pages: tuple[str, ...]
    count: int

    def values(self, forms: Sequence[PageForm]) -> dict[str, list[str]]:
        """Return field -> what pages send in it: in these forms, else in any."""
        found: dict[str, list[str]] = {}
        for form in self.forms.values():
            for name, values in form.values.items():
                found.setdefault(name, []).extend(values)
        for form in forms:
            found |= form.values
        return {name: values for name, values in found.items() if values}

    def another(self) -> str:
        """Start another job; return its id."""
        return start_job(self.app.site, HOST, {"format": 1, "job": {"name": "Elm"}, "room": {}}, act="e" * 20)

    def clean(self) -> bool:
        """Take out what was added, and return whether anything was."""
        store = self.app.site.store
        added = store.job_ids() != (self.app.job,) or store.revision(self.app.job) != self.count
        with store.database.writing() as connection:  # a job that was deleted is not listed, yet there
            connection.execute(delete(entries).where(entries.c.seq > self.count))
            connection.execute(delete(jobs).where(jobs.c.id != self.app.job))
        return added


@pytest.fixture(scope="module")
def ground(tmp_path_factory: pytest.TempPathFactory) -> Ground:
    """An app with a small kitchen whose boxes, runs and readings are all there."""
    kitchen = read_job(starter("Tern Lane", Units.INCH), "toml")
    app = open_app(tmp_path_factory.mktemp("ground"), kitchen, share=True)
    pages, forms = crawl(app.client, f"/j/{app.job}", alike=1)
    served = app.client.app
    assert isinstance(served, FastAPI)
    return Ground(
        app, {each.path: each for each in form_routes(served)}, forms, tuple(pages), app.standing.revision
    )


def test_every_form_is_known(ground: Ground) -> None:
    """No route that takes a form is hidden from the description, and no page sends to a route that is not."""
    assert sorted(ground.routes) == PATHS
    assert [address for address in ground.forms if not any(match(path, address) for path in PATHS)] == []
    assert len(ground.forms) > 20


def test_forms_hold_what_their_routes_need(ground: Ground) -> None:
    """Every form on a page has the fields that its route cannot do without."""
    for form in ground.forms.values():
        route = next(each for path, each in ground.routes.items() if match(path, form.action))
        assert route.needed <= set(form.values), form.action


@pytest.mark.parametrize("path", PATHS)
def test_a_form_sent_as_nobody_means_it(ground: Ground, path: str) -> None:
    """Odd texts, missing and doubled fields, wrong kinds and addresses: no fault, and no typing is lost."""
    route = ground.routes[path]
    shown = [form for form in ground.forms.values() if match(path, form.action)]
    names = list(dict.fromkeys((*route.fields, *(name for form in shown for name in form.values))))[
        :MOST_FIELDS
    ]
    sent = bodies(names, ground.values(shown), is_multipart=route.is_multipart)
    addresses = st.one_of(
        st.sampled_from([form.action for form in shown] or [_address(ground, path)]),
        st.builds(
            lambda step, which: _address(ground, path, which, step), strange_steps(), st.integers(0, 2)
        ),
    )

    @settings(
        max_examples=TRIES,
        deadline=None,
        database=None,
        phases=(Phase.generate,),  # what was sent is told as it is: to shrink it takes minutes
        suppress_health_check=list(HealthCheck),
    )
    @given(addresses, sent)
    def call(address: str, body: Sent) -> None:
        _check(ground, address, body, _typed_fields(ground, shown))

    call()


def _typed_fields(ground: Ground, shown: Sequence[PageForm]) -> set[str]:
    """Return the fields that people type into: of these forms, else of any."""
    return {name for form in shown or ground.forms.values() for name in form.typed}


def _address(ground: Ground, path: str, which: int = -1, odd: str = "") -> str:
    """Return an address of a path, one of its names set to something odd."""
    steps = {"j": ground.app.job, "w": "A", "b": "1", "n": str(ground.count)}
    names = re.findall(r"\{([^}]*)\}", path)
    if 0 <= which < len(names):
        steps[names[which]] = odd
    return re.sub(r"\{([^}]*)\}", lambda name: steps.get(name[1], "x"), path)


def _check(ground: Ground, address: str, body: Sent, typed: set[str]) -> None:
    """Send a body and hold the answer against what is promised."""
    client = ground.app.client
    if address.endswith("/delete"):  # what it deletes is a job of its own
        address = address.replace(ground.app.job, ground.another())
    answer = client.post(
        address, content=body.content, headers={"content-type": body.kind}, follow_redirects=False
    )
    assert answer.status_code < 500
    if answer.status_code == 303:
        assert client.get(answer.headers["location"]).status_code < 500
    elif answer.status_code >= 400:
        assert "." in text_of(answer.text)
        page = unescape(answer.text)
        for name in typed & set(body.texts):
            assert body.texts[name] in page, (answer.status_code, name, text_of(answer.text)[:800])
    ground.clean()


def test_strangers_guests_and_foreign_pages_change_nothing(ground: Ground) -> None:
    """A form from no known device, by a guest's link or from another site's page is refused."""
    app = ground.app
    token = app.site.sessions.add_link(app.job, days=1)
    served = app.client.app
    stranger = TestClient(served, base_url="http://localhost", client=("192.0.2.7", 50000))
    guest = TestClient(
        served, base_url="http://localhost", client=("192.0.2.8", 50000), cookies={COOKIE: token}
    )
    for path in PATHS:
        address = _address(ground, path)
        form = {"act": "0" * 20, "text": "27 7/16", "name": "Tern"}
        foreign = app.client.post(address, data=form, headers={"origin": "http://elsewhere.example"})
        assert foreign.status_code == 403, path
        if path == "/pair":
            continue  # the one form for those who are not known yet
        unknown = stranger.post(address, data=form)
        assert unknown.status_code in (401, 404), path
        assert "27 7/16" in unknown.text, path
        looking = guest.post(address, data=form)
        assert looking.status_code in (403, 404, 422), (path, looking.status_code)
    assert not ground.clean()
