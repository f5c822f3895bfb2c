"""Flow round circles of joints at least length: the dual of asking how little rows must give.

An arc (tail, head, length) says that ``place[head] - place[tail]`` is at most ``length``. One that must hold
carries any flow; one that may give carries at most its price, the cost of each tick by which it gives.
Sending flow round every negative circle until none is left gives places at which ``sum(price * given)`` is
least.

Arcs that may give enter one at a time. Before each, the places satisfy every arc that can still carry flow;
the new arc is either satisfied, or flow is sent round it along shortest paths until it is full or satisfied.
Each shortest path is found by Dijkstra over what the arcs have to spare, which is never negative. Whole
numbers all through.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from dataclasses import dataclass

__all__ = ["Arc", "Circulation"]


@dataclass(slots=True)
class Arc:
    """One arc of the network and the flow it carries.

    Attributes:
        tail: Where it starts.
        head: Where it ends.
        length: Greatest ``place[head] - place[tail]`` as long as it does not give.
        price: Cost of each tick by which it gives, which is the most flow it carries; None: it must not give.
        flow: What it carries.
    """

    tail: int
    head: int
    length: int
    price: int | None
    flow: int = 0

    @property
    def room(self) -> int | None:
        """How much more it can carry, or None for no limit."""
        return None if self.price is None else self.price - self.flow

    @property
    def is_full(self) -> bool:
        """Whether it can carry no more, and so may give."""
        return self.flow == self.price


class Circulation:
    """A network of arcs; add them with `hold` and `let_give`, then `solve` once.

    Args:
        size: Number of nodes.
    """

    __slots__ = ("_at", "_firm", "_giving", "_place", "_size")

    def __init__(self, size: int) -> None:
        self._size = size
        self._firm: list[Arc] = []
        self._giving: list[Arc] = []
        self._at: list[list[Arc]] = [[] for _ in range(size)]
        self._place = [0] * size

    @property
    def arcs(self) -> list[Arc]:
        """All arcs: those that must hold, then those that may give, each in the order added."""
        return [*self._firm, *self._giving]

    @property
    def places(self) -> list[int]:
        """The place of each node, node 0 at 0; after `solve`."""
        return [place - self._place[0] for place in self._place]

    def hold(self, tail: int, head: int, length: int) -> None:
        """Add an arc that must hold."""
        self._firm.append(Arc(tail, head, length, None))

    def let_give(self, tail: int, head: int, length: int, price: int) -> None:
        """Add an arc that may give at a price for each tick, 1 or more."""
        self._giving.append(Arc(tail, head, length, price))

    def solve(self) -> bool:
        """Find the places at which least is given; False if those that must hold contradict each other."""
        if not self._settle_firm():
            return False
        for arc in self._firm:
            self._enter(arc)
        for arc in self._giving:
            self._send_round(arc)
            self._enter(arc)
        return True

    def _enter(self, arc: Arc) -> None:
        self._at[arc.tail].append(arc)
        if arc.head != arc.tail:
            self._at[arc.head].append(arc)

    def _settle_firm(self) -> bool:
        """Find places for the arcs that must hold (Bellman and Ford); False if there are none."""
        place = self._place
        arcs = [(arc.tail, arc.head, arc.length) for arc in self._firm]
        for _ in range(self._size + 1):
            moved = False
            for tail, head, length in arcs:
                if place[tail] + length < place[head]:
                    place[head] = place[tail] + length
                    moved = True
            if not moved:
                return True
        return False

    def _send_round(self, arc: Arc) -> None:
        """Send flow round an arc until it is satisfied or full."""
        while not arc.is_full:
            over = self._place[arc.head] - self._place[arc.tail] - arc.length
            if over <= 0:
                return
            spare, back = self._spare_from(arc.head, arc.tail, over)
            for node in range(self._size):
                self._place[node] += spare.get(node, over)
            if arc.tail not in spare or spare[arc.tail] >= over:
                return
            self._carry(arc, back)

    def _spare_from(self, start: int, goal: int, limit: int) -> tuple[dict[int, int], dict[int, Arc]]:
        """Return how far nodes are from a start, counted in what the arcs have to spare (Dijkstra).

        Returns:
            Distances under the limit; where the goal is among them, of all nodes, none farther than the goal.
            And the arc by which each node is reached.
        """
        settled: dict[int, int] = {}
        best = {start: 0}
        back: dict[int, Arc] = {}
        queue = [(0, start)]
        while queue:
            distance, node = heapq.heappop(queue)
            if node in settled:
                continue
            if node == goal:
                return {other: settled.get(other, distance) for other in range(self._size)}, back
            settled[node] = distance
            for other, spare, arc in self._ways_from(node):
                farther = distance + spare
                if farther < best.get(other, limit):
                    best[other], back[other] = farther, arc
                    heapq.heappush(queue, (farther, other))
        return settled, back

    def _ways_from(self, node: int) -> Iterator[tuple[int, int, Arc]]:
        """Yield where flow from a node may go: along arcs with room, and back along what flows."""
        place = self._place
        for arc in self._at[node]:
            spare = arc.length - place[arc.head] + place[arc.tail]
            if arc.tail == node and not arc.is_full:
                yield arc.head, spare, arc
            elif arc.head == node and arc.flow:
                yield arc.tail, -spare, arc

    def _carry(self, arc: Arc, back: dict[int, Arc]) -> None:
        """Send what fits along the shortest path from an arc's head to its tail, and through the arc."""
        path = [(arc, True)]
        node = arc.tail
        while node != arc.head:
            step = back[node]
            along = step.head == node
            path.append((step, along))
            node = step.tail if along else step.head
        room = [step.room if along else step.flow for step, along in path]
        amount = min(most for most in room if most is not None)
        for step, along in path:
            step.flow += amount if along else -amount
