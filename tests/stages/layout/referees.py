"""The same questions put to programs that work otherwise: linear, integer, graphs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import networkx as nx
import numpy as np
from ortools.sat.python import cp_model
from scipy.optimize import linprog

from setline.stages.layout.row import Form, Row

_SIGNS = {Form.APART: (1, -1), Form.SUM_MOST: (1, 1), Form.SUM_LEAST: (-1, -1)}
_FAR = 1 << 26


def left_side(row: Row, places: Sequence[int]) -> int:
    """Return what a row holds down, at given places."""
    high, low = _SIGNS[row.form]
    return high * places[row.high] + low * places[row.low]


def satisfied(rows: Iterable[Row], places: Sequence[int]) -> bool:
    """Return whether places satisfy every row, the origin standing at 0."""
    return places[0] == 0 and all(left_side(row, places) <= row.at_most for row in rows)


class LinearProgram:
    """Rows as a linear program for HiGHS."""

    def __init__(self, rows: Sequence[Row], nodes: int) -> None:
        self.nodes = nodes
        self.sides = np.zeros((len(rows), nodes))
        for number, row in enumerate(rows):
            high, low = _SIGNS[row.form]
            self.sides[number, row.high] += high
            self.sides[number, row.low] += low
        self.limits = np.array([row.at_most for row in rows], dtype=float)

    def is_possible(self) -> bool:
        """Return whether all rows can hold."""
        return self._most(np.zeros(self.nodes)) is not None

    def most(self, low: int, high: int) -> int | None:
        """Return the greatest difference of two nodes, or None if there is no limit."""
        aim = np.zeros(self.nodes)
        aim[high] += 1
        aim[low] -= 1
        found = self._most(aim)
        return None if found is None else round(found)

    def _most(self, aim: np.ndarray) -> float | None:
        answer = linprog(
            -aim[1:], A_ub=self.sides[:, 1:], b_ub=self.limits, bounds=(None, None), method="highs"
        )
        return None if answer.status else -float(answer.fun)

    def least_given(self, limits: Sequence[int | None]) -> float | None:
        """Return the least sum by which rows must give, each at most so much (None: no limit)."""
        rows = len(self.limits)
        answer = linprog(
            [0.0] * (self.nodes - 1) + [1.0] * rows,
            A_ub=np.hstack([self.sides[:, 1:], -np.eye(rows)]),
            b_ub=self.limits,
            bounds=[(None, None)] * (self.nodes - 1) + [(0, limit) for limit in limits],
            method="highs",
        )
        return None if answer.status else float(answer.fun)


class IntegerProgram:
    """Rows as an integer program for CP-SAT; what is found may be held, so that stages follow each other."""

    def __init__(self, rows: Iterable[Row], nodes: int) -> None:
        self.model = cp_model.CpModel()
        self.place = [self.model.new_int_var(-_FAR, _FAR, "") for _ in range(nodes)]
        self.model.add(self.place[0] == 0)
        for row in rows:
            self.model.add(left_side(row, self.place) <= row.at_most)

    def solve(self) -> cp_model.CpSolver | None:
        """Return a solver that has found the best, or None if there is nothing to find."""
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        status = solver.solve(self.model)
        assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
        return solver if status == cp_model.OPTIMAL else None

    def departure(self, low: int, high: int, target: int) -> cp_model.IntVar:
        """Return a number that is at least as great as what a difference departs from a target."""
        apart = self.place[high] - self.place[low] - target
        departs = self.model.new_int_var(0, 4 * _FAR, "")
        self.model.add(departs >= apart)
        self.model.add(departs >= -apart)
        return departs

    def best(self, aim: cp_model.LinearExprT) -> int:
        """Return the least value of an aim."""
        self.model.minimize(aim)
        solver = self.solve()
        assert solver is not None
        return round(solver.objective_value)

    def nearest(self, low: int, high: int, target: int) -> int:
        """Return the value nearest to a target that a difference can take, and hold it there."""
        departs = self.departure(low, high, target)
        self.model.minimize(departs)
        solver = self.solve()
        assert solver is not None
        value = solver.value(self.place[high]) - solver.value(self.place[low])
        self.model.add(self.place[high] - self.place[low] == value)
        return value


def graph_of(rows: Iterable[Row], nodes: int) -> nx.DiGraph:
    """Return rows that hold no sum as a graph; shortest paths in it are greatest differences."""
    graph = nx.DiGraph()
    graph.add_nodes_from(range(nodes))
    for row in rows:
        assert row.form is Form.APART
        known = graph.get_edge_data(row.low, row.high, {"weight": row.at_most})["weight"]
        graph.add_edge(row.low, row.high, weight=min(known, row.at_most))
    return graph


def has_negative_circle(graph: nx.DiGraph) -> bool:
    """Return whether a graph has a circle of negative length."""
    return bool(nx.negative_edge_cycle(graph))
