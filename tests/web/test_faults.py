"""No room on the disk, met through the app: nothing half kept, and what was typed comes back."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from PIL import Image
from sqlalchemy import text

from setline.field_book.database import Database
from setline.field_book.photos import Photos
from setline.web.app import make_app
from setline.web.pages.jobs import start_job
from setline.web.session import HOST
from setline.web.settings import Settings
from tests.web.app import App, text_of

NEW = {"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}, "room": {}}
MOST_PAGES = 90


@pytest.fixture
def tight(tmp_path: Path) -> App:
    """An app whose store may not grow beyond some pages, as on a disk that is nearly full."""
    url = f"sqlite:///{tmp_path / 'setline.db'}"
    Database(url).close()
    settings = Settings(folder=tmp_path, store_url=url)
    app = make_app(settings, database=Database(url, most_pages=MOST_PAGES))
    job = start_job(app.state.site, HOST, NEW, act="a" * 20)
    return App(TestClient(app, base_url="http://localhost"), app.state.site, job)


def fill(app: App) -> int:
    """Send entries until there is no room; return how many were kept."""
    for n in range(2000):
        entry = {
            "id": f"e{n}",
            "job": app.job,
            "device": "d",
            "n": n,
            "place": f"/notes/{n}",
            "value": "x" * 900,
        }
        answer = app.client.post(f"/j/{app.job}/entries", json=[entry])
        if answer.status_code != 200:
            assert answer.status_code == 507
            assert "no room" in answer.json()["errors"][0]["text"]
            return n
    raise AssertionError("the disk never was full")


def is_sound(app: App) -> bool:
    """Return whether the database finds nothing wrong with itself."""
    with app.site.store.database.reading() as connection:
        return connection.execute(text("PRAGMA integrity_check")).scalars().all() == ["ok"]


def test_a_full_disk_gives_back_what_was_typed(tight: App) -> None:
    """Every form on a full disk: 507, the sentence, the text; pages still show, nothing was kept half."""
    kept = fill(tight)
    before = tight.site.store.revision(tight.job)
    assert kept > 5
    typed = "Ines's house, " + "long " * 12
    answer = tight.client.post("/jobs/new", data={"act": "b" * 20, "name": typed, "tape": "metric"})
    sent = 0
    while answer.status_code == 200 and sent < 60:  # a short entry may still find a place
        sent += 1
        answer = tight.client.post("/jobs/new", data={"act": f"{sent:020x}", "name": typed, "tape": "metric"})
    assert answer.status_code == 507
    assert "no room" in text_of(answer.text)
    assert typed.strip() in text_of(answer.text)
    assert tight.site.store.revision(tight.job) == before
    assert "Tern Lane" in tight.get("")
    assert is_sound(tight)


def test_a_photo_that_cannot_be_written_is_told(tight: App, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk takes no file: 507, the note that went with it comes back, no row and no half a file stays."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("setline.field_book.photos.os.fsync", full)
    out = io.BytesIO()
    Image.new("RGB", (60, 40), "tan").save(out, "JPEG")
    files = {"take": ("wall.jpg", out.getvalue(), "image/jpeg")}
    place = re.search(r'<option value="([^"]*)"', tight.get("/photos"))
    assert place is not None
    data = {"act": "c" * 20, "place": place[1]}
    answer = tight.client.post(f"/j/{tight.job}/photos", data=data, files=files)
    assert answer.status_code == 507, text_of(answer.text)[:600]
    assert "no space left" in text_of(answer.text).lower()
    photos = tight.site.store.photos
    assert isinstance(photos, Photos)
    assert photos.of_job(tight.job) == ()
    assert list(photos.folder.glob("*")) == []
    assert is_sound(tight)
