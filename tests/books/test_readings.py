"""Readings of books without worksheet functions: one engine, written down in many ways."""

import pytest
from one_engine import ENGINE, LAYOUTS, write

from workbook_tools.books.opening import read_cells
from workbook_tools.books.reading import read_book, read_jobs
from workbook_tools.books.readings import contradictions, find_readings, size, usable

CROWNS = ("crown volume", "dish volume", "dome volume")


def sizes(found):
    """{(name, cylinder): size in SI} of what is to be computed with, a position's mean."""
    result = {}
    for name, positions in usable(found.readings).items():
        for position, readings in positions.items():
            several = [size(r) for r in readings]
            if None not in several:
                key = ("crown" if name in CROWNS else name, position)
                result[key] = sum(several) / len(several)
    return result


@pytest.mark.parametrize("layout", LAYOUTS)
def test_one_engine_gives_the_same_readings_however_it_is_written(layout, tmp_path):
    path = write(tmp_path / "book.xlsx", layout)
    found = sizes(find_readings(read_cells(path)))
    assert sorted(found) == sorted(ENGINE)
    assert found == pytest.approx(ENGINE, rel=1e-5)


# Swept over clearance plus one, from the sizes above: arithmetic.
RATIOS = {1: 8.85531, 2: 8.81352, 3: 8.88070, 4: 8.77248, 5: 8.83895, 6: 8.88165}
CUBIC_INCHES = 260.54124


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_batch_computes_ratio_and_displacement_from_any_of_them(layout, tmp_path):
    book = read_book(write(tmp_path / "book.xlsx", layout))
    by_name = {}
    for record in book.records:
        assert record.computed_by_batch
        assert record.state == "computed", record.problem
        by_name.setdefault(record.function.name, []).append(record)
    (displacement,) = by_name["DISPLACEMENT"]
    cubic_inches = displacement.value / (1 if displacement.unit == "cu in" else 16.387064)
    assert cubic_inches == pytest.approx(CUBIC_INCHES, rel=3e-5)
    ratios = {r.label.position: r.value for r in by_name["COMPRESSION_RATIO"]}
    expected = {f"Cyl {n}": ratio for n, ratio in RATIOS.items()}
    assert ratios == pytest.approx(expected, rel=3e-5)
    assert len(by_name["QUENCH"]) == 6
    assert not book.troubles
