"""A rod bearing judged by what is usual for mains in an aluminum block."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding, named

_FOR_MAINS = "aluminum block"


def check_mains_rule(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each call that asks the band of a rod journal for an aluminum block."""
    records = [r for r in evidence.book.records if r.name == "ENG.BEARING_BAND"]
    if not records:
        return
    rods = {size.place for size in evidence.sizes if size.measurand == "rod_journal"}
    for record in records:
        given = {a.name: a for a in record.arguments}
        use, journal = given.get("use"), given.get("journal")
        if use is None or journal is None:
            continue
        if str(use.value).strip().lower() == _FOR_MAINS and journal.place in rods:
            yield Finding(
                "mains-rule-for-rods",
                record.place,
                f"{named(record.label, record.place)} is the band of mains in an aluminum block, "
                "which opens as it warms, and it is taken for a rod journal. A rod's bore hardly "
                "opens: with a clearance so small its bearing can seize.",
                "Give the rods a use of their own, or the bearing maker's limits.",
                tuple(a.place for a in (use, journal) if a.place),
                group=(record.place.sheet, str(journal.place), _FOR_MAINS),
            )
