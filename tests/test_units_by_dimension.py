"""Units that share a dimension but not a meaning: turns and radians, cam and crank degrees."""

import math

import pytest

from workbook_tools import units
from workbook_tools.unit_spellings import READY_FACTORS
from workbook_tools.units import KINDS, SYSTEMS, UnreadableText, read_text


@pytest.mark.parametrize("text", ["6000 rpm", "6000 1/min", "100 Hz"])
def test_a_rotation_is_the_same_in_every_unit_of_turns(text):
    assert read_text(text, units.ROTATION, "metric") == pytest.approx(200 * math.pi)


def test_a_frequency_counts_turns():
    assert read_text("6000 rpm", units.FREQUENCY, "inch") == pytest.approx(100)
    assert read_text("384.8 Hz", units.FREQUENCY, "inch") == pytest.approx(384.8)


def test_cam_degrees_are_refused_for_crank_degrees():
    with pytest.raises(UnreadableText, match="'deg cam' is not a unit of angle"):
        read_text("4 deg cam", units.ANGLE, "inch")


def test_crank_degrees_are_refused_for_cam_degrees():
    with pytest.raises(UnreadableText, match="'deg crank' is not a unit of cam angle"):
        read_text("110 deg crank", units.CAM_ANGLE, "inch")


@pytest.mark.parametrize("text", ["110", "110 deg", "110°", "110 deg cam", "110° cam"])
def test_a_lobe_separation_is_in_cam_degrees_however_it_is_written(text):
    assert read_text(text, units.CAM_ANGLE, "inch") == pytest.approx(math.radians(110))


def test_consumption_by_exact_definitions():
    # 1 lb/(hp.h) = 0.45359237 kg / (745.6998715822702 W * 3600 s) = 608.277387842 g/(kW.h)
    si = read_text("1 lb/hp.h", units.FUEL_CONSUMPTION, "inch")
    assert units.from_si(si, units.FUEL_CONSUMPTION, "metric") == pytest.approx(608.277387842)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("kind", [k for k in KINDS.values() if k.has_units], ids=lambda k: k.name)
def test_every_kind_reads_back_the_unit_it_shows(kind, system):
    assert read_text(f"3.7 {kind.unit(system)}", kind, system) == pytest.approx(
        units.to_si(3.7, kind, system)
    )


def test_the_ready_factors_are_those_of_pint():
    assert {key: units.registry_factor(*key) for key in READY_FACTORS} == READY_FACTORS


def test_every_bare_unit_has_its_ready_factor():
    for kind in units.KINDS.values():
        if kind.si and kind not in (units.TEMPERATURE, units.TEMPERATURE_RISE):
            for system in units.SYSTEMS:
                assert (units.SPELLINGS[kind.unit(system).lower()], kind.si) in READY_FACTORS


@pytest.mark.parametrize("text", ["38 thou", "12 bar", "250 ft.lb", "5.7 l", "9 micron", "40 kgf"])
def test_a_reading_in_another_unit_is_converted_by_dimension(text):
    ours = read_text(text, units.READING, "metric")
    number, unit = units.split_quantity(text)
    quantity = units._registry().Quantity(float(number), units.SPELLINGS[unit])
    bare = units.SPELLINGS[units.reading_unit(text, "metric").lower()]
    assert ours == pytest.approx(float(quantity.to(bare).magnitude))
