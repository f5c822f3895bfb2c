"""Photos: taken of walls, boxes and troubles, shown where they belong, bounded, deleted."""

from __future__ import annotations

import io
import re
import secrets
from collections.abc import Iterator
from html import unescape

import pytest
from PIL import Image

from setline.field_book.faults import StoreFull, StoreUnusable
from setline.field_book.photos import MOST_BYTES, Photo, Photos
from setline.web.photo_places import WHOLE_JOB, photo_places, photo_words
from tests.rooms import plain_room
from tests.web.app import App, open_app, text_of


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> App:
    """Return a room that fits, in an app."""
    return open_app(tmp_path_factory.mktemp("photos"), plain_room())


@pytest.fixture
def app(running: App) -> Iterator[App]:
    """Return the same; no photo of a test outlives it."""
    yield running
    for photo in _kept(running):
        assert running.site.store.photos is not None
        running.site.store.photos.remove(running.job, photo.id)


def _jpeg(width: int = 64, height: int = 48, colour: str = "teal") -> bytes:
    """Return a picture as a phone sends it."""
    written = io.BytesIO()
    Image.new("RGB", (width, height), colour).save(written, "JPEG")
    return written.getvalue()


def _send(
    app: App, place: str, content: bytes | None, status: int = 200, *, act: str = "", name: str = "a.jpg"
) -> str:
    """Send a photo as a browser does, one of the form's two fields left empty; return the page."""
    parts = [
        ('name="act"', (act or secrets.token_hex(10)).encode()),
        ('name="place"', place.encode()),
        ('name="take"; filename=""\r\nContent-Type: application/octet-stream', b""),
        (
            f'name="choose"; filename="{name if content else ""}"\r\nContent-Type: image/jpeg',
            content or b"",
        ),
    ]
    body = b"".join(
        b"--bound\r\nContent-Disposition: form-data; " + head.encode() + b"\r\n\r\n" + value + b"\r\n"
        for head, value in parts
    )
    answer = app.client.post(
        f"/j/{app.job}/photos",
        content=body + b"--bound--\r\n",
        headers={"content-type": "multipart/form-data; boundary=bound"},
    )
    assert answer.status_code == status, text_of(answer.text)[:1500]
    return answer.text


def _kept(app: App) -> tuple[Photo, ...]:
    """Return the job's photos."""
    assert app.site.store.photos is not None
    return app.site.store.photos.of_job(app.job)


def test_a_photo_of_a_box_is_kept_and_shown_where_the_box_is(app: App) -> None:
    """In the list, at the step that fetches the box, and nowhere else."""
    page = _send(app, "/order/boxes/3", _jpeg())
    assert "The photo is kept." in text_of(page)
    (photo,) = _kept(app)
    assert (photo.place, photo.width, photo.height) == ("/order/boxes/3", 64, 48)
    assert f"/photos/{photo.id}/small" in app.get("/set/3")
    assert f"/photos/{photo.id}/small" not in app.get("/set/1")


def test_the_picture_and_its_small_one_are_jpegs(app: App) -> None:
    """The small one is small enough for a list."""
    _send(app, WHOLE_JOB, _jpeg(1500, 900))
    (photo,) = _kept(app)
    for kind, longest in (("picture", 1500), ("small", 320)):
        answer = app.client.get(f"/j/{app.job}/photos/{photo.id}/{kind}")
        assert answer.headers["content-type"] == "image/jpeg"
        assert max(Image.open(io.BytesIO(answer.content)).size) == longest


@pytest.mark.parametrize("heading", ["/room/walls/A", "/order/boxes/1", "/order/appliances/31", WHOLE_JOB])
def test_what_can_be_taken_is_offered(app: App, heading: str) -> None:
    """Walls, boxes, openings and the job itself are in the list of the form."""
    assert f'<option value="{heading}">' in app.get("/photos")


def test_a_photo_of_a_trouble_stands_beside_it(app: App) -> None:
    """It is found again as long as the same is found at the same place."""
    assert app.standing.plan is not None
    finding = app.standing.plan.findings[0]
    place = next(each.place for each in photo_places(app.standing) if each.kind == "photos-findings")
    found = re.findall(r'/photos\?place=([^"]+)"', app.get("/troubles"))
    assert len(found) == len(app.standing.plan.findings)
    _send(app, place, _jpeg())
    assert f"/photos/{_kept(app)[0].id}/small" in app.get("/troubles")
    assert photo_words(place) == finding.where


def test_a_photo_of_a_wall_stands_in_the_room(app: App) -> None:
    """Under the wall."""
    _send(app, "/room/walls/A", _jpeg())
    assert f"/photos/{_kept(app)[0].id}/small" in app.get("/room")


def test_the_same_form_twice_keeps_one_photo(app: App) -> None:
    """A double press, or a form sent again after the signal was lost."""
    act = secrets.token_hex(10)
    _send(app, WHOLE_JOB, _jpeg(), act=act)
    _send(app, WHOLE_JOB, _jpeg(), act=act)
    assert len(_kept(app)) == 1


def test_what_is_no_picture_is_refused_in_words(app: App) -> None:
    """A text, whatever it is called; nothing is kept."""
    page = _send(app, "/order/boxes/4", b"%PDF-1.7 not a photo", 422, name="photo.jpg")
    assert 'role="alert"' in page
    assert 'name="place" value="/order/boxes/4"' in page
    assert _kept(app) == ()


def test_a_photo_too_large_is_refused_with_its_bound(app: App) -> None:
    """The answer says how large one may be."""
    page = text_of(_send(app, WHOLE_JOB, b"\xff\xd8" + bytes(MOST_BYTES), 422))
    assert f"{MOST_BYTES // 1_000_000}" in page
    assert _kept(app) == ()


def test_a_form_without_a_picture_asks_for_one(app: App) -> None:
    """What it was to be of is kept in the form."""
    page = _send(app, "/order/boxes/2", None, 422)
    assert "No picture came along." in page
    assert 'name="place" value="/order/boxes/2"' in page


@pytest.mark.parametrize("place", ["/order/boxes/99", "/nothing", "x", "/room/walls/A/lengths"])
def test_a_photo_of_nothing_in_the_job_is_refused(app: App, place: str) -> None:
    """A made-up address is no place for one."""
    assert "nothing like that" in text_of(_send(app, place, _jpeg(), 422))
    assert _kept(app) == ()


def test_a_photo_is_deleted_after_a_question(app: App) -> None:
    """File and row go; a second press is no trouble."""
    _send(app, WHOLE_JOB, _jpeg())
    (photo,) = _kept(app)
    page = app.get(f"/photos/{photo.id}")
    assert "Undo does not bring a photo back" in page
    for _ in range(2):
        assert "The photo is deleted." in app.post(f"/photos/{photo.id}/delete")
    assert _kept(app) == ()
    app.get(f"/photos/{photo.id}", 404)
    app.get(f"/photos/{photo.id}/picture", 404)


def test_a_photo_is_none_of_another_job(app: App) -> None:
    """Its address under another job is no page."""
    _send(app, WHOLE_JOB, _jpeg())
    app.client.post("/jobs/new", data={"act": "c" * 20, "name": "Elder Close", "tape": "inch"})
    for page in ("", "/picture", "/small"):
        answer = app.client.get(f"/j/j{'c' * 12}/photos/{_kept(app)[0].id}{page}")
        assert answer.status_code == 404


def test_a_guest_sees_photos_and_no_forms(app: App) -> None:
    """The link of a job shows its photos; it takes and deletes none."""
    _send(app, WHOLE_JOB, _jpeg())
    (photo,) = _kept(app)
    token = app.site.sessions.add_link(app.job, days=1)
    asked = {"cookie": f"setline-device={token}", "x-forwarded-for": "198.51.100.7"}
    page = app.client.get(f"/j/{app.job}/photos", headers=asked)
    assert page.status_code == 200
    assert "<form" not in page.text
    assert app.client.get(f"/j/{app.job}/photos/{photo.id}/small", headers=asked).status_code == 200
    refused = app.client.post(f"/j/{app.job}/photos/{photo.id}/delete", headers=asked)
    assert refused.status_code == 403
    assert len(_kept(app)) == 1


def test_a_full_disk_is_told_with_what_was_typed(app: App, monkeypatch: pytest.MonkeyPatch) -> None:
    """507, and the place that was chosen; neither file nor row was kept."""

    def full(*_: object) -> None:
        raise StoreFull("The photo was not kept: no space left on device.")

    monkeypatch.setattr(Photos, "write_file", full)
    page = text_of(_send(app, "/order/boxes/3", _jpeg(), 507))
    assert "no space left on device" in page
    assert "/order/boxes/3" in page
    assert _kept(app) == ()


@pytest.mark.parametrize(("fault", "status"), [(StoreFull, 507), (StoreUnusable, 503)])
def test_a_store_that_cannot_keep_gives_the_words_back(
    app: App, monkeypatch: pytest.MonkeyPatch, fault: type[Exception], status: int
) -> None:
    """A reading that was typed stands on the page that says it was not kept."""

    def refuse(*_: object, **__: object) -> None:
        raise fault("The disk has no room.")

    monkeypatch.setattr(type(app.site.store), "keep", refuse)
    page = text_of(app.post("/room/wall", status, wall="A", length="118 3/4", corner="inside"))
    assert "The disk has no room." in page
    assert "118 3/4" in page


def test_forms_of_photos_name_what_they_are_of(app: App) -> None:
    """The address of a place goes along, and the page says what it is."""
    link = re.search(r'href="/j/[^/"]+(/photos\?place=[^"]+)"', app.get("/set/3"))
    assert link is not None
    page = app.get(unescape(link[1]))
    assert "Photos: box 3, sink" in text_of(page)
    assert 'capture="environment"' in page
