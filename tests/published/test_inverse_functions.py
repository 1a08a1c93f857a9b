"""Functions that answer the question the other way round: what went in comes out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sources import arithmetic

SOURCE = arithmetic("the inverse function")
inches = st.floats(2.5, 5.0)


@given(bore=inches, stroke=inches, cylinders=st.integers(1, 12))
def test_displacement(eng, bore, stroke, cylinders):
    size = eng("DISPLACEMENT", bore, stroke, cylinders)
    assert eng("STROKE_FOR_DISPLACEMENT", size, bore, cylinders) == pytest.approx(stroke, rel=1e-12)
    assert eng("BORE_FOR_DISPLACEMENT", size, stroke, cylinders) == pytest.approx(bore, rel=1e-12)


@given(
    bore=st.floats(3.0, 4.5),
    stroke=st.floats(2.5, 4.5),
    chamber=st.floats(30, 90),
    thickness=st.floats(0.02, 0.08),
    deck=st.floats(-0.02, 0.05),
    crown=st.floats(-10, 20),
)
def test_ratio(eng, bore, stroke, chamber, thickness, deck, crown):
    swept = eng("CYLINDER_VOLUME", bore, stroke)
    gasket = eng("GASKET_VOLUME", bore + 0.08, thickness)
    room = eng("DECK_VOLUME", bore, deck)
    ratio = eng("COMPRESSION_RATIO", swept, chamber, gasket, room, crown)
    back = pytest.approx
    assert eng("CHAMBER_FOR_RATIO", ratio, swept, gasket, room, crown) == back(chamber, rel=1e-9)
    assert eng("DISH_FOR_RATIO", ratio, swept, chamber, gasket, room) == back(crown, abs=1e-7)
    got = eng("GASKET_FOR_RATIO", ratio, swept, chamber, room, bore + 0.08, crown)
    assert got == back(thickness, rel=1e-8)
    cut = eng("DECK_CUT_FOR_RATIO", ratio, swept, chamber, gasket, room, bore, crown)
    assert cut == back(0, abs=1e-9)


@pytest.mark.parametrize("cut", [0.001, 0.010, 0.030])
def test_a_deck_cut_for_a_ratio_gives_the_ratio(agree, eng, cut):
    swept, gasket = eng("CYLINDER_VOLUME", 4.030, 3.480), eng("GASKET_VOLUME", 4.100, 0.040)
    after = eng("COMPRESSION_RATIO", swept, 64, gasket, eng("DECK_VOLUME", 4.030, 0.025 - cut), 5)
    before = eng("DECK_VOLUME", 4.030, 0.025)
    got = eng("DECK_CUT_FOR_RATIO", after, swept, 64, gasket, before, 4.030, 5)
    agree("DECK_CUT_FOR_RATIO", SOURCE, cut, got, rel=1e-9)


@given(deck=st.floats(-0.02, 0.05), gasket=st.floats(0.02, 0.08), growth=st.floats(-0.01, 0.01))
def test_quench(eng, deck, gasket, growth):
    hot = eng("HOT_QUENCH", deck, gasket, growth)
    if hot > 0:
        got = eng("GASKET_FOR_QUENCH", hot, deck, growth)
        assert got == pytest.approx(gasket, abs=1e-12)
        assert eng("DECK_CUT_FOR_QUENCH", hot, deck, gasket, growth) == pytest.approx(0, abs=1e-12)


@given(depth=st.floats(0.001, 0.1), area=st.floats(3, 20))
def test_milling(eng, depth, area):
    volume = eng("CHAMBER_CHANGE", depth, area)
    assert eng("MILLING_FOR_CHAMBER_CHANGE", volume, area) == pytest.approx(depth, rel=1e-12)


@given(stroke=inches, speed=st.floats(500, 12000))
def test_piston_speed(eng, stroke, speed):
    mean = eng("MEAN_PISTON_SPEED", stroke, speed)
    assert eng("SPEED_FOR_PISTON_SPEED", mean, stroke) == pytest.approx(speed, rel=1e-12)
