"""Photos: made anew, bounded, upright, without anything beside the picture; whole or not there."""

from __future__ import annotations

import io
import os
import struct
import zlib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image
from tests.field_book.writing import SPOT, entry

from setline.field_book import photos as module
from setline.field_book.faults import NotInStore, PhotoRefused, StoreFull
from setline.field_book.photos import LONGEST_SIDE, MOST_BYTES, Photos, upright_jpeg
from setline.field_book.store import Store

ON_SQLITE = pytest.mark.parametrize("url", ["sqlite"], indirect=True)


def _sent(width: int, height: int, form: str = "JPEG", mode: str = "RGB", **more: object) -> bytes:
    """Return a picture as it is sent: its left half red, its right half blue."""
    picture = Image.new(mode, (width, height), "blue" if mode == "RGB" else 0)
    if mode == "RGB":
        picture.paste("red", (0, 0, width // 2, height))
    out = io.BytesIO()
    picture.save(out, form, **more)
    return out.getvalue()


@pytest.fixture
def photos(store: Store) -> Photos:
    """The photos of a store with one job in it."""
    store.add([entry(1, SPOT, "48")])
    assert store.photos is not None
    return store.photos


def test_a_photo_comes_back_as_a_jpeg(photos: Photos) -> None:
    """What was kept can be listed and fetched, and is a picture of the size that was told."""
    photo = photos.add("j", SPOT, "truck", _sent(400, 300), at="2026-05-06")
    assert photos.of_job("j") == (photo,)
    content = photos.content("j", photo.id)
    with Image.open(io.BytesIO(content)) as picture:
        assert (picture.format, picture.size) == ("JPEG", (400, 300))
    assert (photo.width, photo.height, photo.bytes) == (400, 300, len(content))


@pytest.mark.parametrize(
    ("size", "kept"), [((4000, 3000), (1600, 1200)), ((900, 3200), (450, 1600)), ((10, 10), (10, 10))]
)
def test_a_large_photo_is_made_smaller(size: tuple[int, int], kept: tuple[int, int]) -> None:
    """No side is longer than the longest; a small picture stays as it is."""
    _, *made = upright_jpeg(_sent(*size))
    assert tuple(made) == kept
    assert max(made) <= LONGEST_SIDE


def test_a_photo_is_turned_upright() -> None:
    """A phone held on its side notes that beside the picture; here the picture itself is turned."""
    exif = Image.Exif()
    exif[0x0112] = 6  # turn a quarter to the right to see it upright
    content, width, height = upright_jpeg(_sent(400, 300, exif=exif))
    assert (width, height) == (300, 400)
    with Image.open(io.BytesIO(content)) as picture:
        red, _, blue = picture.convert("RGB").getpixel((150, 20))
        assert red > 200 > blue


def test_nothing_but_the_picture_is_kept() -> None:
    """Where and when it was taken, by what, and whatever else was beside the picture is gone."""
    exif = Image.Exif()
    exif[0x010F] = "MAKER-OF-PHONES"
    exif.get_ifd(0x8825)[1] = "N"
    sent = _sent(400, 300, exif=exif, comment=b"COMMENT-BESIDE", icc_profile=b"PROFILE-BESIDE" * 20)
    content, _, _ = upright_jpeg(sent)
    assert b"MAKER" in sent
    assert not any(word in content for word in (b"MAKER", b"Exif", b"COMMENT", b"PROFILE", b"GPS"))
    with Image.open(io.BytesIO(content)) as picture:
        assert not picture.getexif()
        assert set(picture.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


@pytest.mark.parametrize(
    ("form", "mode"),
    [("PNG", "RGBA"), ("PNG", "P"), ("PNG", "L"), ("PNG", "I;16"), ("WEBP", "RGB"), ("JPEG", "CMYK")],
)
def test_other_kinds_of_picture_are_read(form: str, mode: str) -> None:
    """PNG, WebP and JPEG of any colours become plain JPEG."""
    content, *_ = upright_jpeg(_sent(60, 40, form, mode))
    with Image.open(io.BytesIO(content)) as picture:
        assert (picture.format, picture.mode) == ("JPEG", "RGB")


def test_what_is_see_through_becomes_white() -> None:
    """A picture with nothing behind it is laid on white, not on black."""
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (0, 0, 0, 0)).save(out, "PNG")
    content, *_ = upright_jpeg(out.getvalue())
    with Image.open(io.BytesIO(content)) as picture:
        assert picture.getpixel((10, 10)) == (255, 255, 255)


def _png_head(width: int, height: int) -> bytes:
    """Return a PNG that says it is so large, with hardly anything in it."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        checksum = struct.pack(">I", zlib.crc32(kind + content))
        return struct.pack(">I", len(content)) + kind + content + checksum

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    rows = zlib.compress(bytes(1000))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side", [8_001, 12_000, 60_000, 2**31 - 1])
def test_a_picture_that_would_fill_the_memory_is_refused(side: int) -> None:
    """A file of a few bytes that unpacks to thousands of millions is refused by what it says of itself."""
    with pytest.raises(PhotoRefused, match=r"million pixels|can be read"):
        upright_jpeg(_png_head(side, side))


def test_a_file_too_large_is_refused() -> None:
    """More bytes than any phone's photo has are not even looked at."""
    with pytest.raises(PhotoRefused, match="25 MB"):
        upright_jpeg(bytes(MOST_BYTES + 1))


@pytest.mark.parametrize(
    "wrong",
    [b"", b"notes", b"<svg/>", _sent(400, 300)[:600], _sent(40, 30, "GIF"), _sent(40, 30, "TIFF")],
    ids=["empty", "text", "svg", "cut short", "gif", "tiff"],
)
def test_what_is_no_photo_is_told(wrong: bytes) -> None:
    """Anything that is no whole JPEG, PNG or WebP is told so."""
    with pytest.raises(PhotoRefused, match="whole JPEG, PNG or WebP"):
        upright_jpeg(wrong)


@given(
    at=st.integers(0, 3000),
    piece=st.binary(min_size=1, max_size=40),
    form=st.sampled_from(["JPEG", "PNG", "WEBP"]),
)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_photo_with_bytes_changed_is_read_or_told(at: int, piece: bytes, form: str) -> None:
    """Whatever a file holds, the answer is a small JPEG or a sentence."""
    sent = _sent(200, 100, form)
    at %= len(sent)
    try:
        content, width, height = upright_jpeg(sent[:at] + piece + sent[at + len(piece) :])
    except PhotoRefused:
        return
    assert content.startswith(b"\xff\xd8")
    assert max(width, height) <= LONGEST_SIDE


def test_a_photo_of_no_job_is_refused(photos: Photos, store: Store) -> None:
    """A photo belongs to a job that is there; neither file nor row stays of another."""
    for job in ("x", "gone"):
        if job == "gone":
            store.add([entry(2, SPOT, "1", job="gone")])
            store.delete_job("gone")
        with pytest.raises(NotInStore):
            photos.add(job, SPOT, "truck", _sent(40, 30))
    assert not photos.folder.exists()


def test_photos_go_with_their_job(photos: Photos, store: Store) -> None:
    """When a job is deleted its files are gone too; those of others stay."""
    store.add([entry(2, SPOT, "1", job="other")])
    gone = photos.add("j", SPOT, "truck", _sent(40, 30))
    stays = photos.add("other", SPOT, "truck", _sent(40, 30))
    store.delete_job("j")
    assert [path.name for path in photos.folder.iterdir()] == [f"{stays.id}.jpg"]
    with pytest.raises(NotInStore):
        photos.content("j", gone.id)


def test_a_photo_can_be_removed(photos: Photos) -> None:
    """One photo is deleted with its file, once, and only under its own job."""
    photo = photos.add("j", SPOT, "truck", _sent(40, 30))
    with pytest.raises(NotInStore):
        photos.remove("other", photo.id)
    photos.remove("j", photo.id)
    assert list(photos.folder.iterdir()) == []
    with pytest.raises(NotInStore):
        photos.remove("j", photo.id)


@pytest.mark.parametrize("name", ["../store-0.db", "..", "x", "a/b", "\x00"])
@ON_SQLITE
def test_a_photo_is_fetched_by_its_row_alone(photos: Photos, name: str) -> None:
    """No name leads out of the folder, since only names that the store gave are looked for."""
    with pytest.raises(NotInStore):
        photos.content("j", name)


@ON_SQLITE
def test_a_job_has_room_for_so_many(photos: Photos, monkeypatch: pytest.MonkeyPatch) -> None:
    """One more than a job may have is told."""
    monkeypatch.setattr(module, "MOST_OF_A_JOB", 2)
    for _ in range(2):
        photos.add("j", SPOT, "truck", _sent(40, 30))
    with pytest.raises(PhotoRefused, match="at most"):
        photos.add("j", SPOT, "truck", _sent(40, 30))
    assert len(list(photos.folder.iterdir())) == 2


@ON_SQLITE
@pytest.mark.parametrize("step", ["fsync", "replace", "mkstemp"])
def test_a_photo_that_cannot_be_written_leaves_nothing(
    photos: Photos, step: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk at any step of writing: told, no half file, no row; and the next one is kept."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, os.strerror(28))

    with monkeypatch.context() as patch:
        if step == "replace":
            patch.setattr(Path, "replace", full)
        else:
            patch.setattr({"fsync": "os.fsync", "mkstemp": "tempfile.mkstemp"}[step], full)
        with pytest.raises(StoreFull, match="no space left"):
            photos.add("j", SPOT, "truck", _sent(40, 30))
    assert list(photos.folder.iterdir()) == []
    assert photos.of_job("j") == ()
    photos.add("j", SPOT, "truck", _sent(40, 30))
    assert len(photos.of_job("j")) == 1


@ON_SQLITE
def test_files_without_rows_are_swept(photos: Photos) -> None:
    """What a power cut left between file and row is cleared away; what has a row stays."""
    kept = photos.add("j", SPOT, "truck", _sent(40, 30))
    photos.write_file("0" * 32, b"left over")
    (photos.folder / "x.part").write_bytes(b"half")
    assert photos.sweep() == 2
    assert [path.name for path in photos.folder.iterdir()] == [f"{kept.id}.jpg"]
    assert photos.sweep() == 0
