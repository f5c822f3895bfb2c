"""What the crew has with them: the laser and its proof, the tape, the shims on the truck."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from setline.job.fields import LengthField, Model

__all__ = ["Laser", "TapeMeasure", "Tools", "Truck", "TwoPegProof", "TwoWallProof"]


class TwoWallProof(Model):
    """The two-wall reversal: mark both walls, go to the second, set on its mark, turn, mark wall 1 again."""

    distance: LengthField
    """Between the two walls."""
    difference: LengthField
    """Between the first mark and the last on the first wall."""


class TwoPegProof(Model):
    """The two-peg test: two fixed marks read from midway between them, then again from close to the first."""

    midway: tuple[LengthField, LengthField]
    """Down from the laser line to the first and to the second mark, from midway."""
    close: tuple[LengthField, LengthField]
    """Down to both again, from close to the first."""
    near: LengthField
    """From the laser to the first mark, the second time."""
    far: LengthField
    """From there to the second mark."""

    @model_validator(mode="after")
    def _far_is_farther(self) -> Self:
        if self.far.ticks <= self.near.ticks:
            raise ValueError(
                f"the second mark, {self.far.typed} away, has to stand farther than the first, "
                f"{self.near.typed} away"
            )
        return self


class Laser(Model):
    """The laser, by its maker's rating."""

    error: LengthField
    """Rated error ..."""
    over: LengthField
    """... over this distance."""
    proof: TwoWallProof | None = None
    """Its proof between two walls on this job."""
    pegs: TwoPegProof | None = None
    """Its two-peg test on this job."""


class TapeMeasure(Model):
    """The steel tape that the lengths were read with."""

    accuracy: Literal["I", "II", "III"] | None = None
    """Its class, as printed on it."""
    temperature: str | None = Field(default=None, pattern=r"^-?[0-9]{1,3} ?[CF]$")
    """How warm it was when the long lengths were read, such as ``28 F`` or ``-2 C``."""


class Tools(Model):
    """The laser, the tape, and the doubt of a reading."""

    laser: Laser | None = None
    """The laser; without it, by the rule ``laser-rating``."""
    tape: TapeMeasure | None = None
    """The steel tape, where its class or its warmth is to be told."""
    floor_doubt: LengthField | None = None
    """One standard deviation of a single floor reading; without it, by the rule ``floor-reading-doubt``."""
    length_doubt: LengthField | None = None
    """The same for a length; without it, by the rule ``length-reading-doubt``."""


class Truck(Model):
    """Stock on the truck."""

    shims: tuple[LengthField, ...] = ()
    """Thicknesses of flat shims; without any, by the rule ``shim-stock``."""
