"""The floor as found, the high spot, the band and the level line."""

from setline.stages.floor.provisional import provisional_tops

__all__ = ["provisional_tops"]
