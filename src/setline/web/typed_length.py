"""A length typed into a form: taken as text, or refused with what it could mean."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from setline.errors import InputError
from setline.lengths import Tape, Units, crew_tape, read_length
from setline.web.walk.typed import Choice, read_typed
from setline.wording import say

__all__ = ["WrongText", "length_text", "tape_in"]


class WrongText(InputError):
    """What was typed into a form is not taken.

    Attributes:
        choices: What a text could mean, to be pressed.
    """

    def __init__(self, sentence: str, choices: tuple[Choice, ...] = ()) -> None:
        super().__init__(sentence)
        self.choices = choices


def length_text(text: str, tape: Tape) -> str:
    """Return a typed length as it is to be kept.

    Raises:
        WrongText: It is none, or could be several.
    """
    if not text.strip():
        raise WrongText(say("needs-length"))
    typed = read_typed(text, tape)
    if typed.ticks is None:
        raise WrongText(typed.sentence or say("needs-length"), typed.choices)
    return typed.text


def tape_in(document: Mapping[str, Any]) -> Tape:
    """Return the crew's tape as a document has it, whole job or not."""
    head = document.get("job", {})
    units = Units.METRIC if head.get("tape") == "metric" else Units.INCH
    try:
        return crew_tape(units, read_length(str(head["strong"]), crew_tape(units)).ticks)
    except (KeyError, InputError):
        return crew_tape(units)
