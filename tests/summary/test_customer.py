"""What an owner is told of the engine that was built."""

from dataclasses import replace

import pytest
from sample import inch_v8, job, metric_four

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Fastener, Office
from workbook_tools.jobs.records import Book
from workbook_tools.summary.customer import BREAK_IN, customer_copy
from workbook_tools.summary.summary import summarize


def book(*records, **more):
    return Book("build.xlsx", "0" * 64, job(number="1"), tuple(records), **more)


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
