"""The Python interface: its examples run as they stand, and its frames hold what the files hold."""

import doctest
import subprocess
import sys
from pathlib import Path

import pandas as pd
import pytest

import workbook_tools
from workbook_tools import api

EXAMPLES = Path(__file__).parents[1] / "example_books"


def test_the_examples_in_its_help_run(monkeypatch):
    monkeypatch.chdir(EXAMPLES.parent)
    done = doctest.testmod(api)
    assert (done.attempted > 5, done.failed) == (True, 0)


def test_every_public_name_is_there_and_no_other():
    for name in workbook_tools.__all__:
        assert getattr(workbook_tools, name)
    with pytest.raises(AttributeError, match="no attribute 'summarise'"):
        workbook_tools.summarise  # noqa: B018


def test_importing_the_package_brings_in_nothing_large():
    code = "import sys, workbook_tools; print('pandas' in sys.modules, 'typer' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    out = tmp_path_factory.mktemp("api") / "out"
    api.summarize(EXAMPLES / "troubled_six.xlsx", out)
    return out


def test_the_frame_of_findings_is_the_table_of_findings(written):
    frame = workbook_tools.findings_frame(EXAMPLES / "troubled_six.xlsx")
    table = pd.read_csv(written / "findings.csv", keep_default_na=False)
    assert len(frame) > 0
    assert frame[list(table.columns)].astype(str).equals(table.astype(str))


def test_the_frame_of_readings_has_numbers_dates_and_whole_cylinders(written):
    frame = workbook_tools.readings_frame([EXAMPLES / "troubled_six.xlsx"])
    table = pd.read_csv(written / "readings.csv")
    assert list(frame["cell"]) == list(table["cell"].fillna(""))
    assert frame["value"].sum() == pytest.approx(
        pd.to_numeric(table["value"], errors="coerce").sum()
    )
    assert frame["finished"].dt.year.unique() == [2025]
    bores = frame[(frame["measurand"] == "bore") & frame["number"].notna()]
    assert sorted(bores["number"].unique()) == [1, 2, 3, 4, 5, 6]


def test_a_book_that_cannot_be_read_is_told_of_beside_the_frame(tmp_path):
    (tmp_path / "broken.xlsx").write_bytes(b"no book")
    frame = workbook_tools.readings_frame(tmp_path)
    ((path, why),) = frame.attrs["unread"]
    assert path == str(tmp_path / "broken.xlsx")
    assert why
    assert frame.empty
