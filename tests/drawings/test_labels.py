from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from setline.drawings.labels import GAP, Candidate, Label, LabelField, around, inside, label_box, overlaps
from setline.drawings.shapes import Anchor, Rect, Text

FRAME = (0.0, 0.0, 100.0, 60.0)


def test_the_box_of_a_label_follows_its_anchor() -> None:
    """A label's box lies right of, round, or left of its anchor."""
    boxes = [label_box(Text((50.0, 30.0), "27", 4.0, anchor)) for anchor in Anchor]
    assert boxes[0][0] == 50.0
    assert boxes[1][0] + boxes[1][2] == 100.0
    assert boxes[2][2] == 50.0


def test_a_label_put_by_its_box_has_that_box() -> None:
    """Upright or turned, a label placed by its left and top has its box there."""
    for turned in (False, True):
        label = Label("27 7/16", 4.0, True)
        width, height = label.extent(turned)
        box = label_box(label.at(10.0, 20.0, turned))
        expected = (10.0, 20.0, 10.0 + width, 20.0 + height)
        assert all(abs(a - b) < 1e-9 for a, b in zip(box, expected, strict=True))


def test_nothing_is_written_over_a_label() -> None:
    """A place that a label took is free no more, and its clearance neither."""
    field = LabelField(FRAME)
    field.take((10.0, 10.0, 20.0, 14.0))
    assert not field.is_free((15.0, 12.0, 25.0, 16.0))
    assert not field.is_free((20.0 + GAP / 2, 10.0, 30.0, 14.0))
    assert field.is_free((20.0 + GAP, 10.0, 30.0, 14.0))


def test_a_label_stays_off_lines_while_it_can() -> None:
    """Of two free places the one that crosses no line is taken, though it comes later."""
    field = LabelField(FRAME)
    field.keep_off((0.0, 12.0), (100.0, 12.0))
    found = field.place(Label("27", 4.0), [Candidate(10.0, 10.0), Candidate(10.0, 30.0)])
    assert found is not None
    assert found[1].top == 30.0


def test_a_number_wins_over_a_line() -> None:
    """Where every place crosses a line the number is written over it."""
    field = LabelField(FRAME)
    field.keep_off((0.0, 12.0), (100.0, 12.0))
    assert field.place(Label("27", 4.0), [Candidate(10.0, 10.0)]) is not None
    assert field.place(Label("27", 4.0), [Candidate(50.0, 10.0)], most=0) is None


def test_a_leader_does_not_cross_a_label() -> None:
    """A place whose leader would run through another label is passed over."""
    field = LabelField(FRAME)
    field.take((20.0, 8.0, 30.0, 12.0))
    blocked = Candidate(40.0, 8.0, leader=((10.0, 10.0), (40.0, 10.0)))
    clear = Candidate(40.0, 30.0, leader=((10.0, 10.0), (40.0, 31.0)))
    found = field.place(Label("27", 4.0), [blocked, clear])
    assert found is not None
    assert found[1] is clear


def test_a_trial_leaves_the_field_as_it_was() -> None:
    """What is taken on a copy is not taken on the field itself."""
    field = LabelField(FRAME)
    field.copy().take((10.0, 10.0, 20.0, 14.0))
    assert field.is_free((10.0, 10.0, 20.0, 14.0))


def test_places_inside_stay_inside() -> None:
    """Places in a box never leave it, and a label too long for it has none."""
    box: Rect = (10.0, 10.0, 22.0, 40.0)
    label = Label("27 7/16", 4.0)
    for place in inside(label, box):
        width, height = label.extent(place.turned)
        assert place.left >= box[0]
        assert place.top >= box[1]
        assert place.left + width <= box[2] + 1e-9
        assert place.top + height <= box[3] + 1e-9
    assert not list(inside(Label("a name much too long", 9.0), box))


@given(
    st.lists(st.tuples(st.floats(5.0, 95.0), st.floats(5.0, 55.0)), min_size=1, max_size=40),
    st.sampled_from([3.2, 4.4, 6.0]),
)
def test_labels_round_points_never_meet(points: list[tuple[float, float]], size: float) -> None:
    """However points lie, no two labels meet, none leaves the frame, and places are always the same."""

    def written() -> list[Rect]:
        field = LabelField(FRAME)
        boxes = []
        for x, y in points:
            label = Label("15/16", size, True)
            found = field.place(label, around(label, (x, y), clear=1.0, reaches=(4.0, 8.0)))
            if found:
                boxes.append(label_box(found[0]))
        return boxes

    boxes = written()
    assert boxes == written()
    for index, box in enumerate(boxes):
        assert FRAME[0] <= box[0]
        assert box[2] <= FRAME[2] + 1e-9
        assert not any(overlaps(box, other, GAP - 1e-9) for other in boxes[:index])
