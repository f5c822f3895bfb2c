"""The rows of runs that hang together: what items, ends, corners and pins demand of the joints.

Every joint is a node. A tall box stands in both rows of its wall, so its two joints are the same two nodes
in both.

A tie by the centre of an item whose width may vary speaks of three joints, which no row can: the width of
that item is then *held* at one value (the caller chooses which) and the tie becomes a difference of two
joints.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from setline.job.order import Existing
from setline.result import ItemKind
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built, Demand, Piece
from setline.stages.layout.ends import BlindCorner, EndPlace
from setline.stages.layout.items import Item
from setline.stages.layout.lean import Side
from setline.stages.layout.pins import Edge3, PinPlace, Tie
from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly
from setline.stages.layout.stands import Stands

__all__ = ["build", "groups_of", "offset_of"]


def groups_of(runs: Sequence[RunAsked], ties: Iterable[Tie]) -> list[tuple[RunAsked, ...]]:
    """Return the runs that hang together by a tall box in both rows or by a tie, in the job's order."""
    leader = {run.name: run.name for run in runs}

    def lead(name: str) -> str:
        while leader[name] != name:
            name = leader[name]
        return name

    stands: dict[tuple[str, int], str] = {}
    pairs = [(tie.run, tie.other_run) for tie in ties if tie.run in leader and tie.other_run in leader]
    for run in runs:
        for item in run.items:
            pairs.append((run.name, stands.setdefault((run.run.wall, item.number), run.name)))
    order = {run.name: place for place, run in enumerate(runs)}
    for one, other in pairs:
        first, second = sorted((lead(one), lead(other)), key=order.__getitem__)
        leader[second] = first
    found: dict[str, list[RunAsked]] = {}
    for run in runs:
        found.setdefault(lead(run.name), []).append(run)
    return [tuple(each) for each in found.values()]


def offset_of(item: Item, edge: Edge3, held: Mapping[int, int]) -> tuple[bool, int]:
    """Return where an edge stands: whether from the right joint (else the left), and how far beyond it."""
    if edge == "right":
        return True, 0
    return False, held.get(item.number, item.wished) // 2 if edge == "centre" else 0


def build(
    runs: Sequence[RunAsked],
    placed: Iterable[PinPlace],
    ties: Iterable[Tie],
    *,
    held: Mapping[int, int],
) -> Built:
    """Return the rows of runs that hang together.

    Args:
        runs: The runs.
        placed: Their pins at a place.
        ties: Their pins in line with another item, both in these runs.
        held: Width at which an item is held, by number.
    """
    builder = _Builder(held)
    for run in runs:
        builder.enter(run)
    names = {run.name for run in runs}
    own_pins = tuple(each for each in placed if each.run in names)
    own_ties = tuple(each for each in ties if each.run in names and each.other_run in names)
    for pin in own_pins:
        if pin.pin.strength == "must":
            builder.pin(pin)
    for tie in own_ties:
        if tie.pin.strength == "must" and (not tie.needs_widths or _is_held(tie, held)):
            builder.tie(tie)
    return Built(
        runs=tuple(runs),
        rows=tuple(builder.rows),
        nodes=builder.nodes,
        joints=tuple(builder.joints[run.name] for run in runs),
        pieces=builder.pieces,
        placed=own_pins,
        ties=own_ties,
        held=dict(held),
    )


def _is_held(tie: Tie, held: Mapping[int, int]) -> bool:
    """Return whether every item whose centre a tie speaks of has one width."""
    return all(
        edge != "centre" or item.is_fixed_width or item.number in held
        for item, edge in ((tie.item, tie.edge), (tie.other, tie.other_edge))
    )


class _Builder:
    """Gathers rows, run by run."""

    def __init__(self, held: Mapping[int, int]) -> None:
        self.held = held
        self.rows: list[Row] = []
        self.pieces: dict[str, Piece] = {}
        self.joints: dict[str, tuple[int, ...]] = {}
        self.nodes = 1
        self._first: dict[int, tuple[int, int]] = {}
        self._sides: dict[tuple[str, int], tuple[int, int]] = {}
        self._items: dict[tuple[str, int], Item] = {}

    def enter(self, run: RunAsked) -> None:
        """Lay down a run's joints, items and ends."""
        nodes = self._nodes_of(run)
        self.joints[run.name] = nodes
        for item, left, right in zip(run.items, nodes, nodes[1:], strict=False):
            own = self._first.setdefault(item.number, (left, right))
            self._sides[run.name, item.number] = own
            self._items[run.name, item.number] = item
            self._item(run.name, item, *own)
            self._touch(run.name, item, own, (left, right))
        if run.items[0].stands is None:
            self._end(run.name, run.ends.left, nodes[0], run.ends.blind_left, run.items[0], nodes[:2])
        if run.items[-1].stands is None:
            self._end(run.name, run.ends.right, nodes[-1], run.ends.blind_right, run.items[-1], nodes[-2:])

    def _nodes_of(self, run: RunAsked) -> tuple[int, ...]:
        """Return the node of every joint; those of an item that stands in another row too are met again."""
        nodes: list[int | None] = [None] * (len(run.items) + 1)
        for place, item in enumerate(run.items):
            if item.number in self._first:
                nodes[place], nodes[place + 1] = self._first[item.number]
        given: list[int] = []
        for node in nodes:
            if node is None:
                node, self.nodes = self.nodes, self.nodes + 1
            given.append(node)
        return tuple(given)

    def _touch(self, run: str, item: Item, own: tuple[int, int], here: tuple[int, int]) -> None:
        """Hold an item against its neighbour where the other row has something between the two."""
        for side, (mine, other) in zip(("left", "right"), zip(own, here, strict=True), strict=True):
            if mine != other:
                piece = f"{run} touch {item.number} {side}"
                what = Piece(demand=Demand.TOUCH, run=run, item=item)
                self._add(piece, what, *exactly(mine, other, 0, "", piece, Gives.FACT))

    def _add(self, piece: str, what: Piece, *rows: Row) -> None:
        """Take rows of one piece, unless another row brought them before."""
        if piece not in self.pieces:
            self.pieces[piece] = what
            self.rows.extend(rows)

    def _item(self, run: str, item: Item, left: int, right: int) -> None:
        """Lay down an item's widths."""
        number, thing = item.number, item.order
        if item.stands is not None:
            self._set(run, item, item.stands, left, right)
            return
        if isinstance(thing, Existing):
            piece = f"existing {number}"
            self._add(
                piece,
                Piece(demand=Demand.FACT, run=run, item=item),
                *exactly(0, left, thing.left.ticks, "", piece, Gives.FACT),
                *exactly(0, right, thing.right.ticks, "", piece, Gives.FACT),
            )
            return
        if item.is_fixed_width or number in self.held:
            self._fixed(run, item, left, right)
            return
        is_filler = item.kind is ItemKind.FILLER
        piece = f"{number} least"
        gives = Gives.FILLER_LEAST if is_filler else Gives.WINDOW_LEAST
        self._add(
            piece,
            Piece(demand=Demand.LEAST, run=run, item=item),
            at_least(left, right, item.least, "", piece, gives),
        )
        if item.most is not None:
            piece = f"{number} most"
            gives = Gives.FILLER_MOST if is_filler else Gives.WINDOW_MOST
            self._add(
                piece,
                Piece(demand=Demand.MOST, run=run, item=item),
                at_most(left, right, item.most, "", piece, gives),
            )

    def _set(self, run: str, item: Item, stands: Stands, left: int, right: int) -> None:
        """Lay down a box that is set: both its joints, as it stands."""
        edges: tuple[tuple[Side, int, int], ...] = (
            ("left", left, stands.left_at),
            ("right", right, stands.right_at),
        )
        for side, node, at in edges:
            piece = f"set {item.number} {side}"
            what = Piece(demand=Demand.SET, run=run, item=item, side=side)
            self._add(piece, what, *exactly(0, node, at, "", piece, Gives.FACT))

    def _fixed(self, run: str, item: Item, left: int, right: int) -> None:
        """Lay down an item of one width."""
        width = self.held.get(item.number, item.least)
        demand = Demand.HELD if item.number in self.held else Demand.WIDTH
        piece = f"{item.number} width"
        self._add(
            piece,
            Piece(demand=demand, run=run, item=item),
            *exactly(left, right, width, "", piece, Gives.WIDTH),
        )

    def _end(
        self,
        run: str,
        end: EndPlace,
        node: int,
        blind: BlindCorner | None,
        item: Item,
        sides: Sequence[int],
    ) -> None:
        """Lay down what closes one end."""
        if end.kind == "existing":
            return
        piece = f"{run} {end.side} end"
        if end.kind == "open":
            self._open(run, end, node, piece)
        elif blind is not None:
            self._blind(run, end, blind, item, sides)
        else:
            assert end.at is not None, "only an open end has no place"
            self._add(
                piece,
                Piece(demand=Demand.END, run=run, end=end),
                *exactly(0, node, end.at, "", piece, Gives.FACT),
            )

    def _open(self, run: str, end: EndPlace, node: int, piece: str) -> None:
        """Lay down an open end: as far as it may reach, and never past the wall."""
        hold = at_least if end.side == "left" else at_most
        wall = f"{run} {end.side} wall"
        self._add(
            wall,
            Piece(demand=Demand.END, run=run, end=end),
            hold(0, node, end.wall_at, "", wall, Gives.FACT),
        )
        if end.at is not None:
            self._add(
                piece,
                Piece(demand=Demand.OPEN, run=run, end=end),
                hold(0, node, end.at, "", piece, Gives.FACT),
            )

    def _blind(self, run: str, end: EndPlace, blind: BlindCorner, item: Item, sides: Sequence[int]) -> None:
        """Lay down a blind box at its corner: how far it may be pulled, and how much must stay in sight."""
        assert end.at is not None, "a blind corner has its wall"
        left, right = sides
        is_left = end.side == "left"
        node, inward = (left, 1) if is_left else (right, -1)
        near, far = (at_least, at_most) if is_left else (at_most, at_least)
        wall, pull = f"{run} {end.side} end", f"{item.number} pull"
        self._add(
            wall,
            Piece(demand=Demand.END, run=run, end=end),
            near(0, node, end.at, "", wall, Gives.FACT),
        )
        self._add(
            pull,
            Piece(demand=Demand.PULL, run=run, item=item, end=end, blind=blind),
            far(0, node, end.at + inward * blind.most_pull, "", pull, Gives.FACT),
        )
        if blind.in_sight_from is None:
            return
        sight = f"{item.number} sight"
        hidden = item.least - blind.visible
        place = end.at + inward * (blind.in_sight_from - hidden)
        self._add(
            sight,
            Piece(demand=Demand.SIGHT, run=run, item=item, end=end, blind=blind),
            near(0, node, place, "", sight, Gives.FACT),
        )

    def pin(self, pin: PinPlace) -> None:
        """Lay down a must pin at a place."""
        left, right = self._sides[pin.run, pin.pin.item]
        item = self._items[pin.run, pin.pin.item]
        piece = f"pin {pin.pin.item} {pin.pin.edge} {pin.said}"
        what = Piece(demand=Demand.PIN, run=pin.run, item=item, pin=pin)
        if pin.pin.edge == "centre" and not (item.is_fixed_width or item.number in self.held):
            rows = centred(left, right, 2 * pin.at, "", piece, Gives.PIN)
        else:
            from_right, beyond = offset_of(item, pin.pin.edge, self.held)
            rows = exactly(0, right if from_right else left, pin.at - beyond, "", piece, Gives.PIN)
        self._add(piece, what, *rows)

    def tie(self, tie: Tie) -> None:
        """Lay down a must pin in line with another item."""
        one = self._edge(tie.run, tie.item, tie.edge)
        other = self._edge(tie.other_run, tie.other, tie.other_edge)
        piece = f"tie {tie.item.number} {tie.edge} {tie.other.number} {tie.other_edge}"
        self._add(
            piece,
            Piece(demand=Demand.TIE, run=tie.run, item=tie.item, tie=tie),
            *exactly(other[0], one[0], other[1] - one[1], "", piece, Gives.PIN),
        )

    def _edge(self, run: str, item: Item, edge: Edge3) -> tuple[int, int]:
        """Return the node an edge is counted from and how far beyond it the edge stands."""
        left, right = self._sides[run, item.number]
        from_right, beyond = offset_of(item, edge, self.held)
        return (right if from_right else left), beyond
