"""Two solvers of general purpose at the layout solver's work: CP-SAT and HiGHS, each as quick as it was got.

Both follow the same wishes in the same strict order on the same rows: each wish is a stage whose best value
is held for the next. Where there is no answer, both give a reason that holds: pieces that cannot all be, none
of which can be left out, and by how much they miss. (The layout solver tells every conflict by its fewest
pieces, which is more.)
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from ortools.sat.python import cp_model
from scipy.optimize import OptimizeResult, linprog

from bench.runs_at_random import InventedRun
from setline.stages.layout.row import Row

__all__ = ["Reason", "cp_sat_chain", "cp_sat_reason", "highs_chain", "highs_reason"]

Reason = tuple[set[str], int]
"""Pieces that cannot all be, and by how much they miss. [ticks]"""

_FAR = 1 << 26
"""No run here is longer. [ticks]"""


class _Model:
    """Rows as a model for CP-SAT."""

    def __init__(self, nodes: int) -> None:
        self.model = cp_model.CpModel()
        self.place = [self.model.new_int_var(-_FAR, _FAR, "") for _ in range(nodes)]
        self.model.add(self.place[0] == 0)
        self.solver = cp_model.CpSolver()
        self.solver.parameters.num_workers = 1
        self.solver.parameters.cp_model_probing_level = 0  # quicker here than as it comes

    def add(self, row: Row, gives: cp_model.IntVar | int = 0) -> cp_model.Constraint:
        """Add a row, which may give."""
        apart = self.place[row.high] - self.place[row.low] - gives
        return self.model.add_linear_constraint(apart, -4 * _FAR, row.at_most)

    def can(self) -> bool:
        """Return whether there is an answer."""
        return self.solver.solve(self.model) != cp_model.INFEASIBLE


def cp_sat_chain(run: InventedRun) -> tuple[int, ...] | None:
    """Return what each wish comes to by CP-SAT, one worker, or None."""
    program = _Model(run.nodes)
    for row in run.rows:
        program.add(row)
    came_to = []
    for wish in run.wishes:
        apart = program.place[wish.high] - program.place[wish.low]
        departs = program.model.new_int_var(0, 2 * _FAR, "")
        program.model.add(departs >= apart - wish.target)
        program.model.add(departs >= wish.target - apart)
        program.model.minimize(departs)
        if not program.can():
            return None
        came_to.append(program.solver.value(apart))
        program.model.add(apart == came_to[-1])
    return tuple(came_to)


def cp_sat_reason(run: InventedRun) -> Reason:
    """Return a reason by CP-SAT: its own set of assumptions, thinned piece by piece, and its shortfall."""
    program = _Model(run.nodes)
    holds = {row.piece: program.model.new_bool_var("") for row in run.rows}
    for row in run.rows:
        program.add(row).only_enforce_if(holds[row.piece])
    program.model.add_assumptions(holds.values())
    assert not program.can()
    core = set(program.solver.sufficient_assumptions_for_infeasibility())
    pieces = [piece for piece, literal in holds.items() if literal.index in core]
    for piece in tuple(pieces):
        fewer = [other for other in pieces if other != piece]
        program.model.clear_assumptions()
        program.model.add_assumptions(holds[other] for other in fewer)
        if not program.can():
            pieces = fewer
    return set(pieces), _cp_sat_shortfall(run, pieces)


def _cp_sat_shortfall(run: InventedRun, pieces: Sequence[str]) -> int:
    """Return by how much the first of some pieces must give so that all can be."""
    program = _Model(run.nodes)
    gives = program.model.new_int_var(0, _FAR, "")
    for row in _rows_of(run, pieces):
        program.add(row, gives if row.piece == pieces[0] else 0)
    program.model.minimize(gives)
    assert program.can()
    return round(program.solver.objective_value)


def _rows_of(run: InventedRun, pieces: Sequence[str]) -> list[Row]:
    return [row for row in run.rows if row.piece in pieces]


class _Sides:
    """Rows as dense sides of a linear program; column 0, the origin's, serves for what departs or gives."""

    def __init__(self, rows: Sequence[Row], nodes: int, spare: int = 0) -> None:
        self.used = len(rows)
        self.sides: NDArray[np.float64] = np.zeros((len(rows) + spare, nodes))
        self.limits: NDArray[np.float64] = np.zeros(len(rows) + spare)
        for number, row in enumerate(rows):
            self.put(number, row.low, row.high, 1.0)
            self.limits[number] = row.at_most
        self.aim: NDArray[np.float64] = np.zeros(nodes)
        self.bounds = [(0.0, None), *[(None, None)] * (nodes - 1)]

    def put(self, number: int, low: int, high: int, sign: float) -> None:
        """Count a difference of two nodes in a row."""
        if high:
            self.sides[number, high] += sign
        if low:
            self.sides[number, low] -= sign

    def solve(self) -> OptimizeResult:
        """Return the answer for the rows in use."""
        used = slice(0, self.used)
        return linprog(
            self.aim, A_ub=self.sides[used], b_ub=self.limits[used], bounds=self.bounds, method="highs"
        )


def highs_chain(run: InventedRun) -> tuple[int, ...] | None:
    """Return what each wish comes to by HiGHS, or None."""
    program = _Sides(run.rows, run.nodes, 2 * len(run.wishes))
    program.aim[0] = 1.0
    came_to = []
    for wish in run.wishes:
        stage = slice(program.used, program.used + 2)
        for number, sign in zip((program.used, program.used + 1), (1.0, -1.0), strict=True):
            program.put(number, wish.low, wish.high, sign)
        program.sides[stage, 0] = -1.0
        program.limits[stage] = wish.target, -wish.target
        program.used += 2
        answer = program.solve()
        if answer.status:
            return None
        places = [0.0, *answer.x[1:]]
        came_to.append(round(places[wish.high] - places[wish.low]))
        program.sides[stage, 0] = 0.0
        program.limits[stage] = came_to[-1], -came_to[-1]
    return tuple(came_to)


def highs_reason(run: InventedRun) -> Reason:
    """Return a reason by HiGHS: the rows that have a price if all give alike, thinned piece by piece."""
    program = _Sides(run.rows, run.nodes)
    program.sides[:, 0] = -1.0
    program.aim[0] = 1.0
    prices = program.solve().ineqlin.marginals
    pieces = list(
        dict.fromkeys(row.piece for row, price in zip(run.rows, prices, strict=True) if price < -1e-9)
    )
    for piece in tuple(pieces):
        fewer = [other for other in pieces if other != piece]
        if _Sides(_rows_of(run, fewer), run.nodes).solve().status == 2:
            pieces = fewer
    rows = _rows_of(run, pieces)
    program = _Sides(rows, run.nodes)
    program.sides[[row.piece == pieces[0] for row in rows], 0] = -1.0
    program.aim[0] = 1.0
    return set(pieces), round(program.solve().fun)
