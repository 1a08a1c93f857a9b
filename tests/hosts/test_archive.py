"""Surgical copies: what is changed, what is not, and what is refused."""

import hashlib
import subprocess
import sys
import zipfile

import pytest
from openpyxl import load_workbook
from rich_books import MAIN, differing_members, pivot_source, rich_book, with_members

from workbook_tools.hosts.archive import (
    EditError,
    open_archive,
    part_elements,
    parts_of_type,
    read_part,
    sweep,
    write_copy,
)
from workbook_tools.hosts.markup import Edit, MarkupError, elements, spliced
from workbook_tools.hosts.names import Name, calculated_on_opening, defined_names, with_names
from workbook_tools.hosts.portable import portable

NEW = Name("ENG.NEW", 'says "more" & <less>', '_xlfn.LAMBDA(_xlpm.gap,IF(_xlpm.gap<"",1,2))')


@pytest.fixture(params=[".xlsx", ".xlsm"])
def rich(request, tmp_path):
    return rich_book(tmp_path / f"rich{request.param}")


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns


def test_only_the_main_part_differs(rich, tmp_path):
    before = digest(rich)
    out = tmp_path / f"out{rich.suffix}"
    portable(rich, out)
    assert differing_members(rich, out) == {MAIN}
    assert digest(rich) == before
    assert not list(tmp_path.glob(".*"))


def test_a_copy_without_changes_has_the_same_members(rich, tmp_path):
    out = tmp_path / f"out{rich.suffix}"
    write_copy(open_archive(rich), out, {})
    assert differing_members(rich, out) == set()
    assert out.stat().st_mode == rich.stat().st_mode


def test_stored_members_dates_and_comments_stay(rich, tmp_path):
    odd = tmp_path / f"odd{rich.suffix}"
    with zipfile.ZipFile(rich) as old, zipfile.ZipFile(odd, "w") as new:
        new.comment = b"kept"
        for i, name in enumerate(old.namelist()):
            info = zipfile.ZipInfo(name, (1999, 12, 31, 23, 59, 2 * i % 60))
            info.compress_type = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)[i % 2]
            info.comment = b"note"
            new.writestr(info, old.read(name))
    out = tmp_path / f"out{rich.suffix}"
    portable(odd, out)
    assert differing_members(odd, out) == {MAIN}


def test_a_book_of_libreoffice_with_a_pivot_table(recalculated, tmp_path):
    book = recalculated(pivot_source(tmp_path / "pivot.fods"))
    with zipfile.ZipFile(book) as archive:
        assert any("pivotTables" in name for name in archive.namelist())
    out = tmp_path / "out.xlsx"
    portable(book, out)
    assert differing_members(book, out) == {MAIN}
    assert load_workbook(out)["Pivot"]._pivots


@pytest.mark.slow
def test_a_rich_book_that_libreoffice_saved(recalculated, tmp_path):
    book = recalculated(rich_book(tmp_path / "rich.xlsx"))
    with zipfile.ZipFile(book) as archive:
        names = " ".join(archive.namelist())
    assert all(kind in names for kind in ("charts/", "media/", "comments", "drawings/"))
    out = tmp_path / "out.xlsx"
    portable(book, out)
    assert differing_members(book, out) == {MAIN}


def test_names_go_where_the_schema_wants_them(rich):
    # ECMA-376 Part 1, 18.2.27: sheets, functionGroups, externalReferences, definedNames, calcPr.
    archive = open_archive(rich)
    head, tail = "<workbook><sheets><sheet/></sheets>", "<extLst/></workbook>"
    for between in ("", "<functionGroups/>", "<functionGroups/><externalReferences/>"):
        data = f"{head}{between}{tail}".encode()
        named = with_names(archive, data, [], [NEW])
        full = calculated_on_opening(archive, named).decode()
        order = [full.index(f"<{tag}") for tag in ("sheets", "definedNames", "calcPr", "extLst")]
        assert order == sorted(order)
        assert full.startswith(f"{head}{between}<definedNames>")
        [read] = defined_names(archive, full.encode())
        assert (read.text, read.attributes["comment"]) == (NEW.text, NEW.comment)


def test_prefix_mark_and_declaration_stay(rich):
    archive = open_archive(rich)
    data = (
        b'\xef\xbb\xbf<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\r\n'
        b'<x:workbook xmlns:x="u" xmlns:mc="v" mc:Ignorable=\'x15\'>'
        b"<x:sheets><x:sheet name=\"a>b\"/></x:sheets><x:calcPr calcId='191029'/></x:workbook>"
    )
    full = calculated_on_opening(archive, with_names(archive, data, [], [NEW]))
    [name] = defined_names(archive, full)
    assert name.prefix == "x:"
    new = full[name.start : name.end]
    added = b"<x:definedNames>" + new + b"</x:definedNames>"
    assert full.replace(added, b"").replace(b' fullCalcOnLoad="1"', b"") == data


@pytest.mark.parametrize(
    ("setting", "wanted"),
    [
        ('<calcPr calcId="1"/>', '<calcPr fullCalcOnLoad="1" calcId="1"/>'),
        ("<calcPr fullCalcOnLoad='0' calcId=\"1\"/>", "<calcPr fullCalcOnLoad='1' calcId=\"1\"/>"),
        (
            "<calcPr fullCalcOnLoad = 'false'\n calcId='1'/>",
            "<calcPr fullCalcOnLoad = '1'\n calcId='1'/>",
        ),
        ('<calcPr fullCalcOnLoad="true"></calcPr>', '<calcPr fullCalcOnLoad="true"></calcPr>'),
    ],
)
def test_the_calculation_setting(rich, setting, wanted):
    data = f"<workbook><sheets/>{setting}</workbook>".encode()
    assert wanted in calculated_on_opening(open_archive(rich), data).decode()


def test_an_empty_list_of_names_is_filled_and_a_list_that_empties_goes(rich):
    archive = open_archive(rich)
    data = b"<workbook><sheets/><definedNames /><calcPr/></workbook>"
    named = with_names(archive, data, [], [NEW])
    [name] = defined_names(archive, named)
    assert name.text == NEW.text
    assert with_names(archive, named, [name], []) == b"<workbook><sheets/><calcPr/></workbook>"


def test_the_main_part_is_found_through_the_relations(rich, tmp_path):
    with zipfile.ZipFile(rich) as archive:
        relations = archive.read("_rels/.rels").decode()
        types = archive.read("[Content_Types].xml").decode()
        main = archive.read(MAIN)
        inner = archive.read("xl/_rels/workbook.xml.rels")
    moved = with_members(
        rich,
        tmp_path / f"moved{rich.suffix}",
        **{
            "_rels/.rels": relations.replace("xl/workbook.xml", "/xl/workbook2.xml"),
            "[Content_Types].xml": types.replace("workbook.xml", "workbook2.xml"),
            "xl/workbook2.xml": main,
            "xl/_rels/workbook2.xml.rels": inner,
            MAIN: None,
            "xl/_rels/workbook.xml.rels": None,
        },
    )
    out = tmp_path / f"out{rich.suffix}"
    portable(moved, out)
    assert differing_members(moved, out) == {"xl/workbook2.xml"}


def test_parts_are_told_by_their_content_type(rich):
    archive = open_archive(rich)
    sheets = ["xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"]
    assert parts_of_type(archive, "worksheet+xml") == sheets
    assert parts_of_type(archive, "table+xml") == ["xl/tables/table1.xml"]


# What is refused, and in which words.


def refused(book, out, *words):
    with pytest.raises(EditError) as caught:
        portable(book, out)
    for word in (str(book), *words):
        assert word in str(caught.value)
    assert not list(out.parent.glob("*.part"))


def test_the_book_itself_is_no_target(rich):
    before = digest(rich)
    refused(rich, rich, "is the book itself")
    refused(rich, rich.parent / "." / rich.name, "is the book itself")
    assert digest(rich) == before


def test_other_targets_that_are_refused(rich, tmp_path):
    taken = tmp_path / f"taken{rich.suffix}"
    taken.write_text("somebody's work")
    with pytest.raises(EditError, match="exists already"):
        portable(rich, taken)
    assert taken.read_text() == "somebody's work"
    with pytest.raises(EditError, match="needs the same ending"):
        portable(rich, tmp_path / "out.xls")
    with pytest.raises(EditError, match="there is no folder"):
        portable(rich, tmp_path / "none" / f"out{rich.suffix}")


def test_files_that_are_no_open_workbook(tmp_path):
    out = tmp_path / "out.xlsx"
    book = tmp_path / "book.xlsx"
    refused(book, out, "cannot be read")
    book.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600))
    refused(book, out, "protected by a password")
    book.write_bytes(b"no zip")
    refused(book, out, "not an .xlsx or .xlsm workbook")
    with zipfile.ZipFile(book, "w") as archive:
        archive.writestr("content.xml", "<a/>")
    refused(book, out, "it has no _rels/.rels")


def test_a_truncated_book_is_refused(rich, tmp_path):
    cut = tmp_path / f"cut{rich.suffix}"
    cut.write_bytes(rich.read_bytes()[:-40])
    refused(cut, tmp_path / f"out{rich.suffix}", "damaged")


def test_a_book_with_a_spoiled_member_is_refused(rich, tmp_path):
    data = bytearray(rich.read_bytes())
    with zipfile.ZipFile(rich) as archive:
        info = archive.getinfo("xl/worksheets/sheet2.xml")
        at = info.header_offset + 30 + len(info.filename) + info.compress_size // 2
    data[at] ^= 0xFF
    spoiled = tmp_path / f"spoiled{rich.suffix}"
    spoiled.write_bytes(data)
    refused(spoiled, tmp_path / f"out{rich.suffix}", "xl/worksheets/sheet2.xml")


def test_a_part_that_is_there_twice_is_refused(rich, tmp_path):
    twice = with_members(rich, tmp_path / f"twice{rich.suffix}", **{"XL/Workbook.xml": "<a/>"})
    refused(twice, tmp_path / f"out{rich.suffix}", "xl/workbook.xml twice")


def test_a_signed_book_is_refused(rich, tmp_path):
    signed = with_members(
        rich, tmp_path / f"signed{rich.suffix}", **{"_xmlsignatures/sig1.xml": "<Signature/>"}
    )
    refused(signed, tmp_path / f"out{rich.suffix}", "is signed", "break the signature")


def test_a_book_of_another_kind_is_refused(rich, tmp_path):
    with zipfile.ZipFile(rich) as archive:
        types = archive.read("[Content_Types].xml").decode()
    for kind in (
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
        "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
    ):
        types = types.replace(kind, "application/vnd.ms-excel.sheet.binary.macroEnabled.main")
    binary = with_members(rich, tmp_path / f"binary{rich.suffix}", **{"[Content_Types].xml": types})
    refused(binary, tmp_path / f"out{rich.suffix}", "another kind", "sheet.binary")


@pytest.mark.parametrize("lock", ["~${}", ".~lock.{}#"])
def test_a_book_open_elsewhere_is_refused(rich, tmp_path, lock):
    beside = tmp_path / lock.format(rich.name)
    beside.write_text("")
    refused(rich, tmp_path / f"out{rich.suffix}", "open in another program", beside.name)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("<workbook><sheets>", "no well-formed XML"),
        ('<?xml version="1.0" encoding="ISO-8859-1"?><workbook/>', "not in UTF-8"),
        ('<!DOCTYPE w [<!ENTITY a "b">]><workbook>&a;</workbook>', "document type"),
        ("<workbook><fileVersion/></workbook>", "no sheets"),
    ],
)
def test_a_main_part_that_is_not_what_it_should_be(rich, tmp_path, text, words):
    odd = with_members(rich, tmp_path / f"odd{rich.suffix}", **{MAIN: text})
    refused(odd, tmp_path / f"out{rich.suffix}", MAIN, words)


# Places in markup.


def test_elements_are_found_where_they_stand():
    data = '<a x=">"><b q="1>2"/><c>é&amp;<d/>f</c><p:c >g</p:c></a>'.encode()
    empty, first, second = elements(data, ("b", "c"))
    assert data[empty.start : empty.end] == b'<b q="1>2"/>'
    assert empty.empty_tag
    assert data[first.inner : first.inner_end] == "é&amp;<d/>f".encode()
    assert (first.text, first.parents, second.prefix, second.text) == ("é&f", ("a",), "p:", "g")


def test_bytes_are_spliced_in_place():
    edits = [Edit(4, 6, b"X"), Edit(0, 1, b""), Edit(6, 6, b"YZ")]
    assert spliced(b"0123456789", edits) == b"123XYZ6789"


def test_no_xml_is_an_error():
    with pytest.raises(MarkupError, match="well-formed"):
        elements(b"<a", ("a",))


def test_part_errors_name_book_and_part(rich):
    archive = open_archive(rich)
    with pytest.raises(EditError, match=r"xl/workbook\.xml"):
        part_elements(archive, MAIN, b"<a", ("a",))
    with pytest.raises(EditError, match=r"no xl/none\.xml"):
        read_part(archive, "xl/none.xml")


def test_what_a_killed_copy_left_is_swept_away_and_nothing_else(make_book, tmp_path):
    book, out = make_book({"A": [["x"]]}), tmp_path / "new.xlsx"
    code = (
        "import os, sys; from pathlib import Path; from workbook_tools.hosts import archive\n"
        "archive._copy = lambda *given: os._exit(9)\n"
        "archive.write_copy(archive.open_archive(Path(sys.argv[1])), Path(sys.argv[2]), {})\n"
    )
    before = set(tmp_path.iterdir())
    other = tmp_path / ".other.part"
    other.touch()
    assert subprocess.run([sys.executable, "-c", code, book, out]).returncode == 9
    assert len(set(tmp_path.iterdir()) - before) == 2
    sweep(out)
    assert set(tmp_path.iterdir()) - before == {other}
