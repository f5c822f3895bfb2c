"""``python -m bench``: run every benchmark in this folder and print one table; exit 1 if a ratio is missed.

A benchmark is a module here with ``run() -> list[BenchRow]``. Times differ from machine to machine and are
only printed; what is judged is a ratio of medians taken in turn within one run. Names of modules as arguments
run those alone.
"""

from __future__ import annotations

import pkgutil
import sys
from collections.abc import Iterable
from importlib import import_module

import bench
from bench.measure import BenchRow


def main(names: list[str]) -> int:
    """Run the benchmarks named, or all, and return the exit code."""
    rows: list[BenchRow] = []
    for name in names or sorted(each.name for each in pkgutil.iter_modules(bench.__path__)):
        run = getattr(import_module(f"bench.{name}"), "run", None) if name != "__main__" else None
        if run is not None:
            print(f"bench {name} ...", flush=True)
            rows += run()
    print(_table(rows))
    missed = [row for row in rows if not row.is_reached]
    for row in missed:
        print(f"Not reached: {row.what} against {row.against}, {row.ratio:.1f} of {row.reach:g}.")
    return 1 if missed else 0


def _table(rows: Iterable[BenchRow]) -> str:
    """Return the rows as text in columns."""
    head = ("what", "median", "ratio", "against", "to reach")
    cells = [head, *(_cells(row) for row in rows)]
    widths = [max(len(line[column]) for line in cells) for column in range(len(head))]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)) for line in cells]
    lines.insert(1, "  ".join("-" * width for width in widths))
    return "\n".join(line.rstrip() for line in lines)


def _cells(row: BenchRow) -> tuple[str, str, str, str, str]:
    """Return a row as the texts of its columns."""
    ratio = "" if row.ratio is None else f"{row.ratio:.1f}x"
    reach = row.goal if row.reach is None else f"{row.reach:g}x" + (f", {row.goal}" if row.goal else "")
    return row.what, _time(row.seconds), ratio, row.against, reach


def _time(seconds: float | None) -> str:
    """Return a time with three figures, in the unit that suits it."""
    if seconds is None:
        return ""
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("us", 1e-6)):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds * 1e9:.0f} ns"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
