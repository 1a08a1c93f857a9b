"""A hot piston clearance far below what proven fits of the alloy come to.

Skirts are barrels sized cold, so a slightly negative hot figure is no seizure: what tells is the
figure that the tightest proven fit of that alloy would give at the same temperatures.
"""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.catalog.tables import current
from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MORE, Finding, named, shown
from workbook_tools.jobs.records import Record
from workbook_tools.quantities import LENGTH, from_si

# Of the tightest proven cold fit of an alloy, over all uses, less than this is doubted.
_FAR_BELOW = 0.6
# What a material's name says of the piston's row in the table of bands.
_ALLOYS = (
    ("2618", "forged 2618"), ("4032", "forged 4032"), ("390", "hypereutectic"),
    ("hyper", "hypereutectic"), ("356", "cast"), ("319", "cast"), ("cast", "cast"),
)  # fmt: skip


_COLD_SIZES = ("bore", "piston_diameter")


def check_hot_fits(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each hot piston clearance of a fit tighter than any proven of its alloy."""
    for record, hot in evidence.calls("HOT_PISTON_CLEARANCE"):
        given = {a.name: a for a in record.arguments}
        piston = given.get("piston_material")
        alloy = _alloy(str(piston.value)) if piston is not None else ""
        taken = evidence.taken_by_call.get(id(record), {})
        bore, skirt = (taken[name].si if name in taken else 0.0 for name in _COLD_SIZES)
        if alloy and bore and skirt:
            cold, least = bore - skirt, _least_factor(alloy) * bore
            if cold < _FAR_BELOW * least:
                yield _finding(record, hot, cold, least, alloy)


def _alloy(material: str) -> str:
    words = material.casefold()
    return next((alloy for part, alloy in _ALLOYS if part in words), "")


def _least_factor(alloy: str) -> float:
    """The tightest cold fit of an alloy, over all uses, for each unit of bore."""
    bands = current().by_table["piston clearance factor"]
    of_alloy = [b.low for b in bands if dict(b.conditions).get("piston") == alloy]
    return min(low for low in of_alloy if low is not None)


def _finding(record: Record, hot: float, cold: float, least: float, alloy: str) -> Finding:
    system = record.system
    unit = LENGTH.unit(system)
    proven = hot + from_si(least - cold, LENGTH, system)
    fit = shown(float(f"{from_si(least, LENGTH, system):.2g}"), unit)
    now = shown(float(f"{from_si(cold, LENGTH, system):.3g}"), unit)
    here = frozenset({record.place})
    return Finding(
        "tight-when-hot",
        record.place,
        f"{named(record.label, record.place)} comes to {shown(float(f'{hot:.2g}'), unit)}{MORE}. "
        f"The tightest fit that is proven for pistons {alloy}, {fit} cold, comes to "
        f"{shown(float(f'{proven:.2g}'), unit)} at these temperatures; this one is {now} cold "
        "(common practice).",
        "Measure bore and skirt again, and compare with the piston maker's clearance.",
        tuple(a.place for a in record.arguments if a.place and a.name in _COLD_SIZES),
        group=("hot fits", record.place.sheet, record.label.text if record.label else ""),
        explains=here,
    )
