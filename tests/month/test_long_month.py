"""A month of very many builds: the same in less memory, and charts that stay as large."""

import io

import pytest
from month_files import written
from openpyxl import load_workbook

from workbook_tools.month import month, sheet
from workbook_tools.month.charts import MOST_MARKS, figures
from workbook_tools.month.fit_points import FitPoint, FitSeries, Placed


def test_a_long_spreadsheet_has_the_same_cells(tmp_path, monkeypatch):
    name = "month-2024-04.xlsx"
    usual = load_workbook(io.BytesIO(written(tmp_path / "usual")[name]))
    monkeypatch.setattr(sheet, "ROWS_ON_A_SHEET", 5)
    long = load_workbook(io.BytesIO(written(tmp_path / "long")[name]))
    assert long.sheetnames == usual.sheetnames
    for title in long.sheetnames:
        some = 6 if title == "Readings" else None
        told, expected = (list(book[title].values)[:some] for book in (long, usual))
        assert told == expected, title
        assert long[title].print_area == usual[title].print_area
        assert long[title].column_dimensions["A"].width == usual[title].column_dimensions["A"].width


def test_the_print_of_many_builds_is_set_in_a_process_of_its_own(tmp_path, monkeypatch):
    usual = written(tmp_path / "usual")
    asked = []
    monkeypatch.setattr(month, "_MANY", 1)
    apart = month.within_limits
    monkeypatch.setattr(
        month, "within_limits", lambda *given: asked.append(1) or apart(*given)
    )  # fmt: skip
    assert written(tmp_path / "apart") == usual
    assert asked


def series(count):
    """A fit of builds whose means and least readings rise and whose 51st is out of its band."""
    points = tuple(
        Placed(f"{n}", n, f"2026-10-{1 + n % 28:02}", FitPoint(
            "Quench", "in", 4, 8, 0.04 + n * 1e-6, 0.0, 0.03 + n * 1e-6, "Cyl 1",
            0.05 + n * 1e-6, "Cyl 2", int(n == 50),
        ))
        for n in range(count)
    )  # fmt: skip
    return FitSeries("Quench", "inline four", points)


@pytest.mark.parametrize(("count", "together"), [(MOST_MARKS, 1), (MOST_MARKS + 1, 2), (2995, 10)])
def test_a_chart_has_no_more_marks_than_stand_apart(count, together):
    (figure,) = figures([series(count)])
    (panel,) = figure.panels
    marks = panel.marks
    assert len(marks) == -(-count // together) <= MOST_MARKS
    assert [n for n, mark in enumerate(marks) if mark.out] == [50 // together]
    assert sorted({mark.x for mark in marks}) == [mark.x for mark in marks]
    # Heights count from the top: the first mark has the least, the last one the largest.
    low, high = (tick.y for tick in (panel.ticks[0], panel.ticks[-1]))
    assert low >= marks[0].least > marks[0].mean > marks[-1].mean > marks[-1].largest >= high
    told = f"{count} builds" + (f", {together} a mark" if together > 1 else "")
    assert panel.builds == told
