"""The plan in the terminal: 80 columns, the struck line first, what stops before what can wait."""

from __future__ import annotations

from dataclasses import replace

from tests.packet.hand_made import make_plan
from tests.tape import inch

from setline.cli.summary import summary
from setline.cli.terminal import WIDTH, wrapped
from setline.result import Finding, Rank
from setline.result.doubts import Doubts, HighSpotRisk, NextReading


def test_no_line_is_wider_than_80_columns() -> None:
    """Every line fits a terminal of 80 columns, also with long names."""
    for plan in (make_plan(), make_plan("A job " * 13, unsolved=("A base", "B base"))):
        assert max(len(line) for line in summary(plan)) <= WIDTH


def test_a_mixed_number_is_never_broken() -> None:
    """13 1/2 stands on one line, wherever the line is broken."""
    for filling in range(60, 82):
        lines = wrapped("x" * filling + " 13 1/2 down")
        assert sum("13 1/2" in line for line in lines) == 1


def test_the_struck_line_comes_first() -> None:
    """After the title stands what to strike, where the tops are and how sure that is."""
    text = " ".join(line.strip() for line in summary(make_plan()))
    assert text.index("STRIKE 13 3/8 DOWN from the laser line of S1.") < text.index("High spot:")
    assert "Box tops are 1/8 below it (13 1/2 down). Within 1/16." in text
    assert "From S2 the same line is ~12 1/32 DOWN." in text


def test_a_stop_comes_before_the_walls_and_a_watch_after_them() -> None:
    """What stops the work is read first, with its ways out and their cost."""
    lines = summary(make_plan(unsolved=("B base",)))
    text = "\n".join(lines)
    assert text.index("1 STOP B base") < text.index("A base fits") < text.index("3 WATCH")
    assert "    - Order box 24 as 21. (0.5 h, waits 10 days)" in lines
    assert "B base is SHORT 1/2: DO NOT SET. Its marks are ?." in lines


def test_one_box_is_one_box() -> None:
    """A run of one box does not count 1 boxes."""
    plan = make_plan()
    lone = replace(plan.runs[0], items=plan.runs[0].items[:2])
    count = sum(item.kind == "box" for item in lone.items)
    text = "\n".join(summary(replace(plan, runs=(lone, *plan.runs[1:]))))
    assert count == 1
    assert f"{lone.name} fits: 1 box, " in text


def test_shims_are_counted() -> None:
    """How many points there are, how many were not read, how many are over the limit."""
    text = " ".join(summary(make_plan()))
    assert "24 points to shim or level, 1 not read (they print as ?), 1 over the limit." in text


def test_without_a_line_it_says_so() -> None:
    """A job with no floor reading has no line to strike, and no number stands in its place."""
    plan = make_plan()
    line = replace(plan.level_line, set_ups=(), high_spot=None)
    lines = summary(replace(plan, level_line=line))
    assert "No line to strike yet: nothing is known of the floor under the boxes." in lines


def test_small_findings_do_not_crowd_the_rest_out() -> None:
    """More than six findings that only ask to be looked at are counted, not listed."""
    many = tuple(
        Finding(code="small", rank=Rank.NOTE, where=f"box {number}", text="Caulk covers it.")
        for number in range(9)
    )
    lines = summary(replace(make_plan(), findings=many))
    assert sum("Caulk covers it." in line for line in lines) == 6
    assert "And 3 more; the packet has them all." in lines


def test_what_to_read_next_closes_it() -> None:
    """What may still move the line, and the reading that tells most of it, stand at the end."""
    reading = NextReading(
        spot="A 64 toe",
        wall="A",
        u=inch(64),
        out=inch("20 7/8"),
        again=False,
        within_before=inch("1/16"),
        within_after=inch("1/32"),
        would_settle="Read A 64 toe: the high spot is then known within 1/32, now 1/16.",
    )
    moves = Finding(
        code="line-may-move",
        rank=Rank.WATCH,
        where="5 front-left",
        text="The floor under box 5 may stand over it.",
    )
    doubts = Doubts(next_readings=(reading,), findings=(moves,))
    text = " ".join(line.strip() for line in summary(make_plan(), doubts))
    assert text.endswith(f"{moves.text} {reading.would_settle}")


def test_a_settled_line_says_so() -> None:
    """Where enough was read for the line, that is said in its place."""
    risk = HighSpotRisk(
        odds=0.3,
        odds_of_a_move=0.02,
        move=inch("1/16"),
        mean=0,
        middle=0,
        nine_in_ten=0,
        within=inch("1/32"),
        where=(),
        settled=True,
    )
    text = " ".join(line.strip() for line in summary(make_plan(), Doubts(high_spot=risk)))
    assert "over the line's high spot: 30 in 100. Nine times in ten it is at most 0." in text
    assert text.endswith("stands more than 1/16 over it are under 5 in 100.")
