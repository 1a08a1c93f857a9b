"""Outputs and numbers are as kept, so that what a change of the program changes is seen."""

import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent


def run(script, *arguments, **environment):
    """What a script here says; in a process of its own, for it puts another in Typst's place."""
    return subprocess.run(
        [sys.executable, HERE / script, *arguments],
        capture_output=True,
        text=True,
        check=False,
        **environment,
    )


@pytest.mark.parametrize("script", ["golden_outputs.py", "golden_numbers.py"])
def test_all_is_as_kept(script):
    done = run(script)
    assert done.returncode == 0, done.stderr
