"""Thirty invented books as strangers lay them out, written into a folder with what is true of each.

The books are drawn with openpyxl; where they hold formulas, or are saved in another format,
LibreOffice with the add-in calculates and saves them, as the program of a builder would.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

from openpyxl import load_workbook
from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.hosts import libreoffice

from . import (
    air_cooled,
    american,
    bench_work,
    british,
    cards,
    drag_race,
    european,
    heavy,
    left_behind,
    small_engines,
)
from .derive import derived
from .pen import SI

BOOKS = (
    american.ticket, american.form, american.remarks, american.month_list, small_engines.single,
    small_engines.kart, heavy.diesel, air_cooled.flat_four, air_cooled.flat_six, heavy.tractor,
    heavy.marine, british.vintage, european.german, european.french, european.spanish,
    european.italian, british.racing, small_engines.shims, bench_work.head, bench_work.crank,
    cards.balance, cards.dyno, cards.cam, cards.torques, left_behind.copied, left_behind.struck,
    small_engines.twin, left_behind.nine_places, drag_race.drag, british.half_done,
)  # fmt: skip


def write_all(folder, profile):
    """Write all books and their truths into folders `books` and `truth`; return the truths.

    profile: a LibreOffice profile with the add-in, as `libreoffice.fresh_profile` makes it.
    """
    places = {name: Path(folder, name) for name in ("books", "truth", "drawn", "calculated")}
    for place in places.values():
        place.mkdir(parents=True)
    written = [make() for make in BOOKS]
    for book in written:
        book.workbook.save(places["drawn"] / f"{book.ident}.xlsx")
    sources = [places["drawn"] / f"{book.ident}.xlsx" for book in written if _by_office(book)]
    libreoffice.recalculate(sources, places["calculated"], profile, seconds=300)
    truths = []
    for book in written:
        calculated = places["calculated"] / f"{book.ident}.xlsx"
        saved = calculated if _by_office(book) else places["drawn"] / f"{book.ident}.xlsx"
        if book.calculated or book.eng:
            _fill_in(book, calculated)
        _save_as(saved, places["books"] / book.name, profile)
        truths.append(_truth(book))
        text = json.dumps(truths[-1], ensure_ascii=False, indent=1)
        (places["truth"] / f"{book.ident}.json").write_text(text, encoding="utf-8")
    return truths


def _by_office(book):
    return book.calculated or book.eng or not book.file.endswith(".xlsx")


def _fill_in(book, calculated):
    """What the formulas gave becomes true of their cells."""
    values = load_workbook(calculated, data_only=True)
    for fact in (fact for job in book.jobs for fact in job.facts if fact["value"] is None):
        title, address = fact["cell"].rsplit("!", 1)
        value = values[title][address].value
        if not isinstance(value, (int, float)):
            raise ValueError(f"{book.name} {fact['cell']}: expected a number, got {value!r}")
        fact["value"], fact["si"] = value, value * SI[fact["unit"]]


def _save_as(saved, target, profile):
    if target.suffix == ".xlsx":
        target.write_bytes(saved.read_bytes())
        return
    office = libreoffice.find_office()
    kind = {".ods": "ods:calc8", ".xls": "xls:MS Excel 97"}[target.suffix]
    command = [office.program("soffice"), *profile.options, "--headless", "--norestore"]
    command += ["--convert-to", kind, "--outdir", str(target.parent), str(saved)]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    saved_as = target.parent / f"{saved.stem}{target.suffix}"
    saved_as.rename(target)


def _words_near(book, cell):
    """The words nearest to the left of a cell and above it, to find it again in a list."""
    title, address = cell.rsplit("!", 1)
    cells = book.workbook[title]
    row, column = coordinate_to_tuple(address)
    left = [cells.cell(row, place).value for place in range(column - 1, 0, -1)]
    above = [cells.cell(place, column).value for place in range(row - 1, 0, -1)]
    words = (next((v for v in line if _is_words(v)), "") for line in (left, above))
    return " / ".join(word.strip() for word in words if word)


def _is_words(value):
    return isinstance(value, str) and value[:1] != "=" and any(map(str.isalpha, value))


def _truth(book):
    jobs = []
    for job in book.jobs:
        for fact in job.facts:
            fact["near"] = _words_near(book, fact["cell"])
        job.derived = derived(job)
        jobs.append({
            "fields": job.fields, "facts": job.facts, "derived": job.derived,
            "planted": job.planted, "legit": job.legit, "finished": job.finished,
        })  # fmt: skip
    return {
        "book": book.name, "id": book.ident, "kind": "eng" if book.eng else "plain",
        "note": book.note, "clean": not any(job.planted for job in book.jobs), "jobs": jobs,
        "ignore_sheets": book.ignore_sheets, "either": book.either,
    }  # fmt: skip
