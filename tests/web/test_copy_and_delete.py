"""A job taken along whole, and a job deleted with its photos after two questions."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path
from urllib.parse import unquote

import pytest
from PIL import Image

from setline.field_book.entry import entry_from_dict
from setline.field_book.fold import fold
from setline.job.read import read_job
from setline.job.write import to_dict
from setline.web.pages import copy
from setline.web.session import Role
from tests.rooms import plain_room
from tests.web.app import App, open_app, text_of


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return a room with one photo, in an app."""
    app = open_app(tmp_path, plain_room())
    written = io.BytesIO()
    Image.new("RGB", (40, 30), "olive").save(written, "JPEG")
    assert app.site.store.photos is not None
    app.site.store.photos.add(app.job, "/order/boxes/1", "host", written.getvalue())
    return app


def test_the_job_file_brings_the_same_job_back(app: App) -> None:
    """What the page hands out is read as a job file, and is the job."""
    answer = app.client.get(f"/j/{app.job}/copy/job.toml")
    assert f'filename="plain-room-{app.job}.toml"' in answer.headers["content-disposition"]
    assert app.standing.job is not None
    assert to_dict(read_job(answer.text, "toml")) == to_dict(app.standing.job)


def test_all_that_was_kept_is_in_one_file(app: App) -> None:
    """Job file, every entry, every photo; the entries alone make the same job."""
    answer = app.client.get(f"/j/{app.job}/copy/all.zip")
    assert int(answer.headers["content-length"]) == len(answer.content)
    with zipfile.ZipFile(io.BytesIO(answer.content)) as packed:
        names = packed.namelist()
        lines = packed.read(next(name for name in names if name.endswith(".jsonl"))).decode().splitlines()
    assert len([name for name in names if name.endswith(".jpg")]) == 1
    assert len([name for name in names if name.endswith(".toml")]) == 1
    entries = tuple(entry_from_dict(json.loads(line)) for line in lines)
    assert fold(entries).document == app.document


def test_every_job_is_in_one_file(app: App) -> None:
    """From the list of jobs."""
    app.client.post("/jobs/new", data={"act": "d" * 20, "name": "Yew Court", "tape": "metric"})
    assert 'href="/jobs/all.zip"' in app.client.get("/jobs").text
    answer = app.client.get("/jobs/all.zip")
    with zipfile.ZipFile(io.BytesIO(answer.content)) as packed:
        stems = {name.partition(".")[0] for name in packed.namelist() if name.endswith(".jsonl")}
    assert stems == {f"plain-room-{app.job}", f"yew-court-j{'d' * 12}"}


def test_a_job_that_is_not_whole_says_what_is_missing(tmp_path: Path) -> None:
    """Its entries can be taken along all the same."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Ash Row", "tape": "inch"}, "room": {}})
    app.post("/room/start", count=2)
    assert app.standing.job is None
    assert "There is no job file yet" in text_of(app.get("/copy"))
    assert "lengths" in text_of(app.get("/copy/job.toml", 409))
    assert app.client.get(f"/j/{app.job}/copy/all.zip").status_code == 200


def test_a_name_of_any_letters_is_handed_out(tmp_path: Path) -> None:
    """The file is called as the job is, whatever it is written in."""
    app = open_app(tmp_path, {**plain_room(), "job": {"name": "Žitná 厨房", "tape": "inch"}})
    for file in ("job.toml", "all.zip"):
        answer = app.client.get(f"/j/{app.job}/copy/{file}")
        assert answer.status_code == 200
        assert "žitná-厨房" in unquote(answer.headers["content-disposition"])


def test_a_copy_without_room_is_told(app: App, monkeypatch: pytest.MonkeyPatch) -> None:
    """507 with why; the job is as it was."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(copy, "export_one", full)
    assert "no space left on device" in text_of(app.get("/copy/all.zip", 507))
    assert app.standing.job is not None


def test_a_job_is_deleted_after_two_questions(app: App) -> None:
    """The first press only asks again; the second deletes it with its photos, for everybody."""
    assert f'href="/j/{app.job}/delete"' in app.get("/copy")
    assert "with its" in text_of(app.get("/delete"))
    again = app.post("/delete")
    assert "Once more: delete Plain room for good?" in text_of(again)
    assert app.job in app.site.store.job_ids()
    assert "The job is deleted." in app.post("/delete", sure="yes")
    assert app.site.store.job_ids() == ()
    assert app.site.store.photos is not None
    assert list(app.site.store.photos.folder.glob("*.jpg")) == []
    app.get("", 404)
    app.post("/delete", 404, sure="yes")


def test_only_the_machine_that_runs_it_deletes_a_job(app: App) -> None:
    """A paired phone is told so, and offered no button; a guest has no copy either."""
    _, phone = app.site.sessions.add_device("Ines", Role.CREW)
    guest = app.site.sessions.add_link(app.job, days=1)
    from_phone = {"cookie": f"setline-device={phone}", "x-forwarded-for": "198.51.100.7"}
    as_guest = {"cookie": f"setline-device={guest}", "x-forwarded-for": "198.51.100.7"}
    page = app.client.get(f"/j/{app.job}/copy", headers=from_phone)
    assert page.status_code == 200
    assert f"/j/{app.job}/delete" not in page.text
    for data in ({}, {"sure": "yes"}):
        assert app.client.post(f"/j/{app.job}/delete", data=data, headers=from_phone).status_code == 403
    for path in (f"/j/{app.job}/copy", f"/j/{app.job}/copy/all.zip", "/jobs/all.zip", f"/j/{app.job}/delete"):
        assert app.client.get(path, headers=as_guest).status_code == 403
    assert app.job in app.site.store.job_ids()
