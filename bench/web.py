"""The app as a crew meets it: a real server, every page of the inch sample, fifty phones sending readings."""

from __future__ import annotations

import http.client
import json
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

from bench.measure import BenchRow

SAMPLE = Path(__file__).parents[1] / "examples" / "larkspur-street.toml"
DEVICES, EACH, A_SECOND = 50, 20, 5
TIMES = 10
AGAIN = 15

PAGES = (
    *(
        "",
        "/walk",
        "/readings",
        "/room",
        "/order",
        "/sheets",
        "/floor",
        "/run/A",
        "/run/B",
        "/troubles",
        "/why",
    ),
    *("/set", "/set/1", "/marks/A", "/marks/B", "/shims", "/print", "/carry", "/phones", "/photos"),
)


def run() -> list[BenchRow]:
    """Time pages, a new plan after an entry, and a crowd."""
    with tempfile.TemporaryDirectory() as folder, _server(Path(folder)) as port:
        job = _job(port)
        pages = {page: _page_times(port, f"/j/{job}{page}") for page in PAGES}
        plans = [_entry_to_page(port, job, count) for count in range(AGAIN)]
        crowd = _crowd(port, job)
        size = _first_visit(port, f"/j/{job}")
    slowest = max(pages, key=lambda page: _p95(pages[page]))
    every = [each for times in pages.values() for each in times]
    return [
        BenchRow(what=f"web: a page, p95 over {len(PAGES)} pages", seconds=_p95(every), goal="under 100 ms"),
        BenchRow(what=f"web: the slowest page ({slowest or 'first'}), p95", seconds=_p95(pages[slowest])),
        BenchRow(what="web: median of a page", seconds=statistics.median(every)),
        BenchRow(what=f"web: first page, {size / 1000:.0f} kB with all it loads", goal="under 100 kB"),
        BenchRow(
            what="web: from an entry to the page planned anew",
            seconds=statistics.median(plans),
            goal="100 ms",
        ),
        BenchRow(
            what=f"web: p95 of an entry, {DEVICES} devices at {A_SECOND}/s",
            seconds=_p95(crowd),
            goal="150 ms",
        ),
        BenchRow(what="web: median of the same", seconds=statistics.median(crowd)),
    ]


@contextmanager
def _server(folder: Path) -> Iterator[int]:
    """Run ``setline serve`` with the sample; give its port."""
    import socket

    with socket.create_server(("127.0.0.1", 0)) as probe:
        port = int(probe.getsockname()[1])
    call = [sys.executable, "-m", "setline.cli.main", "serve", "--folder", str(folder), "--port", str(port)]
    with subprocess.Popen([*call, "--load", str(SAMPLE)], stdout=subprocess.PIPE, text=True) as program:
        assert program.stdout is not None
        program.stdout.readline()  # it says where it is once it is about to answer
        try:
            yield port
        finally:
            program.terminate()


def _ask(wire: http.client.HTTPConnection, method: str, address: str, body: str | None = None) -> bytes:
    """Ask for something and return all of the answer."""
    headers = {"Accept-Encoding": "gzip", "Content-Type": "application/json"}
    wire.request(method, address, body=body, headers=headers)
    answer = wire.getresponse()
    content = answer.read()
    assert answer.status == 200, (answer.status, address)
    return content


def _job(port: int) -> str:
    """Return the id of the one job."""
    import re

    wire = http.client.HTTPConnection("localhost", port)
    wire.request("GET", "/jobs")
    found = re.search(r'href="/j/(\w+)"', wire.getresponse().read().decode())
    assert found is not None
    return found[1]


def _page_times(port: int, address: str) -> list[float]:
    """Return how long a page takes, again and again, after once that does not count."""
    wire = http.client.HTTPConnection("localhost", port)
    _ask(wire, "GET", address)
    return [_timed(wire, "GET", address) for _ in range(TIMES)]


def _timed(wire: http.client.HTTPConnection, method: str, address: str, body: str | None = None) -> float:
    start = time.perf_counter()
    _ask(wire, method, address, body)
    return time.perf_counter() - start


def _entry(job: str, device: str, n: int, place: str, value: str) -> str:
    """Return a body with one entry."""
    entry = {"id": f"{device}.{n}", "job": job, "device": device, "n": n, "place": place, "value": value}
    return json.dumps([entry])


def _entry_to_page(port: int, job: str, count: int) -> float:
    """Return how long it takes from the post of a reading to the first page of the plan with it."""
    wire = http.client.HTTPConnection("localhost", port)
    place = f"/floor/set_ups/S1/readings/A/toe/{20 + count}/1"
    start = time.perf_counter()
    _ask(wire, "POST", f"/j/{job}/entries", _entry(job, "truck", count, place, "48 7/8"))
    _ask(wire, "GET", f"/j/{job}")
    return time.perf_counter() - start


def _first_visit(port: int, address: str) -> int:
    """Return how many bytes a page and all that it loads take on the wire."""
    import gzip
    import re

    wire = http.client.HTTPConnection("localhost", port)
    packed = _ask(wire, "GET", address)
    page = gzip.decompress(packed).decode()
    sheets = re.findall(r'(?:href|src)="(/static/[^"]+)"', page)
    return len(packed) + sum(len(_ask(wire, "GET", each)) for each in dict.fromkeys(sheets))


def _crowd(port: int, job: str) -> list[float]:
    """Let every device send its entries at its pace; return how long each took to be answered."""
    start = threading.Barrier(DEVICES)

    def send(device: int) -> list[float]:
        wire = http.client.HTTPConnection("localhost", port)
        start.wait()
        begun = time.perf_counter() + device / DEVICES / A_SECOND
        times = []
        for n in range(EACH):
            time.sleep(max(0.0, begun + n / A_SECOND - time.perf_counter()))
            place = f"/room/walls/A/lengths/{device}-{n}/1"
            times.append(
                _timed(wire, "POST", f"/j/{job}/entries", _entry(job, f"p{device}", n, place, "48 1/4"))
            )
        return times

    with ThreadPoolExecutor(DEVICES) as pool:
        return [each for own in pool.map(send, range(DEVICES)) for each in own]


def _p95(times: list[float]) -> float:
    """Return what nineteen in twenty stay under."""
    return statistics.quantiles(times, n=20)[-1]
