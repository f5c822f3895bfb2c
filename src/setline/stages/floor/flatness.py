"""How flat and how level each line of floor readings is, from the readings alone, never from the surface."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from setline.lengths import Rounding, Units, round_to, shim_step, show, show_feet
from setline.result import Figure, Finding, FlatnessLine, Rank
from setline.stages.floor.e1155 import flatness_numbers
from setline.stages.floor.ground import Ground
from setline.stages.floor.straightedge import StraightedgeGap, gap_under_straightedge, rocking_gap
from setline.stages.floor.straightness import fit_line
from setline.stages.floor.surface import SIDE_OF_95
from setline.wording import say

__all__ = ["flatness_lines", "slope_notes"]

Line = tuple[str, list[int]]


def _lines(ground: Ground) -> list[Line]:
    """Return the readings of each line, by wall and distance out, parted by steps; each in order along it.

    An untied set-up has a zero of its own, so its lines are lines of their own.
    """
    lines: dict[tuple[str, str, str, tuple[int, ...]], list[int]] = {}
    for index, each in enumerate(ground.readings):
        apart = "" if ground.is_tied(index) else each.set_up
        lines.setdefault((apart, each.wall, each.line, ground.sides_of(index)), []).append(index)
    parts: Counter[str] = Counter()
    found: list[Line] = []
    for (apart, wall, line, _), own in lines.items():
        name = say("line-of" if line in ("wall", "toe") else "line-out-of", wall=wall, line=line)
        name = say("line-from", name=name, set_up=apart) if apart else name
        parts[name] += 1
        found.append((name if parts[name] == 1 else say("line-part", name=name, part=parts[name]), own))
    return found


def _profile(ground: Ground, own: Sequence[int]) -> tuple[list[tuple[int, int]], list[int]]:
    """Return (along, height) of a line, repeats of a spot at their middle, and its readings in that order."""
    spots: dict[int, list[int]] = {}
    for index in own:
        spots.setdefault(ground.readings[index].u, []).append(index)
    profile = []
    for u in sorted(spots):
        heights = sorted(ground.soundings[index].z for index in spots[u])
        profile.append((u, (heights[(len(heights) - 1) // 2] + heights[len(heights) // 2]) // 2))
    return profile, [index for u in sorted(spots) for index in spots[u]]


def flatness_lines(ground: Ground) -> tuple[FlatnessLine, ...]:
    """Return the flatness of every line of two readings or more, on the bare floor.

    The gap is the widest under a straightedge laid anywhere along it; E1155 numbers stand only for a line
    that was read every 12 in, with 12 readings or more.
    """
    length = ground.book.length("straightedge")
    found: list[FlatnessLine] = []
    for name, own in _lines(ground):
        profile, order = _profile(ground, own)
        fitted = fit_line(profile)
        if fitted is None:
            continue
        gap, hump = gap_under_straightedge(profile, length), rocking_gap(profile, length)
        readings = ground.told(order)
        numbers = flatness_numbers(profile)
        doubt = fitted.slope_doubt
        found.append(
            FlatnessLine(
                name=name,
                gap=_widest(gap, profile, readings),
                gap_at=profile[0][0] if gap is None else gap.at,
                hump=_widest(hump, profile, readings),
                hump_at=profile[0][0] if hump is None else hump.at,
                slope=Figure(
                    value=round(fitted.slope * length),
                    within=None if doubt is None else round(SIDE_OF_95 * doubt * length),
                    readings=readings,
                    rule="straightedge",
                ),
                ff=None if numbers is None else numbers.ff,
                fl=None if numbers is None else numbers.fl,
            )
        )
    return tuple(found)


def _widest(
    gap: StraightedgeGap | None, profile: Sequence[tuple[int, int]], readings: tuple[str, ...]
) -> Figure:
    """Return a gap as a figure: 0 where the straightedge touches everywhere, ``?`` for two readings."""
    exact = None if len(profile) < 3 else 0 if gap is None else round(gap.gap)
    return Figure(value=exact, readings=readings, rule="straightedge")


def slope_notes(ground: Ground, lines: Sequence[FlatnessLine]) -> list[Finding]:
    """Return one note for the whole floor: where it falls most, its widest gap and its highest hump."""
    units, length = ground.job.job.tape, ground.book.length("straightedge")
    step = shim_step(units)
    steepest = max(lines, key=_sure_fall, default=None)
    hollow = max(lines, key=lambda each: each.gap.value or 0, default=None)
    if steepest is None or hollow is None:
        return []
    fall = round_to(abs(steepest.slope.value or 0), step, Rounding.NEAREST_UP)
    gap = round_to(hollow.gap.value or 0, step, Rounding.NEAREST_UP)
    crowned = max(lines, key=lambda each: each.hump.value or 0)
    hump = round_to(crowned.hump.value or 0, step, Rounding.NEAREST_UP)
    if not fall and not gap and not hump:
        return []
    text = say(
        "floor-falls-right" if (steepest.slope.value or 0) < 0 else "floor-falls-left",
        fall=show(fall, units),
        length=_long(length, units),
        line=steepest.name,
    )
    if gap:
        text += " " + say(
            "widest-gap",
            gap=show(gap, units),
            length=_long(length, units),
            line=hollow.name,
            at=show(hollow.gap_at, units),
        )
    if hump > gap:
        text += " " + say(
            "highest-hump", hump=show(hump, units), line=crowned.name, at=show(crowned.hump_at, units)
        )
    return [
        Finding(
            code="floor-slope",
            rank=Rank.NOTE,
            where=steepest.name,
            text=text,
            by_how_much=fall,
            readings=steepest.slope.readings,
            rule="straightedge",
        )
    ]


def _sure_fall(line: FlatnessLine) -> int:
    """Return the fall that a line has at least, its doubt taken off: two readings close by prove little."""
    fall, within = abs(line.slope.value or 0), line.slope.within
    return 0 if within is None else max(fall - within, 0)


def _long(length: int, units: Units) -> str:
    """Return the straightedge's length as it is called: ``10'`` or ``3000``."""
    return show_feet(length) if units is Units.INCH else show(length, units)
