"""The book of rules: what the trade says, and what a job lays over it."""

from __future__ import annotations

import pytest
from tests.tape import inch, mm

from setline.errors import InputError, RuleError
from setline.lengths import Length, Tape, Units
from setline.rules import RULES, Kind, Rule, Unit, rule_book
from setline.rules.remedies import REMEDIES


@pytest.mark.common_practice
def test_bases_are_34_1_2_high_and_the_struck_line_goes_an_eighth_above() -> None:
    """The line over ordinary bases is struck 34 5/8 above the foot of the highest box."""
    book = rule_book()
    assert book.length("base-height") == inch("34 1/2")
    assert book.length("base-height") + book.length("struck-line-clearance") == inch("34 5/8")


def test_every_id_stands_once() -> None:
    """No two rules and no two kinds of remedy share a name."""
    assert len({rule.id for rule in RULES}) == len(RULES)
    assert len({remedy.key for remedy in REMEDIES}) == len(REMEDIES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_says_where_it_comes_from(rule: Rule) -> None:
    """Each rule has a sentence, a source and an edition, and a value of its unit."""
    assert rule.what.endswith((".", "..."))
    assert rule.source
    assert rule.edition
    assert rule.kind is not Kind.THIS_JOB
    values = [rule.value] if rule.metric is None else [rule.value, rule.metric]
    for value in values:
        members = value if isinstance(value, tuple) else (value,)
        assert members
        assert all(member >= 0 for member in members)
        if rule.unit in (Unit.LENGTH, Unit.COUNT):
            assert all(type(member) is int for member in members)


def test_a_metric_job_works_by_metric_values() -> None:
    """A crew with a metric tape strikes its line 3 mm above tops that are 870 up, not 3.175 above 876.3."""
    book = rule_book(tape=Tape(units=Units.METRIC))
    assert book.length("base-height") == mm("870")
    assert book.length("struck-line-clearance") == mm("3")
    assert mm("10") in book.lengths("shim-stock")


def test_a_job_lays_its_own_value_over_a_rule() -> None:
    """The value is the job's, and so is the source that findings and `setline rules` name."""
    book = rule_book({"struck-line-clearance": "3/16"})
    assert book.length("struck-line-clearance") == inch("3/16")
    rule = book.rule("struck-line-clearance")
    assert (rule.source, rule.kind) == ("this job", Kind.THIS_JOB)
    assert rule_book().length("struck-line-clearance") == inch("1/8"), "another job keeps the trade's value"


@pytest.mark.parametrize(
    ("given", "ticks"),
    [
        pytest.param("5/8", inch("5/8"), id="as typed"),
        pytest.param(Length(inch("5/8"), "5/8"), inch("5/8"), id="as read"),
        pytest.param(1, inch("1"), id="whole inches"),
        pytest.param("16 mm", mm("16"), id="other units named"),
    ],
)
def test_a_length_may_come_in_any_form(given: Length | int | str, ticks: int) -> None:
    """Text, a length already read and a bare number all set a rule that is a length."""
    assert rule_book({"shim-limit": given}).length("shim-limit") == ticks


def test_a_list_of_lengths_comes_as_one_text() -> None:
    """The shims on another truck are parted by commas."""
    book = rule_book({"shim-stock": "1/16, 1/8, 1/4"})
    assert book.lengths("shim-stock") == (inch("1/16"), inch("1/8"), inch("1/4"))
    assert rule_book({"shim-stock": "1/8"}).lengths("shim-stock") == (inch("1/8"),)


def test_a_count_is_a_whole_number() -> None:
    """A count comes as a number, as text, or as what the job's reader made a length of."""
    for given in (9, 9.0, "9", Length(inch("9"), "9")):
        assert rule_book({"few-readings": given}).number("few-readings") == 9


def test_hours_and_days_of_a_remedy_are_data_too() -> None:
    """A shop with narrower boxes in stock says so, and the kind's other number stays."""
    book = rule_book({"smaller-box-days": 3, "trim-box-hours": "1.5"})
    assert book.remedy("smaller-box").days == 3
    assert book.remedy("smaller-box").hours == rule_book().remedy("smaller-box").hours
    assert book.remedy("trim-box").hours == 1.5
    assert book.remedy("trim-box").source == "this job"


def test_an_unknown_id_is_refused_with_the_nearest() -> None:
    """A slip of the pen is answered with the ids it looks like."""
    with pytest.raises(RuleError, match=r"nearest: .*struck-line-clearance") as refusal:
        rule_book({"strike-line-clearance": "1/8"})
    assert refusal.value.asked == "strike-line-clearance"
    with pytest.raises(RuleError, match="`setline rules` lists them all"):
        rule_book({"zzz": "1/8"})
    with pytest.raises(RuleError, match="nearest: trim-box-hours"):
        rule_book({"trim-box-hour": 2})


@pytest.mark.parametrize(
    ("rule_id", "given", "wants"),
    [
        ("few-readings", "3/8", "a whole number"),
        ("few-readings", 2.5, "a whole number"),
        ("few-readings", -1, "a whole number"),
        ("shim-limit", "thick", "a length"),
        ("shim-limit", 0.75, "a length"),
        ("trim-box-hours", "long", "hours"),
        ("smaller-box-days", -2, "days"),
    ],
)
def test_a_value_of_the_wrong_kind_is_refused_in_a_sentence(
    rule_id: str, given: float | str, wants: str
) -> None:
    """The sentence names the rule and what it wants."""
    with pytest.raises(InputError, match=f"rules.{rule_id} wants {wants}"):
        rule_book({rule_id: given})


def test_the_book_refuses_what_it_does_not_hold() -> None:
    """A rule or a remedy that nobody wrote is never guessed at."""
    book = rule_book()
    with pytest.raises(RuleError):
        book.length("no-such-rule")
    with pytest.raises(RuleError):
        book.remedy("no-such-remedy")
    assert [rule.id for rule in book.all()] == [rule.id for rule in RULES]
    assert book.remedies() == REMEDIES
