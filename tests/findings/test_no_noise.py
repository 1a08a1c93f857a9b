"""What exists is not doubted: extremes, sweeps, targets, lists, sentences, sizes below gaps."""

import pytest

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check, check_batch
from workbook_tools.jobs.read import read_whole


def book(rows, name="a.xlsx"):
    cells = {
        (r, c): Cell(None, value[1:]) if str(value).startswith("=") else Cell(value)
        for r, row in enumerate(rows, 1)
        for c, value in enumerate(row, 1)
        if value is not None
    }
    return read_whole(OpenBook(name, name, (Sheet("S", cells),), {}))


def told(rows):
    return [f.code for f in check(book(rows)) if f.code != "never-calculated"]


SWEEP = (0.35, 0.21, 0.13, 0.095, 0.088, 0.092, 0.12, 0.2, 0.41)


@pytest.mark.parametrize(
    "rows",
    [
        [["Engine speed (rpm)", 16500], ["Stroke (in)", 1.7],
         ["Speed (ft/min)", "=ENG.MEAN_PISTON_SPEED(B2,B1)"]],
        [["Bolt", 1, 2, 3, 4], ["Head bolt stretch (mm)", 0.72, 0.71, 0.73, 0.72]],
        [["Intake closes (deg)", 110], ["Stroke (in)", 3.5], ["Rod (in)", 5.9],
         ["Effective stroke (in)", "=ENG.EFFECTIVE_STROKE(B2,B3,B1)"]],
        [["Main", 1, 2, 3], ["Main clearance (mm)", 0.010, 0.011, 0.010],
         ["Main journal (mm)", 42.0, 42.0, 42.0]],
        [["Deg after TDC", "Intake valve to piston (in)"],
         *zip(range(-20, 25, 5), SWEEP, strict=True)],
        [["Height (in)", "Spring load (lbf)"],
         *zip((1.9, 1.8, 1.7, 1.6, 1.5, 1.4, 1.3), (140, 182, 224, 266, 308, 350, 392),
               strict=True)],
        [["Flatness, most (in)", 0.003], ["Flatness, most (mm)", 0.05],
         ["Head flatness (in)", 0.0015]],
    ],
)  # fmt: skip
def test_what_exists_is_not_doubted(rows):
    assert told(rows) == []


def test_a_slip_in_a_sweep_is_still_one():
    loads = (140, 182, 224, 2660, 308, 350, 392)
    rows = [["Height (in)", "Spring load (lbf)"],
            *zip((1.9, 1.8, 1.7, 1.6, 1.5, 1.4, 1.3), loads, strict=True)]  # fmt: skip
    assert "slipped-decimal" in told(rows)


def judged(*values):
    cells = ["B", "C", "D", "E"][: len(values)]
    return [["Cylinder", *range(1, len(values) + 1)], ["Top gap (in)", *values],
            ["Verdict", *(f"=ENG.VERDICT({c}2,B4,B5)" for c in cells)],
            ["Least (in)", 0.0187221], ["Most (in)", 0.0247221]]  # fmt: skip


def test_an_end_of_a_band_that_was_aimed_at_is_not_told():
    assert told(judged(0.0188, 0.0189, 0.0188, 0.0189)) == []
    assert told(judged(0.0188, 0.0211, 0.0205, 0.0214)) == ["near-limit"]


def test_numbers_have_the_digits_of_gauges():
    (found,) = [f for f in check(book(judged(0.0188, 0.0211, 0.0205))) if f.code == "near-limit"]
    assert "is 0.0188 in, at the lower end of its band of 0.0187 to 0.0247 in." in found.message
    (found,) = [f for f in check(book(judged(0.02473, 0.0211, 0.0205))) if f.code == "out-of-band"]
    assert "is 0.02473 in, above its band of 0.0187 to 0.02472 in." in found.message


ROWS = {
    "throws": ["On throw no.", 1, 1, 2, 2, 3, 3, 4, 4],
    "gaskets": ["Compressed thickness (in)", 0.027, 0.036, 0.039, 0.041, 0.045, 0.051, 0.06, 0.07],
    "lash": ["Intake lash (in)", 0.010, 0.011, 0.010, 0.012, 0.010, 0.011, 0.010, 0.012],
    "springs": ["Spring load at the seat (lbf)", 118, 120, 119, 121, 122, 117, 123, 124],
    "heights": ["Intake spring, fitted (in)", 1.8, 1.79, 1.81, 1.805, 1.795, 1.802, 1.798, 1.806],
    "bores": ["Bore (in)", 4.1101, 4.1105, 4.1099, 4.1107, 4.1102, 4.1100, 4.1106, 4.1103],
}


def copied(*names):
    rows = [["Job"], ["Cylinder", *range(1, 9)], *(ROWS[name] for name in names)]
    books = [book([["Job", job], *rows[1:]], f"{job}.xlsx") for job in ("24-031", "24-032")]
    return bool(check_batch(books))


def test_rows_that_are_equal_by_nature_are_no_copies():
    assert not copied("throws", "gaskets", "lash", "springs", "heights")
    assert copied("bores")
    assert copied("lash", "bores")


ENGINE = {
    "Bore (in)": 4.0055, "Piston (in)": 4.001, "Piston clearance (in)": 0.0045,
    "Top ring gap (in)": 0.018, "Second ring gap (in)": 0.02, "Main bearing clearance (in)": 0.0027,
    "Rod bearing clearance (in)": 0.0025, "Crank end play (in)": 0.0055, "Quench (in)": 0.049,
}  # fmt: skip


def test_a_job_whose_every_measured_reading_is_another_jobs_is_a_copy():
    heads = ["Job", *ENGINE]
    same = list(ENGINE.values())
    other = [*same[:-1], 0.048]
    one, two, three = (book([heads, [job, *values]], f"{job}.xlsx") for job, values in
                       (("OT-107", same), ("OT-108", same), ("OT-109", other)))  # fmt: skip
    assert check_batch([one, two])
    assert not check_batch([one, three])


def test_a_row_of_sizes_below_a_table_of_clearances_is_no_slip():
    rows = [["Cyl", "Clearance (mm)", "Top ring gap (mm)", "Second ring gap (mm)"],
            *([n, 0.05 + n / 1000, 0.35, 0.4] for n in range(1, 5)),
            ["barrel", 93.557, 93.555, 93.556]]  # fmt: skip
    assert "thousandths" not in told(rows)


@pytest.mark.parametrize(
    ("head", "values"),
    [("Lash shim (mm)", (0.35, 0.40, 0.30, 0.45)), ("Pin {0} (in)", (0.01, 0.01, 0.01, 0.01))],
)
def test_a_line_that_is_unusual_throughout_is_of_something_else(head, values):
    rows = [[head.format(n), value] for n, value in enumerate(values, 1)]
    assert not {"slipped-decimal", "thousandths", "wrong-unit"} & set(told(rows))


def test_a_ratio_ten_times_too_large_is_doubted():
    assert "slipped-decimal" in told([["Compression ratio", 105]])
    assert told([["Compression ratio", 14.5]]) == []


def test_how_far_journals_are_from_round_may_be_half_of_the_others():
    rows = [["Rod", 1, 2, 3, 4], ["Rod journal out of round (in)", 0.0009, 0.0019, 0.0019, 0.0019]]
    assert told(rows) == []
