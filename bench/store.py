"""The store under a crew: fifty devices at once, every entry on the disk before it is acknowledged."""

from __future__ import annotations

import statistics
import tempfile
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

from bench.measure import BenchRow, median_seconds
from setline.field_book.database import Database
from setline.field_book.entry import Entry
from setline.field_book.fold import fold
from setline.field_book.store import Store
from setline.field_book.transfer import import_job
from setline.job.read import load_job
from setline.job.write import to_dict

DEVICES, EACH, A_SECOND = 50, 20, 5
GOAL = "p95 under 100 ms"


def run() -> list[BenchRow]:
    """Time writers in step with people, writers as quick as they can, and what a page does after an entry."""
    with tempfile.TemporaryDirectory() as folder:
        with closing(Store(Database(f"sqlite:///{Path(folder) / 'a.db'}"))) as store:
            paced = _crowd(store, pause=1 / A_SECOND)
        with closing(Store(Database(f"sqlite:///{Path(folder) / 'b.db'}"))) as store:
            pressed = _crowd(store, pause=0.0)
        with closing(Store(Database(f"sqlite:///{Path(folder) / 'c.db'}"))) as store:
            document = to_dict(load_job("examples/larkspur-street.toml"))
            store.add(import_job(document, "truck", job="j", act="a"))
            entries = store.entries("j")
            reading = median_seconds(lambda: store.entries("j"), 20)
            folding = median_seconds(lambda: fold(entries), 20)
    crowd = f"store: p95 of an entry, {DEVICES} devices"
    return [
        BenchRow(what=f"{crowd} at {A_SECOND}/s", seconds=_p95(paced), goal=GOAL),
        BenchRow(what="store: median of the same", seconds=statistics.median(paced)),
        BenchRow(what=f"{crowd} without a pause", seconds=_p95(pressed)),
        BenchRow(what=f"store: reading a job of {len(entries)} entries", seconds=reading),
        BenchRow(what="store: folding them", seconds=folding),
    ]


def _p95(times: list[float]) -> float:
    """Return what nineteen in twenty stay under."""
    return statistics.quantiles(times, n=20)[-1]


def _crowd(store: Store, *, pause: float) -> list[float]:
    """Let every device write its entries, and return how long each took to be acknowledged."""
    start = threading.Barrier(DEVICES)
    with ThreadPoolExecutor(DEVICES) as pool:
        times = list(pool.map(lambda device: _write(store, device, start.wait, pause), range(DEVICES)))
    assert store.revision("j") == DEVICES * EACH
    return [each for own in times for each in own]


def _write(store: Store, device: int, wait: Callable[[], int], pause: float) -> list[float]:
    """Write one device's entries at its pace; devices start one after the other within a pause."""
    wait()
    begun = time.perf_counter() + pause * device / DEVICES
    times: list[float] = []
    for n in range(EACH):
        time.sleep(max(0.0, begun + n * pause - time.perf_counter()))
        place = f"/rules/{device}-{n}"
        entry = Entry(id=f"{device}.{n}", job="j", device=f"phone{device}", n=n, place=place, value="48 1/4")
        before = time.perf_counter()
        store.add([entry])
        times.append(time.perf_counter() - before)
    return times
