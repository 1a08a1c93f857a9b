"""Out of band, and close to the limit: what the book's own verdicts say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument
from workbook_tools.jobs.verdicts import Judged, is_judge, judged_by
from workbook_tools.labels.label import Label

# Within this share of the band's width from an edge a reading is worth a second measurement.
CLOSE = 0.05


def check_bands(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number that is judged low or high, or ok but near an edge of its band.

    In a book that was not recalculated, what its cells come to now is judged.
    """
    book = evidence.book
    judges = [record for record in book.records if is_judge(record)]
    if not judges:
        return
    now = {r.place: r.recomputed for r in book.records if r.state == "stale"}
    now |= {r.place: r.fresh for r in book.records if r.fresh is not None}
    now |= {f.place: f.fresh for f in book.stale_formulas}
    labels = {w.place: w.label for w in book.readings} | {r.place: r.label for r in book.records}
    for judged in (one for record in judges for one in judged_by(record, now)):
        if judged.verdict in ("low", "high"):
            yield _out(judged, labels)
        elif judged.verdict == "ok":
            yield from _close(judged, labels)


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else None


def _label(judged: Judged, labels: Mapping[Place, Label | None]) -> Label | None:
    """The label of the number's own cell, of the range that it is in, or of the verdict."""
    own = labels.get(judged.place) if judged.place else None
    return own or judged.given.label or judged.by.label


def _named(judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    """What the number is, as the book calls it."""
    label = _label(judged, labels)
    return str(label) if label else f"the value of {judged.by.place.address}"


def _band(judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    low, high = (_limit(limit) for limit in (judged.low, judged.high))
    unit = _unit(judged, labels)
    if isinstance(low, float) and isinstance(high, float):
        return f"{low:g} to {high:g}{unit}"
    return f"{low} to {high}"


def _limit(limit: Argument | None) -> object:
    number = _number(limit.value) if limit else None
    return number if number is not None else limit.value if limit else "no limit"


def _limits(judged: Judged) -> tuple[Place, ...]:
    """The cells of the limits that it is judged by."""
    return tuple(a.place for a in (judged.low, judged.high) if a is not None and a.place)


def _unit(judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    label = _label(judged, labels)
    return f" {label.unit}" if label and label.unit else ""


def _out(judged: Judged, labels: Mapping[Place, Label | None]) -> Finding:
    number = _number(judged.value)
    unit = _unit(judged, labels)
    shown = str(judged.value) if number is None else f"{number:.6g}{unit}"
    side = "below" if judged.verdict == "low" else "above"
    return Finding(
        "out-of-band",
        judged.place or judged.by.place,
        f"{_named(judged, labels)} is {shown}, {side} its band of {_band(judged, labels)}.",
        "Measure it again; if it stands, correct the part or have the deviation accepted.",
        _limits(judged),
    )


def _close(judged: Judged, labels: Mapping[Place, Label | None]) -> Iterator[Finding]:
    value = _number(judged.value)
    low, high = (_number(a.value) if a else None for a in (judged.low, judged.high))
    if value is None or low is None or high is None or high <= low:
        return
    edge, side = (low, "lower") if value - low < high - value else (high, "upper")
    # Nothing is nearer to zero than zero: a spread or a taper of 0 is as good as can be.
    if edge != 0 and abs(value - edge) <= CLOSE * (high - low):
        yield Finding(
            "near-limit",
            judged.place or judged.by.place,
            f"{_named(judged, labels)} is {value:.6g}{_unit(judged, labels)}, at the {side} end of "
            f"its band of {_band(judged, labels)}.",
            "Measure it once more with another gauge before it is signed off.",
            _limits(judged),
        )
