"""One file with all of a store, and a store made again from it, whichever database either is."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from sqlalchemy import insert, select
from tests.field_book.conftest import KINDS
from tests.field_book.writing import SPOT, entry

from setline.field_book.backup import MANIFEST, Held, write_backup
from setline.field_book.database import HEAD, Database
from setline.field_book.faults import BackupUnusable, NotInStore, StoreFull, StoreNotEmpty
from setline.field_book.photos import Photos
from setline.field_book.restore import restore_backup
from setline.field_book.store import Store
from setline.field_book.tables import METADATA, devices, links, prints
from setline.field_book.transfer import import_job
from setline.job.read import load_job
from setline.job.write import to_dict

MILL_ROW = to_dict(load_job("examples/mill-row.toml"))


def _picture() -> bytes:
    """Return a photo as a phone sends it."""
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "tan").save(out, "JPEG")
    return out.getvalue()


def _fill(store: Store) -> None:
    """Put something of every kind into a store."""
    store.add(import_job(MILL_ROW, "truck", job="mill", act="a"), made_at="2026-05-06")
    store.add([entry(n, SPOT, f"48 {n}/16", device="phone", over=("é",)) for n in range(1, 4)])
    store.add([entry(9, SPOT, "1", job="gone", device="pad")])
    store.delete_job("gone")
    assert store.photos is not None
    for place in ("/room", "/floor"):
        store.photos.add("mill", place, "phone", _picture(), at="2026-05-06T09:00:00+00:00")
    device = {"id": "d", "name": "Ines", "token_hash": bytes(range(256))[:32], "role": "crew", "job": None}
    with store.database.writing() as connection:
        connection.execute(
            insert(devices), [{**device, "made_at": "a", "expires_at": "b", "is_revoked": False}]
        )
        connection.execute(
            insert(links),
            [{"token_hash": b"\x00", "job": "mill", "made_at": "", "expires_at": "", "is_revoked": True}],
        )
        connection.execute(
            insert(prints), [{"job": "mill", "revision": "A", "check_code": "f", "numbers": "{}", "at": "a"}]
        )


def _all(store: Store) -> dict[str, list[Any]]:
    """Return every row of every table; numbers of arrival are the store's own and left out."""
    found: dict[str, list[Any]] = {}
    with store.database.reading() as connection:
        for table in METADATA.sorted_tables:
            columns = [column for column in table.c if column.name != "seq"]
            rows = connection.execute(select(*columns).order_by(*table.primary_key.columns))
            found[table.name] = [tuple(row) for row in rows]
    return found


@pytest.fixture
def backup(store: Store, tmp_path: Path) -> Path:
    """A backup of a store with something of everything in it."""
    _fill(store)
    assert store.photos is not None
    out = tmp_path / "site.backup"
    held = write_backup(store.database, store.photos.folder, out)
    assert held == Held(jobs=2, entries=len(store.entries("mill")) + 3, photos=2)
    return out


@pytest.fixture(params=KINDS)
def other(request: pytest.FixtureRequest, make_url: Callable[[str], str], tmp_path: Path) -> Iterator[Store]:
    """A second, empty store, of each kind in turn."""
    database = Database(make_url(request.param))
    yield Store(database, Photos(database, tmp_path / "other-photos"))
    database.close()


def test_a_restored_store_is_the_same(store: Store, other: Store, backup: Path) -> None:
    """From either database into either, every row and every photo is the same."""
    assert store.photos is not None
    assert other.photos is not None
    held = restore_backup(backup, other.database, other.photos)
    assert held.jobs == 2
    assert _all(other) == _all(store)
    for photo in store.photos.of_job("mill"):
        assert other.photos.content("mill", photo.id) == store.photos.content("mill", photo.id)


def test_a_restored_store_goes_on(other: Store, backup: Path) -> None:
    """New entries come after the restored ones; a deleted job stays deleted; repeats are known."""
    assert other.photos is not None
    restore_backup(backup, other.database, other.photos)
    first = other.entries("j")[0]
    assert other.add([first, entry(77, SPOT, "50")]) == 1
    assert other.entries("j")[-1].n == 77
    with pytest.raises(NotInStore):
        other.add([entry(10, SPOT, "1", job="gone", device="pad")])


def test_a_store_with_something_in_it_is_not_touched_unless_told(other: Store, backup: Path) -> None:
    """A restore refuses to lie over anything; told that it may, it leaves what the backup has and no more."""
    assert other.photos is not None
    other.add([entry(1, SPOT, "7", job="mine", device="pad")])
    old = other.photos.add("mine", "/room", "pad", _picture())
    before = _all(other)
    with pytest.raises(StoreNotEmpty):
        restore_backup(backup, other.database, other.photos)
    assert _all(other) == before
    restore_backup(backup, other.database, other.photos, replace=True)
    assert other.job_ids() == ("j", "mill")
    assert not (other.photos.folder / f"{old.id}.jpg").exists()


def test_a_backup_is_not_written_over_a_file(store: Store, tmp_path: Path) -> None:
    """A file that is there already is left alone unless told."""
    out = tmp_path / "x"
    out.write_text("mine")
    with pytest.raises(FileExistsError):
        write_backup(store.database, None, out)
    assert out.read_text() == "mine"
    write_backup(store.database, None, out, over=True)
    assert zipfile.is_zipfile(out)


def test_a_backup_that_cannot_be_written_leaves_nothing(store: Store, tmp_path: Path) -> None:
    """Where there is no such folder, or no room, no half file is left and the sentence says why."""
    with pytest.raises(StoreFull, match="could not be written"):
        write_backup(store.database, None, tmp_path / "none" / "x")
    _fill(store)
    assert store.photos is not None
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("os.fsync", _no_space)
        with pytest.raises(StoreFull, match="no space left"):
            write_backup(store.database, store.photos.folder, tmp_path / "x")
    assert not list(tmp_path.glob("x*"))


def _no_space(*_: object) -> None:
    """Do as a disk does that is full."""
    raise OSError(28, "No space left on device")


def _changed(backup: Path, out: Path, member: str, change: Callable[[bytes], bytes | None]) -> Path:
    """Write a backup again with one member changed, or left out."""
    with zipfile.ZipFile(backup) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            changed = change(content) if name == member else content
            if changed is not None:
                new.writestr(name, changed)
    return out


def _manifest(**changes: object) -> Callable[[bytes], bytes]:
    """Return a change of the manifest's fields."""
    return lambda content: json.dumps({**json.loads(content), **changes}).encode()


ENTRIES = "tables/entries.jsonl"
ON_SQLITE = pytest.mark.parametrize(
    "url", ["sqlite"], indirect=True
)  # the file is read before any database is


@ON_SQLITE
@pytest.mark.parametrize(
    ("member", "change", "said"),
    [
        (ENTRIES, lambda content: content.replace(b"48 1/16", b"49 1/16"), "damaged at tables/entries"),
        (ENTRIES, lambda _: None, "damaged at tables/entries"),
        (MANIFEST, lambda _: None, "no backup"),
        (MANIFEST, lambda _: b"[]", "no backup"),
        (MANIFEST, lambda _: b"{}", "no backup"),
        (MANIFEST, lambda content: content[:-20], "no backup"),
        (MANIFEST, _manifest(form="setline backup 2"), "newer Setline"),
        (MANIFEST, _manifest(schema="9999"), "newer Setline"),
        (MANIFEST, _manifest(checksums={"photos/../../x.jpg": "0"}), "damaged at photos"),
        (MANIFEST, _manifest(checksums={"photos/" + "0" * 32 + ".jpg": "0"}), "damaged at photos"),
        (MANIFEST, _manifest(rows={"jobs": 3, "entries": 1}), "damaged at"),
    ],
)
def test_a_damaged_backup_is_told_and_nothing_is_changed(
    member: str,
    change: Callable[[bytes], bytes | None],
    said: str,
    store: Store,
    backup: Path,
    tmp_path: Path,
) -> None:
    """Whatever is missing, changed or made up in the file, the store stays as it was."""
    assert store.photos is not None
    before = _all(store)
    files = sorted(path.name for path in store.photos.folder.iterdir())
    wrong = _changed(backup, tmp_path / "wrong", member, change)
    with pytest.raises(BackupUnusable, match=said):
        restore_backup(wrong, store.database, store.photos, replace=True)
    assert _all(store) == before
    assert sorted(path.name for path in store.photos.folder.iterdir()) == files
    assert store.database.revision() == HEAD


@pytest.mark.parametrize("row", [b"{", b"[1]\n", b'{"seq": 1}\n', b'{"seq": 1, "id": "a", "job": "none"}\n'])
def test_rows_that_are_none_are_told(row: bytes, store: Store, backup: Path, tmp_path: Path) -> None:
    """A file whose checksums fit and whose rows do not is refused whole too."""
    import hashlib

    assert store.photos is not None
    before = _all(store)
    wrong = _changed(backup, tmp_path / "a", ENTRIES, lambda _: row)
    with zipfile.ZipFile(backup) as archive:
        checksums = json.loads(archive.read(MANIFEST))["checksums"]
    sums = {**checksums, ENTRIES: hashlib.sha256(row).hexdigest()}
    wrong = _changed(wrong, tmp_path / "b", MANIFEST, _manifest(checksums=sums))
    with pytest.raises(BackupUnusable, match="damaged at"):
        restore_backup(wrong, store.database, store.photos, replace=True)
    assert _all(store) == before


@ON_SQLITE
@pytest.mark.parametrize("cut", [0, 1, 100, 0.5, 0.99])
def test_a_backup_cut_short(cut: float, backup: Path, store: Store, tmp_path: Path) -> None:
    """A file of which the end is missing, as a full stick leaves it, is told."""
    assert store.photos is not None
    content = backup.read_bytes()
    short = tmp_path / "short"
    short.write_bytes(content[: int(cut * len(content)) if cut < 1 else int(cut)])
    with pytest.raises(BackupUnusable, match="no backup"):
        restore_backup(short, store.database, store.photos)


@ON_SQLITE
def test_a_flipped_bit_anywhere_is_told_or_harmless(store: Store, backup: Path, tmp_path: Path) -> None:
    """Wherever one bit of the file is turned, what is restored is right or nothing is."""
    assert store.photos is not None
    before = _all(store)
    content = backup.read_bytes()
    told = 0
    for at in range(7, len(content), max(1, len(content) // 60)):
        wrong = bytearray(content)
        wrong[at] ^= 0x10
        (tmp_path / "wrong").write_bytes(wrong)
        try:
            restore_backup(tmp_path / "wrong", store.database, store.photos, replace=True)
        except BackupUnusable:
            told += 1
        assert _all(store) == before
    assert told > 20


def test_no_such_file(other: Store, tmp_path: Path) -> None:
    """A file that is not there is told by its name."""
    assert other.photos is not None
    with pytest.raises(BackupUnusable, match="none"):
        restore_backup(tmp_path / "none", other.database, other.photos)
