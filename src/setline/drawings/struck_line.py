"""What is said of the struck line: the number to strike, from which laser line, and where the tops are."""

from __future__ import annotations

from setline.lengths import Units, show
from setline.result import LevelLine, SetUpLine
from setline.wording import say

__all__ = ["line_in_use", "strike_words", "tops_words"]


def line_in_use(line: LevelLine) -> SetUpLine | None:
    """Return the line as measured from the set-up in use, if it is known."""
    for set_up in line.set_ups:
        if set_up.in_use and set_up.printed_strike is not None and set_up.printed_level is not None:
            return set_up
    return None


def strike_words(line: LevelLine, units: Units) -> str:
    """Return the words to strike by, such as ``STRIKE 13 3/8 DOWN``."""
    set_up = line_in_use(line)
    if set_up is None or set_up.printed_strike is None:
        return say("strike-not-known")
    key = "strike-up" if set_up.printed_strike < 0 else "strike-down"
    return say(key, strike=show(abs(set_up.printed_strike), units))


def tops_words(line: LevelLine, units: Units) -> str:
    """Return where the box tops lie against the struck line, and the line from every other set-up."""
    set_up = line_in_use(line)
    if set_up is None or set_up.printed_level is None:
        return say("line-not-known")
    level = set_up.printed_level
    words = [
        say(
            "tops-below",
            clearance=show(line.clearance, units),
            level=show(abs(level), units),
            way=_way(level),
        )
        if line.clearance
        else say("tops-at")
    ]
    for other in line.set_ups:
        if not other.in_use and other.printed_strike is not None:
            words.append(
                say(
                    "strike-elsewhere",
                    set_up=other.set_up,
                    about="" if other.is_exact else "~",
                    strike=show(abs(other.printed_strike), units),
                    way=_way(other.printed_strike),
                )
            )
    return " ".join(words)


def _way(down: int) -> str:
    return say("way-up" if down < 0 else "way-down")
