"""Calls drawn from the app's own description: every address, every field, and never a fault of the app.

Of schemathesis only what it draws is used; what an answer has to be is said here. In memory, a fault of the
app comes through as an exception of its own.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from setline.job.read import read_job
from setline.job.starter import starter
from setline.lengths import Units
from tests.web.app import App, open_app, text_of

TRIES = int(os.environ.get("SETLINE_FUZZ_TRIES", "2"))
"""Calls an address; more by hand."""

NEVER_ENDS = "/j/{j}/feed"
"""The one address whose answer goes on as long as a page is open."""

ELSEWHERE = frozenset({"/j/{j}/delete", "/j/{j}/print", "/jobs/all.zip"})
"""Addresses that are asked in no job that is there: they delete it, or work in the background for long."""


@pytest.fixture
def app(tmp_path: Path) -> App:
    """An app with a small kitchen."""
    return open_app(tmp_path, read_job(starter("Tern Lane", Units.INCH), "toml"), share=True)


def test_calls_drawn_from_the_description(app: App) -> None:
    """Every address with every field, in a job that is there and in others: answered, or refused in words."""
    assert isinstance(app.client.app, FastAPI)
    described = schemathesis.openapi.from_dict(app.client.app.openapi())
    called = set()
    for found in described.get_all_operations():
        operation = found.ok()

        @settings(
            max_examples=TRIES,
            deadline=None,
            database=None,
            derandomize=True,
            phases=(Phase.generate,),
            suppress_health_check=list(HealthCheck),
        )
        @given(operation.as_strategy(), st.booleans())
        def call(case: Any, is_there: bool) -> None:
            called.add(case.path)
            if "j" in case.path_parameters and is_there and case.path not in ELSEWHERE:
                case.path_parameters["j"] = app.job
            if case.path != NEVER_ENDS or case.path_parameters["j"] != app.job:
                _check(app, case)

        call()
    assert len(called) > 60


def _check(app: App, case: Any) -> None:
    """Send one call and hold the answer against what is promised."""
    call = case.as_transport_kwargs(base_url="http://localhost")
    kept = {
        key: call[key]
        for key in ("method", "url", "params", "headers", "data", "files", "json")
        if key in call
    }
    if isinstance(kept.get("data"), bytes | str):
        kept["content"] = kept.pop("data")
    answer = app.client.request(**kept, follow_redirects=False)
    assert answer.status_code < 500, kept
    if answer.status_code >= 400 and "json" in answer.headers["content-type"]:
        assert json.loads(answer.text)["errors"][0]["text"].endswith("."), kept
    elif answer.status_code >= 400:
        assert "." in text_of(answer.text), kept


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"[" * 100_000, 422),
        (b"[" * 900 + b"]" * 900, 422),
        (b'[{"id": "\\ud800", "job": "J", "device": "d", "n": 1, "place": "/a", "value": 1}]', 422),
        (b'[{"id": "a\\u0000", "job": "J", "device": "d", "n": 1, "place": "/a", "value": 1}]', 422),
        (b'[{"id": "a", "job": "J", "device": "d", "n": 1e400, "place": "/a", "value": 1}]', 422),
        (
            b'[{"id": "a", "job": "J", "device": "d", "n": ' + b"9" * 5000 + b', "place": "/a", "value": 1}]',
            422,
        ),
        (b'[{"id": "a", "job": "J", "device": "d", "n": 1, "place": "/a", "value": NaN}]', 422),
        (
            b'[{"id": "a", "job": "J", "device": "d", "n": 1, "place": "/a", "value": '
            + b"[" * 900
            + b"]" * 900
            + b"}]",
            422,
        ),
        (b'[{"id": "a", "job": "other", "device": "d", "n": 1, "place": "/a", "value": 1}]', 422),
        (b"[" + b"1," * 600 + b"1]", 422),
        (b"{}", 422),
        (b"null", 422),
        (b"", 422),
        (b"\xff", 422),
    ],
)
def test_entries_that_no_phone_sends(app: App, body: bytes, status: int) -> None:
    """Deep, broken, huge and foreign entries are refused whole, as JSON with a sentence."""
    sent = body.replace(b'"J"', f'"{app.job}"'.encode())
    count = app.standing.revision
    kind = {"content-type": "application/json"}
    answer = app.client.post(f"/j/{app.job}/entries", content=sent, headers=kind)
    assert answer.status_code in (status, 400)
    assert answer.json()["ok"] is False
    assert answer.json()["errors"][0]["text"].endswith(".")
    assert app.standing.revision == count


def test_an_entry_that_was_kept_with_another_content_is_refused(app: App) -> None:
    """The same id with another value is told, not kept and no fault; the same entry again is acknowledged."""
    entry = {"id": "a", "job": app.job, "device": "d", "n": 1, "place": "/job/name", "value": "Tern"}
    where = f"/j/{app.job}/entries"
    assert app.client.post(where, json=[entry]).json()["new"] == 1
    assert app.client.post(where, json=[entry]).json()["new"] == 0
    answer = app.client.post(where, json=[{**entry, "value": "Other"}])
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["text"].endswith(".")


def test_a_value_that_the_job_cannot_hold_breaks_no_page(app: App) -> None:
    """Entries that fold to no whole job leave every page standing; the first says what is wrong."""
    odd = {
        "/job": "x",
        "/job/name": 7,
        "/room/walls/A": [1],
        "/runs": {"x": "y"},
        "/order/boxes/1/width": {"deep": [[]]},
        "/floor/set_ups/S1/readings": "none",
        "/nowhere/at/all": True,
        "/~": 1,
    }
    for number, (place, value) in enumerate(odd.items()):
        entry = {
            "id": f"odd{number}",
            "job": app.job,
            "device": "d",
            "n": number,
            "place": place,
            "value": value,
        }
        assert app.client.post(f"/j/{app.job}/entries", json=[entry]).status_code in (200, 422)
        for page in ("", "/walk", "/readings", "/room", "/troubles", "/run/A"):
            assert app.client.get(f"/j/{app.job}{page}").status_code < 500, (place, page)
