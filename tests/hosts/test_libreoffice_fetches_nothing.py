"""Books from anywhere, calculated by LibreOffice: it asks no other machine for anything."""

from __future__ import annotations

import io
import os
import re
import signal
import struct
import subprocess
import sys
import threading
import time
import zipfile
import zlib
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import openpyxl
import pytest
import xlsxwriter

from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.libreoffice import office as programs
from workbook_tools.hosts.libreoffice.office import find_office, run


def _chunk(kind, content):
    size, check = struct.pack(">I", len(content)), struct.pack(">I", zlib.crc32(kind + content))
    return size + kind + content + check


# One gray pixel: signature, header, data, end, as ISO/IEC 15948 lays them out.
PNG = (
    b"\x89PNG\r\n\x1a\n"
    + _chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    + _chunk(b"IDAT", zlib.compress(b"\x00\x80"))
    + _chunk(b"IEND", b"")
)
pytestmark = pytest.mark.libreoffice


@pytest.fixture
def server():
    """(address, paths asked for) of a web server on this machine."""
    asked = []

    class Answers(BaseHTTPRequestHandler):
        def _answer(self):
            asked.append(f"{self.command} {self.path}")
            self.send_response(200)
            self.send_header("Content-Length", "2")
            self.end_headers()
            if self.command != "HEAD":
                self.wfile.write(b"42")

        do_GET = do_HEAD = do_OPTIONS = do_PROPFIND = _answer

        def log_message(self, *_):
            pass

    with ThreadingHTTPServer(("127.0.0.1", 0), Answers) as here:
        threading.Thread(target=here.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{here.server_port}", asked
        here.shutdown()


def _edited(path, changes):
    """The package again, with each part put through its change."""
    with zipfile.ZipFile(path) as package:
        parts = [(item, package.read(item)) for item in package.infolist()]
    with zipfile.ZipFile(path, "w") as package:
        for item, data in parts:
            change = changes.get(item.filename)
            package.writestr(item, change(data.decode()).encode() if change else data)


def _xlsx(path, address):
    """A book with a linked picture, a web call, a cell of another book, and a DDE call."""
    book = xlsxwriter.Workbook(str(path))
    sheet = book.add_worksheet("S")
    for cell, formula in {
        "A1": "=ENG.QUENCH(0.01,0.03)",
        "A2": f'=_xlfn.WEBSERVICE("{address}/xlsx-webservice")',
        "A3": f"='{address}/[xlsx-external.xlsx]S'!A1",
        "A4": f'=_xlfn.IMAGE("{address}/xlsx-image-call.png")',
        "A5": f'=HYPERLINK("{address}/xlsx-hyperlink","x")',
        "A6": f'=DDE("soffice","{address}/xlsx-dde.ods","S.A1")',
        "A7": f"=INDIRECT(\"'{address}/[xlsx-indirect.xlsx]S'!A1\")",
    }.items():
        sheet.write_formula(cell, formula)
    sheet.insert_image("C3", "pixel.png", {"image_data": io.BytesIO(PNG)})
    book.close()
    relation = re.compile(r"<Relationship [^>]*image[^>]*/>")
    _edited(
        path,
        {
            "xl/drawings/drawing1.xml": lambda text: text.replace("r:embed=", "r:link=").replace(
                "<a:blip ", '<a:blip xmlns:r="http://schemas.openxmlformats.org/'
                'officeDocument/2006/relationships" ' if "xmlns:r=" not in text else "<a:blip "
            ),
            "xl/drawings/_rels/drawing1.xml.rels": lambda text: relation.sub(
                '<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/'
                f'2006/relationships/image" Target="{address}/xlsx-picture.png" '
                'TargetMode="External"/>', text
            ),
        },
    )  # fmt: skip
    return path


def _ods(path, address):
    """The same in the open format, with a linked table, a linked range and a linked object."""
    frame = "svg:width='2cm' svg:height='2cm'"
    content = f"""<?xml version="1.0" encoding="UTF-8"?>
<office:document-content office:version="1.2"
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"
 xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:svg="urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 xmlns:xlink="http://www.w3.org/1999/xlink">
<office:automatic-styles><style:style style:name="c" style:family="table-cell">
<style:table-cell-properties><style:background-image xlink:type="simple"
 xlink:href="{address}/ods-background.png"/></style:table-cell-properties></style:style>
</office:automatic-styles>
<office:body><office:spreadsheet>
<table:table table:name="S"><table:shapes>
<draw:frame {frame}><draw:image xlink:href="{address}/ods-picture.png" xlink:type="simple"
 xlink:show="embed" xlink:actuate="onLoad"/></draw:frame>
<draw:frame {frame}><draw:object xlink:href="{address}/ods-object.ods" xlink:type="simple"
 xlink:show="embed" xlink:actuate="onLoad"/></draw:frame>
<draw:frame {frame}><draw:plugin xlink:href="{address}/ods-plugin.mp4" xlink:type="simple"
 xlink:show="embed" xlink:actuate="onLoad" draw:mime-type="application/vnd.sun.star.media"/>
</draw:frame>
<draw:frame {frame}><draw:floating-frame xlink:href="{address}/ods-frame.html"
 xlink:type="simple" xlink:show="embed" xlink:actuate="onLoad"/></draw:frame></table:shapes>
<table:table-row>
<table:table-cell table:formula="of:=ENG.QUENCH(0.01;0.03)"/>
<table:table-cell table:style-name="c"
 table:formula="of:=COM.MICROSOFT.WEBSERVICE(&quot;{address}/ods-webservice&quot;)"/>
<table:table-cell table:formula="of:='{address}/ods-external.ods'#$S.A1"/>
<table:table-cell
 table:formula="of:=DDE(&quot;soffice&quot;;&quot;{address}/ods-dde.ods&quot;;&quot;S.A1&quot;)"/>
<table:table-cell table:formula="of:=INDIRECT(&quot;'{address}/ods-indirect.ods'#$S.A1&quot;)"/>
</table:table-row>
<table:table-row><table:table-cell><table:cell-range-source table:name="R"
 table:last-column-spanned="1" table:last-row-spanned="1" table:refresh-delay="PT1S"
 xlink:type="simple" xlink:href="{address}/ods-range.ods"/></table:table-cell></table:table-row>
</table:table>
<table:table table:name="L"><table:table-source xlink:href="{address}/ods-table.ods"
 xlink:type="simple" table:table-name="S" table:refresh-delay="PT1S"/>
<table:table-row><table:table-cell/></table:table-row></table:table>
<table:dde-links><table:dde-link><office:dde-source office:dde-application="soffice"
 office:dde-topic="{address}/ods-dde-link.ods" office:dde-item="S.A1"
 office:automatic-update="true"/><table:table><table:table-column/><table:table-row>
<table:table-cell/></table:table-row></table:table></table:dde-link></table:dde-links>
</office:spreadsheet></office:body></office:document-content>"""
    manifest = """<?xml version="1.0" encoding="UTF-8"?>
<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"
 manifest:version="1.2"><manifest:file-entry manifest:full-path="/"
 manifest:media-type="application/vnd.oasis.opendocument.spreadsheet"/><manifest:file-entry
 manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>"""
    with zipfile.ZipFile(path, "w") as package:
        package.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        package.writestr("content.xml", content)
        package.writestr("META-INF/manifest.xml", manifest)
    return path


@pytest.fixture
def books(tmp_path, server):
    return [_xlsx(tmp_path / "a.xlsx", server[0]), _ods(tmp_path / "b.ods", server[0])]


@pytest.mark.slow
def test_the_books_would_fetch_from_a_program_that_allows_it(office, books, server, tmp_path):
    profile = f"-env:UserInstallation={(tmp_path / 'plain').as_uri()}"
    command = [find_office().program("soffice"), profile, "--headless", "--convert-to", "pdf"]
    run([*command, "--outdir", str(tmp_path / "pdf"), *map(str, books)], 120)
    told = " ".join(server[1])
    assert "xlsx-picture.png" in told
    assert "ods-picture.png" in told


def test_nothing_is_fetched(office, books, server, tmp_path):
    done = libreoffice.recalculate_each(books, tmp_path / "work")
    assert server[1] == []
    assert done.refused == {}
    for book in books:
        sheet = openpyxl.load_workbook(done.copies[book], data_only=True).worksheets[0]
        assert sheet["A1"].value == pytest.approx(0.04)


@pytest.mark.slow
def test_no_other_file_of_this_machine_is_looked_into(office, tmp_path):
    other = tmp_path / "other.xlsx"
    book = xlsxwriter.Workbook(str(other))
    book.add_worksheet("S").write("A1", "a secret")
    book.close()
    address = other.as_uri()
    asking = xlsxwriter.Workbook(str(tmp_path / "asking.xlsx"))
    sheet = asking.add_worksheet("S")
    sheet.write_formula("A1", "=ENG.QUENCH(0.01,0.03)")
    sheet.write_formula("A2", f"='[{address}]S'!A1")
    sheet.write_formula("A3", f'=_xlfn.WEBSERVICE("{address}")')
    sheet.write_formula("A4", f'=DDE("soffice","{address}","S.A1")')
    asking.close()
    linking = _ods(tmp_path / "linking.ods", address.rpartition("/")[0])

    def to_other(text):
        return re.sub(r"ods-[a-z-]+\.ods", other.name, text)

    _edited(linking, {"content.xml": to_other})
    books = [tmp_path / "asking.xlsx", linking]
    done = libreoffice.recalculate_each(books, tmp_path / "work")
    assert done.refused == {}
    for book in books:
        with zipfile.ZipFile(done.copies[book]) as package:
            assert not [n for n in package.namelist() if b"a secret" in package.read(n)]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows ends a program without a word")
@pytest.mark.parametrize("name", ["SIGTERM", pytest.param("SIGINT", marks=pytest.mark.slow)])
def test_a_run_that_is_stopped_leaves_no_copies_of_books_behind(office, tmp_path, name):
    books, temp = tmp_path / "books", tmp_path / "temp"
    books.mkdir()
    temp.mkdir()
    for number in range(8):
        _xlsx(books / f"{number}.xlsx", "http://127.0.0.1:9")
    process = subprocess.Popen(
        [sys.executable, "-m", "workbook_tools", "summarize", str(books), "--recalculate",
         "libreoffice", "--afresh", "--out", str(tmp_path / "out")],
        env={**os.environ, "TMPDIR": str(temp)},
        stderr=subprocess.PIPE,
        text=True,
        # What is begun in the background of a shell does not hear of it otherwise.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )  # fmt: skip
    while process.poll() is None and not list(temp.glob("*/copied/*.xlsx")):
        time.sleep(0.05)
    process.send_signal(getattr(signal, name))
    _, told = process.communicate()
    assert process.returncode == 128 + getattr(signal, name)
    assert told == "Stopped. Run it again to go on.\n"
    assert list(temp.rglob("*")) == []
    running = subprocess.run(["ps", "-eo", "args"], capture_output=True, text=True, check=True)
    assert str(temp) not in running.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="Windows ends a program without a word")
def test_a_stop_amid_the_start_of_a_program_ends_that_program_too(monkeypatch):
    start, started = programs._start, []
    # Begun in the background of a shell, the tests would not hear of it.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)

    def stopped_amid(command, temp):
        started.append(start(command, temp))
        signal.raise_signal(signal.SIGINT)
        return started[0]

    monkeypatch.setattr(programs, "_start", stopped_amid)
    try:
        with pytest.raises(KeyboardInterrupt):
            run([sys.executable, "-c", "import time; time.sleep(60)"], 90)
        assert started[0].returncode == -signal.SIGKILL
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, before)
