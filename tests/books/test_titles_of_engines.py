"""Engines that a longer title names, rebuilds that number jobs, and singles by their size.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows

from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book

DAY = datetime.datetime(2024, 3, 4)
SIZE = ["Bore (mm)", 86.01]


def jobs_of(make_book: Callable[..., Path], rows: Sequence[Sequence[object]]) -> list[Book]:
    return list(read_jobs(make_book({"Sheet1": [list(row) for row in rows]})))


def fields(book: Book) -> dict[str, str]:
    """The fields of a job that say something."""
    return {name: field.text for name, field in vars(book.job).items() if field.text}


@pytest.mark.parametrize(
    ("title", "engine"),
    [
        (["Falke 125 single. One line per stripdown"], "Falke 125 single"),
        (["Marlow 105 M (6 cyl)"], "Marlow 105 M"),
        (["Marlow 105, 6 cyl"], "Marlow 105"),
        (["Falke flat four 1700 2024"], "Falke flat four 1700"),
        (["Flat four 1700 twin port. Sizes below as measured on the bench"],
         "Flat four 1700 twin port"),
        (["Flat four 1700", "Ada Quill", "12 Nov"], "Flat four 1700"),
        (["Bore sheet - Dornfeld 35 B, 3 cyl", "Ada Quill", DAY], "Dornfeld 35 B"),
        (["Motor 35, 3 cyl", "Ada Quill", "12 Nov"], "Motor 35, 3 cyl"),
        (["Rebuild of the flat four 1700, all sizes in mm"], "flat four 1700"),
        (["Flat four 1700 of the blue car that raced last year, sizes in mm"], "Flat four 1700"),
        (["Überholung des Boxer 1600 aus dem Bus, alle Maße in mm"], "Boxer 1600"),
        (["Job 88 - Hugo Fane - 245 six out of the ute"], "245 six"),
    ],
    ids=["a clause", "brackets", "how many", "a year", "sentences", "a name", "a date",
         "only a number", "of the", "of what", "German", "out of"],
)  # fmt: skip
def test_a_longer_title_names_the_engine(
    make_book: Callable[..., Path], title: Sequence[object], engine: str
) -> None:
    (book,) = jobs_of(make_book, [title, ["Cyl", "Bore (mm)"], [1, 105.01], [2, 105.02]])
    assert fields(book).get("engine") == engine


@pytest.mark.parametrize("label", ["Rebuild", "Refresh"])
def test_a_rebuild_numbers_a_job(make_book: Callable[..., Path], label: str) -> None:
    (book,) = jobs_of(make_book, [[label, "R-14"], ["Customer", "Ostrow"], SIZE])
    assert fields(book) == {"number": "R-14", "customer": "Ostrow"}


def test_rebuilds_in_a_list_are_jobs_and_no_cylinders(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["Rebuild", "Owner", "Engine", "Bore (mm)"],
                  ["7", "Ostrow", "Falke 125", 54.01],
                  ["8", "Tann", "Falke 250", 66.02]]  # fmt: skip
    jobs = jobs_of(make_book, rows)
    assert [fields(book)["number"] for book in jobs] == ["7", "8"]
    assert [(r.measurand, r.part.number) for book in jobs for r in book.readings] == [
        ("bore", 0), ("bore", 0),
    ]  # fmt: skip


def test_an_engine_number_is_that_of_a_job_without_another(
    make_book: Callable[..., Path],
) -> None:
    rows: Rows = [
        ["Engine no", "VR-9"],
        ["For", "Hugo Fane"],
        ["By", "Pat"],
        ["Started", DAY],
        SIZE,
    ]
    (book,) = jobs_of(make_book, rows)
    assert fields(book)["number"] == "VR-9"


@pytest.mark.parametrize("label", ["Revisione del", "Revisionato il"])
def test_the_day_of_an_overhaul_in_italian(make_book: Callable[..., Path], label: str) -> None:
    rows: Rows = [["Motore", "Falbach 1600"], [label, DAY], ["Cliente", "Ostrow"], SIZE]
    (book,) = jobs_of(make_book, rows)
    assert fields(book).get("started") == "2024-03-04"


# Bore squared times stroke times pi / 4, by hand.
@pytest.mark.parametrize(
    ("engine", "sizes", "cc"),
    [
        ("Marlow 250", {"Bore (mm)": 66.253, "Stroke (mm)": 72}, 248.2),
        ("Falke 125", {"Bore (mm)": 55.01, "Stroke (mm)": 58.3}, 138.6),
    ],
    ids=["as sold", "bored far over"],
)
def test_a_single_by_its_size_has_the_displacement_of_one_cylinder(
    make_book: Callable[..., Path], engine: str, sizes: Mapping[str, float], cc: float
) -> None:
    rows: Rows = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", engine], [], *sizes.items()]
    (book,) = jobs_of(make_book, rows)
    (found,) = [record for record in book.records if record.name == "ENG.DISPLACEMENT"]
    assert (found.value, found.unit) == (pytest.approx(cc, rel=1e-3), "cc")


IN_OUT = [DAY, DAY + datetime.timedelta(30)]


@pytest.mark.parametrize(
    "heads",
    [
        ["Rebuild", "Date in", "Date out"], ["Refresh", "Apart", "Running"],
        ["Overhaul", "Stripped", "Test run"], ["Réfection", "Démonté", "Remonté"],
        ["Révision n°", "Entrée", "Sortie"], ["Revisione", "Smontato", "Rimontato"],
        ["Überholung", "zerlegt", "fertig"],
    ],
)  # fmt: skip
@pytest.mark.parametrize("first", [1, 7])
def test_rebuilds_with_nothing_but_their_days_are_jobs(
    make_book: Callable[..., Path], heads: Sequence[str], first: int
) -> None:
    rows: Rows = [[*heads, "Bore (mm)"], [first, *IN_OUT, 54.01], [first + 1, *IN_OUT, 54.02]]
    jobs = jobs_of(make_book, rows)
    days = {"started": "2024-03-04", "finished": "2024-04-03"}
    assert [fields(book) for book in jobs] == [
        {"number": str(first), **days}, {"number": str(first + 1), **days},
    ]  # fmt: skip
    assert [[(r.place.address, r.measurand) for r in book.readings] for book in jobs] == [
        [("D2", "bore")], [("D3", "bore")],
    ]  # fmt: skip


@pytest.mark.parametrize("head", ["Refresh", "Rebuild", "Job no."])
def test_numbers_with_nothing_but_a_customer_are_jobs(
    make_book: Callable[..., Path], head: str
) -> None:
    rows: Rows = [[head, "Customer", "Bore (mm)"], [7, "Ostrow", 54.01], [8, "Tann", 54.02]]
    jobs = jobs_of(make_book, rows)
    assert [fields(book) for book in jobs] == [
        {"number": "7", "customer": "Ostrow"}, {"number": "8", "customer": "Tann"},
    ]  # fmt: skip
    assert [r.place.address for book in jobs for r in book.readings] == ["C2", "C3"]


@pytest.mark.parametrize("head", ["No.", "Cyl"])
def test_numbers_of_cylinders_with_days_are_no_jobs(
    make_book: Callable[..., Path], head: str
) -> None:
    rows: Rows = [[head, "Date in", "Date out", "Bore (mm)"], [1, *IN_OUT, 54.01],
                  [2, *IN_OUT, 54.02]]  # fmt: skip
    assert len(jobs_of(make_book, rows)) == 1


@pytest.mark.parametrize(
    ("title", "customer"),
    [
        ("Ada & Hugo Quill - Super Pro altered", "Ada & Hugo Quill"),
        ("Ada and Hugo Quill – blue boat", "Ada and Hugo Quill"),
        ("Ada & Hugo Quill - racing engines", None),
        ("Quill & Fane Racing - Super Pro altered", None),
        ("Front & Rear Bank - after honing", None),
        ("Bore & Stroke Sizes - after honing", None),
        ("Ada & Hugo Quill", None),
    ],
)
def test_two_names_before_what_they_run_are_the_customer(
    make_book: Callable[..., Path], title: str, customer: str | None
) -> None:
    """What a shop is called stands at the head of its sheets as well."""
    (book,) = jobs_of(
        make_book, [[title], [], ["motor", "541 big block"], ["built by", "Pim"], SIZE]
    )
    assert fields(book).get("customer") == customer
    (book,) = jobs_of(make_book, [[title], [], ["motor", "541 big block"], SIZE])
    assert "customer" not in fields(book)
