"""What was wrong with a file or a call, told once: as lines on stderr, or as JSON where a program reads.

The JSON is one shape for every command: ``{"ok": false, "errors": [{"where", "given", "allowed", "example",
"line", "text"}]}``.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from setline.errors import Fault, JobFileError, NotInPlan, RuleError, SetlineError
from setline.wording import say

__all__ = ["Refused", "errors_of", "tell"]


class Refused(Exception):
    """A call that cannot be done: where, what was given, what is allowed, an example."""

    def __init__(self, *, where: str, given: str, allowed: str, example: str = "") -> None:
        super().__init__(f"{where}: {allowed}")
        self.where = where
        self.given = given
        self.allowed = allowed
        self.example = example

    @classmethod
    def by_system(cls, trouble: OSError) -> Refused:
        """Return the refusal of a file that the system would not open or write."""
        path = str(trouble.filename or say("fault-where-file")).encode("utf-8", "replace").decode()
        return cls(
            where=path, given=path, allowed=say("cli-not-written", why=(trouble.strerror or "").lower())
        )


def tell(wrong: SetlineError | Refused, *, as_json: bool) -> None:
    """Print what was wrong: JSON on stdout, since a program waits for it there; or lines on stderr."""
    errors = errors_of(wrong)
    if as_json:
        print(json.dumps({"ok": False, "errors": errors}, ensure_ascii=False, indent=1))
        return
    for error in errors:
        print(error["text"], file=sys.stderr)
    if isinstance(wrong, Refused) and wrong.example:
        print(wrong.example, file=sys.stderr)
    elif len(errors) > 1:
        print(say("cli-faults", count=len(errors)), file=sys.stderr)


def errors_of(wrong: SetlineError | Refused) -> list[dict[str, Any]]:
    """Return what was wrong as plain data, each with the sentence that a person reads."""
    if isinstance(wrong, JobFileError):
        return [_error(fault, str(fault)) for fault in wrong.faults]
    if isinstance(wrong, Refused):
        fault = Fault(where=wrong.where, given=wrong.given, allowed=wrong.allowed, example=wrong.example)
    elif isinstance(wrong, NotInPlan):
        fault = Fault(
            where="MARK", given=wrong.asked, allowed=str(wrong), example=next(iter(wrong.nearest), "")
        )
    elif isinstance(wrong, RuleError):
        fault = Fault(where=f"rules.{wrong.asked}", given=wrong.asked, allowed=str(wrong), example="")
    else:
        fault = Fault(where="", given="", allowed=str(wrong), example="")
    return [_error(fault, str(wrong))]


def _error(fault: Fault, text: str) -> dict[str, Any]:
    """Return one fault as plain data."""
    return {
        "where": fault.where,
        "given": fault.given,
        "allowed": fault.allowed,
        "example": fault.example,
        "line": fault.line,
        "text": text,
    }
