"""A job to start from: a small whole kitchen along one wall, with a word beside everything.

It plans as it stands. One text serves both tapes; what differs is the numbers, and how the boxes stand:
framed boxes on shims for an inch tape, frameless ones on legs for a metric one. The room is nobody's.
"""

from __future__ import annotations

import json
import re
from string import Template

from setline.lengths import Units

__all__ = ["starter"]


def starter(name: str, tape: Units) -> str:
    """Return the TOML of a job to start from.

    Args:
        name: What the job is to be called.
        tape: The crew's tape; the room comes in its units.
    """
    numbers = _INCH if tape == Units.INCH else _METRIC
    quoted = json.dumps(name, ensure_ascii=False).replace("\x7f", "\\u007f")
    text = Template(_TEXT).substitute(numbers, tape=tape.value, name="$name")
    return Template(_NOTE.sub(_in_column, text)).substitute(name=quoted)


_NOTE = re.compile(r"^(.*\S) {2,}# ", re.MULTILINE)


def _in_column(found: re.Match[str]) -> str:
    """Return a line with its note where the other notes stand."""
    return f"{found[1]:<50}  # "


_TEXT = """\
# A job for Setline: what the tape, the laser and the order say.
# `setline check` reads it through, `setline plan` gives the marks.
# This is an invented room. Put your own numbers in place of these, a line at a time, and check as you go.
#
# Lengths are texts, as the tape shows them: $forms
# Facing a wall, u runs from its left corner to the right. Left and right are always as seen facing the wall.

format = 1

[job]
name = $name
tape = "$tape"
measured_by = ""

# ------------------------------------------------------------------------------------------ the room
# Walls are lettered clockwise as seen from above: A, then the one at its right corner, B ...

[[room.walls]]
name = "A"
lengths = [
    { length = "$wall", height = { up = "$low", from = "subfloor" } },
    { length = "$wall_line" },                      # at the height of the line
]

[[room.walls.plumb]]                                # a plumb line hung near the wall that closes this end
end = "left"
offsets = [                                         # from the line back to that wall: bigger is hollow
$plumb_left
]

[[room.walls.plumb]]
end = "right"
offsets = [
$plumb_right
]

[[room.walls.windows]]
name = "over the sink"
left = "$window_left"                               # edges of the casing, from the left corner
right = "$window_right"
centre = "$window_centre"
sill = { up = "$sill", from = "subfloor" }          # underside of the stool

# ----------------------------------------------------------------------------------------- the floor
# One laser set-up. Each pair: u, then how far the floor lies DOWN from the laser line. Bigger is lower.

[[floor.set_ups]]
name = "S1"
closing = { first = "$first", again = "$first" }    # the first point, shot again before the laser moved

[[floor.set_ups.lines]]
wall = "A"
at = "wall"
readings = [
$readings_wall
]

[[floor.set_ups.lines]]
wall = "A"
at = "toe"                                          # where the front feet stand
readings = [
$readings_toe
]

[[floor.coverings]]   # still to come; it counts for dishwasher and range
name = "plank"
thickness = "$plank"
when = "after boxes"
reaches = "wall"

# ----------------------------------------------------------------------------------------- the order
# Every item has a number that is its own: boxes, openings, fillers.
# $support

[order]
tops = { thickness = "$top" }

[[order.boxes]]
number = 1
kind = "base"
name = "drawers"
width = "$drawers"
$base

[[order.boxes]]
number = 2
kind = "base"
name = "sink"
width = "$sink"
$base

[[order.boxes]]
number = 3
kind = "base"
name = "door"
width = "$door"
$base

[[order.boxes]]
number = 4
kind = "base"
name = "trays"
width = "$trays"
$base

[[order.boxes]]
number = 5
kind = "wall"
width = "$wall_left"
$hung

[[order.boxes]]
number = 6
kind = "wall"
width = "$wall_right"
$hung

[[order.appliances]]                                # an appliance stands in the run as an opening
number = 21
kind = "dishwasher"
width = { least = "$dw_least", most = "$dw_most", wish = "$dw_least" }    # clear, between the boxes
height = { least = "$dw_low", most = "$dw_high" }   # from the finished floor to the box tops
sheet = "general, check the sheet"                  # put the maker's numbers here, and "from the sheet"

[[order.appliances]]
number = 22
kind = "range"
width = { least = "$range_least", most = "$range_most", wish = "$range_wish" }
sheet = "general, check the sheet"

[[order.appliances]]
number = 23
kind = "hood"
width = { least = "$range_least", most = "$range_most", wish = "$range_wish" }
sheet = "general, check the sheet"

[[order.fillers]]
number = 31
name = "at the left wall"
width = { least = "$filler_least", most = "$filler_most" }
scribed = true

[[order.fillers]]
number = 32
name = "at the right wall"
width = { least = "$filler_least", most = "$filler_most" }
scribed = true

[[order.fillers]]
number = 33
name = "at the right wall, above"
width = { least = "$filler_least", most = "$filler_most" }
scribed = true

# ------------------------------------------------------------------------------------------ the runs
# Left to right, facing the wall. An end is the wall itself unless it says otherwise.

[[runs]]
wall = "A"
row = "base"
items = [31, 1, 2, 21, 3, 22, 4, 32]
pins = [{ item = 2, edge = "centre", window = "over the sink" }]

[[runs]]
wall = "A"
row = "wall"
items = [5, 23, 6, 33]
left = { kind = "open", at = "$window_clear" }      # it stops short of the window's casing
bottom = { up = "$hang", from = "finished floor" }
pins = [{ item = 23, edge = "centre", beside = 22 }]    # the hood over the range

# ----------------------------------------------------------------------------------------- the tools

[tools.laser]
error = "$laser_error"                              # its maker's rating: so much, over so far
over = "$laser_over"
proof = { distance = "$proof_over", difference = "$proof" }    # two walls marked, the laser turned
"""

_PLUMB = '    {{ height = {{ up = "{up}", from = "subfloor" }}, back = "{back}" }},'


def _plumb(*offsets: tuple[str, str]) -> str:
    """Return the lines of some plumb offsets: how high, how far back."""
    return "\n".join(_PLUMB.format(up=up, back=back) for up, back in offsets)


_INCH = {
    "forms": '"27 7/16", "9\' 4 3/16", "34.5", "48 3/16 strong".',
    "wall": "138 5/8",
    "low": "4",
    "wall_line": "138 3/4",
    "plumb_left": _plumb(("4", "2"), ("35", "2"), ("54", "2 1/16"), ("84", "2 1/8")),
    "plumb_right": _plumb(("4", "1 7/8"), ("35", "1 15/16"), ("54", "1 15/16"), ("84", "2")),
    "window_left": "20 3/8",
    "window_right": "52 1/8",
    "window_centre": "36 1/4",
    "sill": "41 1/2",
    "first": "47 7/8",
    "readings_wall": '    ["2", "47 7/8"], ["20", "47 7/8"], ["36", "47 15/16"], ["53", "48"],\n'
    '    ["77", "48 1/16"], ["92", "48 1/16"], ["107", "48 1/8"], ["122", "48 1/8"], ["137", "48 3/16"],',
    "readings_toe": '    ["2", "47 15/16"], ["20", "47 15/16"], ["36", "48"], ["53", "48 1/16"],\n'
    '    ["77", "48 1/8"], ["92", "48 1/8"], ["107", "48 5/32"], ["122", "48 3/16"], ["137", "48 1/4"],',
    "plank": "3/8",
    "top": "1 1/4",
    "drawers": "18",
    "sink": "33",
    "door": "15",
    "trays": "15",
    "base": 'overhang_left = "1/4"\noverhang_right = "1/4"\nheight = "34 1/2"\ndepth = "24"',
    "support": "The frame of a box is its width; its body stands back by the overhang on each side.",
    "wall_left": "36",
    "wall_right": "15",
    "hung": 'overhang_left = "1/4"\noverhang_right = "1/4"\nheight = "30"\ndepth = "12"',
    "dw_least": "24",
    "dw_most": "24 1/4",
    "dw_low": "33 3/4",
    "dw_high": "35 1/4",
    "range_least": "30",
    "range_most": "30 1/2",
    "range_wish": "30 1/4",
    "filler_least": "3/4",
    "filler_most": "3",
    "window_clear": "53",
    "laser_error": "1/8",
    "laser_over": "30 ft",
    "hang": "54",
    "proof_over": "11 ft",
    "proof": "1/16",
}

_METRIC = {
    "forms": '"874", "874.5", "87.4 cm", "874 strong".',
    "wall": "3456",
    "low": "100",
    "wall_line": "3458",
    "plumb_left": _plumb(("100", "50"), ("870", "50"), ("1400", "51"), ("2100", "52.5")),
    "plumb_right": _plumb(("100", "48"), ("870", "49"), ("1400", "49"), ("2100", "50")),
    "window_left": "515",
    "window_right": "1343",
    "window_centre": "929",
    "sill": "1060",
    "first": "1216",
    "readings_wall": '    ["50", "1216"], ["520", "1216"], ["930", "1217.5"], ["1340", "1219"],\n'
    '    ["1930", "1220.5"], ["2330", "1221"], ["2630", "1222"], ["2930", "1222"], ["3410", "1223"],',
    "readings_toe": '    ["50", "1217"], ["520", "1217"], ["930", "1219"], ["1340", "1220"],\n'
    '    ["1930", "1221.5"], ["2330", "1222"], ["2630", "1222.5"], ["2930", "1223"], ["3410", "1224"],',
    "plank": "9",
    "top": "30",
    "drawers": "500",
    "sink": "800",
    "door": "400",
    "trays": "500",
    "base": 'height = "870"\ndepth = "560"\nsupport = "legs"\nlegs = { least = "135", most = "170" }',
    "support": "A box on legs says how far they turn; its height counts the legs in.",
    "wall_left": "900",
    "wall_right": "500",
    "hung": 'height = "720"\ndepth = "320"',
    "dw_least": "600",
    "dw_most": "606",
    "dw_low": "820",
    "dw_high": "890",
    "range_least": "600",
    "range_most": "606",
    "range_wish": "600",
    "filler_least": "15",
    "filler_most": "80",
    "window_clear": "1370",
    "laser_error": "3",
    "laser_over": "10 m",
    "hang": "1370",
    "proof_over": "3400",
    "proof": "1",
}
