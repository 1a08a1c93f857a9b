"""A block of bore readings typed across: then taper and out-of-round change places."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.catalog import ArgumentError, calculate
from workbook_tools.findings.evidence import Evidence, parameter_of
from workbook_tools.findings.finding import Finding, named, shown
from workbook_tools.jobs.records import Record

_OF_A_BORE = ("BORE_TAPER", "BORE_OUT_OF_ROUND")


def check_across(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each bore that seems to be read on more axes than at heights.

    Bores are read on two axes, at two heights or more (common practice, no source).
    """
    for record in evidence.book.records:
        if record.function is None or record.function.name not in _OF_A_BORE:
            continue
        block = _block(record)
        if block and len(block[0]) > 2 and len(block[0]) > len(block):
            yield _finding(record, block)


def _block(record: Record) -> tuple[tuple[object, ...], ...]:
    """The range of readings that a call takes, () where it takes none."""
    for argument in record.arguments:
        parameter = parameter_of(record, argument)
        if parameter is not None and parameter.block and isinstance(argument.value, tuple):
            return argument.value
    return ()


def _finding(record: Record, block: tuple[tuple[object, ...], ...]) -> Finding:
    heights, axes = len(block), len(block[0])
    turned = _turned(record, block)
    other = "" if turned is None else f" With the heights down it would be {turned}."
    cell = next((a.place for a in record.arguments if a.place), None)
    return Finding(
        "block-across",
        record.place,
        f"{named(record.label, record.place)} takes {heights} height{'s' * (heights > 1)}, one "
        f"a row, on {axes} axes, one a column; bores are mostly read on two axes. Typed across, "
        f"taper and out-of-round change places.{other}",
        "Type one height below the other, the axes side by side.",
        (cell,) if cell else (),
    )


def _turned(record: Record, block: tuple[tuple[object, ...], ...]) -> str | None:
    """What the call gives with rows and columns exchanged, None where that cannot be."""
    assert record.function is not None
    down = tuple(zip(*block, strict=True))
    try:
        result = calculate(record.function, [down, record.system])
    except ArgumentError:
        return None
    return shown(result.value, result.unit) if isinstance(result.value, float) else None
