"""Which one each row of a table is of, by names in short or with a number."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.head import counted_part, of_stations
from workbook_tools.labels.named_heads import is_ordinal_of_rings, names_a_ring
from workbook_tools.labels.runs import is_run
from workbook_tools.labels.table import BareTable, in_column, told_once
from workbook_tools.labels.valve_names import SIDE_OF_WORD
from workbook_tools.labels.vocabulary import Stage, meaning_of
from workbook_tools.labels.which import EITHER, NOTHING, WORKED, Which
from workbook_tools.labels.which_told import which_of

# Which one in a list that has a column for it: "C1", "T3".
CODE = re.compile(r"[^\W\d_]{1,2}[. ]?(?P<number>\d{1,2})")
COUNTED = re.compile(
    r"(?P<word>[^\W\d_]+)\.?\s*(?:n[o°º]\.?\s*)?#?(?P<number>\d{1,2})"
    r"(?:\s?[-/&]\s?(?P<last>\d{1,2}))?",
    re.IGNORECASE,
)
_FEWEST_LETTERS = 3
_FEWEST_COUNTED = 2
# One of two of a kind: the front inlet valve of a cylinder, the second bolt of a rod.
_ONE_OF_TWO = re.compile(r"#?(?P<number>\d{1,2})[ ./-]?(?P<letter>[FRAB])", re.IGNORECASE)
_TWO_OF_A_KIND = ({"f", "r"}, {"a", "b"})
_ENDS = {"f": ("front",), "r": ("rear",)}
# So many heads of sizes make a table whose rows are named by what is counted.
_FEWEST_MEASURING = 3
# A column of these is of intake and exhaust valves, and of no Roman ones.
_VALVES = ({"i": "intake", "e": "exhaust"}, {"ein": "intake", "aus": "exhaust"})
# No bore or journal is smaller, in inches or in millimeters.
_LEAST_OF_A_PART = 0.5
# What sizes say that stand below those as found.
_HAND_AND_SIDE = ("side", "hand")
_HANDS = {"l": "left", "lh": "left", "left": "left", "r": "right", "rh": "right", "right": "right"}
_PISTONS_IN_SHORT = ("p", "k")


def stages_in(table: BareTable, column: int) -> list[tuple[int, Stage]]:
    """The stage of each row in a column that holds nothing but stages."""
    said = [(row, which_of(table.cells.text(row, at))) for row, at in in_column(table, column)]
    only: list[tuple[int, Stage]] = [
        (row, w.stage) for row, w in said if w is not None and w.stage and not w.tells
    ]
    # What all rows say alike tells none from another: "to do".
    return only if len(only) == len(said) and len({s for _, s in only}) > 1 else []


def counted_names(table: BareTable, column: int) -> dict[At, Which]:
    """The names of rows in a column that say in their own way which one a row is of, or when."""
    texts = {at: table.cells.text(*at) for at in in_column(table, column)}
    told = {at: Which(stage="final") for at in _finished(table, texts)}
    told |= dict(_old_and_worked(table, texts))
    own = _in_short(table, texts) or names_of_pistons(table, column)
    return {**told, **(own or _numbered(table, texts))}


def names_of_pistons(table: BareTable, column: int) -> dict[At, Which]:
    """The names of rows that count pistons below heads of rings, {} for any other column.

    "Piston 1" says there whose they are, and no size of its own.
    """
    texts = {at: table.cells.text(*at) for at in in_column(table, column)}
    told = {at: found for at, text in texts.items() if (found := COUNTED.fullmatch(text))}
    words = {found["word"].casefold() for found in told.values()}
    if len(words) != 1 or not _heads_rings(table, column) or not _counts_pistons(*words):
        return {}
    if _in_short(table, texts):
        return {}
    return {at: Which(int(found["number"]), of="cylinder") for at, found in told.items()}


def _numbered(table: BareTable, texts: Mapping[At, str]) -> dict[At, Which]:
    """The names of rows that are one word, not understood, with a number that counts."""
    told = {at: found for at, text in texts.items() if (found := COUNTED.fullmatch(text))}
    words = {found["word"].casefold() for found in told.values()}
    if len(words) != 1 or len(told) < _FEWEST_COUNTED or which_of(texts[next(iter(told))]):
        return {}
    if not is_run([int(f["number"]) for f in told.values()]):
        return {}
    # "Pin 1" below heads of sizes is a crankpin, and what is measured of it they say.
    others = [w.of for at, text in texts.items() if at not in told and (w := which_of(text))]
    measured = _measuring_heads(table) >= _FEWEST_MEASURING or "main" in others
    of = counted_part(*words) if measured else ""
    if meaning_of(*words).candidates and not of:
        return {}
    return {at: Which(int(f["number"]), int(f["last"] or 0), of=of) for at, f in told.items()}


def _in_short(table: BareTable, texts: Mapping[At, str]) -> Mapping[At, Which]:
    """The names of rows that are a valve's letter, a main's or a pin's, or one of two each."""
    letters = {at: text.casefold().strip(" .") for at, text in texts.items() if text}
    for valves in _VALVES:
        if {*letters.values()} == {*valves}:
            return {at: Which(side=valves[letter]) for at, letter in letters.items()}
    if {*letters.values()} == {*_ENDS}:
        return {at: Which(at=_ENDS[letter]) for at, letter in letters.items()}
    if own := of_stations(texts) or _mains_and_pins(texts) or _valves_by_hand(texts):
        return own
    if lettered := _lettered(table, texts):
        return lettered
    of_two = _of_two(texts)
    table.cells.indexes |= {*of_two}  # "1F" is no temperature.
    return of_two


def _finished(table: BareTable, texts: Mapping[At, str]) -> Iterator[At]:
    """The names of rows that say "finish" of sizes, below a row of what was found."""
    found = any((w := which_of(text)) and w.stage == "found" for text in texts.values())
    for at, text in texts.items() if found else ():
        named = text.casefold().strip(" .:") in words_of("finish_heads")
        others = [c for c in table.block.rows[at[0]] if c > at[1]]
        places = tuple([(at[0], c) for c in others])
        if named and places and table.cells.ask(_are_sizes, places):
            yield at


def _old_and_worked(table: BareTable, texts: Mapping[At, str]) -> Iterator[tuple[At, Which]]:
    """The names of rows of sizes that say no more than that they were machined, or are old.

    "Rectificado" below numbered mains is no depth of a cut, and "alt" no height.
    """
    counting = [c for c, which in table.head.index.items() if which.number]
    if len(counting) < _FEWEST_COUNTED:
        return
    even = {at: text.casefold().strip(" .:") for at, text in texts.items()}
    worked = [at for at, text in even.items() if text in words_of("worked_sizes")]
    later = worked or [at for at in texts if (w := which_of(texts[at])) and w.stage in WORKED]
    for at, text in even.items():
        sizes = tuple([(at[0], c) for c in counting if _fills(table, at, c)])
        if len(sizes) < _FEWEST_COUNTED or not table.cells.ask(_are_large, sizes):
            continue
        if at in worked:
            yield at, Which(stage="machined")
        elif later and text in words_of("old_sizes"):
            yield at, Which(stage="found")


def _fills(table: BareTable, at: At, column: int) -> bool:
    return table.cells.is_number((at[0], column))


def _heads_rings(table: BareTable, column: int) -> bool:
    """Whether several heads behind a column each name a ring, or one by its number."""
    about = table.head.texts.get(column, ())
    heads = [t[0] for c, t in table.head.texts.items() if c > column and t]
    rings = [t for t in heads if is_ordinal_of_rings(t) or names_a_ring(t, about)]
    sides = {w.side for t in heads if (w := which_of(t)) is not None}
    named = sides - {"", "intake", "exhaust", EITHER}
    first = [w.number for c, w in table.head.index.items() if c > column and w.number]
    if named and first[:2] == [1, 2]:
        return True  # "1º | 2º | Aceite"
    return len(rings) >= _FEWEST_COUNTED and len(rings) * 2 > len(heads)


@told_once
def has_measuring_heads(table: BareTable) -> bool:
    """Whether any head says what is measured below it."""
    return _measuring_heads(table) > 0


def _measuring_heads(table: BareTable) -> int:
    """How many heads say what is measured below them."""
    texts = [own[0] for own in table.head.texts.values() if own and which_of(own[0]) is None]
    return sum(bool(meaning_of(text).candidates) for text in texts)


def parts_each(table: BareTable, column: int) -> bool:
    """Whether a column only tells apart what is of one part: places, valves, rings, states."""
    if names_places(table, column) or _names_valves(table, column):
        return True
    texts = [text for at in in_column(table, column) if (text := table.cells.text(*at))]
    if {text.casefold().strip(" .") for text in texts} == {*_ENDS}:
        return True
    told = [which_of(text) or NOTHING for text in texts]
    sides = {w.side if w == Which(side=w.side) else "" for w in told}
    stages = {w.stage if w == Which(stage=w.stage) else "" for w in told}
    return any(len(each) > 1 and "" not in each for each in (sides, stages))


def carried_names(table: BareTable, names: Sequence[int]) -> dict[int, Which]:
    """Which one rows are of that only say where, or of which valve, by a name above them.

    "Cyl 1 | IN" over " | EX" begins a cylinder, and so does "Cyl 1 | top".
    """
    found: dict[int, Which] = {}
    for column in names:
        behind = [c for c in names if c > column and parts_each(table, c)]
        said = {row: which_of(table.cells.text(row, column)) for row in table.rows}
        named = {row: w for row, w in said.items() if (row, column) in table.cells.kinds}
        if not behind or not all(w is not None and w.number for w in named.values()):
            continue
        last = NOTHING
        for row in table.rows:
            last = named.get(row) or last
            if row not in named and any((row, c) in table.cells.kinds for c in behind):
                found[row] = Which(last.number, last.last, last.bank, of=last.of)
    return found


def is_name(table: BareTable, row: int, column: int, text: str) -> bool:
    """Whether a cell before a value names it: a text, or a unit that says what: "cc"."""
    kind = table.cells.kinds.get(table.cells.down_from((row, column)))
    return kind == "text" or (kind == "unit" and bool(meaning_of(text).candidates))


def names_places(table: BareTable, column: int) -> bool:
    """Whether all texts of a column are places on each part: top, middle, bottom."""
    texts = {at: table.cells.text(*at) for at in in_column(table, column)}
    told = [which_of(text) for text in texts.values() if text]
    if len(told) > 1 and all(w is not None and w.at and not w.number for w in told):
        return True
    return bool(_valves_by_hand(texts))


def _names_valves(table: BareTable, column: int) -> bool:
    """Whether all texts of a column say which valve of a cylinder each row is of: in, ex."""
    texts = [text for at in in_column(table, column) if (text := table.cells.text(*at))]
    if {text.casefold().strip(" .") for text in texts} in [{*valves} for valves in _VALVES]:
        return True
    sides = {w.side if w is not None and not w.number else "" for w in map(which_of, texts)}
    return {"exhaust"} < sides <= {"intake", "exhaust", EITHER}


def _are_large(sheet: Sheet, cells: Sequence[At]) -> bool:
    """Whether numbers are as large as a part, and no cut of one."""
    values = (sheet.cells[at].value for at in cells)
    return not any(isinstance(v, (int, float)) and abs(v) < _LEAST_OF_A_PART for v in values)


def _are_sizes(sheet: Sheet, cells: Sequence[At]) -> bool:
    """Whether all cells hold numbers that are written as sizes are."""
    values = (sheet.cells[at].value for at in cells)
    return all(isinstance(v, float) and is_a_size(v) for v in values)


def is_a_size(value: float) -> bool:
    """Whether a number is written as a size is, and as no roughness: 9.01, .0052."""
    decimals = len(f"{value:.10g}".partition(".")[2])
    return decimals > 2 or (decimals == 2 and value > 1)


def _mains_and_pins(texts: Mapping[At, str]) -> dict[At, Which]:
    """The names of rows that number mains and their pins: "Pin 1" below "Main 1" is a crankpin."""
    told = {at: found for at, text in texts.items() if (found := COUNTED.fullmatch(text))}
    of = {word: counted_part(word) for word in {found["word"] for found in told.values()}}
    if len(of) != 2 or {*of.values()} != {"main", "rod"}:
        return {}
    return {at: Which(int(one["number"]), of=of[one["word"]]) for at, one in told.items()}


def _valves_by_hand(texts: Mapping[At, str]) -> dict[At, Which]:
    """The names of rows that are a left and a right valve of either side: "IN L", "EX R"."""
    found = {}
    for at, text in texts.items():
        words = re.split(r"[\s./-]+", text.casefold().strip(" ."))
        sides = [SIDE_OF_WORD[w] for w in words if w in SIDE_OF_WORD]
        hands = [_HANDS[w] for w in words if w in _HANDS]
        if len(words) != len(_HAND_AND_SIDE) or not sides or not hands:
            return {}
        found[at] = Which(side=sides[0], at=(hands[0],))
    return found if len({*found.values()}) > 1 else {}


def _of_two(texts: Mapping[At, str]) -> dict[At, Which]:
    """Names of rows that are two of one kind of each cylinder: 1F and 1R, 2a and 2b."""
    told = {at: found for at, text in texts.items() if (found := _ONE_OF_TWO.fullmatch(text))}
    letters = {found["letter"].casefold() for found in told.values()}
    numbers = Counter(found["number"] for found in told.values())
    if len(numbers) < _FEWEST_COUNTED or letters not in _TWO_OF_A_KIND:
        return {}
    if {*numbers.values()} != {len(_TWO_OF_A_KIND[0])}:
        return {}
    return {
        at: Which(int(found["number"]), at=_ENDS.get(found["letter"].casefold(), ()))
        for at, found in told.items()
    }


def _lettered(table: BareTable, texts: Mapping[At, str]) -> dict[At, Which]:
    """Names of rows that are letters from A on, three of them at least: heads A, B and C.

    Where the columns count cylinders or mains they are places on each.
    """
    letters = [text.strip(" .:") for text in texts.values()]
    run = [chr(ord("A") + n) for n in range(len(letters))]
    if letters != run or len(letters) < _FEWEST_LETTERS:
        return {}  # Of A and B what the others say tells more.
    heads = map(table.head.which, (*table.head.texts, *table.head.index))
    placed = any(which is not None and which.number for which in heads)
    told = [Which(at=(one,)) if placed else Which(bank=one) for one in letters]
    return dict(zip(texts, told, strict=True))


def is_code(text: str) -> bool:
    """Whether a text is a short code with a number: "C1"."""
    return CODE.fullmatch(text) is not None


def _counts_pistons(word: str) -> bool:
    """Whether a word before numbers counts pistons: "Kolben", or P in short."""
    return word in _PISTONS_IN_SHORT or meaning_of(word).part == "piston"
