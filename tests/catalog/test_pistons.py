"""Pistons and bores: what their functions refuse, and that inverse functions agree."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_a_piston_of_another_size_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"piston_diameter: expected a size within 2 %"):
        eng("PISTON_CLEARANCE", 4.030, 3.400)


def test_clearance_of_a_row_of_cylinders(eng):
    got = eng("PISTON_CLEARANCE", ((4.0305, 4.0310),), ((4.0265, 4.0268),))
    assert got[0] == pytest.approx((0.0040, 0.0042), abs=1e-12)


def test_size_and_hone_are_each_other_s_inverse(eng):
    piston = eng("PISTON_SIZE_FOR_CLEARANCE", 4.0305, 0.0042)
    assert eng("HONE_TO_SIZE", piston, 0.0042) == pytest.approx(4.0305, rel=1e-12)
    assert eng("PISTON_CLEARANCE", 4.0305, piston) == pytest.approx(0.0042, rel=1e-9)


@pytest.mark.parametrize("name", ["PISTON_SIZE_FOR_CLEARANCE", "HONE_TO_SIZE"])
@pytest.mark.parametrize("clearance", [0, None, 0.42])
def test_no_clearance_and_too_much_are_refused(eng, name, clearance):
    with pytest.raises(ArgumentError, match="clearance: expected"):
        eng(name, 4.0305, clearance)


def test_cold_parts_of_one_material_keep_their_clearance_in_proportion(eng):
    cold = eng("PISTON_CLEARANCE", 100, 99.92, "metric")
    hot = eng("HOT_PISTON_CLEARANCE", 100, 99.92, 80, 80, "aluminum", "aluminum", "metric")
    assert hot == pytest.approx(cold * (1 + 21.5e-6 * 80), rel=1e-9)


def test_a_large_air_cooled_cylinder_is_an_aircraft_s(eng):
    assert eng("PISTON_CLEARANCE_BAND", 125, "air cooled", "cast", "metric")[0][0] > 0.05
    with pytest.raises(ArgumentError, match='for larger ones give "aircraft"'):
        eng("PISTON_CLEARANCE_BAND", 5.125, "air cooled", "cast")
    assert eng("PISTON_CLEARANCE_BAND", 5.125, "aircraft", "cast")[0][0] > 0.009


def test_skirt_exposure_is_the_skirt_below_the_sleeve(eng):
    # The same from the crank: the pin at bottom dead center is rod less throw above it.
    deck_height, throw, rod, height, below_pin, sleeve = 221.0, 43.0, 145.0, 33.2, 22.0, 118.0
    deck_clearance = deck_height - throw - rod - height
    lower_edge = rod - throw - below_pin
    expected = (deck_height - sleeve) - lower_edge
    got = eng("SKIRT_EXPOSURE", deck_clearance, 86, height + below_pin, sleeve, "metric")
    assert got == pytest.approx(expected, abs=1e-9)


def test_a_piston_in_millimeters_is_no_piston_of_an_inch_bore(eng):
    with pytest.raises(ArgumentError) as raised:
        eng("HOT_PISTON_CLEARANCE", 4.030, 102.26, 130, 250, "gray iron")
    assert str(raised.value) == (
        "piston_diameter: expected a length that an engine can have, 0.33 to 38 in, got 102.26; "
        "perhaps 102.26 mm was meant"
    )
    with pytest.raises(ArgumentError) as raised:
        eng("HOT_PISTON_CLEARANCE", 4.030, 3.940, 130, 250, "gray iron")
    assert str(raised.value) == (
        "piston_diameter: expected a size within 2 % of the bore, got 3.94"
    )


def test_a_shop_s_row_of_pistons_without_a_middle_figure(eng, tmp_path, monkeypatch):
    shop = tmp_path / "bands.toml"
    shop.write_text(
        '[[band]]\ntable = "piston clearance factor"\nuse = "street"\npiston = "cast"\n'
        'low = 0.0005\nhigh = 0.0009\norigin = "our piston maker"\n'
    )
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(shop))
    low, high, origin = eng("PISTON_CLEARANCE_BAND", 80, "street", "cast", "metric")[0]
    assert (low, high) == pytest.approx((0.040, 0.072))
    assert origin == "our piston maker"
