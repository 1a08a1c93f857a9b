"""The spots within longer texts, behind a colon in one cell, and of cells that count on."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Sequence

from workbook_tools.labels.cell_kinds import At, kind_of_text
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.labeled_values import says_a_size
from workbook_tools.labels.named_heads import is_ordinal_of_rings
from workbook_tools.labels.run_pressure import run_pressure
from workbook_tools.labels.sentences import spoken
from workbook_tools.labels.several_sizes import placed_sizes
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.titles import first_clause
from workbook_tools.labels.vocabulary import counts_parts, meaning_of, noun_named, plain
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.labels.written_limits import is_written_limit

# So many cells with a number each count on.
_FEWEST_COUNTED = 3
_DIGIT = re.compile(r"\d")
_A_RATIO = re.compile(r"\d\s?:\s?1\b")
_NAMED_BEHIND = re.compile(r"(?P<number>[-+]?\d*[.,]\d+)\s+(?P<name>[^\W\d_][^\d]{4,40})")
_FILLED_IN = re.compile(
    r"^(?P<label>[^\W\d_][^:_]{1,40}?)\s*(?::|_{2,}|\.{3,})[\s_]*(?P<value>\S.*?)[\s_]*$"
)
_COUNTS_CYLINDERS = re.compile(r"\b\d{1,2}[ -]?(?:cyl|zyl|cil)", re.IGNORECASE)
# "1 .022, 2 .023, 3 .022" says which one before each.
_COUNTED_SIZES = re.compile(r"[:=]\s*1 \d*[.,]\d+\s*[,;]?\s+2 \d*[.,]\d+")
_FIRST_SIGNED = re.compile(r"(?P<label>[^\W\d_][^:#]{1,40}?)\s*:\s*#\s?1\s+(?P<size>\d*[.,]?\d+)")
_NEXT_SIGNED = re.compile(r"#\s?(?P<number>[1-9]\d?)\s+(?P<size>\d*[.,]?\d+)")
# The one of several that a label names, with the unit of what is measured: "chamber 1 cc".
_COUNTED_WITH_UNIT = re.compile(r"[^\d]+ \d{1,2} \(?(?P<unit>[^\W\d_]+)\)?")
# A label with so many numbers in its row, in one line, names them.
_FEWEST_NAMED = 3
_OIL_PRESSURE = "oil pressure"
# So many rows of marked sizes may stand below what they measure.
_MOST_ROWS_MARKED = 6
# A label has its own value within so many columns.
_FARTHEST_VALUE = 4
# Sentences under one title are no more than this, and their title has so many words.
_MOST_SENTENCES, _MOST_WORDS_OF_A_TITLE = 20, 3


def spots_in_texts(cells: SheetText, known: Container[At]) -> Iterator[Spot]:
    """The numbers within longer texts, and behind a colon in one cell.

    known: cells whose numbers tables name.
    """
    for (row, column), kind in cells.kinds.items():
        text = cells.text(row, column) if kind in ("text", "remark", "measured") else ""
        if not _may_speak(cells, row, column, text):
            continue
        if (noted := _noted(cells, row, column, text)) is not None:
            yield from noted
            continue
        filled = _filled_in(text)
        if filled and kind_of_text(filled["value"]) in ("measured", "nothing"):
            yield Spot(
                row, column, filled["label"], (cells.heading,), _over_lines(cells, row, column), "",
                ("inline", row, column), (row, column), filled["value"],
            )  # fmt: skip
        elif _is_marked(cells, row, column):
            if (row, column) not in known:
                yield from _below_its_title(cells, row, column, text)
        elif _names_its_row(cells, row, column):
            continue  # "Bore mid 60 mm" says where the numbers behind it were measured.
        elif kind == "measured":
            yield from _behind_its_number(cells, row, column, text)
        elif says_a_size(text) or not _is_named(cells, row, column, text):
            yield from _in_sentence(cells, row, column, text)


def _may_speak(cells: SheetText, row: int, column: int, text: str) -> bool:
    """Whether a text may hold a size: no head, no limit, and not what the engine is called."""
    if _DIGIT.search(text) is None or _is_a_head(text) or is_written_limit(text):
        return False
    if (row, column) in cells.indexes:
        return False  # "Side .001" over what is so many times that.
    return not (_COUNTS_CYLINDERS.search(text) and cells.is_job_field(row, column - 1))


def _filled_in(text: str) -> re.Match[str] | None:
    """A label with its one value behind a colon, None for several and any other text."""
    several = placed_sizes(text) or _A_RATIO.search(text) or _COUNTED_SIZES.search(text)
    return None if several else _FILLED_IN.match(text)


def _noted(cells: SheetText, row: int, column: int, text: str) -> Iterable[Spot] | None:
    """What a note in the margin, or of a run of the engine, says; None for any other text."""
    pressure, rest = run_pressure(text)
    if not pressure or _is_named(cells, row, column, text):
        note = (row, column) in cells.notes
        return _in_sentence(cells, row, column, text) if note else None
    label = f"{_OIL_PRESSURE} ({pressure.partition(' ')[2]})"
    of_oil = Spot(
        row, column, label, (cells.heading,), NOTHING, "",
        ("spoken", _OIL_PRESSURE, row, column), (row, column), pressure,
    )  # fmt: skip
    return of_oil, *_in_sentence(cells, row, column, rest)


def _over_lines(cells: SheetText, row: int, column: int) -> Which:
    """When the text over lines of a label and its size each says that all was as it came."""
    above = row - 1
    while _FILLED_IN.match(cells.text(above, column)):
        above -= 1
    last = re.split(r"\s[-–—/]\s|,\s", cells.text(above, column))[-1]
    said = which_of(last) if last else None
    came = said is not None and said.stage == "found" and not said.tells
    return Which(stage="found") if came else NOTHING


def signed_across(cells: SheetText, known: Container[At]) -> Iterator[Spot]:
    """The numbers of cells that count on behind a name: "comp psi: #1 165 | #2 160 | #3 170"."""
    for (row, column), text in cells.texts.items():
        first = _FIRST_SIGNED.fullmatch(text)
        if first is None or (row, column) in known:
            continue
        sizes = [first["size"]]
        while told := _NEXT_SIGNED.fullmatch(cells.text(row, column + len(sizes))):
            if int(told["number"]) != len(sizes) + 1:
                break
            sizes.append(told["size"])
        for number, size in enumerate(sizes if len(sizes) >= _FEWEST_COUNTED else (), 1):
            yield Spot(
                row, column + number - 1, first["label"], (cells.heading,), Which(number), "",
                ("signed", row, column), (row, column), size,
            )  # fmt: skip


def _is_named(cells: SheetText, row: int, column: int, text: str) -> bool:
    """Whether a text is the label of a value in its row: beside it, or further for a count."""
    if cells.is_value((row, column + 1)):
        return True
    counted = _COUNTED_WITH_UNIT.fullmatch(text)
    if counted is None or not is_unit(counted["unit"]):
        return False
    filled = (c for c in range(column + 1, column + 9) if (row, c) in cells.kinds)
    return cells.is_number((row, next(filled, 0)))


def _names_its_row(cells: SheetText, row: int, column: int) -> bool:
    """Whether a text stands before several numbers of a row in its block and is their name."""
    own = _row_of_block(cells, row, column)
    right = [c for c in own if column < c < column + 9 and cells.is_number((row, c))]
    before = any((row, c) in cells.kinds for c in range(1, column))
    return len(right) >= _FEWEST_NAMED and not before and not says_a_size(cells.text(row, column))


def _row_of_block(cells: SheetText, row: int, column: int) -> Sequence[int]:
    """The filled columns in the row of a cell that stand in its block."""
    return next((columns for columns in cells.rows_of_blocks[row] if column in columns), ())


def _is_a_head(text: str) -> bool:
    """Whether a text only says which one, or in what parts of an inch numbers are.

    The first in "Cyl 1 (L)" is on the left, in no liters, and "Fit .001s" says no fit.
    """
    if counts_parts(text):
        return True
    told = which_of(text)
    return told is not None and bool(told.number and told.of and told.bank)


def _below_its_title(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    """A size with its mark below the title of a row of such: "#1 76.0 cc | #2 75.8 cc"."""
    if any(cells.text(row, c) and not _is_marked(cells, row, c) for c in range(1, column)):
        return
    for above in range(row - 1, max(0, row - 1 - _MOST_ROWS_MARKED), -1):
        over = [c for c in range(1, column + 1) if cells.text(above, c)]
        if not over or not _is_marked(cells, above, over[0]):
            title = first_clause(cells.text(above, over[0])) if over else ""
            which = which_of(placed_sizes(text)[0][0])
            if title and which is not None:
                yield Spot(
                    row, column, title, (cells.heading,), which, "",
                    ("marked", plain(title)), (above, over[0]), placed_sizes(text)[0][1],
                )  # fmt: skip
            return


def _is_marked(cells: SheetText, row: int, column: int) -> bool:
    return len(placed_sizes(cells.text(row, column))) == 1


def _behind_its_number(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    """A number with its name behind it, where none stands before: ".006 down in the hole"."""
    found = _NAMED_BEHIND.fullmatch(text)
    before = cells.text(row, column - 1)
    if found is None or (before and which_of(before) is None and not says_a_size(before)):
        return
    candidates = meaning_of(found["name"]).candidates
    if candidates and candidates[0].cost <= 1:
        yield Spot(
            row, column, found["name"], (cells.heading,), _told_before(cells, row, column), "",
            ("spoken", plain(found["name"])), (row, column), found["number"],
        )  # fmt: skip


def _told_before(cells: SheetText, row: int, column: int) -> Which:
    """Which one the texts before a cell say that its row is of."""
    before = (cells.text(row, c) for c in range(1, column))
    said = (which_of(t) for t in before if t and not leading_date(t))
    return next((which for which in said if which is not None), NOTHING)


def _title_of_sentences(cells: SheetText, row: int, column: int) -> str:
    """What the title over sentences in a column says they are of, "" where none says it."""
    for above in range(row - 1, max(0, row - _MOST_SENTENCES), -1):
        text = cells.text(above, column)
        if not text:
            return ""
        title = first_clause(text.partition(" - ")[0])
        if _DIGIT.search(title) is None and len(title.split()) <= _MOST_WORDS_OF_A_TITLE:
            return title if meaning_of(title).candidates or meaning_of(title).part else ""
    return ""


def _is_where_it_is_measured(cells: SheetText, row: int, column: int, label: str) -> bool:
    """Whether a size in the label of a row says where: "Piston, 15 mm up | 87.45"."""
    if any((row, c) in cells.kinds for c in range(1, column)):
        return False
    own = _row_of_block(cells, row, column)
    filled = [c for c in own if column < c <= column + _FARTHEST_VALUE]
    named = meaning_of(label).candidates
    return bool(named and filled and cells.is_number((row, filled[0])))


def _label_of_row(cells: SheetText, row: int, column: int) -> Sequence[str]:
    """What the row of a remark is of: "Head gasket | 1.00 mm | annealed, hole 66 mm"."""
    first = next((c for c in range(1, column) if cells.text(row, c)), 0)
    text = cells.text(row, first) if first and cells.is_value((row, first + 1)) else ""
    return (text,) if text and which_of(text) is None and not says_a_size(text) else ()


# A size with a name of its own in brackets: "Valve timing (lash 0.5)" is no timing.
_NAMED_IN_BRACKETS = re.compile(
    r"(?P<title>[^\d()]+)\((?P<inner>(?P<name>[^\d(),;=]*[^\W\d_]{3}) \d[^()]*)\)"
)


def _in_its_brackets(text: str) -> str:
    """What brackets say of a size by a name of its own behind a title of no part."""
    named = _NAMED_IN_BRACKETS.fullmatch(text)
    title = meaning_of(named["title"]) if named else None
    another = title is not None and bool(title.candidates) and not title.part
    return named["inner"] if named and another and noun_named(named["name"]) else text


def _in_sentence(cells: SheetText, row: int, column: int, text: str) -> Iterator[Spot]:
    beside = _told_before(cells, row, column)
    title = _title_of_sentences(cells, row, column)
    text = _in_its_brackets(text)
    for mention in spoken(text, title):
        note = (row, column) in cells.notes
        if not note and _is_where_it_is_measured(cells, row, column, mention.label):
            continue
        known = not meaning_of(mention.label).unknown
        over = _label_of_row(cells, row, column) if known else ()
        unit = mention.text.partition(" ")[2]
        label = f"{mention.label} ({unit})" if unit and is_unit(unit) else mention.label
        if is_ordinal_of_rings(label) and meaning_of(title).part == "ring":
            label, over = f"{label} ring", (title, *over)  # "Top .0016" below "Ring gaps".
        wanted = Which(stage="target" if _has_a_tolerance(mention.text, text) else "")
        yield Spot(
            row, column, label, (*mention.about, *over, cells.heading),
            mention.which.beside(beside).beside(wanted), "",
            ("spoken", plain(label), mention.about), (row, column), mention.text,
        )  # fmt: skip


def _has_a_tolerance(size: str, text: str) -> bool:
    """Whether a size is wanted with so much more or less: "stretch .0058 +/-.0002"."""
    number = re.escape(size.partition(" ")[0])
    return (
        re.search(rf"{number}[^\d,;]{{0,6}}(?:\+\s?/?\s?[-–−]|±|\+(?=0?[.,]0))\s?\d*[.,]?\d", text)
        is not None
    )
