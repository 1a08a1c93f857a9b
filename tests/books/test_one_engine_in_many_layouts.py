"""One engine written down in many ways without worksheet functions: the same readings."""

from itertools import product

import one_engine
import one_v8
import pytest
from example_builds import EXAMPLES, example_book
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.known import known, size, usable
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.candidates import propose
from workbook_tools.labels.vocabulary import NO_SIZES

CROWNS = ("crown_volume", "dish_volume", "dome_volume", "pocket_volume")


def facts(book):
    """What is known of a job to compute with."""
    return known(book.readings, book.missing, book.stated)


def sizes(book):
    """{(name, cylinder): size in SI} of what is to be computed with, a position's mean."""
    result = {}
    for name, positions in usable(facts(book)).items():
        for position, readings in positions.items():
            several = [size(r) for r in readings]
            if None not in several:
                key = ("crown" if name in CROWNS else name, position)
                result[key] = sum(several) / len(several)
    return result


@pytest.mark.parametrize(
    ("engine", "layout"),
    [(engine, layout) for engine in (one_engine, one_v8) for layout in engine.LAYOUTS],
    ids=lambda value: value if isinstance(value, str) else value.__name__,
)
def test_one_engine_gives_the_same_readings_however_it_is_written(engine, layout, tmp_path):
    path = engine.write(tmp_path / "book.xlsx", layout)
    found = sizes(read_book(path))
    assert sorted(found) == sorted(engine.ENGINE)
    assert found == pytest.approx(engine.ENGINE, rel=1e-5)


# Swept over clearance plus one, from the sizes above: arithmetic.
RATIOS = {1: 8.85531, 2: 8.81352, 3: 8.88070, 4: 8.77248, 5: 8.83895, 6: 8.88165}


CUBIC_INCHES = 260.54124


@pytest.mark.parametrize("layout", one_engine.LAYOUTS)
def test_the_batch_computes_ratio_and_displacement_from_any_of_them(layout, tmp_path):
    book = read_book(one_engine.write(tmp_path / "book.xlsx", layout))
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


# Housing less two shells less journal, and deck plus gasket: arithmetic on the sizes there.
MAINS = {"Main 1": 0.0024, "Main 2": 0.0025, "Main 3": 0.0027, "Main 4": 0.0023, "Main 5": 0.0028}


QUENCH = (0.04900, 0.04950, 0.04850, 0.05100, 0.04800, 0.04950, 0.04875, 0.05150)


@pytest.mark.parametrize("layout", one_v8.LAYOUTS)
def test_the_batch_computes_mains_and_quench_of_a_v8(layout, tmp_path):
    book = read_book(one_v8.write(tmp_path / "book.xlsx", layout))
    inch = {"in": 1.0, "mm": 1 / 25.4}
    mains, quench = {}, {}
    for record in book.records:
        found = {"BEARING_CLEARANCE": mains, "QUENCH": quench}.get(record.function.name)
        if found is not None:
            found[record.label.position] = record.value * inch[record.unit]
    assert mains == pytest.approx(MAINS, abs=2e-6)
    assert quench == pytest.approx({f"Cyl {n}": q for n, q in enumerate(QUENCH, 1)}, abs=2e-6)


# What a call's parameter says about a cell, in the vocabulary's names.
PARAMETERS = {
    "bore": {"bore"},
    "stroke": {"stroke"},
    "rod_length": {"rod_length"},
    "compression_height": {"compression_height"},
    "deck_height": {"deck_height"},
    "deck_clearance": {"deck_clearance", "piston_protrusion"},
    "gasket_thickness": {"gasket_thickness"},
    "gasket_bore": {"gasket_bore"},
    "chamber_volume": {"chamber_volume"},
    "crown_volume": set(CROWNS),
    "piston_diameter": {"piston_diameter"},
    "cylinders": {"cylinder_count"},
    "housing_bore": {"main_housing_bore", "rod_housing_bore"},
    "shell_wall": {"main_shell_wall", "rod_shell_wall"},
    "journal": {"main_journal", "rod_journal"},
}


@pytest.mark.parametrize("name", ["inch_v8", "metric_inline_four", "flat_twin", "troubled_six"])
def test_labels_say_what_the_calls_of_a_book_say(name):
    """Two ways to the meaning of a cell, by its label and by the formula that uses it, agree."""
    path = EXAMPLES / f"{name}.xlsx"
    cells = read_cells(path)
    by_call = {}
    for record in example_book(name).records:
        for argument in record.arguments:
            if argument.place is None or argument.name not in PARAMETERS:
                continue
            left, top, right, bottom = range_boundaries(argument.place.address)
            for spot in product(range(top, bottom + 1), range(left, right + 1)):
                cell = cells.sheet(argument.place.sheet).cells.get(spot)
                if cell is not None and not cell.formula:
                    at = f"{get_column_letter(spot[1])}{spot[0]}"
                    by_call.setdefault((argument.place.sheet, at), set()).add(argument.name)
    by_label = {
        (r.place.sheet, r.place.address): r.name
        for r in propose(cells).readings
        if r.how != "proposal" and r.stage not in NO_SIZES
    }
    both = by_call.keys() & by_label.keys()
    wrong = [
        (place, by_label[place], by_call[place])
        for place in both
        if not any(by_label[place] in PARAMETERS[p] for p in by_call[place])
    ]
    assert wrong == []
    assert len(both) >= 0.95 * len(by_call)
