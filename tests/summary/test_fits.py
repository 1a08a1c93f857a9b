"""Which row of a summary tells a key fit, and what an owner is told."""

from dataclasses import replace

import pytest
from sample import call, cell, inch_v8, job, metric_four

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Fastener, Office
from workbook_tools.summary.customer import BREAK_IN, customer_copy
from workbook_tools.summary.fits import key_fits, unmeasured_fits
from workbook_tools.summary.summary import summarize


def book(*records, **more):
    return Book("build.xlsx", "0" * 64, job(number="1"), tuple(records), **more)


def fits(read):
    return {f.fit.name: f.row for f in key_fits(summarize(read, check(read)))}


def test_the_sample_build_is_known_by_its_fits():
    found = fits(inch_v8())
    assert found["Finished bore"].extent.least_at == "Cyl 3"
    assert len(found["Quench, cold"].numbers) == 8
    assert len(found["Main bearing clearance"].numbers) == 5
    assert found["Displacement"].unit == "cu in"
    assert "Rod bearing clearance" not in found


def test_a_wanted_ring_gap_is_no_ring_gap():
    wanted = call("C2", "Top ring gap wanted", "RING_GAP", 4.03, 0.0045)
    assert "Top ring gap" not in fits(book(wanted))
    assert "Top ring gap" not in fits(inch_v8())  # its gap is computed from a factor
    fitted = call(
        "D3", "Verdict", "VERDICT", cell("C3", 0.019, "Top ring gap, fitted"), 0.018, 0.02
    )
    assert fits(book(wanted, fitted))["Top ring gap"].label == "Top ring gap, fitted"


def test_every_cylinder_comes_before_a_mean_that_hides_the_worst():
    ratios = [
        call(
            f"C{i}",
            "Ratio",
            "COMPRESSION_RATIO",
            727.0,
            63.0 + i,
            8.9,
            1.7,
            5.0,
            position=f"Cyl {i}",
        )
        for i in range(1, 5)
    ]
    mean = call("C9", "Compression ratio", "COMPRESSION_RATIO", 727.0, 65.0, 8.9, 1.7, 5.0)
    judged = call("D9", "Verdict", "VERDICT", (mean.place, mean.value, mean.label), 9.0, 11.0)
    assert len(fits(book(mean, judged, *ratios))["Compression ratio"].numbers) == 4


@pytest.mark.parametrize(
    ("label", "position", "fit"),
    [
        ("Main bearing clearance", "", "Main bearing clearance"),
        ("Clearance", "Main 2", "Main bearing clearance"),
        ("Clearance", "Rod 2", "Rod bearing clearance"),
        ("Big end clearance", "", "Rod bearing clearance"),
    ],
)
def test_mains_and_rods_are_told_by_label_or_position(label, position, fit):
    record = call("E2", label, "BEARING_CLEARANCE", 2.6409, 0.095, 2.4491, position=position)
    assert list(fits(book(record))) == [fit]


def test_a_housing_is_no_clearance_though_it_says_main():
    record = call("E2", "Spread", "READING_SPREAD", cell("B2:C2", ((2.6, 2.61),), "Main housing"))
    assert fits(book(record)) == {}


def test_a_fit_without_a_value_is_said_to_have_none():
    record = call("E2", "Quench", "QUENCH", cell("B2", None, "Deck clearance"), 0.04)
    read = book(record)
    assert "Quench, cold" in unmeasured_fits(summarize(read, check(read)))
    assert "Quench, cold" not in fits(read)


def fastened(name, *said):
    return Office(fasteners=(Fastener(Place("Assembly", "B8"), name, said),))


STEPS = (("Thread", "M8"), ("Lubricant", "dry"), ("Step 1 (N.m)", "8"), ("Then turn (deg)", "0"))


def told(read):
    return customer_copy(summarize(read, check(read)))


@pytest.mark.parametrize("name", ["Intake manifold", "Oil pan", "Spark plugs", "Valve covers"])
def test_what_an_owner_can_reach_may_be_retightened(name):
    (torque,) = told(book(office=fastened(name, *STEPS))).torques
    assert (torque.name, torque.thread, torque.lubricant, torque.steps) == (
        name, "M8", "dry", "8 N.m",
    )  # fmt: skip


@pytest.mark.parametrize(
    "name", ["Main caps", "Rod caps", "Flywheel", "Damper", "Cam sprocket", "Oil pump", "Pickup"]
)
def test_rotating_and_inner_fasteners_are_not_for_an_owner(name):
    copy = told(book(office=fastened(name, *STEPS)))
    assert copy.torques == ()
    assert copy.untouched == (name,)
    assert "Ask the shop" in copy.no_torques


def test_a_head_is_left_to_the_maker_of_its_gasket():
    angle = ("Then turn (deg)", "90")
    (torque,) = told(book(office=fastened("Cylinder head", *STEPS[:3], angle))).torques
    assert "gasket maker" in torque.name
    assert "never again without its maker's word" in torque.name
    assert torque.steps == "8 N.m, then turn 90 deg"
    (plain,) = told(book(office=fastened("Cylinder head", *STEPS[:3]))).torques
    assert "by angle" not in plain.name


def test_a_fit_outside_its_band_is_not_kept_from_the_customer():
    assert "Quench, cold" in told(inch_v8()).outside
    assert told(metric_four()).outside == ()


def test_cautions_are_those_of_what_the_copy_tells():
    read = inch_v8()
    copy = told(read)
    assert [c.functions for c in copy.cautions if "Bearing clearance" in c.functions]
    everything = {name for c in summarize(read, ()).cautions for name in c.functions}
    assert {n for c in copy.cautions for n in c.functions} < everything


def test_running_in_leaves_the_last_word_to_the_makers():
    assert "maker is right" in BREAK_IN[0][1]
    for _, text in BREAK_IN[2:]:
        assert "maker" in text


def test_facts_are_only_what_the_book_says():
    assert told(book()).said == ()
    said = replace(Office(), oil=replace(Office().oil, text="10W-30"))
    assert told(book(office=said)).said == (("Oil", "10W-30"),)
