"""Signs of deck clearance and crown volume: both readings shown where something speaks.

Words, the book's own band, the ratio; what decks say of each other is in decks.py.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from workbook_tools.findings.evidence import RATIO_SLACK, WISHES, Evidence, Taken
from workbook_tools.findings.finding import MORE, Finding, named, shown, words_of
from workbook_tools.findings.turned import SIGN_ADVICE, both_readings, turned
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Reading, Record
from workbook_tools.labels.label import Label
from workbook_tools.labels.options import SIGN_RULE
from workbook_tools.quantities import READING

_WORDS = {
    "deck_clearance": (
        re.compile(r"below (?:the )?deck|in (?:the )?hole|\bdown\b", re.IGNORECASE),
        re.compile(
            r"above (?:the )?deck|out of (?:the )?hole|proud|protru|stands? (?:out|up)",
            re.IGNORECASE,
        ),
    ),
    "crown_volume": (
        re.compile(r"\bdish|relief|\bbowl|pocket|\bcavity", re.IGNORECASE),
        re.compile(r"\bdome|pop-?up|\braised", re.IGNORECASE),
    ),
}
_MEANING = {
    "deck_clearance": "plus is below the deck, minus above it",
    "crown_volume": "plus is a dish or relief, minus a dome",
}
_CODES = {"deck_clearance": "deck-sign", "crown_volume": "crown-sign"}
# Ratios of ordinary engines with and without boost; diesels lie above. Common practice, no
# source. A ratio outside the wide limits that the other sign brings between the narrow ones
# is doubted.
_WIDE, _NARROW = (6.2, 15.5), (7.0, 13.5)
# A ratio is as good as the wanted one within this; few engines come nearer to their plan.
_HIT = 0.35
_STATED_RATIO = re.compile(r"(?:static )?(?:compression )?ratio|static compression", re.IGNORECASE)
_WANTED_RATIO = re.compile(
    r"(?=.*\b(?:ratio|compression|cr)\b)(?=.*\b(?:target|wanted|want|goal|aim|plan|planned"
    r"|advertised|stated|ordered|desired|spec|card|offered)\b)"
    r"(?!.*\b(?:rod|stroke|rocker|dynamic|trapped|effective|boost\w*|cranking|pressure|leak\w*"
    r"|height)\b)",
    re.IGNORECASE,
)


class _Doubt(NamedTuple):
    """A number whose sign is doubted, why, and the cells that speak against it.

    name: of the parameter that a call takes it for, as the measurand; call: such a call.
    """

    name: str
    place: Place
    label: Label | None
    value: str
    call: Record | None
    why: str
    against: tuple[Place, ...] = ()


def check_signs(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each item whose sign goes against its words, its band or the ratio."""
    decks = frozenset(d.place for d in evidence.of("deck_clearance"))
    for doubt in (
        *_by_words(evidence), *_by_verdict(evidence), *_by_ratio(evidence),
        *_by_wanted_ratio(evidence),
    ):  # fmt: skip
        label = doubt.label.text if doubt.label else ""
        # Of decks nothing weaker is told then, of a ratio that was wanted neither.
        explains = decks if doubt.name == "deck_clearance" else frozenset(doubt.against)
        yield Finding(
            _CODES[doubt.name],
            doubt.place,
            f"{named(doubt.label, doubt.place)} is {doubt.value}{MORE}; {doubt.why}, for "
            f"{_MEANING[doubt.name]}{both_readings(doubt.call, doubt.name)}.",
            SIGN_ADVICE,
            doubt.against,
            group=("sign", doubt.place.sheet, label, doubt.name),
            explains=explains,
        )


def _by_words(evidence: Evidence) -> Iterator[_Doubt]:
    for name, words in _WORDS.items():
        for size in evidence.of(name):
            if not size.typed or size.label is None or not size.number:
                continue
            # "(dish +)" says what a sign means, and of none which way it is.
            said = SIGN_RULE.sub(" ", size.label.text)
            plus, minus = (bool(w.search(said)) for w in words)
            if plus != minus and (size.number > 0) != plus:
                why = "its words say the other way"
                yield _Doubt(name, size.place, size.label, size.shown, size.call, why)


def _of(taken: Taken, why: str, *against: Place) -> _Doubt:
    argument = taken.argument
    name, value = argument.name, argument.value
    text = shown(value, argument.unit) if isinstance(value, (int, float)) else str(value)
    return _Doubt(name, taken.place, argument.label, text, taken.record, why, against)


def _by_verdict(evidence: Evidence) -> Iterator[_Doubt]:
    """Results that the book's band refuses, and would take with the other sign."""
    why = "with the other sign the result would lie within the book's own band"
    taken = [t for t in evidence.taken if t.argument.name in _WORDS]
    for judged in evidence.verdicts:
        low, high = (limit.value if limit else None for limit in (judged.low, judged.high))
        record = evidence.makers.get(judged.place) if judged.place else None
        if judged.verdict not in ("low", "high") or record is None:
            continue
        if not isinstance(low, (int, float)) or not isinstance(high, (int, float)):
            continue
        for one in taken:
            if one.record is record:
                other = turned(one.record, one.argument.name)
                if other is not None and low <= other <= high:
                    yield _of(one, why, record.place)


def _crowns(evidence: Evidence) -> Iterator[tuple[Taken, float]]:
    """The crown volumes that ratios are computed with, and these ratios."""
    for taken in evidence.taken:
        function, ratio = taken.record.function, taken.record.value
        if function is None or function.name != "COMPRESSION_RATIO":
            continue
        if taken.argument.name == "crown_volume" and isinstance(ratio, (int, float)):
            yield taken, float(ratio)


def _by_ratio(evidence: Evidence) -> Iterator[_Doubt]:
    for taken, ratio in _crowns(evidence):
        if not _WIDE[0] <= ratio <= _WIDE[1]:
            other = turned(taken.record, "crown_volume")
            if other is not None and _NARROW[0] <= other <= _NARROW[1]:
                yield _of(taken, "the ratio is unusual as it is")


def _by_wanted_ratio(evidence: Evidence) -> Iterator[_Doubt]:
    """Crown volumes whose other sign gives the ratio that the book wants."""
    crowns = list(_crowns(evidence))
    wanted = [r for r in evidence.readings if _is_wanted_ratio(r)] if crowns else []
    found = []
    for taken, ratio in crowns:
        near = [w for w in wanted if w.place.sheet == taken.record.place.sheet] or wanted
        # Several wanted ratios are several plans; the nearest is the one that was built.
        plan = min(near, key=lambda w: abs(w.number - ratio), default=None)
        if plan is None or abs(plan.number - ratio) <= RATIO_SLACK:
            continue
        other = turned(taken.record, "crown_volume")
        off = min(_HIT, abs(plan.number - ratio) / 3)
        if other is not None and abs(other - plan.number) <= off:
            why = f"{plan.name} is {plan.number:.4g}, which the other sign comes to"
            found.append(_of(taken, why, plan.place))
    # A plan that half of the cylinders come to has been built.
    yield from found if len(found) * 2 > len(crowns) else ()


def _is_wanted_ratio(reading: Reading) -> bool:
    """Whether a reading is the one ratio that the engine is wanted or said to have."""
    label = reading.label
    if label is None or label.position or not 4 < reading.number < 30:
        return False
    if any(u.parameter.kind is READING for u in reading.uses):
        return False
    return (
        _is_stated_ratio(reading)
        or (reading.measurand == "compression_ratio" and reading.stage == "target")
        or _WANTED_RATIO.match(words_of(label)) is not None
        or any("_FOR_" in u.function and u.parameter.name == "compression_ratio"
               for u in reading.uses)
    )  # fmt: skip


def _is_stated_ratio(reading: Reading) -> bool:
    """Whether a reading is a compression ratio that the book states for the engine."""
    label = reading.label
    if label is None or label.position:
        return False
    if reading.measurand:
        return reading.measurand == "compression_ratio" and reading.stage not in WISHES
    return _STATED_RATIO.fullmatch(label.text.strip()) is not None
