"""The gasket's bore against the cylinder's, and bores taken one for the other."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    shown,
    system_of,
)

# A gasket bore is usually 0.030 to 0.200 in above the cylinder's (common practice, no source).
# Less than this share above it, a third of the least, the two are one number; beyond the other
# share, it is likely another engine's.
LEAST_ABOVE = 0.0025
MOST_ABOVE = 0.12


def check_gasket(book: Book) -> Iterator[Finding]:
    """A finding for each gasket bore that is not above the finished bores, or far above them."""
    bores = list(_arguments(book, "bore"))
    told: set[Place] = set()
    for record, argument, gasket in _arguments(book, "gasket_bore"):
        place = argument.place or record.place
        if place in told:
            continue
        near = [b for b in bores if b[0].place.sheet == record.place.sheet] or bores
        same = next((b for b in bores if b[1].place == place), None)
        if same is not None:
            told.add(place)
            yield Finding(
                "disagreement",
                place,
                f"{named(argument.label, place)} is the cylinder's bore in {same[0].name} "
                f"({same[0].place.address}) and the gasket's in {record.name} "
                f"({record.place.address}). The gasket's volume comes out too small and the "
                "ratio too high.",
                "Measure the bore of the gasket's fire ring and enter it in its own cell.",
            )
            continue
        if not near:
            continue
        owner, bore, largest = max(near, key=lambda b: b[2])
        if gasket < largest * (1 + LEAST_ABOVE):
            told.add(place)
            verb = "as good as equal to" if gasket >= largest else "smaller than"
            yield Finding(
                "disagreement",
                place,
                f"{_shown(record, argument)} is {verb} the finished bore "
                f"{_shown(owner, bore)}: the fire ring would hang into the cylinder, or one "
                "bore was typed for the other.",
                "Measure the bore of the gasket's fire ring; do not run a ring in the bore.",
            )
        elif gasket > min(b[2] for b in near) * (1 + MOST_ABOVE):
            told.add(place)
            smallest = min(near, key=lambda b: b[2])
            yield Finding(
                "disagreement",
                place,
                f"{_shown(record, argument)} is {gasket / smallest[2] - 1:.0%} above the finished "
                f"bore {_shown(smallest[0], smallest[1])}; a gasket of another engine?",
                "Measure the bore of the gasket's fire ring and check its number.",
            )


def _arguments(book: Book, name: str) -> Iterator[tuple[Record, Argument, float]]:
    """Every argument given for a parameter of this name, with its SI value."""
    for record in book.records:
        for argument in record.arguments:
            parameter = parameter_of(record, argument) if argument.name == name else None
            if parameter is None:
                continue
            value = number_of(argument, parameter.kind, system_of(record))
            if value is not None and value > 0:
                yield record, argument, in_si(value, parameter.kind, system_of(record))


def _shown(record: Record, argument: Argument) -> str:
    value = argument.value
    text = shown(value, argument.unit) if isinstance(value, (int, float)) else str(value)
    return f"{named(argument.label, argument.place or record.place)}, {text},"
