"""Calls rewritten between ENG.X and ENG_X: formulas only, and nothing else in the book."""

import re
import zipfile

import ironcalc
import pytest
from rich_books import MAIN, differing_members, main_part, rich_book, with_members

from workbook_tools.formulas.call_names import called_names
from workbook_tools.hosts.archive import EditError
from workbook_tools.hosts.portable import portable
from workbook_tools.hosts.translate import translate, translate_formula

SHEET, TABLE = "xl/worksheets/sheet1.xml", "xl/tables/table1.xml"


@pytest.mark.parametrize(
    ("underscored", "dotted"),
    [
        ("ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("1+ENG_QUENCH(ENG_DECK_CLEARANCE(A1,A2,A3,A4),B9)/2",
         "1+ENG.QUENCH(ENG.DECK_CLEARANCE(A1,A2,A3,A4),B9)/2"),
        ("IF(A1>0,@ENG_QUENCH (B7,B9),-ENG_QUENCH(B7,B9))",
         "IF(A1>0,@ENG.QUENCH (B7,B9),-ENG.QUENCH(B7,B9))"),
        ('ENG_QUENCH(B7,"ENG_QUENCH(1)")&"say ""ENG_QUENCH(1)"""',
         'ENG.QUENCH(B7,"ENG_QUENCH(1)")&"say ""ENG_QUENCH(1)"""'),
        ("ENG_QUENCH('ENG_QUENCH (2)'!B7,'it''s ENG_QUENCH('!B9)",
         "ENG.QUENCH('ENG_QUENCH (2)'!B7,'it''s ENG_QUENCH('!B9)"),
        ("ENG_QUENCH(Parts[ENG_QUENCH],Parts[[#This Row],[ENG_QUENCH(]])",
         "ENG.QUENCH(Parts[ENG_QUENCH],Parts[[#This Row],[ENG_QUENCH(]])"),
        ("Parts[odd ']ENG_QUENCH(']+ENG_QUENCH(1,2)", "Parts[odd ']ENG_QUENCH(']+ENG.QUENCH(1,2)"),
    ],
)  # fmt: skip
def test_both_ways(underscored, dotted):
    assert translate_formula(underscored, "dot") == dotted
    assert translate_formula(dotted, "vba") == underscored
    assert translate_formula(underscored, "vba") == underscored
    assert translate_formula(dotted, "dot") == dotted


@pytest.mark.parametrize(
    ("formula", "dotted"),
    [
        ("eng_quench(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("[1]!ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("[1]!ENG.QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        (r"'C:\Users\me\it''s mine.xlam'!ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("tools.xlam!ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("A1-tools.xlam!ENG_QUENCH(B7,B9)", "A1-ENG.QUENCH(B7,B9)"),
        ("_xludf.ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("_xludf.ENG.QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("_xldudf_ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("_xll.ENG_QUENCH(B7,B9)", "ENG.QUENCH(B7,B9)"),
        ("tools.xla!_xldudf_ENG_QUENCH(1,2)", "ENG.QUENCH(1,2)"),
        ("Deck!ENG_QUENCH(B7,B9)", "Deck!ENG.QUENCH(B7,B9)"),
    ],
)
def test_what_programs_put_before_a_call(formula, dotted):
    assert translate_formula(formula, "dot") == dotted


@pytest.mark.parametrize(
    "formula",
    [
        "ENG_QUENCHES(B7,B9)",
        "MY_ENG_QUENCH(B7,B9)",
        "MY.ENG_QUENCH(B7,B9)",
        "ENG_QUENCH+1",
        "ENGINE_QUENCH(1)",
        "ENG(1)",
        "SUM(ENG1:ENG9)",
        "ÄENG_QUENCH(1)",
    ],
)
def test_what_is_no_call_of_ours_stays(formula):
    assert translate_formula(formula, "dot") == formula
    assert translate_formula(formula, "vba") == formula


def test_a_call_through_an_add_in_stays_for_vba():
    assert translate_formula("[1]!ENG_QUENCH(B7,B9)", "vba") == "[1]!ENG_QUENCH(B7,B9)"


def test_a_call_tells_what_it_is():
    [known, unknown] = called_names("'a b.xlam'!ENG_QUENCH(1,2)+ENG.QENCH(1)")
    assert (known.name, known.dotted, known.in_add_in) == ("QUENCH", False, True)
    assert (unknown.name, unknown.spelled, unknown.dotted) == ("", "ENG.QENCH", True)


@pytest.fixture(params=[".xlsx", ".xlsm"])
def rich(request, tmp_path):
    return rich_book(tmp_path / f"rich{request.param}")


def part(path, name):
    with zipfile.ZipFile(path) as archive:
        return archive.read(name).decode()


def test_every_place_of_a_formula_is_translated(rich, tmp_path):
    out = tmp_path / f"out{rich.suffix}"
    report = translate(rich, out, "dot")
    assert differing_members(rich, out) == {MAIN, SHEET, "xl/worksheets/sheet2.xml", TABLE}
    sheet = part(out, SHEET)
    assert '<f>ENG.QUENCH(B2,B3)&amp;" by ENG_QUENCH(B2,B3)"</f>' in sheet
    assert '<formula>ENG.QUENCH(B2,B3)&lt;"ENG_"</formula>' in sheet
    assert "<formula1>ENG.QUENCH(B2,B3)&gt;0.03</formula1>" in sheet
    lowest = "ENG.QUENCH($B$2,0.01)+LEN(&quot;ENG_QUENCH(&quot;)*0"
    assert f'<cfvo type="formula" val="{lowest}"/>' in sheet
    assert "<xm:f>ENG.QUENCH($B$2,0.02)</xm:f>" in sheet
    assert "ENG.QUENCH(Table1[[#This Row],[ENG_QUENCH]],1)" in part(out, TABLE)
    assert 'name="ENG_QUENCH"' in part(out, TABLE)
    assert ">ENG.QUENCH('Deck &amp; quench'!$B$2,0.03)</definedName>" in main_part(out)
    assert report.functions == ("ENG.QUENCH",)
    # Cell, conditional format, color scale, data bar in its old and its new form, validation,
    # defined name, the table's column and its two cells.
    assert report.formulas == 10
    assert report.unknown == ()


def test_there_and_back_is_the_same_book(rich, tmp_path):
    there, back = tmp_path / f"there{rich.suffix}", tmp_path / f"back{rich.suffix}"
    translate(rich, there, "dot")
    report = translate(there, back, "vba")
    assert report.functions == ("ENG_QUENCH",)
    # The one call that was dotted from the start is all that differs.
    assert differing_members(rich, back) == {SHEET}
    assert part(back, SHEET) == part(rich, SHEET).replace(
        "<f>ENG.QUENCH(B2,B3)</f>", "<f>ENG_QUENCH(B2,B3)</f>"
    )


def test_there_and_back_quotation_marks_are_written_as_they_were(rich, tmp_path):
    text = part(rich, SHEET).replace('&amp;" by ENG_QUENCH(B2,B3)"', "&amp;&quot;&apos;n&quot;")
    assert "&quot;&apos;n&quot;" in text
    other = with_members(rich, tmp_path / f"other{rich.suffix}", **{SHEET: text})
    there, back = tmp_path / f"there{rich.suffix}", tmp_path / f"back{rich.suffix}"
    translate(other, there, "dot")
    translate(there, back, "vba")
    assert part(back, SHEET) == text.replace("<f>ENG.QUENCH(B2,B3)</f>", "<f>ENG_QUENCH(B2,B3)</f>")


def test_saved_values_and_strings_stay(rich, tmp_path):
    out = tmp_path / f"out{rich.suffix}"
    translate(rich, out, "dot")
    before, after = (re.findall(r"<v>[^<]*</v>", part(p, SHEET)) for p in (rich, out))
    assert after == before
    assert "<v>0.04 by ENG_</v>" in after
    assert "<v>#NAME?</v>" in after


def test_the_copy_is_calculated_on_opening(rich, tmp_path):
    odd = tmp_path / f"odd{rich.suffix}"
    text = main_part(rich).replace(' fullCalcOnLoad="1"', "")
    assert "fullCalcOnLoad" not in text
    with_members(rich, odd, **{MAIN: text})
    out = tmp_path / f"out{rich.suffix}"
    translate(odd, out, "dot")
    assert 'fullCalcOnLoad="1"' in main_part(out)


def test_translated_and_portable_it_calculates_in_an_engine(tmp_path):
    rich = rich_book(tmp_path / "rich.xlsx")
    translate(rich, tmp_path / "dotted.xlsx", "dot")
    portable(tmp_path / "dotted.xlsx", tmp_path / "out.xlsx", only=True)
    model = ironcalc.load_from_xlsx(str(tmp_path / "out.xlsx"), "en", "UTC", "en")
    model.evaluate()
    assert model.get_cell_value(0, 4, 2) == pytest.approx(0.04)
    assert model.get_cell_value(0, 5, 2) == "0.04 by ENG_QUENCH(B2,B3)"


def test_a_book_without_calls_is_copied_as_it_is(tmp_path):
    rich = rich_book(tmp_path / "rich.xlsx")
    translate(rich, tmp_path / "dotted.xlsx", "dot")
    report = translate(tmp_path / "dotted.xlsx", tmp_path / "again.xlsx", "dot")
    assert (report.formulas, report.functions) == (0, ())
    assert differing_members(tmp_path / "dotted.xlsx", tmp_path / "again.xlsx") == set()


def test_unknown_functions_are_told_and_left(tmp_path):
    rich = rich_book(tmp_path / "rich.xlsx")
    sheet = part(rich, SHEET).replace("<f>ENG.QUENCH(B2,B3)</f>", "<f>ENG_QENCH(B2,B3)</f>")
    odd = with_members(rich, tmp_path / "odd.xlsx", **{SHEET: sheet})
    report = translate(odd, tmp_path / "out.xlsx", "dot")
    assert report.unknown == ("ENG_QENCH",)
    assert "<f>ENG_QENCH(B2,B3)</f>" in part(tmp_path / "out.xlsx", SHEET)


def test_a_shared_formula_is_translated_where_it_is_written(tmp_path):
    rich = rich_book(tmp_path / "rich.xlsx")
    shared = (
        '<row r="50"><c r="F50"><f t="shared" ref="F50:F51" si="0">ENG_QUENCH(B2,B3)</f><v>1</v>'
        '</c></row><row r="51"><c r="F51"><f t="shared" si="0"/><v>2</v></c></row>'
    )
    sheet = part(rich, SHEET).replace("</sheetData>", f"{shared}</sheetData>")
    odd = with_members(rich, tmp_path / "odd.xlsx", **{SHEET: sheet})
    translate(odd, tmp_path / "out.xlsx", "dot")
    after = part(tmp_path / "out.xlsx", SHEET)
    assert shared.replace("ENG_", "ENG.") in after


def test_a_sheet_that_is_no_xml_is_named(tmp_path):
    rich = rich_book(tmp_path / "rich.xlsx")
    odd = with_members(rich, tmp_path / "odd.xlsx", **{SHEET: "<worksheet>ENG_</sheet>"})
    with pytest.raises(EditError, match=r"odd\.xlsx: its part xl/worksheets/sheet1\.xml"):
        translate(odd, tmp_path / "out.xlsx", "dot")
    assert not (tmp_path / "out.xlsx").exists()
