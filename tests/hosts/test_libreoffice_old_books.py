"""Old .xls books are read through LibreOffice, and the summary says so."""

from __future__ import annotations

import json

import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.books.parts import is_binary
from workbook_tools.cli import app
from workbook_tools.hosts.libreoffice.office import run


@pytest.fixture
def old_book(profile, office, tmp_path):
    """A book that LibreOffice saved as .xls (BIFF8)."""
    book = openpyxl.Workbook()
    for row in (
        ["Auftrag", "25-17", "Kunde", "Frau Tann"],
        ["Eingang", "03.02.2025", "Fertig am", "14.03.2025"],
        ["Bohrung (mm)", 82.01],
        ["Quench (in)", "=ENG.QUENCH(0.002,0.038)"],
    ):
        book.active.append(row)
    made = tmp_path / "made" / "alt.xlsx"
    made.parent.mkdir()
    book.save(made)
    folder = tmp_path / "books"
    command = [office.program("soffice"), *profile.options, "--headless", "--norestore"]
    command += ["--convert-to", "xls:MS Excel 97", "--outdir", str(folder), str(made)]
    run(command, 120, profile.temporary())
    return folder / "alt.xls"


def test_an_old_book_is_read_through_libreoffice_without_being_asked(old_book, tmp_path):
    before = old_book.read_bytes()
    assert is_binary(old_book)
    out = tmp_path / "out"
    done = CliRunner().invoke(app, ["summarize", str(old_book.parent), "--out", str(out)])
    assert done.exit_code == 0, done.output
    data = json.loads((out / "alt.json").read_text("utf-8"))
    assert data["book"]["file"] == "alt.xls"
    assert data["job"]["number"]["text"] == "25-17"
    assert data["job"]["finished"]["text"] == "2025-03-14"
    assert [r["value"] for r in data["readings"] if r["measurand"] == "bore"] == [82.01]
    page = (out / "alt.html").read_text("utf-8")
    assert "read through LibreOffice" in page
    asked = CliRunner().invoke(app, ["survey", str(old_book), "--explain", "B3"])
    assert "read as bore, 82.01 mm" in asked.output
    # Nothing was written beside the book.
    assert old_book.read_bytes() == before
    assert [path.name for path in old_book.parent.iterdir()] == ["alt.xls"]


def test_a_book_that_needs_no_other_program_is_read_as_saved(office, tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["Job", "25-17"])
    (tmp_path / "books").mkdir()
    book.save(tmp_path / "books" / "new.xlsx")
    out = tmp_path / "out"
    CliRunner().invoke(app, ["summarize", str(tmp_path / "books"), "--out", str(out)])
    assert json.loads((out / "new.json").read_text("utf-8"))["book"]["calculated_by"] == ""
