"""Books with everything that a careless copy would lose, made by several programs."""

from __future__ import annotations

import io
import struct
import zipfile
import zlib

import xlsxwriter

MAIN = "xl/workbook.xml"
PIVOT = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.2"
 office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet>
<table:table table:name="Readings">{rows}</table:table>
<table:table table:name="Pivot"><table:table-row/></table:table>
<table:data-pilot-tables>
<table:data-pilot-table table:name="ByCylinder" table:target-range-address="Pivot.A1:Pivot.B9"
 table:buttons="Pivot.A1">
<table:source-cell-range table:cell-range-address="Readings.A1:Readings.B5"/>
<table:data-pilot-field table:source-field-name="Cylinder" table:orientation="row"
 table:function="auto"/>
<table:data-pilot-field table:source-field-name="Bore" table:orientation="data"
 table:function="average"/>
</table:data-pilot-table>
</table:data-pilot-tables>
</office:spreadsheet></office:body></office:document>
"""


def png():
    """One red dot."""

    def chunk(kind, data):
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0\xff\0\0")
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")
    )


def rich_book(path):
    """Charts, picture, comments, text box, sparklines, formats and validations; .xlsm: macros.

    The readings stand in B2:B3, a call that nobody could calculate in B4, one for VBA in B5.
    """
    book = xlsxwriter.Workbook(path)
    if path.suffix == ".xlsm":
        macros = path.with_suffix(".bin")
        macros.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 no macro that runs")
        book.add_vba_project(str(macros))
    sheet = book.add_worksheet("Deck & quench")
    sheet.write_column("A1", ["", "deck clearance", "gasket", "quench", "by VBA", 'a "text"'])
    sheet.write_column("B2", [0.002, 0.038])
    sheet.write_formula("B4", "=ENG.QUENCH(B2,B3)", None, "#NAME?")
    sheet.write_formula("B5", '=ENG_QUENCH(B2,B3)&" by ENG_QUENCH(B2,B3)"', None, "0.04 by ENG_")
    sheet.write_comment("B2", "Measured over the pin, both sides.")
    sheet.insert_image("D2", "dot.png", {"image_data": io.BytesIO(png())})
    sheet.insert_textbox("D8", "Sign here")
    sheet.add_sparkline("C2", {"range": "'Deck & quench'!B2:B3"})
    sheet.conditional_format(
        "B4", {"type": "formula", "criteria": '=ENG_QUENCH(B2,B3)<"ENG_"', "format": None}
    )
    limits = {"min_type": "formula", "max_type": "formula", "max_value": "$B$3"}
    lowest = 'ENG_QUENCH($B$2,0.01)+LEN("ENG_QUENCH(")*0'
    sheet.conditional_format("B2", {"type": "2_color_scale", "min_value": lowest, **limits})
    limits["min_value"] = "ENG_QUENCH($B$2,0.02)"
    sheet.conditional_format("B3", {"type": "data_bar", "data_bar_2010": True, **limits})
    sheet.data_validation(
        "B3", {"validate": "custom", "value": "=ENG_QUENCH(B2,B3)>0.03", "error_message": "Thin"}
    )
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "='Deck & quench'!$B$2:$B$3"})
    sheet.insert_chart("D12", chart)
    table = book.add_worksheet("Parts")
    table.add_table(
        "A1:B3",
        {
            "data": [["gasket", 0], ["shim", 0]],
            "columns": [
                {"header": "ENG_QUENCH"},
                {"formula": "=ENG_QUENCH(Table1[[#This Row],[ENG_QUENCH]],1)"},
            ],
        },
    )
    book.define_name("job", "='Deck & quench'!$B$2")
    book.define_name("least", "=ENG_QUENCH('Deck & quench'!$B$2,0.03)")
    book.close()
    return path


def pivot_source(path):
    """A flat OpenDocument file with a pivot table, for LibreOffice to save as .xlsx."""
    rows = [("Cylinder", "Bore"), (1, 4.03), (2, 4.031), (1, 4.032), (2, 4.0305)]

    def cell(value):
        if isinstance(value, str):
            return (
                f'<table:table-cell office:value-type="string"><text:p>{value}</text:p>'
                "</table:table-cell>"
            )
        return f'<table:table-cell office:value-type="float" office:value="{value}"/>'

    lines = "".join(f"<table:table-row>{''.join(map(cell, row))}</table:table-row>" for row in rows)
    path.write_text(PIVOT.format(rows=lines), encoding="utf-8")
    return path


def with_members(source, target, **members):
    """A copy of an archive with members replaced, added, or left out (None)."""
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for info in old.infolist():
            data = members.pop(info.filename, old.read(info.filename))
            if data is not None:
                new.writestr(info, data)
        for name, data in members.items():
            new.writestr(name, data)
    return target


def differing_members(before, after):
    """The members that differ; order, dates, compression and all else must be as before."""
    with zipfile.ZipFile(before) as old, zipfile.ZipFile(after) as new:
        fields = ("filename", "date_time", "compress_type", "comment", "external_attr", "extra")

        def listed(archive):
            return [tuple(getattr(i, f) for f in fields) for i in archive.infolist()]

        assert listed(old) == listed(new)
        assert old.comment == new.comment
        return {n for n in old.namelist() if old.read(n) != new.read(n)}


def main_part(path):
    with zipfile.ZipFile(path) as archive:
        return archive.read(MAIN).decode()
