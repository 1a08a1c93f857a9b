"""Lists of a build besides its measurements, as tables: parts, gauges, open items."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.jobs.paper_records import Acceptance, FormRow, OpenItem
from workbook_tools.summary.fasteners import FastenerLine
from workbook_tools.summary.found_final import FoundFinal
from workbook_tools.summary.revision import Revision

_PARTS = {
    "part": "Part", "number": "Part number", "maker": "Maker", "quantity": "Qty",
    "whose": "Whose", "state": "State", "remarks": "Remarks", "seen_by": "Seen",
}  # fmt: skip
_GAUGES = {
    "gauge": "Gauge", "number": "Its number", "against": "Checked against", "off_by": "Off by",
    "checked_on": "Checked on", "by": "By",
}  # fmt: skip

_BY = ("Done", "Seen", "Marked")


@dataclass(frozen=True)
class ListTable:
    """A list: its heads, and its rows of texts; columns that say nothing are left out."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def fasteners_list(lines: Iterable[FastenerLine]) -> ListTable:
    """The fasteners as tightened; who did, saw and marked each is shown where nobody did too."""
    told = [
        (f.name, f.thread, f.count, f.lubricant, f.tightened, f.done, f.seen, f.marked, f.on)
        for f in lines
    ]
    heads = ("Fasteners", "Thread", "Count", "Lubricant", "Tightened", *_BY, "On")
    return _table(heads, told, always=_BY)


def parts_list(forms: Iterable[FormRow]) -> ListTable:
    """The parts as received."""
    return _of_forms((row for row in forms if row.form == "part"), _PARTS)


def gauges_list(forms: Iterable[FormRow]) -> ListTable:
    """The gauges used."""
    return _of_forms((row for row in forms if row.form == "gauge"), _GAUGES)


def open_items_list(items: Iterable[OpenItem]) -> ListTable:
    """What is still to be done before the engine leaves."""
    return _table(("Open", "Who", "Until"), [(item.what, item.who, item.until) for item in items])


def accepted_list(accepted: Iterable[Acceptance]) -> ListTable:
    """What lies outside its band and was accepted, by whom and why."""
    rows = [(one.what, one.value, one.why, one.who, one.when) for one in accepted]
    return _table(("Accepted", "Value", "Why it may stay", "Accepted by", "On"), rows)


def found_list(rows: Iterable[FoundFinal]) -> ListTable:
    """What was found against what was finished."""
    told = [(row.name, row.found, row.final, row.removed, row.at, row.unit) for row in rows]
    return _table(("Size", "Found", "Final", "Most changed by", "At", "Unit"), told)


def changes_list(revision: Revision | None) -> ListTable:
    """What changed since the copy before."""
    changes = revision.changes if revision else ()
    return _table(("Changed", "Was", "Is now", "Cell"), [(c[0], *c[2:], c[1]) for c in changes])


def _of_forms(rows: Iterable[FormRow], heads: Mapping[str, str]) -> ListTable:
    return _table(tuple(heads.values()), [tuple(map(row.text, heads)) for row in rows])


def _table(
    heads: tuple[str, ...], rows: Sequence[tuple[str, ...]], always: Sequence[str] = ()
) -> ListTable:
    """Without the columns that no row says anything in; the first stays, and those named."""
    named = {heads[0], *always}
    kept = [n for n, head in enumerate(heads) if head in named or any(row[n] for row in rows)]
    return ListTable(
        tuple(heads[n] for n in kept), tuple(tuple(row[n] for n in kept) for row in rows)
    )
