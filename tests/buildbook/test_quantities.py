"""What the build book knows of a number comes from the table of measurands."""

from __future__ import annotations

import re

import openpyxl
import pytest
from build_books import PLANS, of_each
from openpyxl.utils import range_boundaries

from workbook_tools.buildbook import quantities as q
from workbook_tools.measurands import find


@pytest.mark.parametrize("plan", of_each(PLANS))
def test_plausible_readings_are_not_asked_about(plan, written):
    book = openpyxl.load_workbook(written(plan)[1])
    looked, outside = 0, []
    for sheet in book:
        for check in sheet.data_validations.dataValidation:
            if check.type != "custom":
                continue
            low, high = map(float, re.search(r">=(.*?),.*?<=(.*?)\)", check.formula1).groups())
            for place in check.sqref.ranges:
                left, top, right, bottom = range_boundaries(place.coord)
                for (cell,) in sheet.iter_rows(top, bottom, left, right) if left == right else ():
                    if isinstance(cell.value, (int, float)):
                        looked += 1
                        if not low <= cell.value <= high:
                            outside.append((sheet.title, cell.coordinate, cell.value, low, high))
    assert looked > 100
    assert not outside


@pytest.mark.parametrize(
    ("name", "units", "digits"),
    [
        ("bore", ("in", "mm"), ("0.0000", "0.000")),
        ("deck_clearance", ("in", "mm"), ("+0.0000;-0.0000;0.0000", "+0.000;-0.000;0.000")),
        ("compression_ratio", ("", ""), ('0.00":1"', '0.00":1"')),
        ("rocker_ratio", ("", ""), ("0.00", "0.00")),
        ("engine_speed", ("rpm", "rpm"), ("#,##0", "#,##0")),
        ("lobe_separation", ("deg cam", "deg cam"), ("0.0", "0.0")),
    ],
)
def test_unit_and_digits_are_the_measurands(name, units, digits):
    assert (q.of(name).units, q.of(name).digits) == (units, digits)


def test_what_is_asked_about_is_what_an_engine_cannot_have():
    bore = find("bore")
    for system, (low, high) in zip(("inch", "metric"), q.of("bore").plausible, strict=True):
        least, most = bore.possible_in(system)
        assert least * 0.99 <= low <= least
        assert most <= high <= most * 1.01


def test_a_property_takes_what_any_of_its_parts_can_have():
    low, high = q.of("journal").plausible[1]
    parts = [find(name).possible_in("metric") for name in ("main_journal", "cam_journal")]
    assert low <= min(p[0] for p in parts)
    assert high >= max(p[1] for p in parts)


def test_an_unknown_name_is_refused():
    with pytest.raises(ValueError, match="no measurand and no property 'boar'"):
        q.of("boar")
