"""Bore and stroke exchanged, and sizes that share a cell or a sentence.

That a builder takes one for the other is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs


@pytest.fixture
def found(make_book):
    """found(rows) -> {code: message} of what is found on a book of these rows."""

    def codes(rows):
        (book,) = read_jobs(make_book({"S": rows}))
        return {f.code: f.message for f in check(book)}

    return codes


HEAD = [["Job", "31"], ["Engine", "V8"]]
CYLINDERS = [
    [],
    ["Cyl", *range(1, 9)],
    ["Bore (in)", *[4.0012, 4.0013, 4.0011, 4.0012] * 2],
    ["Piston (in)", *[3.9967, 3.9968, 3.9966, 3.9967] * 2],
]


@pytest.mark.parametrize(
    ("stated", "is_exchanged"),
    [
        ([["Bore (in)", 3.48], ["Stroke (in)", 4.0]], True),
        ([["Bore x stroke (in)", "3.48 x 4.00"]], True),
        ([["Bore (in)", 4.0], ["Stroke (in)", 3.48]], False),
        ([["Bore x stroke (in)", "4.00 x 3.48"]], False),
        ([["Bore (in)", 4.0], ["Stroke (in)", 4.0]], False),
        ([["Bore nominal (in)", 3.48], ["Stroke (in)", 4.0]], True),
        ([["Bore nominal (in)", 4.0], ["Stroke (in)", 3.48]], False),
    ],
)
def test_bore_and_stroke_are_held_to_the_cylinders(found, stated, is_exchanged):
    codes = found([*HEAD, *stated, *CYLINDERS])
    assert ("bore-and-stroke" in codes) == is_exchanged
    if is_exchanged:
        assert "exchanged" in codes["bore-and-stroke"]
        assert "4.0012 in" in codes["bore-and-stroke"]


@pytest.mark.parametrize(("bore", "stroke"), [(8.0, 5.25), (5.25, 8.0)])
def test_bore_and_stroke_are_held_to_the_piston_and_the_old_bore(found, bore, stroke):
    rows = [["Bore before (in)", 5.268], ["Bore honed (in)", bore], ["Piston (in)", 5.24]]
    codes = found([["Job", "31"], *rows, ["Stroke (in)", stroke]])
    assert ("bore-and-stroke" in codes) == (bore > stroke)


def test_sizes_in_one_cell_are_each_what_their_name_says(make_book):
    rows = [
        *HEAD, ["Cylinders", 8], ["Bore x stroke (in)", "4.00 x 3.48"], ["Chamber cc", 64],
        ["Gasket thickness x bore (in)", ".039 x 4.166"], ["Deck clearance (in)", 0.01],
        ["Dish cc", 5],
    ]  # fmt: skip
    (book,) = read_jobs(make_book({"S": rows}))
    assert [f.code for f in check(book) if f.kind == "disagreement"] == []
    results = {r.measurand: r.value for r in book.records if r.computed_by_batch}
    # pi/4 4^2 3.48 x 8 = 349.85 cu in.
    assert results["displacement"] == pytest.approx(349.85, abs=0.01)


def test_a_sentence_with_sizes_of_one_cylinder_is_held_to_its_own_numbers(found):
    rows = [
        ["Job no. 412", None],
        ['No. 1 bore 2.2843", piston skirt 2.2815", clearance 2.8 thou'],
        ['No. 2 bore 2.2844", piston skirt 2.2815", clearance 2.9 thou'],
        ['No. 3 bore 2.2843", piston skirt 2.2814", clearance 3.9 thou'],
        ['No. 4 bore 2.2845", piston skirt 2.2816", clearance 2.9 thou'],
    ]
    codes = found(rows)
    assert "0.0039 in" in codes["contradicts-its-sizes"]
    rows[3] = ['No. 3 bore 2.2843", piston skirt 2.2814", clearance 2.9 thou']
    assert "contradicts-its-sizes" not in found(rows)


def test_formulas_over_a_column_are_no_readings(make_book, tmp_path):
    import openpyxl

    book = openpyxl.Workbook()
    rows = [["Cyl", "Bore mm"], [1, 80.01], [2, 80.02], [3, 80.01], ["Spanne", None]]
    for row in (["Auftrag", "7"], [], *rows):
        book.active.append(row)
    book.active["B7"] = "=MAX(B4:B6)-MIN(B4:B6)"
    book.save(tmp_path / "a.xlsx")
    (read,) = read_jobs(tmp_path / "a.xlsx")
    assert [s.place.address for s in read.stated] == []
    assert [r.place.address for r in read.readings] == ["B4", "B5", "B6"]


def test_lines_a_step_apart_are_not_told_from_each_other(findings):
    rows = [
        ["Cylinder", 1, 2, 3, 4],
        ["Inlet guide mm", 8.008, 8.010, 8.009, 8.008],
        ["Exhaust guide mm", 8.010, 8.009, 8.010, 8.011],
    ]
    assert not {at for at in findings(S=rows) if at in ("S!C2", "S!C3")}
