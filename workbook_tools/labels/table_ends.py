"""Where rows of a block leave the table above them: names with their values, cards of one part."""

from __future__ import annotations

from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.several_sizes import staged_size
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of

# The card of a cylinder has its labels in the rows below, so many of the first of them measured.
_ROWS_OF_A_CARD, _LEAST_OF_A_CARD = 4, 2
# A row of names, each with its number, has so many of them.
_FEWEST_PAIRS = 2
# A head that counts so many columns has a table below it.
_FEWEST_COUNTED = 3
# A title that leaves more to be assumed does not say what the rows below it measure.
_MOST_ASSUMED = 2


def leaves_table(reached: ReachedBlock, at: int) -> bool:
    """Whether from a row on labels stand where the heads count, one below the other."""
    if reached.head is None:
        return False
    row = reached.rows[at]
    if _is_of_pairs(reached, row) or _is_before_and_after(reached, row):
        return True
    if _is_of_all(reached, at) or _names_among_values(reached, at):
        return True
    if len(reached.head.index) < _FEWEST_COUNTED or at + 1 >= len(reached.rows):
        return False
    row, below = reached.rows[at], reached.rows[at + 1]
    kinds, text = reached.cells.kinds, reached.cells.text
    return any(
        kinds.get((row, c)) == "text" and kinds.get((below, c)) == "text"
        and text(row, c) != text(below, c) and reached.cells.is_number((below, c + 1))
        for c in reached.head.index
    )  # fmt: skip


def _is_of_pairs(reached: ReachedBlock, row: int) -> bool:
    """Whether a row holds names, each with its own number behind it, and nothing else."""
    columns = reached.block.rows[row]
    names, numbers = columns[::2], columns[1::2]
    if len(numbers) < _FEWEST_PAIRS or len(names) != len(numbers):
        return False
    return all(
        n == c + 1 and reached.cells.is_number((row, n)) and reached.cells.kinds[row, c] == "text"
        and which_of(reached.cells.text(row, c)) is None
        and meaning_of(reached.cells.text(row, c)).candidates
        for c, n in zip(names, numbers, strict=True)
    )  # fmt: skip


def _is_of_all(reached: ReachedBlock, at: int) -> bool:
    """Whether a row names what is measured of the whole, below rows that say which one.

    "bend | 0.08 | pressed to | 0.02" below the rows M1 to P6 of a card.
    """
    row = reached.rows[at]
    first, *others = reached.block.rows[row]
    above = [r for r in reached.rows[:at] if r > max(reached.head.rows)] if reached.head else []
    counted = [w for r in above[-2:] if (w := which_of(reached.cells.text(r, first))) and w.number]
    if len(counted) < _FEWEST_PAIRS or which_of(reached.cells.text(row, first)) is not None:
        return False
    candidates = meaning_of(reached.cells.text(row, first)).candidates
    named = any(
        reached.cells.kinds[row, c] == "text" and reached.cells.is_number((row, c + 1))
        and reached.cells.is_number((above[-1], c))
        for c in others
    )  # fmt: skip
    return bool(candidates) and candidates[0].cost <= _MOST_ASSUMED and named


def _names_among_values(reached: ReachedBlock, at: int) -> bool:
    """Whether names stand in a row where the one above has values of counted parts.

    "Fillet R | .156 | TIR, center main | | .0055" below a row of the journals M1 to M7.
    """
    row, counted = reached.rows[at], reached.head.index if reached.head else {}
    # A text alone in its row, as a unit over what follows, is no row of the table.
    above = next((r for r in reversed(reached.rows[:at]) if len(reached.block.rows[r]) > 1), 0)
    if not above or above in (reached.head.rows if reached.head else ()):
        return False
    columns = reached.block.rows[row]
    names = [c for c in columns[1:] if c in counted and reached.cells.kinds[row, c] == "text"]
    behind = {c: next((o for o in columns if o > c), 0) for c in names}
    return bool(names) and all(
        reached.cells.is_number((above, c))
        and reached.cells.is_number((row, behind[c]))
        and which_of(reached.cells.text(row, c)) is None
        and meaning_of(reached.cells.text(row, c)).candidates
        for c in names
    )


def _is_before_and_after(reached: ReachedBlock, row: int) -> bool:
    """Whether a row is a name with sizes that say when each was taken: "avant 0,12"."""
    first, *others = reached.block.rows[row]
    said = [staged_size(reached.cells.text(row, c))[1] for c in others]
    return bool(said) and all(said) and bool(meaning_of(reached.cells.text(row, first)).candidates)


def card_at(reached: ReachedBlock, at: int) -> Which | None:
    """Which one the labels below are of, where a row begins the card of one: "CYL 1"."""
    row = reached.rows[at]
    first, *others = reached.block.rows[row]
    card = which_of(reached.cells.text(row, first))
    if card is None or not (card.number and card.of) or len(others) > 1:
        return None
    if any(reached.cells.is_number((row, c)) for c in others):
        return None
    below = reached.rows[at + 1 : at + 1 + _ROWS_OF_A_CARD]
    labels = [
        reached.cells.text(r, first) for r in below if reached.cells.is_number((r, first + 1))
    ]
    measured = [t for t in labels if t and which_of(t) is None and meaning_of(t).candidates]
    return card if len(measured) >= _LEAST_OF_A_CARD else None
