"""What builders type in cells: each way of writing is read as meant, or refused with a reason.

The cases are those of the trade (common practice, no source): lengths, sizes over and under,
ratios, volumes, torques, springs, ring gaps, cam figures, tests, weights, cells without a
value, dates, people, cylinders.
"""

import datetime

import pytest
from cell_fields import (
    ADVANCE,
    BORE,
    CENTERLINE,
    CHAMBER,
    CLOSING,
    CRANKING,
    CROWN,
    DATE,
    DECK,
    DISPLACEMENT,
    DURATION,
    GAP,
    GASKET,
    HEIGHT,
    INCH,
    JOB,
    LASH,
    LEAK,
    METRIC,
    NOWHERE,
    OIL,
    OVER,
    POWER,
    RATIO,
    ROCKER,
    SPRING,
    TORQUE,
    UNDER,
    USUAL,
    WEIGHT,
    WHICH,
    WHO,
    field,
)
from each_case import each

from workbook_tools.catalog import CellError
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Value

# (cell, field, value, unit): one number that can be used.
VALUES = [
    (".0025", INCH, 0.0025, "in"),
    ('0.0025"', NOWHERE, 0.0025, "in"),
    (".0025”", NOWHERE, 0.0025, "in"),
    (".0025''", NOWHERE, 0.0025, "in"),
    ("2 thou", NOWHERE, 0.002, "in"),
    ("2-1/2 thou", NOWHERE, 0.0025, "in"),
    ("25 tenths", INCH, 0.0025, "in"),
    (".00225", INCH, 0.00225, "in"),
    (".025", USUAL, 0.025, "in"),
    (".00025", USUAL, 0.00025, "in"),
    ("0,05 mm", INCH, 0.05, "mm"),
    ("0.05", INCH._replace(unit="mm"), 0.05, "mm"),
    ("5/100 mm", NOWHERE, 0.05, "mm"),
    ("50 µm", NOWHERE, 0.05, "mm"),
    ("50 um", NOWHERE, 0.05, "mm"),
    ("50 microns", NOWHERE, 0.05, "mm"),
    ("1.234,5", METRIC._replace(decimal_comma=True), 1234.5, "mm"),
    ("~.0025", INCH, 0.0025, "in"),
    (".0025 tight", INCH, 0.0025, "in"),
    ("2.5E-03", INCH, 0.0025, "in"),
    ("avg .0025", INCH, 0.0025, "in"),
    ("2.448 ", INCH, 2.448, "in"),
    ("2.448\u00a0", INCH, 2.448, "in"),
    ("'.0025", INCH, 0.0025, "in"),
    ("4.030", BORE, 4.03, "in"),
    ("10 under", UNDER, -0.01, "in"),
    (".010 U/S", UNDER, -0.01, "in"),
    ("30 over", OVER, 0.03, "in"),
    ("+30", OVER, 0.03, "in"),
    (".030 OS", OVER, 0.03, "in"),
    ("0.50 O/S", OVER._replace(system="metric"), 0.5, "mm"),
    ("87.00 (+0.50)", BORE._replace(system="metric"), 87.0, "mm"),
    ("3-5/8", BORE, 3.625, "in"),
    ('3 5/8"', BORE, 3.625, "in"),
    ("3/8", BORE, 0.375, "in"),
    ("11/32", field("stem"), 0.34375, "in"),
    ("8mm", BORE, 8.0, "mm"),
    ("5.7", field("rod_length"), 5.7, "in"),
    ("5.700 c-c", field("rod_length"), 5.7, "in"),
    ("11.2:1", RATIO, 11.2, ""),
    ("11.2 to 1", RATIO, 11.2, ""),
    ("11.2", RATIO, 11.2, ""),
    ("63cc", CHAMBER, 63, "cc"),
    ("63 CC", CHAMBER, 63, "cc"),
    ("63 ml", CHAMBER, 63, "cc"),
    ("63", CHAMBER, 63, "cc"),
    ("8cc dish", CROWN, 8, "cc"),
    ("8 dome", CROWN, -8, "cc"),
    ("+8 dome", CROWN, -8, "cc"),
    ("FT", CROWN, 0, "cc"),
    ("flat top", CROWN, 0, "cc"),
    ("flat w/ 2VR 5cc", CROWN, 5, "cc"),
    ("364ci", DISPLACEMENT, 364, "cu in"),
    ("5965cc", DISPLACEMENT, 5965, "cc"),
    ("6.0L", DISPLACEMENT, 6000, "cc"),
    (".041c", GASKET, 0.041, "in"),
    (".041 crushed", GASKET, 0.041, "in"),
    (".008 down", DECK, 0.008, "in"),
    (".008 in hole", DECK, 0.008, "in"),
    (".008 above", DECK, -0.008, "in"),
    ("zero deck", DECK, 0.0, "in"),
    ("65 lb-ft", TORQUE, 65, "lbf.ft"),
    ("65 ft#", TORQUE, 65, "lbf.ft"),
    ("110 in-lb", TORQUE, 110 / 12, "lbf.ft"),
    ("90Nm", TORQUE, 90, "N.m"),
    ("90 N-m", TORQUE, 90, "N.m"),
    ("9 mkg", TORQUE, 88.25985, "N.m"),
    ("9 kgm", TORQUE, 88.25985, "N.m"),
    (".0058 stretch", field("bolt stretch"), 0.0058, "in"),
    ("1.850 IH", HEIGHT, 1.85, "in"),
    (".060 CB", field("coil bind margin"), 0.06, "in"),
    (".016H", LASH, 0.016, "in"),
    (".016 hot", LASH, 0.016, "in"),
    (".0045", GAP, 0.0045, "in"),
    ("0,41", GAP._replace(system="metric"), 0.41, "mm"),
    ("106 ICL", CENTERLINE, 106, "deg"),
    ("4 adv", ADVANCE, 4, "deg"),
    ("4A", ADVANCE, 4, "deg"),
    ("+4", ADVANCE._replace(signs="positive advanced"), 4, "deg"),
    ("2° cam", ADVANCE, 2, "deg cam"),
    ("272", DURATION, 272, "deg"),
    ("58 ABDC", CLOSING, 58, "deg"),
    ("1.5", ROCKER, 1.5, ""),
    ("1.52 act", ROCKER, 1.52, ""),
    ("4%", LEAK, 4, "%"),
    ("4", LEAK._replace(unit="%"), 4, "%"),
    ("12.5 bar", CRANKING, 1250, "kPa"),
    ("13 kg", CRANKING, 1274.86, "kPa"),
    ("583.9", WEIGHT, 583.9, "g"),
    ("583.9 g", WEIGHT._replace(system=None), 583.9, "g"),
    ("20.8 oz", WEIGHT, 589.67, "g"),
    ("0", LASH, 0.0, "in"),
    (".0025 (was .0031)", INCH, 0.0025, "in"),
]  # fmt: skip


@each(("cell", "where", "number", "unit"), VALUES)
def test_a_value_is_read(cell, where, number, unit):
    content = read_content(cell, where)
    assert content.value is not None, content
    assert content.value.number == pytest.approx(number, rel=1e-5)
    assert content.value.unit == unit
    assert content.raw == cell


# (cell, field, words of the note): a value that stands, with what was odd about it.
NOTES = [
    (".0025''", INCH, "two apostrophes"),
    (".025", USUAL, "ten times its neighbors"),
    (".00025", USUAL, "a tenth of its neighbors"),
    ("~.0025", INCH, "approximate"),
    (".0025 tight", INCH, "tight"),
    ("avg .0025", INCH, "a mean; its readings are missing"),
    ("2.448 ", INCH, "spaces"),
    ("'.0025", INCH, "stored as text"),
    ("87.00 (+0.50)", BORE._replace(system="metric"), "+0.50"),
    ("5.700 c-c", BORE, "c-c"),
    ("+8 dome", CROWN, "written with +"),
    ("flat top", CROWN, "only if there are no reliefs"),
    (".041c", GASKET, "compressed"),
    (".0058 stretch", field("bolt stretch"), "stretch"),
    (".016H", LASH, "hot"),
    (".0045", GAP, "gap per unit of bore"),
    ("106 ICL", CENTERLINE, "after top dead center"),
    ("2° cam", ADVANCE, "4 crank degrees"),
    ("272", DURATION, "at what lift is not said"),
    ("58 ABDC", CLOSING, "after bottom dead center"),
    ("1.52 act", ROCKER, "act"),
    ("13 kg", CRANKING, "kgf/cm2"),
    (".0025 (was .0031)", INCH, "was .0031"),
]  # fmt: skip


@each(("cell", "where", "words"), NOTES)
def test_what_was_odd_is_noted(cell, where, words):
    content = read_content(cell, where)
    assert content.value is not None
    assert words in content.note


def alike(unit, *numbers):
    return [(number, unit, "") for number in numbers]


# (cell, field, kind, [(number, unit, of)]): numbers that stay apart, and numbers not to be used.
OTHERS = [
    (".0022-.0024", INCH, "range", [(0.0022, "in", ""), (0.0024, "in", "")]),
    (".0022/.0024", INCH, "several", [(0.0022, "in", ""), (0.0024, "in", "")]),
    ("<.001", INCH, "bound", [(0.001, "in", "")]),
    (".0025 .0026 .0025", INCH, "several", alike("in", 0.0025, 0.0026, 0.0025)),
    ("4.030 +.002/-.000", BORE, "limits",
        [(4.03, "in", "nominal"), (4.03, "in", "low"), (4.032, "in", "high")]),
    ("4.0305/4.0307", BORE, "several", [(4.0305, "in", ""), (4.0307, "in", "")]),
    ("4.0305 x 4.0307 x 4.0304", BORE, "several", alike("in", 4.0305, 4.0307, 4.0304)),
    ("4.030 T 4.0295 B", BORE, "several", [(4.03, "in", "top"), (4.0295, "in", "bottom")]),
    ("std", BORE, "standard size", []),
    ("1/2-20", BORE, "thread", []),
    ("7/16-14 x 3.25", BORE, "thread", [(3.25, "in", "length")]),
    ("M10x1.25", BORE, "thread", []),
    ("10-32", BORE, "thread", []),
    ("same as #1", BORE, "pointer", []),
    ("11.2-11.4", RATIO, "range", [(11.2, "", ""), (11.4, "", "")]),
    ("63.5/63.4/63.6/63.5", CHAMBER, "several", [(n, "cc", "") for n in (63.5, 63.4, 63.6, 63.5)]),
    (".041 x 4.180", GASKET, "several", [(0.041, "in", "thickness"), (4.18, "in", "bore")]),
    ("70 ft-lb + 90 deg", TORQUE, "several", [(70, "lbf.ft", "stage 1"), (90, "deg", "stage 2")]),
    ("20/40/60/70", TORQUE, "several", [(20, "lbf.ft", "step 1"), (40, "lbf.ft", "step 2"),
        (60, "lbf.ft", "step 3"), (70, "lbf.ft", "step 4")]),
    ("1.7965/1.8023", field("bolt length"), "several",
        [(1.7965, "in", "free"), (1.8023, "in", "tight")]),
    ("130@1.850", SPRING, "several", [(130, "lbf", "load"), (1.85, "in", "height")]),
    ("130/340", SPRING, "several", [(130, "lbf", "seat"), (340, "lbf", "open")]),
    (".010/.012", LASH, "several", [(0.01, "in", "intake"), (0.012, "in", "exhaust")]),
    (".019/.019", GAP, "several", [(0.019, "in", ""), (0.019, "in", "")]),
    (".018/.020/.018", GAP, "several", alike("in", 0.018, 0.02, 0.018)),
    ("bore x .0045", GAP, "rule", [(0.0045, "", "per unit of bore")]),
    ("232/240 @ .050", DURATION, "several",
        [(232, "deg", "intake"), (240, "deg", "exhaust"), (0.05, "in", "lift")]),
    ("76/80", LEAK, "several", [(76, "psi", "held"), (80, "psi", "given")]),
    ("185 185 180 190", CRANKING, "several", [(n, "psi", "") for n in (185, 185, 180, 190)]),
    ("62 @ 6k hot", OIL, "several", [(62, "psi", ""), (6000, "rpm", "at")]),
    ("10w-30", OIL, "text", []),
    ("487@6200", POWER, "several", [(487, "hp", ""), (6200, "rpm", "at")]),
    (None, INCH, "empty", []),
    ("", INCH, "empty", []),
    ("  ", INCH, "empty", []),
    ("n/a", INCH, "not applicable", []),
    ("N/A", INCH, "not applicable", []),
    ("NA", INCH, "not applicable", []),
    ("TBD", INCH, "not yet", []),
    ("later", INCH, "not yet", []),
    ("waiting on pistons", INCH, "not yet", []),
    ("?", INCH, "doubt", []),
    (".0025?", INCH, "doubt", [(0.0025, "in", "")]),
    ("see notes", INCH, "pointer", []),
    ("card", INCH, "pointer", []),
    (CellError("#N/A"), INCH, "error", []),
    ("#REF!", INCH, "error", []),
    ("#DIV/0!", INCH, "error", []),
    ("#VALUE!", INCH, "error", []),
    ("########", INCH, "error", []),
]  # fmt: skip


@each(("cell", "where", "kind", "values"), OTHERS)
def test_what_is_no_single_value_stays_what_it_is(cell, where, kind, values):
    content = read_content(cell, where)
    assert content.kind == kind, content
    assert content.value is None
    assert [(v.number, v.unit, v.of) for v in content.values] == values


# (cell, field, text): dates, people, cylinders, job numbers.
TEXTS = [
    ("2024-03-04", DATE, "2024-03-04"),
    ("13/4/24", DATE, "2024-04-13"),
    ("3/4/24", DATE._replace(day_first=True), "2024-04-03"),
    ("3/4/24", DATE._replace(day_first=False), "2024-03-04"),
    ("4-Mar-24", DATE, "2024-03-04"),
    ("04.03.2024", DATE, "2024-03-04"),
    ("45355", DATE, "2024-03-04"),
    (45355, DATE, "2024-03-04"),
    (45355 - 1462, DATE._replace(from_1904=True), "2024-03-04"),
    (datetime.datetime(2024, 3, 4), DATE, "2024-03-04"),
    ("JT", WHO, "JT"),
    ("me", WHO, "me"),
    ("JT/RK", WHO, "JT / RK"),
    ("#1", WHICH, "1"),
    ("cyl 1", WHICH, "1"),
    ("1L", WHICH, "L1"),
    ("L1", WHICH, "L1"),
    ("A1", WHICH, "A1"),
    ("1-3-5-7", WHICH, "1-3-5-7"),
    ("2-4-6-8", WHICH, "2-4-6-8"),
    ("evens", WHICH, "evens"),
    ("drv side", WHICH, "drv side"),
    ("front", WHICH, "front"),
    ("No.4 main", WHICH, "main 4"),
    ("24-017", JOB, "24-017"),
    ("017-24", JOB, "017-24"),
]


@each(("cell", "where", "text"), TEXTS)
def test_dates_people_and_places_are_read_as_text(cell, where, text):
    content = read_content(cell, where)
    assert content.kind == "text", content
    assert content.text == text


@pytest.mark.parametrize(
    ("cell", "where", "words"),
    [
        ("04.03.2024", DATE, "day first"),
        ("45355", DATE, "counted from 1900"),
        ("JT/RK", WHO, "done and checked"),
        ("#1", WHICH, "scheme"),
        ("2-4-6-8", WHICH, "scheme"),
        ("front", WHICH, "scheme"),
        ("No.4 main", WHICH, "not a cylinder"),
    ],
)
def test_what_has_to_be_confirmed_is_noted(cell, where, words):
    assert words in read_content(cell, where).note


def test_struck_through_is_withdrawn():
    content = read_content(".0031", INCH, struck=True)
    assert content.kind == "withdrawn"
    assert content.value is None
    assert content.values == (Value(0.0031, "in"),)


def test_the_sign_rule_of_the_book_decides_decks_and_crowns():
    below = DECK._replace(signs="positive below")
    above = DECK._replace(signs="negative below")
    dish = CROWN._replace(signs="positive dish")
    maker = CROWN._replace(signs="negative dish")
    for cell, where, number in [
        ("-.008", below, -0.008), ("+.008", below, 0.008), (-0.008, above, 0.008),
        (0.008, above, -0.008), ("-5", dish, -5), ("-5", maker, 5), (5, maker, -5), (0, CROWN, 0),
    ]:  # fmt: skip
        content = read_content(cell, where)
        assert content.value is not None, (cell, where.signs, content)
        assert content.value.number == pytest.approx(number)


def test_a_number_without_a_sign_rule_is_no_crown():
    assert read_content(5, CROWN).kind == "refused"


def test_a_protrusion_stands_above_the_deck():
    content = read_content("0.63", METRIC._replace(meaning="piston_protrusion"))
    assert content.value == Value(-0.63, "mm")


@pytest.mark.parametrize("cell", ["0.0025\n", "=B2", "ﬁve", "²", "1e999", "９", "-" * 400, "1/0"])
def test_odd_texts_never_raise(cell):
    read_content(cell, INCH)
