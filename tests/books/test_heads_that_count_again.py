"""Lists whose heads count the cylinders several times over, and heads some rows above their sizes.

That builders keep their books so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from datetime import date

from workbook_tools.jobs.read import read_jobs

HEADS = ["Out", "Whose", "Book no", "What", "In", "Hand", 1, 2, 3, "Stroke", 1, 2, 3, "Crank float"]
GROUPS = [None] * 6 + ["Bores, honed", None, None, None, "Skirts"]


def test_a_job_a_row_below_heads_that_count_twice(make_book) -> None:
    rows: list[list[object]] = [["All mm"], [], GROUPS, HEADS]
    for n, who in enumerate(("Bressington", "Mrs Yardley", "Holt Pumps", "Prentiss")):
        bores, pistons = [68.508 + n, 68.511 + n, 68.512 + n], [68.466 + n, 68.464 + n, 68.465 + n]
        rows.append([date(2024, 2 + n, 20), who, 41 + n, "Tolver three", date(2024, 1 + n, 2),
                     "Des", *bores, 76.0, *pistons, 0.16])  # fmt: skip
    jobs = read_jobs(make_book({"list": rows}))
    assert [job.job.number.text for job in jobs] == ["41", "42", "43", "44"]
    found = {r.place.address: (r.measurand, r.part.number, r.value) for r in jobs[1].readings}
    assert found["G6"] == ("bore", 1, 69.508)
    assert found["I6"] == ("bore", 3, 69.512)
    assert found["J6"] == ("stroke", 0, 76.0)
    assert found["L6"] == ("piston_diameter", 2, 69.464)
    assert found["N6"] == ("crank_end_play", 0, 0.16)


def test_heads_stand_over_the_rows_of_units_and_limits_of_the_table_beside(make_book) -> None:
    rows: list[list[object]] = [
        ["Job", "5-041"], [],
        ["cyl", "Bore", "Piston", None, None, "main", "jrnl mm", "brg mm"],
        [None, "mm", "mm"], ["min", 83.5], ["max", 83.52],
    ]  # fmt: skip
    rows += [[n, 83.51, 83.44, None, None, n, 63.984, 64.03] for n in range(1, 5)]
    (job,) = read_jobs(make_book({"all": rows}))
    found = {r.place.address: (r.measurand, r.part.number) for r in job.readings}
    assert found["G7"] == ("main_journal", 1)
    assert found["H10"] == ("main_bearing_bore", 4)
    assert found["B8"] == ("bore", 2)
