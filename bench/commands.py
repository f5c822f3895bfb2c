"""Commands from a cold start, and the packet with its drawings once everything is warm."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from functools import partial
from pathlib import Path

from bench.measure import BenchRow, median_seconds
from setline.job.job import tape_of
from setline.job.read import load_job
from setline.odds import doubts
from setline.packet import packet
from setline.rules import rule_book
from setline.stages import plan

SAMPLE = Path(__file__).parents[1] / "examples" / "larkspur-street.toml"
TIMES = 5


def run() -> list[BenchRow]:
    """Return the times; they are printed with their goals and not judged, since machines differ."""
    job = load_job(SAMPLE)
    planned = plan(job)
    book, doubted = rule_book(job.rules, tape=tape_of(job)), doubts(job, planned)
    warm = median_seconds(partial(packet, planned, job, book, doubts=doubted), TIMES)
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "packet.pdf")
        cold_check = median_seconds(partial(_command, "check", str(SAMPLE)), TIMES)
        cold_packet = median_seconds(partial(_command, "packet", str(SAMPLE), "--out", out), TIMES)
    return [
        BenchRow(what="packet of the inch sample, warm", seconds=warm, goal="under 2 s"),
        BenchRow(what="setline packet, cold", seconds=cold_packet, goal="under 3 s"),
        BenchRow(what="setline check, cold", seconds=cold_check, goal="under 1 s"),
    ]


def _command(*words: str) -> None:
    """Run a command in a process of its own; a stop in the sample ends ``check`` with 1."""
    call = "import sys; from setline.cli.main import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run([sys.executable, "-c", call, *words], capture_output=True, check=False)
    assert done.returncode in {0, 1}, done.stderr
