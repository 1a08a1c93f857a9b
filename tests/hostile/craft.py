"""Books that nobody means well: a good one, taken apart and put together wrongly."""

import io
import zipfile
from functools import partial

import xlsxwriter

from workbook_tools.batch.build import Wanted, prepare, refused, work
from workbook_tools.batch.lost import Lost
from workbook_tools.batch.workers import Worker

SHEET = "xl/worksheets/sheet1.xml"


def good_book():
    """The bytes of a small book with readings, calls, an ordinary formula and a name."""
    target = io.BytesIO()
    with xlsxwriter.Workbook(target, {"in_memory": True}) as book:
        sheet = book.add_worksheet("Build")
        sheet.write_row(0, 0, ["Job no.", "26-101"])
        sheet.write_row(1, 0, ["Customer", "A. Customer"])
        sheet.write_row(2, 0, ["Cylinder", 1, 2, 3, 4])
        sheet.write_row(3, 0, ["Deck clearance (in)", 0.006, 0.0062, 0.0058, 0.0061])
        sheet.write_row(4, 0, ["Gasket (in)", "38 thou", 0.038, 0.038, 0.038])
        sheet.write_string(5, 0, "Quench")
        for column, letter in enumerate("BCDE", 1):
            sheet.write_formula(5, column, f"=ENG.QUENCH({letter}4,{letter}5)", None, 0.044)
        sheet.write_string(6, 0, "Mean")
        sheet.write_formula(6, 1, "=AVERAGE(B6:E6)", None, 0.044)
        book.define_name("job_number", "=Build!$B$1")
    return target.getvalue()


def strict_book():
    """The bytes of the same book in the namespaces of ISO/IEC 29500 Strict."""
    made = {}
    for name, part in parts(good_book()).items():
        for kind in (b"spreadsheetml", b"officeDocument"):
            end = b"main" if kind == b"spreadsheetml" else b"relationships"
            transitional = b"http://schemas.openxmlformats.org/%s/2006/%s" % (kind, end)
            part = part.replace(transitional, b"http://purl.oclc.org/ooxml/%s/%s" % (kind, end))
        made[name] = part
    return archive(made)


def good_ods():
    """The bytes of the same kind of book as an OpenDocument spreadsheet."""
    uses = " ".join(
        f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{short}:1.0"'
        for short in ("office", "table", "text")
    )

    def number(value, more=""):
        return (
            f'<table:table-cell office:value-type="float" office:value="{value}"{more}>'
            f"<text:p>{value}</text:p></table:table-cell>"
        )

    def text(value):
        return (
            '<table:table-cell office:value-type="string">'
            f"<text:p>{value}</text:p></table:table-cell>"
        )

    quench = ' table:formula="of:=ENG.QUENCH([.B2];[.B3])"'
    rows = (
        text("Job no.") + text("26-102"),
        text("Deck clearance (in)") + number(0.006) + number(0.0062),
        text("Gasket (in)") + text("38 thou") + number(0.038, ' table:number-columns-repeated="3"'),
        text("Quench") + number(0.044, quench),
    )
    body = "".join(f"<table:table-row>{row}</table:table-row>" for row in rows)
    return archive(
        {
            "mimetype": b"application/vnd.oasis.opendocument.spreadsheet",
            "META-INF/manifest.xml": b"<manifest/>",
            "content.xml": (
                f"<office:document-content {uses}><office:body><office:spreadsheet>"
                f'<table:table table:name="Build">{body}</table:table>'
                "</office:spreadsheet></office:body></office:document-content>"
            ).encode(),
        }
    )


def parts(book):
    """{name: content} of an archive."""
    with zipfile.ZipFile(io.BytesIO(book)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def archive(named):
    """An archive of {name: content} parts."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as made:
        for name, content in named.items():
            made.writestr(name, content)
    return target.getvalue()


def with_part(book, name, change):
    """A book with one part changed: change is its new content, or a function of the old."""
    named = parts(book)
    named[name] = change(named[name]) if callable(change) else change
    return archive(named)


def with_cell(book, cell):
    """A book with the XML of one more cell, in a row after the others."""
    row = b"</row></sheetData>"
    return with_part(
        book, SHEET, lambda xml: xml.replace(row, b'</row><row r="40">' + cell + row, 1)
    )


def reader(**limits):
    """A process that reads books as a batch does."""
    return Worker(partial(work, wanted=Wanted()), prepare=prepare, **limits)


def result_of(worker, task):
    """What a batch has of a book: what the process answers, or why it was lost."""
    try:
        return worker.do(task)
    except Lost as reason:
        return refused(task, str(reason))
