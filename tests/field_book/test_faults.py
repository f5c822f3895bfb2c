"""What the store must live through: kills, crowds, wrong clocks, full disks."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from tests.field_book.writing import SPOT, entry

from setline.field_book.database import Database
from setline.field_book.entry import Entry
from setline.field_book.faults import StoreBusy, StoreFull, StoreUnusable
from setline.field_book.fold import fold
from setline.field_book.live import live_entries
from setline.field_book.photos import Photos
from setline.field_book.store import Store

ROOT = Path(__file__).parents[2]
WRITES = 200


def _start(url: str, device: str, count: int = WRITES) -> subprocess.Popen[str]:
    """Start a program that keeps entries and prints what was acknowledged."""
    call = [sys.executable, "-m", "tests.field_book.keeps_writing", url, device, str(count)]
    return subprocess.Popen(call, cwd=ROOT, stdout=subprocess.PIPE, text=True)


def _is_sound(url: str) -> bool:
    """Return whether the database finds nothing wrong with itself."""
    if not url.startswith("sqlite"):
        return True
    engine = create_engine(url)
    with engine.connect() as connection:
        found = connection.execute(text("PRAGMA integrity_check")).scalars().all()
    engine.dispose()
    return found == ["ok"]


# --- killed ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("after", [1, 120])
def test_killed_while_writing_nothing_acknowledged_is_lost(url: str, after: int) -> None:
    """Killed in the middle of two hundred writes: what was acknowledged is there, and the store opens."""
    with _start(url, "truck") as writer:
        assert writer.stdout is not None
        acknowledged = [next(writer.stdout).strip() for _ in range(after)]
        writer.send_signal(signal.SIGKILL)
        acknowledged += [line.strip() for line in writer.stdout if line.endswith("\n")]
    assert after <= len(acknowledged) < WRITES
    with closing(Store(Database(url))) as store:
        kept = [each.id for each in store.entries("j")]
        assert set(acknowledged) <= set(kept)
        assert len(kept) <= len(acknowledged) + 1  # one may have been kept before its word got out
        assert kept == [f"truck.{n}" for n in range(len(kept))]
        assert store.add([entry(9999, SPOT, "48")]) == 1
    assert _is_sound(url)


def test_killed_again_and_again(url: str) -> None:
    """Three times in a row, a device that starts again where it was: all of it is there, once."""
    acknowledged: set[str] = set()
    for _ in range(3):
        with _start(url, "truck") as writer:
            assert writer.stdout is not None
            acknowledged |= {next(writer.stdout).strip() for _ in range(20)}
            writer.kill()
    with closing(Store(Database(url))) as store:
        kept = [each.id for each in store.entries("j")]
    assert acknowledged <= set(kept)
    assert len(kept) == len(set(kept))
    assert _is_sound(url)


# --- a crowd --------------------------------------------------------------------------------------------

DEVICES, EACH = 50, 20


def _of(device: int) -> list[Entry]:
    """Return what one device writes: readings of its own, and one spot that all of them read."""
    name = f"phone{device:02}"
    own = [entry(n, f"/rules/{name}-{n}", "1/8", device=name) for n in range(EACH - 1)]
    return [*own, entry(EACH, SPOT, "48 1/4", device=name)]


def test_fifty_devices_at_once_lose_nothing_and_double_nothing(url: str) -> None:
    """Fifty devices write twenty entries each at once, a third of them sent twice: each is there once."""
    with closing(Store(Database(url))) as store:
        start = threading.Barrier(DEVICES)

        def write(device: int) -> int:
            start.wait()
            new = 0
            for each in _of(device):
                new += store.add([each])
                if each.n % 3 == 0:
                    assert store.add([each]) == 0
            return new

        with ThreadPoolExecutor(DEVICES) as pool:
            new = list(pool.map(write, range(DEVICES)))
        kept = store.entries("j")
        assert new == [EACH] * DEVICES
        assert store.revision("j") == len(kept) == DEVICES * EACH
        assert {each.id: each for each in kept} == {
            each.id: each for device in range(DEVICES) for each in _of(device)
        }
        for device in range(DEVICES):  # each device's own stand in the order in which it sent them
            own = [each.n for each in kept if each.device == f"phone{device:02}"]
            assert own == sorted(own)
    assert _is_sound(url)


def test_the_same_entries_from_many_at_once_are_kept_once(url: str) -> None:
    """A queue that several tabs send at once: one of them keeps each entry, the others are acknowledged."""
    with closing(Store(Database(url))) as store, ThreadPoolExecutor(16) as pool:
        batch = _of(1)
        orders = [batch if turn % 2 else batch[::-1] for turn in range(16)]
        assert sum(pool.map(store.add, orders)) == EACH
        assert store.revision("j") == EACH


def test_programs_beside_each_other_share_a_store(url: str) -> None:
    """Three programs write to one store at once, as two servers would: nothing is lost."""
    writers = [_start(url, f"phone{number}", 40) for number in range(3)]
    told = [writer.communicate(timeout=120)[0].split() for writer in writers]
    assert [writer.returncode for writer in writers] == [0] * 3
    with closing(Store(Database(url))) as store:
        assert {each.id for each in store.entries("j")} == {name for names in told for name in names}
        assert store.revision("j") == 120


def test_what_came_after_is_never_skipped(url: str) -> None:
    """A reader that asks again and again for what is new misses nothing of what many write meanwhile."""
    with closing(Store(Database(url))) as store:
        store.add([entry(0, SPOT, "48", device="first")])
        done = threading.Event()
        seen: list[Entry] = []

        def follow() -> None:
            while True:
                is_last = done.is_set()
                seen.extend(store.entries("j")[len(seen) :])
                if is_last:
                    return

        reader = threading.Thread(target=follow)
        reader.start()
        with ThreadPoolExecutor(8) as pool:
            list(pool.map(lambda device: [store.add([each]) for each in _of(device)], range(8)))
        done.set()
        reader.join()
        assert [each.id for each in seen] == [each.id for each in store.entries("j")]


def test_a_store_held_too_long_says_so(make_url: Callable[[str], str]) -> None:
    """While another program holds the store a writer waits; then it is told to send again."""
    url = make_url("sqlite")
    with closing(Store(Database(url))) as store:
        store.add([entry(1, SPOT, "48")])
        with store.database.writing() as holder:
            holder.execute(text("UPDATE jobs SET made_at = 'x'"))
            impatient = Store(Database(url))
            for connection in [impatient.database.engine.raw_connection()]:
                connection.cursor().execute("PRAGMA busy_timeout=50")
                connection.close()
            with pytest.raises(StoreBusy, match="send it again"):
                impatient.add([entry(2, SPOT, "47")])
            impatient.close()
        assert store.add([entry(2, SPOT, "47")]) == 1


# --- clocks ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("days", [-1, 1, 400])
def test_a_clock_that_is_off_changes_no_order(url: str, days: int) -> None:
    """A phone a day (or a year) off: the same job, the same live values, the same order of arrival."""
    now = datetime(2026, 5, 6, 9, 0, tzinfo=UTC)

    def book(off: timedelta) -> list[Entry]:
        first = replace(entry(1, SPOT, "48 1/4"), at=now.isoformat())
        at = (now + timedelta(minutes=5) + off).isoformat()
        return [
            first,
            replace(entry(1, SPOT, "48 1/8", device="phone", over=(first.id,)), at=at),
            replace(entry(2, "/job/name", "Tern Lane", device="phone"), at=at),
        ]

    right, wrong = book(timedelta(0)), book(timedelta(days=days))
    with closing(Store(Database(url))) as store:
        store.add(wrong)
        assert [each.id for each in store.entries("j")] == [each.id for each in right]
        assert fold(store.entries("j")).document == fold(right).document
    assert [each.value for each in live_entries(wrong)[SPOT]] == ["48 1/8"]


# --- no room --------------------------------------------------------------------------------------------


def test_a_full_disk_keeps_nothing_half(make_url: Callable[[str], str]) -> None:
    """When the disk is full an act is refused whole, and it goes on once there is room."""
    url = make_url("sqlite")
    Database(url).close()
    kept: list[str] = []

    def fill(store: Store) -> None:
        for turn in range(200):
            act = [entry(turn * 5 + n, SPOT, "x" * 900) for n in range(5)]
            store.add(act)
            kept.extend(each.id for each in act)

    with closing(Store(Database(url, most_pages=60))) as store, pytest.raises(StoreFull, match="no room"):
        fill(store)
    assert kept
    assert len(kept) % 5 == 0
    assert _is_sound(url)
    with closing(Store(Database(url))) as store:
        assert [each.id for each in store.entries("j")] == kept
        assert store.add([entry(9999, SPOT, "48")]) == 1


def test_a_full_disk_can_still_be_read_and_made_room_on(make_url: Callable[[str], str]) -> None:
    """A full store is read as ever, and deleting a job makes the room that the next entry needs."""
    url = make_url("sqlite")
    Database(url).close()
    with closing(Store(Database(url, most_pages=80))) as store:

        def fill() -> None:
            for n in range(1000):
                store.add([entry(n, SPOT, "x" * 900, job="old" if n < 20 else "j")])

        with pytest.raises(StoreFull):
            fill()
        assert store.revision("j") > 0
        store.delete_job("old")
        assert store.add([entry(5000, SPOT, "48")]) == 1
    assert _is_sound(url)


def test_a_store_that_had_no_room_to_be_made(tmp_path: Path) -> None:
    """Where not even the tables fit, opening says so, and opens once there is room."""
    url = f"sqlite:///{tmp_path / 'store.db'}"
    with pytest.raises(StoreFull, match="no room"):
        Database(url, most_pages=4)
    with closing(Store(Database(url))) as store:
        assert store.add([entry(1, SPOT, "48")]) == 1


def test_a_row_that_finds_no_room_takes_its_photo_along(
    make_url: Callable[[str], str], tmp_path: Path
) -> None:
    """A photo whose file was written and whose row was not leaves no file."""
    import io

    from PIL import Image

    url = make_url("sqlite")
    out = io.BytesIO()
    Image.new("RGB", (60, 40), "tan").save(out, "JPEG")
    Database(url).close()
    database = Database(url, most_pages=30)
    photos = Photos(database, tmp_path / "photos")
    with closing(Store(database, photos)) as store:
        store.add([entry(1, SPOT, "48")])
        kept: list[str] = []

        def fill() -> None:
            for _ in range(2000):
                kept.append(photos.add("j", "/" + "x" * 299, "truck", out.getvalue()).id)

        with pytest.raises(StoreFull, match="no room"):
            fill()
        assert kept
        assert sorted(path.stem for path in photos.folder.iterdir()) == sorted(kept)


# --- gone -----------------------------------------------------------------------------------------------


@pytest.mark.system
def test_a_server_that_goes_away_is_told_and_found_again(make_url: Callable[[str], str]) -> None:
    """When PostgreSQL drops its connections, the next entry goes through; none was kept half."""
    url = make_url("postgresql")
    with closing(Store(Database(url))) as store:
        store.add([entry(1, SPOT, "48")])
        other = create_engine(url, isolation_level="AUTOCOMMIT")
        drop = text(
            "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity "
            "WHERE datname = current_database() AND pid <> pg_backend_pid()"
        )

        def write() -> None:
            with store.database.writing() as connection:
                connection.execute(text("UPDATE jobs SET made_at = 'x'"))
                with other.connect() as breaker:
                    breaker.execute(drop)
                connection.execute(text("UPDATE jobs SET made_at = 'y'"))

        with pytest.raises(StoreUnusable):
            write()
        other.dispose()
        assert store.add([entry(2, SPOT, "47")]) == 1
        assert store.revision("j") == 2


def test_a_store_file_that_was_taken_away(make_url: Callable[[str], str], tmp_path: Path) -> None:
    """Where somebody put a folder in place of the store's file, opening says so."""
    url = make_url("sqlite")
    store = Store(Database(url))
    store.add([entry(1, SPOT, "48")])
    store.close()
    for path in tmp_path.glob("store-0.db*"):
        path.unlink()
    os.mkdir(tmp_path / "store-0.db")
    with pytest.raises(StoreUnusable, match="cannot be opened"):
        Database(url)
