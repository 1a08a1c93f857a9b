"""Archives that lie: bombs, claims of another size, path tricks. Refused, and nothing escapes."""

import os
import struct
import zipfile
from contextlib import suppress

import pytest
from craft import SHEET, archive, good_book, parts, with_part

from workbook_tools.batch.batch import summarize_books
from workbook_tools.book_files import MOST_UNPACKED
from workbook_tools.books.cells import BookError
from workbook_tools.books.opening import read_cells

BILLION = b"".join(
    [
        b"<?xml version='1.0'?><!DOCTYPE a [<!ENTITY e0 'ha'>",
        *(b"<!ENTITY e%d '%s'>" % (n, b"&e%d;" % (n - 1) * 10) for n in range(1, 10)),
        b"]><a>&e9;</a>",
    ]
)


@pytest.fixture
def book(tmp_path):
    def write(content):
        path = tmp_path / "book.xlsx"
        path.write_bytes(content)
        return path

    return write


def test_the_book_that_is_taken_apart_is_good(book):
    opened = read_cells(book(good_book()))
    assert opened.sheets[0].cells[6, 2].formula == "ENG.QUENCH(B4,B5)"


def test_a_part_that_unpacks_into_the_whole_memory_is_refused_unread(book):
    bomb = with_part(good_book(), "xl/media/image1.png", b"\0" * (60 * 1_000_000))
    assert len(bomb) < 100_000
    with pytest.raises(BookError, match=r"would unpack to 6\d MB"):
        read_cells(book(bomb))


def test_many_parts_that_share_one_stretch_of_data_are_added_up(book):
    # Entries that all point at the same packed data: a bomb without nesting.
    content = archive({**parts(good_book()), "xl/media/one.bin": b"\0" * 40_000_000})
    end = content.rindex(b"PK\x05\x06")
    start = struct.unpack("<I", content[end + 16 : end + 20])[0]
    at = content.rindex(b"PK\x01\x02", start, end)
    entry = content[at:end]
    count = struct.unpack("<H", content[end + 10 : end + 12])[0]
    copies = b"".join(entry.replace(b"one.bin", b"%03d.bin" % n) for n in range(20))
    made = content[:end] + copies
    tail = struct.pack("<HHII", count + 20, count + 20, len(made) - start, start)
    made += content[end : end + 8] + tail + content[end + 20 :]
    path = book(made)
    with zipfile.ZipFile(path) as opened:
        assert sum(item.file_size for item in opened.infolist()) > MOST_UNPACKED
    with pytest.raises(BookError, match=r"would unpack to 8\d\d MB"):
        read_cells(path)


@pytest.mark.parametrize("claimed", [0, 10, 0x7FFFFFFF])
def test_a_part_that_claims_another_size_is_refused(book, claimed):
    content = bytearray(good_book())
    with zipfile.ZipFile(book(bytes(content))) as opened:
        item = opened.getinfo(SHEET)
    for signature, size_at, name_at in ((b"PK\x03\x04", 22, 30), (b"PK\x01\x02", 24, 46)):
        at = content.find(signature)
        while content[at + name_at : at + name_at + len(SHEET)] != SHEET.encode():
            at = content.find(signature, at + 4)
        assert content[at + size_at : at + size_at + 4] == struct.pack("<I", item.file_size)
        content[at + size_at : at + size_at + 4] = struct.pack("<I", claimed)
    with pytest.raises(BookError, match=r"damaged|do not fit|would unpack"):
        read_cells(book(bytes(content)))


@pytest.mark.parametrize(
    "bomb",
    [
        BILLION,
        BILLION.replace(b"<!DOCTYPE", b"<!--" + b" " * 9000 + b"--><!DOCTYPE"),
        BILLION.replace(b"<!DOCTYPE", b"<!-- <a> --><!DOCTYPE"),
        BILLION.decode().replace("'1.0'", "'1.0' encoding='UTF-16'", 1).encode("utf-16"),
        b"<?xml version='1.0'?><!DOCTYPE a SYSTEM 'http://example.invalid/a.dtd'><a/>",
        b"<!DOCTYPE a [<!ENTITY f SYSTEM 'file:///etc/passwd'>]><a>&f;</a>",
    ],
    ids=["billion", "after a long comment", "after a comment", "utf-16", "from the net", "a file"],
)  # fmt: skip
@pytest.mark.parametrize("name", ["xl/sharedStrings.xml", "xl/workbook.xml", "docProps/core.xml"])
def test_a_part_with_a_document_type_is_refused(book, bomb, name):
    with pytest.raises(BookError, match=f"{name} declares a document type"):
        read_cells(book(with_part(good_book(), name, bomb)))


def test_a_part_of_another_ending_cannot_hide_a_document_type(book):
    named = parts(good_book())
    named["xl/strings.dat"] = BILLION
    relations = "xl/_rels/workbook.xml.rels"
    named[relations] = named[relations].replace(b"sharedStrings.xml", b"strings.dat")
    with pytest.raises(BookError, match=r"strings\.dat declares a document type"):
        read_cells(book(archive(named)))


@pytest.mark.parametrize(
    "name",
    ["../../outside.xml", "/outside.xml", "..\\..\\outside.xml", "C:\\outside.xml", "xl/../../x"],
)
def test_a_part_with_a_path_for_a_name_is_never_unpacked(tmp_path, name):
    inside = tmp_path / "a" / "b"
    inside.mkdir(parents=True)
    (inside / "book.xlsx").write_bytes(archive({**parts(good_book()), name: b"<a/>"}))
    outcome = summarize_books([inside], inside / "out")
    assert outcome.read == 1
    assert {p.name for p in tmp_path.rglob("*") if "outside" in p.name} == set()
    assert sorted(os.listdir(tmp_path)) == ["a"]


def test_a_name_that_is_there_twice_is_read_or_refused(book, recwarn):
    content = good_book()
    path = book(content)
    with zipfile.ZipFile(path, "a") as opened:
        opened.writestr(SHEET, b"<worksheet/>")
    recwarn.clear()
    with suppress(BookError):
        read_cells(path)
