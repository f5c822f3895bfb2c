"""The whole job: all that the crew told us, agreed to and did."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from setline.job.fields import LengthField, Model
from setline.job.floor import Floor
from setline.job.order import Order
from setline.job.record import Record
from setline.job.room import Room
from setline.job.runs import Run
from setline.job.tools import Tools, Truck
from setline.lengths import Tape, Units, crew_tape

__all__ = ["About", "Job", "tape_of"]


class About(Model):
    """The job's head."""

    name: str = Field(min_length=1, max_length=80)
    """What the job is called."""
    tape: Units
    """The crew's tape: ``inch`` or ``metric``."""
    strong: LengthField | None = None
    """What this crew's strong (and shy) is worth: 1/64, 1/32 or 1/16; without it, 1/32."""
    paper: Literal["letter", "a4"] | None = None
    """Paper for the packet; without it, letter for an inch tape and A4 for a metric one."""
    measured_by: str = ""
    """Who read the room."""
    date: str = ""
    """When, as it is to be printed."""
    revision: str = Field(default="A", pattern=r"^[A-Z]$")
    """Revision letter printed on each foot."""
    notes: tuple[str, ...] = ()
    """Anything to print on the cover."""


class Job(Model):
    """A job, format 1."""

    format: Literal[1]
    """Version of the file form."""
    job: About
    """Its head."""
    room: Room
    """The room."""
    floor: Floor = Floor()
    """The floor."""
    order: Order = Order()
    """The order."""
    runs: tuple[Run, ...] = ()
    """The runs."""
    tools: Tools = Tools()
    """Laser and tape."""
    truck: Truck = Truck()
    """Stock on the truck."""
    rules: dict[str, LengthField | int | float | str] = Field(default_factory=dict)
    """Rules of the trade that this job overrides: id and value."""
    record: Record = Record()
    """Agreed and struck."""


def tape_of(job: Job) -> Tape:
    """Return the crew's tape with what their strong is worth; a job's own rules are read by it."""
    strong = job.job.strong
    return crew_tape(job.job.tape, None if strong is None else strong.ticks)
