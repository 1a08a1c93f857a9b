"""Rings: what their functions refuse, and how gap and factor hang together."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_gap_factor_is_a_plain_number_in_both_systems(eng):
    inch, metric = eng("RING_GAP", 4.0, 0.0045), eng("RING_GAP", 101.6, 0.0045, "metric")
    assert inch * 25.4 == pytest.approx(metric, rel=1e-12)


def test_harder_use_never_asks_for_less_gap(eng):
    uses = ("street", "modified", "race", "turbo race", "nitrous race")
    factors = [eng("RING_GAP_FACTOR", use, "top") for use in uses]
    assert factors == sorted(factors)


def test_a_gap_typed_as_the_factor_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"factor: expected a gap per unit of bore.*got 0.45"):
        eng("RING_GAP", 4.0, 0.45)


def test_an_unknown_use_is_answered_with_the_known_ones(eng):
    with pytest.raises(ArgumentError, match=r'use: expected one of "service".*got \'Sunday\''):
        eng("RING_GAP_FACTOR", "Sunday", "top")


@pytest.mark.parametrize("bore", [0, -4.0, None, ""])
def test_a_bore_that_was_not_measured_is_refused(eng, bore):
    with pytest.raises(ArgumentError, match=r"bore: expected a length above 0"):
        eng("RING_GAP", bore, 0.0045)


def test_a_ring_in_its_own_bore_keeps_its_gap(eng):
    assert eng("RING_GAP_AFTER_HONE", 0.018, 4.03, 4.03) == pytest.approx(0.018, rel=1e-12)


def test_ring_and_bore_of_one_material_and_temperature_scale_together(eng):
    got = eng("HOT_RING_GAP", 0.4, 100, 80, 80, "gray iron", "gray iron", "metric")
    assert got == pytest.approx(0.4 * (1 + 11.4e-6 * 80), rel=1e-9)


def test_a_bore_of_another_engine_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"new_bore: expected a bore within 5 %"):
        eng("RING_GAP_AFTER_HONE", 0.018, 4.03, 3.4)


def test_a_groove_wider_than_the_bore_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"groove_diameter: expected a diameter below the bore"):
        eng("RING_BACK_CLEARANCE", 3.6, 4.0, 0.16)


def test_a_ring_that_does_not_go_in_has_no_clearance(eng):
    assert eng("RING_SIDE_CLEARANCE", 0.0620, 0.0625) < 0


def test_a_shop_s_own_row_moves_the_band(eng, tmp_path, monkeypatch):
    shop = tmp_path / "bands.toml"
    shop.write_text(
        '[[band]]\ntable = "ring gap factor"\nuse = "street"\nring = "top"\n'
        'low = 0.0050\nhigh = 0.0060\nfactor = 0.0055\norigin = "our ring maker"\n'
    )
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(shop))
    low, high, origin = eng("RING_GAP_BAND", 4.0, "street", "top")[0]
    assert (low, high) == pytest.approx((0.020, 0.024))
    assert origin == "our ring maker"
    assert eng("RING_GAP_FACTOR", "street", "top") == pytest.approx(0.0055)


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("RING_GAP_AFTER_HONE", (4.03, 4.032)),
        ("HOT_RING_GAP", (4.03, 130, 300, "gray iron", "ductile iron")),
    ],
)
def test_thousandths_typed_as_a_gap_in_inches_are_refused(eng, name, arguments):
    with pytest.raises(ArgumentError) as raised:
        eng(name, 18, *arguments)
    assert str(raised.value) == (
        "ring_gap: expected a length that an engine can have, 0.71 in at most, got 18; "
        "perhaps 18 thou was meant"
    )
    with pytest.raises(ArgumentError) as raised:
        eng(name, 0.3, *arguments)
    assert str(raised.value) == "ring_gap: expected a gap of 5 % of the bore at most, got 0.3"
    # A ring worn to a gap of 1 mm in a bore of 39 mm is still one.
    assert eng(name, "1 mm", "39 mm", *(("39 mm",) if len(arguments) == 2 else arguments[1:])) > 0
