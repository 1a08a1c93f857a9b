"""Units that a sheet says in words for some properties: "sizes in mm, clearances in thou".

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl
import pytest
from small_sheet import Rows, check_told, in_words

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.property_units import says_units, units_of_properties

CYLINDERS = ["", 1, 2, 3]
BORES = [4.03, 4.0302, 4.0301]


@pytest.mark.parametrize(
    ("said", "heads"),
    [
        pytest.param(
            "Sizes in mm, out of round and taper in hundredths of a mm",
            ("Bore", "Out of round", "Taper"),
            id="English",
        ),
        pytest.param(
            "Sizes in mm, out of round and taper in hundredths",
            ("Bore", "Out of round", "Taper"),
            id="English, in short",
        ),
        pytest.param(
            "Maße in mm, Unrundheit und Konizität in Hundertstel",
            ("Bohrung", "Unrundheit", "Konizität"),
            id="German",
        ),
        pytest.param(
            "Cotes en mm, ovalisation et conicité en centièmes",
            ("Alésage", "Ovalisation", "Conicité"),
            id="French",
        ),
        pytest.param(
            "Medidas en mm, ovalización y conicidad en centésimas",
            ("Diámetro cilindro", "Ovalización", "Conicidad"),
            id="Spanish",
        ),
        pytest.param(
            "Misure in mm, ovalizzazione e conicità in centesimi",
            ("Alesaggio", "Ovalizzazione", "Conicità"),
            id="Italian",
        ),
    ],
)
def test_two_properties_in_hundredths_of_a_millimeter(
    tmp_path: Path, said: str, heads: tuple[str, str, str]
) -> None:
    bore, roundness, taper = heads
    rows = [[said], CYLINDERS, [bore, 86.01, 86.02, 86.01], [roundness, 2, 1, 3], [taper, 1, 2, 1]]
    expected = {
        "B7": "bore 1 86.01 mm", "B8": "bore_out_of_round 1 0.02 mm",
        "D8": "bore_out_of_round 3 0.03 mm", "C9": "bore_taper 2 0.02 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_hundredths_in_a_text_of_inches_are_no_unit() -> None:
    assert not units_of_properties(["sizes in inches, taper in hundredths of an inch"]).get("taper")
    assert units_of_properties(["sizes in mm, taper in hundredths"])["taper"] == "hundredths mm"


@pytest.mark.parametrize(
    ("said", "rows", "expected"),
    [
        pytest.param(
            "Sizes in inches, oval in tenths, finish in micro inches",
            [["Oval", 3, 4, 2], ["Finish", 18, 20, 19]],
            {"B7": "bore 1 4.03 in", "B8": "bore_out_of_round 1 0.0003 in",
             "B9": "bore_finish 1 1.8e-05 in"},
            id="three, each in its own",
        ),
        pytest.param(
            "Sizes in inches; clearance, gaps and deck in thou",
            [["Piston clearance", 4, 4.5, 4], ["Top ring gap", 16, 17, 16], ["Deck", 12, 11, 12]],
            {"B7": "bore 1 4.03 in", "C8": "piston_clearance 2 0.0045 in",
             "B9": "top_ring_gap 1 0.016 in", "B10": "deck_clearance 1 0.012 in"},
            id="several in one",
        ),
        pytest.param(
            "Sizes in inches; oval, taper in tenths",
            [["Oval", 3, 4, 2], ["Taper", 2, 3, 2]],
            {"B8": "bore_out_of_round 1 0.0003 in", "B9": "bore_taper 1 0.0002 in"},
            id="two behind a comma",
        ),
        pytest.param(
            "Sizes in inches, clearances in thou",
            [["Piston clearance", 4, 4.5, 4], ["Deck clearance", 0.012, 0.011, 0.012]],
            {"B8": "piston_clearance 1 0.004 in", "B9": "deck_clearance 1 0.012 in"},
            id="but for sizes that fit the bare unit",
        ),
    ],
)  # fmt: skip
def test_each_property_is_in_the_unit_that_the_sheet_says_for_it(
    tmp_path: Path, said: str, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, [[said], CYLINDERS, ["Bore", *BORES], *rows], expected)


@pytest.mark.parametrize(
    "said",
    [
        "Clearance, gaps and deck in thou",
        "Gaps and lash in thou",
        "Clearances in thou",
        "Sizes in inches, clearances in thou",
    ],
)
def test_a_text_that_says_units_names_nothing_below_it(tmp_path: Path, said: str) -> None:
    rows = [["all sizes in inches"], [said], CYLINDERS, ["Bore", *BORES],
            ["Piston clearance", 4, 4.5, 4]]  # fmt: skip
    check_told(tmp_path, rows, {"B8": "bore 1 4.03 in", "B9": "piston_clearance 1 0.004 in"})
    assert says_units(said)


@pytest.mark.parametrize("said", ["Clearances in thou", "Gaps and lash in thou"])
def test_a_text_over_a_gap_that_says_units_names_nothing_below_it(
    tmp_path: Path, said: str
) -> None:
    rows = [[said], [], ["Cyl", "As found", "Finished"], [1, 4.01, 4.03], [2, 4.01, 4.03]]
    check_told(tmp_path, rows, {"B8": "bore 1 found 4.01 in", "C9": "bore 2 final 4.03 in"})


@pytest.mark.parametrize("gap", [pytest.param([], id="right over"), pytest.param([[]], id="apart")])
@pytest.mark.parametrize(
    ("title", "heads", "sizes", "reading"),
    [
        ("Main clearances in thou", ["Found", "Final"], [2.5, 2],
         "main_bearing_clearance 1 found 0.0025 in"),
        ("Lash in thou", ["Inlet", "Exhaust"], [8, 10], "intake_lash 1 0.008 in"),
        ("Ring gaps in thou", ["Top", "2nd"], [16, 18], "top_ring_gap 1 0.016 in"),
    ],
)  # fmt: skip
def test_a_title_with_its_unit_stays_one(
    tmp_path: Path, title: str, heads: list[str], sizes: list[float], reading: str,
    gap: list[list[object]],
) -> None:  # fmt: skip
    rows = [[title], *gap, ["No.", *heads], *([n, *sizes] for n in (1, 2, 3))]
    check_told(tmp_path, rows, {f"B{7 + len(gap)}": reading})
    assert not says_units(title)


def test_a_text_over_the_jobs_of_a_sheet_holds_for_each_of_them(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.append(["Sizes in mm, out of round in hundredths of a mm"])
    for number, customer, bore in (("26-041", "Ostrow", 86.01), ("26-042", "Lindqvist", 81.01)):
        for row in ([], ["Job", number], ["Customer", customer], ["Cyl", "Bore", "Out of round"],
                    [1, bore, 2], [2, bore, 1]):  # fmt: skip
            sheet.append(row)
    book.save(tmp_path / "book.xlsx")
    jobs = read_jobs(tmp_path / "book.xlsx")
    found = [{r.place.address: in_words(r) for r in job.readings} for job in jobs]
    assert [told[at] for told, at in zip(found, ("C6", "C12"), strict=True)] == [
        "bore_out_of_round 1 0.02 mm",
        "bore_out_of_round 1 0.02 mm",
    ]
