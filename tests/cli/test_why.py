"""Why: every name answers, a name that is not there gets the nearest ones."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from tests.packet.hand_made import make_plan

from setline.cli.why import answer, answer_as_dict
from setline.errors import NotInPlan
from setline.packet.why import look_up
from setline.rules import rule_book

PLAN = make_plan()
BOOK = rule_book()


@pytest.mark.parametrize("name", sorted(PLAN.named))
def test_every_name_of_the_plan_answers(name: str) -> None:
    """A mark, a shim and a line each have an answer that fits the terminal, and the same as data."""
    assert look_up(PLAN, name) == name
    lines = answer(PLAN, name, BOOK)
    assert lines[0].startswith(f"{name}: ")
    assert max(len(line) for line in lines) <= 80
    assert json.loads(json.dumps(answer_as_dict(PLAN, name, BOOK)))["name"] == name


def test_a_mark_answers_with_readings_arithmetic_and_rule() -> None:
    """The answer for a mark says what to write, how far the joint may move, and what it all rests on."""
    text = "\n".join(answer(PLAN, "A base 3 left", BOOK))
    for part in (
        "A base 3 left: 16 1/4, within 1/32",
        "write 16 1/4 |3>",
        "the joint may lie from 16 1/16 to 16 3/8",
        "How",
        "mark at 16 1/4",
        "Readings",
        "A 131 1/4",
        "Rule",
        "struck-line-clearance: ",
    ):
        assert part in text


def test_a_joint_without_play_is_said_to_be_fast() -> None:
    """Where the earliest place is the latest, no range from a number to itself is told."""
    run = PLAN.runs[0]
    fast = tuple(replace(each, earliest=each.chosen, latest=each.chosen) for each in run.joints)
    plan = replace(PLAN, runs=(replace(run, joints=fast), *PLAN.runs[1:]))
    text = "\n".join(answer(plan, run.marks[1].name, BOOK))
    assert " cannot move" in text
    assert "may lie" not in text


def test_a_shim_answers_with_what_makes_it_up() -> None:
    """The answer for a bearing point names the shims; one that was not read is ? and says so."""
    assert "made of 1/4 + 1/8" in " ".join(answer(PLAN, "2 back-left", BOOK))
    unread = answer(PLAN, "4 front-right", BOOK)
    assert unread[0] == "4 front-right: ?"
    assert "not read" in unread[1]


@pytest.mark.parametrize("asked", ["strike", "line", "line 1", "Struck  Line", "S1 strike"])
def test_the_struck_line_goes_by_its_short_names(asked: str) -> None:
    """The struck line of the set-up in use answers to what a crew calls it."""
    name = look_up(PLAN, asked)
    assert answer(PLAN, name, BOOK)[0] == f"{name}: 13 3/8 DOWN, within 1/16"


def test_another_set_up_prints_nearly() -> None:
    """A line carried over to another set-up has its ~."""
    assert answer(PLAN, "S2 line", BOOK)[0].startswith("S2 line: ~12 5/32 DOWN")


def test_the_high_spot_is_measured_down_from_the_laser() -> None:
    """A height is told the way a tape reads it."""
    assert answer(PLAN, "high spot", BOOK)[0] == "high spot: 48 DOWN, within 1/32"


@pytest.mark.parametrize(
    ("asked", "near"),
    [("A base 33 left", "A base 3 left"), ("3 bakc-left", "2 back-left"), ("hi spot", "high spot")],
)
def test_an_unknown_name_gets_the_nearest(asked: str, near: str) -> None:
    """A slip of the pen is answered with the names that look like it."""
    with pytest.raises(NotInPlan) as caught:
        look_up(PLAN, asked)
    assert near in caught.value.nearest
    assert near in str(caught.value)


def test_a_name_like_no_other_is_told_how_names_look() -> None:
    """Where nothing is near, the sentence shows what names look like."""
    with pytest.raises(NotInPlan) as caught:
        look_up(PLAN, "zzzzqqq")
    assert caught.value.nearest == ()
    assert "A base 3 left" in str(caught.value)
