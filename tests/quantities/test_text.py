"""What stands in a cell becomes SI, or is refused with a reason."""

import math
from fractions import Fraction

import pytest
from each_case import each
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools import quantities
from workbook_tools.quantities import (
    SYSTEMS,
    UnreadableText,
    from_si,
    read_text,
    reading_unit,
    split_quantity,
    to_si,
)

IN, FT, LB = Fraction("0.0254"), Fraction("0.3048"), Fraction("0.45359237")
G = Fraction("9.80665")
LBF = LB * G


def refused(text, kind, system="inch"):
    with pytest.raises(UnreadableText) as raised:
        read_text(text, kind, system)
    return str(raised.value)


# Factors from the exact definitions of inch, pound and standard gravity.
@each(
    ("text", "kind", "si"),
    [
        ("1 in", quantities.LENGTH, IN),
        ("1 ft", quantities.LENGTH, FT),
        ("1 thou", quantities.LENGTH, IN / 1000),
        ("1 mil", quantities.LENGTH, IN / 1000),
        ("1 tenth", quantities.LENGTH, IN / 10000),
        ("1 cu in", quantities.VOLUME, IN**3),
        ("1 cc", quantities.VOLUME, Fraction(1, 10**6)),
        ("1 L", quantities.DISPLACEMENT, Fraction(1, 1000)),
        ("1 sq in", quantities.AREA, IN**2),
        ("1 lb", quantities.MASS, LB),
        ("1 oz", quantities.MASS, LB / 16),
        ("1 oz.in", quantities.MASS_MOMENT, LB / 16 * IN),
        ("1 lb", quantities.FORCE, LBF),
        ("1 lbf", quantities.FORCE, LBF),
        ("1 kgf", quantities.FORCE, G),
        ("1 lbf/in", quantities.SPRING_RATE, LBF / IN),
        ("1 lbf.ft", quantities.TORQUE, LBF * FT),
        ("1 lbf.in", quantities.TORQUE, LBF * IN),
        ("1 kgf.m", quantities.TORQUE, G),
        ("1 psi", quantities.PRESSURE, LBF / IN**2),
        ("1 ksi", quantities.STRESS, 1000 * LBF / IN**2),
        ("1 bar", quantities.PRESSURE, Fraction(100000)),
        ("1 atm", quantities.PRESSURE, Fraction(101325)),
        ("1 N/mm2", quantities.STRESS, Fraction(10**6)),
        ("1 hp", quantities.POWER, 550 * LBF * FT),
        ("1 PS", quantities.POWER, 75 * G),
        ("1 cfm", quantities.VOLUME_FLOW, FT**3 / 60),
        ("1 ft/min", quantities.SPEED, FT / 60),
        ("1 ft/s2", quantities.ACCELERATION, FT),
    ],
)
def test_factors_are_the_exact_definitions(text, kind, si):
    assert read_text(text, kind, "inch") == float(si)


def test_conventional_inch_of_mercury():
    # NIST SP 811, Appendix B.8: 3.386 389 E+03 Pa.
    assert read_text("1 inHg", quantities.BAROMETER, "inch") == pytest.approx(3386.389, abs=5e-4)


@each(
    ("text", "inches"),
    [
        (".0025", 0.0025),
        ("0.0025", 0.0025),
        ('0.0025"', 0.0025),
        (".0025”", 0.0025),
        (".0025″", 0.0025),
        (".0025''", 0.0025),
        (".0025’’", 0.0025),
        ("2 thou", 0.002),
        ("2-1/2 thou", 0.0025),
        ("2 1/2 thou", 0.0025),
        ("25 tenths", 0.0025),
        ("2.5E-03", 0.0025),
        ("2.5e-3 in", 0.0025),
        ("2.448 ", 2.448),
        ("\u00a02.448\u00a0in\u00a0", 2.448),
        ("2.448\u202fin.", 2.448),
        ("3-5/8", 3.625),
        ('3 5/8"', 3.625),
        ("3/8", 0.375),
        ("11/32", 0.34375),
        ('5/8"', 0.625),
        ("4.030 inches", 4.030),
        ("4.030 IN", 4.030),
        ("-.002", -0.002),
        ("\u2212.002", -0.002),
        ("-2 thou", -0.002),
        ("-1-1/2 thou", -0.0015),
        ("+.008", 0.008),
        ("0,030 in", 0.030),
        ("4,03", 4.03),
        ("25.4 mm", 1.0),
        ("2.54 cm", 1.0),
        ("0,254 mm", 0.01),
        ("50 µm", 0.05 / 25.4),
        ("50 um", 0.05 / 25.4),
        ("50 microns", 0.05 / 25.4),
        ("7 centésimas", 0.07 / 25.4),
        ("7 Hundertstel", 0.07 / 25.4),
        ("5/100 mm", 0.05 / 25.4),
        ("8mm", 8 / 25.4),
        ("1 ft", 12.0),
    ],
)
def test_lengths_as_typed(text, inches):
    got = from_si(read_text(text, quantities.LENGTH, "inch"), quantities.LENGTH, "inch")
    assert got == pytest.approx(inches, rel=1e-14)


@each(
    ("text", "kind", "reason"),
    [
        ("", quantities.LENGTH, "not one number with at most one unit"),
        ("std", quantities.LENGTH, "not one number"),
        ("flush", quantities.LENGTH, "not one number"),
        ("n/a", quantities.LENGTH, "not one number"),
        ("TBD", quantities.LENGTH, "not one number"),
        ("-", quantities.LENGTH, "not one number"),
        ('"', quantities.LENGTH, "not one number"),
        ("?", quantities.LENGTH, "not one number"),
        ("#REF!", quantities.LENGTH, "not one number"),
        ("nan", quantities.LENGTH, "not one number"),
        ("inf", quantities.LENGTH, "not one number"),
        ("0x10", quantities.LENGTH, "'x10' is not a unit"),
        ("1_000", quantities.LENGTH, "not one number"),
        ("2..448", quantities.LENGTH, "not one number"),
        (".0025?", quantities.LENGTH, "not one number"),
        ("~.0025", quantities.LENGTH, "not one number"),
        ("<.001", quantities.LENGTH, "not one number"),
        (".0025+", quantities.LENGTH, "not one number"),
        ("avg .0025", quantities.LENGTH, "not one number"),
        (".0025 tight", quantities.LENGTH, "'tight' is not a unit that is known here"),
        (".0025 .0026 .0025", quantities.LENGTH, "not one number"),
        (".0022-.0024", quantities.LENGTH, "not one number"),
        (".0022-24", quantities.LENGTH, "not one number"),
        (".0022/.0024", quantities.LENGTH, "not one number"),
        ("4.0305/4.0307", quantities.LENGTH, "not one number"),
        ("4.0305 x 4.0307 x 4.0304", quantities.LENGTH, "is not a unit"),
        ("4.030 T 4.0295 B", quantities.LENGTH, "is not a unit"),
        ("4.030+.002", quantities.LENGTH, "not one number"),
        ("4.030 +.002/-.000", quantities.LENGTH, "not one number"),
        ("18/20", quantities.LENGTH, "may be two readings or a fraction"),
        ("10/10", quantities.LENGTH, "may be two readings or a fraction"),
        ("3/0 in", quantities.LENGTH, "zero below the line"),
        ("1/2-20", quantities.LENGTH, "not one number"),
        ("7/16-14 x 3.25", quantities.LENGTH, "not one number"),
        ("M10x1.25", quantities.LENGTH, "not one number"),
        ("10-32", quantities.LENGTH, "not one number"),
        ("5 hundredths", quantities.LENGTH, "'hundredths' is not a unit that is known here"),
        ("30 over", quantities.LENGTH, "'over' is not a unit"),
        ("1st", quantities.LENGTH, "'st' is not a unit"),
        ("1,234", quantities.LENGTH, "the comma may group thousands or mark decimals"),
        ("4,030 in", quantities.LENGTH, "the comma may group thousands or mark decimals"),
        ("1.234,5", quantities.LENGTH, "it groups digits; write the number without grouping"),
        ("1,234.5", quantities.LENGTH, "it groups digits; write the number without grouping"),
        ("1,234,567 cc", quantities.VOLUME, "it groups digits; write the number without grouping"),
        (".0O25", quantities.LENGTH, "letter among the digits; perhaps .0025"),
        ("l.850", quantities.LENGTH, "letter among the digits; perhaps 1.850"),
        ("63 cc", quantities.LENGTH, "'cc' is not a unit of length"),
        ("90 deg C", quantities.LENGTH, "'deg C' is not a unit of length"),
        ("11:2", quantities.RATIO, "a ratio takes no unit"),
        ("11.2-11.4", quantities.RATIO, "not one number"),
        ("11.2 in", quantities.RATIO, "a ratio takes no unit"),
        ("8 cylinders", quantities.COUNT, "a count takes no unit"),
        ("4%", quantities.RATIO, "a ratio takes no unit"),
        ("4%", quantities.COUNT, "a count takes no unit"),
        ("4%", quantities.LENGTH, "'%' is not a unit"),
        ("65#", quantities.TORQUE, "'#' is not a unit"),
        ("65 pounds", quantities.TORQUE, "'pounds' is not a unit"),
        ("10/2", quantities.RATIO, "may be two readings or a fraction"),
        ("10.5/2", quantities.RATIO, "not one number"),
        ("10.5/1", quantities.LENGTH, "not one number"),
        ("4.5½", quantities.LENGTH, "not one number"),
        ("4⅓", quantities.LENGTH, "may be two readings or a fraction"),
        (".0022–.0024", quantities.LENGTH, "not one number"),
        ("4.03O", quantities.LENGTH, "letter among the digits; perhaps 4.030"),
        ("4.03o in", quantities.LENGTH, "letter among the digits; perhaps 4.030"),
        ('4.03O"', quantities.LENGTH, "letter among the digits; perhaps 4.030"),
        ("4.03l", quantities.LENGTH, "letter among the digits; perhaps 4.031"),
        (
            "6.500",
            quantities.ROTATION,
            "the point may group thousands or mark decimals",
        ),
        ("6.500 rpm", quantities.ROTATION, "the point may group thousands"),
        ("6,500", quantities.ROTATION, "the comma may group thousands"),
        ("-8cc dish", quantities.VOLUME, "'cc dish' is not a unit that is known here"),
        ("8 dome", quantities.VOLUME, "'dome' is not a unit"),
        ("63.5/63.4/63.6/63.5", quantities.VOLUME, "not one number"),
        ("70 ft-lb + 90 deg", quantities.TORQUE, "is not a unit"),
        ("20/40/60/70", quantities.TORQUE, "not one number"),
        ("3 x 25", quantities.TORQUE, "is not a unit"),
        ("65 lbs", quantities.TORQUE, "'lbs' is not a unit that is known here"),
        ("130@1.850", quantities.FORCE, "not one number"),
        ("180 psi", quantities.TEMPERATURE, "'psi' is not a unit of temperature"),
        ("300 Nm", quantities.FORCE, "'Nm' is not a unit of force"),
        ("5 nm", quantities.LENGTH, "'nm' is not a unit of length"),
    ],
)
def test_texts_that_are_no_single_quantity_are_refused_with_the_reason(text, kind, reason):
    assert reason in refused(text, kind)


@each(
    ("text", "kind", "system", "bare"),
    [
        ("11.2:1", quantities.RATIO, "inch", 11.2),
        ("11.2 : 1", quantities.RATIO, "inch", 11.2),
        ("11.2 to 1", quantities.RATIO, "metric", 11.2),
        ("11.2", quantities.RATIO, "inch", 11.2),
        ("63cc", quantities.VOLUME, "inch", 63.0),
        ("63 CC", quantities.VOLUME, "inch", 63.0),
        ("63 ml", quantities.VOLUME, "metric", 63.0),
        ("364ci", quantities.DISPLACEMENT, "inch", 364.0),
        ("364 cu. in.", quantities.DISPLACEMENT, "inch", 364.0),
        ("364 cu.in.", quantities.DISPLACEMENT, "inch", 364.0),
        ("5965cc", quantities.DISPLACEMENT, "metric", 5965.0),
        ("6.0L", quantities.DISPLACEMENT, "metric", 6000.0),
        ("65 lb-ft", quantities.TORQUE, "inch", 65.0),
        ("65 ft#", quantities.TORQUE, "inch", 65.0),
        ("65 ft. lbs.", quantities.TORQUE, "inch", 65.0),
        ("65 ft·lbf", quantities.TORQUE, "inch", 65.0),
        ("110 in-lb", quantities.TORQUE, "inch", 110 / 12),
        ("90Nm", quantities.TORQUE, "metric", 90.0),
        ("90 N-m", quantities.TORQUE, "metric", 90.0),
        ("9 mkg", quantities.TORQUE, "metric", 88.25985),
        ("9 kgm", quantities.TORQUE, "metric", 88.25985),
        ("110 lb", quantities.FORCE, "inch", 110.0),
        ("20.8 oz", quantities.MASS, "inch", 589.670081),
        ("583.9 g", quantities.MASS, "metric", 583.9),
        ("12,5 bar", quantities.PRESSURE, "metric", 1250.0),
        ("13 kgf/cm2", quantities.PRESSURE, "metric", 1274.8645),
        ("180°F", quantities.TEMPERATURE, "inch", 180.0),
        ("82 °C", quantities.TEMPERATURE, "metric", 82.0),
        ("58 °", quantities.ANGLE, "inch", 58.0),
        ("487 bhp", quantities.POWER, "inch", 487.0),
    ],
)
def test_other_kinds_as_typed(text, kind, system, bare):
    assert from_si(read_text(text, kind, system), kind, system) == pytest.approx(bare, rel=1e-12)


def test_tenths_are_refused_in_a_metric_book():
    reason = refused("3 tenths", quantities.LENGTH, "metric")
    assert reason == "a tenth is 0.0001 in in an inch shop and 0.1 mm in a metric one"


def test_a_bare_fraction_is_refused_in_a_metric_book():
    assert (
        refused("3/8", quantities.LENGTH, "metric")
        == "a fraction is likely of an inch; add its unit"
    )
    assert read_text('3/8"', quantities.LENGTH, "metric") == pytest.approx(0.009525)
    assert read_text("1/2", quantities.NUMBER, "metric") == 0.5


def test_a_temperature_has_an_offset_and_a_rise_has_none():
    assert read_text("212 deg F", quantities.TEMPERATURE, "metric") == pytest.approx(373.15)
    assert read_text("100 deg C", quantities.TEMPERATURE, "inch") == pytest.approx(373.15)
    assert read_text("100", quantities.TEMPERATURE, "inch") == pytest.approx(310.92777777777775)
    assert read_text("180 deg F", quantities.TEMPERATURE_RISE, "metric") == pytest.approx(100)
    assert read_text("100 deg C", quantities.TEMPERATURE_RISE, "inch") == pytest.approx(100)
    assert read_text("100 K", quantities.TEMPERATURE_RISE, "inch") == pytest.approx(100)
    assert to_si(-40.0, quantities.TEMPERATURE, "inch") == pytest.approx(233.15)
    assert to_si(-40.0, quantities.TEMPERATURE, "metric") == pytest.approx(233.15)


@each(
    ("text", "system", "number", "unit"),
    [
        ("38 thou", "inch", 0.038, "in"),
        ("38 thou", "metric", 0.9652, "mm"),
        ("0,05 mm", "inch", 0.05 / 25.4, "in"),
        ("63 cc", "inch", 63.0, "cc"),
        ("350 cu in", "inch", 350.0, "cu in"),
        ("29.92 inHg", "inch", 29.92, "inHg"),
        ("1 bar", "inch", 14.503773773, "psi"),
        ("300 MPa", "metric", 300.0, "MPa"),
        ("300 kPa", "metric", 300.0, "kPa"),
        ("250 ft/s", "inch", 250.0, "ft/s"),
        ("4000 ft/min", "inch", 4000.0, "ft/min"),
        ("5000 ft", "inch", 5000.0, "ft"),
        ("384 Hz", "inch", 384.0, "Hz"),
        ("6000 rpm", "inch", 6000.0, "rpm"),
        ("180 deg F", "inch", 180.0, "deg F"),
        ("110 deg cam", "inch", 110.0, "deg cam"),
        ("12.5", "inch", 12.5, ""),
    ],
)
def test_a_reading_becomes_the_bare_number_of_its_own_kind(text, system, number, unit):
    assert read_text(text, quantities.READING, system) == pytest.approx(number, rel=1e-9)
    assert reading_unit(text, system) == unit


def test_a_reading_in_pounds_is_force_or_mass_so_it_is_refused():
    assert "not a unit" in refused("130 lb", quantities.READING)


@given(st.floats(-1e6, 1e6), st.sampled_from(SYSTEMS), st.sampled_from(sorted(quantities.KINDS)))
def test_a_bare_number_comes_back(number, system, name):
    kind = quantities.KINDS[name]
    back = from_si(to_si(number, kind, system), kind, system)
    # A temperature takes the offset of its scale along.
    assert back == pytest.approx(number, rel=1e-12, abs=1e-10)


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(SYSTEMS))
def test_a_number_as_text_is_the_number(number, system):
    text = repr(number)
    assert read_text(text, quantities.LENGTH, system) == to_si(number, quantities.LENGTH, system)


@given(st.text(max_size=12), st.sampled_from(sorted(quantities.KINDS)), st.sampled_from(SYSTEMS))
def test_any_text_is_a_number_or_refused(text, name, system):
    try:
        value = read_text(text, quantities.KINDS[name], system)
    except UnreadableText:
        return
    assert isinstance(value, float)
    assert any(c.isnumeric() for c in text)


def test_a_text_is_split_without_being_read():
    assert split_quantity(" 38 thou ") == ("38", "thou")
    assert split_quantity("0.038") == ("0.038", None)
    assert split_quantity('3 5/8"') == ("3 5/8", '"')


def test_every_bare_unit_has_the_dimension_of_its_kind():
    for kind in quantities.KINDS.values():
        for system in SYSTEMS:
            if kind.has_units:
                shift, factor = quantities.scale(kind, system)
                assert factor > 0
                assert (shift != 0) == (kind is quantities.TEMPERATURE)
            else:
                assert quantities.scale(kind, system) == (0.0, 1.0)


def test_a_degree_is_a_hundred_and_eightieth_of_pi():
    assert to_si(180.0, quantities.ANGLE, "inch") == math.pi
    assert to_si(60.0, quantities.ROTATION, "metric") == pytest.approx(2 * math.pi, rel=1e-15)
