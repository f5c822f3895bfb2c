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


@pytest.mark.parametrize(
    "lines",
    [
        "from setline import doubts, plan",
        "from setline.doubts import doubts as same; from setline import doubts; assert doubts is same",
        "import setline, setline.doubts.told; assert callable(setline.doubts) and callable(setline.doubts)",
    ],
)
def test_a_function_is_never_hidden_by_its_folder(lines: str) -> None:
    """``doubts`` is the function whichever way and in whichever order things are imported."""
    done = subprocess.run([sys.executable, "-c", lines], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_reading_a_job_does_not_wait_for_the_stages() -> None:
    """Nothing heavy is imported before something asks for it."""
    lines = (
        "import sys; from setline import load_job; assert not {'numpy', 'setline.stages'} & set(sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", lines], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
