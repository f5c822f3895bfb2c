"""The three names that Setline promises."""

from __future__ import annotations

import subprocess
import sys

import pytest

import setline


def test_what_is_promised_is_there() -> None:
    """Every promised name is a function, and there is nothing else of that kind."""
    assert setline.__all__ == ["doubts", "load_job", "plan"]
    assert all(callable(getattr(setline, name)) for name in setline.__all__)
    with pytest.raises(AttributeError, match="nothing_of_the_kind"):
        _ = setline.nothing_of_the_kind


def test_reading_a_job_does_not_wait_for_the_stages() -> None:
    """Nothing heavy is imported before something asks for it."""
    lines = (
        "import sys; from setline import load_job; assert not {'numpy', 'setline.stages'} & set(sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", lines], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
