"""What a column is about whose heads only say which one: corner and titles of its table say it."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.column_heads import SIDES, counts_journals, labeled_before
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.head import counted_part
from workbook_tools.labels.head_texts import says_where_alone
from workbook_tools.labels.job_columns import is_office
from workbook_tools.labels.named_heads import CRANK_PARTS, is_journal, names_a_part
from workbook_tools.labels.row_names import names_places
from workbook_tools.labels.row_whiches import which_in_row
from workbook_tools.labels.table import Table, all_titles, in_column, told_before, told_once
from workbook_tools.labels.titles import is_remark, surely_measures
from workbook_tools.labels.vocabulary import NO_SIZES, meaning_of, stage_of, unit_in
from workbook_tools.labels.which import TAKEN, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts
from workbook_tools.measurands.words import Meaning

_SEVERAL = 2
# How high on a bore; what only counts cylinders; and the parts that have bores alone.
_HEIGHTS = ("top", "middle", "bottom")
_OF_CYLINDERS = ("", "cylinder")
_BLOCK = "block"
_OF_A_BLOCK = ("", "block", "cylinder", "liner")
# Parts that a list of valves and springs goes by.
_COUNTED_BY_VALVES = ("port", "valve")
# Bolts that go by what they hold.
_BOLTS = ("rod_bolt", "main_bolt")
# How much smaller a reground journal is: more than a big end that was honed anew.
_LEAST_STEP, _MOST_STEP = 1.0015, 1.06
# What a text names that says no more than of which bearings it is.
_BEARINGS_ALONE = {
    "big_end": "rod", "rod_bearing": "rod", "main_bearing": "main", "main": "main",
}  # fmt: skip


def is_of_a_bore(table: Table, which: Which, over: Which | None) -> bool:
    """Whether a row says no more than how high a size of a cylinder was taken, and which way.

    "Top, thrust" below "Cyl 1" and "Cylinder block, as found".
    """
    places = bool({*which.at} & {*_HEIGHTS}) or any(at.endswith(" port") for at in which.at)
    if not places or over is None or not over.number or which.of not in _OF_CYLINDERS:
        return False
    about = [t for t in (*table.head.corner, *table.titles[:1]) if which_of(t) is None]
    told = [m for t in about if counts(t) is None and not is_remark(t) for m in [meaning_of(t)]]
    named = any(m.candidates or m.part not in _OF_A_BLOCK for m in told)
    return over.of == "cylinder" and not named


@told_once
def _are_beside_pistons(table: Table) -> bool:
    """Whether columns that only count cylinders stand beside one of their piston's size.

    "Cyl 1 | Cyl 2 | Piston | Clearance" in a log of jobs: what was bored.
    """
    told = map(table.head.which, table.head.texts)
    bare = [w for w in told if w and w.number and w == Which(w.number, of=w.of)]
    heads = {t for texts in table.head.texts.values() for t in texts[:1] if not which_of(t)}
    named = {c[0].measurand for t in heads if (c := meaning_of(t).candidates)}
    of_cylinders = len(bare) > 1 and {w.of for w in bare} <= {*_OF_CYLINDERS}
    return of_cylinders and "piston_diameter" in named and "bore" not in named


def subjects(table: Table, row: int, column: int, told: Which, corner: Sequence[str]) -> list[str]:
    """What a column is about whose heads only say which one: the table says it."""
    office = _over_office(table)
    corner = [t for t in corner if not is_a_bank(t)]
    corner.sort(key=lambda text: counts(text) is not None)  # "Big end ID" over "rod".
    if table.pistons:
        corner = [t for t in corner if meaning_of(t).part != "piston"]
    about = [t for t in corner if counts(t) != "cylinder" and t not in office]
    # "Rod" over numbers below a title that says what is measured of rods only counts.
    behind = [t for t in about if _is_counted_by_title(table, t)]
    about = [t for t in about if t not in behind] + [*all_titles(table), *behind]
    # A limit is of the sizes before it.
    if told.stage in NO_SIZES and (before := labeled_before(table, column)):
        about = [before, *about]
    worn = told.stage == "found" and _is_before_a_new_bore(table, column)
    if worn or is_of_a_bore(table, which_in_row(table, row, column), told):
        return ["Bore", *about]
    if told.of in _OF_CYLINDERS and told.number and _are_beside_pistons(table):
        return ["Bore", *about]
    counted = all(counts(t) is not None for t in corner)
    parts = any(
        names_a_part(t) for t in about if counts(t) != "cylinder" and meaning_of(t).part != _BLOCK
    )
    unnamed = counted and not parts and all(map(_says_only_when, table.titles))
    of = which_in_row(table, row, column).of
    if told.stage and (journal := next((t for t in _over_index(table) if is_journal(t)), "")):
        return [journal, *about]
    of_crank = told.stage or ((told.at or told.bank) and counts_journals(table))
    if of in CRANK_PARTS and of_crank and not any(map(_names_another_part, about[:-1])):
        return [CRANK_PARTS[of], *about]
    stage = told.stage or which_in_row(table, row, column).stage
    bare = _bearings_alone(about[0]) if stage in TAKEN and about else ""
    if bare and _is_ground_down(table):
        return [CRANK_PARTS[bare], *about]
    of_cylinders = bool(told.stage or told.at) and of in ("cylinder", "")
    if told.of in CRANK_PARTS and told.number and not any(_is_of_part(told.of, t) for t in about):
        return [CRANK_PARTS[told.of], *about]  # "HL 1" in a list that nothing else names.
    about.sort(key=_says_little)
    if not (about and unnamed and of_cylinders):
        return about
    heads = {text.casefold() for texts in table.head.texts.values() for text in texts}
    about = [t for t in about if not _says_only_when(t)]
    return ["Journal" if heads & words_of("ground_sizes") else "Bore", *about]


def _says_little(text: str) -> int:
    """How little a text says of what is measured, the least for one that says it surely.

    A word that nobody knows says less than a title, "Corner" below "Deck height", and so does a
    part alone: "Piston" below "Ring side clearance".
    """
    meaning = meaning_of(text)
    if not meaning.candidates:
        return 2
    return int(meaning.candidates[0].cost > 1 or bool(meaning.unknown))


def _is_before_a_new_bore(table: Table, column: int) -> bool:
    """Whether the next head that names something is of the new bore: "Worn top | New sleeve"."""
    heads = (table.head.texts.get(c, ()) for c in table.values if c > column)
    behind = (next((t for t in texts if not is_unit(t)), "") for texts in heads)
    named = next((meaning_of(t) for t in behind if t and which_of(t) is None), None)
    is_bore = named is not None and named.candidates[:1] and named.candidates[0].cost <= 3
    return bool(is_bore and named and named.candidates[0].measurand == "bore" and stage_of(named))


@told_once
def _is_ground_down(table: Table) -> bool:
    """Whether work made sizes smaller, by a step: what was ground is no hole."""
    stages = {c: w.stage for c in table.values if (w := table.head.which(c)) and not w.tells}
    before = [c for c, stage in stages.items() if stage == "found"]
    after = [c for c, stage in stages.items() if stage == "machined"]
    pairs = [((r, before[0]), (r, after[0])) for r in table.rows] if before and after else []
    if not pairs:
        by_row = {r: which_in_row(table, r, table.first).stage for r in table.rows}
        before = [r for r, stage in by_row.items() if stage == "found"]
        after = [r for r, stage in by_row.items() if stage == "machined"]
        if len(before) == len(after) == 1:
            pairs = [((before[0], c), (after[0], c)) for c in table.values]
    return bool(pairs) and table.cells.ask(_are_a_step_below, tuple(pairs))


def _is_counted_by_title(table: Table, text: str) -> bool:
    """Whether the nearest title surely names what is measured of what a text counts."""
    of = counts(text)
    told = [meaning_of(title) for title in table.titles[:1]]
    # "Main bores" may mean one thing only.
    sure = (m.candidates[0] for m in told if m.candidates if len(m.candidates) == 1 or _is_sure(m))
    terms = (find(c.measurand) for c in sure)
    return of in CRANK_PARTS and any(term is not None and term.of == of for term in terms)


def _is_sure(meaning: Meaning) -> bool:
    """Whether words leave nothing to be assumed."""
    return meaning.candidates[0].cost == 0


@told_once
def _over_office(table: Table) -> frozenset[str]:
    """The heads of what says whose a row is: in a log they say nothing of what is measured."""
    heads = table.head.texts.items()
    return frozenset(t for c, texts in heads if is_office(table, c) for t in texts)


@told_once
def _over_index(table: Table) -> Sequence[str]:
    """The heads over the columns that count the rows."""
    return [t for c in table.index for t in table.head.texts.get(c, ())]


@told_once
def _are_of_bolts(table: Table) -> bool:
    """Whether the nearest title names bolts, so that rods or mains below it only count them."""
    return any(meaning_of(title).part in _BOLTS for title in table.titles[:1])


def _is_over_units(table: Table, column: int) -> bool:
    """Whether a head over the units of rows says what is measured: "Liner proud" over mm."""
    texts = table.head.texts.get(column, ()) if column in table.units else ()
    plain = {text.casefold().strip(" .:") for text in texts}
    return not plain & words_of("unit_heads") and any(map(surely_measures, texts))


def _begins_with_a_place(table: Table, column: int) -> bool:
    """Whether the first text below a head says where on a part: "Top" below "Height"."""
    first = next((table.cells.text(*at) for at in in_column(table, column)), "")
    said = which_of(first)
    return said is not None and bool(said.at)


def corner_texts(table: Table, column: int) -> list[str]:
    """The heads over the names and numbers of the rows."""
    told = told_before(table, column)
    if told not in table.kept.corners:
        # A head with nothing below it speaks for the others: "Torque | mains | rods".
        alone = [c for c in table.head.texts if c < table.first]
        alone = [c for c in alone if not in_column(table, c) or _is_over_units(table, c)]
        telling = sorted({*table.telling[:told], *alone})
        beside = [c for c in telling if not is_office(table, c)]
        texts = [
            t
            for c in reversed(beside)
            for t in table.head.texts.get(c, ())
            if not (c in table.index and counts(t) is None and _only_counts_part(t))
            if not (c in table.pistons and meaning_of(t).part == "piston")
            if not (c in table.index and _is_bare_below_title(table, t))
            if meaning_of(t).part or _measures_places(t) or not names_places(table, c)
            if not (counts(t) is not None and _are_of_bolts(table))
            if not (says_where_alone(t) and _begins_with_a_place(table, c))
        ]
        # "Cyl" or "No." over the names of rows says nothing of what is measured.
        table.kept.corners[told] = [
            t for t in dict.fromkeys(texts)
            if not is_unit(t) and counts(t) not in ("", "bearing") and not _says_places(t)
            if not _is_of_both_sides(t)
        ]  # fmt: skip
    return table.kept.corners[told]


def _is_bare_below_title(table: Table, text: str) -> bool:
    """Whether a head over counted rows names a part alone, below a title that says what of it.

    "Port" below "Installed heights".
    """
    own = meaning_of(text)
    bare = own.part in _COUNTED_BY_VALVES and all(c.cost > 0 for c in own.candidates)
    title = meaning_of(next(iter(table.titles), ""))
    sure = bool(title.candidates) and title.candidates[0].cost <= 1
    return bare and counts(text) is None and sure and title.part != own.part


def _measures_places(text: str) -> bool:
    """Whether a head over places says by a property what is measured there: "Unbalance (oz-in)"."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].cost <= 1 and which_of(text) is None


def _says_places(text: str) -> bool:
    """Whether a head says that places stand below it: "Messebene"."""
    return text.casefold().strip(" .:#") in words_of("place_heads")


def _is_of_both_sides(text: str) -> bool:
    """Whether a head says that intakes and exhausts stand below it, and no more: "In/Ex"."""
    plain = "".join(text.casefold().split()).strip(".:")
    told = {w.side for part in text.split("/") if (w := which_of(part.strip())) is not None}
    return plain in words_of("both_sides") or told == SIDES


def _only_counts_part(text: str) -> bool:
    """Whether a head over numbers counts a part that it names, and says no property: "Crankpin"."""
    candidates = meaning_of(text).candidates
    sized = bool(candidates) and (candidates[0].cost == 0 or bool(unit_in(text)))
    return bool(counted_part(text)) and not sized


def _says_only_when(title: str) -> bool:
    """Whether a title only says what was done or when, or to the block: "Rebore report"."""
    told = meaning_of(title)
    said = stage_of(told) == "machined" or stage_of(told) in TAKEN or told.part == _BLOCK
    return said and not (told.candidates or told.part not in ("", _BLOCK) or told.section)


def is_a_bank(text: str) -> bool:
    """Whether a text names a bank and nothing else: "LEFT BANK"."""
    said = which_of(text)
    return said is not None and bool(said.bank) and not said.number


def _is_of_part(part: str, text: str) -> bool:
    """Whether a title names a part, or what may be measured of this one."""
    meaning = meaning_of(text)
    named = meaning.part not in ("", "crank", "engine")  # "Crank register" is over mains and pins.
    return named or any(one.measurand.startswith(part) for one in meaning.candidates)


def _names_another_part(text: str) -> bool:
    """Whether a text names a part, and does not only count the rows: "Mains"."""
    return names_a_part(text) and counts(text) is None


def _are_a_step_below(sheet: Sheet, pairs: Sequence[tuple[At, At]]) -> bool:
    """Whether the second size of each pair is the first less what a grinder takes off."""
    held = [[sheet.cells.get(at) for at in pair] for pair in pairs]
    sizes = [[c.value for c in pair if c and isinstance(c.value, (int, float))] for pair in held]
    both = [(one, other) for one, other in (pair for pair in sizes if len(pair) == _SEVERAL)]
    ground = [o > 0 and _LEAST_STEP < one / o < _MOST_STEP for one, o in both]
    return bool(both) and all(ground)


def _bearings_alone(text: str) -> str:
    """The bearings that a text names, "" where it says what is measured of them."""
    meaning = meaning_of(text)
    alone = all(c.cost > 1 for c in meaning.candidates)
    return _BEARINGS_ALONE.get(meaning.part, "") if alone else ""
