"""Builds of filled books as a batch hands them to a month: many, full, and from a seed."""

from __future__ import annotations

import datetime
import random

from workbook_tools.batch.build import Build
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS
from workbook_tools.summary.month_facts import MonthFacts, PeakRow
from workbook_tools.summary.month_fits import FitRow, fit_measurands
from workbook_tools.summary.standing import Standing

# (what the book calls it, displacement in m3, cylinders) of generic engines.
ENGINES = (
    ("inch V8, iron block", 5.91e-3, 8),
    ("inline six, 3.0 L", 3.0e-3, 6),
    ("metric inline four", 1.8e-3, 4),
    ("V8, iron, stroked", 6.28e-3, 8),
)
CUSTOMERS = ("Corwin Ashgrove", "Tilda Marsh", "Orrin Vale and Daughters", "Petra Holm")
SHEETS = ("Block", "Crank", "Rods", "Pistons", "Bearings", "Rings", "Assembly", "Test")


def filled_build(
    n: int,
    finished: datetime.date | None,
    *,
    engine: int = 0,
    drift: float = 0.0,
    findings: int = 10,
) -> Build:
    """One full build; drift: of every fit, in steps of its last digit."""
    rng = random.Random(n)
    name, displacement, cylinders = ENGINES[engine]
    number = f"26-{n:04}"
    started = (finished or datetime.date(2026, 10, 1)) - datetime.timedelta(days=20 + n % 60)
    found = tuple(_finding(n, at) for at in range(findings))
    job = Job(
        JobField(number),
        JobField(CUSTOMERS[n % len(CUSTOMERS)]),
        JobField(name),
        JobField("Ines Tarrow"),
        JobField(started.isoformat()),
        JobField(finished.isoformat() if finished else ""),
    )
    return Build(
        file_name=f"{number}.xlsx",
        sha256=number.encode().hex().rjust(64, "0"),
        part="",
        job=job,
        results=600,
        standing=Standing("deviations", deviations=findings),
        findings=found,
        blocks=(),
        files={".html": b"<!DOCTYPE html><title>a build</title>"},
        readings_csv="",
        findings_csv="",
        month=MonthFacts(
            promised=(started + datetime.timedelta(days=40)).isoformat(),
            waiting="" if finished else "machine shop",
            hours="41.5" if n % 2 else "",
            open_items=(("Valve springs short", "RL", "2026-12-05", "Release", "B33"),),
            part_lists=1,
            parts=(("Ring set", "short: one set", "Parts", "M12"),),
            signature_lines=300,
            unsigned=tuple(
                ("Seen by", f"Main caps {row}", "", sheet, f"L{row}")
                for sheet in SHEETS[:3]
                for row in range(8, 12)
            ),
            displacement=displacement,
            cylinders=cylinders,
            fits=tuple(_fits(rng, cylinders, drift)),
            peaks=(
                PeakRow("Power", 420.0 + n % 30, "hp", 6100.0, "SAE J1349"),
                PeakRow("Torque", 400.0 + n % 30, "lbf.ft", 4500.0, "SAE J1349"),
            ),
            findings=tuple(_row(number, finding) for finding in found),
            readings=tuple(_reading(number, at) for at in range(20)),
        ),
    )


def _finding(n, at):
    sheet = SHEETS[at % len(SHEETS)]
    code = ("out-of-band", "missing-reading", "near-limit", "stale")[at % 4]
    return Finding(
        code if code != "stale" else "never-calculated",
        Place(sheet, f"D{8 + at}"),
        f"Main bearing clearance, Main {at} is 0.00{31 + n % 40} in, above its band of 0.0018 to "
        "0.003 in, and the other mains are all within it.",
        "Measure it again; if it stands, correct the part or have the deviation accepted.",
    )


def _row(number, finding):
    told = {
        "file": f"{number}.xlsx", "job": number, "code": finding.code, "kind": finding.kind,
        "sheet": finding.place.sheet, "cell": finding.place.address, "cells": "",
        "message": finding.message, "advice": finding.advice,
    }  # fmt: skip
    return tuple(told.get(name, "") for name in FINDING_COLUMNS)


def _reading(number, at):
    told = {"file": f"{number}.xlsx", "job": number, "cell": f"B{at}", "value": 4.0, "unit": "in"}
    return tuple(told.get(name, "") for name in READING_COLUMNS)


def _fits(rng, cylinders, drift):
    for measurand in fit_measurands():
        digits = measurand.shown_digits("inch")
        step = 10.0**-digits
        usual = measurand.usual_in("inch")
        middle = (usual[0] + usual[1]) / 2
        for position in range(1, cylinders + 1):
            value = round(middle + step * (rng.gauss(0, 2) + drift), digits)
            unit = measurand.bare_unit("inch")
            outside = rng.random() < 0.01
            yield FitRow(measurand.name, f"Cyl {position}", value, unit, outside, digits)


def november():
    """A full month: fourteen builds finished, nine jobs open, and a book without dates."""
    day = datetime.date(2026, 11, 1)
    done = [
        filled_build(n, day + datetime.timedelta(days=2 * n), engine=(0, 0, 1, 2)[n % 4])
        for n in range(14)
    ]
    still = [filled_build(n, None, engine=n % 4) for n in range(14, 23)]
    return [*done, *still]
