"""The job to start from."""

from __future__ import annotations

import pytest

from setline.job.read import read_job
from setline.job.starter import starter
from setline.lengths import Units


@pytest.mark.parametrize("tape", list(Units))
def test_a_starter_reads_as_it_stands(tape: Units) -> None:
    """It is a whole job: a room, a floor read at wall and toe, an order, two runs, a laser."""
    job = read_job(starter("Pear Tree Court", tape))
    assert job.job.name == "Pear Tree Court"
    assert job.job.tape == tape
    assert len(job.runs) == 2
    assert len(job.order.boxes) == 6
    assert sum(len(line.readings) for line in job.floor.set_ups[0].lines) == 18


@pytest.mark.parametrize(
    "name", ['say "so"', "a\\b", "$name ${tape} $", "Küche 厨房", "  spaced  ", "tab\there"]
)
def test_any_name_stands_in_a_starter(name: str) -> None:
    """Quotes, signs that the template uses, and other scripts keep their place."""
    assert read_job(starter(name, Units.INCH)).job.name == name


def test_a_starter_explains_itself() -> None:
    """Its notes stand in one column, and no line is too long for a screen."""
    lines = starter("Test room", Units.INCH).split("\n")
    assert max(map(len, lines)) <= 110
    columns = {line.index("  # ") for line in lines if "  # " in line}
    assert 50 in columns
