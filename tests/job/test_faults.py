"""What is wrong with a job file: the place, what was read, what is allowed, an example; all of it at once."""

from __future__ import annotations

import json
from typing import Any

import pytest
from tests.job.changed import GONE, INCH, METRIC, changed, faults_after
from tests.job.test_agreement import DISAGREEMENTS

from setline.errors import JobFileError
from setline.job.read import job_from_dict, read_job
from setline.job.starter import starter
from setline.lengths import Units
from setline.wording.job import SENTENCES

WRONG_VALUES: list[tuple[dict[str, Any], str]] = [
    (
        {"format": GONE},
        "format: read nothing; format is needed; for example format = 1.",
    ),
    (
        {"format": 2},
        "format: read 2; it is 1; for example format = 1.",
    ),
    (
        {"job.name": ""},
        'job.name: read ""; a text of 1 to 80 signs is wanted; for example name = "sink".',
    ),
    (
        {"job.name": 7},
        'job.name: read 7; a text in quotes is wanted; for example name = "sink".',
    ),
    (
        {"order.boxes.0.kind": "bas"},
        'order.boxes[0].kind: read "bas"; it is "base", "wall" or "tall"; for example kind = "base".',
    ),
    (
        {"order.boxes.0.number": "1"},
        'order.boxes[0].number: read "1"; a whole number without quotes is wanted; for example number = 3.',
    ),
    (
        {"order.boxes.0.number": 0},
        "order.boxes[0].number: read 0; 1 is the least it may be; for example number = 3.",
    ),
    (
        {"order.boxes.0.number": 10000},
        "order.boxes[0].number: read 10000; 9999 is the most it may be; for example number = 3.",
    ),
    (
        {"order.boxes.0.widht": 24},
        "order.boxes[0].widht: read 24; no widht is known here, but width is.",
    ),
    (
        {"truck.zzz": 1},
        "truck.zzz: read 1; no zzz is known here; known are shims.",
    ),
    (
        {"order.boxes.0.width": 24.5},
        "order.boxes[0].width: read 24.5; 24.5 is a decimal number, which a file does not hold "
        'exactly: write a text in quotes, 24.5; for example width = "24.5".',
    ),
    (
        {"order.boxes.0.width": "4 8 1/4"},
        'order.boxes[0].width: read "4 8 1/4"; 4 8 1/4 can be read in more than one way: 4\' 8 1/4 '
        'or 48 1/4; for example width = "4\' 8 1/4".',
    ),
    (
        {"order.boxes.0.width": True},
        "order.boxes[0].width: read true; a length is a text of at most 80 signs or a whole "
        'number; for example width = "27 7/16".',
    ),
    (
        {"order.fillers.0.width.most": "none"},
        'order.fillers[0].width.most: read "none"; a length is wanted, or "no limit"; for example '
        'most = "27 7/16".',
    ),
    (
        {"order.fillers.0.gives": "yes"},
        'order.fillers[0].gives: read "yes"; true or false is wanted, without quotes; for example '
        "gives = true.",
    ),
    (
        {"tools.tape": {"temperature": "warm"}},
        'tools.tape.temperature: read "warm"; a temperature is whole degrees and C or F; '
        'for example temperature = "28 F".',
    ),
    (
        {"room.walls.0.name": "left"},
        'room.walls[0].name: read "left"; a wall is one capital letter; for example name = "A".',
    ),
    (
        {"floor.set_ups.0.name": "S 1"},
        'floor.set_ups[0].name: read "S 1"; a name without spaces is wanted; for example name = "S1".',
    ),
    (
        {"floor.set_ups.0.lines.0.readings.0": ["2"]},
        'floor.set_ups[0].lines[0].readings[0]: read ["2"]; a pair is wanted, the distance along '
        'the wall and then the reading; for example ["27 7/16", "27 7/16"].',
    ),
    (
        {"floor.set_ups.0.lines.0.readings.0": ["2", "3", "4"]},
        'floor.set_ups[0].lines[0].readings[0]: read ["2", "3", "4"]; a pair is wanted, the '
        'distance along the wall and then the reading; for example ["27 7/16", "27 7/16"].',
    ),
    (
        {"floor.set_ups.0.lines.0.readings": []},
        "floor.set_ups[0].lines[0].readings: read []; at least one is needed; for example readings "
        '= [["27 7/16", "27 7/16"]].',
    ),
    (
        {"runs.0.items": 7},
        "runs[0].items: read 7; a list in square brackets is wanted; for example items = [3].",
    ),
    (
        {"floor": 3},
        "floor: read 3; a table is wanted; for example floor = { }.",
    ),
    (
        {"room.walls.0.windows.0.sill.from": "floor"},
        'room.walls[0].windows[0].sill.from: read "floor"; a height\'s zero is subfloor, finished '
        "floor, level line, laser and a set-up's name, or line and its number; for example from = "
        '"subfloor".',
    ),
    (
        {"room.walls.0.windows.0.sill": {"from": "subfloor"}},
        'room.walls[0].windows[0].sill: read {"from": "subfloor"}; a height goes up or down from '
        'its zero: give one of the two; for example sill = { up = "27 7/16", from = "subfloor" }.',
    ),
    (
        {"rules.toe-line": []},
        "rules.toe-line: read []; a rule's value is a length, a number or a text; for example "
        'toe-line = "1/8".',
    ),
    (
        {"rules.toe-line": True},
        "rules.toe-line: read true; a rule's value is a length, a number or a text; for example "
        'toe-line = "1/8".',
    ),
    (
        {"job.name": "a\x07"},
        "job.name: read \"'a\\\\x07'\"; a text holds letters, digits and signs that can be printed.",
    ),
    (
        {"job.no\ud800": 1},
        "job.?: read \"'no\\\\ud800'\"; a text holds letters, digits and signs that can be printed.",
    ),
    (
        {"rules.a": float("inf")},
        'rules.a: read "inf"; a number has an end.',
    ),
    (
        {"order.panels": [{"number": 1000 + each, "thickness": "3/4"} for each in range(500)]},
        "order: read nothing; a job holds at most 500 items, this one 512.",
    ),
    (
        {"floor.set_ups.0.lines.0.readings": [["2", "48"]] * 5000},
        "floor: read nothing; a job holds at most 5000 floor readings, this one 5009.",
    ),
    (
        {"rules.a": [[[[[[[[[[[[["deep"]]]]]]]]]]]]]},
        "rules.a[0][0][0][0][0][0][0][0][0][0][0]: read nothing; tables and lists go at most 12 deep.",
    ),
    (
        {"floor.set_ups.0.lines.0.readings": [["2", "48"]] * 20001},
        "the file: read nothing; a job holds at most 60000 values.",
    ),
]


@pytest.mark.parametrize(
    ("changes", "sentence"), WRONG_VALUES, ids=[sentence[:60] for _, sentence in WRONG_VALUES]
)
def test_one_wrong_value_is_one_fault(changes: dict[str, Any], sentence: str) -> None:
    """A change that makes one value wrong gives one fault, in these words."""
    assert [str(fault) for fault in faults_after(changes)] == [sentence]


def test_the_starters_have_no_fault() -> None:
    """What the cases above change is right before it is changed."""
    for document in (INCH, METRIC):
        assert job_from_dict(document).job.name == "Test room"


def test_everything_wrong_is_told_at_once() -> None:
    """Values, names and cross-checks that are wrong come in one answer."""
    places = [
        fault.where
        for fault in faults_after(
            {
                "job.strong": 0.5,
                "order.boxes.0.width": "48 3 16",
                "runs.0.items.0": 99,
                "floor.use": "S9",
                "runs.1.row": "tall",
            }
        )
    ]
    assert sorted(places) == sorted(
        ["job.strong", "order.boxes[0].width", "runs[0].items[0]", "floor.use", "runs[1].row"]
    )


def test_a_job_without_its_tape_says_nothing_of_lengths() -> None:
    """Where the tape is not known only that is said, since no length could be read."""
    faults = faults_after({"job.tape": GONE, "order.boxes.0.width": "4 8 1/4"})
    assert [str(fault) for fault in faults] == [
        'job.tape: read nothing; tape is needed; for example tape = "inch".'
    ]
    faults = faults_after({"job.tape": "metre"})
    assert [fault.where for fault in faults] == ["job.tape"]


def test_a_long_list_of_faults_is_cut_and_counted() -> None:
    """Two hundred faults are told; the rest are counted."""
    faults = faults_after({f"order.boxes.0.nothing{each}": each for each in range(230)})
    assert len(faults) == 201
    assert str(faults[-1]) == "more: read 30 more like these; mend the first ones, and read again."


def test_a_long_value_is_shown_cut() -> None:
    """What was read is shown short enough for a line."""
    [fault] = faults_after({"job.tape": "x" * 500})
    assert len(fault.given) < 70


def test_a_fault_of_a_toml_file_names_its_line() -> None:
    """In a TOML file each fault also tells the line it stands on, and they come in that order."""
    text = (
        starter("Test room", Units.INCH)
        .replace('width = "33"', 'width = "3 3"')
        .replace("[31, 1,", "[31, 77,")
    )
    with pytest.raises(JobFileError) as refused:
        read_job(text)
    lines = text.split("\n")
    told = [(fault.where, lines[(fault.line or 0) - 1]) for fault in refused.value.faults]
    assert told == [
        ("order.boxes[1].width", 'width = "3 3"'),
        ("runs[0].items[1]", "items = [31, 77, 2, 21, 3, 22, 4, 32]"),
    ]
    assert f"order.boxes[1].width (line {refused.value.faults[0].line}): read" in str(refused.value)


WHOLE_FILES: list[tuple[bytes, str, str]] = [
    (
        b'a = "\xff"',
        "toml",
        "the file (line 1): read byte 5, which is no text; a job file is plain text in UTF-8.",
    ),
    (
        b"format = 1\n\na = = 3",
        "toml",
        "the file (line 3): read a = = 3; this line is no TOML (Invalid value): look here and just above "
        "for a comma, a quote or a bracket that is missing.",
    ),
    (
        b"{",
        "json",
        "the file (line 1): read {; this line is no JSON "
        "(Expecting property name enclosed in double quotes).",
    ),
    (b"[1]", "json", "the file: read [1]; a table is wanted."),
    (b'{"a": 1, "a": 2}', "json", 'the file: read "a"; a key stands once in a table.'),
    (
        b"a = " + b"[" * 5000,
        "toml",
        "the file: read lists in lists without an end; no part of a job is that deep.",
    ),
    (
        b"[" * 100_000,
        "json",
        "the file: read lists in lists without an end; no part of a job is that deep.",
    ),
    (
        b"\n" + b"a." * 500_000,
        "toml",
        "the file (line 2): read a key of twenty parts or more; no key of a job is that long.",
    ),
    (b"1" * 5000, "json", "the file: read a number of thousands of digits; no number of a job is that long."),
    (b" " * 2_000_001, "toml", "the file: read a larger file; a job file holds at most 2 MB."),
]


@pytest.mark.parametrize(
    ("content", "form", "sentence"), WHOLE_FILES, ids=[case[2][:60] for case in WHOLE_FILES]
)
def test_a_file_that_is_no_document_is_refused_whole(content: bytes, form: Any, sentence: str) -> None:
    """What is not even TOML or JSON is told as such, with the line that stops it where there is one."""
    with pytest.raises(JobFileError) as refused:
        read_job(content, form)
    assert str(refused.value) == sentence


FILE_SENTENCES = {"file-missing", "file-is-folder", "file-locked", "file-unreadable", "file-wanted"}


def test_every_sentence_about_job_files_is_tested() -> None:
    """No sentence about job files goes untested: each stands in a case of this file, or in test_load.py."""
    cut = "more: 1 more like these; mend the first ones, and read again"
    said = " ".join(
        [*(text for _, text in [*WRONG_VALUES, *DISAGREEMENTS]), *(text for _, _, text in WHOLE_FILES), cut]
    )
    for key, template in SENTENCES.items():
        fixed = max((part.split("}")[-1] for part in template.split("{")), key=len).strip()
        assert key in FILE_SENTENCES or fixed in said, key


def test_json_holds_the_same_document() -> None:
    """The same document as JSON gives the same job, and the same faults without lines."""
    assert read_job(json.dumps(INCH), "json") == job_from_dict(INCH)
    with pytest.raises(JobFileError) as refused:
        read_job(json.dumps(changed({"order.boxes.0.width": "x"})), "json")
    assert [str(fault) for fault in refused.value.faults] == [
        'order.boxes[0].width: read "x"; x is no length on this tape; for example width = "27 7/16".'
    ]
