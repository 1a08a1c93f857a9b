"""Taper and out-of-round: which way the block lies, and what it must not lack."""

import pytest

from workbook_tools.catalog import ArgumentError

# Down the bore it opens by 0.0008; at every height the two axes differ by 0.0002.
BORE = ((4.0300, 4.0302), (4.0304, 4.0306), (4.0308, 4.0310))


def test_rows_are_heights_and_columns_axes(eng):
    assert eng("BORE_TAPER", BORE) == pytest.approx(0.0008, abs=1e-9)
    assert eng("BORE_OUT_OF_ROUND", BORE) == pytest.approx(0.0002, abs=1e-9)
    assert eng("JOURNAL_TAPER", BORE) == pytest.approx(0.0008, abs=1e-9)
    assert eng("JOURNAL_OUT_OF_ROUND", BORE) == pytest.approx(0.0002, abs=1e-9)


def test_the_worst_axis_counts_not_the_whole_block(eng):
    # Along either axis 0.0004, between the axes 0.0010: no one axis tapers by 0.0014.
    assert eng("BORE_TAPER", ((4.0300, 4.0314), (4.0304, 4.0310))) == pytest.approx(0.0004)


@pytest.mark.parametrize("name", ["BORE_TAPER", "BORE_OUT_OF_ROUND", "JOURNAL_TAPER"])
def test_a_reading_that_was_not_taken_is_named(eng, name):
    with pytest.raises(ArgumentError, match=r"row 2, column 1 of the range is empty") as error:
        eng(name, ((4.0300, 4.0302), (None, 4.0306)))
    assert error.value.missing


def test_one_reading_has_no_shape(eng):
    with pytest.raises(ArgumentError, match="expected two rows or more"):
        eng("BORE_TAPER", ((4.03, 4.031),))
    with pytest.raises(ArgumentError, match="expected two rows or more"):
        eng("JOURNAL_TAPER", 2.1)
    with pytest.raises(ArgumentError, match="expected two columns or more"):
        eng("JOURNAL_OUT_OF_ROUND", ((2.1,), (2.1001,)))
    with pytest.raises(ArgumentError, match="expected two columns or more"):
        eng("BORE_OUT_OF_ROUND", 4.03)


def test_texts_with_units_count(eng):
    assert eng("BORE_TAPER", (("86.00 mm",), ("86.01 mm",)), "metric") == pytest.approx(0.01)


@pytest.mark.parametrize(
    "name", ["BORE_TAPER", "BORE_OUT_OF_ROUND", "JOURNAL_TAPER", "JOURNAL_OUT_OF_ROUND"]
)
def test_a_size_of_another_part_or_unit_is_refused(eng, name):
    noun = name.split("_")[0].lower()
    with pytest.raises(ArgumentError) as raised:
        eng(name, ((4.0301, 4.0302), (4.0303, 4.40)))
    assert str(raised.value) == (
        f"readings: expected sizes of one {noun}, within 5 % of each other, got sizes further apart"
    )
    with pytest.raises(ArgumentError, match=r"102.364 in row 2, column 2.*perhaps 102.364 mm"):
        eng(name, ((4.0301, 4.0302), (4.0303, 102.364)))
    # A bore worn by a millimeter in 40 is still one.
    assert eng(name, ((40.0, 40.9), (41.0, 40.1)), "metric") > 0.8
