"""The reference says what the registry holds: units, signs, limits, defaults, texts."""

import json
import re
from pathlib import Path

import pytest

from workbook_tools.catalog import entries, find
from workbook_tools.catalog.reference import PAGE, as_data, as_markdown, by_section, describe
from workbook_tools.catalog.tables import read_tables
from workbook_tools.hosts.portable import portability
from workbook_tools.hosts.reference_page import reference_page

ROOT = Path(__file__).parents[2]


def test_describe_says_units_signs_and_sources():
    text = describe(find("QUENCH"))
    assert text.splitlines()[0] == "ENG.QUENCH(deck_clearance, gasket_thickness, [units])"
    assert "length; in or mm; either sign" in text
    assert "length; in or mm; above zero" in text
    assert "quench = deck_clearance + gasket_thickness" in text
    assert "common practice, no source (sum of lengths)" in text
    assert "\nCaution\n" in text


def test_describe_covers_every_function_within_the_width():
    for function in entries():
        text = describe(function)
        assert function.summary.split()[0] in text
        for parameter in function.parameters:
            assert f"\n  {parameter.name}\n" in text
        too_wide = [
            line
            for line in text.splitlines()[1:]
            if len(line) > 88 and line.strip() not in function.equation
        ]
        assert not too_wide, function.name


def test_data_survives_json_and_covers_the_catalog():
    data = json.loads(json.dumps(as_data()))
    assert sorted(item["name"] for item in data) == sorted(f.full_name for f in entries())
    quench = next(item for item in data if item["name"] == "ENG.QUENCH")
    assert quench["section"] == "Deck and quench"
    assert quench["parameters"][1]["units"] == {"inch": "in", "metric": "mm"}
    assert quench["parameters"][1]["limits"] == {"inch": "above 0", "metric": "above 0"}
    assert "portable" not in quench


def test_each_section_stands_together_in_the_order_of_the_work():
    sections = [item["section"] for item in as_data()]
    assert list(dict.fromkeys(sections)) == list(by_section())
    assert sections == sorted(sections, key=list(by_section()).index)
    assert next(iter(by_section())) == "Displacement"


def test_limits_are_told_in_both_unit_systems():
    text = " ".join(describe(find("AIR_DENSITY")).split())
    assert (
        "barometric pressure; inHg or kPa; from 14.765 to 32.4829 inHg (from 50 to 110 kPa)" in text
    )
    text = " ".join(describe(find("INLET_MACH_INDEX")).split())
    assert "if left out 77 deg F (25 deg C)" in text


@pytest.mark.parametrize(
    "parameter",
    [
        pytest.param(parameter, id=f"{item['name']} {parameter['name']}")
        for item in as_data()
        for parameter in item["parameters"]
        if parameter["optional"]
    ],
)
def test_the_help_says_what_stands_in_for_an_argument_left_out(parameter):
    """In words that somebody wrote, so that a default that was changed by mistake shows."""
    words = parameter["help"].lower()
    assert "left out" in words
    if any(parameter["default"].values()):
        numbers = [shown.split(" ")[0] for shown in parameter["default"].values()]
        whole = list(parameter["default"].values())
        assert any(
            re.search(rf"(?<![\w.]){re.escape(shown)}(?![\w])(?!\.\d)", words)
            for shown in (whole if parameter["choices"] else numbers)
        ), parameter


def test_data_says_why_a_function_is_not_portable():
    data = as_data({"QUENCH": "", "DECK_CLEARANCE": "it iterates"})
    by_name = {item["name"]: item for item in data}
    assert by_name["ENG.QUENCH"]["portable"] is True
    assert by_name["ENG.QUENCH"]["portable_reason"] == ""
    assert by_name["ENG.DECK_CLEARANCE"]["portable"] is False
    assert by_name["ENG.DECK_CLEARANCE"]["portable_reason"] == "it iterates"


def test_the_page_is_in_step_with_the_catalog():
    assert PAGE.read_text(encoding="utf-8") == reference_page(), (
        "write it anew: python -m workbook_tools.hosts.reference_page"
    )


def test_the_page_says_what_needs_an_add_in_and_why():
    page = reference_page()
    for name, reason in portability().items():
        entry = page.split(f"\n### ENG.{name}\n")[1].split("\n### ")[0]
        assert ("**Not without an add-in.**" in entry) == bool(reason), name
    # Nine of ten functions have a form without an add-in.
    assert page.count("**Not without an add-in.**") <= len(portability()) / 10


def test_the_page_links_to_every_function_it_holds():
    page = as_markdown()
    for function in entries():
        assert page.count(f"\n### {function.full_name}\n") == 1
        assert f"](#{function.full_name.lower().replace('.', '')})" in page
        assert function.source.split()[0] in page


def test_every_material_is_in_the_reference_and_in_the_manual():
    chapter = ROOT / "workbook_tools" / "manual" / "bands.md"
    page, manual = PAGE.read_text("utf-8"), chapter.read_text("utf-8").lower()
    for material in read_tables().materials.values():
        assert f"| {material.name} | {material.expansion * 1e6:.3g} |" in page
        assert all(word in manual for word in material.name.split()), material.name
