"""Outputs and numbers are as kept, so that what a change of the program changes is seen."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.mark.slow
@pytest.mark.parametrize("script", ["golden_outputs.py", "golden_numbers.py"])
def test_all_is_as_kept(script):
    # In a process of its own: one of them stands in for Typst.
    done = subprocess.run([sys.executable, HERE / script], stderr=subprocess.PIPE, text=True)
    assert done.returncode == 0, done.stderr


TOGETHER = """
import sys
from pathlib import Path
from workbook_tools.batch.batch import summarize_books
summarize_books([Path(sys.argv[1])], Path(sys.argv[2]))
"""


def test_books_with_the_same_readings_have_the_same_outputs_in_every_run(tmp_path):
    sys.path.insert(0, str(HERE.parent / "books"))
    from one_engine import write

    (tmp_path / "books").mkdir()
    for layout in ("labels_left", "cylinders_down"):
        write(tmp_path / "books" / f"{layout}.xlsx", layout)
    tables = set()
    for seed in "12":
        subprocess.run(
            [sys.executable, "-c", TOGETHER, tmp_path / "books", tmp_path / seed],
            env={**os.environ, "PYTHONHASHSEED": seed},
            check=True,
        )
        tables.add((tmp_path / seed / "findings.csv").read_bytes())
    assert len(tables) == 1
