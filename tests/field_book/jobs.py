"""Invented jobs for the properties of the field book: small rooms with every kind of place in them."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

Document = dict[str, Any]

EIGHTHS = ("", " 1/8", " 1/4", " 3/8", " 1/2", " 5/8", " 3/4", " 7/8")
HANDS = ("", " strong", " shy")
WORDS = st.text("abcdefgh /~'\"#=[]é", min_size=1, max_size=8).filter(str.strip)


@st.composite
def lengths(draw: st.DrawFn, least: int = 1, most: int = 90) -> str:
    """Draw a length as somebody would type it."""
    whole, eighths = draw(st.integers(least, most)), draw(st.sampled_from(EIGHTHS))
    return f"{whole}{eighths}{draw(st.sampled_from(HANDS)) if eighths else ''}"


@st.composite
def heights(draw: st.DrawFn) -> Document:
    """Draw a height of a reading."""
    zero = draw(st.sampled_from(["subfloor", "finished floor", "laser S1"]))
    return {draw(st.sampled_from(["up", "down"])): draw(lengths()), "from": zero}


def some(of: st.SearchStrategy[Any], most: int = 3) -> st.SearchStrategy[list[Any]]:
    """Return lists of up to so many."""
    return st.lists(of, max_size=most)


def table(needed: dict[str, Any], maybe: dict[str, Any]) -> st.SearchStrategy[Document]:
    """Return tables with some fields that stand and some that may."""
    return st.fixed_dictionaries(needed, optional=maybe)


LINES = table(
    {
        "wall": st.sampled_from("AB"),
        "readings": st.lists(st.tuples(lengths(), lengths()).map(list), min_size=1, max_size=3),
    },
    {"at": st.sampled_from(["wall", "toe"]) | lengths(), "on": st.sampled_from(["bare", "covering"])},
)
PLUMB = table(
    {
        "end": st.sampled_from(["left", "right"]),
        "offsets": st.lists(
            table({"height": heights(), "back": lengths()}, {"out": lengths()}), min_size=1, max_size=3
        ),
    },
    {},
)
CEILING = table(
    {"set_up": st.just("S1"), "wall": st.sampled_from("AB"), "u": lengths(), "up": lengths()},
    {"out": lengths()},
)
MARKS = table({"name": WORDS}, {}).flatmap(
    lambda mark: st.sampled_from(["up", "down"]).flatmap(
        lambda way: lengths().map(lambda length: {**mark, way: length})
    )
)
WALL = {
    "lengths": st.lists(
        table({"length": st.just("99") | lengths(95, 98)}, {"height": heights(), "at": st.just("face")}),
        min_size=1,
        max_size=3,
    )
}
WALL_MAYBE = {
    "plumb": some(PLUMB),
    "windows": st.lists(
        table({"name": WORDS, "centre": lengths()}, {"sill": heights()}),
        max_size=2,
        unique_by=lambda window: window["name"],
    ),
    "doors": some(st.builds(lambda name: {"name": name, "left": "2", "right": "30"}, WORDS), 2),
    "middle": st.just({"equal": "50", "apart": "1/8"}),
}
COVERING = table({"name": WORDS, "thickness": lengths(1, 2), "when": st.just("laid")}, {})
STRUCK_LINE = table({"set_up": st.just("S1"), "down": lengths()}, {"name": WORDS})
STRUCK_MARK = table({"name": WORDS, "at": lengths()}, {})
DECISION = table({"about": WORDS, "chosen": WORDS, "by": WORDS}, {})
BOX = {
    "kind": st.sampled_from(["base", "wall", "tall"]),
    "width": lengths(9, 40),
    "height": lengths(30, 84),
    "depth": lengths(12, 26),
}
BOX_MAYBE = {
    "name": WORDS,
    "measured": lengths(9, 40),
    "finished": st.just(["left"]),
    "delivery": st.sampled_from(["not here", "damaged"]),
}


@st.composite
def documents(draw: st.DrawFn) -> Document:
    """Draw the document of a job that reads."""
    numbers = draw(st.lists(st.integers(1, 60), max_size=6, unique=True))
    boxes = [{"number": number, **draw(table(BOX, BOX_MAYBE))} for number in numbers[:4]]
    fillers = [
        {"number": number, "width": {"least": "1/2", "most": draw(lengths(1, 4))}} for number in numbers[4:]
    ]
    set_ups = draw(st.permutations(["S1", "S2", "S10"]))
    base = draw(st.permutations([box["number"] for box in boxes if box["kind"] == "base"]))
    document: Document = {
        "format": 1,
        "job": draw(
            table(
                {"name": WORDS, "tape": st.just("inch")},
                {"strong": st.just("1/64"), "notes": st.lists(WORDS, min_size=1, max_size=2)},
            )
        ),
        "room": {
            "walls": [{"name": name, **draw(table(WALL, WALL_MAYBE))} for name in "AB"],
            "ceiling": draw(some(CEILING)),
        },
        "floor": {
            "set_ups": [
                {"name": name, "lines": draw(some(LINES)), "marks": draw(some(MARKS))} for name in set_ups
            ],
            "coverings": draw(some(COVERING)),
        },
        "order": {"boxes": boxes, "fillers": fillers},
        "runs": [{"wall": "A", "items": base, **draw(RUN_MAYBE)}] if base else [],
        "record": {
            "struck_lines": draw(some(STRUCK_LINE, 2)),
            "struck": draw(some(STRUCK_MARK)),
            "decisions": draw(some(DECISION)),
        },
    }
    return document


RUN_MAYBE = table({}, {"left": st.just({"kind": "open"}), "bottom": heights()})
