"""Windows, doors and ceiling on the walls of a plan, as they were read."""

from __future__ import annotations

from pathlib import Path

from tests.tape import inch, mm

from setline import load_job, plan
from setline.result import WallLine

EXAMPLES = Path(__file__).parents[2] / "examples"


def _wall(job: str, name: str) -> WallLine:
    """Return a wall of a sample kitchen's plan."""
    return next(wall for wall in plan(load_job(EXAMPLES / f"{job}.toml")).walls if wall.name == name)


def test_a_window_keeps_its_edges_and_its_heights_from_the_laser() -> None:
    """A sill 11 1/4 down and a head 34 1/2 up from the laser line in use stand at -11 1/4 and 34 1/2."""
    (window,) = _wall("larkspur-street", "B").openings
    assert (window.kind, window.left, window.right) == ("window", inch("51 5/8"), inch("90 5/8"))
    assert window.centre == inch("71 1/8")
    assert (window.bottom, window.top) == (-inch("11 1/4"), inch("34 1/2"))


def test_a_height_from_the_finished_floor_is_carried_up_from_the_floor_there() -> None:
    """Sill and head from the finished floor stand over the floor read there, its covering to come on it."""
    (window,) = _wall("mill-row", "A").openings
    assert window.bottom is not None
    assert window.top is not None
    assert window.top - window.bottom == mm(2090) - mm(1068)
    assert window.bottom == mm(14) - mm(1208) + mm(1068)


def test_a_door_has_edges_and_no_head() -> None:
    """A door's centre is the middle of its edges; its head is not asked for."""
    (door,) = _wall("larkspur-street", "C").openings
    assert (door.kind, door.bottom, door.top) == ("door", None, None)
    assert 2 * door.centre == (door.left or 0) + (door.right or 0)


def test_the_ceiling_is_the_lowest_read_at_each_place() -> None:
    """Of two ceiling readings at one place along a wall the lower stands; places run left to right."""
    ceiling = _wall("larkspur-street", "A").ceiling
    places = [u for u, _ in ceiling]
    assert places == sorted(set(places))
    assert len(ceiling) == 4
