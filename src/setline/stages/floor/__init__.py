"""The floor as found, the high spot, the band and the level line."""

from setline.stages.floor.find_level import FloorResult, find_level
from setline.stages.floor.provisional import provisional_tops

__all__ = ["FloorResult", "find_level", "provisional_tops"]
