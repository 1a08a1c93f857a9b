"""Out of band, and close to the limit: what the book's own verdicts say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MEASURE_FINER, MORE, Finding, cannot_tell, measurable
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument
from workbook_tools.jobs.uncertainty import Key, Uncertainty
from workbook_tools.jobs.verdicts import Judged, is_judge, judged_by
from workbook_tools.labels.label import Label

# Within this share of the band's width from an edge a reading is worth a second measurement.
CLOSE = 0.05
# Of so many numbers of an item half at one end of their band tell that it was aimed at.
_SEVERAL = 3
_SIDES = {"low": "below", "high": "above"}
_ADVICE = {
    "out-of-band": "Measure it again; if it stands, correct the part or have the deviation "
    "accepted.",
    "cannot-tell": MEASURE_FINER,
    "near-limit": "Measure it once more with another gauge before it is signed off.",
}


def check_bands(evidence: Evidence, uncertain: Mapping[Key, Uncertainty]) -> Iterator[Finding]:
    """A finding for each number that is judged low or high, or ok but near an edge of its band.

    In a book that was not recalculated, what its cells come to now is judged. uncertain: the
    expanded uncertainty of each number that it is known of.
    """
    book = evidence.book
    judges = [record for record in book.records if is_judge(record)]
    if not judges:
        return
    now = {r.place: r.recomputed for r in book.records if r.state == "stale"}
    now |= {r.place: r.fresh for r in book.records if r.fresh is not None}
    now |= {f.place: f.fresh for f in book.stale_formulas}
    labels = {w.place: w.label for w in book.readings} | {r.place: r.label for r in book.records}
    every = [one for record in judges for one in judged_by(record, now)]
    found = [_edge_of(judged, labels) for judged in every]
    edges = Counter(found)
    items = Counter(item for item, _ in found)
    for judged, (item, edge) in zip(every, found, strict=True):
        unsure = _cannot_tell(judged, uncertain)
        if judged.verdict in _SIDES:
            how = f"{_SIDES[judged.verdict]} its band"
            yield _finding(judged, labels, "out-of-band", how, unsure)
        elif judged.verdict == "ok" and unsure:
            how = "ok by simple acceptance in its band"
            yield _finding(judged, labels, "cannot-tell", how, unsure)
        elif edge and not _is_target(edges[item, edge], items[item]):
            yield _finding(judged, labels, "near-limit", f"at the {edge} end of its band")


def _is_target(close: int, of_all: int) -> bool:
    """Whether so many of an item lie at one end of their band that it is what was aimed at."""
    return of_all >= _SEVERAL and close * 2 >= of_all


def _item(judged: Judged, labels: Mapping[Place, Label | None]) -> tuple[str, str]:
    label, place = _label(judged, labels), judged.place or judged.by.place
    return place.sheet, label.text if label else ""


def _edge_of(judged: Judged, labels: Mapping[Place, Label | None]) -> tuple[tuple[str, str], str]:
    """The item that a number is of, and which end of its band it is close to, "" for neither."""
    value = _number(judged.value)
    low, high = (_number(a.value) if a else None for a in (judged.low, judged.high))
    if judged.verdict != "ok" or value is None or low is None or high is None or high <= low:
        return _item(judged, labels), ""
    edge, side = (low, "lower") if value - low < high - value else (high, "upper")
    # Nothing is nearer to zero than zero: a spread or a taper of 0 is as good as can be.
    close = edge != 0 and abs(value - edge) <= CLOSE * (high - low)
    return _item(judged, labels), side if close else ""


def _cannot_tell(judged: Judged, uncertain: Mapping[Key, Uncertainty]) -> str:
    """A sentence where a limit lies within the uncertainty of the number, else ""."""
    known = uncertain.get(judged.place) if judged.place else None
    value = _number(judged.value)
    if known is None or value is None:
        return ""
    low, high = (_number(limit.value) if limit else None for limit in (judged.low, judged.high))
    return cannot_tell(known, known.unproved(value, low, high))


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
    numbers = [_number(a.value) if a else None for a in (judged.low, judged.high)]
    if any(number is None for number in numbers):
        low, high = (_limit(limit) for limit in (judged.low, judged.high))
        return f"{low} to {high}"
    low, high = (_digits(number, judged, labels) for number in numbers if number is not None)
    return f"{low} to {high}{_unit(judged, labels)}"


def _value(judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    number = _number(judged.value)
    if number is None:
        return str(judged.value)
    return f"{_digits(number, judged, labels)}{_unit(judged, labels)}"


def _digits(number: float, judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    """A number with digits that can be measured, more only where these hide a difference."""
    limits = (_number(a.value) if a else None for a in (judged.low, judged.high))
    others = [n for n in (_number(judged.value), *limits) if n is not None and n != number]
    return measurable(number, _unit(judged, labels).strip(), others)


def _limit(limit: Argument | None) -> object:
    return limit.value if limit else "no limit"


def _limits(judged: Judged) -> tuple[Place, ...]:
    """The cells of the limits that it is judged by."""
    return tuple(a.place for a in (judged.low, judged.high) if a is not None and a.place)


def _unit(judged: Judged, labels: Mapping[Place, Label | None]) -> str:
    label = _label(judged, labels)
    return f" {label.unit}" if label and label.unit else ""


def _finding(
    judged: Judged, labels: Mapping[Place, Label | None], code: str, how: str, unsure: str = ""
) -> Finding:
    """A finding on a judged number; how: how it stands to its band, up to that word."""
    number, band = _value(judged, labels), _band(judged, labels)
    # What a gauge cannot tell of one it cannot tell of the others, which are told with it.
    alone = code != "cannot-tell"
    return Finding(
        code,
        judged.place or judged.by.place,
        f"{_named(judged, labels)}{'' if alone else MORE} is {number}, {how} of {band}. "
        f"{unsure}".rstrip(),
        _ADVICE[code],
        _limits(judged),
        group=() if alone else (code, *_item(judged, labels)),
    )
