"""What a plan gives back: plain frozen data, made by the stages and read by every face.

Lengths are whole ticks (see ``setline.lengths``). Inside the plan z = 0 is the laser line of the set-up
in use and z grows upwards; x and y are the room's (docs/conventions.md). Nothing here computes; a number
that is printed is a ``Figure`` that knows what it rests on.
"""

from setline.result.doubts import Doubts, HighSpotRisk, NextReading, OddSpot
from setline.result.figure import Figure
from setline.result.finding import Change, Finding, Rank, Remedy
from setline.result.floor import (
    FlatnessLine,
    FloorAsFound,
    FloorSpot,
    HighSpot,
    SurfaceGrid,
    WallLine,
    WallOpening,
)
from setline.result.level_line import Band, BandLimit, FallOption, LevelLine, SetUpLine
from setline.result.plan import Plan
from setline.result.run import AsSetPlace, Edge, ItemKind, ItemPlace, Joint, Mark, RunPin, RunPlan
from setline.result.shim import Shim, ShimKind

__all__ = [
    "AsSetPlace",
    "Band",
    "BandLimit",
    "Change",
    "Doubts",
    "Edge",
    "FallOption",
    "Figure",
    "Finding",
    "FlatnessLine",
    "FloorAsFound",
    "FloorSpot",
    "HighSpot",
    "HighSpotRisk",
    "ItemKind",
    "ItemPlace",
    "Joint",
    "LevelLine",
    "Mark",
    "NextReading",
    "OddSpot",
    "Plan",
    "Rank",
    "Remedy",
    "RunPin",
    "RunPlan",
    "SetUpLine",
    "Shim",
    "ShimKind",
    "SurfaceGrid",
    "WallLine",
    "WallOpening",
]
