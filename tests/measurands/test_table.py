"""The table of measurands: checked as it is read, no contradictions, wide enough for engines."""

import csv
import itertools
import math
from pathlib import Path

import pint
import pytest
from each_case import each

from workbook_tools.measurands.measurand import LANGUAGES
from workbook_tools.measurands.order import evaluate, parse_order
from workbook_tools.measurands.table import (
    all_measurands,
    beside,
    find,
    of_part,
    of_property,
    properties,
    read_table,
)

TABLE = all_measurands()
DATA = Path(__file__).parent / "data"
CARS = Path(__file__).parents[1] / "published" / "data" / "automobile_1985_engines.csv"
INCH = 0.0254

GOOD = """
section = 1
title = "Engine"
ranges = "from memory"

[bore]
name = "Bore"
part = "bore"
noun = "diameter"
kind = "length"
of = "cylinder"
unit = "mm"
possible = [25, 320]
usual = [36, 170]
digits = [4, 3]
order = ["> piston_diameter"]

[piston_diameter]
name = "Piston diameter"
part = "piston"
noun = "diameter"
kind = "length"
of = "cylinder"
unit = "mm"
possible = [25, 320]
usual = [36, 170]
digits = [4, 3]
"""


def test_a_good_file_is_read():
    table = read_table({"engine.toml": GOOD})
    assert [*table] == ["bore", "piston_diameter"]
    assert table["bore"].possible == pytest.approx((0.025, 0.320))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('kind = "length"', 'kind = "lenght"', "kind"),
        ('of = "cylinder"', 'of = "barrel"', "of"),
        ("possible = [25, 320]", "possible = [320, 25]", "possible"),
        ("usual = [36, 170]", "usual = [20, 170]", "usual"),
        ("digits = [4, 3]", "digits = [4]", "digits"),
        ('unit = "mm"', 'unit = "kg"', "possible"),
        ('unit = "mm"', 'unit = "mm"\nsigned = true', "signed"),
        ('part = "bore"\n', "", "part"),
        ("> piston_diameter", "> piston", "piston"),
        ("> piston_diameter", "above piston_diameter", "order"),
        ("> piston_diameter", "= 3 + 4", "names no measurand"),
        ("> piston_diameter", "> bore", "itself"),
        ('name = "Piston diameter"', 'name = "bore"', "same name"),
        ('part = "piston"', 'part = "bore"', "same part"),
        ("section = 1", "section = ", "engine.toml"),
        ("section = 1\n", "", "section"),
    ],
)
def test_what_is_wrong_is_told_with_its_file_or_measurand(old, new, says):
    assert old in GOOD
    with pytest.raises(ValueError, match=says) as told:
        read_table({"engine.toml": GOOD.replace(old, new, 1)})
    assert any(name in str(told.value) for name in ("engine.toml", "bore", "piston_diameter"))


def test_an_id_stands_in_one_file_only():
    with pytest.raises(ValueError, match=r"b\.toml, bore"):
        read_table({"a.toml": GOOD, "b.toml": GOOD})


def test_ids_names_and_order_numbers_are_unique():
    for key in ("id", "name", "number"):
        values = [getattr(one, key) for one in TABLE]
        assert len(set(values)) == len(values)
    assert all(one.id.isidentifier() and one.id.islower() for one in TABLE)


def test_order_on_summaries_is_that_of_sections_then_rank():
    assert [one.number for one in TABLE] == sorted(one.number for one in TABLE)
    titles = {one.section: one.title for one in TABLE}
    assert len(set(titles.values())) == len(titles)


@each("one", TABLE)
def test_a_measurand_is_whole(one):
    assert one.ranges
    assert all(0 <= digits <= 5 for digits in one.digits)
    # A zero of temperature is no zero in SI.
    assert not one.zero or one.kind.si == "K" or one.possible[0] <= 0 <= one.possible[1]
    # What can have either sign says what the sign means.
    assert not one.signed or one.sign or one.kind.name == "temperature"
    assert set(one.words) <= set(LANGUAGES)


def test_digits_can_show_the_usual_range():
    for one, system in itertools.product(TABLE, ("inch", "metric")):
        low, high = one.usual_in(system)
        # The larger end of what is usual must not be shown as zero.
        shown = round(max(abs(low), abs(high)), one.shown_digits(system))
        assert shown != 0, f"{one.id} in {system}"


def test_a_property_is_of_one_kind():
    for name in properties():
        assert len({one.kind for one in of_property(name)}) == 1, name


def test_bearing_clearance_is_of_main_rod_and_cam():
    # common practice, no source
    assert {one.id for one in of_property("bearing_clearance")} == {
        "main_bearing_clearance", "rod_bearing_clearance", "cam_bearing_clearance",
    }  # fmt: skip
    assert [one.id for one in of_part("ring", "gap")] == [
        "top_ring_gap", "second_ring_gap", "oil_ring_gap",
    ]  # fmt: skip


# Orders


def strict():
    """(smaller, larger, doubted) of every strict order."""
    for one in TABLE:
        for order in one.orders:
            for other in beside(order.other, one) if order.relation in "<>" else ():
                pair = (one, other) if order.relation == "<" else (other, one)
                yield (*pair, order.doubted)


def test_strict_orders_form_no_circle():
    above = {}
    for small, large, _ in strict():
        above.setdefault(small.id, set()).add(large.id)

    def reached(start):
        found, todo = set(), [start]
        while todo:
            for other in above.get(todo.pop(), ()):
                if other not in found:
                    found.add(other)
                    todo.append(other)
        return found

    assert above
    assert [name for name in above if name in reached(name)] == []


def test_strict_orders_agree_with_the_ranges():
    for small, large, _ in strict():
        assert small.kind == large.kind, (small.id, large.id)
        assert small.possible[0] < large.possible[1], (small.id, large.id)
        assert small.usual[0] < large.usual[1], (small.id, large.id)


def test_a_strict_order_is_written_once():
    pairs = [(small.id, large.id) for small, large, _ in strict()]
    assert len(set(pairs)) == len(pairs)


def test_ratios_can_be_met_by_usual_values():
    for one in TABLE:
        for order in one.orders:
            if order.relation == "/":
                other = find(order.other)
                assert other.kind == one.kind
                assert one.usual[0] / other.usual[1] <= order.high
                assert one.usual[1] / other.usual[0] >= order.low


FORMULAS = [(one, order) for one in TABLE for order in one.orders if order.formula]
REGISTRY = pint.UnitRegistry()
REGISTRY.define("cam_radian = radian")


@each(("one", "order"), FORMULAS)
def test_a_formula_has_the_dimension_of_its_measurand(one, order):
    def unit(measurand):
        return REGISTRY.Quantity(1.0, measurand.kind.si or "dimensionless")

    values = {name: unit(beside(name, one)[0]) for name in order.names}
    assert evaluate(order.formula, values).dimensionality == unit(one).dimensionality


# An ordinary engine, worked by hand from the geometry (common practice, no source): in mm and cc.
ENGINE = {
    "bore": 0.1, "stroke": 0.08, "cylinder_count": 8, "rod_length": 0.15, "deck_height": 0.23,
    "compression_height": 0.039, "gasket_thickness": 0.001, "main_journal": 0.06,
    "main_bearing_bore": 0.06006, "main_housing_bore": 0.064, "deck_clearance": 0.001,
}  # fmt: skip
WORKED = {
    "deck_clearance": 0.001,  # 230 - 40 - 150 - 39
    "quench": 0.002,
    "displacement": 5.02654824574367e-3,  # 8 * 628.3185 cc
    "cylinder_volume": 628.3185307179587e-6,
    "main_bearing_clearance": 0.00006,
    "main_shell_wall": 0.00197,
    "rod_stroke_ratio": 1.875,
    "piston_protrusion": -0.001,
}


@pytest.mark.parametrize("name", WORKED)
def test_a_formula_gives_what_geometry_gives(name):
    one = find(name)
    order = next(
        o for o in one.orders if o.formula and all(beside(n, one)[0].id in ENGINE for n in o.names)
    )
    values = {n: ENGINE[beside(n, one)[0].id] for n in order.names}
    assert evaluate(order.formula, values) == pytest.approx(WORKED[name])


@pytest.mark.parametrize("text", ["__import__('os')", "bore if stroke else 1", "bore.real", "'a'"])
def test_a_formula_holds_arithmetic_only(text):
    with pytest.raises((ValueError, KeyError)):
        evaluate(text, {"bore": 1.0, "stroke": 2.0})


def test_orders_are_read():
    assert parse_order("/ bore in 0.002 0.012").high == 0.012
    assert parse_order("< bore doubted").doubted
    assert math.isinf(parse_order("< bore").high)


# Published sizes


def service_sizes():
    with (DATA / "service_sizes.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_published_service_sizes_are_possible_and_usual():
    """Fits and gaps of 40 engines from makers' and military manuals, read in their public text."""
    rows = service_sizes()
    assert len(rows) > 150
    for row in rows:
        one = find(row["measurand"])
        for key in ("low_mm", "high_mm", "limit_mm"):
            if not row[key]:
                continue
            value = float(row[key]) / 1000
            assert one.is_possible(value), row
            # A limit of wear is no usual size; a coated skirt may start below zero.
            assert key == "limit_mm" or one.is_usual(value) or value < 0, row


def test_cars_of_1985_are_usual():
    """UCI Machine Learning Repository, Automobile data set (1985), CC BY 4.0."""
    with CARS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) > 30
    of = {
        "bore_in": ("bore", INCH), "stroke_in": ("stroke", INCH),
        "cylinders": ("cylinder_count", 1),
        "engine_size_cu_in": ("displacement", INCH**3), "peak_rpm": ("engine_speed", math.pi / 30),
        "compression_ratio": ("compression_ratio", 1), "horsepower": ("power", 745.7),
    }  # fmt: skip
    ratio = next(o for o in find("bore").orders if o.relation == "/")
    for row in rows:
        for column, (name, factor) in of.items():
            assert not row[column] or find(name).is_usual(float(row[column]) * factor), row
        if row["bore_in"]:
            assert ratio.low <= float(row["bore_in"]) / float(row["stroke_in"]) <= ratio.high


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("bore", 4.030), ("bore", 0.5), ("gasket_thickness", 0.9), ("main_bearing_clearance", 0.06),
        ("top_ring_gap", 0.0), ("deck_clearance", 0.02), ("compression_ratio", 105.0),
    ],
)  # fmt: skip
def test_what_no_engine_has_is_refused(name, value):
    """Slips of a unit or a point: inches taken for meters, tenths for thousandths."""
    one = find(name)
    assert not one.is_possible(value)


def test_a_zero_is_a_reading_only_where_it_can_be_one():
    # common practice, no source
    assert find("deck_clearance").is_possible(0.0)
    assert find("bore_taper").is_possible(0.0)
    assert not find("bore").is_possible(0.0)
    assert not find("quench").is_possible(0.0)
    assert not find("piston_clearance").is_possible(0.0)


def test_signs_are_those_of_the_trade():
    # common practice, no source
    assert find("deck_clearance").sign.startswith("plus = piston below the deck")
    assert find("crown_volume").sign.startswith("plus = dish")
    assert find("piston_protrusion").sign.startswith("plus = piston above")
