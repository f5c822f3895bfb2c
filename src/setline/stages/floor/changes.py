"""What a way out of the level line's troubles changes in the job."""

from __future__ import annotations

from collections.abc import Iterator

from setline.job.readings import down_from_laser, set_up_in_use
from setline.lengths import show
from setline.result import Change, FallOption
from setline.stages.floor.bearing import trim_cap
from setline.stages.floor.ground import Ground

__all__ = ["agreed_change", "trim_changes"]


def agreed_change(ground: Ground, tops: int) -> Iterator[Change]:
    """Yield a line as agreed on the set-up in use; nothing where it lies above that laser line.

    Args:
        ground: The floor, for the job.
        tops: Height of the tops. [ticks]
    """
    in_use = set_up_in_use(ground.job.floor)
    down = show(down_from_laser(tops, 0), ground.job.job.tape)
    if in_use is None or down.startswith(("-", "~")):
        return
    yield Change(place=("record", "agreed_line"), value={"set_up": in_use.name, "down": down})


def trim_changes(ground: Ground, option: FallOption) -> Iterator[Change]:
    """Yield each trimmed box as high as it is then, with what may still be cut off it."""
    units, boxes = ground.job.job.tape, {box.number: box for box in ground.job.order.boxes}
    for number, trim in option.trims:
        box, place = boxes[number], ("order", "boxes", str(number))
        yield Change(place=(*place, "height"), value=show(box.height.ticks - trim, units))
        left = max(0, trim_cap(ground, box) - trim)
        yield Change(place=(*place, "may_trim"), value=show(left, units))
