"""The add-in's menu in a running LibreOffice: checking, summaries, reasons, units."""

import sys
from pathlib import Path

import openpyxl
import pytest

MENU_SESSION = Path(__file__).with_name("menu_session.py")
ROWS = [
    ["Deck clearance (in)", 0.01],
    ["Gasket, compressed (in)", None],
    ["Quench (in)", "=ENG.QUENCH(B1,B2)"],
    ["Other quench (in)", '=ENG.QUENCH(B1,0.03)*2&" in"'],
    ["Rod stretch", '=ENG.ROD_STRETCH(730,B1,6,6500,0.45,"steel")'],
    ["Job number", "12"],
]
ACCEPTED = (
    '[[accepted]]\njob = "12"\ncell = "Top end!B2"\nwho = "R. Lund"\n'
    'when = "2025-05-28"\nwhy = "measured twice"\n'
)


@pytest.fixture(scope="module")
def told(profile, in_session, tmp_path_factory):
    folder = tmp_path_factory.mktemp("menu")
    book = openpyxl.Workbook()
    book.active.title = "Top end"
    for row in ROWS:
        book.active.append(row)
    path = folder / "May" / "job 12.xlsx"
    path.parent.mkdir()
    book.save(path)
    (path.parent / "accepted.toml").write_text(ACCEPTED)
    # In the folder above, which is the user's home.
    (folder / "shop.toml").write_text('name = "Example Engines"\nlogo = "pictures/logo.png"\n')
    (folder / "pictures").mkdir()
    (folder / "pictures" / "logo.png").write_bytes(b"\x89PNG\r\n\x1a\n")
    browser = folder / "browser.py"
    browser.write_text(
        f"import sys; open({str(folder / 'opened')!r}, 'a').write(sys.argv[1] + '\\n')"
    )
    more = {
        "BROWSER": f"{sys.executable} {browser} %s",
        "XDG_CACHE_HOME": str(folder / "cache"),
        "TMPDIR": str(folder),
        "HOME": str(folder),
    }
    before = path.read_bytes()
    found = in_session(profile, {"book": str(path)}, MENU_SESSION, more)
    found["opened"] = (folder / "opened").read_text().split()
    found["book as it was"] = path.read_bytes() == before
    return found


def test_the_menu_has_its_entries(told):
    assert told["entries"] == [
        ["Check this book", "service:workbooktools.Menu?check"],
        ["Summary of this book", "service:workbooktools.Menu?summary"],
        ["Explain this cell", "service:workbooktools.Menu?reason"],
        ["Switch calls between inch and metric", "service:workbooktools.Menu?units"],
    ]


def test_a_check_lists_findings_and_goes_to_the_cell_of_one(told):
    assert told["checked"].startswith("1 finding, 1 more accepted. Checked: 3 results, 1 reading.")
    assert "Top end.B2  missing reading" in told["listed"]
    assert told["selected"] == "$'Top end'.$B$2"
    assert told["book as it was"]


def test_what_lies_beside_the_book_or_above_it_counts(told):
    [address] = told["opened"]
    page = Path(address.removeprefix("file://").replace("%20", " ")).read_text("utf-8")
    assert "R. Lund" in page
    assert "measured twice" in page
    assert "Example Engines" in page
    assert 'src="data:image/png' in page


def test_the_reason_of_a_cell_is_told(told):
    assert told["reason"].startswith("'Top end'!B3: ENG.QUENCH(B1,B2): gasket_thickness from B2")


def test_units_are_written_into_calls_and_taken_out_again(told):
    metric, inch = told["units"]
    assert metric == [
        "Changed the calls in 3 cells: bare numbers are metric now.",
        '=ENG.QUENCH(B1;B2;"metric")',
        '=ENG.QUENCH(B1;0.03;"metric")*2&" in"',
        '=ENG.ROD_STRETCH(730;B1;6;6500;0.45;"steel";"metric")',
    ]
    assert inch == [
        "Changed the calls in 3 cells: bare numbers are inch now.",
        "=ENG.QUENCH(B1;B2)",
        '=ENG.QUENCH(B1;0.03)*2&" in"',
        '=ENG.ROD_STRETCH(730;B1;6;6500;0.45;"steel")',
    ]
    assert told["no units"] == "None of the selected cells has a call that takes units."


def test_a_summary_opens_in_the_browser(told):
    [address] = told["opened"]
    page = Path(address.removeprefix("file://").replace("%20", " "))
    assert page.suffix == ".html"
    assert "Quench" in page.read_text("utf-8")


def test_without_the_program_it_says_how_to_get_it(told):
    assert told["no tool"].startswith("This needs the program workbook-tools on this computer.")
