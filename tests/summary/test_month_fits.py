"""Which row of a summary tells a fit of the month, and its numbers in one unit."""

from dataclasses import replace

import pytest
from sample import call, cell, inch_v8, job, metric_four

from workbook_tools.findings import check
from workbook_tools.jobs.records import Book
from workbook_tools.summary.month_facts import month_facts
from workbook_tools.summary.month_fits import fit_measurands, month_fits
from workbook_tools.summary.runs import Peak, PowerRun
from workbook_tools.summary.summary import summarize

CHOSEN = ("bore", "stroke", "displacement", "compression_ratio", "intake_lash", "cam_advance")


def book(*records, **more):
    return Book("build.xlsx", "0" * 64, job(number="1"), tuple(records), **more)


def fits(read, units="inch"):
    found, _ = month_fits(summarize(read, check(read)), units)
    told = {}
    for row in found:
        told.setdefault(row.fit, []).append(row)
    return told


def test_sizes_that_are_chosen_are_no_fits():
    names = {measurand.id for measurand in fit_measurands()}
    assert "piston_clearance" in names
    assert not names & set(CHOSEN)
    assert not any(m.kind.name in ("count", "displacement", "ratio") for m in fit_measurands())


def test_the_sample_build_is_known_by_its_fits():
    found = fits(inch_v8())
    assert len(found["Quench"]) == 8
    assert len(found["Main bearing clearance"]) == 5
    assert [row.outside for row in found["Quench"]].count(True) >= 1
    assert "Rod bearing clearance" not in found
    assert "Displacement" not in found


def test_fits_are_told_in_the_units_asked_for():
    in_inches, in_mm = fits(metric_four()), fits(metric_four(), "metric")
    first = next(iter(in_mm))
    assert (in_inches[first][0].unit, in_mm[first][0].unit) == ("in", "mm")
    # A millimeter by definition (BIPM, SI brochure; an inch is 25.4 mm exactly, from memory).
    for inch, mm in zip(in_inches[first], in_mm[first], strict=True):
        assert inch.value * 25.4 == pytest.approx(mm.value, rel=1e-9)


def test_a_wanted_ring_gap_is_no_ring_gap():
    wanted = call("C2", "Top ring gap wanted", "RING_GAP", 4.03, 0.0045)
    assert "Top ring gap" not in fits(book(wanted))


def test_a_reading_that_only_its_label_names_is_a_fit():
    play = cell("C3", 0.0062, "Crank end play", unit="in")
    judged = call("D3", "Verdict", "VERDICT", play, 0.002, 0.006)
    (row,) = fits(book(judged))["Crank end play"]
    assert (row.value, row.outside) == (0.0062, True)


def test_every_cylinder_comes_before_a_mean_that_hides_the_worst():
    each = [
        call(f"C{i}", "Quench", "QUENCH", 0.001 * i, 0.038, position=f"Cyl {i}",
             measurand="quench")
        for i in range(1, 5)
    ]  # fmt: skip
    mean = call("C9", "Quench", "QUENCH", 0.0025, 0.038, measurand="quench")
    judged = call("D9", "Verdict", "VERDICT", (mean.place, mean.value, mean.label), 0.03, 0.05)
    assert len(fits(book(mean, judged, *each))["Quench"]) == 4


def test_power_is_told_in_the_units_of_the_month():
    summary = replace(
        summarize(inch_v8(), ()),
        power=PowerRun(True, "iso 1585", Peak(100.0, "kW", 6000.0, "100"), None, ()),
    )
    (peak,) = month_facts(summary, "inch").peaks
    # 1 hp is 745.699872 W (550 ft.lbf/s; NIST SP 811, from memory).
    assert peak.value == pytest.approx(100_000 / 745.699872, rel=1e-6)
    assert (peak.unit, peak.speed, peak.corrected) == ("hp", 6000.0, "ISO 1585")
    plain = replace(summary, power=PowerRun(False, "", None, Peak(200.0, "Nm", 4000.0, "200"), ()))
    (torque,) = month_facts(plain, "inch").peaks
    assert torque.corrected == "as measured"
