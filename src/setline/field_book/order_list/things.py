"""One thing on order, whole: what its model and its own fields among each other do not allow."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from setline.errors import TapeNotationError
from setline.field_book.order_list.fields import MODELS, fields_of
from setline.lengths import Tape
from setline.wording import say

__all__ = ["faults_of_thing"]

_ON_LEGS = ("legs", "ledger and front legs")


def faults_of_thing(
    listed: str, thing: Mapping[str, Any], tape: Tape, *, told: Collection[str] = ()
) -> Iterator[tuple[str, str]]:
    """Yield the fields that are missing or do not go together, each with what is allowed.

    Args:
        listed: The list of the order it belongs to.
        thing: All its fields, as a job's document has them.
        tape: The crew's tape.
        told: Fields that were refused already and do not stand in the thing: of those nothing more is said.
    """
    heads = {key.partition(".")[0] for key in told}
    for key, allowed in _faults(listed, thing, tape):
        if key not in told and not (key.partition(".")[0] in heads and allowed != say("order-needed")):
            yield key, allowed


def _faults(listed: str, thing: Mapping[str, Any], tape: Tape) -> Iterator[tuple[str, str]]:
    """Yield everything that is wrong with a thing."""
    try:
        MODELS[listed].model_validate(dict(thing), context={"tape": tape})
    except ValidationError as wrong:
        said: set[str] = set()
        for error in wrong.errors(include_url=False, include_input=False):
            key = _key(listed, error)
            if key not in said:  # the members of a union each say their own
                said.add(key)
                yield key, _allowed(error)
        return
    if listed == "boxes":
        yield from _legs(thing)


def _key(listed: str, error: ErrorDetails) -> str:
    """Return the field that a model complains of."""
    steps = [str(step) for step in error["loc"]]
    known = fields_of(listed)
    for length in (2, 1):
        key = ".".join(steps[:length])
        if key in known:
            return key
    first = steps[0] if steps else ""
    return next((key for key in known if key.startswith(f"{first}.")), first)


def _allowed(error: ErrorDetails) -> str:
    """Return what is allowed, as a sentence."""
    cause = error.get("ctx", {}).get("error")
    if error["type"] == "missing":
        return say("order-needed")
    if isinstance(cause, TapeNotationError):
        return str(cause)
    if isinstance(cause, ValueError):
        told = str(cause)
        return f"{told[:1].upper()}{told[1:]}."
    return say("order-not-read")


def _legs(box: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Legs and what a box stands on go together."""
    has_legs, support = box.get("legs") is not None, box.get("support")
    if support == "legs" and not has_legs:
        yield "legs.least", say("order-legs-needed")
    if has_legs and support not in _ON_LEGS:
        yield "support", say("order-legs-support")
