"""What titles say of a job without a label: its engine, whose it is, its number, who did it.

That builders write so is common practice, no source; names and sizes are invented.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import openpyxl
import pytest
from books.small_sheet import Rows
from openpyxl.styles import Font

from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book

DAY = datetime.datetime(2024, 3, 4)
LATER = datetime.datetime(2024, 4, 19)
SIZES: Rows = [["Cyl", "Bore (mm)"], [1, 86.01], [2, 86.02]]


def fields(book: Book) -> dict[str, str]:
    """The fields of a job that say something."""
    return {name: field.text for name, field in vars(book.job).items() if field.text}


def told(
    make_book: Callable[..., Path], head: Sequence[Sequence[object]], title: str = "Sheet1"
) -> dict[str, str]:
    (book,) = read_jobs(make_book({title: [*map(list, head), *SIZES]}))
    return fields(book)


@pytest.mark.parametrize(
    "note",
    [
        "want 1.8 to 3.0", "Spring seat lb ok 118-128?", "main clr want 1.8 to 3.0",
        "came Tues 14/11/2023", "Valve spring load 118", "guides ok under 2.5", "soll 1.8 bis 3.0",
        "jeu 1.8 à 3.0",
    ],
)  # fmt: skip
def test_a_limit_or_a_day_is_no_engine(make_book: Callable[..., Path], note: str) -> None:
    assert "engine" not in told(make_book, [[note]])
    assert "engine" not in told(make_book, [["Job", "J-12", "Customer", "Ada Quill"], [note]])


@pytest.mark.parametrize(
    ("head", "expected"),
    [
        ([["383 small block .030 over - Ada Quill - #118"]],
         {"engine": "383 small block", "customer": "Ada Quill", "number": "118"}),
        ([["Hugo Fane  iron V8 5.0  balance job 312"]],
         {"engine": "iron V8 5.0", "customer": "Hugo Fane", "number": "312"}),
        ([["V6 3.0 truck motor, +0.5 pistons (all mm)", "Client", "S. Ostrow"]],
         {"engine": "V6 3.0", "customer": "S. Ostrow"}),
        ([["flathead six 230 for Grandpa's truck"]], {"engine": "flathead six 230"}),
        ([["big block V8 7.4 marine - heads only", "Tannbrook Fisheries"]],
         {"engine": "big block V8 7.4", "customer": "Tannbrook Fisheries"}),
        ([["3.4 litre twin cam six", "Mr R Ostrow", "job 2207"]],
         {"engine": "3.4 litre twin cam six", "customer": "Mr R Ostrow", "number": "2207"}),
        ([["1600 pushrod four", "Ada Quill", "eng 7 build 3", "built by Wal"]],
         {"engine": "1600 pushrod four", "customer": "Ada Quill", "number": "eng 7 build 3",
          "builder": "Wal"}),
        ([["4 cyl diesel 3.9", "No. 44/23"]], {"engine": "4 cyl diesel 3.9", "number": "44/23"}),
        ([["Vierzylinder 2,0 Benziner", "Frau Ostrow", "Nr. 24-117"]],
         {"engine": "Vierzylinder 2,0 Benziner", "customer": "Frau Ostrow", "number": "24-117"}),
    ],
    ids=["one cell", "wide spaces", "oversize", "for", "part of it", "Mr", "a team's", "No.",
         "German"],
)  # fmt: skip
def test_a_title_says_several_facts(
    make_book: Callable[..., Path], head: Sequence[Sequence[object]], expected: Mapping[str, str]
) -> None:
    assert told(make_book, head) == expected


def test_a_single_name_is_that_of_the_sheet(make_book: Callable[..., Path]) -> None:
    """A place may stand behind it, and without the sheet's name nobody knows which is which."""
    title = [["3 cyl tractor diesel 2.6, Ostrow, Tannbrook.  mm"]]
    expected = {"engine": "3 cyl tractor diesel 2.6", "customer": "Ostrow"}
    assert told(make_book, title, "ostrow tractor") == expected
    assert "customer" not in told(make_book, title)


@pytest.mark.parametrize(
    "title",
    ["V8 5.7 - Super Stock", "V8 5.7 - Short Block", "383 small block - Winter Rebuild",
     "V8 5.7, Marine", "V8 5.7 - All Inches", "V6 3.0 - Blue Boat", "V8 5.7 - Hot Street"],
)  # fmt: skip
def test_what_is_no_name_is_no_customer(make_book: Callable[..., Path], title: str) -> None:
    """With a name in the same place it is one."""
    assert "customer" not in told(make_book, [[title]])
    engine = title.split(" - ")[0].split(",")[0]
    assert told(make_book, [[f"{engine} - Ada Quill"]]).get("customer") == "Ada Quill"


TITLE = ["V8 5.7 - Ada Quill - #118"]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        (["assembled TW"], {"builder": "TW"}),
        (["assembled by hand"], {}),
        (["assembled OK"], {}),
        (["tore down 6/14/2024 (Chet)"], {"builder": "Chet", "started": "2024-06-14"}),
        (["tore down 6/14/2024 (late)"], {"started": "2024-06-14"}),
        (["spun by", "Kylie"], {"builder": "Kylie"}),
        (["spun", LATER], {"finished": "2024-04-19"}),
        (["crank landed 14/8/2025"], {"started": "2025-08-14"}),
        (["came Tues 14/11/2023", "collected 20/12/2023"],
         {"started": "2023-11-14", "finished": "2023-12-20"}),
    ],
)  # fmt: skip
def test_who_and_when_in_short(
    make_book: Callable[..., Path], row: Sequence[object], expected: Mapping[str, str]
) -> None:
    found = told(make_book, [TITLE, row])
    assert {k: v for k, v in found.items() if k in ("builder", "started", "finished")} == expected


def test_a_job_order_is_a_number(make_book: Callable[..., Path]) -> None:
    found = told(make_book, [["diesel six 4.2, ute"], ["owner: Ada Quill", "J/O 0619"]])
    assert found == {"engine": "diesel six 4.2", "customer": "Ada Quill", "number": "0619"}


def test_the_day_beside_the_title_of_a_strip_and_of_the_dyno(
    make_book: Callable[..., Path],
) -> None:
    strip: Rows = [["diesel six 4.2", DAY], *SIZES]
    build: Rows = [["BUILD", "Sal + Tom"], *SIZES]
    dyno: Rows = [["on the pump", LATER], ["rpm", "torque lb ft"], [3500, 138]]
    (book,) = read_jobs(make_book({"Strip": strip, "Build": build, "dyno": dyno}))
    found = fields(book)
    days = {"started": "2024-03-04", "finished": "2024-04-19"}
    assert found == {"engine": "diesel six 4.2", "builder": "Sal + Tom", **days}
    (alone,) = read_jobs(make_book({"Build": [["BUILD SHEET", DAY], *SIZES]}))
    assert "finished" not in fields(alone)
    promised: Rows = [["dyno", "due", LATER], ["rpm", "torque lb ft"], [3500, 138]]
    (book,) = read_jobs(make_book({"Strip": strip, "dyno": promised}))
    assert "finished" not in fields(book)


@pytest.mark.parametrize("behind", ["Ada Quill", ""])
def test_what_stands_behind_a_name_struck_out_is_in_its_place(tmp_path: Path, behind: str) -> None:
    """A name that is struck out and not replaced is the only one that the sheet gives."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["customer", "Hugo Fane", behind or None, "job", "S/88"])
    for row in SIZES:
        sheet.append(row)
    sheet["B1"].font = Font(strike=True)
    book.save(tmp_path / "struck.xlsx")
    (found,) = read_jobs(tmp_path / "struck.xlsx")
    assert fields(found) == {"customer": behind or "Hugo Fane", "number": "S/88"}


def test_titles_of_two_jobs_on_one_sheet(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["383 small block - Ada Quill - #118"], *SIZES, [],
        ["350 small block .030 over - Hugo Fane - #119"], *SIZES,
    ]  # fmt: skip
    assert [fields(book) for book in read_jobs(make_book({"Sheet1": rows}))] == [
        {"engine": "383 small block", "customer": "Ada Quill", "number": "118"},
        {"engine": "350 small block", "customer": "Hugo Fane", "number": "119"},
    ]


@pytest.mark.parametrize(
    ("head", "expected"),
    [
        ([["J Ostrow & Son", "4cyl petrol 1.6", "our ref 24/117"]],
         {"customer": "J Ostrow & Son", "engine": "4cyl petrol 1.6", "number": "24/117"}),
        ([["1275 type A four, for Mrs Quill, job 55"]],
         {"customer": "Mrs Quill", "engine": "1275 type A four", "number": "55"}),
        ([["7.4 V8 marine, stbd / Loon Bay Marine / #M-88"]],
         {"customer": "Loon Bay Marine", "engine": "7.4 V8", "number": "M-88"}),
        ([["Hollow Lane Engines"], ["1600 pushrod four", "Ada Quill", "job 2207"]],
         {"customer": "Ada Quill", "engine": "1600 pushrod four", "number": "2207"}),
        ([["4 cyl 2.2 tractor - for Mrs Fane - job 12"]],
         {"customer": "Mrs Fane", "engine": "4 cyl 2.2", "number": "12"}),
        ([["customer Ada Quill engine 500 single job J-13"]],
         {"customer": "Ada Quill", "number": "J-13"}),
        ([["REBUILD 6/24", "V twin 1200", "Hugo Fane"]],
         {"customer": "Hugo Fane", "engine": "V twin 1200", "number": "6/24"}),
        ([["CUSTOMER - Ada Quill", "ENGINE - 6cyl diesel 5.9", "JOB - 771"]],
         {"customer": "Ada Quill", "engine": "6cyl diesel 5.9", "number": "771"}),
        ([["Schlepper 3 Zyl. Diesel 2,6 l, Ostrow Alois, Nr. 17"]],
         {"customer": "Ostrow Alois", "engine": "Schlepper 3 Zyl. Diesel 2,6 l", "number": "17"}),
        ([["Motor: Boxer 1,7 für Fam. Ostrow", "Auftr. 212"]],
         {"customer": "Fam. Ostrow", "engine": "Boxer 1,7", "number": "212"}),
        ([["Moteur diesel 4 cyl. 2,5 l du bateau de Mme Ostrow", "OT 412"]],
         {"customer": "Mme Ostrow", "engine": "diesel 4 cyl. 2,5 l", "number": "412"}),
        ([["M. Ostrow", "6 en ligne 2.8", "fiche 77"]],
         {"customer": "M. Ostrow", "engine": "6 en ligne 2.8", "number": "77"}),
        ([["Motore 4 cil. 1.6 bialbero - sig. Fane - comm. 24/19"]],
         {"customer": "sig. Fane", "engine": "4 cil. 1.6 bialbero", "number": "24/19"}),
        ([["Motor 4 cil. gasolina 1.8 de Don Hugo - OT 331"]],
         {"customer": "Don Hugo", "engine": "4 cil. gasolina 1.8", "number": "331"}),
        ([["OT 412", "Sra. Ostrow", "diésel 6 cil. 5.9"]],
         {"customer": "Sra. Ostrow", "engine": "diésel 6 cil. 5.9", "number": "412"}),
    ],
)  # fmt: skip
def test_titles_of_keepers_of_many_hands(
    make_book: Callable[..., Path], head: Sequence[Sequence[object]], expected: Mapping[str, str]
) -> None:
    assert told(make_book, head) == expected


@pytest.mark.parametrize(
    ("row", "builder"),
    [
        (["stripped 14/2/24 KB, back together 20/3/24 KB"], "KB"),
        (["in 3/14/24 out 4/20/24 by Al"], None),
        (["in 3/14/24 out 4/20/24 by Alf"], "Alf"),
        (["arrivato 13/2/2024, finito 20/3/2024 (Gino)"], "Gino"),
        (["desarmado 13/2/24", "armado 28/3/24 por Nacho"], "Nacho"),
        (["Dismantled 14 Feb 2024. Finished 9 May 2024. RJ"], "RJ"),
        (["Done by Rusty"], "Rusty"),
        (["Done by hand"], None),
        (["Mide", "A. Fane"], "A. Fane"),
    ],
)  # fmt: skip
def test_who_signs_behind_what_was_done(
    make_book: Callable[..., Path], row: Sequence[object], builder: str | None
) -> None:
    """Two letters that are no capitals are as often a word: "by Al" names nobody surely."""
    found = told(make_book, [["V8 5.7 - Ada Quill", "job", "J-118"], row])
    assert found.get("builder") == builder


@pytest.mark.parametrize(
    ("head", "missing"),
    [
        (["V8 5.7", "DIN Norm", "Blatt 12"], {"customer", "number"}),
        (["V8 5.7 - Rear Main Seal - see Job 88"], {"customer", "number"}),
        (["Flat four 1700", "Left Bank", "Right Bank"], {"customer"}),
        (["350 small block", "#1", "#2"], {"number"}),
        (["Service limit 86.05, diesel 220 bar"], {"engine"}),
        (["piston to wall for four 1600 is 0.04 to 0.06"], {"engine"}),
        (["crank in 4/15/2024", "Lobe Lift 300"], {"engine", "started"}),
        (["310 V8, owner says 40k miles, job 19"], {"customer"}),
    ],
)  # fmt: skip
def test_what_is_not_safe_is_left_empty(
    make_book: Callable[..., Path], head: Sequence[object], missing: set[str]
) -> None:
    assert not missing & {*told(make_book, [head])}


def test_numbers_before_engines_part_two_jobs(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["#211 327 small block"], *SIZES, [], ["#212 Falke 245 six"], *SIZES]
    assert [fields(book) for book in read_jobs(make_book({"Sheet1": rows}))] == [
        {"engine": "327 small block", "number": "211"},
        {"engine": "Falke 245 six", "number": "212"},
    ]
