"""The facts of a wall's strip in words and as a table."""

from __future__ import annotations

from collections.abc import Sequence

from setline.drawings.shapes import Table
from setline.drawings.wall_facts import item_words
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Joint, Plan, RunPlan, WallLine
from setline.wording import say

__all__ = ["joint_number", "play_words", "strip_description", "strip_table"]


def joint_number(joint: Joint, units: Units) -> str:
    """Return where a joint is, to what a tape shows; ``?`` where it has no place."""
    if joint.chosen is None:
        return "?"
    return show(round_to(joint.chosen, fine_step(units), Rounding.NEAREST_UP), units)


def play_words(joint: Joint, units: Units) -> str:
    """Return how far a joint can still go: ``1/4: 1/8 left, 1/8 right``, or ``0``."""
    if joint.chosen is None:
        return "?"
    if joint.play_left is None or joint.play_right is None:
        return say("play-free")
    ways = {"left": joint.play_left, "right": joint.play_right}
    shown = {way: show(round_to(play, fine_step(units), Rounding.DOWN), units) for way, play in ways.items()}
    if shown == {"left": "0", "right": "0"}:
        return "0"
    total = sum(round_to(play, fine_step(units), Rounding.DOWN) for play in ways.values())
    return say("play-both", total=show(total, units), **shown)


def strip_description(plan: Plan, line: WallLine, runs: Sequence[RunPlan]) -> str:
    """Return the strip's answer: every item with where it ends, and whether all fit."""
    units = Units(plan.units)
    if not runs:
        return say("wall-has-no-run", wall=line.name, length=show(line.length, units))
    rows = []
    for run in runs:
        items = [
            say("wall-item", what=item_words(item), place=joint_number(joint, units))
            for item, joint in zip(run.items, run.joints[1:], strict=True)
        ]
        rows.append(say("wall-row", row=say(f"row-{run.row}"), items=", ".join(items)))
    short = [run.name for run in runs if not run.solved]
    verdict = say("some-short", runs=", ".join(short)) if short else say("all-fit")
    length = show(line.length, units)
    return say("wall-says", wall=line.name, length=length, items="; ".join(rows), verdict=verdict)


def strip_table(plan: Plan, runs: Sequence[RunPlan]) -> Table:
    """Return every item with its joints and how far its right joint can still go."""
    units = Units(plan.units)
    header = tuple(
        say(key) for key in ("table-run", "table-item", "table-from", "table-to", "table-width", "table-play")
    )
    rows = [
        (
            run.name,
            item_words(item),
            joint_number(left, units),
            joint_number(right, units),
            "?"
            if left.chosen is None or right.chosen is None
            else show(right.chosen - left.chosen, units).removeprefix("~"),
            play_words(right, units),
        )
        for run in runs
        for item, left, right in zip(run.items, run.joints, run.joints[1:], strict=False)
    ]
    return Table(header, tuple(rows))
