"""A torque for other threads than those it is used on: dry, oiled, or with a paste."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding, call_of, named, words_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Fastener
from workbook_tools.jobs.records import Argument, Record
from workbook_tools.labels.label import Label

_DRY = re.compile(
    r"\bdry\b|\bun-?lubricated\b|\b(?:no|without) (?:oil|lube|lubricant|paste)\b", re.IGNORECASE
)
_OIL = re.compile(r"\boil(?:ed)?\b", re.IGNORECASE)
_PASTE = re.compile(r"\bmoly\b|\bmolybdenum\b|\bpaste\b|\banti-?seize\b", re.IGNORECASE)
_SOMETHING = re.compile(r"\blub(?:e|ed|ricated)\b|\bgreased?\b|\bwet\b|\bwaxed\b", re.IGNORECASE)
_TORQUE_HEAD = re.compile(r"\btorqued?\b|\bft[ -]?lbs?\b|\blb[ -]?ft\b|\bn[.·-]?m\b", re.IGNORECASE)
_LUBRICANT_HEAD = re.compile(r"lub(?:e|ricants?|rication)\b|\bthreads?\b", re.IGNORECASE)
# Nut factors as in Shigley, Mechanical Engineering Design, Table 8-15: 0.18 to 0.30 without a
# paste, 0.12 and less with one. Between these two a factor may be either.
_PASTE_MOST, _DRY_LEAST = 0.13, 0.19
_HARM = "At one torque a lubricant changes the tension by a fifth and more (common practice)."
_ADVICE = "Use the figure that the fastener's maker gives for the lubricant that is on the threads."


@lru_cache(maxsize=4096)
def _threads(text: str) -> str:
    """What a text says of threads: "dry", "oil", "paste", "lubricant"; "" for none or several."""
    left = _DRY.sub(" ", text)
    said = [
        word
        for word, found in (
            ("dry", left != text),
            ("oil", _OIL.search(left) is not None),
            ("paste", _PASTE.search(left) is not None),
            ("lubricant", _SOMETHING.search(left) is not None),
        )
        if found
    ]
    if "dry" not in said and len(said) > 1 and "lubricant" in said:
        said.remove("lubricant")  # "Moly lube" is one thing.
    return said[0] if len(said) == 1 else ""


def _differ(one: str, other: str) -> bool:
    """Whether two states of threads are not the same; a lubricant may be oil or paste."""
    if not one or not other or one == other:
        return False
    return "dry" in (one, other) or "lubricant" not in (one, other)


def check_lubricants(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each torque that is for other threads than those it is used on."""
    for fastener in evidence.book.office.fasteners:
        yield from _in_table(fastener)
    told: set[Place] = set()
    for record in evidence.book.records:
        if record.function is None:
            continue
        if record.function.name in ("PRELOAD_FROM_TORQUE", "TORQUE_FOR_PRELOAD"):
            for finding in _in_call(record):
                if finding.place is not None and finding.place not in told:
                    told.add(finding.place)
                    yield finding


def _in_table(fastener: Fastener) -> Iterator[Finding]:
    torques = [pair for pair in fastener.said if _TORQUE_HEAD.search(pair[0])]
    threads = [
        said
        for head, said in fastener.said
        if _LUBRICANT_HEAD.search(head) and not _TORQUE_HEAD.search(head) and _threads(said)
    ]
    # Figures for several kinds of threads leave the choice to whoever reads the table.
    if len(torques) != 1 or len(threads) != 1:
        return
    (head, figure), on_threads = torques[0], threads[0]
    if not _differ(_threads(f"{head} {figure}"), _threads(on_threads)):
        return
    yield Finding(
        "torque-for-other-threads",
        fastener.place,
        f"{fastener.name} ({fastener.place.address}) has {head}: {figure}, for "
        f"{_for(_threads(f'{head} {figure}'))}, but the threads have {on_threads}. {_HARM}",
        _ADVICE,
    )


def _for(threads: str) -> str:
    return "dry threads" if threads == "dry" else f"threads with {threads}"


def _in_call(record: Record) -> Iterator[Finding]:
    given = {a.name: a for a in record.arguments}
    factor, torque = given.get("nut_factor"), given.get("torque")
    if factor is None:
        return
    label, place = (torque.label, torque.place) if torque else (record.label, record.place)
    place = place or record.place
    torque_is, factor_is = _of(label), _of(factor.label)
    factor_name = named(factor.label, factor.place or record.place)
    if _differ(torque_is, factor_is):
        yield Finding(
            "torque-for-other-threads",
            place,
            f"{named(label, place)} is a torque for {_for(torque_is)}, but {call_of(record)} takes "
            f"the nut factor for {_for(factor_is)}, {factor_name}. {_HARM}",
            _ADVICE,
            (factor.place,) if factor.place else (),
        )
        return
    yield from _factor(factor, factor_is or torque_is, record, torque)


def _factor(
    factor: Argument, threads: str, record: Record, torque: Argument | None
) -> Iterator[Finding]:
    """A nut factor that is unusual for what is on the threads."""
    value = factor.value
    if not isinstance(value, (int, float)) or isinstance(value, bool):
        return
    if threads == "dry" and 0 < value <= _PASTE_MOST:
        usual = f"{_PASTE_MOST:g} and less is for threads with a paste"
    elif threads == "paste" and value >= _DRY_LEAST:
        usual = f"{_DRY_LEAST:g} and more is for threads without a paste"
    else:
        return
    place = factor.place or record.place
    yield Finding(
        "nut-factor-for-other-threads",
        place,
        f"{named(factor.label, place)} is {value:.4g}, and {call_of(record)} takes it for "
        f"{_for(threads)}; {usual}. {_HARM}",
        "Use the nut factor that was measured, or that the lubricant's maker gives.",
        (torque.place,) if torque and torque.place else (),
    )


def _of(label: Label | None) -> str:
    return _threads(words_of(label))
