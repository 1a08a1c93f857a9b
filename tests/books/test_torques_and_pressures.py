"""Torques before an angle or in steps, and pressures at a speed.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import pytest
from cell_fields import field
from small_sheet import check_told

from workbook_tools import quantities
from workbook_tools.labels.cell_text import read_content

TORQUE = field("main_bolt_torque", quantities.TORQUE)
NO_SYSTEM = field("main_bolt_torque", quantities.TORQUE, None)
ADVANCE = field("ignition_advance", quantities.ANGLE)
PRESSURE = field("oil_pressure", quantities.PRESSURE)


@pytest.mark.parametrize(
    ("text", "size", "note"),
    [
        ("60 Nm + 90°", "60 Nm", "90°"),
        ("30 Nm + 90° + 90°", "30 Nm", "90° + 90°"),
        ("110 ft-lb, 3 steps", "110 ft-lb", "3 steps"),
        ("30 Nm puis 90°", "30 Nm", "puis 90°"),
    ],
)
def test_a_torque_before_an_angle_or_steps_is_read_and_these_are_noted(
    text: str, size: str, note: str
) -> None:
    content = read_content(text, TORQUE)
    assert content.values == read_content(size, TORQUE).values
    assert len(content.values) == 1
    assert note in content.note


def test_a_bare_number_before_an_angle_is_no_torque_where_no_unit_is_said() -> None:
    assert not read_content("40 + 90°", NO_SYSTEM).values
    assert read_content("40 Nm + 90°", NO_SYSTEM).values


@pytest.mark.parametrize(
    ("text", "size", "note"),
    [
        ("48 psi at 1800", "48 psi", "at 1800"),
        ("4.2 bar @ 2500 rpm", "4.2 bar", "@ 2500 rpm"),
        ("4,2 bar bei 2500 U/min", "4,2 bar", "bei 2500 U/min"),
    ],
)
def test_a_pressure_at_a_speed_is_read_and_the_speed_is_noted(
    text: str, size: str, note: str
) -> None:
    content = read_content(text, PRESSURE)
    assert content.values == read_content(size, PRESSURE).values
    assert len(content.values) == 1
    assert note in content.note


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("34 deg at 3,000 rpm", "at 3,000 rpm"),
        ("34° bei 3000 U/min", "bei 3000 U/min"),
        ("34° a 3000 giri/min", "a 3000 giri/min"),
    ],
)
def test_a_timing_at_a_speed_is_read_and_the_speed_is_noted(text: str, note: str) -> None:
    content = read_content(text, ADVANCE)
    assert content.values == read_content("34 deg", ADVANCE).values
    assert len(content.values) == 1
    assert note in content.note


def test_a_bare_pressure_may_be_that_of_a_compression_test(tmp_path):
    rows = [["Cyl", 1, 2, 3, 4], ["Pressure (bar)", 11.5, 12, 11.8, 12.2]]
    check_told(tmp_path, rows, {"B6": "cranking_pressure 1 1150 kPa"})


@pytest.mark.parametrize(
    "label",
    ["Pression d'huile 1500 tr/min", "Oil pressure at 6000 rpm", "Öldruck bei 2000 U/min"],
)
def test_a_pressure_at_a_speed_is_that_of_the_oil(tmp_path, label):
    check_told(tmp_path, [[label, "4.2 bar"]], {"B5": "oil_pressure 420 kPa"})
