"""Everything that Setline raises, in one family.

    SetlineError
        InputError(ValueError)         what was given cannot be used; carries where, given, allowed, example
            TapeNotationError          a text that is no length, or could be several
            JobFileError               a job file with faults; carries every one of them
        RuleError(LookupError)         no rule of that name; carries the name asked for
        NotInPlan(LookupError)         no mark, shim or line of that name; carries the nearest names

What goes wrong in the *room* is never an exception: it is a finding in the plan.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = [
    "Fault",
    "InputError",
    "JobFileError",
    "NotInPlan",
    "RuleError",
    "SetlineError",
    "TapeNotationError",
]


class SetlineError(Exception):
    """The root: catch this to catch all that Setline raises on purpose."""


class InputError(SetlineError, ValueError):
    """What was given cannot be used."""


class TapeNotationError(InputError):
    """A text is no length on this tape, or could be read in more than one way.

    Attributes:
        given: The text as it was typed.
        readings: What it could mean, in tape notation, nearest first; empty if nothing was near.
    """

    def __init__(self, sentence: str, *, given: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(sentence)
        self.given = given
        self.readings = readings


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of a job file: where it stands, what was read, what is allowed, an example.

    Attributes:
        where: The place in the document, such as ``order.boxes[3].width``; places in a list count from 0.
        given: What was read there, or ``nothing``.
        allowed: What may stand there.
        example: Something that may; empty where none would help.
        line: Line of the file, counted from 1, where it is known.
    """

    where: str
    given: str
    allowed: str
    example: str
    line: int | None = None

    def __str__(self) -> str:
        """Return the fault as one sentence."""
        line = f" (line {self.line})" if self.line else ""
        example = f"; for example {self.example}" if self.example else ""
        return f"{self.where}{line}: read {self.given}; {self.allowed}{example}."


class JobFileError(InputError):
    """A job file has faults; all of them are here, none was guessed at.

    Attributes:
        faults: Every fault, in the order of the file.
    """

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = faults


class RuleError(SetlineError, LookupError):
    """No rule of the trade goes by that name.

    Attributes:
        asked: The name that was asked for.
    """

    def __init__(self, sentence: str, *, asked: str) -> None:
        super().__init__(sentence)
        self.asked = asked


class NotInPlan(SetlineError, LookupError):
    """The plan has no mark, shim or line of that name.

    Attributes:
        asked: The name that was asked for.
        nearest: Names that are in the plan and look like it.
    """

    def __init__(self, sentence: str, *, asked: str, nearest: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.asked = asked
        self.nearest = nearest
