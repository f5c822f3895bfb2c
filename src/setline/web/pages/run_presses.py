"""The presses of the run editor, each a plain form of its own: sent twice, each is kept once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter, Form
from fastapi.responses import Response

from setline.errors import InputError
from setline.field_book.places import pointer
from setline.web.arranging.edits import (
    Values,
    box_of,
    ends,
    let_go,
    moved,
    pinned,
    place_of,
    put_in,
    run_key,
    run_table,
    started,
    swapped,
    taken_out,
)
from setline.web.arranging.page import walls_in
from setline.web.arranging.pin_form import read_pin
from setline.web.arranging.press import Number, Press, Text, chosen_of, kept, stays_if_set
from setline.web.arranging.view import loose_items
from setline.web.typed_length import length_text, tape_in
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@router.post("/j/{j}/run/{w}/move")
def move(press: Press, by: Text = "", to: Annotated[int | None, Form(ge=0, le=9999)] = None) -> Response:
    """Move an item one place to the left or right, or to a place that was shown."""

    def values(document: Mapping[str, Any]) -> Values:
        stays_if_set(press)
        here = place_of(document, press.run, press.item)
        place = to if to is not None else here + {"left": -1, "right": 1}.get(by, 0)
        return moved(document, press.run, press.item, place)

    return kept(press, values)


@router.post("/j/{j}/run/{w}/swap")
def swap(press: Press, other: Number = 0) -> Response:
    """Let two items change places."""

    def values(document: Mapping[str, Any]) -> Values:
        stays_if_set(press, other)
        return swapped(document, press.run, press.item, other)

    return kept(press, values, ask="swap")


@router.post("/j/{j}/run/{w}/take-out")
def take_out(press: Press) -> Response:
    """Take an item out of its run; it stays on order."""

    def values(document: Mapping[str, Any]) -> Values:
        stays_if_set(press)
        return taken_out(document, press.run, press.item)

    return kept(press, values, leads_on=False)


@router.post("/j/{j}/run/{w}/put-in")
def put(press: Press) -> Response:
    """Put something that is on order at the right end of a run."""
    return kept(press, lambda document: put_in(document, press.run, press.item))


@router.post("/j/{j}/run/{w}/start")
def start(press: Press, row: Text = "", items: Annotated[list[int] | None, Form()] = None) -> Response:
    """Start a run with some items, left to right in the order of their numbers."""

    def values(document: Mapping[str, Any]) -> Values:
        loose = {each.number: each for each in loose_items(document)}
        wanted = [number for number in sorted(items or []) if number in loose and row in loose[number].rows]
        if row not in ("base", "wall") or press.wall not in walls_in(press.standing.folded.document):
            raise InputError(say("no-such-run", run=f"{press.wall} {row}"[:40]))
        return started(press.wall, row, wanted)

    return kept(press, values)


@router.post("/j/{j}/run/{w}/pin")
def pin(
    press: Press,
    edge: Text = "",
    where: Text = "",
    at: Text = "",
    beside: Text = "",
    beside_edge: Text = "",
    strength: Text = "must",
    choice: Text = "",
) -> Response:
    """Pin an edge or the centre of an item."""
    form = {
        "edge": edge,
        "where": "at" if choice else where,
        "at": choice or at,
        "beside": beside,
        "beside_edge": beside_edge,
        "strength": strength,
    }

    def values(document: Mapping[str, Any]) -> Values:
        return pinned(document, press.run, read_pin(form, chosen_of(press), tape_in(document)))

    return kept(press, values, ask=f"pin-{edge}", form=form)


@router.post("/j/{j}/run/{w}/let-go")
def unpin(press: Press, edge: Text = "") -> Response:
    """Let a pin go."""
    return kept(press, lambda document: let_go(document, press.run, press.item, edge))


@router.post("/j/{j}/run/{w}/real-width")
def real_width(press: Press, text: Text = "", choice: Text = "") -> Response:
    """Keep the width of a box as measured; nothing typed takes the measured width back."""
    form = {"text": choice or text}

    def values(document: Mapping[str, Any]) -> Values:
        if box_of(document, press.item) is None:
            raise InputError(say("not-on-order", number=press.item))
        place = pointer(("order", "boxes", str(press.item), "measured"))
        text = form["text"].strip()
        return {place: length_text(text, tape_in(document)) if text else None}

    return kept(press, values, ask="width", form=form)


@router.post("/j/{j}/run/{w}/end")
def end(
    press: Press, side: Text = "", kind: Text = "", at: Text = "", corner: Text = "", choice: Text = ""
) -> Response:
    """Say what closes an end of a run."""
    form = {"side": side, "kind": kind, "at": choice or at, "corner": corner}

    def values(document: Mapping[str, Any]) -> Values:
        run_table(document, press.run)
        if side not in ("left", "right") or kind not in ("wall", "corner", "open"):
            raise InputError(say("end-needs-kind"))
        place = length_text(form["at"], tape_in(document)) if kind == "open" and form["at"].strip() else ""
        return ends(press.run, side, kind, place, corner)

    return kept(press, values, form=form)


@router.post("/j/{j}/run/{w}/bottom")
def bottom(press: Press, text: Text = "", choice: Text = "") -> Response:
    """Say how far a wall row's underside stands over the level line; nothing typed leaves it to the rule."""
    form = {"bottom": choice or text}

    def values(document: Mapping[str, Any]) -> Values:
        run_table(document, press.run)
        place = pointer(("runs", run_key(press.run), "bottom"))
        if not form["bottom"].strip():
            return {place: None}
        up = length_text(form["bottom"], tape_in(document))
        return {place: {"up": up, "from": "level line"}}

    return kept(press, values, form=form)
