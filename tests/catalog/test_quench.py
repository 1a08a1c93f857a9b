"""Deck and quench at the edges: signs, nothing to cut, no gasket that is safe."""

import pytest

from workbook_tools.catalog import OMITTED, ArgumentError, calculate, find


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return raised.value


def test_a_proud_piston_is_negative(eng):
    assert eng("DECK_CLEARANCE", 9.000, 3.410, 5.850, 1.450) == pytest.approx(-0.005)
    assert eng("QUENCH", -0.045, 0.040) == pytest.approx(-0.005)


def test_no_gasket_is_thin_enough():
    expected = "quench: expected more than deck clearance and growth leave without a gasket"
    assert str(refusal("GASKET_FOR_QUENCH", 0.035, 0.040)) == f"{expected}, got 0.035"
    assert (
        str(refusal("GASKET_FOR_QUENCH", "35 thou", 0.030, 0.005)) == f"{expected}, got '35 thou'"
    )


def test_a_quench_met_already_needs_no_cut(eng):
    for quench, deck, gasket in [(0.045, 0.005, 0.040), (0.3, 0.1, 0.2), (0.7, 0.6, 0.1)]:
        cut = eng("DECK_CUT_FOR_QUENCH", quench, deck, gasket)
        assert 0 <= cut < 1e-12
    assert str(refusal("DECK_CUT_FOR_QUENCH", 0.046, 0.005, 0.040)) == (
        "quench: expected no more than the quench there is without a cut, got 0.046"
    )


SHELF = ((0.027, 0.036, None), (0.040, 0.051, None))


@pytest.mark.parametrize(
    ("quench", "deck", "growth", "least", "thickness"),
    [
        (0.040, 0.000, 0.000, 0.035, 0.040),
        (0.040, 0.004, 0.000, 0.035, 0.036),
        (0.038, 0.000, 0.000, 0.035, 0.040),  # 0.036 and 0.040 are as near: the thicker
        (0.040, -0.002, 0.004, 0.034, 0.040),  # warm 0.038 wanted: 0.036 and 0.040 as near
        (0.039, -0.002, 0.004, 0.034, 0.036),
        (0.039, -0.002, 0.004, 0.035, 0.040),  # 0.036 leaves only 0.034 in cold
        (0.036, 0.000, -0.004, 0.036, 0.040),  # an iron block closes: 0.036 in warm
        (0.060, 0.000, 0.000, 0.035, 0.051),
        (0.020, 0.000, 0.000, 0.035, 0.036),
        (0.036, 0.000, 0.000, 0.036, 0.036),  # just the least is enough
    ],
)
def test_the_nearest_safe_gasket(eng, quench, deck, growth, least, thickness):
    got = eng("NEAREST_GASKET", quench, deck, growth, SHELF, least)
    assert got == pytest.approx(thickness, rel=1e-12)


def test_thicknesses_in_their_own_units(eng):
    got = eng("NEAREST_GASKET", "1 mm", 0, 0, (("0.9 mm", "1.1 mm", "38 thou"),), "0.9 mm")
    assert got == pytest.approx(0.038)


def test_no_gasket_is_safe():
    error = refusal("NEAREST_GASKET", 0.040, 0.000, 0.000, SHELF, 0.060)
    assert str(error) == (
        "thicknesses: expected one that leaves the least quench, cold as well as warm, "
        "got none thick enough"
    )
    assert not error.missing


def test_an_empty_shelf_is_a_missing_reading():
    assert refusal("NEAREST_GASKET", 0.040, 0.0, 0.0, ((None, None),), 0.035).missing


def test_an_impossible_thickness_is_refused():
    assert str(refusal("NEAREST_GASKET", 0.04, 0.0, 0.0, ((0.027, -0.04),), 0.035)) == (
        "thicknesses: expected a length above 0, got -0.04 in row 1, column 2 of the range"
    )


def test_growth_needs_a_material_it_knows():
    message = str(refusal("BLOCK_GROWTH", 9, 110, "balsa"))
    assert message.startswith('block_material: expected one of "aluminum", ')
    assert message.endswith("got 'balsa'")


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("6061-T6", '"aluminum 6061" or another'),
        (7075.0, '"aluminum 7075" or another'),
        ("cast iron", '"gray iron", "ductile iron", "compacted graphite iron" or another'),
        ("steal", '"steel" or another'),
    ],
)
def test_an_unknown_material_is_told_its_near_ones(typed, near):
    message = str(refusal("BLOCK_GROWTH", 9, 110, typed))
    assert message.startswith(f"block_material: expected {near} of the ")


def test_growth_by_parts_has_no_hidden_defaults():
    function = find("DECK_GROWTH_BY_PARTS")
    assert function.required == len(function.parameters) == 11
    for rise in function.parameters[4:7]:
        assert "Usual" in rise.help
        assert "A rise, not the temperature." in rise.help
    assert "unsafe end" in find("DECK_GROWTH").validity
    assert "Negative in an iron block" in find("DECK_GROWTH").result_help


def test_materials_left_out_are_the_common_ones(eng):
    engine = (8.760, 3.410, 5.850, 1.180, 110, "aluminum")
    full = eng("DECK_GROWTH", *engine, "alloy steel", "alloy steel", "aluminum", 0)
    assert eng("DECK_GROWTH", *engine) == full
    assert eng("DECK_GROWTH", *engine, OMITTED, "alloy steel") == full


def test_a_colder_engine_shrinks_as_much_as_a_warmer_one_grows(eng):
    engine = (8.760, 3.410, 5.850, 1.180)
    warm = eng("DECK_GROWTH", *engine, 110, "aluminum")
    assert eng("DECK_GROWTH", *engine, -110, "aluminum") == pytest.approx(-warm)
    assert eng("DECK_GROWTH", *engine, 0, "aluminum") == 0


def test_a_rise_is_a_difference_not_a_temperature(eng):
    assert eng("BLOCK_GROWTH", 9, "100 deg C", "aluminum") == pytest.approx(
        eng("BLOCK_GROWTH", 9, 180, "aluminum")
    )


def test_a_hotter_piston_closes_the_clearance(eng):
    engine = (8.760, 3.410, 5.850, 1.180, 110, "aluminum", "steel", "steel", "aluminum")
    assert eng("DECK_GROWTH", *engine, 200) < eng("DECK_GROWTH", *engine, 0)


def test_rod_stretch_goes_with_the_square_of_speed(eng):
    rod = (600, 3.41, 5.85)
    slow, fast = (eng("ROD_STRETCH", *rod, rpm, 0.5) for rpm in (3500, 7000))
    assert fast == pytest.approx(4 * slow)
    assert eng("ROD_STRETCH", *rod, 7000, 0.5, "titanium") > fast


def test_running_quench_may_end_in_the_head(eng):
    assert eng("RUNNING_QUENCH", 0.010, 0.008, 0.004) == pytest.approx(-0.002)
    assert str(refusal("RUNNING_QUENCH", 0.04, -0.001)) == (
        "rod_stretch: expected a length 0 or more, got -0.001"
    )


def test_a_section_too_small_for_any_rod_is_refused(eng):
    # 1.5 sq cm typed where bare numbers are sq mm.
    assert str(refusal("ROD_STRETCH", 600, 86, 145, 7000, 1.5, "steel", "metric")) == (
        "rod_area: expected a section that this load stretches by 1 % at most, got 1.5"
    )
    assert eng("ROD_STRETCH", 600, 86, 145, 7000, 150, "steel", "metric") < 0.1
