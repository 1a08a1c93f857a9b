"""UCI Machine Learning Repository, Automobile data set (1985), CC BY 4.0; see data/README.md.

The engine sizes are recorded beside bore and stroke, rounded to 0.01 in, so that a computed
displacement can be held against them. Some rows are recorded wrong; they are listed by what
is wrong, and the test finds exactly these.
"""

import csv
import math
from pathlib import Path

import pytest
from each_case import each
from sources import open_data

SOURCE = open_data("UCI Automobile data set (1985)", "CC BY 4.0")
MENDED_ROW = open_data("UCI Automobile data set (1985), row mended", "CC BY 4.0")
ROWS = [
    (float(r["bore_in"]), float(r["stroke_in"]), int(r["cylinders"]),
     float(r["engine_size_cu_in"]))
    for r in csv.DictReader(
        (Path(__file__).parent / "data" / "automobile_1985_engines.csv").open(encoding="utf-8")
    )
]  # fmt: skip
TOLERANCE = 0.02

# (bore, stroke, cylinders, size) as recorded: the same with the slip mended.
ONE_DIGIT_OFF = {
    (3.08, 3.15, 4, 91.0): (3.03, 3.15, 4, 91.0),  # another row of 91 cu in has 3.03 x 3.15
    (3.46, 2.19, 4, 120.0): (3.46, 3.19, 4, 120.0),  # another row of 120 cu in has 3.46 x 3.19
    (2.54, 2.07, 4, 121.0): (3.54, 3.07, 4, 121.0),  # other rows of 121 cu in: 3.54 x 3.07
    (3.94, 3.11, 8, 203.0): (3.94, 3.11, 8, 303.0),
    (3.46, 3.9, 4, 132.0): (3.46, 3.5, 4, 132.0),
}
BORE_AND_STROKE_EXCHANGED = {(2.68, 3.47, 6, 152.0): (3.47, 2.68, 6, 152.0)}
SIZE_OF_ANOTHER_ENGINE = {
    # Bore, stroke, ratio and power are those of the rows of 90 cu in.
    (2.97, 3.23, 4, 92.0): (2.97, 3.23, 4, 90.0),
    (2.97, 3.23, 4, 98.0): (2.97, 3.23, 4, 90.0),
}
# Bore and stroke are those of the six of 152 cu in.
BORE_AND_STROKE_OF_ANOTHER_ENGINE = {(3.47, 2.68, 4, 130.0): (3.47, 2.68, 6, 152.0)}
# Size, bore and stroke do not belong together; no other row tells which is wrong.
NOT_OF_ONE_ENGINE = {
    (2.91, 3.07, 4, 79.0),
    (3.05, 3.03, 4, 92.0),
    (3.15, 3.29, 4, 97.0),
    (3.24, 3.08, 4, 98.0),
    (2.99, 3.47, 4, 103.0),
    (3.27, 3.35, 4, 110.0),
    (3.27, 3.35, 6, 161.0),
}
MENDED = (
    ONE_DIGIT_OFF
    | BORE_AND_STROKE_EXCHANGED
    | SIZE_OF_ANOTHER_ENGINE
    | BORE_AND_STROKE_OF_ANOTHER_ENGINE
)
WRONG = set(MENDED) | NOT_OF_ONE_ENGINE


def test_exactly_the_rows_recorded_wrong_disagree(eng):
    disagree = {
        (bore, stroke, cylinders, size)
        for bore, stroke, cylinders, size in ROWS
        if abs(eng("DISPLACEMENT", bore, stroke, cylinders) / size - 1) > TOLERANCE
    }
    assert disagree == WRONG


@each(("bore", "stroke", "cylinders", "size"), sorted({r for r in ROWS if r not in WRONG}))
def test_displacement_is_the_recorded_engine_size(agree, eng, bore, stroke, cylinders, size):
    got = eng("DISPLACEMENT", bore, stroke, cylinders)
    agree("DISPLACEMENT", SOURCE, size, got, rel=TOLERANCE)


@pytest.mark.parametrize(("bore", "stroke", "cylinders", "size"), sorted(MENDED.values()))
def test_a_mended_row_agrees(agree, eng, bore, stroke, cylinders, size):
    got = eng("DISPLACEMENT", bore, stroke, cylinders)
    agree("DISPLACEMENT", MENDED_ROW, size, got, rel=TOLERANCE)


@each(("bore", "stroke", "cylinders", "size"), sorted({r for r in ROWS if r not in WRONG}))
def test_stroke_and_bore_follow_from_the_recorded_size(agree, eng, bore, stroke, cylinders, size):
    got = eng("STROKE_FOR_DISPLACEMENT", size, bore, cylinders)
    agree("STROKE_FOR_DISPLACEMENT", SOURCE, stroke, got, rel=TOLERANCE)
    got = eng("BORE_FOR_DISPLACEMENT", size, stroke, cylinders)
    agree("BORE_FOR_DISPLACEMENT", SOURCE, bore, got, rel=TOLERANCE)


@each(("bore", "stroke", "cylinders", "size"), sorted({r for r in ROWS if r not in WRONG}))
def test_a_bore_and_its_size_tell_how_square_an_engine_is(
    agree, eng, bore, stroke, cylinders, size
):
    # Cylinders as long as their bore would hold so much; the engine holds so many times less.
    square = cylinders * math.pi / 4 * bore**3
    got = eng("BORE_STROKE_RATIO", bore, stroke)
    agree("BORE_STROKE_RATIO", SOURCE, square / size, got, rel=TOLERANCE)
