"""Callister, Fundamentals of Materials Science and Engineering, 3e 2007, Appendix B."""

import pytest

from workbook_tools.catalog import tables

SOURCE = "Callister, Fundamentals of Materials Science and Engineering, App. B"
# Table B.6, as printed per degree C and per degree F, in millionths.
EXPANSION = {
    "aluminum": (21.5, 11.9),  # 356.0, as cast
    "gray iron": (11.4, 6.3),
    "ductile iron": (10.6, 5.9),  # 80-55-06; the second figure from memory
    "steel": (11.7, 6.5),  # 1020; the second figure from memory
    "alloy steel": (12.3, 6.8),  # 4340
    "titanium": (8.6, 4.8),  # Ti-6Al-4V
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
    agree("DECK_GROWTH", f"{SOURCE}, Table B.6", celsius * 1e-6 * 100 * 80, got, rel=1e-12)
    # The second printed figure is rounded to 0.1 in a million.
    got = eng("DECK_GROWTH", 10, 4, 3.2, 0.8, 144, *same)
    agree("DECK_GROWTH", f"{SOURCE}, Table B.6", fahrenheit * 1e-6 * 4 * 144, got, rel=0.012)


@pytest.mark.parametrize("material", MODULUS)
def test_modulus(material):
    assert tables.modulus(material) == pytest.approx(MODULUS[material] * 1e9)


def test_every_material_names_its_source_or_says_from_memory():
    for material in tables.materials().values():
        assert "Callister" in material.source or material.source.startswith("from memory")


@pytest.mark.parametrize(
    ("deck_height", "stroke", "rod", "compression_height"),
    [(9.025, 3.480, 5.700, 1.560), (9.240, 3.622, 6.098, 1.330), (8.950, 3.540, 6.000, 1.180)],
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
    agree("DECK_GROWTH", "common practice, no source: 0.003 to 0.005 in", 0.004, got, abs=0.001)


def test_iron_block_closes(eng):
    # Common practice, no source: over iron the clearance closes a few thousandths.
    growth = eng("DECK_GROWTH", 9.025, 3.480, 5.700, 1.560, 110, "gray iron")
    assert -0.005 < growth < -0.0005
