"""The Python interface: its examples run as they stand, and its frames hold what the files hold."""

import doctest
import json
import os
import subprocess
import sys
from pathlib import Path

import openpyxl
import pandas as pd
import pytest

import workbook_tools
from workbook_tools import api, frames
from workbook_tools.catalog.table_rows import TableError

EXAMPLES = Path(__file__).parents[1] / "example_books"


def test_the_examples_in_its_help_run(monkeypatch):
    monkeypatch.chdir(EXAMPLES.parent)
    for module in (api, frames):
        done = doctest.testmod(module)
        assert (done.attempted > 1, done.failed) == (True, 0)


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


@pytest.fixture
def shop(tmp_path):
    """A folder with a book in the folder of a month, and what holds for it above."""
    (tmp_path / "month").mkdir()
    workbook = openpyxl.Workbook()
    rows = [
        ["Job no.", "26-001"],
        ["Bore (in)", 4.0001],
        ["Piston diameter (in)", 3.9959],
        ["Piston clearance (in)", "=ENG.PISTON_CLEARANCE(B2,B3)"],
        ["Verdict", "=ENG.VERDICT(B4,0.0045,0.006)"],
        ["Usual", '=ENG.BAND("crank end play","service")'],
        ["Tall", 0.005],
    ]
    for row in rows:
        workbook.active.append(row)
    workbook.active.title = "S"
    workbook.save(tmp_path / "month" / "1.xlsx")
    gauge = 'uncertainty = "0.0004 in"'
    (tmp_path / "shop.toml").write_text(
        f'gauges."All" = {{ measures = ["bore", "piston diameter"], {gauge} }}\n'
    )
    (tmp_path / "accepted.toml").write_text(
        '[[accepted]]\njob = "26-001"\ncell = "S!B4"\nwho = "R. Lund"\n'
        'when = "2026-05-28"\nwhy = "runs cold"\n'
    )
    answer = '{ label = "Tall", is = "deck_clearance", unit = "in" }'
    (tmp_path / "layout.toml").write_text(f"answers = [ {answer} ]\n")
    return tmp_path


def test_what_is_found_above_the_books_holds_as_for_the_commands(shop, monkeypatch):
    monkeypatch.setenv("HOME", str(shop))
    monkeypatch.setenv("USERPROFILE", str(shop))
    path = shop / "month" / "1.xlsx"
    (book,) = api.read(path)
    assert "deck_clearance" in [r.measurand for r in book.readings]
    (alone,) = (f for f in api.check(book) if f.place and f.place.address == "B4")
    assert (alone.code, alone.accepted, "cannot tell" in alone.message) == (
        "out-of-band",
        None,
        False,
    )
    (found,) = (f for f in api.check(book, file=path) if f.place and f.place.address == "B4")
    assert found.accepted.who == "R. Lund"
    assert "cannot tell" in found.message
    api.summarize(path, shop / "out")
    (data,) = (json.loads(p.read_text("utf-8")) for p in (shop / "out").glob("1.json"))
    (result,) = (r for r in data["results"] if r["cell"] == "B4")
    assert result["uncertainty"] > 0
    frame = workbook_tools.findings_frame(path)
    assert "cannot tell" in frame[frame["cell"] == "B4"]["message"].item()
    readings = workbook_tools.readings_frame(path)
    assert readings[readings["cell"] == "B7"]["measurand"].item() == "deck_clearance"


def test_bands_found_above_a_book_are_in_force_while_it_is_read(shop, monkeypatch):
    monkeypatch.setenv("HOME", str(shop))
    monkeypatch.setenv("USERPROFILE", str(shop))
    monkeypatch.delenv("WORKBOOK_TOOLS_BANDS", raising=False)
    (shop / "bands.toml").write_text("[[band]]\n")
    with pytest.raises(TableError, match=r"bands\.toml"):
        api.summarize(shop / "month", shop / "out")
    assert "WORKBOOK_TOOLS_BANDS" not in os.environ


def test_a_frame_has_the_texts_of_a_book_as_they_stand(shop):
    path = shop / "month" / "1.xlsx"
    workbook = openpyxl.load_workbook(path)
    workbook.active["B1"] = "=26"
    workbook.active["B1"].data_type = "s"
    workbook.save(path)
    assert set(workbook_tools.readings_frame(path)["job"]) == {"=26"}


def test_a_book_that_cannot_be_read_is_told_of_beside_the_frame(tmp_path):
    (tmp_path / "broken.xlsx").write_bytes(b"no book")
    frame = workbook_tools.readings_frame(tmp_path)
    ((path, why),) = frame.attrs["unread"]
    assert path == str(tmp_path / "broken.xlsx")
    assert why
    assert frame.empty
