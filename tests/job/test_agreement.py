"""Places of a job that must agree: numbers, names, runs, heights; each disagreement in its own words."""

from __future__ import annotations

from typing import Any

import pytest
from tests.job.changed import GONE, changed, faults_after

from setline.job.read import job_from_dict

DISAGREEMENTS: list[tuple[dict[str, Any], str]] = [
    (
        {"order.boxes.0.number": 2, "runs.0.items": [31, 2, 21, 3, 22, 4, 32]},
        "order.boxes[1].number: read 2; number 2 is boxes[0] already, and every item has its own; "
        "for example number = 1.",
    ),
    (
        {"order.boxes.0.support": "legs"},
        "order.boxes[0].legs: read nothing; a box on legs says how far they turn; for example legs "
        '= { least = "4", most = "6" }.',
    ),
    (
        {"order.boxes.0.legs": {"least": "4", "most": "6"}},
        "order.boxes[0].support: read nothing; a box that has legs stands on them; for example "
        'support = "legs".',
    ),
    (
        {"order.boxes.0.support": "legs", "order.boxes.0.legs": {"least": "6", "most": "4"}},
        'order.boxes[0].legs.most: read "4"; most is less than least.',
    ),
    (
        {"runs.0.items.0": 99},
        "runs[0].items[0]: read 99; no item of the order has number 99; known are 1, 2, 3, 4, 5, "
        "6, 21, 22, 23, 31, 32, 33.",
    ),
    (
        {
            "order.panels": [{"number": 50 + n, "thickness": "3/4"} for n in range(3)],
            "runs.0.items.0": 99,
        },
        "runs[0].items[0]: read 99; no item of the order has number 99; known are 1, 2, 3, 4, 5, "
        "6, 21, 22, 23, 31, 32, 33 and 3 more.",
    ),
    (
        {"runs.0.items.0": 5, "runs.1.items": [23, 6, 33]},
        "runs[0].items[0]: read 5; item 5 is a wall box, which goes into a wall row of wall A.",
    ),
    (
        {"runs.1.items": [5, 23, 6, 33, 32]},
        "runs[1].items[4]: read 32; item 32 stands in A base already; only a tall box stands in "
        "both rows of a wall, and a second row needs an item of its own.",
    ),
    (
        {
            "order.existing": [
                {"number": 40, "name": "post", "wall": "A", "row": "wall", "left": "1", "right": "3"}
            ],
            "runs.0.items.0": 40,
        },
        "runs[0].items[0]: read 40; item 40 stands in A wall.",
    ),
    (
        {"runs.0.pins.0.item": 5},
        "runs[0].pins[0].item: read 5; item 5 is not in this run.",
    ),
    (
        {"runs.0.pins.0.window": "big"},
        'runs[0].pins[0].window: read "big"; wall A has no window of that name; known are "over the sink".',
    ),
    (
        {"runs.1.pins.0.beside": 23},
        "runs[1].pins[0].beside: read 23; it is lined up with another item of wall A.",
    ),
    (
        {"runs.0.pins.0.at": "36"},
        'runs[0].pins[0]: read {"item": 2, "edge": "centre", "window": "over the sink", "at ...; a '
        "pin names one place: at, window, middle or beside.",
    ),
    (
        {"runs.0.left": {"kind": "wall", "at": "3"}},
        'runs[0].left.at: read "3"; only an open end says how far it may reach; for example kind = "open".',
    ),
    (
        {"runs.0.left": {"kind": "open", "run": "B base"}},
        'runs[0].left.run: read "B base"; only a corner end names a run; for example kind = "corner".',
    ),
    (
        {"runs.0.right": {"kind": "corner", "run": "base"}},
        'runs[0].right.run: read "base"; a run is named by its wall and its row; for example run = "B base".',
    ),
    (
        {"runs.0.right": {"kind": "corner", "run": "B base"}},
        'runs[0].right.run: read "B base"; wall A meets no other wall at its right end.',
    ),
    (
        {"room.walls.1": {"name": "B", "lengths": [{"length": "96"}]}, "runs.0.right": {"kind": "corner"}},
        'runs[0].right.run: read nothing; the run round that corner is B base; for example run = "B base".',
    ),
    (
        {
            "room.walls.1": {"name": "B", "lengths": [{"length": "96"}]},
            "runs.0.right": {"kind": "corner", "run": "B base"},
        },
        'runs[0].right.run: read "B base"; there is no run B base.',
    ),
    (
        {
            "room.walls.1": {"name": "B", "lengths": [{"length": "96"}]},
            "room.walls.0.corner": "outside",
            "runs.0.right": {"kind": "corner", "run": "B base"},
        },
        'runs[0].right.run: read "B base"; the right corner of wall A is an outside one, which no '
        "run closes.",
    ),
    (
        {"room.walls.1": {"name": "C", "lengths": [{"length": "96"}]}},
        'room.walls[1].name: read "C"; walls are lettered clockwise in the order of the file, so '
        'this is B; for example name = "B".',
    ),
    (
        {"floor.set_ups.0.lines.0.wall": "Q"},
        'floor.set_ups[0].lines[0].wall: read "Q"; no wall of that letter was read; known are A.',
    ),
    (
        {"room.walls.0.windows.1": {"name": "over the sink", "centre": "100"}},
        'room.walls[0].windows[1].name: read "over the sink"; wall A has a window of that name already.',
    ),
    (
        {"room.walls.0.windows.0.centre": GONE, "room.walls.0.windows.0.left": GONE},
        "room.walls[0].windows[0].centre: read nothing; a window has a centre, or both edges.",
    ),
    (
        {"room.walls.0.windows.0.left": "52 1/4"},
        'room.walls[0].windows[0].right: read "52 1/8"; right is less than left.',
    ),
    (
        {"floor.set_ups.0.lines.1.readings.8": ["173", "48"]},
        'floor.set_ups[0].lines[1].readings[8][0]: read "173"; wall A is 138 3/4 long.',
    ),
    (
        {"runs.0.pins.0": {"item": 2, "edge": "left", "at": "150"}},
        'runs[0].pins[0].at: read "150"; wall A is 138 3/4 long.',
    ),
    (
        {"floor.set_ups.1": {"name": "S1"}},
        'floor.set_ups[1].name: read "S1"; a set-up of that name is there already.',
    ),
    (
        {"floor.use": "S2"},
        'floor.use: read "S2"; no set-up of that name was made; known are S1.',
    ),
    (
        {"record.struck_lines": [{"set_up": "S3", "down": "13"}]},
        'record.struck_lines[0].set_up: read "S3"; no set-up of that name was made; known are S1.',
    ),
    (
        {"floor.set_ups.0.marks": [{"name": "nail"}]},
        "floor.set_ups[0].marks[0].down: read nothing; a mark lies down or up from the laser line, "
        "one of the two.",
    ),
    (
        {"room.walls.0.windows.0.sill.from": "laser S2"},
        'room.walls[0].windows[0].sill.from: read "laser S2"; no set-up of that name was made; known are S1.',
    ),
    (
        {"room.walls.0.windows.0.sill.from": "line 1"},
        'room.walls[0].windows[0].sill.from: read "line 1"; no line of that name was struck; known '
        "are none yet.",
    ),
    (
        {"room.walls.0.windows.0.sill.from": "level line"},
        'room.walls[0].windows[0].sill.from: read "level line"; a reading is never stated from the '
        'level line, since that line moves; for example from = "laser S1".',
    ),
    (
        {"job.strong": "1/8"},
        'job.strong: read "1/8"; strong is more than 0 and at most 1/16 in (1.5 mm); for example '
        'strong = "1/32".',
    ),
]


@pytest.mark.parametrize(
    ("changes", "sentence"), DISAGREEMENTS, ids=[sentence[:60] for _, sentence in DISAGREEMENTS]
)
def test_two_places_that_disagree_are_one_fault(changes: dict[str, Any], sentence: str) -> None:
    """A change that makes two places disagree gives one fault, in these words."""
    assert [str(fault) for fault in faults_after(changes)] == [sentence]


def test_a_run_may_close_a_corner_of_a_closed_room() -> None:
    """In a closed room the last wall meets the first, so its corner is closed by a run there too."""
    walls = {
        f"room.walls.{place}": {"name": name, "lengths": [{"length": "96"}]}
        for place, name in enumerate("BCD", 1)
    }
    run = {"wall": "D", "items": [7]}
    box = {"number": 7, "kind": "base", "width": "24", "height": "34 1/2", "depth": "24"}
    changes = {**walls, "room.closed": True, "order.boxes.6": box, "runs.2": run}
    assert job_from_dict(changed({**changes, "runs.0.left": {"kind": "corner", "run": "D base"}}))
    [fault] = faults_after({**changes, "runs.0.left": {"kind": "corner", "run": "B base"}})
    assert fault.example == 'run = "D base"'


def test_a_tall_box_stands_in_both_rows_of_its_wall_and_in_no_other() -> None:
    """A tall box may be listed in the base row and the wall row of one wall, once each."""
    tall = {"number": 7, "kind": "tall", "width": "24", "height": "84", "depth": "24"}
    both = {"order.boxes.6": tall, "runs.0.items.8": 7, "runs.1.items.4": 7}
    assert job_from_dict(changed(both))
    [fault] = faults_after({**both, "runs.0.items.9": 7})
    assert fault.where == "runs[0].items[9]"
