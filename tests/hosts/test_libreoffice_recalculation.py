"""Books calculated by LibreOffice on the way into a batch, whatever their names and contents."""

from __future__ import annotations

import json
import os
import zipfile

import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.batch.output_folder import LIST
from workbook_tools.cli import app
from workbook_tools.hosts import libreoffice


@pytest.fixture
def books(office, tmp_path):
    """Two books of one name in two folders, never calculated, and a file that is no book."""
    made = []
    for folder, gasket in (("a", 0.042), ("b", 0.040)):
        book = openpyxl.Workbook()
        sheet = book.active
        sheet.append(["Deck clearance", -0.002])
        sheet.append(["Gasket", gasket])
        sheet.append(["Quench", "=ENG.QUENCH(B1,B2)"])
        sheet.append(["Rounded", "=ROUND(B3,3)"])
        path = tmp_path / "books" / folder / "job.xlsx"
        path.parent.mkdir(parents=True)
        book.save(path)
        made.append(path)
    broken = tmp_path / "books" / "broken.xlsx"
    broken.write_bytes(b"PK\x03\x04 cut off")
    return [*made, broken]


@pytest.mark.slow
def test_each_book_has_its_own_copy_and_a_bad_one_costs_no_other(books, tmp_path):
    before = {path: path.read_bytes() for path in books}
    done = libreoffice.recalculate_each(books, tmp_path / "work")
    values = [
        openpyxl.load_workbook(done.copies[path], data_only=True).active["B3"].value
        for path in books[:2]
    ]
    assert values == pytest.approx([0.040, 0.038])
    assert list(done.refused) == [books[2]]
    assert "broken.xlsx" in done.refused[books[2]]
    assert {path: path.read_bytes() for path in books} == before
    assert sorted(p.name for p in (tmp_path / "books").rglob("*") if p.is_file()) == [
        "broken.xlsx", "job.xlsx", "job.xlsx",
    ]  # fmt: skip


@pytest.mark.slow
def test_what_is_no_book_by_its_size_or_kind_is_not_handed_on(books, tmp_path):
    sparse, pipe, bomb = (tmp_path / f"{name}.xlsx" for name in ("sparse", "pipe", "bomb"))
    with sparse.open("wb") as file:
        file.truncate(3_000_000_000)
    os.mkfifo(pipe)
    with zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", bytes(60_000_000))
    done = libreoffice.recalculate_each([sparse, pipe, bomb, books[0]], tmp_path / "work")
    assert list(done.copies) == [books[0]]
    assert "of the largest that is read" in done.refused[sparse]
    assert "this is a pipe" in done.refused[pipe]
    assert "would unpack" in done.refused[bomb]


def test_summaries_are_of_the_calculated_values_and_say_so(books, tmp_path):
    out = tmp_path / "out"
    command = ["summarize", str(books[0].parent), "--out", str(out), "--afresh"]
    plain = CliRunner().invoke(app, command)
    assert plain.exit_code == 0, plain.output
    [page] = (p for p in out.glob("*.json") if p.name != LIST)
    assert [c["state"] for c in json.loads(page.read_text())["results"]] == ["not saved"]
    done = CliRunner().invoke(app, [*command, "--recalculate", "libreoffice"])
    assert done.exit_code == 0, done.output
    told = json.loads(page.read_text())
    assert [(c["state"], c["saved"]) for c in told["results"]] == [("same", pytest.approx(0.040))]
    assert told["book"]["file"] == "job.xlsx"
    assert told["book"]["calculated_by"] == "LibreOffice"
    assert "calculated by LibreOffice" in page.with_suffix(".html").read_text()
