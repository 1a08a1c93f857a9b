"""What a build book is made of: checks, locks, names, paper, and refusals that say why."""

from __future__ import annotations

import re

import openpyxl
import pytest

from workbook_tools.buildbook import OPTIONAL_SHEETS, BuildBookError, fields, new_book, plan_for
from workbook_tools.buildbook.book import drafted, save
from workbook_tools.catalog import find
from workbook_tools.quantities import TEMPERATURE, read_text, unit_named


@pytest.fixture(scope="module")
def book(empty_v8):
    return openpyxl.load_workbook(empty_v8)


def test_the_report_says_what_was_made(tmp_path):
    report = new_book(tmp_path / "job.xlsx", 4, "metric", scope="short")
    assert report.path.exists()
    plan = plan_for(4, "metric", "inline", mains=5, rods_per_journal=1, scope="short")
    assert report.plan == plan
    assert list(report.sheets) == openpyxl.load_workbook(report.path, read_only=True).sheetnames


@pytest.mark.parametrize(
    ("cylinders", "layout", "mains", "journals"),
    # common practice, no source: one main between each two throws and at both ends.
    [(1, None, 2, 1), (4, None, 5, 4), (6, "inline", 7, 6), (8, "v", 5, 4), (12, "v", 7, 6),
     (2, "flat", 3, 2)],
)  # fmt: skip
def test_what_a_layout_usually_has(cylinders, layout, mains, journals):
    plan = plan_for(cylinders, "inch", layout)
    assert (plan.mains, plan.journals) == (mains, journals)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"cylinders": 0, "units": "inch"}, "cylinders: expected 1 to 16, got 0"),
        ({"cylinders": 17, "units": "inch"}, "cylinders: expected 1 to 16"),
        ({"cylinders": 4, "units": "cubits"}, "units: expected inch or metric, got cubits"),
        ({"cylinders": 4, "units": "inch", "layout": "radial"}, "layout: expected inline, v"),
        ({"cylinders": 5, "units": "inch", "layout": "v"}, "an even number"),
        ({"cylinders": 2, "units": "inch", "layout": "single"}, "expected 1 with the layout"),
        ({"cylinders": 4, "units": "inch", "mains": 1}, "mains: expected 2 to 17, got 1"),
        ({"cylinders": 4, "units": "inch", "mains": 0}, "mains: expected 2 to 17, got 0"),
        ({"cylinders": 4, "units": "inch", "rods_per_journal": 0}, "rods per journal"),
        ({"cylinders": 4, "units": "inch", "valves": 3}, "valves: expected 2 or 4"),
        ({"cylinders": 8, "units": "inch", "rods_per_journal": 3}, "rods per journal"),
        ({"cylinders": 4, "units": "inch", "without": ("Job",)}, "without: expected any of"),
    ],
)
def test_a_book_that_cannot_be_is_refused_with_the_reason(asked, words, tmp_path):
    with pytest.raises(BuildBookError, match=words):
        new_book(tmp_path / "job.xlsx", **asked)
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_overwritten(tmp_path):
    there = tmp_path / "job.xlsx"
    there.write_bytes(b"a year of work")
    with pytest.raises(BuildBookError, match="exists already"):
        new_book(there, 4, "inch")
    assert there.read_bytes() == b"a year of work"


def test_a_name_that_cannot_be_written_is_refused(tmp_path):
    with pytest.raises(BuildBookError, match="cannot be written"):
        new_book(tmp_path / ("a" * 300 + ".xlsx"), 1, "inch", scope="heads")


def test_a_wrong_ending_or_folder_is_refused(tmp_path):
    with pytest.raises(BuildBookError, match=r"ends in \.xlsx"):
        new_book(tmp_path / "job.ods", 4, "inch")
    with pytest.raises(BuildBookError, match="no folder"):
        new_book(tmp_path / "none" / "job.xlsx", 4, "inch")


def test_sheets_for_work_that_is_not_done_can_be_left_out():
    book = drafted(plan_for(4, "inch", without=OPTIONAL_SHEETS)).workbook
    assert not set(OPTIONAL_SHEETS) & set(book.sheetnames)
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert not any(f"{name}!" in str(cell.value) for name in OPTIONAL_SHEETS)


def test_job_fields_have_names_that_point_into_the_job_sheet(book):
    for name in ("job_number", "customer", "engine", "builder", "started", "finished"):
        [(title, address)] = book.defined_names[name].destinations
        assert title == "Job"
        assert book[title][address.replace("$", "")].value is None


def test_every_typed_number_is_checked_and_says_its_unit(book):
    checks = {}
    for sheet in book:
        for check in sheet.data_validations.dataValidation:
            for area in check.sqref.ranges:
                for row, column in area.cells:
                    checks[sheet.title, row, column] = check
    numbers = [f for f in fields(plan_for(8, "inch", "v")) if f.quantity is not None]
    assert len(numbers) > 300
    for item in numbers:
        spot = openpyxl.utils.cell.coordinate_to_tuple(item.address)
        check = checks[item.sheet, *spot]
        assert check.type == "custom"
        assert check.errorStyle == "warning"
        # A text with its own unit, as the message proposes it, is no reason to ask.
        assert ("ISTEXT" in check.formula1) == bool(item.quantity.others[0])
        assert "expected a number from" in check.error
        unit = item.quantity.units[0]
        assert not unit or f"Unit: {unit}." in check.prompt
        other = item.quantity.others[0]
        assert not other or f"as in {other}." in check.error


@pytest.mark.parametrize("units", ["inch", "metric"])
def test_another_unit_is_offered_as_it_is_read(units):
    plan = plan_for(4, units)
    offered = {f.quantity for f in fields(plan) if f.quantity and f.quantity.other(plan)}
    assert len(offered) > 5
    for quantity in offered:
        # A temperature is the one kind whose unit is no plain factor.
        unit = quantity.unit(plan)
        kind = TEMPERATURE if unit.startswith("deg") else unit_named(unit)[0]
        assert read_text(quantity.other(plan), kind, units) > 0
        assert not quantity.other(plan).endswith(f" {quantity.unit(plan)}")


def test_no_other_unit_is_offered_where_cells_are_only_added_up(book):
    typed = {(f.sheet, f.address): f.quantity for f in fields(plan_for(8, "inch", "v"))}
    sums = 0
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                text = str(getattr(cell.value, "text", cell.value))
                terms = re.findall(
                    r"(?<=[,+-])\$?[A-Z]+\$?\d+(?=[+-])|(?<=[+-])\$?[A-Z]+\$?\d+", text
                )
                for term in terms if "ENG." not in text and text.startswith("=") else ():
                    quantity = typed.get((sheet.title, term.replace("$", "")))
                    sums += quantity is not None
                    assert quantity is None or quantity.others == ("", ""), (sheet.title, text)
    assert sums > 50


def test_the_cursor_stands_in_the_first_cell_to_fill_in(book):
    first = {}
    for item in fields(plan_for(8, "inch", "v")):
        first.setdefault(item.sheet, item.address)
    for sheet in book:
        if sheet.title in first:
            assert sheet.sheet_view.selection[0].activeCell == first[sheet.title]


def test_words_that_are_typed_are_not_counted_as_verdicts(book):
    typed = {(f.sheet, openpyxl.utils.cell.coordinate_to_tuple(f.address))
             for f in fields(plan_for(8, "inch", "v"))}  # fmt: skip
    counts = 0
    for row in book["Release"].iter_rows():
        for cell in row:
            text = str(cell.value)
            if not text.startswith("=") or '"ok"' not in text:
                continue
            counts += 1
            for area in re.findall(r"([^(+,=]+![$A-Z0-9:]+)", text):
                title, _, cells = area.partition("!")
                title = title.strip("'")
                for found in openpyxl.utils.cell.rows_from_range(cells.replace("$", "")):
                    for address in found:
                        spot = openpyxl.utils.cell.coordinate_to_tuple(address)
                        assert (title, spot) not in typed, (title, address)
    assert counts > 10


def test_checks_keep_to_what_excel_can_hold(book):
    # ECMA-376 part 1, 18.3.1.32: at most 255 characters of text and 32 of title.
    for sheet in book:
        for check in sheet.data_validations.dataValidation:
            assert len(check.error or "") <= 255
            assert len(check.prompt or "") <= 255
            assert len(check.promptTitle or "") <= 32
            assert len(check.errorTitle or "") <= 32
            assert check.type != "list" or len(check.formula1) <= 257


def test_verdicts_carry_a_sign_and_a_word_beside_their_color(book):
    for sheet in book:
        rules = [r for area in sheet.conditional_formatting for r in area.rules]
        if not rules:
            continue
        shown = {r.formula[0]: r.dxf.numFmt.formatCode for r in rules}
        assert shown == {'"ok"': '"✓ "@', '"low"': '"▼ "@', '"high"': '"▲ "@'}
        assert len({r.priority for r in rules}) == 3


def test_every_call_is_of_a_function_that_works_without_the_add_in(book):
    from workbook_tools.hosts.portable import portability

    reasons = portability()
    called = set()
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                text = str(getattr(cell.value, "text", cell.value))
                called |= {part.partition("(")[0] for part in text.split("ENG.")[1:] if "(" in part}
    assert len(called) > 25
    for name in called:
        assert find(name) is not None, name
        assert not reasons[name], name
        assert f"ENG.{name}" in book.defined_names


def test_the_names_of_fields_are_their_own():
    names = [(f.sheet, f.name) for f in fields(plan_for(12, "metric", "v", valves=4))]
    assert len(names) == len(set(names))


def test_mains_and_rods_have_a_use_each_and_rods_none_of_an_aluminum_block(book):
    sheet = book["Bearings"]
    starts = {
        row[0].value: row[3].value
        for row in sheet.iter_rows(max_row=14)
        if str(row[0].value).startswith("Use of the engine, for ")
    }
    mains, rods = (starts[f"Use of the engine, for {part}"] for part in ("mains", "rods"))
    assert '"aluminum block"' in mains
    assert "aluminum" not in rods


def test_only_formulas_are_locked_and_bands_may_start_with_one(book):
    begun = {(f.sheet, f.address) for f in fields(plan_for(8, "inch", "v"))}
    for sheet in book:
        assert sheet.protection.sheet
        assert not sheet.protection.password
        for row in sheet.iter_rows():
            for cell in row:
                text = str(getattr(cell.value, "text", cell.value) or "")
                if text.startswith("="):
                    typed = (sheet.title, cell.coordinate) in begun
                    assert cell.protection.locked != typed, (sheet.title, cell.coordinate)


@pytest.mark.parametrize(
    ("scope", "most", "most_required"),
    [("complete", 1400, 700), ("short", 1100, 500), ("heads", 500, 150)],
)
def test_a_v8_asks_for_no_more_than_a_builder_fills_in(scope, most, most_required, tmp_path):
    plan = plan_for(8, "inch", "v", scope=scope)
    cells = fields(plan)
    required = [f for f in cells if f.required]
    assert len(cells) <= most
    assert 100 < len(required) <= most_required
    # What is required looks so without color: a heavy edge at its left.
    book = drafted(plan).workbook
    for item in cells:
        edge = book[item.sheet][item.address].border.left.style
        assert (edge == "thick") == item.required, (item.sheet, item.name)


@pytest.mark.parametrize("scope", ["short", "heads"])
def test_a_smaller_scope_hangs_on_no_sheet_that_it_has_not(scope, tmp_path):
    import ironcalc

    draft = drafted(plan_for(8, "inch", "v", scope=scope))
    save(draft, tmp_path / "job.xlsx")
    engine = ironcalc.load_from_xlsx(str(tmp_path / "job.xlsx"), "en", "UTC", "en")
    engine.evaluate()
    formulas = 0
    for number, sheet in enumerate(draft.workbook):
        for row in sheet.iter_rows():
            for cell in row:
                text = str(getattr(cell.value, "text", cell.value))
                if text.startswith("="):
                    formulas += 1
                    got = engine.get_cell_value(number, cell.row, cell.column)
                    assert not str(got).startswith("#"), (sheet.title, cell.coordinate, text)
    assert formulas > 100


def test_a_slip_of_the_decimal_point_is_asked_about_beside_its_row(tmp_path):
    import ironcalc

    draft = drafted(plan_for(4, "inch"))
    gaps = [f for f in draft.fields if f.sheet == "Rings" and f.name.endswith("/ Top gap")]
    sheet = draft.workbook["Rings"]
    for item, gap in zip(gaps, (0.019, 0.19, 0.018, 0.0195), strict=True):
        sheet[item.address] = gap
    save(draft, tmp_path / "slip.xlsx")
    engine = ironcalc.load_from_xlsx(str(tmp_path / "slip.xlsx"), "en", "UTC", "en")
    engine.evaluate()
    number = draft.workbook.sheetnames.index("Rings")
    column = next(p for p in draft.pages if p.title == "Rings").columns + 1
    rows = [sheet[item.address].row for item in gaps]
    asked = [engine.get_cell_value(number, row, column) for row in rows]
    assert asked == ["", "Top gap? ", "", ""]


def test_a_typed_cell_shows_what_was_typed(book):
    # ECMA-376 part 1, 18.8.31: "?" shows a digit where there is one.
    plan = plan_for(8, "inch", "v")
    [stroke] = [f for f in fields(plan) if f.name == "Combination 1 / Stroke"]
    assert book[stroke.sheet][stroke.address].number_format == "0.0000??_ "


def test_a_check_argues_with_slips_alone(tmp_path):
    import ironcalc

    typed = [
        ("Deck / Cyl 2 / Deck, rocked one way", "2 thou", True),
        ("Deck / Cyl 2 / Deck, rocked one way", -0.002, True),
        ("Deck / Cyl 2 / Deck, rocked one way", "two", False),
        ("Deck / Cyl 2 / Deck, rocked one way", 2, False),
        ("Parts / Crankshaft / Size marked", 0.010, True),
        ("Parts / Main bearing shells / Size measured", 0.010, True),
        ("/ Cyl 1 / Top gap", 0.0195, True),
        ("/ Cyl 1 / Top gap", 19.5, False),
        ("Bores / Cyl 1 / top / Bore, across the crank", 3.9995, True),
        ("Bores / Cyl 1 / top / Bore, across the crank", 39.995, False),
    ]
    draft = drafted(plan_for(4, "inch"))
    tried = openpyxl.Workbook()
    for row, (name, content, _) in enumerate(typed, 1):
        [item] = [f for f in draft.fields if f.name.endswith(name)]
        place = openpyxl.utils.cell.coordinate_to_tuple(item.address)
        sheet = draft.workbook[item.sheet]
        [check] = [
            v
            for v in sheet.data_validations.dataValidation
            if any(area.min_row <= place[0] <= area.max_row and area.min_col == place[1]
                   for area in v.sqref.ranges)
        ]  # fmt: skip
        first = next(iter(check.sqref.ranges))
        # A check's formula is told for the first of its cells.
        corner = openpyxl.utils.cell.get_column_letter(first.min_col) + str(first.min_row)
        tried.active[f"A{row}"] = content
        tried.active[f"B{row}"] = "=" + re.sub(rf"\b{corner}\b", f"A{row}", check.formula1)
    tried.save(tmp_path / "tried.xlsx")
    engine = ironcalc.load_from_xlsx(str(tmp_path / "tried.xlsx"), "en", "UTC", "en")
    engine.evaluate()
    for row, (name, content, passes) in enumerate(typed, 1):
        assert engine.get_cell_value(0, row, 2) is passes, (name, content)
