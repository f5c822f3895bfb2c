"""Laws that hold for every run."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.stages.layout.random_runs import random_run
from tests.stages.layout.referees import satisfied

from setline.stages.layout.conflict import conflicts
from setline.stages.layout.elastic import least_relaxation
from setline.stages.layout.preference import Wish, follow
from setline.stages.layout.row import Form, Gives, Row
from setline.stages.layout.windows import windows

seeds = st.integers(min_value=0, max_value=10**9)
quick = settings(max_examples=60, deadline=None)


def _turned(row: Row) -> Row:
    """Return a row as it reads when the room is seen from behind: every place taken negative."""
    if row.form is Form.APART:
        return row._replace(low=row.high, high=row.low)
    return row._replace(form=Form.SUM_LEAST if row.form is Form.SUM_MOST else Form.SUM_MOST)


@quick
@given(seeds)
def test_turning_a_run_round_turns_every_window_round(seed: int) -> None:
    """What was earliest is latest on the other side, and wishes come to the same widths."""
    run = random_run(seed)
    here = windows(run.rows, run.nodes)
    there = windows([_turned(row) for row in run.rows], run.nodes)
    assert (here is None) is (there is None)
    if here is None or there is None:
        return
    for node in range(run.nodes):
        earliest, latest = here.earliest(node), here.latest(node)
        assert there.latest(node) == (None if earliest is None else -earliest)
        assert there.earliest(node) == (None if latest is None else -latest)
    turned = [Wish(wish.high, wish.low, wish.target) for wish in run.wishes]
    assert follow(there, turned) == follow(here, run.wishes)


@quick
@given(seeds)
def test_turning_a_run_round_leaves_its_troubles_as_they_are(seed: int) -> None:
    """The first conflict misses something from either side, and what must give is the same in sum."""
    run = random_run(seed)
    rows = [_turned(row) for row in run.rows]
    assert bool(conflicts(run.rows, run.nodes)) is bool(conflicts(rows, run.nodes))
    here = least_relaxation(run.rows, run.nodes, lambda row: None if row.gives < Gives.WIDTH else 0)
    there = least_relaxation(rows, run.nodes, lambda row: None if row.gives < Gives.WIDTH else 0)
    assert (here and here.total) == (there and there.total)


@quick
@given(seeds, st.integers(min_value=0, max_value=10**6), st.data())
def test_a_slack_row_changes_nothing(seed: int, slack: int, data: st.DataObject) -> None:
    """A row that all others imply leaves every window as it was."""
    run = random_run(seed)
    seen = windows(run.rows, run.nodes)
    if seen is None:
        return
    low = data.draw(st.integers(min_value=0, max_value=run.nodes - 1))
    high = data.draw(st.integers(min_value=0, max_value=run.nodes - 1))
    most = seen.most(low, high)
    if most is None:
        return
    slack_row = Row(low, high, most + most % 2 + 2 * slack, "slack", "slack", Gives.FACT)
    with_slack = windows([*run.rows, slack_row], run.nodes)
    assert with_slack is not None
    for node in range(run.nodes):
        assert with_slack.earliest(node) == seen.earliest(node)
        assert with_slack.latest(node) == seen.latest(node)


@quick
@given(seeds, st.integers(min_value=1, max_value=2000))
def test_an_extra_row_never_opens_a_window(seed: int, by: int) -> None:
    """Narrowing one row narrows windows or ends them, and never widens one."""
    run = random_run(seed)
    seen = windows(run.rows, run.nodes)
    if seen is None:
        return
    narrow = list(run.rows)
    narrow[seed % len(narrow)] = narrow[seed % len(narrow)]._replace(
        at_most=narrow[seed % len(narrow)].at_most - 2 * by
    )
    narrower = windows(narrow, run.nodes)
    if narrower is None:
        return
    for node in range(run.nodes):
        for end, other in (
            (seen.latest(node), narrower.latest(node)),
            (seen.most(node, 0), narrower.most(node, 0)),
        ):
            assert end is None or (other is not None and other <= end)


@quick
@given(seeds)
def test_the_order_of_rows_does_not_matter(seed: int) -> None:
    """Rows given backwards allow the same and are found to contradict each other alike."""
    run = random_run(seed)
    here, there = windows(run.rows, run.nodes), windows(run.rows[::-1], run.nodes)
    assert (here is None) is (there is None)
    if here is not None and there is not None:
        assert here.places() == there.places()


@quick
@given(seeds)
def test_a_longer_tape_scales_everything(seed: int) -> None:
    """With every length three times as long, places and shortfalls are three times as long."""
    run = random_run(seed)
    rows = [row._replace(at_most=3 * row.at_most) for row in run.rows]
    here, there = windows(run.rows, run.nodes), windows(rows, run.nodes)
    if here is None or there is None:
        assert here is there
        short, long = conflicts(run.rows, run.nodes), conflicts(rows, run.nodes)
        assert [3 * each.shortfall for each in short] == [each.shortfall for each in long]
    else:
        assert [3 * place for place in here.places()] == list(there.places())


@quick
@given(seeds)
def test_wishes_followed_are_held(seed: int) -> None:
    """After all wishes every one stands where it came to, and the rows still hold."""
    run = random_run(seed)
    seen = windows(run.rows, run.nodes)
    if seen is None:
        return
    came_to = follow(seen, run.wishes)
    places = seen.places()
    assert satisfied(run.rows, places)
    assert [places[wish.high] - places[wish.low] for wish in run.wishes] == list(came_to)
    assert follow(seen, reversed(run.wishes)) == came_to[::-1]
