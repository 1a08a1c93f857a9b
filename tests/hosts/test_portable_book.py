"""A builder's book with the functions in it as defined names: put in, kept apart, taken out."""

from pathlib import Path

import ironcalc
import pytest
import xlsxwriter
from examples import example
from openpyxl import load_workbook
from rich_books import MAIN, differing_members, main_part, rich_book, with_members
from xlsxwriter.utility import xl_range

from workbook_tools.catalog import calculate, entries, find
from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.archive import EditError
from workbook_tools.hosts.markup import elements
from workbook_tools.hosts.portable import portability, portable
from workbook_tools.quantities import SYSTEMS

PORTABLE = [f for f in entries() if not portability()[f.name]]
# One that looks at a cell itself has no formula; its name says so in words.
ALL = {f.full_name for f in PORTABLE} | {f.full_name for f in entries() if f.sees_cell}


def names_of(path):
    """[(name, sheet or None, text)] as they stand in the file."""
    return [
        (e.attributes["name"], e.attributes.get("localSheetId"), e.text)
        for e in elements(main_part(path).encode(), ("definedName",))
    ]


def ours(path):
    return [name for name, _, text in names_of(path) if "workbook-tools" in text]


def calculated(path, row, column, sheet=0):
    model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    return model.get_cell_value(sheet, row, column)


def small_book(path, *formulas, **names):
    """A book with readings in A1:A4 and formulas in column B, never calculated."""
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet("Deck")
    sheet.write_column("A1", [0.002, 0.038, 9.0, 64])
    for row, formula in enumerate(formulas):
        sheet.write_formula(row, 1, formula, None, "#NAME?")
    for name, text in names.items():
        book.define_name(name.replace("__", "."), text)
    book.close()
    return path


def test_a_call_saved_as_an_unknown_name_is_calculated(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)", '=ENG.QUENCH(A1,A2,"metric")')
    assert calculated(book, 1, 2) == "#NAME?"
    portable(book, tmp_path / "out.xlsx")
    quench = calculate(find("QUENCH"), [0.002, 0.038]).value
    assert calculated(tmp_path / "out.xlsx", 1, 2) == quench
    assert calculated(tmp_path / "out.xlsx", 2, 2) == pytest.approx(0.04)
    # Excel calculates it on opening, whatever value is saved with it.
    assert 'fullCalcOnLoad="1"' in main_part(tmp_path / "out.xlsx")


def test_all_portable_functions_once(tmp_path):
    book = small_book(tmp_path / "book.xlsx")
    report = portable(book, tmp_path / "out.xlsx")
    found = ours(tmp_path / "out.xlsx")
    assert sorted(found) == sorted(ALL)
    assert set(report.added) == ALL
    assert (report.renewed, report.removed, report.kept, report.mended) == ((), (), (), ())


def test_what_sees_a_cell_says_in_words_that_it_needs_an_add_in(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.WHY(A1)", "=ENG.WHY(B3)", "=ENG.QUENCH(A1,A9)")
    report = portable(book, tmp_path / "out.xlsx", only=True)
    assert report.not_portable == (("ENG.WHY", portability()["WHY"]),)
    assert calculated(tmp_path / "out.xlsx", 1, 2) == "No error."
    told = "Error. The reason needs the add-in: see Errors in the manual"
    assert calculated(tmp_path / "out.xlsx", 2, 2) == told


def test_openpyxl_reads_the_names(tmp_path):
    portable(small_book(tmp_path / "book.xlsx"), tmp_path / "out.xlsx")
    read = load_workbook(tmp_path / "out.xlsx").defined_names
    assert set(read) == ALL
    for name in read.values():
        assert name.attr_text.startswith("_xlfn.LAMBDA(")
        assert len(name.comment) <= 255


def test_only_what_the_book_uses(tmp_path):
    book = small_book(
        tmp_path / "book.xlsx",
        "=1+ENG.QUENCH(A1,A2)",
        '="ENG.BORE_TAPER(A1:A2)"',
        "=eng.compression_ratio(700,A4,8,2)",
        least="=ENG.DECK_VOLUME(4,Deck!$A$1)",
    )
    report = portable(book, tmp_path / "out.xlsx", only=True)
    wanted = ("ENG.COMPRESSION_RATIO", "ENG.DECK_VOLUME", "ENG.QUENCH")
    assert report.added == wanted
    assert sorted(ours(tmp_path / "out.xlsx")) == sorted(wanted)
    # Each is complete in itself: those that it calls are inside it.
    assert isinstance(calculated(tmp_path / "out.xlsx", 3, 2), float)


def test_only_keeps_a_function_that_is_handed_on_by_name(tmp_path):
    # Microsoft, MAP function: its last argument is a LAMBDA, which may be a name's.
    book = small_book(tmp_path / "book.xlsx", "=SUM(_xlfn.MAP(A1:A2,A1:A2,ENG.QUENCH))")
    report = portable(book, tmp_path / "out.xlsx", only=True)
    assert report.added == ("ENG.QUENCH",)
    assert calculated(tmp_path / "out.xlsx", 1, 2) == pytest.approx(2 * 0.002 + 2 * 0.038)


def test_only_drops_ours_that_are_no_longer_used(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)")
    portable(book, tmp_path / "all.xlsx")
    report = portable(tmp_path / "all.xlsx", tmp_path / "out.xlsx", only=True)
    assert ours(tmp_path / "out.xlsx") == ["ENG.QUENCH"]
    assert report.renewed == ("ENG.QUENCH",)
    assert set(report.removed) == ALL - {"ENG.QUENCH"}


@pytest.mark.parametrize("ending", [".xlsx", ".xlsm"])
def test_put_in_and_taken_out_the_book_is_as_before(tmp_path, ending):
    rich = rich_book(tmp_path / f"rich{ending}")
    portable(rich, tmp_path / f"with{ending}")
    report = portable(tmp_path / f"with{ending}", tmp_path / f"out{ending}", remove=True)
    assert set(report.removed) == ALL
    assert differing_members(rich, tmp_path / f"out{ending}") == set()


def test_taking_out_leaves_no_empty_list(tmp_path):
    book = small_book(tmp_path / "book.xlsx")
    assert "definedNames" not in main_part(book)
    portable(book, tmp_path / "with.xlsx")
    portable(tmp_path / "with.xlsx", tmp_path / "out.xlsx", remove=True)
    assert "definedNames" not in main_part(tmp_path / "out.xlsx")


def test_again_is_the_same_book(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)")
    portable(book, tmp_path / "once.xlsx")
    report = portable(tmp_path / "once.xlsx", tmp_path / "twice.xlsx")
    assert differing_members(tmp_path / "once.xlsx", tmp_path / "twice.xlsx") == set()
    assert set(report.renewed) == ALL
    assert report.mended == ()


THEIRS = "=_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2)"


def test_a_name_of_theirs_is_kept(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1)", eng__Quench=THEIRS)
    report = portable(book, tmp_path / "out.xlsx")
    assert report.kept == ("ENG.QUENCH",)
    assert "ENG.QUENCH" not in report.added
    assert names_of(tmp_path / "out.xlsx")[0] == ("eng.Quench", None, THEIRS.removeprefix("="))
    assert calculated(tmp_path / "out.xlsx", 1, 2) == pytest.approx(0.004)


def test_a_name_of_theirs_is_replaced_when_asked(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)", eng__Quench=THEIRS)
    report = portable(book, tmp_path / "out.xlsx", replace=True)
    assert report.replaced == ("ENG.QUENCH",)
    assert report.kept == ()
    assert [n for n, _, _ in names_of(tmp_path / "out.xlsx")].count("ENG.QUENCH") == 1
    assert "eng.Quench" not in main_part(tmp_path / "out.xlsx")
    assert calculated(tmp_path / "out.xlsx", 1, 2) == pytest.approx(0.04)


@pytest.mark.parametrize("only", [True, False])
def test_a_name_of_theirs_that_ours_does_not_follow_stays(tmp_path, only):
    assert portability()["FILM_THICKNESS"]
    names = {"ENG__FILM_THICKNESS": THEIRS, "ENG__QUENCH": THEIRS, "ENG__BORE_TAPER": THEIRS}
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)", **names)
    report = portable(book, tmp_path / "out.xlsx", only=only, replace=True)
    stay = {"ENG.FILM_THICKNESS"} | ({"ENG.BORE_TAPER"} if only else set())
    assert set(report.replaced) == {"ENG.FILM_THICKNESS", "ENG.QUENCH", "ENG.BORE_TAPER"} - stay
    left = {name for name, _, text in names_of(tmp_path / "out.xlsx") if text == THEIRS[1:]}
    assert left == stay
    plain = portable(book, tmp_path / "plain.xlsx", only=only)
    assert plain.kept == (("ENG.QUENCH",) if only else ("ENG.BORE_TAPER", "ENG.QUENCH"))


def test_a_name_of_theirs_for_one_sheet_stands_beside_ours(tmp_path):
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1)", Deck__QUENCH=THEIRS)
    text = main_part(book).replace('"Deck.QUENCH"', '"ENG.QUENCH" localSheetId="0"')
    book = with_members(book, tmp_path / "sheet.xlsx", **{MAIN: text})
    report = portable(book, tmp_path / "out.xlsx", only=True)
    assert report.added == report.on_a_sheet == ("ENG.QUENCH",)
    assert report.kept == ()
    assert {sheet for _, sheet, _ in names_of(tmp_path / "out.xlsx")} == {None, "0"}
    report = portable(book, tmp_path / "replaced.xlsx", only=True, replace=True)
    assert (report.replaced, report.on_a_sheet) == (("ENG.QUENCH",), ())
    assert [sheet for _, sheet, _ in names_of(tmp_path / "replaced.xlsx")] == [None]


def test_taking_out_leaves_theirs(tmp_path):
    book = small_book(tmp_path / "book.xlsx", ENG__QUENCH=THEIRS, job="=Deck!$A$1")
    portable(book, tmp_path / "with.xlsx")
    report = portable(tmp_path / "with.xlsx", tmp_path / "out.xlsx", remove=True)
    assert "ENG.QUENCH" not in report.removed
    assert {n for n, _, _ in names_of(tmp_path / "out.xlsx")} == {"ENG.QUENCH", "job"}


def damaged(tmp_path, change):
    """A portable book of which another program has changed the names."""
    book = small_book(tmp_path / "book.xlsx", "=ENG.QUENCH(A1,A2)")
    portable(book, tmp_path / "with.xlsx", only=True)
    text = change(main_part(tmp_path / "with.xlsx"))
    return with_members(tmp_path / "with.xlsx", tmp_path / "damaged.xlsx", **{MAIN: text})


def _lower_case(text):
    for name in ("LAMBDA", "LET", "ISOMITTED"):
        text = text.replace(f"_xlfn.{name}", f"_xlfn.{name.lower()}")
    return text


def _no_comment(text):
    start = text.index(" comment=")
    return text[:start] + text[text.index('"', start + 10) + 1 :]


def _no_prefixes(text):
    for prefix in ("_xlfn.", "_xlpm.", "_xlop."):
        text = text.replace(prefix, "")
    return _no_comment(text)


def _doubled(text):
    empty = '<definedName name="ENG.QUENCH" vbProcedure="true"></definedName>'
    return text.replace("</definedNames>", f"{empty}</definedNames>")


def _copied_with_its_sheet(text):
    start, end = text.index('<definedName name="ENG.QUENCH"'), text.index("</definedNames>")
    copy = text[start:end].replace("name=", 'localSheetId="0" name=', 1)
    return text[:end] + copy + text[end:]


@pytest.mark.parametrize(
    "change",
    [_lower_case, _no_prefixes, _doubled, _copied_with_its_sheet],
    ids=lambda c: c.__name__,
)
@pytest.mark.parametrize("only", [True, False])
def test_damage_is_found_and_mended(tmp_path, change, only):
    book = damaged(tmp_path, change)
    report = portable(book, tmp_path / "out.xlsx", only=only)
    assert report.mended == ("ENG.QUENCH",)
    assert report.kept == ()
    [(_, sheet, text)] = [n for n in names_of(tmp_path / "out.xlsx") if n[0] == "ENG.QUENCH"]
    assert sheet is None
    assert text.startswith("_xlfn.LAMBDA(_xlpm.deck_clearance,")
    assert calculated(tmp_path / "out.xlsx", 1, 2) == pytest.approx(0.04)


def test_a_lost_comment_alone_is_no_damage(tmp_path):
    book = damaged(tmp_path, _no_comment)
    report = portable(book, tmp_path / "out.xlsx", only=True)
    assert (report.renewed, report.mended, report.kept) == (("ENG.QUENCH",), (), ())
    assert "comment=" in main_part(tmp_path / "out.xlsx")


@pytest.mark.parametrize("change", [_lower_case, _doubled, _copied_with_its_sheet])
def test_damaged_ones_are_taken_out_too(tmp_path, change):
    report = portable(damaged(tmp_path, change), tmp_path / "out.xlsx", remove=True)
    assert (report.removed, report.mended) == (("ENG.QUENCH",), ())
    assert names_of(tmp_path / "out.xlsx") == []


def test_ours_of_another_version_are_known(tmp_path):
    def older(text):
        text = text.replace("workbook-tools ", "workbook-tools 0.0.")
        return text.replace("ENG.QUENCH", "ENG.LONG_FORGOTTEN")

    report = portable(damaged(tmp_path, older), tmp_path / "out.xlsx")
    assert report.removed == ("ENG.LONG_FORGOTTEN",)
    assert sorted(ours(tmp_path / "out.xlsx")) == sorted(ALL)


def test_a_copy_of_ours_under_a_name_of_their_own_stays(tmp_path):
    def copied(text):
        start, end = text.index('<definedName name="ENG.QUENCH"'), text.index("</definedNames>")
        theirs = _no_comment(text[start:end].replace("ENG.QUENCH", "ENG.OUR_QUENCH"))
        return text[:end] + theirs + text[end:]

    book = damaged(tmp_path, copied)
    for wish in ({}, {"only": True}, {"remove": True}, {"replace": True}):
        report = portable(book, tmp_path / f"out{len(wish)}{''.join(wish)}.xlsx", **wish)
        assert "ENG.OUR_QUENCH" not in report.removed
        assert "ENG.OUR_QUENCH" in {n for n, _, _ in names_of(report.out)}


def book_of_examples(path, system):
    """A book with the example call of every portable function; {row of the result: value}."""
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet("Calls")
    row, expected = 0, {}
    for function in PORTABLE:
        column, height, texts = 2, 1, []
        for value in example(function.name, system):
            rows = value if isinstance(value, tuple) else ((value,),)
            for r, line in enumerate(rows):
                sheet.write_row(row + r, column, line)
            last = (row + len(rows) - 1, column + len(rows[0]) - 1)
            texts.append(xl_range(row, column, *last))
            column, height = last[1] + 1, max(height, len(rows))
        # Of an array the last element, so that a plain cell can hold it.
        result = calculate(function, example(function.name, system)).value
        array = result if isinstance(result, tuple) else ((result,),)
        place = f"{len(array)},{len(array[0])}"
        call = f"{function.full_name}({','.join(texts)})"
        formula = f"=INDEX({call},{place})" if isinstance(result, tuple) else f"={call}"
        sheet.write_formula(row, 0, formula, None, "#NAME?")
        expected[row + 1] = array[-1][-1]
        row += height
    book.close()
    return expected


@pytest.fixture(scope="module")
def of_examples(profile, tmp_path_factory):
    """{system: what is expected, its book, and that as one start of LibreOffice saved both}."""
    folder = tmp_path_factory.mktemp("examples")
    expected = [book_of_examples(folder / f"plain_{s}.xlsx", s) for s in SYSTEMS]
    made = [folder / f"{system}.xlsx" for system in SYSTEMS]
    for system, path in zip(SYSTEMS, made, strict=True):
        portable(folder / f"plain_{system}.xlsx", path)
    saved = libreoffice.recalculate(made, folder / "saved", profile)
    return dict(zip(SYSTEMS, zip(expected, made, saved, strict=True), strict=True))


@pytest.mark.parametrize("system", SYSTEMS)
def test_libreoffice_and_the_engine_give_the_same_numbers(of_examples, system):
    expected, made, saved = of_examples[system]
    model = ironcalc.load_from_xlsx(str(made), "en", "UTC", "en")
    model.evaluate()
    in_office = load_workbook(saved, data_only=True)["Calls"]
    for row, value in expected.items():
        # A result ends where its digits do.
        wanted = value if isinstance(value, str) else pytest.approx(value, rel=5.1e-12)
        assert model.get_cell_value(0, row, 1) == wanted, f"engine, row {row}"
        if not isinstance(value, str):
            wanted = pytest.approx(value, rel=5.1e-12)
        assert in_office.cell(row, 1).value == wanted, f"LibreOffice, row {row}"


def test_what_libreoffice_does_to_the_names_is_mended(of_examples, tmp_path):
    expected, _, saved = of_examples["inch"]
    assert "_xlfn.lambda(" in main_part(saved)
    report = portable(saved, tmp_path / "out.xlsx")
    assert set(report.mended) == ALL
    assert set(report.renewed) == ALL
    assert differing_members(saved, tmp_path / "out.xlsx") == {MAIN}
    model = ironcalc.load_from_xlsx(str(tmp_path / "out.xlsx"), "en", "UTC", "en")
    model.evaluate()
    for row, value in expected.items():
        wanted = value if isinstance(value, str) else pytest.approx(value, rel=5.1e-12)
        assert model.get_cell_value(0, row, 1) == wanted, row


def test_the_report_tells_what_is_left_to_do(tmp_path):
    book = small_book(
        tmp_path / "book.xlsx",
        '=ENG.THREAD_STRESS_AREA("7/16-20")',
        "=ENG_QUENCH(A1,A2)",
        "=ENG.QENCH(A1,A2)",
        "=[1]!ENG.DECK_VOLUME(4,A1)",
    )
    report = portable(book, tmp_path / "out.xlsx", only=True)
    # What is to be translated will be called by the name that stands ready then.
    assert report.added == ("ENG.DECK_VOLUME", "ENG.QUENCH")
    assert report.not_portable == (("ENG.THREAD_STRESS_AREA", "it takes a text apart"),)
    assert report.to_translate == ("ENG.DECK_VOLUME", "ENG.QUENCH")
    assert report.unknown == ("ENG.QENCH",)


@pytest.mark.parametrize("wish", ["only", "replace"])
def test_contradicting_wishes_are_refused(tmp_path, wish):
    book = small_book(tmp_path / "book.xlsx")
    with pytest.raises(EditError, match="leave out only and replace"):
        portable(book, tmp_path / "out.xlsx", remove=True, **{wish: True})
    assert not (tmp_path / "out.xlsx").exists()


@pytest.mark.parametrize("name", ["build_book_inch_v8", "build_book_metric_four"])
def test_a_copy_of_a_copy_is_the_same_to_the_byte(tmp_path, name):
    kept = Path(__file__).parents[2] / "example_books" / f"{name}.xlsx"
    for book, out in ((kept, "first"), (kept, "again"), (tmp_path / "first.xlsx", "copy")):
        portable(book, tmp_path / f"{out}.xlsx")
    first = (tmp_path / "first.xlsx").read_bytes()
    assert (tmp_path / "again.xlsx").read_bytes() == first
    assert (tmp_path / "copy.xlsx").read_bytes() == first
