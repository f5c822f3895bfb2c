"""``make demo``: plan both sample kitchens, write what goes to the site, say in short what was found.

The first line is printed before anything heavy is imported.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from setline.wording import say

__all__ = ["main"]

_SAMPLES = Path(__file__).parents[3] / "examples"


def main(out: Path = Path("out"), samples: Path = _SAMPLES) -> int:
    """Plan every sample and write ``out/<job>/packet.pdf``, ``plan.json`` and the drawings.

    Args:
        out: Folder to write into.
        samples: Folder of job files.

    Returns:
        0, or 2 where there is no sample.
    """
    paths = sorted(samples.glob("*.toml"))
    print(say("cli-demo-start", count=len(paths)), flush=True)
    for path in paths:
        _one(path, out / path.stem)
    return 0 if paths else 2


def _one(path: Path, folder: Path) -> None:
    """Plan one sample, print its summary, write its files."""
    from setline import load_job, plan
    from setline.cli.outputs import write_plan
    from setline.cli.progress import working_on
    from setline.cli.summary import summary
    from setline.cli.terminal import WIDTH
    from setline.job.job import tape_of
    from setline.odds import doubts
    from setline.packet import packet
    from setline.rules import rule_book

    print("\n" + "=" * WIDTH, flush=True)
    with working_on(say("cli-working-plan", job=path.name)):
        job = load_job(path)
        begun = time.perf_counter()
        planned = plan(job)
        took = time.perf_counter() - begun
        doubted = doubts(job, planned)
    print("\n".join(summary(planned, doubted)), flush=True)
    with working_on(say("cli-working-packet", out=folder)):
        written = write_plan(planned, folder)
        made = packet(planned, job, rule_book(job.rules, tape=tape_of(job)), doubts=doubted)
        (folder / "packet.pdf").write_bytes(made)
    print("\n" + say("cli-demo-wrote", folder=folder, drawings=len(written) - 1, seconds=f"{took:.2f}"))


if __name__ == "__main__":
    sys.exit(main())
