"""Everything that is wrong with a document, told as faults: place, line, what was read, what is allowed."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from setline.errors import Fault, JobFileError, TapeNotationError
from setline.job.document import NOTHING, Place, Wrong, value_at
from setline.job.fields import ZERO
from setline.job.shape import example_at, keys_at
from setline.job.toml_lines import line_of
from setline.lengths import Tape
from setline.wording import say

__all__ = ["faults_of", "refusal", "wrong_by_model"]

_MOST_FAULTS = 200
_LONGEST_GIVEN = 60
_PATTERNS = {
    "^[A-Z]$": "fault-wall-letter",
    r"^[A-Z] (base|wall)$": "fault-run-name",
    r"^\S+$": "fault-short-name",
    r"^-?[0-9]{1,3} ?[CF]$": "fault-temperature",
    ZERO: "fault-zero",
}


def refusal(wrong: Iterable[Wrong], lines: Mapping[Place, int]) -> JobFileError:
    """Return the error that carries all that is wrong, in the order of the file."""
    return JobFileError(faults_of(wrong, lines))


def faults_of(wrong: Iterable[Wrong], lines: Mapping[Place, int]) -> tuple[Fault, ...]:
    """Return what is wrong as faults, in the order of the lines; past 200 they are counted only."""
    found = list(dict.fromkeys(_fault(each, lines) for each in wrong))
    found.sort(key=lambda fault: fault.line or 0)
    over = len(found) - _MOST_FAULTS
    if over > 0:
        more = Fault(
            where=say("fault-where-more"),
            given=say("fault-more", count=over),
            allowed=say("fault-first"),
            example="",
        )
        return (*found[:_MOST_FAULTS], more)
    return tuple(found)


def _fault(wrong: Wrong, lines: Mapping[Place, int]) -> Fault:
    """Return one fault in words."""
    return Fault(
        where=_where(wrong.place),
        given=_shown(wrong.given),
        allowed=wrong.allowed.rstrip("."),
        example=wrong.example,
        line=line_of(wrong.place, lines),
    )


def _where(place: Place) -> str:
    """Return a place as ``order.boxes[3].width``."""
    text = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in place)
    return text.removeprefix(".") or say("fault-where-file")


def _shown(given: object) -> str:
    """Return what was read, short enough for a line."""
    if given is NOTHING:
        return say("fault-nothing")
    text = json.dumps(given, ensure_ascii=False, default=str)
    return text if len(text) <= _LONGEST_GIVEN else text[:_LONGEST_GIVEN] + " ..."


# --- what the models found ------------------------------------------------------------------------------


def wrong_by_model(error: ValidationError, data: object, tape: Tape | None) -> list[Wrong]:
    """Return what the models found wrong.

    Args:
        error: What pydantic raised.
        data: The document that it read.
        tape: The job's tape, or None if it does not say; then nothing is said of its lengths either.
    """
    at_place: dict[Place, list[ErrorDetails]] = {}
    for each in error.errors(include_url=False, include_input=False):
        at_place.setdefault(_place(each, data), []).append(each)
    found = (
        _wrong(errors, place, value_at(data, place), tape or Tape())
        for place, errors in at_place.items()
        if tape is not None or not any(map(_question, errors))
    )
    return [wrong for wrong in found if wrong is not None]


def _place(error: ErrorDetails, data: object) -> Place:
    """Return the way to a value, without the names that pydantic adds for the members of a union."""
    place: Place = ()
    for step in error["loc"]:
        if value_at(data, (*place, step)) is NOTHING:
            return (*place, step) if isinstance(step, str) and step in keys_at(place) else place
        place = (*place, step)
    return place


def _question(error: ErrorDetails) -> TapeNotationError | None:
    """Return the question about a length, if that is what is wrong."""
    cause = error.get("ctx", {}).get("error")
    return cause if isinstance(cause, TapeNotationError) else None


def _wrong(errors: list[ErrorDetails], place: Place, given: object, tape: Tape) -> Wrong | None:
    """Return one wrong for all that was said about a place: the members of a union each say their own."""
    if place[:1] == ("rules",) and len(place) == 2:
        return Wrong(place, given, say("fault-rule-value"), f'{place[1]} = "1/8"')
    question = next(filter(None, map(_question, errors)), None)
    if question is not None:
        choices = [_choices(error) for error in errors if error["type"] in ("literal_error", "enum")]
        answer = _answer(question, place) or example_at(place, tape)
        return Wrong(place, given, _asked(question, choices), answer)
    error = errors[0]
    if error["type"] == "extra_forbidden":
        return _unknown_key(place, given)
    if error["type"] == "too_short" and given:  # its elements were refused one by one
        return None
    helps = error["type"] != "value_error" or "from" in keys_at(
        place
    )  # two keys that clash say so themselves
    return Wrong(place, given, _allowed(error, place), example_at(place, tape) if helps else "")


def _asked(question: TapeNotationError, choices: list[str]) -> str:
    """Return what is allowed where a length was not read, with the words that may stand there instead."""
    if choices and not question.readings:
        return say("fault-length-or", choices=choices[0])
    sentence = str(question)
    return sentence if sentence.startswith(question.given) else sentence[0].lower() + sentence[1:]


def _answer(question: TapeNotationError, place: Place) -> str:
    """Return the likeliest answer to a question about a length, as it is written in a file."""
    if not question.readings:
        return ""
    text = f'"{question.readings[0]}"'
    return f"{place[-1]} = {text}" if isinstance(place[-1], str) else text


def _unknown_key(place: Place, given: object) -> Wrong:
    """Return the refusal of a key, with the key that was likely meant, or all that are known."""
    known = keys_at(place[:-1])
    near = get_close_matches(str(place[-1]), known, n=1)
    if near:
        return Wrong(place, given, say("fault-unknown-near", key=place[-1], near=near[0]))
    return Wrong(place, given, say("fault-unknown", key=place[-1], known=", ".join(known)))


_ALLOWED = {
    "string_type": "fault-text",
    "int_type": "fault-whole",
    "int_from_float": "fault-whole",
    "bool_type": "fault-flag",
    "tuple_type": "fault-list",
    "model_type": "fault-table",
    "dict_type": "fault-table",
    "too_short": "fault-empty-list",
}


def _allowed(error: ErrorDetails, place: Place) -> str:
    """Return what is allowed at a place in words."""
    kind, ctx = error["type"], error.get("ctx", {})
    if kind == "missing":
        return say("fault-missing", key=place[-1]) if isinstance(place[-1], str) else say("fault-pair")
    if kind == "too_long":
        return say("fault-pair")
    if kind in ("literal_error", "enum"):
        return say("fault-choice", choices=_choices(error))
    if kind == "string_pattern_mismatch":
        return say(_PATTERNS[ctx["pattern"]])
    if kind in ("string_too_short", "string_too_long"):
        return say("fault-text-length", most=ctx.get("max_length", 80))
    if kind in ("greater_than_equal", "less_than_equal"):
        return (
            say("fault-at-least", limit=ctx["ge"]) if "ge" in ctx else say("fault-at-most", limit=ctx["le"])
        )
    if kind in _ALLOWED:
        return say(_ALLOWED[kind])
    return str(ctx["error"]) if "error" in ctx else error["msg"]


def _choices(error: ErrorDetails) -> str:
    """Return the words that may be chosen from, quoted as in a file."""
    return str(error.get("ctx", {}).get("expected", "")).replace("'", '"')
