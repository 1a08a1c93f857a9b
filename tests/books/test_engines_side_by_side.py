"""Engines side by side on one sheet, beside one column of labels or on a card each.

That shops keep such sheets is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows

from workbook_tools.findings import check_batch
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book

DAY = datetime.datetime
GAP = [None, None]


def jobs_of(make_book: Callable[..., Path], rows: Sequence[Sequence[object]]) -> list[Book]:
    return list(read_jobs(make_book({"Sheet1": [list(row) for row in rows]})))


def fields(book: Book) -> dict[str, str]:
    """The fields of a job that say something."""
    return {name: field.text for name, field in vars(book.job).items() if field.text}


def twin_screw(width: int) -> Rows:
    """The sheet of two engines: values of the first from B, of the second so many columns on."""

    def both(label: str, port: Sequence[object], starboard: Sequence[object]) -> list[object]:
        return [label, *port, *[None] * (width - len(port)), *starboard]

    cylinders = [f"Cyl {n}" for n in range(1, 7)]
    mains = [f"M{n}" for n in range(1, 8)]
    proud = [0.31, 0.28, 0.34, 0.3, 0.27, 0.33]
    return [
        ["Both mains of the ferry. All sizes in mm"],
        [],
        both("Job", ["M-218P"], ["M-218S"]),
        both("Owner", ["Ostrow Ferries"], ["Ostrow Ferries"]),
        both("Engine", ["PORT - 6 cyl 5.65 l"], ["STBD - 6 cyl 5.65 l"]),
        both("Fitter", ["Pim"], ["Nuria"]),
        both("Stripped", [DAY(2024, 8, 5)], [DAY(2024, 8, 12)]),
        both("Test run", [DAY(2024, 10, 18)], [DAY(2024, 10, 25)]),
        [],
        both("", cylinders, cylinders),
        both("Liner bore", [100 + n / 1000 for n in (22, 23, 21, 24, 20, 25)],
             [100 + n / 1000 for n in (21, 25, 23, 22, 24, 26)]),
        both("Piston proud of deck", proud, proud),
        both("Top ring gap", [0.4, 0.42, 0.41, 0.45, 0.43, 0.4],
             [0.42, 0.44, 0.4, 0.41, 0.45, 0.43]),
        [],
        both("", mains, mains),
        both("Main oil clearance", [0.082, 0.085, 0.083, 0.08, 0.09, 0.084, 0.081],
             [0.081, 0.08, 0.084, 0.09, 0.07, 0.082, 0.085]),
        both("Crank end float", [0.18], [0.21]),
    ]  # fmt: skip


@pytest.mark.parametrize("width", [7, 8], ids=["side by side", "with an empty column between"])
def test_two_engines_beside_one_column_of_labels(
    make_book: Callable[..., Path], width: int
) -> None:
    port, starboard = jobs_of(make_book, twin_screw(width))
    assert fields(port) == {
        "number": "M-218P", "customer": "Ostrow Ferries", "engine": "PORT - 6 cyl 5.65 l",
        "builder": "Pim", "started": "2024-08-05", "finished": "2024-10-18",
    }  # fmt: skip
    assert fields(starboard) == {
        "number": "M-218S", "customer": "Ostrow Ferries", "engine": "STBD - 6 cyl 5.65 l",
        "builder": "Nuria", "started": "2024-08-12", "finished": "2024-10-25",
    }  # fmt: skip


def test_each_engine_has_its_own_columns_beside_the_labels(make_book: Callable[..., Path]) -> None:
    port, starboard = jobs_of(make_book, twin_screw(7))
    first = {r.place.address: (r.measurand, r.part.number) for r in port.readings}
    second = {r.place.address: (r.measurand, r.part.number) for r in starboard.readings}
    assert (first["G11"], second["N11"]) == (("bore", 6), ("bore", 6))
    seventh = ("main_bearing_clearance", 7)
    assert (first["H16"], second["O16"]) == (seventh, seventh)
    assert second["I17"][0] == "crank_end_play"
    assert not first.keys() & second.keys()


def test_a_row_copied_from_one_engine_to_the_other_is_told(make_book: Callable[..., Path]) -> None:
    found = check_batch(jobs_of(make_book, twin_screw(7)))
    told = [(f.kind, str(f.place)) for each in found.values() for f in each]
    assert ("copied reading", "Sheet1!I12") in told


@pytest.mark.parametrize("label", ["Engine no", "Motor Nr.", "N° moteur", "N° motore"])
@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["Owner", "Fane", None, "Owner", "Lund"], [{"customer": "Fane"}, {"customer": "Lund"}]),
        (["Fitter", "Pim", None, "Fitter", "Jo"], [{"builder": "Pim"}, {"builder": "Jo"}]),
        ([], [{}, {}]),
    ],
    ids=["owners", "builders", "engines alone"],
)
def test_cards_side_by_side_are_numbered_by_their_engines(
    make_book: Callable[..., Path],
    label: str,
    more: Sequence[object],
    said: Sequence[dict[str, str]],
) -> None:
    rows: Rows = [
        [label, "VR-9", None, label, "VR-10"],
        ["Engine", "Falke 125", None, "Engine", "Falke 250"],
        more,
        ["Bore (mm)", 54.01, None, "Bore (mm)", 66.02],
    ]
    jobs = jobs_of(make_book, rows)
    assert [fields(book) for book in jobs] == [
        {"number": "VR-9", "engine": "Falke 125", **said[0]},
        {"number": "VR-10", "engine": "Falke 250", **said[1]},
    ]
    assert [r.place.address for book in jobs for r in book.readings] == ["B4", "E4"]


def test_two_engine_numbers_of_one_job_are_no_cards(make_book: Callable[..., Path]) -> None:
    """The one that was sent in, and the one it was swapped for."""
    rows: Rows = [["Engine no", "4471", None, "Engine no", "4472"], ["Owner", "Fane"],
                  ["Bore (mm)", 54.01]]  # fmt: skip
    assert [fields(book) for book in jobs_of(make_book, rows)] == [{"customer": "Fane"}]
