"""What only the builder can settle of a job, what it costs, and the layout's line that does."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from workbook_tools.books.places import corners
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_text import cylinders_in
from workbook_tools.jobs.known import contradictions
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.question_costs import Asked, Compute, with_costs
from workbook_tools.jobs.records import Question, QuestionKind, Reading
from workbook_tools.labels.answers import NO_READING
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.candidates import Candidates, FoundLine
from workbook_tools.labels.content import (
    CROWN_SIGN_NOT_SAID,
    DECK_SIGN_NOT_SAID,
    FAR_FROM_USUAL,
    UNIT_NOT_SAID,
    WHICH_NOT_SAID,
    Field,
)
from workbook_tools.labels.dates import read_date
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of, plain
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import Position, find
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.position import counts
from workbook_tools.quantities import TEXT

# So many other meanings of a line are named beside the one that is asked about.
_MOST_OTHERS = 3
# What a layout says once for all numbers: why these are asked, the question, and its answers.
_SETTINGS: tuple[tuple[str, QuestionKind, str, str, str], ...] = (
    (UNIT_NOT_SAID, "unit",
     "In which unit are the numbers of which neither book nor sizes say it?",
     'units = "inch"', 'or "metric"'),
    (DECK_SIGN_NOT_SAID, "deck sign",
     "Does a plus mean a piston below the deck, or above it?",
     'deck_sign = "positive below"', 'or "negative below"'),
    (CROWN_SIGN_NOT_SAID, "crown sign",
     "Does a plus mean a dish in the piston, or a dome?",
     'crown_sign = "positive dish"', 'or "negative dish"'),
)  # fmt: skip


def questions_of(asked: Asked, compute: Compute) -> tuple[Question, ...]:
    """What is open about a job, that which costs the most results first."""
    found = [*_about_readings(asked), *_about_the_book(asked)]
    if not found:
        return ()
    told = list(with_costs(asked, found, compute))
    # What stands twice, or is like a name that is known, is asked where a result depends on it.
    idle = ("twice", "what") if asked.by_calls else ("twice",)
    told = [q for q in told if q.kind not in idle or q.costs]
    return tuple(sorted(told, key=lambda q: (-len(q.costs), -len(q.places))))


def text_of(text: str) -> str:
    """A text as TOML has it."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def line_of_answer(**said: str | list[str]) -> str:
    """An answer as a line of the layout's list; names is and of stand for themselves."""
    parts = (
        f"{key.rstrip('_')} = "
        + (text_of(v) if isinstance(v, str) else f"[{', '.join(map(text_of, v))}]")
        for key, v in said.items()
        if v
    )
    return f"{{ {', '.join(parts)} }},"


def words_of(measurand: str) -> str:
    """A measurand as people call it within a sentence."""
    term = find(measurand)
    name = term.name if term else measurand.replace("_", " ")
    return name if name[:2].isupper() else name[:1].lower() + name[1:]


def which_said(part: Position) -> str:
    """Which one, as people write it: "Cyl 3", "" where only the kind of part is told."""
    return part.short if part.which or part.at else ""


def label_said(found: FoundLine, spot: Spot, lines: Iterable[FoundLine]) -> dict[str, str]:
    """What tells a line from the others of its book: its label, and what it takes beside."""
    alike = [o for o in lines if plain(o.spots[0].label) == plain(spot.label)]
    others = [o for o in alike if o.line.chosen != found.line.chosen and o is not found]
    said = {"label": spot.label}
    # "Main" alone heads the numbers of mains elsewhere.
    if not others and counts(spot.label) is None and which_of(spot.label) is None:
        return said
    title, above = found.cells.sheet.title, spot.headings[0] if spot.headings else ""
    if above and above != title and all(above not in o.spots[0].headings for o in others):
        return {**said, "below": above}
    return {**said, "sheet": title}


def _about_readings(asked: Asked) -> Iterator[Question]:
    """What is open about numbers that labels speak of."""
    lines = asked.candidates.lines
    open_ones = [r for r in asked.readings if r.state == "asked" and not r.uses]
    stated_twice = contradictions(asked.candidates.readings)
    if not open_ones and not stated_twice:
        return
    at = {place: (line, spot) for line in lines for place, spot in line.places.items()}
    by_line: dict[tuple[object, str, str], list[Reading]] = defaultdict(list)
    for reading in open_ones:
        if reading.place in at:
            found, spot = at[reading.place]
            open_end = "what" if _only_alike(reading) else reading.reason
            line = plain(spot.label) if open_end == WHICH_NOT_SAID else id(found)
            by_line[line, reading.measurand, open_end].append(reading)
    for (_, measurand, open_end), readings in by_line.items():
        found, spot = at[readings[0].place]
        said = label_said(found, spot, lines)
        if open_end == "what":
            yield _what(measurand, readings, found, said)
        elif open_end == WHICH_NOT_SAID:
            yield _which_one(measurand, readings, said)
        elif open_end in ("", FAR_FROM_USUAL):
            yield from _sizes(measurand, readings, found, said)
    by_words = {r.place for r in asked.readings if r.state == "read" and not r.uses}
    for one, other in stated_twice:
        # Rows of a log share a line, and are no two statements.
        apart = len({id(at[p][0]) for p in (one.place, other.place) if p in at}) == 2
        same = {one.place, other.place} <= by_words and _conditions(one) == _conditions(other)
        if apart and same:
            yield _twice(one, other)


def _conditions(candidate: Candidate) -> set[str]:
    """The states at measuring that a label tells: a lash hot and one cold are two."""
    return set(meaning_of(candidate.label.text).conditions)


def _only_alike(reading: Reading) -> bool:
    return all(e.how == "proposal" for e in reading.evidence)


def _what(
    measurand: str, readings: Sequence[Reading], found: FoundLine, said: dict[str, str]
) -> Question:
    others = [w.term.id for w in found.line.ranked if w.term.id != measurand][:_MOST_OTHERS]
    where = f" below {said['below']!r}" if "below" in said else ""
    where = where or (f" on sheet {said['sheet']!r}" if "sheet" in said else "")
    named = ", ".join(text_of(o) for o in others)
    return Question(
        "what",
        f"Is {said['label']!r}{where} the {words_of(measurand)}?",
        tuple(r.place for r in readings),
        "answers",
        line_of_answer(**said, **{"is": measurand}),
        f"if not: is = {named}{' or ' if named else ''}"
        + ('"no reading"' if named else 'what it is, or is = "no reading"'),
        measurand,
        tuple(others),
    )


def _which_one(measurand: str, readings: Sequence[Reading], said: dict[str, str]) -> Question:
    term = find(measurand)
    of: Of = term.of if term and term.of in ("main", "rod", "cam_bearing") else "cylinder"
    named = [Position(of, n).short for n in range(1, len(readings) + 1)]
    return Question(
        "which one",
        f"Of which {of.replace('_', ' ')} is {'each ' * (len(readings) > 1)}{said['label']!r}?",
        tuple(r.place for r in readings),
        "answers",
        line_of_answer(**said, of=named),
        "put right which; the order is that of the cells",
        measurand,
    )


def _sizes(
    measurand: str, readings: Sequence[Reading], found: FoundLine, said: dict[str, str]
) -> Iterator[Question]:
    """What is far from usual: doubted, or something else where no engine can have it."""
    name = words_of(measurand)
    whole = len(readings) > 1 and len(readings) == len(found.line.values) and _is_none(readings)
    for run in [readings] if whole else _runs(readings):
        last = f":{run[-1].place.address}" if len(run) > 1 else ""
        about = said if whole else {"cells": f"{run[0].place}{last}"}
        text = f"Can the {name} be {_shown(run)}? That is far from what is usual"
        answer, instead = measurand, "if not: correct the cell, or say what it is"
        if _is_none(run):
            what = f"{said['label']!r}" if whole else "it"
            # Another thing with these words, else a price or a count, more often than a slip.
            answer = _fitting(found, measurand) or NO_READING
            is_it = f"Is {what} the {words_of(answer)}?"
            text = f"No engine's {name} is {_shown(run)}. "
            text += is_it if answer != NO_READING else f"Is {what} a reading?"
            instead = 'if not: is = "no reading", or correct the cell'
            if answer == NO_READING:
                instead = "if it is: correct the cell, or say what it is"
        yield Question(
            "size", text, tuple(r.place for r in run), "answers",
            line_of_answer(**about, **{"is": answer}), instead, measurand,
        )  # fmt: skip


def _fitting(found: FoundLine, measurand: str) -> str:
    """What else a line may be by its words that its sizes fit, "" for nothing."""
    fits = (
        w.term.id
        for w in found.line.ranked
        if w.term.id != measurand and any(r.what == "sizes" and r.weight > 0 for r in w.because)
    )
    return next(fits, "")


def _shown(readings: Sequence[Reading]) -> str:
    """The first sizes, with their unit."""
    sizes = ", ".join(f"{r.value:g}" for r in readings[:3] if r.value is not None)
    return f"{sizes} {readings[0].unit}".rstrip()


def _is_none(readings: Sequence[Reading]) -> bool:
    """Whether no engine can have any of these sizes."""
    term = find(readings[0].measurand)
    known = [r.si for r in readings if r.si is not None]
    return term is not None and bool(known) and not any(map(term.is_possible, known))


def _runs(readings: Sequence[Reading]) -> Iterator[list[Reading]]:
    """Readings of cells that follow on one another in one row or column."""
    run: list[Reading] = []
    for reading in readings:
        if run and not _follows([r.place for r in (*run, reading)]):
            yield run
            run = []
        run.append(reading)
    yield run


def _follows(places: Sequence[Place]) -> bool:
    spots = [corners(place.address) for place in places]
    if len({p.sheet for p in places}) > 1 or None in spots:
        return False
    rows, columns = ([s[i] for s in spots if s] for i in (0, 1))
    steps = range(len(places))
    across = len(set(rows)) == 1 and columns == [columns[0] + n for n in steps]
    return across or (len(set(columns)) == 1 and rows == [rows[0] + n for n in steps])


def _twice(one: Candidate, other: Candidate) -> Question:
    which = f" of {said}" if (said := which_said(one.part)) else ""
    return Question(
        "twice",
        f"The {words_of(one.name)}{which} stands twice: {one.value:g} {one.unit} in {one.place}, "
        f"{other.value:g} {other.unit} in {other.place}. Which one is none?",
        (one.place, other.place),
        "answers",
        line_of_answer(cells=str(other.place), **{"is": NO_READING}),
        f'or cells = {text_of(str(one.place))}, or stage = "found" for an older one',
        one.name,
    )


def _about_the_book(asked: Asked) -> Iterator[Question]:
    """What is open about units, signs, the cylinders and the job."""
    yield from _settings(asked.readings)
    if asked.form.cylinders is None and _cylinders_open(asked.candidates, asked.job):
        yield Question("cylinders", "How many cylinders has the engine?", (), "", "cylinders = 4")
    if not asked.job.number.text:
        cell = str(Place(asked.sheet, "B2"))
        yield Question(
            "job number", "Which cell holds the job number?", (), "job",
            f"number = {text_of(cell)}", "put the cell's address in its place",
        )  # fmt: skip
    for field in ("started", "finished"):
        given = getattr(asked.job, field)
        if given.text and _may_be_two_days(given.text):
            yield Question(
                "dates", "Does the day or the month come first in the dates?",
                (given.place,) if given.place else (), "", 'dates = "day first"',
                'or "month first"',
            )  # fmt: skip
            return


def _settings(readings: Iterable[Reading]) -> Iterator[Question]:
    open_ends: dict[str, list[Reading]] = defaultdict(list)
    for reading in readings:
        if reading.state == "asked":
            open_ends[reading.reason].append(reading)
    for reason, kind, text, answer, instead in _SETTINGS:
        if found := open_ends[reason]:
            yield Question(kind, text, tuple(r.place for r in found), "", answer, instead)


def _cylinders_open(found: Candidates, job: Job) -> bool:
    """Whether neither a count, numbered readings nor the engine's name say how many there are."""
    names = {r.name for r in found.readings}
    numbered = {r.position for r in found.readings if r.of == "cylinder" and r.position}
    told = "cylinder_count" in names or (not numbered and cylinders_in(job.engine.text))
    return not told and len(numbered) < 2 and names >= {"bore", "stroke"}


def _may_be_two_days(text: str) -> bool:
    """Whether a date is one where the order of day and month is told, and else none."""
    orders = [read_date(text, Field("", TEXT, day_first=order)).text for order in (None, True)]
    return not orders[0] and bool(orders[1])
