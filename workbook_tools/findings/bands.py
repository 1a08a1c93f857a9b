"""Out of band, and close to the limit: what the book's own verdicts say."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.records import Argument, Book, Record
from workbook_tools.findings.finding import Finding

# Within this share of the band's width from an edge a reading is worth a second measurement.
CLOSE = 0.05


def _number(argument: Argument | None) -> float | None:
    value = argument.value if argument else None
    return float(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else None


def check_bands(book: Book) -> Iterator[Finding]:
    """A finding for each verdict that is low or high, or ok but near an edge of its band."""
    for record in book.records:
        if record.function is None or record.function.name != "VERDICT":
            continue
        if record.value in ("low", "high"):
            yield _out(record)
        elif record.value == "ok":
            yield from _close(record)


def _named(record: Record) -> str:
    """What the verdict is about, as the book calls it."""
    value = record.arguments[0]
    label = value.label or record.label
    return str(label) if label else f"the value of {record.place.address}"


def _band(record: Record) -> str:
    low, high = (record.arguments[i].value for i in (1, 2))
    unit = _unit(record)
    return f"{low:g} to {high:g}{unit}" if _numbers(low, high) else f"{low} to {high}"


def _numbers(*values: object) -> bool:
    return all(isinstance(v, (int, float)) for v in values)


def _unit(record: Record) -> str:
    label = record.arguments[0].label
    return f" {label.unit}" if label and label.unit else ""


def _out(record: Record) -> Finding:
    value = record.arguments[0]
    side = "below" if record.value == "low" else "above"
    shown = f"{value.value:.6g}{_unit(record)}" if _numbers(value.value) else str(value.value)
    return Finding(
        "out of band",
        value.place or record.place,
        f"{_named(record)} is {shown}, {side} its band of {_band(record)}.",
        "Measure it again; if it stands, correct the part or have the deviation accepted.",
    )


def _close(record: Record) -> Iterator[Finding]:
    value, low, high = (_number(a) for a in record.arguments[:3])
    if value is None or low is None or high is None or high <= low:
        return
    edge, side = (low, "lower") if value - low < high - value else (high, "upper")
    # Nothing is nearer to zero than zero: a spread or a taper of 0 is as good as can be.
    if edge != 0 and abs(value - edge) <= CLOSE * (high - low):
        yield Finding(
            "close to the limit",
            record.arguments[0].place or record.place,
            f"{_named(record)} is {value:.6g}{_unit(record)}, at the {side} end of its band of "
            f"{_band(record)}.",
            "Measure it once more with another gauge before it is signed off.",
        )
