"""Small invented rooms as job documents, for whole plans and for the app."""

from __future__ import annotations

from typing import Any

__all__ = ["box", "falling_floor", "plain_room"]

Table = dict[str, Any]


def box(number: int, width: str, name: str = "", **more: Any) -> Table:
    """Return a base box."""
    whole = {"number": number, "kind": "base", "width": width, "height": "34 1/2", "depth": "24", **more}
    return {**whole, "name": name} if name else whole


def plain_room(**parts: Any) -> Table:
    """Return one wall with a window, a base run with a dishwasher and a wall run, all of which fit.

    Args:
        parts: Whole parts of the document that take the place of these.
    """
    along = ["2", "26", "50", "74", "98", "111"]
    downs = ["47 1/2", "47 9/16", "47 5/8", "47 5/8", "47 11/16", "47 3/4"]
    readings = [[u, down] for u, down in zip(along, downs, strict=True)]
    lines = [{"wall": "A", "at": at, "readings": readings} for at in ("wall", "toe")]
    return {
        "format": 1,
        "job": {"name": "Plain room", "tape": "inch"},
        "room": {
            "walls": [
                {
                    "name": "A",
                    "lengths": [{"length": "113"}],
                    "windows": [{"name": "garden", "left": "33", "right": "69"}],
                }
            ]
        },
        "floor": {"set_ups": [{"name": "S1", "lines": lines}]},
        "order": {
            "boxes": [
                box(1, "18", "drawers", measured="18"),
                box(2, "12", "trays"),
                box(3, "33", "sink"),
                box(4, "15"),
                box(11, "30", kind="wall", height="30", depth="12"),
                box(12, "24", kind="wall", height="30", depth="12"),
            ],
            "fillers": [
                {"number": 41, "width": {"least": "3/4", "most": "6"}, "scribed": True},
                {"number": 42, "width": {"least": "3/4", "most": "8"}, "scribed": True},
                {"number": 43, "width": {"least": "3/4"}},
                {"number": 44, "width": {"least": "3/4"}},
            ],
            "panels": [{"number": 61, "name": "end", "thickness": "3/4"}],
            "appliances": [
                {
                    "number": 31,
                    "kind": "dishwasher",
                    "width": {"least": "24", "most": "24 1/4"},
                    "sheet": "from the sheet",
                    "sheet_date": "May",
                }
            ],
        },
        "runs": [
            {
                "wall": "A",
                "row": "base",
                "items": [41, 1, 2, 3, 31, 4, 42],
                "pins": [{"item": 3, "edge": "centre", "window": "garden", "strength": "wish"}],
            },
            {"wall": "A", "row": "wall", "items": [43, 11, 12, 44]},
        ],
        **parts,
    }


def falling_floor() -> Table:
    """Return one wall with four bases whose floor falls more than shims take up."""
    along = ["2", "20", "26", "44", "50", "68", "74", "92"]
    downs = ["48", "48", "48 1/4", "48 1/4", "48 5/8", "48 5/8", "49 1/4", "49 1/4"]
    readings = [[u, down] for u, down in zip(along, downs, strict=True)]
    document = plain_room()
    return {
        **document,
        "job": {"name": "Falling floor", "tape": "inch"},
        "room": {"walls": [{"name": "A", "lengths": [{"length": "97 1/2"}]}]},
        "floor": {
            "set_ups": [
                {
                    "name": "S1",
                    "lines": [{"wall": "A", "at": at, "readings": readings} for at in ("wall", "toe")],
                }
            ]
        },
        "order": {
            "boxes": [box(number, "24") for number in (1, 2, 3, 4)],
            "fillers": [{"number": 41, "width": {"least": "3/4", "most": "3"}, "scribed": True}],
        },
        "runs": [{"wall": "A", "row": "base", "items": [41, 1, 2, 3, 4]}],
    }
