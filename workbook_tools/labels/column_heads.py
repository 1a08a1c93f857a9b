"""What the heads of a column say of its values: which one, when, what property or ring."""

from __future__ import annotations

import re
from collections.abc import Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.job_columns import is_office
from workbook_tools.labels.named_heads import ORDINAL, is_journal, names_a_part, names_a_ring
from workbook_tools.labels.nominal_sizes import is_nominal
from workbook_tools.labels.options import side_said
from workbook_tools.labels.row_names import is_a_size
from workbook_tools.labels.row_whiches import which_in_row
from workbook_tools.labels.table import Table, in_column, told_once
from workbook_tools.labels.vocabulary import NO_SIZES, meaning_of, noun_named, unit_in
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# Of valves, over what is measured of each.
SIDES = {"intake", "exhaust"}
_MOST_OR_LEAST = re.compile(
    r"\b(?:max|min|largest|smallest|größter|kleinster|máx|mín)\b\.?", re.IGNORECASE
)
_RINGS_IN_ORDER = ["Top ring", "Second ring", "Oil ring"]
# What an engine gives on a test stand, where no more than the unit stands over it.
_METRIC_HORSEPOWER = ("cv", "ch")
_OF_A_RUN = {"torque": "Engine torque", "power": "Power"}
_SEVERAL = 2
# So many words of a title that are not understood are a remark: "of the tractor".
_A_REMARK = 1
# A head for one side of each part; and what is measured there rather than so called.
_OF_A_SIDE = re.compile(
    r"[^\W\d_]{2,}\.? (?:side|end)|[^\W\d_]{3,}(?:seite|seitig)|(?:côté|lado|lato) [^\W\d_]{3,}",
    re.IGNORECASE,
)
_BESIDE = ("side_clearance", "end_play")
# What a crankpin runs in.
_SHELLS = ("bearing", "rod_bearing")


def nominal_before(table: Table, row: int, column: int) -> At | None:
    """The cell of the nominal size that a number of a row may be an amount over."""
    nearest = max((c for c in _nominal_columns(table) if c < column), default=0)
    return (row, nearest) if table.cells.is_number((row, nearest)) else None


@told_once
def _nominal_columns(table: Table) -> tuple[int, ...]:
    """The columns of nominal sizes."""
    heads = ((c, texts[0]) for c in table.values if (texts := table.head.texts.get(c)))
    return tuple(c for c, text in heads if is_nominal(text))


@told_once
def only_which(table: Table) -> bool:
    """Whether no head over values says what is measured."""
    own = table.head.texts
    return not any(table.head.which(c) is None and c in own for c in table.values)


def noun_over(table: Table, column: int) -> str:
    """The property that the head of a column names, "" where it names none."""
    own = [t for t in table.head.texts.get(column, ()) if which_of(t) is None]
    return noun_named(own[0]) if own else ""


@told_once
def _heads_of_rings(table: Table) -> frozenset[str]:
    """Heads "Top" and "2nd" side by side over rows that are numbered: rings, and no places."""
    counted = any(which_in_row(table, row, table.first).number for row in table.rows)
    counted = counted or any(is_office(table, c) for c in table.head.texts)  # A log of jobs.
    heads = {c: texts[0] for c in table.values if len(texts := table.head.texts.get(c, [])) == 1}
    ordinals = [t for t in heads.values() if ORDINAL.fullmatch(t)]
    about = (*table.titles, *table.head.corner)
    if not counted or len(ordinals) < 2 or any(map(names_a_part, about)):
        return frozenset()
    return frozenset(t for t in ordinals if names_a_ring(f"{t} ring", ()))


@told_once
def first_of_none_that_tells(table: Table) -> int:
    """The first column of numbers where no head says which one or when, 0 where one does."""
    heads = [c for c in table.values if c in table.head.texts or c in table.head.index]
    said = [w for c in heads if (w := table.head.which(c)) is not None]
    if not heads or any(w.tells or w.stage != "computed" for w in said):
        return 0
    numbers = (c for c in heads if any(map(table.cells.is_number, in_column(table, c))))
    first = next(numbers, 0)
    text = next(iter(table.head.texts.get(first, ())), "")
    return first if text and not meaning_of(text).candidates else 0


def property_of_rows(table: Table, column: int) -> str:
    """The head of a column that names a property of what the rows name, and no part of its own.

    Only in a list whose other columns say when: as found, finished.
    """
    text = next(iter(table.head.texts.get(column, ())), "")
    meaning = meaning_of(text)
    named = bool(text) and not meaning.part and bool(meaning.candidates)
    return text if named and _heads_say_when(table) else ""


@told_once
def _heads_say_when(table: Table) -> bool:
    """Whether two columns say no more than when their sizes were taken."""
    told = (table.head.which(c) for c in table.values)
    return len({w.stage for w in told if w and w.stage and w.stage not in NO_SIZES}) > 1


def stage_over(table: Table, column: int) -> Which:
    """When the sizes of a column were taken, as its heads say."""
    stages = (w for t in table.head.texts.get(column, ())[1:] if (w := which_of(t)) and w.stage)
    return next(stages, NOTHING)


@told_once
def only_apart(table: Table) -> frozenset[int]:
    """The columns whose heads only tell them apart below a title that says what is measured.

    "inner | outer" below "Stretch": of each bolt of a rod; "p.1 | p.2", "a | b": places on each.
    """
    own = {c: texts[0] for c in table.values if (texts := table.head.texts.get(c))}
    title = next(iter(table.titles), "")
    meaning = meaning_of(title) if title else None
    told = meaning.candidates if meaning and len(meaning.unknown) <= _A_REMARK else ()
    counted = {w.of for row in table.rows if (w := which_in_row(table, row, table.first))}
    terms = [term for c in told if c.cost <= 1 and (term := find(c.measurand))]
    over = {meaning_of(t).part for c in table.telling for t in table.head.texts.get(c, ())[:1]}
    terms = [t for t in terms if t.of and (counted in ({t.of}, {""}) or t.part in over)]
    if told and (of_two := _of_two_below_sides(table)):
        return of_two
    first = find(told[0].measurand) if told else None
    by_ports = any(said.side for text in own.values() if (said := which_of(text)))
    if first and not first.which and by_ports and all(map(_is_beside, own.values())):
        return frozenset(own) if len(own) >= _SEVERAL else frozenset()
    if not terms or any(term.noun in _BESIDE for term in terms):
        return frozenset()
    letters = _run_of_letters([*own.values()])
    apart = {
        c
        for c, text in own.items()
        if (text in letters or _POINT.fullmatch(text) or _is_one_of(text, terms[0].part, title))
        or (
            which_of(text) is None
            and not unit_in(text)  # "Power (kW)" below "Pulls" is no place.
            and (_OF_A_SIDE.fullmatch(text) or not meaning_of(text, (title,)).candidates)
        )
    }
    return frozenset(apart) if len({own[c] for c in apart}) >= _SEVERAL else frozenset()


def _is_beside(text: str) -> bool:
    """Whether a head says at which side of a part, by its ports or its ends: "lato scarico"."""
    said = which_of(text)
    counted = said is not None and (said.number or said.bank)
    return _OF_A_SIDE.fullmatch(text) is not None and not counted


# A place that a shop numbers on each part: "p.1", "Messpunkt a", "Punto 2".
_POINT = re.compile(
    r"(?:mess)?(?:p|pt|point|pkt|punkt|punto|stelle|lettura|lectura|lecture|reading|rdg)\.?\s?"
    r"(?:\d|[a-d])",
    re.IGNORECASE,
)
# A part of those that each has several of, by its letter: "Perno B".
_LETTERED = re.compile(r"(?P<name>[^\W\d_]{3,}) [A-D]")


def _of_two_below_sides(table: Table) -> frozenset[int]:
    """The columns of two valves by their letters, below both sides: "a | b" below "in | ex"."""
    own = {c: texts for c in table.values if (texts := table.head.texts.get(c))}
    both = {c: texts[0] for c, texts in own.items() if len(texts) > 1 and len(texts[0]) == 1}
    told = {c: which_of(own[c][1]) or NOTHING for c in both}
    pairs = {(w.side, both[c].casefold()) for c, w in told.items() if w.side in SIDES}
    whole = {(side, letter) for side in SIDES for letter in "ab"}
    return frozenset(both) if len(both) == len(own) and pairs == whole else frozenset()


def _run_of_letters(heads: Sequence[str]) -> frozenset[str]:
    """Heads that are letters from a on, of which the first may follow a word: "Point a | b | c"."""
    ends = [text.rpartition(" ")[2].casefold() for text in heads]
    alone = [text for text in heads if len(text) == 1]
    run = [*dict.fromkeys(end for end in ends if len(end) == 1)]
    counted = len(run) >= _SEVERAL and run == [chr(ord("a") + n) for n in range(len(run))]
    if not counted or len(alone) < len(heads) - 1:
        return frozenset()
    return frozenset(text for text, end in zip(heads, ends, strict=True) if end in run)


def _is_one_of(text: str, part: str, title: str) -> bool:
    """Whether a head names the part of a title with a letter, and nothing measured of it."""
    lettered = _LETTERED.fullmatch(text)
    alone = meaning_of(lettered["name"]) if lettered else None
    about = meaning_of(lettered["name"], (title,)) if lettered else None
    return any(m is not None and m.part in {part, *part.split("_")} for m in (alone, about))


def is_a_crankpin(table: Table, column: int, label: str) -> bool:
    """Whether a pin is the crank's: below "Rods", beside what its bearing measures."""
    words = label.casefold().split()[:1]
    if words not in (["pin"], ["pins"]) or counts(next(iter(table.titles), "")) != "rod":
        return False
    behind = [t for c in table.values if c > column for t in table.head.texts.get(c, ())[:1]]
    return any(meaning_of(text).part in _SHELLS for text in behind)


@told_once
def sides_before(table: Table) -> dict[int, str]:
    """The sides of heads that stand again behind one of each: "In height | shim | Ex …"."""
    own = {c: texts[0] for c, texts in table.head.texts.items() if texts}
    again = {c for c, text in own.items() if [*own.values()].count(text) == _SEVERAL}
    told: dict[int, str] = {}
    for column in sorted(own):
        side = side_said(own[column])
        told[column] = side or (told.get(column - 1, "") if column in again else "")
    sides = {told[c] for c in again}
    return {c: told[c] for c in again} if sides == SIDES else {}


@told_once
def parts_over(table: Table) -> dict[int, str]:
    """The parts that heads name and no more, {} where any names something else."""
    own = {c: texts[0] for c in table.values if (texts := table.head.texts.get(c))}
    if len(own) < _SEVERAL or any(which_of(t) is not None for t in own.values()):
        return {}
    told = {c: meaning_of(text) for c, text in own.items()}
    parts = {m.part for m in told.values()}
    only = all(m.part and (not m.candidates or m.candidates[0].cost > 1) for m in told.values())
    return own if only and len(parts) == len(own) else {}


@told_once
def _is_of_a_run(table: Table) -> bool:
    """Whether rows go by the engine's speed, as those of a run on a test stand do."""
    heads = [texts[0] for texts in table.head.texts.values() if texts]
    first = [c[0].measurand for t in heads if (c := meaning_of(t).candidates)]
    return "engine_speed" in first


def rings_over(table: Table, column: int, texts: Sequence[str]) -> list[str]:
    """The ring that the heads of a column are of, where heads list rings."""
    if not table.pistons:
        return [f"{t} ring" for t in texts if t in _heads_of_rings(table)]
    if not texts and column in table.head.index:
        return _RINGS_IN_ORDER[table.head.index[column].number - 1 :][:1]
    return _RINGS_IN_ORDER[-1:] if texts and meaning_of(texts[0]).part == "oil" else []


def given_over(
    table: Table, texts: Sequence[str], own: list[str], unit: str
) -> tuple[list[str], str]:
    """What an engine gives in the unit over a column of a run, and that unit; else the same.

    "Nm" beside "rpm" is no torque of bolts.
    """
    if not texts or not _is_of_a_run(table):
        return own, unit
    short = texts[0].casefold().strip(" .") in _METRIC_HORSEPOWER
    kind = meaning_of(texts[0]).unit if short or is_unit(texts[0]) else ""
    given = [_OF_A_RUN[kind]] if kind in _OF_A_RUN else own
    return given, "PS" if short else unit


def without_most(table: Table, row: int, column: int, text: str) -> str:
    """A head without the word for the most of what was measured, where that is no limit.

    "Max. bore dia" over a number for each cylinder, where no other head is about the bore.
    """
    bare = _MOST_OR_LEAST.sub("", text).strip(" ,.:")
    if bare == text or not bare or not which_in_row(table, row, column).number:
        return text
    mine = {c.measurand for c in meaning_of(bare).candidates[:1]}
    others = [t for c, texts in table.head.texts.items() if c != column for t in texts[:1]]
    about = {c.measurand for t in others for c in meaning_of(t).candidates[:1]}
    limits = any((w := which_of(t)) and w.stage in NO_SIZES for t in others)
    if limits or not mine or mine & about:
        return text
    several = table.cells.ask(_holds_several, *in_column(table, column))
    return bare if several else text


def head_of_a_bank(table: Table, text: str) -> Which | None:
    """The bank whose head a text names, below a title of what heads have: chambers, valves.

    "Left head" below "Chambers cc'd" is not measured itself.
    """
    words = text.split()
    title = meaning_of(next(iter(table.titles), ""))
    surely = bool(title.candidates) and title.candidates[0].cost <= _SEVERAL
    if len(words) != _SEVERAL or title.part in ("", "head") or not surely:
        return None
    for side, name in (words, words[::-1]):
        told = which_of(side)
        if told is not None and told.bank and meaning_of(name).part == "head":
            return Which(bank=told.bank)
    return None


def told_over(table: Table, column: int, texts: Sequence[str]) -> Which:
    """What the heads of a column say of which one it is, when, and in what unit."""
    told = NOTHING
    for text in texts:
        said = Which(stage="final") if is_finish(table, text, column) else which_of(text)
        said = said or head_of_a_bank(table, text)
        if said is not None:
            told = told.beside(said)
    settled = table.head.index.get(column)
    if settled is not None and settled.at == ("rear",) and not settled.bank:
        told = told._replace(bank="")  # An R beside the front.
    return told.beside(settled) if settled is not None else told


@told_once
def counts_journals(table: Table) -> bool:
    """Whether the head over what tells the rows apart names journals: "Jrnl" over M1 M2."""
    over = (t for c in table.telling for t in table.head.texts.get(c, ()))
    return any(map(is_journal, over))


def is_finish(table: Table, text: str, column: int) -> bool:
    """Whether "Finish" over a column means its finished size, by its decimals."""
    if text.strip(" .").casefold() not in words_of("finish_heads"):
        return False
    return table.cells.ask(_is_of_sizes, tuple(in_column(table, column)))


def labeled_before(table: Table, column: int) -> str:
    """The label of the nearest column on the left that has one."""
    for at in reversed([c for c in table.values if c < column]):
        own = [t for t in table.head.texts.get(at, ()) if which_of(t) is None]
        if own:
            return own[0]
    return ""


def _holds_several(sheet: Sheet, *cells: At) -> bool:
    """Whether the numbers of cells are not all the same."""
    return len({sheet.cells[at].value for at in cells}) >= _SEVERAL


def _is_of_sizes(sheet: Sheet, column: Sequence[At]) -> bool:
    """Whether a number among cells is written as a size is, and as no roughness: 4.03, 0.005."""
    values = (sheet.cells[at].value for at in column)
    return any(isinstance(v, float) and is_a_size(v) for v in values)
