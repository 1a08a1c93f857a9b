"""A builder's book with ENG calls beside its own arithmetic: what is added, what stays."""

import math
import zipfile

import ironcalc
import openpyxl
import pytest
import xlsxwriter

from workbook_tools.annotate import annotate
from workbook_tools.books.opening import read_cells
from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.hosts.archive import EditError
from workbook_tools.jobs.read import read_book

HEADS = ["Cyl", "Bore (in)", "Piston (in)", "Piston clearance (in)"]
BORES = [4.0312, 4.0309, 4.0314, 4.0311, 4.0313, 4.0310]
PISTONS = [4.0270, 4.0268, 4.0271, 4.0268, 4.0272, 4.0269]
FIRST = 9


def builders_book(path, *, typed_over=None, extra_sheet=None, stroke=3.48):
    """An invented shop's straight six: arithmetic of its own, a chart, a note, a list, macros."""
    book = xlsxwriter.Workbook(path)
    if path.suffix == ".xlsm":
        macros = path.with_suffix(".bin")
        macros.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 no macro that runs")
        book.add_vba_project(str(macros))
    sheet = book.add_worksheet("Build sheet")
    fields = (("Job number", "2207"), ("Customer", "A. Sample"), ("Engine", "Straight six"))
    for row, (head, text) in enumerate(fields):
        sheet.write_row(row, 0, [head, text])
    sheet.write_row(3, 0, ["Stroke (in)", stroke])
    sheet.write_row(4, 0, ["Cylinders", 6])
    sheet.write_row(FIRST - 2, 0, HEADS)
    for n, (bore, piston) in enumerate(zip(BORES, PISTONS, strict=True)):
        row = FIRST - 1 + n
        sheet.write_row(row, 0, [n + 1, bore, piston])
        if typed_over and n + 1 in typed_over:
            sheet.write_number(row, 3, typed_over[n + 1])
        else:
            sheet.write_formula(row, 3, f"=B{row + 1}-C{row + 1}", None, bore - piston)
    sheet.write_comment("B9", "Measured at 68 F.")
    sheet.data_validation("B5", {"validate": "list", "source": [4, 6, 8]})
    chart = book.add_chart({"type": "column"})
    chart.add_series({"values": "='Build sheet'!$D$9:$D$14"})
    sheet.insert_chart("G2", chart)
    if extra_sheet:
        book.add_worksheet(extra_sheet)
    book.close()
    return path


def parts(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


def formulas(path, sheet="Build sheet"):
    found = next(s for s in read_cells(path).sheets if s.title == sheet)
    return {at: cell.formula for at, cell in found.cells.items() if cell.formula}


@pytest.fixture(scope="module", params=[".xlsx", ".xlsm"])
def made(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("annotated")
    book = builders_book(folder / f"book{request.param}")
    out = folder / f"new{request.param}"
    return book, out, annotate(book, out)


def test_each_result_is_a_call_on_the_builders_own_cells_beside_his_figure(made):
    _, out, report = made
    lines = {line.label: line for line in report.lines}
    third = lines["Piston clearance, Cyl 3"]
    assert third.call == "ENG.PISTON_CLEARANCE('Build sheet'!B11,'Build sheet'!C11)"
    assert third.figure == "'Build sheet'!D11"
    assert third.value == pytest.approx(4.0314 - 4.0271, abs=1e-12)
    # Handbook arithmetic: pi/4 times bore squared, stroke and number, by the mean of squares.
    swept = math.pi / 4 * sum(b * b for b in BORES) * 3.48
    assert lines["Displacement"].value == pytest.approx(swept, rel=1e-9)
    assert lines["Displacement"].agrees is None
    sheet = openpyxl.load_workbook(out)["ENG"]
    rows = {row[0]: row for row in sheet.iter_rows(values_only=True) if row[0]}
    assert rows["Result"] == ("Result", "Unit", "By ENG", "In the book", "Compared")
    assert rows["Piston clearance, Cyl 3"][1:4] == ("in", f"={third.call}", f"={third.figure}")
    saved = openpyxl.load_workbook(out, data_only=True)["ENG"]
    told = [row[4] for row in saved.iter_rows(values_only=True) if row[4] in ("agrees", "differs")]
    assert told == ["agrees"] * 6


def test_everything_else_is_byte_for_byte_the_same(made):
    book, out, _ = made
    before, after = parts(book), parts(out)
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"}
    assert set(after) - set(before) == {"xl/worksheets/sheet2.xml"}
    assert {"xl/charts/chart1.xml", "xl/comments1.xml"} <= set(before)


def test_the_fields_of_the_job_have_names(made):
    _, out, report = made
    assert report.names["job_number"] == "'Build sheet'!$B$1"
    names = openpyxl.load_workbook(out).defined_names
    assert names["engine"].attr_text == "'Build sheet'!$B$3"
    job = read_book(out).job
    assert (job.number.text, job.customer.text) == ("2207", "A. Sample")


def test_from_then_on_it_is_read_by_calls(made):
    book, out, _ = made
    before, after = read_book(book), read_book(out)

    def by_call(read):
        return {r.place for r in read.readings if any(e.how == "call" for e in r.evidence)}

    assert by_call(before) == set()
    cells = {Place("Build sheet", f"{c}{r}") for c in "BC" for r in range(FIRST, FIRST + 6)}
    assert cells <= by_call(after)
    assert {r.place for r in before.readings} <= {r.place for r in after.readings}
    assert all(r.state == "same" for r in after.records if not r.computed_by_batch)


def test_what_a_figure_contradicts_is_found_after_as_before(tmp_path):
    book = builders_book(tmp_path / "book.xlsx", typed_over={4: 0.0061})
    annotate(book, tmp_path / "new.xlsx")
    before, after = (check(read_book(tmp_path / name)) for name in ("book.xlsx", "new.xlsx"))
    assert [(f.code, f.place) for f in before] == [
        ("typed-over", Place("Build sheet", "D12")),
    ]
    assert [(f.code, f.place) for f in after] == [(f.code, f.place) for f in before]


def test_the_functions_can_travel_in_it(tmp_path):
    out = tmp_path / "new.xlsx"
    annotate(builders_book(tmp_path / "book.xlsx"), out, carry=True)
    model = ironcalc.load_from_xlsx(str(out), "en", "UTC", "en")
    model.evaluate()
    rows = [row[0].row for row in openpyxl.load_workbook(out)["ENG"].iter_rows(min_row=6)]
    assert all(isinstance(model.get_cell_value(1, row, 3), float) for row in rows)


def test_calls_take_the_place_of_arithmetic_that_gives_the_same(tmp_path):
    book = builders_book(tmp_path / "book.xlsx")
    report = annotate(book, tmp_path / "new.xlsx", replace=True)
    assert len(report.replaced) == 6
    first = report.replaced[0]
    assert (str(first.place), first.old) == ("'Build sheet'!D9", "=B9-C9")
    assert first.new == "=ENG.PISTON_CLEARANCE(B9,C9)"
    assert formulas(tmp_path / "new.xlsx")[9, 4] == "ENG.PISTON_CLEARANCE(B9,C9)"
    told = openpyxl.load_workbook(tmp_path / "new.xlsx")["ENG"]["A3"].value
    assert "the cells whose formula it replaced" in told
    # The saved values, formats and cells around them stay.
    old, new = (parts(tmp_path / n)["xl/worksheets/sheet1.xml"] for n in ("book.xlsx", "new.xlsx"))
    for one in report.replaced:
        old = old.replace(f"<f>{one.old[1:]}</f>".encode(), f"<f>{one.new[1:]}</f>".encode())
    assert old == new


@pytest.mark.parametrize(
    "typed_over", [{4: 0.0061}, {4: 0.004}], ids=["another size", "a rounded one"]
)
def test_nothing_is_replaced_beside_a_sibling_that_differs(tmp_path, typed_over):
    book = builders_book(tmp_path / "book.xlsx", typed_over=typed_over)
    report = annotate(book, tmp_path / "new.xlsx", replace=True)
    assert report.replaced == ()
    assert formulas(tmp_path / "new.xlsx") == formulas(book)


def test_a_shared_formula_is_replaced_whole_or_not_at_all(tmp_path):
    book = builders_book(tmp_path / "book.xlsx")
    sheet = "xl/worksheets/sheet1.xml"
    for last, wanted in ((14, 6), (15, 0)):
        text = parts(book)[sheet].decode()
        text = text.replace("<f>B9-C9</f>", f'<f t="shared" ref="D9:D{last}" si="0">B9-C9</f>')
        for row in range(10, 15):
            text = text.replace(f"<f>B{row}-C{row}</f>", '<f t="shared" si="0"/>')
        if last == 15:  # A row that no cylinder stands in shares the formula.
            more = '<row r="15"><c r="D15"><f t="shared" si="0"/><v>0</v></c></row>'
            text = text.replace("</sheetData>", f"{more}</sheetData>")
        shared = tmp_path / f"shared{last}.xlsx"
        with zipfile.ZipFile(shared, "w") as package:
            for name, data in parts(book).items():
                package.writestr(name, text.encode() if name == sheet else data)
        report = annotate(shared, tmp_path / f"new{last}.xlsx", replace=True)
        assert len(report.replaced) == wanted
        after = formulas(tmp_path / f"new{last}.xlsx")
        assert after[10, 4] == ("ENG.PISTON_CLEARANCE(B10,C10)" if wanted else "B10-C10")


def test_a_list_of_the_order_of_calculation_gets_the_new_formulas(tmp_path):
    book = builders_book(tmp_path / "book.xlsx")
    chain = b'<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    chained = tmp_path / "chained.xlsx"
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"
    namespace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain"
    with zipfile.ZipFile(chained, "w") as package:
        for name, data in parts(book).items():
            told = data
            if name == "[Content_Types].xml":
                entry = f'<Override PartName="/xl/calcChain.xml" ContentType="{kind}"/></Types>'
                told = data.replace(b"</Types>", entry.encode())
            if name == "xl/_rels/workbook.xml.rels":
                entry = f'<Relationship Id="rId99" Type="{namespace}" Target="calcChain.xml"/>'
                told = data.replace(b"</Relationships>", f"{entry}</Relationships>".encode())
            package.writestr(name, told)
        package.writestr("xl/calcChain.xml", chain + b'<c r="D9" i="1"/></calcChain>')
    report = annotate(chained, tmp_path / "new.xlsx")
    listed = parts(tmp_path / "new.xlsx")["xl/calcChain.xml"].decode()
    count = sum(1 if line.said is None else 3 for line in report.lines)
    assert listed.count('i="2"') == count
    assert '<c r="D9" i="1"/>' in listed


@pytest.mark.parametrize(
    ("book", "told"),
    [
        (lambda folder: builders_book(folder / "book.xlsx", extra_sheet="Eng"), "has a sheet ENG"),
        (lambda folder: _empty(folder / "book.xlsx"), "nothing in it is understood"),
    ],
    ids=["a sheet of that name", "nothing to annotate"],
)
def test_what_cannot_be_annotated_says_what_to_do(tmp_path, book, told):
    with pytest.raises(EditError, match=told):
        annotate(book(tmp_path), tmp_path / "new.xlsx")
    assert not (tmp_path / "new.xlsx").exists()


def _empty(path):
    book = openpyxl.Workbook()
    book.active["A1"] = "Remember the milk"
    book.save(path)
    return path


@pytest.mark.slow
def test_libreoffice_gives_the_same_values_before_and_after(recalculated, tmp_path):
    book = builders_book(tmp_path / "book.xlsx")
    annotate(book, tmp_path / "new.xlsx", replace=True)
    before, after = (_values(recalculated(tmp_path / name)) for name in ("book.xlsx", "new.xlsx"))
    for cell, value in before.items():
        same = pytest.approx(value, rel=1e-9) if isinstance(value, float) else value
        assert after[cell] == same, cell
    assert [v for (sheet, _), v in after.items() if sheet == "ENG"].count("agrees") == 6


def _values(path):
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in openpyxl.load_workbook(path, data_only=True)
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


def test_a_call_that_would_not_give_its_result_from_the_cells_is_left_out(tmp_path):
    # SUMSQ passes over numbers written as text, in every program.
    book = openpyxl.load_workbook(builders_book(tmp_path / "book.xlsx"))
    for row in range(FIRST, FIRST + 6):
        book.active[f"B{row}"] = f"{book.active[f'B{row}'].value} in"
    book.save(tmp_path / "texts.xlsx")
    report = annotate(tmp_path / "texts.xlsx", tmp_path / "new.xlsx")
    assert report.left_out == ("Displacement",)
    assert [line.label for line in report.lines] == [
        f"Piston clearance, Cyl {n}" for n in range(1, 7)
    ]
