"""A number with its kind and system, told in SI and in words."""

from fractions import Fraction

import pytest

from workbook_tools.quantities import (
    LENGTH,
    RATIO,
    TORQUE,
    Quantity,
    UnreadableText,
    read_quantity,
    read_text,
)


def test_a_quantity_in_si_by_the_exact_definitions():
    # 1 in = 25.4 mm; 1 lbf = 0.45359237 kg * 9.80665 m/s2.
    assert Quantity(0.038, LENGTH, "inch").si == pytest.approx(
        float(Fraction("0.0254") * Fraction("0.038")), rel=1e-15
    )
    foot_pound = Fraction("0.45359237") * Fraction("9.80665") * Fraction("0.3048")
    assert Quantity(65, TORQUE, "inch").si == pytest.approx(float(65 * foot_pound), rel=1e-15)
    assert Quantity(10.5, RATIO, "metric").si == 10.5


def test_a_quantity_is_told_in_the_unit_of_its_system():
    assert str(Quantity(0.038, LENGTH, "inch")) == "0.0380 in"
    assert Quantity(0.9652, LENGTH, "metric").text == "0.9652 mm"
    assert Quantity(10.5, RATIO, "inch").text == "10.5"


def test_the_text_of_a_quantity_reads_back():
    told = Quantity(0.038, LENGTH, "inch")
    assert read_text(told.text, LENGTH, "metric") == pytest.approx(told.si, rel=1e-12)


def test_a_text_becomes_the_number_of_this_system():
    read = read_quantity("38 thou", LENGTH, "metric")
    assert (read.kind, read.system, read.unit) == (LENGTH, "metric", "mm")
    assert read.number == pytest.approx(0.9652)
    with pytest.raises(UnreadableText):
        read_quantity("std", LENGTH, "inch")
