"""Labels in the everyday words of shops, invented: their measurand and stage.

common practice, no source
"""

import csv
from pathlib import Path

import pytest

from workbook_tools.labels.cell_kinds import kind_of_text
from workbook_tools.labels.vocabulary import meaning_of

LABELS = Path(__file__).parent / "data" / "everyday_labels.csv"


def labels():
    with LABELS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("one", labels(), ids=lambda one: f"{one['label']}-{one['headings']}")
def test_an_everyday_label_means_one_measurand_and_every_word_is_understood(one):
    # common practice, no source
    headings = tuple(h for h in one["headings"].split("; ") if h)
    meaning = meaning_of(one["label"], headings)
    assert meaning.measurand == one["measurand"]
    assert meaning.candidates[0].cost <= 2
    assert meaning.unknown == ()
    assert meaning.taken_for == ()
    assert meaning.stage == one["stage"] or not one["stage"]


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ("Bolzen in Buchse", "small_end_clearance"), ("Spinotto in biella", "small_end_clearance"),
        ("Ventil in Führung Einlass", "intake_stem_clearance"),
    ],
)  # fmt: skip
def test_a_part_in_another_is_their_clearance(label, measurand):
    assert meaning_of(label).measurand == measurand


@pytest.mark.parametrize(("label", "stage"), [("Zylinder gehont", "final"), ("Zyl. oben quer", "")])
def test_a_cylinder_that_was_worked_or_has_a_place_is_its_bore(label, stage):
    meaning = meaning_of(label)
    assert (meaning.measurand, meaning.stage) == ("bore", stage)


@pytest.mark.parametrize(
    ("label", "measurand"), [("vor OT", ""), ("Einlass öffnet vor OT", "intake_opening")]
)
def test_before_the_dead_center_is_no_stage(label, measurand):
    meaning = meaning_of(label)
    assert (meaning.measurand, meaning.stage) == (measurand, "")


@pytest.mark.parametrize(
    ("label", "headings", "measurand"),
    [
        ('1" down', ("Bores",), "bore"), ('1" down', (), ""),
        ("proud", ("Cyl", "Cylinder liners"), "liner_protrusion"),
        ("clearance", ("Tappets",), "intake_lash"), ("diameter", ("Tappets",), "lifter_diameter"),
        ("side clearance", ("Top ring",), "top_ring_side_clearance"),
        ("in rod", ("Gudgeon pins",), "small_end_clearance"),
        ("honed to", ("Cylinders",), "bore"), ("pin", ("Grams",), "pin_mass"),
    ],
)  # fmt: skip
def test_a_heading_of_the_bench_speaks_for_what_stands_below_it(label, headings, measurand):
    # common practice, no source
    first = next(iter(meaning_of(label, headings).candidates), None)
    assert (first.measurand if first else "") == measurand


@pytest.mark.parametrize(
    ("text", "kind"),
    [('1" down', "text"), ('1/2" up', "text"), ("20 mm from top", "text"),
     ('.005" down', "measured"), ("0.4 mm down", "measured")],
)  # fmt: skip
def test_a_place_on_a_bore_is_no_size(text, kind):
    # common practice, no source: no piston stands an inch below a deck
    assert kind_of_text(text) == kind


@pytest.mark.parametrize(
    ("label", "measurand", "stage"),
    [
        ("Mains .010 under", "main_journal", "machined"),
        ("Rods .020 under", "rod_journal", "machined"),
        ("Bore .030 over", "bore", "machined"),
        ("Piston .010 over deck", "piston_protrusion", ""),
    ],
)
def test_a_grade_under_or_over_says_the_stage_and_no_number_of_a_part(label, measurand, stage):
    # common practice, no source
    meaning = meaning_of(label)
    assert (meaning.number, meaning.stage) == (0, stage)
    assert meaning.candidates[0].measurand == measurand


@pytest.mark.parametrize(
    ("label", "meanings"),
    [
        ("To piston", {"intake_valve_to_piston", "exhaust_valve_to_piston"}),
        ("Valve sags", {"intake_valve_recession", "exhaust_valve_recession"}),
        ("Squeeze", {"quench", "cranking_pressure"}),
        ("Slug", {"piston_diameter", "piston_mass", "slug_mass"}),
        ("Eye", {"rod_housing_bore", "small_end_bore"}),
    ],
)
def test_a_word_leaves_open_what_its_sizes_or_its_side_decide(
    label: str, meanings: set[str]
) -> None:
    # common practice, no source
    assert meanings <= {one.measurand for one in meaning_of(label).candidates}


def test_a_step_under_the_standard_size_is_no_number_of_a_journal() -> None:
    # common practice, no source
    meaning = meaning_of("Main 3 ground -20")
    assert (meaning.measurand, meaning.number, meaning.stage) == ("main_journal", 3, "machined")
