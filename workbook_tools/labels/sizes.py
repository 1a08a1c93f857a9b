"""What the sizes below labels settle: which of several meanings, and the units of a book."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.candidate import NUMBERED_APART, field_of
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import FAR_FROM_USUAL
from workbook_tools.labels.conventions import Stated, system_of_sizes
from workbook_tools.labels.label_search import Scan
from workbook_tools.labels.layout import Form
from workbook_tools.labels.lines import Spot
from workbook_tools.labels.vocabulary import Match, likeliest
from workbook_tools.measurands import Measurand
from workbook_tools.quantities import LENGTH, System

_UNITS_OF: dict[System, str] = {"inch": "inches", "metric": "millimeters"}


def settled(spots: list[Spot], sheet: Sheet, form: Form, stated: Stated) -> list[Spot]:
    """The spots of a sheet; where a label can mean several things, the one its sizes leave."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, spot in enumerate(spots):
        if len(spot.match.options) > 1:
            groups[spot.origin].append(index)
    settled = list(spots)
    for members in groups.values():
        match = _by_size([spots[i] for i in members], sheet, form, stated)
        for index in members:
            settled[index] = replace(spots[index], match=match)
    return settled


def _by_size(spots: list[Spot], sheet: Sheet, form: Form, stated: Stated) -> Match:
    """The meaning of a label that the sizes below it leave, the likeliest where several do."""
    match = spots[0].match
    numbered = {s.head.of for s in spots} & set(NUMBERED_APART)
    fitting = []
    for term, cost in match.options:
        if numbered and term.of in NUMBERED_APART and term.of not in numbered:
            continue
        usual = [_is_usual(term, spot, sheet, form, stated) for spot in spots]
        told = [one for one in usual if one is not None]
        if told and sum(told) * 2 > len(told):
            fitting.append((term, cost))
    if not fitting:
        return match
    one = likeliest(fitting)
    if one is None:
        return replace(match, term=fitting[0][0], how="proposal")
    return match if one == match.term and match.how != "proposal" else Match(one, "synonym")


def _is_usual(term: Measurand, spot: Spot, sheet: Sheet, form: Form, stated: Stated) -> bool | None:
    """Whether a spot's number is a usual size of something, None where it holds none."""
    cell = sheet.cells.get((spot.row, spot.column))
    raw = spot.inline or (cell.value if cell else None)
    if raw is None or raw == "":
        return None
    content = read_content(raw, field_of(term, spot.unit, stated, form, ()))
    if content.value is None:
        return False if content.kind == "refused" else None
    return FAR_FROM_USUAL not in content.note


def with_system_of_sizes(
    stated: dict[str, Stated], by_sheet: list[tuple[Scan, list[Spot]]]
) -> dict[str, Stated]:
    """What sheets state; where none states its units, with those that the sizes can only be in."""
    if any(one.system for one in stated.values()):
        return stated
    sizes = [
        (spot.match.term, float(cell.value))
        for scan, spots in by_sheet
        for spot in spots
        if spot.match.how != "proposal" and not spot.unit and spot.match.term.kind is LENGTH
        if (cell := scan.sheet.cells.get((spot.row, spot.column))) and not cell.formula
        if isinstance(cell.value, (int, float)) and not isinstance(cell.value, bool)
    ]
    system = system_of_sizes(sizes)
    if system is None:
        return stated
    source = f"its sizes, which are usual only in {_UNITS_OF[system]}"
    return {t: replace(one, system=system, system_from=source) for t, one in stated.items()}
