"""Quantities as builders and programs write them every day; what each is, pint says.

That these ways of writing are in use is common practice, no source.
"""

from fractions import Fraction

import pint
import pytest
from each_case import each
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools import quantities
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Field, si
from workbook_tools.quantities import KINDS, SPELLINGS, SYSTEMS, read_text, scales
from workbook_tools.quantities.registry import registry
from workbook_tools.quantities.spellings import SPELLINGS_BY_KIND

PINT = pint.UnitRegistry()

# (as written, kind, number and unit as pint has them)
WRITTEN = [
    ("110#", quantities.FORCE, 110, "lbf"),
    ("110 #", quantities.FORCE, 110, "lbf"),
    ("110 pounds", quantities.FORCE, 110, "lbf"),
    ("55 pounds", quantities.MASS, 55, "lb"),
    ("50 kp", quantities.FORCE, 50, "kgf"),
    ("50 daN", quantities.FORCE, 500, "N"),
    ("350 lb/inch", quantities.SPRING_RATE, 350, "lbf/inch"),
    ("350 #/in", quantities.SPRING_RATE, 350, "lbf/inch"),
    ("350#/in", quantities.SPRING_RATE, 350, "lbf/inch"),
    ("350 lb/in", quantities.SPRING_RATE, 350, "lbf/inch"),
    ("350 lbs. per inch", quantities.SPRING_RATE, 350, "lbf/inch"),
    ("2.5 in^2", quantities.AREA, 2.5, "inch**2"),
    ("2.5 in²", quantities.AREA, 2.5, "inch**2"),
    ("350 in^3", quantities.DISPLACEMENT, 350, "inch**3"),
    ("350 cubic inches", quantities.DISPLACEMENT, 350, "inch**3"),
    ("350 cu. in.", quantities.DISPLACEMENT, 350, "inch**3"),
    ("64 cm^3", quantities.VOLUME, 64, "cm**3"),
    ("64 cm³", quantities.VOLUME, 64, "cm**3"),
    ("64 cu cm", quantities.VOLUME, 64, "cm**3"),
    ('29.92" Hg', quantities.BAROMETER, 29.92, "inch_Hg"),
    ("29.92” Hg", quantities.BAROMETER, 29.92, "inch_Hg"),
    ("29.92 in. Hg", quantities.BAROMETER, 29.92, "inch_Hg"),
    ("760 torr", quantities.BAROMETER, 760, "torr"),
    ("150 lb/in²", quantities.PRESSURE, 150, "psi"),
    ("13 kg/cm²", quantities.PRESSURE, 13, "kgf/cm**2"),
    ("75 foot pounds", quantities.TORQUE, 75, "foot*lbf"),
    ("75 foot-pounds", quantities.TORQUE, 75, "foot*lbf"),
    ("75 lbft", quantities.TORQUE, 75, "foot*lbf"),
    ("75 lb·ft", quantities.TORQUE, 75, "foot*lbf"),
    ("75 ft lbs", quantities.TORQUE, 75, "foot*lbf"),
    ("75 ft.-lbs.", quantities.TORQUE, 75, "foot*lbf"),
    ("75 FT-LB", quantities.TORQUE, 75, "foot*lbf"),
    ("110 inch pounds", quantities.TORQUE, 110, "inch*lbf"),
    ("110 in#", quantities.TORQUE, 110, "inch*lbf"),
    ("10.4 mkp", quantities.TORQUE, 10.4, "kgf*m"),
    ("10,2 daNm", quantities.TORQUE, 102, "N*m"),
    ("60 degrees F", quantities.TEMPERATURE, 60, "degF"),
    ("60º F", quantities.TEMPERATURE, 60, "degF"),
    ("60 deg. F", quantities.TEMPERATURE, 60, "degF"),
    ("20 degrees Celsius", quantities.TEMPERATURE, 20, "degC"),
    ("50%", quantities.FACTOR, 50, "percent"),
    ("50 %", quantities.FACTOR, 50, "percent"),
    ("87,5 percent", quantities.FACTOR, 87.5, "percent"),
    ("6500 min-1", quantities.ROTATION, 6500, "turn/minute"),
    ("6500 min⁻¹", quantities.ROTATION, 6500, "turn/minute"),
    ("6500 min^-1", quantities.ROTATION, 6500, "turn/minute"),
    ("6500 1/min", quantities.ROTATION, 6500, "turn/minute"),
    ("6500 r/min", quantities.ROTATION, 6500, "turn/minute"),
    ("6500.125 rpm", quantities.ROTATION, 6500.125, "turn/minute"),
    ('4 1/2"', quantities.LENGTH, 4.5, "inch"),
    ('4½"', quantities.LENGTH, 4.5, "inch"),
    ('4 ½"', quantities.LENGTH, 4.5, "inch"),
    ('4-1/2"', quantities.LENGTH, 4.5, "inch"),
    ('4–1/2"', quantities.LENGTH, 4.5, "inch"),
    ('4 1⁄2"', quantities.LENGTH, 4.5, "inch"),
    ("⅞ in", quantities.LENGTH, 0.875, "inch"),
    ('-½"', quantities.LENGTH, -0.5, "inch"),
    ("–.005 in", quantities.LENGTH, -0.005, "inch"),
    ("−.005 in", quantities.LENGTH, -0.005, "inch"),
    ("‑0,1 mm", quantities.LENGTH, -0.1, "mm"),
    ("87 millimeters", quantities.LENGTH, 87, "mm"),
    ("10.5/1", quantities.RATIO, 10.5, ""),
    ("10.5:1", quantities.RATIO, 10.5, ""),
    ("10/1", quantities.RATIO, 10, ""),
    ("10,5 : 1,0", quantities.RATIO, 10.5, ""),
]


def by_pint(number, unit, kind):
    """What pint makes of a number and a unit, in the SI unit of a kind."""
    return PINT.Quantity(number, unit).to(kind.si or "dimensionless").magnitude


@each("system", SYSTEMS)
@each(("text", "kind", "number", "unit"), WRITTEN)
def test_a_worksheet_reads_it(text, kind, number, unit, system):
    assert read_text(text, kind, system) == pytest.approx(by_pint(number, unit, kind), rel=1e-9)


@each("system", [*SYSTEMS, None])
@each(("text", "kind", "number", "unit"), WRITTEN)
def test_a_book_s_cell_reads_it(text, kind, number, unit, system):
    field = Field("", kind, system=system)
    content = read_content(text, field)
    assert content.kind == "value", content
    # A book keeps twelve digits of what it converts.
    expected = by_pint(number, unit, kind)
    assert si(content.value, field) == pytest.approx(expected, rel=1e-10, abs=1e-12)


@pytest.mark.parametrize("text", ["–.005", "−.005", "‑.005", "-.005"])
def test_whatever_dash_a_program_puts_it_is_a_minus(text):
    assert read_text(text, quantities.LENGTH, "inch") == pytest.approx(-0.005 * 0.0254)
    content = read_content(text, Field("deck_clearance", system="inch", signs="positive below"))
    assert content.value.number == -0.005


KIND_OF_SPELLING = sorted(
    {
        (kind.name, spelling)
        for kind in KINDS.values()
        for spelling, unit in SPELLINGS.items()
        if kind.si and kind.name != "reading" and scales.is_of(unit, kind)
        if (kind.name, spelling) not in SPELLINGS_BY_KIND
    }
    | set(SPELLINGS_BY_KIND)
)


@st.composite
def numbers(draw):
    """A number as typed, and what it is."""
    digits = draw(st.integers(1, 99_999))
    places = draw(st.integers(0, 5))
    text = f"{digits / 10**places:.{places}f}"
    if draw(st.booleans()):
        text = text.removeprefix("0")
    whole, point, rest = text.partition(".")
    turned = len(rest) != 3 or whole in ("", "0")
    if point and turned and draw(st.booleans()):
        text = f"{whole},{rest}"
    sign = draw(st.sampled_from(["", "+", "-", "–", "−"]))
    number = Fraction(digits, 10**places)
    return sign + text, -number if sign and sign != "+" else number


@st.composite
def fractions(draw):
    """A number with a fraction of an inch as typed, and what it is."""
    below = draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
    above = draw(st.integers(1, below - 1))
    whole = draw(st.integers(0, 40))
    between = draw(st.sampled_from([" ", "-", "–", "\u00a0"]))
    text = f"{whole}{between}{above}/{below}" if whole else f"{above}/{below}"
    return text, whole + Fraction(above, below)


@settings(deadline=None, max_examples=500)
@given(
    st.one_of(numbers(), fractions()),
    st.sampled_from(KIND_OF_SPELLING),
    st.sampled_from(["", " ", "\u00a0", "  "]),
    st.sampled_from([str.lower, str.upper, str.title]),
    st.sampled_from(SYSTEMS),
)
def test_every_spelling_reads_as_what_pint_makes_of_the_unit(number, spelled, gap, case, system):
    written, value = number
    kind, spelling = KINDS[spelled[0]], spelled[1]
    unit = SPELLINGS_BY_KIND.get(spelled) or SPELLINGS[spelling]
    # An m, the letters of a number with an exponent or of a fraction apart from its unit.
    glued = gap or (" " if spelling[0].isdigit() or spelling[0] == "e" else "")
    doubtful = kind is quantities.ROTATION and len(written.partition(".")[2]) == 3
    # "3 1/100 mm" is a mixed number; the unit by itself stands in heads.
    doubtful = doubtful or spelling.startswith("1/100")
    if doubtful or (unit == "inch_tenth" and system == "metric"):
        return
    text = f"{written}{glued}{case(spelling)}"
    if kind is quantities.TEMPERATURE:
        expected = PINT.Quantity(float(value), unit).to("K").magnitude
    elif kind is quantities.TEMPERATURE_RISE:
        rise = "K" if unit == "K" else f"delta_{unit}"
        expected = PINT.Quantity(float(value), rise).to("K").magnitude
    else:
        expected = float(registry().Quantity(value, unit).to(kind.si).magnitude)
    assert read_text(text, kind, system) == pytest.approx(expected, rel=1e-12)
