"""Every sheet calculates in LibreOffice, empty and filled, for every number and layout."""

from __future__ import annotations

import math
import re
import zipfile

import openpyxl
import pytest
from build_books import CHANGED, FEW, PLANS, formulas_in, of_each, values_in

from workbook_tools.buildbook import fields
from workbook_tools.findings import check
from workbook_tools.hosts import libreoffice
from workbook_tools.jobs.read import read_book

# Parts without a size to measure stay without a verdict.
MAY_STAY_BLANK = {"Parts"}
# What asks about a reading, or about a use that no table has, says nothing where all is well.
QUESTIONS = ('? ","")', '"no band: ')
# Not every engine has pushrods.
NOT_EVERY_ENGINE = ("ENG.PUSHROD_LENGTH", "ENG.LIFTER_PRELOAD")


def test_an_empty_book_shows_blanks_and_prompts_but_no_error(book):
    values = values_in(book.empty_saved)
    counted = 0
    for sheet, address, text in book.formulas:
        value = values[sheet, address]
        assert not str(value).startswith("#"), f"{sheet}!{address}: {value} {text}"
        if "ENG." in text:
            counted += 1
            assert value in (None, ""), f"{sheet}!{address}: {value!r}"
    assert counted > 100


def test_a_filled_book_has_a_value_in_every_formula(book):
    values = book.values
    for sheet, address, text in book.formulas:
        value = values[sheet, address]
        assert not str(value).startswith("#"), f"{sheet}!{address}: {value} {text}"
        if sheet not in MAY_STAY_BLANK and not any(
            part in text for part in (*QUESTIONS, *NOT_EVERY_ENGINE)
        ):
            assert value not in (None, ""), f"{sheet}!{address}: {text}"


def test_every_value_is_the_catalogs(book):
    called = [r for r in book.read.records if not r.computed_by_batch]
    assert len(called) > 100
    assert {r.state for r in called} == {"same"}, [r for r in called if r.state != "same"][:3]
    # What the catalog has a function for is called, and no sheet works it out by itself.
    assert [r for r in book.read.records if r.computed_by_batch and r.saved is not None] == []


def test_a_filled_book_has_no_finding_of_its_own_fault(book):
    assert list(check(book.read)) == []


def test_every_result_has_a_label_and_tables_name_their_rows(book):
    rows = {*book.plan.cylinder_rows, *book.plan.rod_rows, *book.plan.main_rows,
            *book.plan.journal_rows, *book.plan.bank_rows}  # fmt: skip
    found = set()
    for record in book.read.records:
        assert record.label is not None, record.place
        assert record.label.text, record.place
        found.add(record.label.position)
        for argument in record.arguments:
            assert argument.place is None or argument.label is not None, (record.place, argument)
    assert rows <= found


def test_words_that_are_typed_name_no_result(calculated):
    records = read_book(calculated(CHANGED).words_saved).records
    assert len(records) > 100
    for record in records:
        for label in (record.label, *(a.label for a in record.arguments)):
            assert label is None or "typed here" not in str(label), (record.place, label)


def test_the_ratio_and_the_bobweight_are_what_their_textbooks_say(book):
    # Heywood, Internal Combustion Engine Fundamentals, chapter 2: (displaced + clearance) over
    # clearance; volumes of round discs. Bevan, The Theory of Machines, chapter 14: rotating
    # mass and a share of the reciprocating one.
    values = book.values
    typed = {(f.sheet, f.name): values[f.sheet, f.address] for f in fields(book.plan) if f.quantity}

    def numbers(sheet, pattern):
        return [v for (s, n), v in typed.items() if s == sheet and re.fullmatch(pattern, n)]

    scale = 1 if book.plan.metric else 25.4

    def disc(diameter, height):
        return math.pi / 4 * (diameter * scale) ** 2 * height * scale / 1000

    bores = numbers("Block", r"Bores / Cyl 1 / .*")
    assert len(bores) == 6
    bore = sum(bores) / 6
    decks = numbers("Deck", r"Deck / Cyl 1 / .*")
    assert len(decks) == 2
    [gasket] = numbers("Deck", r".* / Head gasket, .*")
    [gasket_bore] = numbers("Volumes", r".*Gasket bore")
    stroke = numbers("Plan", r"Combination 1 / Stroke")[0]
    [chamber] = numbers("Volumes", r"Volumes / Cyl 1 / Chamber")
    [crown] = numbers("Volumes", r"Volumes / Cyl 1 / Crown")
    clearance = chamber + crown + disc(bore, sum(decks) / 2) + disc(gasket_bore, gasket)
    ratio = (disc(bore, stroke) + clearance) / clearance
    records = book.read.records
    [found] = [r for r in records if r.name == "ENG.COMPRESSION_RATIO"
               and str(r.label) == "Compression ratio, Cyl 1"]  # fmt: skip
    assert found.saved == pytest.approx(ratio, rel=1e-9)

    n = book.plan.cylinders
    parts = {p: numbers("Balance", rf"Weights / Cyl \d+ / {p}")
             for p in ("Piston", "Pin", "Small end", "Big end")}  # fmt: skip
    assert {len(v) for v in parts.values()} == {n}
    means = {p: sum(v) / n for p, v in parts.items()}
    for part in ("Ring set", "Locks, both", "Shells, pair"):
        [means[part]] = numbers("Balance", f"One of each / {part}")
    [share] = numbers("Balance", r"Balance / Share of .*")
    [oil] = numbers("Balance", r"Balance / Oil .*")
    around = means.pop("Big end") + means.pop("Shells, pair")
    bobweight = book.plan.rods_per_journal * (around + share * sum(means.values())) + oil
    [found] = [r for r in records if r.name == "ENG.BOBWEIGHT" and not r.computed_by_batch]
    assert found.saved == pytest.approx(bobweight, rel=1e-9)


def test_the_job_is_read_from_its_names(book):
    job = book.read.job
    assert (job.number.text, job.customer.text) == ("QER-0447", "Thessaly Wrenfield")
    assert job.builder.text == "Ines Tarrow"
    assert (job.started.text, job.finished.text) == ("2025-04-22", "2025-06-03")


@pytest.mark.parametrize("plan", of_each(PLANS[::4]))
def test_a_round_trip_through_libreoffice_keeps_names_checks_and_paper(plan, calculated):
    book = calculated(plan)
    before, after = map(openpyxl.load_workbook, (book.written, book.filled_saved))
    for name in ("job_number", "customer", "engine", "builder", "started", "finished"):
        places = [list(b.defined_names[name].destinations) for b in (before, after)]
        assert places[0] == places[1], name
    for old in before:
        new = after[old.title]
        assert new.print_area == old.print_area
        assert new.page_setup.paperSize == old.page_setup.paperSize
        assert (new.page_setup.orientation or "portrait") == old.page_setup.orientation
        assert new.protection.sheet
        checked = [
            {
                a
                for v in s.data_validations.dataValidation
                for r in v.sqref.ranges
                for a in _cells(r)
            }
            for s in (old, new)
        ]
        assert checked[0] == checked[1], old.title


def _cells(area):
    return [(row, column) for row, column in area.cells]


def test_a_reading_that_is_no_number_does_not_hide_the_count_of_the_others(calculated):
    values = values_in(calculated(CHANGED).odd_saved)
    before = calculated(CHANGED).values
    row = next(a for (s, a), v in before.items() if (s, v) == ("Release", "Deck"))[1:]
    within, waiting = (tuple(v["Release", c + row] for v in (before, values)) for c in "BE")
    # The deck clearance of the cylinder, its quench cold, hot and running, and the spread of all
    # have no verdict any more.
    assert (within[1], waiting) == (within[0] - 5, (0, 5))


def test_without_the_add_in_the_names_inside_give_the_same(book):
    import ironcalc

    # As our code writes it: saving with LibreOffice damages such names.
    engine = ironcalc.load_from_xlsx(str(book.filled), "en", "UTC", "en")
    engine.evaluate()
    values = book.values
    for sheet, address, text in book.formulas:
        cell = openpyxl.utils.cell.coordinate_to_tuple(address)
        got, wanted = engine.get_cell_value(book.titles.index(sheet), *cell), values[sheet, address]
        where = f"{sheet}!{address}: {text}"
        if isinstance(wanted, (int, float)):
            assert got == pytest.approx(wanted, rel=1e-9, abs=1e-9), where
        else:
            assert (got or None) == (wanted or None), where


def test_without_the_add_in_an_empty_book_has_no_error_either(book):
    import ironcalc

    engine = ironcalc.load_from_xlsx(str(book.written), "en", "UTC", "en")
    engine.evaluate()
    for sheet, address, text in book.formulas:
        cell = openpyxl.utils.cell.coordinate_to_tuple(address)
        got = engine.get_cell_value(book.titles.index(sheet), *cell)
        assert not str(got).startswith("#"), f"{sheet}!{address}: {got} {text}"


# Where it takes longer, few cylinders and the most; in both systems.
@pytest.mark.parametrize(
    "plans", [FEW, pytest.param((*PLANS[:2], PLANS[8], *PLANS[10:]), marks=pytest.mark.slow)]
)
def test_every_sheet_prints_on_one_page_or_breaks_where_it_says(
    plans, calculated, profile, tmp_path
):
    chosen = [calculated(plan) for plan in plans]
    papers = libreoffice.recalculate([b.filled for b in chosen], tmp_path, profile, to="pdf")
    # A page's own object; the node that holds all pages has a size that none of them need have.
    page = rb"/Type\s*/Page\b(?!s).*?/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)"
    for book, path in zip(chosen, papers, strict=True):
        boxes = re.findall(page, path.read_bytes(), re.DOTALL)
        sheets = openpyxl.load_workbook(book.filled)
        assert len(boxes) == sum(1 + len(sheet.row_breaks.brk) for sheet in sheets)
        # ANSI letter and ISO 216 A4, in points.
        paper = (595, 842) if book.plan.metric else (612, 792)
        assert {tuple(sorted(round(float(x)) for x in box)) for box in boxes} == {paper}


@pytest.mark.parametrize("plan", of_each(PLANS[::5]))
def test_the_archive_passes_openpyxl(plan, calculated, tmp_path):
    book = calculated(plan)
    again = tmp_path / "again.xlsx"
    openpyxl.load_workbook(book.written).save(again)
    assert formulas_in(again) == book.formulas
    with zipfile.ZipFile(book.written) as archive:
        assert archive.testzip() is None
