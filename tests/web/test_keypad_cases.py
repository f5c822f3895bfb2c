"""The table of cases that the phone's echo and the reader of lengths are both held to: here the reader."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from setline.errors import TapeNotationError
from setline.lengths import TICKS_PER_INCH, Tape, Units, crew_tape, read_length, show

CASES: dict[str, list[dict[str, Any]]] = json.loads(
    Path(__file__).with_name("keypad_cases.json").read_text(encoding="utf-8")
)
TAPES = {
    "inch": Tape(),
    "inch64": Tape(strong=TICKS_PER_INCH // 64),
    "metric": crew_tape(Units.METRIC),
}
READ = [case for case in (*CASES["keys"], *CASES["texts"]) if case["text"] and "phone" not in case]
ASKED = [case for case in CASES["texts"] if "phone" in case]


@pytest.mark.parametrize("case", READ, ids=lambda case: f"{case['tape']} {case['text']}")
def test_what_the_keys_make_is_read_as_the_phone_shows_it(case: dict[str, Any]) -> None:
    """Every text that keys make, or that the phone reads itself, comes to what the readout says."""
    tape = TAPES[case["tape"]]
    assert show(read_length(case["text"], tape).ticks, tape.units) == case["shown"]


@pytest.mark.parametrize("case", ASKED, ids=lambda case: f"{case['tape']} {case['text']}")
def test_what_the_phone_leaves_to_the_server_is_asked_about(case: dict[str, Any]) -> None:
    """A text that could be two things, or none, is a question here too."""
    with pytest.raises(TapeNotationError):
        read_length(case["text"], TAPES[case["tape"]])
