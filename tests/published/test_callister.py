"""Callister, Fundamentals of Materials Science and Engineering, 3rd edition, Appendix B."""

import math

import pytest
from sources import from_memory, practice, printed

from workbook_tools.catalog import find, tables

BOOK = "Callister, Fundamentals of Materials Science and Engineering: An Integrated Approach, 3e"
EXPANSIONS = printed(BOOK, "Table B.6")
MODULI = printed(BOOK, "Table B.2")
# Table B.6, as printed per degree C and per degree F, in millionths.
EXPANSION = {
    "aluminum": (21.5, 11.9),  # 356.0, as cast
    "gray iron": (11.4, 6.3),
    "ductile iron": (10.6, 5.9),  # 80-55-06
    "steel": (11.7, 6.5),  # 1020
    "alloy steel": (12.3, 6.8),  # 4340
    "titanium": (8.6, 4.8),  # Ti-6Al-4V
}
# Of these the second figure is from memory.
REMEMBERED = ("ductile iron", "steel")
# Rows of the same table of which both figures are from memory.
MORE = {
    "aluminum 2024": (22.9, 12.7),
    "aluminum 6061": (23.6, 13.1),
    "aluminum 7075": (23.4, 13.0),
    "stainless 304": (17.2, 9.6),
    "stainless 316": (15.9, 8.8),
    "bearing bronze": (18.0, 10.0),  # C93200
    "magnesium": (26.0, 14.4),  # AZ91D
}
# Table B.2, GPa.
MODULUS = {"aluminum": 72.4, "ductile iron": 168, "steel": 207, "alloy steel": 207, "titanium": 114}


@pytest.mark.parametrize("material", EXPANSION)
def test_a_block_s_growth_follows_the_printed_coefficients(agree, eng, material):
    celsius, fahrenheit = EXPANSION[material]
    # A crank, rod and piston of one material with the block leave only the growth of the
    # deck clearance itself, 100 mm here: 250 less 50, 80 and 20.
    same = (material,) * 4
    got = eng("DECK_GROWTH", 250, 100, 80, 20, 80, *same, 0, "metric")
    agree("DECK_GROWTH", EXPANSIONS, celsius * 1e-6 * 100 * 80, got, rel=1e-12)
    # The second printed figure is rounded to 0.1 in a million.
    got = eng("DECK_GROWTH", 10, 4, 3.2, 0.8, 144, *same)
    source = from_memory(BOOK, "Table B.6") if material in REMEMBERED else EXPANSIONS
    agree("DECK_GROWTH", source, fahrenheit * 1e-6 * 4 * 144, got, rel=0.012)


@pytest.mark.parametrize("material", EXPANSION)
def test_growth_of_block_and_of_crank_rod_and_piston(agree, eng, material):
    celsius, _ = EXPANSION[material]
    got = eng("BLOCK_GROWTH", 230, 80, material, "metric")
    agree("BLOCK_GROWTH", EXPANSIONS, celsius * 1e-6 * 230 * 80, got, rel=1e-12)
    # Throw 43, rod 145 and piston 30 mm, the piston 100 K hotter than the rest.
    got = eng("ASSEMBLY_GROWTH", 86, 145, 30, 80, *(material,) * 3, 100, "metric")
    expected = celsius * 1e-6 * ((43 + 145) * 80 + 30 * 180)
    agree("ASSEMBLY_GROWTH", EXPANSIONS, expected, got, rel=1e-12)


@pytest.mark.parametrize("material", [m for m in MODULUS if m != "ductile iron"])
def test_stretch_of_a_rod_follows_the_printed_modulus(agree, eng, material):
    # 1 kg on a crank of 50 mm and a rod of 200 mm at 100 rad/s: 500 N times 1.25 stretch
    # 200 mm of 100 mm2.
    expected = 500 * 1.25 * 200 / (100 * MODULUS[material] * 1000)
    got = eng("ROD_STRETCH", 1000, 100, 200, "100 rad/s", 100, material, "metric")
    agree("ROD_STRETCH", MODULI, expected, got, rel=1e-12)


@pytest.mark.parametrize("material", MODULUS)
def test_modulus(material):
    assert tables.modulus(material) == pytest.approx(MODULUS[material] * 1e9)


@pytest.mark.parametrize("material", [*EXPANSION, *MORE])
def test_growth_with_each_part_at_its_own_rise(agree, eng, material):
    # Block 250 mm 65 K warmer, throw 50 and rod 80 mm 90 K, piston 20 mm 140 K; one material.
    # Per degree F the printed figures are rounded to 0.1 in a million.
    celsius, fahrenheit = (EXPANSION | MORE)[material]
    source = from_memory(BOOK, "Table B.6") if material in MORE else EXPANSIONS
    lengths = 250 * 65 - (50 + 80) * 90 - 20 * 140
    call = (250, 100, 80, 20, 65, 90, 140, *(material,) * 4, "metric")
    got = eng("DECK_GROWTH_BY_PARTS", *call)
    agree("DECK_GROWTH_BY_PARTS", source, celsius * 1e-6 * lengths, got, rel=1e-12)
    assert got == pytest.approx(fahrenheit * 1.8e-6 * lengths, rel=0.012)


def test_growth_of_an_engine_of_four_materials(agree, eng):
    # An invented V8, deck height 9.310 in; coefficients per degree F as printed there, rounded to
    # 0.1 in a million.
    got = eng(
        "DECK_GROWTH_BY_PARTS", 9.310, 3.570, 6.140, 1.385, 120, 160, 220,
        "gray iron", "alloy steel", "titanium", "aluminum",
    )  # fmt: skip
    expected = 6.3e-6 * 9.310 * 120 - 6.8e-6 * 1.785 * 160 - 4.8e-6 * 6.140 * 160
    expected -= 11.9e-6 * 1.385 * 220
    agree("DECK_GROWTH_BY_PARTS", EXPANSIONS, expected, got, abs=1.5e-4)


def test_one_rise_for_all_is_the_unsafe_end(eng):
    sizes = (9.310, 3.570, 6.140, 1.385)
    steel = ("alloy steel", "alloy steel", "aluminum 2618")
    one = eng("DECK_GROWTH", *sizes, 120, "aluminum 319", *steel)
    by_parts = eng("DECK_GROWTH_BY_PARTS", *sizes, 120, 160, 220, "aluminum 319", *steel)
    same = eng("DECK_GROWTH_BY_PARTS", *sizes, 120, 120, 120, "aluminum 319", *steel)
    assert same == pytest.approx(one, rel=1e-12)
    assert one - by_parts > 0.003


def test_every_material_names_its_source_or_says_from_memory():
    for material in tables.materials().values():
        assert "Callister" in material.source or material.source.startswith("from memory")


@pytest.mark.parametrize(
    ("deck_height", "stroke", "rod", "compression_height"),
    [(8.760, 3.410, 5.850, 1.180), (9.310, 3.570, 6.140, 1.385), (8.950, 3.540, 6.000, 1.180)],
)
@pytest.mark.parametrize("piston", ["aluminum", "aluminum 2618", "aluminum 4032"])
def test_aluminum_block_grows_as_practice_says(
    agree, eng, deck_height, stroke, rod, compression_height, piston
):
    # Invented V8s of about 9 in deck height, warmed from 70 to 180 deg F. That such a block
    # opens the clearance by 0.003 to 0.005 in is common practice, no source.
    got = eng(
        "DECK_GROWTH", deck_height, stroke, rod, compression_height, 110,
        "aluminum", "alloy steel", "alloy steel", piston,
    )  # fmt: skip
    agree("DECK_GROWTH", practice("0.003 to 0.005 in"), 0.004, got, abs=0.001)


def test_iron_block_closes(eng):
    # Common practice, no source: over iron the clearance closes a few thousandths.
    growth = eng("DECK_GROWTH", 8.760, 3.410, 5.850, 1.180, 110, "gray iron")
    assert -0.005 < growth < -0.0005


def test_hot_piston_in_a_hot_bore(agree, eng):
    # A 100 mm iron bore 80 K warmer, a 99.92 mm cast aluminum piston 120 K warmer.
    got = eng("HOT_PISTON_CLEARANCE", 100, 99.92, 80, 120, "gray iron", "aluminum", "metric")
    expected = 100 * (1 + 11.4e-6 * 80) - 99.92 * (1 + 21.5e-6 * 120)
    agree("HOT_PISTON_CLEARANCE", EXPANSIONS, expected, got, abs=1e-12)
    # Per degree F, as printed there: 6.3 and 11.9, rounded to 0.1.
    got = eng("HOT_PISTON_CLEARANCE", 4, 3.996, 144, 216, "gray iron", "aluminum")
    expected = 4 * (1 + 6.3e-6 * 144) - 3.996 * (1 + 11.9e-6 * 216)
    agree("HOT_PISTON_CLEARANCE", EXPANSIONS, expected, got, abs=1e-4)


@pytest.mark.parametrize(
    ("piston", "cold", "hot"),
    [("aluminum 2618", 0.0045, -0.0014), ("aluminum 4032", 0.003, -0.0017),
     ("aluminum 390", 0.0018, -0.0024)],
)  # fmt: skip
def test_proven_fits_come_out_slightly_negative_and_are_not_said_to_seize(eng, piston, cold, hot):
    # That these cold fits are proven is common practice, no source.
    got = eng("HOT_PISTON_CLEARANCE", 4.03, 4.03 - cold, 120, 180, "gray iron", piston)
    assert got == pytest.approx(hot, abs=1e-4)
    entry = find("HOT_PISTON_CLEARANCE")
    assert "would seize" not in entry.result_help + entry.validity
    assert "proven in service come out slightly negative" in entry.validity


def test_hot_ring_gap(agree, eng):
    # An iron ring of 0.40 mm gap, 180 K warmer, in a 100 mm iron bore 80 K warmer, and in a
    # bore that stays cold: pi times the bore times the printed 11.4 millionths a degree.
    warm = eng("HOT_RING_GAP", 0.40, 100, 80, 180, "gray iron", "gray iron", "metric")
    expected = 0.40 - math.pi * 100 * 11.4e-6 * (180 - 80)
    agree("HOT_RING_GAP", EXPANSIONS, expected, warm, abs=1e-3)
    cold = eng("HOT_RING_GAP", 0, 100, 0, 180, "gray iron", "gray iron", "metric")
    expected = -math.pi * 100 * 11.4e-6 * 180
    agree("HOT_RING_GAP", EXPANSIONS, expected, cold, abs=1e-9)


def test_hot_main_bearing_of_an_aluminum_case(agree, eng):
    # Housing 64.020, walls 2.005 and 2.010 mm 80 K warmer, journal 59.955 mm 95 K warmer.
    got = eng(
        "HOT_BEARING_CLEARANCE", 64.020, 2.005, 59.955, 80, 95,
        "aluminum", "alloy steel", "steel", 2.010, "metric",
    )  # fmt: skip
    growth = (64.020 * 21.5e-6 - (2.005 + 2.010) * 11.7e-6) * 80 - 59.955 * 12.3e-6 * 95
    agree("HOT_BEARING_CLEARANCE", EXPANSIONS, 0.050 + growth, got, abs=1e-9)


def test_hot_rod_bearing_whose_halves_and_rises_differ(agree, eng):
    # A titanium rod of 2.2250 in and its shells of 0.0620 and 0.0625 in 120 deg F warmer, an
    # iron journal of 2.0983 in 200 deg F warmer, each at the figure printed per degree F.
    got = eng(
        "HOT_BEARING_CLEARANCE", 2.2250, 0.0620, 2.0983, 120, 200,
        "titanium", "ductile iron", "steel", 0.0625,
    )  # fmt: skip
    housing = 2.2250 * (1 + 4.8e-6 * 120)
    shells = (0.0620 + 0.0625) * (1 + 6.5e-6 * 120)
    journal = 2.0983 * (1 + 5.9e-6 * 200)
    expected = housing - shells - journal
    # The printed figures are rounded to 0.1 in a million: 2e-5 in here.
    agree("HOT_BEARING_CLEARANCE", EXPANSIONS, expected, got, abs=2e-5)
    assert expected < 0.0022 - 0.0009


@pytest.mark.parametrize("material", MODULUS)
def test_a_bar_stretches_by_its_printed_modulus(agree, eng, material):
    # 100 mm of 10 mm diameter under 10 kN.
    expected = 10e3 * 100 / (MODULUS[material] * 1e3 * math.pi / 4 * 10**2)
    got = eng("BOLT_STRETCH", 10000, 100, 10, material, "metric")
    agree("BOLT_STRETCH", MODULI, expected, got)
    back = eng("PRELOAD_FROM_STRETCH", expected, 100, 10, material, "metric")
    agree("PRELOAD_FROM_STRETCH", MODULI, 10000, back)
