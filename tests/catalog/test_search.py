"""Functions are found by the trade's own words for what they are about: common practice."""

import pytest

from workbook_tools.catalog import find
from workbook_tools.catalog.search import functions_about, related


def names(functions):
    return [function.name for function in functions]


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("squish", "QUENCH"),
        ("Quetschkante", "QUENCH"),
        ("deck height", "DECK_CLEARANCE"),
        ("speed of sound", "SPEED_OF_SOUND"),
        ("horsepower", "POWER"),
        ("piston to wall", "PISTON_CLEARANCE"),
        ("bottle of premix", None),
    ],
)
def test_what_gives_the_number_asked_for_comes_first(asked, wanted):
    assert names(functions_about(asked))[:1] == ([wanted] if wanted else [])


@pytest.mark.parametrize(
    ("asked", "among"),
    [
        ("octane", "DYNAMIC_RATIO"),
        ("dyno", "POWER_CORRECTION"),
        ("oil pump", "RELIEF_PRESSURE"),
        ("spring pressure", "SPRING_LOAD"),
        ("injectors", "INJECTOR_SIZE"),
        ("valve float", "FLOAT_SPEED"),
        ("runner length", "HELMHOLTZ_FREQUENCY"),
        ("pulley", "BLOWER_DRIVE_RATIO"),
        ("stripped threads", "THREAD_ENGAGEMENT"),
        ("oil grade", "GRADE_VISCOSITY"),
        ("flexplate", "EXTERNAL_BALANCE_MASS"),
        ("vibration", "SHAKING_COUPLE"),
        ("gaskets", "NEAREST_GASKET"),
    ],
)
def test_words_that_name_no_quantity_find_what_they_are_about(asked, among):
    assert among in names(functions_about(asked))


@pytest.mark.parametrize("asked", ["", "  ", "xyzzy"])
def test_nothing_is_found_for_nothing(asked):
    assert functions_about(asked) == ()


def test_related_functions_give_an_argument_or_take_the_result():
    quench = find("QUENCH")
    near = names(related(quench))
    assert "DECK_CLEARANCE" in near
    assert "GASKET_FOR_QUENCH" in near
    assert "QUENCH" not in near
