"""Units that share a dimension but not a meaning: turns and radians, cam and crank degrees."""

import math

import pytest
from each_case import each

from workbook_tools import quantities
from workbook_tools.quantities import KINDS, SYSTEMS, UnreadableText, read_text
from workbook_tools.quantities.registry import registry


@pytest.mark.parametrize("text", ["6000 rpm", "6000 1/min", "100 Hz"])
def test_a_rotation_is_the_same_in_every_unit_of_turns(text):
    assert read_text(text, quantities.ROTATION, "metric") == pytest.approx(200 * math.pi)


def test_a_frequency_counts_turns():
    assert read_text("6000 rpm", quantities.FREQUENCY, "inch") == pytest.approx(100)
    assert read_text("384.8 Hz", quantities.FREQUENCY, "inch") == pytest.approx(384.8)


def test_cam_degrees_are_refused_for_crank_degrees():
    with pytest.raises(UnreadableText, match="'deg cam' is not a unit of angle"):
        read_text("4 deg cam", quantities.ANGLE, "inch")


def test_crank_degrees_are_refused_for_cam_degrees():
    with pytest.raises(UnreadableText, match="'deg crank' is not a unit of cam angle"):
        read_text("110 deg crank", quantities.CAM_ANGLE, "inch")


@pytest.mark.parametrize("text", ["110", "110 deg", "110°", "110 deg cam", "110° cam"])
def test_a_lobe_separation_is_in_cam_degrees_however_it_is_written(text):
    assert read_text(text, quantities.CAM_ANGLE, "inch") == pytest.approx(math.radians(110))


def test_consumption_by_exact_definitions():
    # 1 lb/(hp.h) = 0.45359237 kg / (745.6998715822702 W * 3600 s) = 608.277387842 g/(kW.h)
    si = read_text("1 lb/hp.h", quantities.FUEL_CONSUMPTION, "inch")
    assert quantities.from_si(si, quantities.FUEL_CONSUMPTION, "metric") == pytest.approx(
        608.277387842
    )


@each("system", SYSTEMS)
@each("kind", [k for k in KINDS.values() if k.has_units])
def test_every_kind_reads_back_the_unit_it_shows(kind, system):
    assert read_text(f"3.7 {kind.unit(system)}", kind, system) == pytest.approx(
        quantities.to_si(3.7, kind, system)
    )


@pytest.mark.parametrize("text", ["38 thou", "12 bar", "250 ft.lb", "5.7 l", "9 micron", "40 kgf"])
def test_a_reading_in_another_unit_is_converted_by_dimension(text):
    ours = read_text(text, quantities.READING, "metric")
    number, unit = quantities.split_quantity(text)
    quantity = registry().Quantity(float(number), quantities.SPELLINGS[unit])
    bare = quantities.SPELLINGS[quantities.reading_unit(text, "metric").lower()]
    assert ours == pytest.approx(float(quantity.to(bare).magnitude))
