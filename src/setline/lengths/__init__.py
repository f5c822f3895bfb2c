"""Lengths: an exact grid that holds both tapes, every written form, and rounding with a stated direction.

One tick is 1/65024 in and 1/2560 mm, so 1/64 in and 0.1 mm are whole and can be halved three times. Inside
the engine a length is a plain ``int`` of ticks; a job keeps it as a ``Length`` with the text that was typed.
"""

from setline.lengths.grid import (
    GREATEST,
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Length,
    Rounding,
    Tape,
    Units,
    crew_tape,
    fine_step,
    mark_step,
    round_to,
    shim_step,
)
from setline.lengths.notation import length_from_number, read_length
from setline.lengths.printed import show, show_feet

__all__ = [
    "GREATEST",
    "TICKS_PER_INCH",
    "TICKS_PER_MM",
    "Length",
    "Rounding",
    "Tape",
    "Units",
    "crew_tape",
    "fine_step",
    "length_from_number",
    "mark_step",
    "read_length",
    "round_to",
    "shim_step",
    "show",
    "show_feet",
]
