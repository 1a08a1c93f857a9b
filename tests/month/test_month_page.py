"""The month on one page, in a dozen printed pages, and the months of a year beside each other."""

import csv
import datetime
import io
import re
import shutil
import subprocess

import pytest
from filled_builds import filled_build, november

from workbook_tools.month.glance import glance
from workbook_tools.month.month import write_month
from workbook_tools.month.period import period
from workbook_tools.month.tables import month_tables
from workbook_tools.settings.shop import Shop

MOST_PAGES = 12


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """The files of a full month."""
    folder = tmp_path_factory.mktemp("november")
    write_month(period("2026-11"), november(), folder, Shop("Example Engines"))
    return folder


def pages(path):
    """The text of each page of a PDF."""
    done = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True)
    return done.stdout.decode().split("\f")[:-1]


def first_page(builds, first="2026-11", last=""):
    tables = glance(month_tables(period(first, last), builds))
    return {table.key.removeprefix("first-"): table for table in tables}


def texts(table):
    names = [column.name for column in table.columns]
    return [dict(zip(names, (c.text for c in row), strict=True)) for row in table.rows]


@pytest.mark.needs("pdftotext")
def test_a_full_month_prints_on_a_dozen_pages_and_begins_with_one_that_tells_it(written):
    told = pages(written / "month-2026-11.pdf")
    assert len(told) <= MOST_PAGES
    for words in (
        "builds finished", "Finished, the worst first", "Open, the oldest first",
        "Signatures missing", "Findings", "Fits, those to look at first", "Valve springs short",
    ):  # fmt: skip
        assert words in told[0], words
    assert told[1].lstrip().startswith("Fits, build by build")


@pytest.mark.slow
@pytest.mark.needs("pdftotext")
def test_the_spreadsheet_prints_on_a_dozen_pages_without_readings(written, recalculated):
    told = pages(recalculated(written / "month-2026-11.xlsx", to="pdf"))
    assert len(told) <= MOST_PAGES
    assert "Open, the oldest first" in told[0]
    assert "build by build" in told[1]
    assert not any(re.search(r"\bMeasurand\b", page) for page in told)


@pytest.mark.slow
@pytest.mark.needs("chromium", "google-chrome")
@pytest.mark.needs("pdftotext")
def test_the_page_prints_from_a_browser_on_a_dozen_pages(written, tmp_path):
    out = tmp_path / "page.pdf"
    flags = [
        "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--no-pdf-header-footer",
        f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={out}",
    ]  # fmt: skip
    program = shutil.which("chromium") or "google-chrome"
    page = (written / "index.html").as_uri()
    subprocess.run([program, *flags, page], capture_output=True, check=True, timeout=120)
    told = pages(out)
    assert len(told) <= MOST_PAGES
    assert "Fits, those to look at first" in told[0]
    assert "Fits, build by build" in told[1]


def test_open_jobs_stand_with_age_and_what_each_waits_for():
    builds = [filled_build(n, None) for n in range(30)]
    table = first_page(builds)["open"]
    rows = texts(table)
    ages = [int(row["age"]) for row in rows]
    assert ages == sorted(ages, reverse=True)
    said = "machine shop; Valve springs short (RL, until 2026-12-05); parts: Ring set"
    assert rows[0]["waiting for"] == said
    assert table.more == 30 - table.print_rows > 0


def test_builds_stand_with_their_power_and_what_is_not_signed_the_worst_first():
    day = datetime.date(2026, 11, 9)
    builds = [filled_build(1, day, findings=2), filled_build(2, day, findings=5)]
    rows = texts(first_page(builds)["released"])
    assert [row["job"] for row in rows] == ["26-0002", "26-0001"]
    assert (rows[0]["power"], rows[0]["torque"]) == (
        "422 hp at 6,100",
        "402 lbf.ft at 4,500",
    )
    assert (rows[0]["findings"], rows[0]["unsigned"]) == ("5", "12")
    assert (rows[0]["hours"], rows[1]["hours"]) == ("", "41.5")
    (signed, _) = texts(first_page(builds)["signatures"])
    assert signed["line"] == "Block: Seen by (4); Crank: Seen by (4); Rods: Seen by (4)"


def year(drift):
    """A V8 every nine days from February on, with fits that drift or do not."""
    day = datetime.date(2026, 2, 1)
    return [
        filled_build(n, day + datetime.timedelta(days=9 * n), drift=drift * n) for n in range(30)
    ]


def test_a_range_of_months_is_told_month_by_month(tmp_path):
    write_month(period("2026-02", "2026-11"), year(0), tmp_path, Shop())
    assert (tmp_path / "month-2026-02-to-2026-11.xlsx").is_file()
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert '<h1 class="kind">Builds of February to November 2026</h1>' in page
    rows = list(csv.DictReader(io.StringIO((tmp_path / "months.csv").read_text("utf-8"))))
    assert [row["month"] for row in rows] == list(period("2026-02", "2026-11").months)
    assert sum(int(row["builds"]) for row in rows) == 30
    # 1 February and every nine days: the 10th, 19th and 28th.
    assert rows[0]["builds"] == "4"


def test_a_hone_that_drifts_is_seen_in_a_year_of_builds():
    steady = first_page(year(0), "2026-02", "2026-11")["fits"]
    drifting = month_tables(period("2026-02", "2026-11"), year(0.5))
    row = drifting.fits.set_index("fit").loc["Piston clearance"]
    assert row["builds"] == 30
    assert row["low limit"] < row["mean"] < row["high limit"]
    assert re.search(r"\d\d in a row above the mean, since 26-00\d\d", row["noticed"])
    (first, *_) = texts(glance(drifting)[-1])
    assert "in a row" in first["noticed"] or "beyond the limits" in first["noticed"]
    alarms = [row for row in texts(steady) if "in a row" in row.get("noticed", "")]
    assert len(alarms) <= 6


def test_a_chart_marks_what_chance_does_not_explain(tmp_path):
    write_month(period("2026-02", "2026-11"), year(0.5), tmp_path, Shop())
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    (chart,) = re.findall(r'<svg[^>]*aria-label="Piston clearance.*?</svg>', page, re.DOTALL)
    assert chart.count('stroke="#7a4f00"') >= 9  # rings
    assert chart.count('stroke-dasharray="4 2"') == 2  # limits
    heights = [float(y) for y in re.findall(r'cy="([\d.]+)"', chart)]
    assert min(heights) > 20
    assert max(heights) < 96
