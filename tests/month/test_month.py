"""The files of a month: read back by other programs, the same in every run, safe to open."""

import csv
import hashlib
import io
import json
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from month_files import SHOP, written
from openpyxl import load_workbook
from openpyxl.utils.cell import range_boundaries
from sample import inch_v8, metric_four, with_readings

from workbook_tools.jobs.paper_records import JobField
from workbook_tools.month.tables import HEADS, MONTHS
from workbook_tools.render.templates import TemplateError
from workbook_tools.summary.data_rows import READING_COLUMNS

HOSTILE = "=HYPERLINK(\"http://example.com\")</script><script>alert('x')</script> #panic() $x$"


def hostile():
    book = inch_v8()
    texts = {name: JobField(HOSTILE) for name in ("number", "customer", "engine", "builder")}
    return replace(book, job=replace(book.job, **texts), file_name=HOSTILE + ".xlsx")


def test_a_month_has_a_spreadsheet_a_page_a_print_tables_and_its_builds(tmp_path):
    files = written(tmp_path)
    assert {"index.html", "month-2024-04.xlsx", "month-2024-04.pdf"} < set(files)
    assert {"builds.csv", "open.csv", "fits.csv", "findings.csv", "readings.csv"} < set(files)
    assert {"builds/24-031-small-V8.html", "builds/four.html"} < set(files)
    assert not [name for name in files if name.endswith(".part")]
    tables = {n: c.decode().partition("\n")[0] for n, c in files.items() if n.endswith(".csv")}
    heads = [tuple(next(csv.reader([line]))) for line in tables.values()]
    assert sorted([*heads, MONTHS]) == sorted(HEADS)


def test_every_link_of_the_page_leads_to_a_file(tmp_path):
    page = written(tmp_path)["index.html"].decode()
    links = re.findall(r'href="([^"]+)"', page)
    assert {"./builds/24-031-small-V8.html", "./builds/four.html"} < set(links)
    for target in links:
        assert target.startswith("./")
        assert (tmp_path / target).is_file(), target


def test_books_of_one_file_name_keep_their_own_pages(tmp_path):
    books = [replace(book, file_name="build.xlsx") for book in (inch_v8(), metric_four())]
    page = written(tmp_path, books)["index.html"].decode()
    for number in ("24-031", "24-032"):
        (target,) = set(re.findall(rf'href="([^"]+)">{number}<', page))
        assert number in (tmp_path / target).read_text(encoding="utf-8")


def test_the_same_books_give_the_same_bytes_in_any_order(tmp_path):
    first = written(tmp_path / "a", [inch_v8(), metric_four()])
    second = written(tmp_path / "b", [metric_four(), inch_v8()])
    assert first == second


@pytest.mark.slow
def test_bytes_do_not_depend_on_the_run(tmp_path):
    code = (
        "import hashlib, sys; from pathlib import Path; from test_month import written;"
        "files = written(Path(sys.argv[1]));"
        "print({n: hashlib.sha256(c).hexdigest() for n, c in files.items()})"
    )
    here = Path(__file__).parent
    outcomes = []
    for seed in ("1", "2"):
        env = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": f"{here}:{here.parent}"}
        run = [sys.executable, "-c", code, str(tmp_path / seed)]
        done = subprocess.run(run, env=env, capture_output=True, text=True, check=True)
        outcomes.append(done.stdout)
    assert outcomes[0] == outcomes[1]
    own = {n: hashlib.sha256(c).hexdigest() for n, c in written(tmp_path / "own").items()}
    assert outcomes[0].strip() == str(own)


def test_the_spreadsheet_holds_the_tables_and_charts_of_its_own(tmp_path):
    # Two engines of one kind, so that there is something to draw.
    books = [metric_four(), numbered(inch_v8(), "24-031"), numbered(inch_v8(), "24-033")]
    book = load_workbook(io.BytesIO(written(tmp_path, books)["month-2024-04.xlsx"]))
    assert book.sheetnames == [
        "Month", "Charts", "Builds finished", "Open jobs", "Power", "Fits by engine kind",
        "Findings", "Parts to order", "Missing signatures", "Paperwork", "To settle",
        "Fits by build", "Readings",
    ]  # fmt: skip
    rows = list(book["Builds finished"].values)
    assert rows[0][0] == "Job"
    assert {row[0] for row in rows[1:]} == {"24-031", "24-032", "24-033"}
    days = rows[0].index("Days")
    assert 46 in {row[days] for row in rows[1:]}  # 4 March to 19 April 2024
    assert book["Builds finished"].auto_filter.ref.startswith("A1:")
    means = book["Fits by build"]
    charts = book["Charts"]._charts
    assert len(charts) >= 2
    for chart in charts:
        for series in chart.series:
            sheet, _, cells = series.val.numRef.f.rpartition("!")
            assert sheet == "'Fits by build'"
            ((left, top), (right, bottom)) = cells_of(cells)
            assert left == right
            values = [means.cell(row, left).value for row in range(top, bottom + 1)]
            assert len(values) == 2
            assert all(isinstance(v, (int, float)) for v in values)


def cells_of(reference):
    left, top, right, bottom = range_boundaries(reference.replace("$", ""))
    return (left, top), (right, bottom)


def numbered(book, number):
    """The same book as that of another job."""
    job = replace(book.job, number=JobField(number))
    return replace(book, job=job, file_name=f"{number}.xlsx", sha256=number.rjust(64, "0"))


def test_what_is_looked_up_and_what_is_empty_is_not_printed(tmp_path):
    book = load_workbook(io.BytesIO(written(tmp_path)["month-2024-04.xlsx"]))
    for title in ("Readings", "Fits by build", "Paperwork", "Open jobs"):
        sheet = book[title]
        (area,) = re.findall(r"\$([A-Z]+)\$(\d+)", str(sheet.print_area))[:1]
        assert sheet[f"{area[0]}{area[1]}"].value is None, title
    assert book["Builds finished"].print_area in (None, "")


def test_readings_in_the_spreadsheet_are_tidy(tmp_path):
    books = [with_readings(book) for book in (inch_v8(), metric_four())]
    files = written(tmp_path, books)
    rows = list(load_workbook(io.BytesIO(files["month-2024-04.xlsx"]))["Readings"].values)
    table = list(csv.reader(io.StringIO(files["readings.csv"].decode())))
    assert len(rows) == len(table) > 100
    assert {len(row) for row in rows} == {len(READING_COLUMNS)}
    bore = next(dict(zip(table[0], row, strict=True)) for row in rows if row[3] == "C10")
    assert bore["label"] == "Bore, Cyl 1"
    assert (bore["value"], bore["unit"], bore["state"]) == (3.9655, "in", "read")


def test_no_text_of_a_book_is_a_formula_markup_or_script(tmp_path):
    files = written(tmp_path, [hostile()], unread=[(HOSTILE, HOSTILE)])
    for sheet in load_workbook(io.BytesIO(files["month-2024-04.xlsx"])).worksheets:
        for row in sheet.iter_rows():
            assert all(c.data_type != "f" and c.hyperlink is None for c in row)
    page = files["index.html"].decode()
    assert page.count("<script>") == 1
    assert "alert(&#39;x&#39;)" in page
    for name, content in files.items():
        if name.endswith(".csv"):
            for row in csv.reader(io.StringIO(content.decode())):
                assert not [c for c in row if c.startswith(("=", "+", "@"))], name
    assert all(re.fullmatch(r"(builds/)?[\w.-]+", name) for name in files)


def test_the_page_asks_nothing_of_the_network(tmp_path):
    page = written(tmp_path)["index.html"].decode()
    assert not re.findall(r"(?:src|href)=\"(?:https?:|//)", page)
    assert "@import" not in page
    assert "url(" not in page


@pytest.mark.needs("pdftotext")
def test_the_print_tells_the_month(tmp_path):
    written(tmp_path, unread=[("old.xls", "another kind of file")])
    path = tmp_path / "month-2024-04.pdf"
    done = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True)
    for words in ("Builds of April 2024", "24-031", "24-032", "old.xls", "R. Example"):
        assert words in done.stdout


@pytest.mark.needs("chromium", "google-chrome")
def test_the_page_sorts_and_filters_without_a_server(tmp_path):
    written(tmp_path)
    script = """
      const jobs = () => [...document.querySelectorAll("table.builds tbody tr")]
        .filter((r) => !r.hidden).map((r) => r.cells[0].textContent);
      const press = (name) => [...document.querySelectorAll("table.builds th button")]
        .find((b) => b.textContent === name).click();
      const said = { first: jobs() };
      press("Days"); said.days = jobs();
      press("Finished"); press("Finished"); said.latest = jobs();
      const field = document.getElementById("words");
      field.value = "24-032"; field.dispatchEvent(new Event("input")); said.filtered = jobs();
      field.value = ""; field.dispatchEvent(new Event("input")); said.all = jobs();
      document.body.innerHTML = ""; document.title = JSON.stringify(said);
    """
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    (tmp_path / "pressed.html").write_text(
        page.replace("</body>", f"<script>{{{script}}}</script></body>"), encoding="utf-8"
    )
    flags = [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", f"--user-data-dir={tmp_path / 'profile'}", "--dump-dom",
    ]  # fmt: skip
    done = subprocess.run(
        [shutil.which("chromium") or "google-chrome", *flags, (tmp_path / "pressed.html").as_uri()],
        capture_output=True, text=True, check=True, timeout=120,
    )  # fmt: skip
    said = json.loads(re.search(r"<title>(.*?)</title>", done.stdout)[1])
    assert said["first"] == ["24-031", "24-032"]
    # The second book gives no date of start, so it has no days and stands last.
    assert said["days"] == ["24-031", "24-032"]
    assert said["latest"] == ["24-032", "24-031"]
    assert said["filtered"] == ["24-032"]
    assert said["all"] == ["24-032", "24-031"]


@pytest.mark.parametrize(
    ("name", "text", "line", "reason"),
    [
        ("month.html.jinja", "one\n{{ month.nobody }}\n", 2, "nobody"),
        ("month.html.jinja", "{% if %}", 1, "Expected an expression"),
        ("summary.html.jinja", "a\nb\n{{ summary.job.number.nothing }}", 3, "nothing"),
        (
            "parts/shop.html.jinja",
            "{% macro letterhead(shop) %}\n{{ 1 / 0 }}{% endmacro %}",
            2,
            "zero",
        ),
        ("month.typ", "#let x = 1\n#nothing", 2, "unknown variable"),
    ],
)
def test_a_broken_template_of_the_shop_gives_template_line_and_reason(
    tmp_path, name, text, line, reason
):
    own = tmp_path / "own" / name
    own.parent.mkdir(parents=True)
    own.write_text(text, encoding="utf-8")
    with pytest.raises(TemplateError) as told:
        written(tmp_path / "out", shop=replace(SHOP, templates=tmp_path / "own"))
    assert str(told.value).startswith(f"template {own}, line {line}: ")
    assert reason in told.value.reason
    assert not (tmp_path / "out").exists()


def test_long_tables_are_cut_for_print_and_spreadsheet_and_say_how_much_more_there_is(
    tmp_path, monkeypatch
):
    from workbook_tools.month import month
    from workbook_tools.month import sheet as month_sheet
    from workbook_tools.month import shown as month_shown

    shown = []
    monkeypatch.setattr(month_shown, "ROWS_IN_PRINT", 1)
    monkeypatch.setattr(month_sheet, "ROWS_ON_A_SHEET", 5)
    usual = month.pdf
    monkeypatch.setattr(
        month,
        "pdf",
        lambda name, data, override: shown.append(data) or usual(name, data, override),
    )
    files = written(tmp_path)
    (builds,) = (t for t in shown[0]["tables"] if t["key"] == "builds")
    assert (len(builds["rows"]), builds["more"]) == (1, 1)
    readings = list(csv.reader(io.StringIO(files["readings.csv"].decode())))[1:]
    sheet = load_workbook(io.BytesIO(files["month-2024-04.xlsx"]))["Readings"]
    told = [row[0] for row in sheet.values if row[0]]
    assert len(told) == 1 + 5 + 1
    assert told[-1] == f"{len(readings) - 5} rows more are in readings.csv"
    assert len(list(csv.reader(io.StringIO(files["builds.csv"].decode())))) == 3
    monkeypatch.setattr(month_shown, "ROWS_SHOWN", 1)
    files = written(tmp_path)
    page = files["index.html"].decode()
    assert re.search(r'>Builds finished <span class="much">2</span>', page)
    assert "1 rows more: see builds.csv." in page
    finished = load_workbook(io.BytesIO(files["month-2024-04.xlsx"]))["Builds finished"]
    assert [row[0] for row in finished.values if row[0]][2:] == ["1 rows more are in builds.csv"]
