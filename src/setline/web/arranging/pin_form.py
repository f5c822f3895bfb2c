"""The form that pins an edge of an item: where to, and how strongly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from setline.drawings.wall_facts import item_words
from setline.lengths import Rounding, Tape, Units, fine_step, round_to, show
from setline.result import Plan
from setline.web.arranging.view import Chosen
from setline.web.typed_length import WrongText, length_text
from setline.wording import say

__all__ = ["PinForm", "PinPlaceChoice", "pin_form", "read_pin"]

EDGES = ("left", "centre", "right")
STRENGTHS = ("must", "1", "2", "3")


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPlaceChoice:
    """A place that a pin may hold to.

    Attributes:
        value: What the form sends for it.
        words: What it is called, with its number.
    """

    value: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PinForm:
    """The form.

    Attributes:
        edge: Which edge is pinned.
        places: Places that have a name.
        beside: Items of the wall that an edge may line up with: number and words.
    """

    edge: str
    places: tuple[PinPlaceChoice, ...]
    beside: tuple[tuple[int, str], ...]


def pin_form(plan: Plan, wall: str, chosen: Chosen, edge: str) -> PinForm:
    """Return the form that pins an edge of the chosen item."""
    units = Units(plan.units)
    line = next(line for line in plan.walls if line.name == wall)
    places = [
        PinPlaceChoice(
            value=f"window {opening.name}",
            words=say("pin-at-window", name=opening.name, at=show(opening.centre, units).removeprefix("~")),
        )
        for opening in line.openings
        if opening.kind == "window"
    ]
    places.append(PinPlaceChoice(value="middle", words=say("pin-at-middle", wall=wall)))
    now = now_at(chosen, edge, units)
    if now is not None:
        places.append(PinPlaceChoice(value="here", words=say("pin-at-here", at=now)))
    beside = {
        item.number: f"{item_words(item)} ({run.name})"
        for run in plan.runs
        if run.wall == wall
        for item in run.items
        if item.number != chosen.item.number
    }
    return PinForm(edge=edge, places=tuple(places), beside=tuple(beside.items()))


def now_at(chosen: Chosen, edge: str, units: Units) -> str | None:
    """Return where an edge of the chosen item stands now, to what a tape shows; None if it has no place."""
    left, right = chosen.item.left_ticks, chosen.item.right_ticks
    if left is None or right is None:
        return None
    at = {"left": left, "right": right, "centre": (left + right) // 2}[edge]
    return show(round_to(at, fine_step(units), Rounding.NEAREST_UP), units)


def read_pin(form: Mapping[str, str], chosen: Chosen, tape: Tape) -> dict[str, Any]:
    """Return the pin that a form asks for, as the job's document has it.

    Args:
        form: ``edge``, ``where`` and, by that, ``at`` or ``beside`` and ``beside_edge``; ``strength``.
        chosen: The item.
        tape: The crew's tape.

    Raises:
        WrongText: Something in it is none of what it offers, or the text is no length.
    """
    edge, strength = form.get("edge", ""), form.get("strength", "must")
    if edge not in EDGES or strength not in STRENGTHS:
        raise WrongText(say("pin-needs-edge"))
    pin: dict[str, Any] = {"item": chosen.item.number, "edge": edge, **_where(form, chosen, tape)}
    return pin if strength == "must" else {**pin, "strength": "wish", "rank": int(strength)}


def _where(form: Mapping[str, str], chosen: Chosen, tape: Tape) -> dict[str, Any]:
    """Return the place of a pin."""
    where = form.get("where", "")
    if where.startswith("window "):
        return {"window": where.removeprefix("window ")}
    if where == "middle":
        return {"middle": True}
    if where == "here":
        at = now_at(chosen, form["edge"], tape.units)
        if at is None:
            raise WrongText(say("pin-stands-nowhere"))
        return {"at": at}
    if where == "beside":
        return _beside(form)
    if where == "at":
        return {"at": length_text(form.get("at", ""), tape)}
    raise WrongText(say("pin-needs-place"))


def _beside(form: Mapping[str, str]) -> dict[str, Any]:
    """Return the item and the edge of it that an edge lines up with."""
    number, edge = form.get("beside", ""), form.get("beside_edge", "")
    if not (number.isascii() and number.isdigit()) or edge not in EDGES:
        raise WrongText(say("pin-needs-item"))
    same = edge == form.get("edge")
    return {"beside": int(number)} if same else {"beside": int(number), "beside_edge": edge}
