"""Every figure of a plan by the name that is written on the wall, for ``why``."""

from __future__ import annotations

from collections.abc import Iterable

from setline.result import Figure, LevelLine, RunPlan, Shim

__all__ = ["name_figures"]


def name_figures(runs: Iterable[RunPlan], line: LevelLine, shims: Iterable[Shim]) -> dict[str, Figure]:
    """Return name -> figure for every line, limit, end, mark and shim.

    Args:
        runs: Runs with their marks (``A base 3 left``) and ends (``A base left end``).
        line: The level line: ``level line`` (its height), ``S1 line`` (N from that set-up), ``S1 strike``
            (the struck line from it), ``high spot``, and each limit of the band by its owner.
        shims: Bearing points (``3 back-left``).

    Returns:
        In the order a crew meets them: line, marks wall by wall, shims box by box.
    """
    named: dict[str, Figure] = {"level line": line.tops}
    for set_up in line.set_ups:
        named[f"{set_up.set_up} line"] = set_up.level
        named[f"{set_up.set_up} strike"] = set_up.strike
    if line.high_spot is not None:
        named["high spot"] = line.high_spot.height
    for limit in line.band.limits:
        named.setdefault(f"limit {limit.owner}", limit.tops)
    for run in runs:
        named[f"{run.name} left end"] = run.left_end
        named[f"{run.name} right end"] = run.right_end
        named.update((mark.name, mark.at) for mark in run.marks)
    named.update((shim.name, shim.thickness) for shim in shims)
    return named
