"""What stands in a cell becomes SI, or is refused with a reason."""

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools import units
from workbook_tools.units import (
    SYSTEMS,
    UnreadableText,
    from_si,
    read_text,
    reading_unit,
    show,
    split_quantity,
    system_named,
    to_si,
    unit_named,
)

IN, FT, LB = Fraction("0.0254"), Fraction("0.3048"), Fraction("0.45359237")
G = Fraction("9.80665")
LBF = LB * G


def refused(text, kind, system="inch"):
    with pytest.raises(UnreadableText) as raised:
        read_text(text, kind, system)
    return str(raised.value)


# Factors from the exact definitions of inch, pound and standard gravity.
@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("1 in", units.LENGTH, IN),
        ("1 ft", units.LENGTH, FT),
        ("1 thou", units.LENGTH, IN / 1000),
        ("1 mil", units.LENGTH, IN / 1000),
        ("1 tenth", units.LENGTH, IN / 10000),
        ("1 cu in", units.VOLUME, IN**3),
        ("1 cc", units.VOLUME, Fraction(1, 10**6)),
        ("1 L", units.DISPLACEMENT, Fraction(1, 1000)),
        ("1 sq in", units.AREA, IN**2),
        ("1 lb", units.MASS, LB),
        ("1 oz", units.MASS, LB / 16),
        ("1 oz.in", units.MASS_MOMENT, LB / 16 * IN),
        ("1 lb", units.FORCE, LBF),
        ("1 lbf", units.FORCE, LBF),
        ("1 kgf", units.FORCE, G),
        ("1 lbf/in", units.SPRING_RATE, LBF / IN),
        ("1 lbf.ft", units.TORQUE, LBF * FT),
        ("1 lbf.in", units.TORQUE, LBF * IN),
        ("1 kgf.m", units.TORQUE, G),
        ("1 psi", units.PRESSURE, LBF / IN**2),
        ("1 ksi", units.STRESS, 1000 * LBF / IN**2),
        ("1 bar", units.PRESSURE, Fraction(100000)),
        ("1 atm", units.PRESSURE, Fraction(101325)),
        ("1 N/mm2", units.STRESS, Fraction(10**6)),
        ("1 hp", units.POWER, 550 * LBF * FT),
        ("1 PS", units.POWER, 75 * G),
        ("1 cfm", units.VOLUME_FLOW, FT**3 / 60),
        ("1 ft/min", units.SPEED, FT / 60),
        ("1 ft/s2", units.ACCELERATION, FT),
    ],
)
def test_factors_are_the_exact_definitions(text, kind, si):
    assert read_text(text, kind, "inch") == float(si)


def test_conventional_inch_of_mercury():
    # NIST SP 811, Appendix B.8: 3.386 389 E+03 Pa.
    assert read_text("1 inHg", units.BAROMETER, "inch") == pytest.approx(3386.389, abs=5e-4)


@pytest.mark.parametrize(
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
        ("5/100 mm", 0.05 / 25.4),
        ("8mm", 8 / 25.4),
        ("1 ft", 12.0),
    ],
)
def test_lengths_as_typed(text, inches):
    got = from_si(read_text(text, units.LENGTH, "inch"), units.LENGTH, "inch")
    assert got == pytest.approx(inches, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "kind", "reason"),
    [
        ("", units.LENGTH, "not one number with at most one unit"),
        ("std", units.LENGTH, "not one number"),
        ("flush", units.LENGTH, "not one number"),
        ("n/a", units.LENGTH, "not one number"),
        ("TBD", units.LENGTH, "not one number"),
        ("-", units.LENGTH, "not one number"),
        ('"', units.LENGTH, "not one number"),
        ("?", units.LENGTH, "not one number"),
        ("#REF!", units.LENGTH, "not one number"),
        ("nan", units.LENGTH, "not one number"),
        ("inf", units.LENGTH, "not one number"),
        ("0x10", units.LENGTH, "'x10' is not a unit"),
        ("1_000", units.LENGTH, "not one number"),
        ("2..448", units.LENGTH, "not one number"),
        (".0025?", units.LENGTH, "not one number"),
        ("~.0025", units.LENGTH, "not one number"),
        ("<.001", units.LENGTH, "not one number"),
        (".0025+", units.LENGTH, "not one number"),
        ("avg .0025", units.LENGTH, "not one number"),
        (".0025 tight", units.LENGTH, "'tight' is not a unit that is known here"),
        (".0025 .0026 .0025", units.LENGTH, "not one number"),
        (".0022-.0024", units.LENGTH, "not one number"),
        (".0022-24", units.LENGTH, "not one number"),
        (".0022/.0024", units.LENGTH, "not one number"),
        ("4.0305/4.0307", units.LENGTH, "not one number"),
        ("4.0305 x 4.0307 x 4.0304", units.LENGTH, "is not a unit"),
        ("4.030 T 4.0295 B", units.LENGTH, "is not a unit"),
        ("4.030+.002", units.LENGTH, "not one number"),
        ("4.030 +.002/-.000", units.LENGTH, "not one number"),
        ("18/20", units.LENGTH, "may be two readings or a fraction"),
        ("10/10", units.LENGTH, "may be two readings or a fraction"),
        ("3/0 in", units.LENGTH, "zero below the line"),
        ("1/2-20", units.LENGTH, "not one number"),
        ("7/16-14 x 3.25", units.LENGTH, "not one number"),
        ("M10x1.25", units.LENGTH, "not one number"),
        ("10-32", units.LENGTH, "not one number"),
        ("5 hundredths", units.LENGTH, "'hundredths' is not a unit that is known here"),
        ("30 over", units.LENGTH, "'over' is not a unit"),
        ("1st", units.LENGTH, "'st' is not a unit"),
        ("1,234", units.LENGTH, "the comma may group thousands or mark decimals"),
        ("4,030 in", units.LENGTH, "the comma may group thousands or mark decimals"),
        ("1.234,5", units.LENGTH, "it groups digits; write the number without grouping"),
        ("1,234.5", units.LENGTH, "it groups digits; write the number without grouping"),
        ("1,234,567 cc", units.VOLUME, "it groups digits; write the number without grouping"),
        (".0O25", units.LENGTH, "letter among the digits; perhaps .0025"),
        ("l.850", units.LENGTH, "letter among the digits; perhaps 1.850"),
        ("63 cc", units.LENGTH, "'cc' is not a unit of length"),
        ("90 deg C", units.LENGTH, "'deg C' is not a unit of length"),
        ("11:2", units.RATIO, "a ratio takes no unit"),
        ("11.2-11.4", units.RATIO, "not one number"),
        ("11.2 in", units.RATIO, "a ratio takes no unit"),
        ("8 cylinders", units.COUNT, "a count takes no unit"),
        ("4%", units.FACTOR, "not one number"),
        ("-8cc dish", units.VOLUME, "'cc dish' is not a unit that is known here"),
        ("8 dome", units.VOLUME, "'dome' is not a unit"),
        ("63.5/63.4/63.6/63.5", units.VOLUME, "not one number"),
        ("70 ft-lb + 90 deg", units.TORQUE, "is not a unit"),
        ("20/40/60/70", units.TORQUE, "not one number"),
        ("3 x 25", units.TORQUE, "is not a unit"),
        ("65 lbs", units.TORQUE, "'lbs' is not a unit that is known here"),
        ("130@1.850", units.FORCE, "not one number"),
        ("180 psi", units.TEMPERATURE, "'psi' is not a unit of temperature"),
        ("300 Nm", units.FORCE, "'Nm' is not a unit of force"),
        ("5 nm", units.LENGTH, "'nm' is not a unit of length"),
    ],
)
def test_texts_that_are_no_single_quantity_are_refused_with_the_reason(text, kind, reason):
    assert reason in refused(text, kind)


@pytest.mark.parametrize(
    ("text", "kind", "system", "bare"),
    [
        ("11.2:1", units.RATIO, "inch", 11.2),
        ("11.2 : 1", units.RATIO, "inch", 11.2),
        ("11.2 to 1", units.RATIO, "metric", 11.2),
        ("11.2", units.RATIO, "inch", 11.2),
        ("63cc", units.VOLUME, "inch", 63.0),
        ("63 CC", units.VOLUME, "inch", 63.0),
        ("63 ml", units.VOLUME, "metric", 63.0),
        ("364ci", units.DISPLACEMENT, "inch", 364.0),
        ("364 cu. in.", units.DISPLACEMENT, "inch", 364.0),
        ("364 cu.in.", units.DISPLACEMENT, "inch", 364.0),
        ("5965cc", units.DISPLACEMENT, "metric", 5965.0),
        ("6.0L", units.DISPLACEMENT, "metric", 6000.0),
        ("65 lb-ft", units.TORQUE, "inch", 65.0),
        ("65 ft#", units.TORQUE, "inch", 65.0),
        ("65 ft. lbs.", units.TORQUE, "inch", 65.0),
        ("65 ft·lbf", units.TORQUE, "inch", 65.0),
        ("110 in-lb", units.TORQUE, "inch", 110 / 12),
        ("90Nm", units.TORQUE, "metric", 90.0),
        ("90 N-m", units.TORQUE, "metric", 90.0),
        ("9 mkg", units.TORQUE, "metric", 88.25985),
        ("9 kgm", units.TORQUE, "metric", 88.25985),
        ("110 lb", units.FORCE, "inch", 110.0),
        ("20.8 oz", units.MASS, "inch", 589.670081),
        ("583.9 g", units.MASS, "metric", 583.9),
        ("12,5 bar", units.PRESSURE, "metric", 1250.0),
        ("13 kgf/cm2", units.PRESSURE, "metric", 1274.8645),
        ("180°F", units.TEMPERATURE, "inch", 180.0),
        ("82 °C", units.TEMPERATURE, "metric", 82.0),
        ("58 °", units.ANGLE, "inch", 58.0),
        ("487 bhp", units.POWER, "inch", 487.0),
    ],
)
def test_other_kinds_as_typed(text, kind, system, bare):
    assert from_si(read_text(text, kind, system), kind, system) == pytest.approx(bare, rel=1e-12)


def test_tenths_are_refused_in_a_metric_book():
    reason = refused("3 tenths", units.LENGTH, "metric")
    assert reason == "a tenth is 0.0001 in in an inch shop and 0.1 mm in a metric one"


def test_a_bare_fraction_is_refused_in_a_metric_book():
    assert refused("3/8", units.LENGTH, "metric") == "a fraction is likely of an inch; add its unit"
    assert read_text('3/8"', units.LENGTH, "metric") == pytest.approx(0.009525)
    assert read_text("1/2", units.NUMBER, "metric") == 0.5


def test_a_temperature_has_an_offset_and_a_rise_has_none():
    assert read_text("212 deg F", units.TEMPERATURE, "metric") == pytest.approx(373.15)
    assert read_text("100 deg C", units.TEMPERATURE, "inch") == pytest.approx(373.15)
    assert read_text("100", units.TEMPERATURE, "inch") == pytest.approx(310.92777777777775)
    assert read_text("180 deg F", units.TEMPERATURE_RISE, "metric") == pytest.approx(100)
    assert read_text("100 deg C", units.TEMPERATURE_RISE, "inch") == pytest.approx(100)
    assert read_text("100 K", units.TEMPERATURE_RISE, "inch") == pytest.approx(100)
    assert to_si(-40.0, units.TEMPERATURE, "inch") == pytest.approx(233.15)
    assert to_si(-40.0, units.TEMPERATURE, "metric") == pytest.approx(233.15)


@pytest.mark.parametrize(
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
    assert read_text(text, units.READING, system) == pytest.approx(number, rel=1e-9)
    assert reading_unit(text, system) == unit


def test_a_reading_in_pounds_is_force_or_mass_so_it_is_refused():
    assert "not a unit" in refused("130 lb", units.READING)


@given(st.floats(-1e6, 1e6), st.sampled_from(SYSTEMS), st.sampled_from(sorted(units.KINDS)))
def test_a_bare_number_comes_back(number, system, name):
    kind = units.KINDS[name]
    back = from_si(to_si(number, kind, system), kind, system)
    # A temperature takes the offset of its scale along.
    assert back == pytest.approx(number, rel=1e-12, abs=1e-10)


@given(st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(SYSTEMS))
def test_a_number_as_text_is_the_number(number, system):
    text = repr(number)
    assert read_text(text, units.LENGTH, system) == to_si(number, units.LENGTH, system)


@given(st.text(max_size=12), st.sampled_from(sorted(units.KINDS)), st.sampled_from(SYSTEMS))
def test_any_text_is_a_number_or_refused(text, name, system):
    try:
        value = read_text(text, units.KINDS[name], system)
    except UnreadableText:
        return
    assert isinstance(value, float)
    assert any(c.isdigit() for c in text)


def test_a_text_is_split_without_being_read():
    assert split_quantity(" 38 thou ") == ("38", "thou")
    assert split_quantity("0.038") == ("0.038", None)
    assert split_quantity('3 5/8"') == ("3 5/8", '"')


@pytest.mark.parametrize(("word", "system"), [("inch", "inch"), (" Metric ", "metric")])
def test_unit_systems_by_name(word, system):
    assert system_named(word) == system


@pytest.mark.parametrize("word", ["", "mm", "imperial", "inches"])
def test_another_word_is_no_unit_system(word):
    with pytest.raises(UnreadableText, match='units are "inch" or "metric"'):
        system_named(word)


def test_a_table_s_unit():
    assert unit_named("thou") == (units.LENGTH, 2.54e-5)
    assert unit_named("psi")[0] is units.PRESSURE
    with pytest.raises(UnreadableText, match="'deg F' is not a unit that a table can have"):
        unit_named("deg F")
    with pytest.raises(UnreadableText, match="'furlong' is not a unit"):
        unit_named("furlong")


@pytest.mark.parametrize(
    ("value", "kind", "system", "text"),
    [
        (0.04, units.LENGTH, "inch", "0.0400 in"),
        (0.96, units.LENGTH, "metric", "0.960 mm"),
        (1234.5, units.DISPLACEMENT, "metric", "1,234.5 cc"),
        (0.0, units.LENGTH, "inch", "0.0000 in"),
        (3.07e-16, units.LENGTH, "inch", "0.0000 in"),
        (-3.07e-16, units.LENGTH, "metric", "0.000 mm"),
        (0.00001, units.LENGTH, "inch", "1e-05 in"),
        (-0.00001, units.LENGTH, "inch", "-1e-05 in"),
        (-0.002, units.LENGTH, "inch", "-0.0020 in"),
        (10.25, units.RATIO, "inch", "10.25"),
        (8, units.COUNT, "inch", "8"),
        (1e18, units.MASS, "inch", "1e+18 g"),
    ],
)
def test_shown_with_its_unit(value, kind, system, text):
    assert show(value, kind, system) == text


@given(
    st.one_of(
        st.floats(-1e14, 1e14),
        st.floats(-10, 10),
        # Halfway between two numbers that are shown, where the ways to round differ.
        st.builds(lambda n: (2 * n + 1) / 20_000, st.integers(-100_000, 100_000)),
        st.builds(lambda n: n / 2**12, st.integers(-100_000, 100_000)),
    )
)
def test_numbers_are_rounded_half_up_in_the_digits_that_a_spreadsheet_keeps(value):
    kept = Decimal(f"{value:.15g}")
    rounded = kept.quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)
    if rounded:
        assert show(value, units.LENGTH, "inch") == f"{rounded:,} in"


def test_every_bare_unit_has_the_dimension_of_its_kind():
    for kind in units.KINDS.values():
        for system in SYSTEMS:
            if kind.has_units:
                shift, factor = units.scale(kind, system)
                assert factor > 0
                assert (shift != 0) == (kind is units.TEMPERATURE)
            else:
                assert units.scale(kind, system) == (0.0, 1.0)


def test_a_degree_is_a_hundred_and_eightieth_of_pi():
    assert to_si(180.0, units.ANGLE, "inch") == math.pi
    assert to_si(60.0, units.ROTATION, "metric") == pytest.approx(2 * math.pi, rel=1e-15)
