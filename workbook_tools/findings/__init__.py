"""What a summary has to warn about, one module a kind of check."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.findings.accepted import with_acceptances
from workbook_tools.findings.across import check_across
from workbook_tools.findings.agreement import check_agreement
from workbook_tools.findings.apart import check_apart
from workbook_tools.findings.bands import check_bands
from workbook_tools.findings.beside import check_beside
from workbook_tools.findings.code import Code, FindingKind
from workbook_tools.findings.codes import CODES
from workbook_tools.findings.copied import check_batch
from workbook_tools.findings.copied_parts import check_copied_banks, check_copied_parts
from workbook_tools.findings.cylinder_count import check_cylinder_count
from workbook_tools.findings.cylinders import check_cylinders
from workbook_tools.findings.decks import check_decks
from workbook_tools.findings.dependents import with_dependents
from workbook_tools.findings.durations import check_durations
from workbook_tools.findings.evidence import evidence_of
from workbook_tools.findings.exchanged import check_exchanged
from workbook_tools.findings.finding import Finding, settle
from workbook_tools.findings.formula_lines import check_formula_lines
from workbook_tools.findings.gasket import check_gasket
from workbook_tools.findings.heat import check_heat
from workbook_tools.findings.hot_fits import check_hot_fits
from workbook_tools.findings.job_dates import check_job_dates
from workbook_tools.findings.lubricants import check_lubricants
from workbook_tools.findings.mains_rule import check_mains_rule
from workbook_tools.findings.mates import check_mates
from workbook_tools.findings.missing import check_missing, check_nothing_read
from workbook_tools.findings.own_limits import check_own_limits
from workbook_tools.findings.past_found import check_past_found
from workbook_tools.findings.plausible import check_plausible
from workbook_tools.findings.practice import check_practice
from workbook_tools.findings.proof import check_advertised, check_proof
from workbook_tools.findings.release import check_release
from workbook_tools.findings.results import check_results
from workbook_tools.findings.ring_gaps import check_ring_gaps
from workbook_tools.findings.rounding import check_rounding
from workbook_tools.findings.sections import check_sections
from workbook_tools.findings.shares import check_shares
from workbook_tools.findings.siblings import check_siblings
from workbook_tools.findings.signs import check_signs
from workbook_tools.findings.stale import check_stale
from workbook_tools.findings.taken_for import check_taken_for
from workbook_tools.findings.temperature_rises import check_temperature_rises
from workbook_tools.findings.torque_steps import check_torque_steps
from workbook_tools.findings.totals import check_totals
from workbook_tools.findings.touching import check_touching
from workbook_tools.findings.typed_over import check_typed_over
from workbook_tools.findings.units_mixed import check_units_mixed
from workbook_tools.findings.unreadable import check_unreadable
from workbook_tools.findings.valve_events import check_valve_events
from workbook_tools.jobs.records import Book
from workbook_tools.jobs.uncertainty import uncertainties
from workbook_tools.settings.accepted import Accepted
from workbook_tools.settings.gauges import Gauge
from workbook_tools.settings.shop import Required

# Of two that one fault brings up, the one that explains it comes before the one that it explains.
# Those that go by what the shop says come before them.
_CHECKS = (
    check_missing,
    check_nothing_read,
    check_cylinder_count,
    check_cylinders,
    check_copied_parts,
    check_copied_banks,
    check_formula_lines,
    check_totals,
    check_release,
    check_job_dates,
    check_units_mixed,
    check_exchanged,
    check_siblings,
    check_beside,
    check_proof,
    check_temperature_rises,
    check_plausible,
    check_signs,
    check_touching,
    check_mates,
    check_shares,
    check_hot_fits,
    check_durations,
    check_valve_events,
    check_practice,
    check_past_found,
    check_apart,
    check_mains_rule,
    check_decks,
    check_gasket,
    check_ring_gaps,
    check_across,
    check_heat,
    check_taken_for,
    check_lubricants,
    check_torque_steps,
    check_rounding,
    check_advertised,
    check_agreement,
    check_results,
    check_unreadable,
    check_stale,
    check_typed_over,
)


def check(
    book: Book,
    required: Required = (),
    accepted: Sequence[Accepted] = (),
    gauges: Sequence[Gauge] = (),
) -> tuple[Finding, ...]:
    """Every finding on a book, the ones about the engine before those about the file.

    required: the shop's own lists of what the record of a finished job has to hold, by scope;
    accepted: findings that a file beside the books accepts, besides those that the book does;
    gauges: the shop's, by which it is told what a verdict cannot tell.
    """
    evidence, uncertain = evidence_of(book), uncertainties(book, gauges)
    found = settle(
        (
            *check_bands(evidence, uncertain),
            *check_own_limits(evidence, uncertain),
            *check_sections(evidence, required),
            *(finding for one in _CHECKS for finding in one(evidence)),
        )
    )
    return tuple(with_acceptances(book, with_dependents(book, found), accepted))


__all__ = ["CODES", "Code", "Finding", "FindingKind", "check", "check_batch"]
