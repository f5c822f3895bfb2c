"""The room's outline: every wall as a straight line in the room's x, y, with square corners.

Origin at wall A's left corner, x along A, y into the room (docs/conventions.md). A wall that runs along
(dx, dy) has the room on its side (-dy, dx); an inside corner turns the next wall that way, an outside
corner the other. In a closed room the walls' lengths over-determine the outline. With the corners square,
least squares takes the miss along x in equal parts from all walls that run along x, and the same along y;
what was spread is reported.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.job.job import Job
from setline.job.room import Wall
from setline.lengths import Rounding, fine_step, round_to, show
from setline.result import Finding, Rank, WallLine
from setline.rules import RuleBook
from setline.wording import say

__all__ = ["Outline", "outline"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The walls in the room, and what their closing told.

    Attributes:
        walls: One line a wall, in the job's order.
        closing: What the walls missed closing by along x and along y before it was spread, or None where the
            room is not closed. [ticks]
        findings: The closing error, where there is one.
    """

    walls: tuple[WallLine, ...]
    closing: tuple[int, int] | None
    findings: tuple[Finding, ...]

    def to_room(self, wall: str, u: int, out: int) -> tuple[int, int]:
        """Return x, y of a spot at a wall.

        Args:
            wall: The wall's letter.
            u: Along it from its left corner. [ticks]
            out: From it into the room. [ticks]
        """
        line = self.line(wall)
        dx, dy = _direction(line)
        return line.x0 + u * dx - out * dy, line.y0 + u * dy + out * dx

    def from_room(self, wall: str, x: int, y: int) -> tuple[int, int]:
        """Return u and out of a spot as seen from a wall; what lies behind it has an out below 0."""
        line = self.line(wall)
        dx, dy = _direction(line)
        along, across = x - line.x0, y - line.y0
        return along * dx + across * dy, across * dx - along * dy

    def line(self, wall: str) -> WallLine:
        """Return the wall of that letter.

        Raises:
            KeyError: No wall of that letter; the reader of jobs refuses one.
        """
        for line in self.walls:
            if line.name == wall:
                return line
        raise KeyError(wall)


def _direction(line: WallLine) -> tuple[int, int]:
    """Return the unit step along a wall; a wall of no length runs along x."""
    across, along = line.y1 - line.y0, line.x1 - line.x0
    if across:
        return 0, 1 if across > 0 else -1
    return (1 if along >= 0 else -1), 0


def outline(job: Job, book: RuleBook) -> Outline:
    """Return the room's outline from the walls' lengths, corners square.

    Args:
        job: The job; its walls in order, each starting where the one before it ends.
        book: The rules, for the doubt of a length.
    """
    walls = job.room.walls
    steps = _directions(walls)
    lengths = [_length(wall) for wall in walls]
    if not job.room.closed:
        return Outline(walls=_lines(walls, steps, lengths), closing=None, findings=())
    turned = sum(1 if wall.corner == "inside" else -1 for wall in walls)
    if turned != 4:
        return Outline(
            walls=_lines(walls, steps, lengths),
            closing=None,
            findings=(_corners_do_not_close(walls, turned),),
        )
    missed = _missed(steps, lengths)
    closed = _spread(steps, lengths, missed)
    found = (_closing_error(job, book, missed),) if any(missed) else ()
    return Outline(walls=_lines(walls, steps, closed), closing=missed, findings=found)


def _length(wall: Wall) -> int:
    """Return a wall's length: read at the struck line's height, else at any height, else out at the faces."""
    at_line = [each.length.ticks for each in wall.lengths if each.at == "wall" and each.height is None]
    at_wall = [each.length.ticks for each in wall.lengths if each.at == "wall"]
    chosen = at_line or at_wall or [each.length.ticks for each in wall.lengths]
    return (2 * sum(chosen) + len(chosen)) // (2 * len(chosen))


def _directions(walls: Sequence[Wall]) -> list[tuple[int, int]]:
    """Return the unit step along each wall: A along x, the others by the corners between them."""
    steps = [(1, 0)]
    for wall in walls[:-1]:
        dx, dy = steps[-1]
        steps.append((-dy, dx) if wall.corner == "inside" else (dy, -dx))
    return steps


def _missed(steps: Sequence[tuple[int, int]], lengths: Sequence[int]) -> tuple[int, int]:
    """Return how far from the start the last wall ends, along x and along y."""
    along = sum(step[0] * length for step, length in zip(steps, lengths, strict=True))
    across = sum(step[1] * length for step, length in zip(steps, lengths, strict=True))
    return along, across


def _spread(steps: Sequence[tuple[int, int]], lengths: Sequence[int], missed: tuple[int, int]) -> list[int]:
    """Return the lengths with the miss taken from them in equal parts, to the tick, so that they close."""
    closed = list(lengths)
    for axis in (0, 1):
        sharing = [index for index, step in enumerate(steps) if step[axis]]
        for place, index in enumerate(sharing):
            part = missed[axis] * (place + 1) // len(sharing) - missed[axis] * place // len(sharing)
            closed[index] -= steps[index][axis] * part
    return closed


def _lines(
    walls: Sequence[Wall], steps: Sequence[tuple[int, int]], lengths: Sequence[int]
) -> tuple[WallLine, ...]:
    """Return the walls laid end to end from the origin."""
    lines: list[WallLine] = []
    x = y = 0
    for wall, (dx, dy), length in zip(walls, steps, lengths, strict=True):
        x1, y1 = x + dx * length, y + dy * length
        lines.append(WallLine(name=wall.name, x0=x, y0=y, x1=x1, y1=y1, length=length))
        x, y = x1, y1
    return tuple(lines)


def _corners_do_not_close(walls: Sequence[Wall], turned: int) -> Finding:
    """Return the finding that a room said to be closed cannot be, by its corners."""
    name = f"{walls[0].name} to {walls[-1].name}"
    return Finding(
        code="corners-do-not-close",
        rank=Rank.WATCH,
        where=f"walls {name}",
        text=say("corners-do-not-close", walls=name, turned=turned),
    )


def _closing_error(job: Job, book: RuleBook, missed: tuple[int, int]) -> Finding:
    """Return the finding that the walls miss closing: a note within the lengths' doubt, else a watch."""
    tools, units = job.tools, job.job.tape
    doubt = tools.length_doubt.ticks if tools.length_doubt else book.length("length-reading-doubt")
    expected = 2 * doubt * len(job.room.walls) ** 0.5
    worst = max(abs(missed[0]), abs(missed[1]))
    names = f"{job.room.walls[0].name} to {job.room.walls[-1].name}"
    key = "outline-closes-nearly" if worst <= expected else "outline-does-not-close"
    facts = {"along": show(abs(missed[0]), units), "across": show(abs(missed[1]), units)}
    return Finding(
        code="closing-error",
        rank=Rank.NOTE if worst <= expected else Rank.WATCH,
        where=f"walls {names}",
        text=say(key, walls=names, expected=show(_whole(expected, job), units), **facts),
        by_how_much=worst,
        rule="length-reading-doubt",
    )


def _whole(ticks: float, job: Job) -> int:
    """Return a doubt rounded up to what a tape shows."""
    return round_to(int(ticks), fine_step(job.job.tape), Rounding.UP)
