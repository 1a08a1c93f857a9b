"""The texts that name the values of a row, its own or those of rows and titles over it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.column_heads import only_which
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.continued_labels import goes_on
from workbook_tools.labels.job_columns import is_office, lists_jobs, place_columns
from workbook_tools.labels.named_heads import (
    CRANK_PARTS,
    ORDINAL,
    names_a_bearing,
    names_a_part,
)
from workbook_tools.labels.row_names import has_measuring_heads, is_code
from workbook_tools.labels.row_whiches import texts_before, which_in_row
from workbook_tools.labels.rows_told_apart import rows_told_apart
from workbook_tools.labels.runs import roman
from workbook_tools.labels.subjects import corner_texts, is_a_bank, is_of_a_bore
from workbook_tools.labels.table import Table, all_titles, told_before, told_once
from workbook_tools.labels.vocabulary import meaning_of, stage_said
from workbook_tools.labels.which import EITHER, TAKEN, Which
from workbook_tools.labels.which_told import which_of, without_stage
from workbook_tools.measurands.position import counts

_THREAD = re.compile(r"M\d{1,2}(?:[.,]\d)?\s*[x×]", re.IGNORECASE)
# What is measured of parts of which a row says no more than when: "Worn", "Honed to".
_STAGED_PARTS = {**CRANK_PARTS, "cylinder": "Bore"}
_REMARK = re.compile(r"\s*\([^()]*\)")
_DASHES = " -–—"
# What a head that measures without a doubt has at least, of 1.
_SURELY = 0.5
# A size and how far it is from round differ by more than so many times.
_FAR = 50
# A longer text is a remark.
_WORDS_OF_A_TITLE = 5


@told_once
def _labels_that_count(table: Table) -> frozenset[str]:
    """Names of rows that say which one and what: "Main journal 2", where no head says what."""
    if not only_which(table):
        return frozenset()
    texts = {t for row in table.rows for t, _ in texts_before(table, row, table.first)}
    if any(which_of(t) is None and not roman(t) for t in texts):
        return frozenset()
    # "As rec'd A" says when, and of what no more than "Limit low" does.
    texts = {t for t in texts if (w := which_of(t)) is None or w.tells or not w.stage}
    places = {
        t for t in texts if (w := which_of(t)) is not None and w.at and not (w.number or w.of)
    }
    if places:  # "2nd" behind "front" is a place too, and "top pin" no piston pin.
        texts = {t for t in texts - places if not ORDINAL.fullmatch(t)}
    # "R1" beside "M1" counts rods, and no rings.
    whiches = (which_in_row(table, row, table.first) for row in table.rows)
    if any(which.of == "rod" for which in whiches):
        texts = {t for t in texts if not is_code(t)}
    texts = {t for t in texts if len(t.strip(" .")) > 1}  # An A beside a B is no exhaust.
    named = {t for t in texts if (m := meaning_of(t).candidates) and m[0].cost <= 2}
    counted = {t: counts(re.sub(r"\d+", "", t).strip(" #.")) for t in named}
    return frozenset(t for t in named if counted[t] not in ("", "cylinder"))


def own_texts(table: Table, row: int, column: int) -> list[tuple[str, At]]:
    """The texts before a value in its row that say what is measured."""
    texts = texts_before(table, row, column)
    counted, codes = table.counted, place_columns(table)
    own = [
        (t, at)
        for t, at in texts
        if at not in counted and not (at[1] in codes and is_code(t)) and _is_label(table, t)
        if not (lists_jobs(table) and is_office(table, at[1])) and t not in rows_told_apart(table)
    ]
    if not own and (table.head.is_list or not has_measuring_heads(table)):
        # In a list "Crankpin 1 ground" says what is measured too.
        own = [(t, at) for t, at in texts if names_a_bearing(t)]
    if not own and len(texts) == 1 and is_unit(texts[0][0]):
        # "cc" alone before a size of each cylinder.
        own = [(t, at) for t, at in texts if meaning_of(t).candidates]
    several = max(_begins_at(table), _list_of_a_part(table, column))
    begins = several if len(own) > 1 else _list_begins(table, column)
    # Before a table that begins further right a label has its own value: it names no others.
    return [
        (t, at)
        for t, at in own
        if at[1] >= begins
        or not any(table.cells.is_value((row, c)) for c in range(at[1] + 1, begins))
    ]


def _list_begins(table: Table, column: int) -> int:
    """Where the list of a column begins whose head over the names says what is measured.

    "Stretch" over "rod 1", beside a list of torques.
    """
    nearest = max((c for c in table.names if c < column), default=0)
    head = table.head.texts.get(nearest, [""])[0]
    beside = any(c < nearest for c in table.values) and which_of(head) is None
    return nearest if head and beside and how_surely_measures(table, head, ()) > _SURELY else 0


def _list_of_a_part(table: Table, column: int) -> int:
    """Where the list of a column begins whose head over the names says of which part it is.

    "Kurbelwelle" over "Axialspiel", beside a list of what cylinders have.
    """
    nearest = max((c for c in table.names if c < column), default=0)
    head = table.head.texts.get(nearest, [""])[0]
    beside = any(c < nearest for c in table.values) and which_of(head) is None
    meaning = meaning_of(head) if head and beside else None
    return nearest if meaning and meaning.part and not meaning.candidates else 0


@told_once
def _begins_at(table: Table) -> int:
    """The column of the text that names what the heads count: "Journal" before 1 2 3 4."""
    row = table.head.rows[-1]
    firsts = (c for c, which in sorted(table.head.index.items()) if which.number == 1)
    named = (c - 1 for c in firsts if counts(table.cells.text(row, c - 1)) is not None)
    return next(named, 0)


def _is_label(table: Table, text: str) -> bool:
    """Whether a text before a value says what is measured, and no more than which one."""
    if _THREAD.match(text):
        return False
    said = which_of(text)
    if said is None:
        return not roman(text)
    # "Top ring" is a label where no head says what is measured.
    ring = said.side not in ("", "intake", "exhaust", EITHER)
    return text in _labels_that_count(table) or (ring and only_which(table))


def continues_row_above(table: Table, row: int) -> bool:
    """Whether a row only says where on what the row above it measures."""
    own = own_texts(table, row, table.first)
    return not own and bool(_labels_over(table, row, table.first))


def how_surely_measures(table: Table, text: str, headings: Sequence[str]) -> float:
    """How sure a text says what is measured, from 0 to 1."""
    meaning = meaning_of(text, (*headings, *table.head.corner, *table.titles))
    if not meaning.candidates:
        return 0.0
    return max(0.1, 1 - meaning.candidates[0].cost / 8 - len(meaning.unknown) / 4)


def _about_all(table: Table, column: int, staged: bool, of_row: str = "") -> list[str]:
    """What the corner and the titles say of a row that only says which one, or when."""
    about = (t for t in (*corner_texts(table, column), *table.head.corner) if not is_a_bank(t))
    bare = [_REMARK.sub("", t) for t in about]
    named = [t for t in bare if counts(t) not in ("", "cylinder", "bearing")]
    told = table.head.which(column) if staged else None
    of = (told.of if told else "") or of_row
    of = of or ("cylinder" if told and "cylinder" in map(counts, bare) else "")
    if not of and staged and not named and _names_pistons(table):
        of = "cylinder"  # "came in" and "finished" beside the pistons that go in.
    parts = [*named, *all_titles(table)[:2]]
    if of == "rod" and table.cells.ask(_is_of_a_crank):
        # "RODS" on a crankshaft's card only counts: what is ground there are its pins.
        parts = [t for t in named if counts(t) != "rod"]
    if of in _STAGED_PARTS and not any(map(names_a_part, parts)):
        named.insert(0, _STAGED_PARTS[of])
    if named and table.titles and _measures(table.titles[0]) and not _measures(named[0]):
        return [*table.titles, *named]  # "Piston" over counted heads below "Ring side clearance".
    return [*named, *table.titles]


def _measures(text: str) -> bool:
    """Whether a text says what is measured, and does not only name a part."""
    meaning = meaning_of(text)
    return bool(meaning.candidates) and meaning.candidates[0].cost <= 1 and not meaning.unknown


@told_once
def _names_pistons(table: Table) -> bool:
    """Whether a row of the table names the size of pistons, and none the bores."""
    texts = [t for row in table.rows for t, _ in texts_before(table, row, table.first)]
    first = {c[0].measurand for t in texts if (c := meaning_of(t).candidates)}
    return "piston_diameter" in first and "bore" not in first


def names_of_values(table: Table, row: int, column: int, unit: str) -> Sequence[tuple[str, At]]:
    """What names the values of a row, first the one that says what is measured.

    Not "oil" beside a bolt.
    """
    own = _names_of(table, row, column)
    which = which_in_row(table, row, column)
    if not own and (which.tells or which.stage):
        staged = bool(which.stage or which.at)
        over = table.head.which(column)
        of_row = which.of if over is not None and over.stage and not which.stage else ""
        about = _about_all(table, column, staged, of_row)
        if is_of_a_bore(table, which, over):
            about = ["Bore", *about]
        if not about and which.stage == "computed":
            return texts_before(table, row, column)[:1]  # "diff." below two sizes.
        return [(t, (row, column)) for t in about][:1]
    return sorted(own, key=lambda o: _tells_less(table, o[0], unit)) if len(own) > 1 else own


def _tells_less(table: Table, name: str, unit: str) -> tuple[bool, bool]:
    return _is_of_another_kind(name, unit), how_surely_measures(table, name, ()) <= 0.2


def _names_of(table: Table, row: int, column: int) -> list[tuple[str, At]]:
    """The texts that name the values of a row, its own or those of a row above."""
    at = row, told_before(table, column)
    if at not in table.kept.names:
        own = own_texts(table, row, column)
        said = which_in_row(table, row, column)
        if not own and (said.tells or said.stage in TAKEN):
            own = _labels_over(table, row, column)
            other = (own[0][1][0], column) if own and said.stage in TAKEN else None
            if other and table.cells.ask(_is_far_from, (row, column), other):
                own = []  # "ground" below "out of round" is of the sizes over both.
            own = own or _label_below(table, row, column, said)
        if own and said.stage in TAKEN and own[0][1][0] != row:
            # "Bore as received" over "finished": when it was taken its own row says.
            own = [(without_stage(t).rstrip(_DASHES), o) for t, o in own]
        table.kept.names[at] = own
    return table.kept.names[at]


def _is_of_another_kind(text: str, unit: str) -> bool:
    """Whether a text names nothing that is measured in a unit."""
    return bool(unit) and not meaning_of(f"{text} ({unit})").candidates


def _labels_over(table: Table, row: int, column: int) -> list[tuple[str, At]]:
    """The labels of the nearest row above that has one, where this one only says where."""
    told = told_before(table, column)
    if told not in table.kept.over:
        over: dict[int, list[tuple[str, At]]] = {}
        nearest: list[tuple[str, At]] = []
        for own_row in table.rows:
            over[own_row] = nearest
            nearest = own_texts(table, own_row, column) or nearest
        table.kept.over[told] = over
    own = table.kept.over[told][row]
    if own and (label := goes_on(own[0][0], table.cells.text(row, own[0][1][1]))):
        return [(label, (row, own[0][1][1])), *own[1:]]  # "ex" below "stem in"
    if not own or (row, own[0][1][1]) not in table.cells.kinds:
        return own
    # "– after" below "recession – before" in the same column is of the same.
    text = table.cells.text(row, own[0][1][1])
    earlier, later = stage_said(own[0][0]), stage_said(text.strip(_DASHES))
    dashed = text[:1] in ("-", "–", "—")
    same = later in TAKEN and (dashed or later != earlier in TAKEN)
    return own if same and own[0][1][0] == row - 1 else []


def _label_below(table: Table, row: int, column: int, said: Which) -> list[tuple[str, At]]:
    """What the row below measures, where it was worked to: "came in" over "honed to"."""
    later = next((r for r in table.rows if r > row), 0)
    own = own_texts(table, later, column) if later and said.stage == "found" else []
    worked = bool(own) and stage_said(own[0][0]) in ("final", "machined")
    if worked and meaning_of(own[0][0]).part == "piston":
        return []  # Pistons are bought: what came in is the block.
    return own if worked and not said.tells else []


def _is_of_a_crank(sheet: Sheet) -> bool:
    """Whether a text of a sheet names a crankshaft and nothing measured of it, or counts mains."""
    texts = [cell.value for cell in sheet.cells.values() if isinstance(cell.value, str)]
    short = [text for text in texts if len(text.split()) <= _WORDS_OF_A_TITLE]
    return any(
        counts(_REMARK.sub("", text)) == "main"
        or (meaning_of(text).part == "crank" and not meaning_of(text).candidates)
        for text in short
    )


def _is_far_from(sheet: Sheet, at: At, other: At) -> bool:
    """Whether the numbers of two cells are of other magnitudes."""
    held = [cell.value for cell in map(sheet.cells.get, (at, other)) if cell is not None]
    sizes = [abs(value) for value in held if isinstance(value, (int, float))]
    return len(sizes) > 1 and min(sizes) * _FAR < max(sizes)
