"""How heights are told: down from the laser line in use, as the crew measures them, and what they rest on."""

from __future__ import annotations

from setline.job.readings import down_from_laser
from setline.lengths import Rounding, Units, round_to, shim_step, show
from setline.stages.floor.ground import Ground, GroundHeight
from setline.wording import say

__all__ = ["amount_told", "floor_told", "height_told"]


def height_told(z: int, units: Units) -> str:
    """Return a height as it is measured from the laser line in use: ``48 1/4 down`` or ``1 1/2 up``."""
    down = down_from_laser(z, 0)
    return say("height-down" if down >= 0 else "height-up", distance=show(abs(down), units))


def amount_told(ticks: int, units: Units) -> str:
    """Return how much something is to give, rounded up to what a shim is made to."""
    return show(round_to(ticks, shim_step(units), Rounding.UP), units)


def floor_told(ground: Ground, point: str, height: GroundHeight, over: int) -> tuple[str, ...]:
    """Return the working of a floor height: what was read or modelled, and what lies on it.

    Args:
        ground: The floor.
        point: What to call the place.
        height: The bare floor there; it has a number.
        over: What lies on the bare floor for the purpose. [ticks]
    """
    assert height.bare is not None, f"{point} has no number"
    units = ground.job.job.tape
    told = ", ".join(ground.told(height.readings))
    bare, surface = height.bare, height.bare + over
    read = {ground.readings[index].z for index in height.readings} if height.as_read else set()
    if len(read) == 1 and (z := read.pop()) is not None:
        lines = [say("work-read", point=point, height=height_told(z, units), readings=told)]
        if z == surface:
            return tuple(lines)
        if z != bare:
            lines.append(say("work-bare", thickness=show(z - bare, units), height=height_told(bare, units)))
    else:
        key = "work-middle" if height.as_read else "work-mean"
        lines = [say(key, point=point, height=height_told(bare, units), readings=told)]
    if over:
        lines.append(say("work-over", thickness=show(over, units), height=height_told(surface, units)))
    return tuple(lines)
