"""The line of every value of a TOML file."""

from __future__ import annotations

import pytest

from setline.job.toml_lines import line_of, lines_of

TEXT = """\
# a comment with [brackets] and = signs
format = 1
title = \"\"\"
two [lines]
x = 1\"\"\"  # not keys

[job]
name = "a # b = [c]"
'quoted key' = 'x'
tape.kind = "inch"

[[room.walls]]
name = "A"
lengths = [
    { length = "1", height = { up = "2",
        from = "subfloor" } },
    # between
    { length = "3" }, { length = "4" },
]

[[room.walls]]
name = "B"

[[room.walls.windows]]
name = "w"
[room.walls.windows.sill]
up = [["1", "2"],
      ["3", "4"]]

[room]
closed = true
"""

WANTED = [
    (("format",), 2),
    (("title",), 3),
    (("job",), 7),
    (("job", "name"), 8),
    (("job", "quoted key"), 9),
    (("job", "tape", "kind"), 10),
    (("room", "walls", 0), 12),
    (("room", "walls", 0, "name"), 13),
    (("room", "walls", 0, "lengths"), 14),
    (("room", "walls", 0, "lengths", 0, "length"), 15),
    (("room", "walls", 0, "lengths", 0, "height", "up"), 15),
    (("room", "walls", 0, "lengths", 0, "height", "from"), 16),
    (("room", "walls", 0, "lengths", 1), 18),
    (("room", "walls", 0, "lengths", 2, "length"), 18),
    (("room", "walls", 1, "name"), 22),
    (("room", "walls", 1, "windows", 0, "name"), 25),
    (("room", "walls", 1, "windows", 0, "sill", "up", 1), 28),
    (("room", "closed"), 31),
    # what has no line of its own stands on the line of what is around it
    (("room", "walls", 1, "corner"), 21),
    (("room", "walls", 1, "windows", 0, "sill", "up", 1, 0), 28),
    (("room", "walls", 0, "lengths", 1, "height", "up"), 18),
]


@pytest.mark.parametrize(("place", "line"), WANTED, ids=[str(place) for place, _ in WANTED])
def test_a_value_is_found_on_its_line(place: tuple[str | int, ...], line: int) -> None:
    """Headers, keys, lists over several lines and texts over several lines are counted right."""
    assert line_of(place, lines_of(TEXT)) == line


def test_what_is_nowhere_has_no_line() -> None:
    """A place that the file does not touch has no line."""
    assert line_of(("truck", "shims"), lines_of(TEXT)) is None
    assert line_of((), lines_of(TEXT)) is None
