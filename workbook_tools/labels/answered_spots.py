"""The cells of a sheet that texts speak of, with what the shop's layout says of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.labels.answers import NO_READING, Answer
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot, Told
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.measurands import Position


def answered_spots(
    cells: SheetText, found: Sequence[Spot], answers: Sequence[Answer]
) -> Sequence[Spot]:
    """Spots with what the layout says of them, and those of cells that only the layout names.

    Spots of numbers that it says are no readings are left out, and noted in the sheet.
    """
    if not answers:
        return found
    by_narrowness = sorted(answers, key=lambda answer: answer.narrowness)
    sizes = Counter(spot.line for spot in found)
    here = [
        _Here(answer, sizes, frozenset(_beside(cells, answer, found)))
        for answer in by_narrowness
        if _may_be_on(cells, answer)
    ]
    if not here:
        return found
    told = [_told(cells, spot, here) for spot in (*found, *_unspoken(cells, found, here))]
    return [spot for spot in told if spot is not None]


@dataclass
class _Here:
    """An answer on one sheet, with how many spots of each line it was given for.

    sizes: how many spots each line has; beside: the cells beside its label, where no spot has
    that.
    """

    answer: Answer
    sizes: Counter[tuple[object, ...]]
    beside: frozenset[At]
    counted: Counter[tuple[object, ...]] = field(default_factory=Counter)

    def is_about(self, cells: SheetText, spot: Spot) -> bool:
        """Whether it says something of a spot."""
        if self.answer.cells is not None:
            return self.answer.cells.hold(spot.row, spot.column)
        if (spot.row, spot.column) in self.beside:
            return True
        return self.answer.names(cells.sheet.title, spot.label, spot.headings)

    def part_of(self, spot: Spot) -> Position | None:
        """Which one a spot is of: the next of those listed, the one for all, or None."""
        parts = self.answer.parts
        if len(parts) < 2:
            return parts[0] if parts else None
        # Numbers that stand alone beside the same label are counted through.
        line = spot.line if self.sizes[spot.line] > 1 else ()
        number = self.counted[line]
        self.counted[line] += 1
        return parts[number] if number < len(parts) else None


def _may_be_on(cells: SheetText, answer: Answer) -> bool:
    title = answer.cells.sheet if answer.cells else answer.sheet
    return not title or title.casefold() == cells.sheet.title.casefold()


def _beside(cells: SheetText, answer: Answer, found: Sequence[Spot]) -> Iterator[At]:
    """The values to the right of a label that nothing was read by; numbers of heads are none."""
    title = cells.sheet.title
    if answer.cells or any(answer.names(title, s.label, s.headings) for s in found):
        return
    for row, column in cells.kinds:
        text = cells.text(row, column)
        if text and answer.names(title, text, (answer.below,)):
            at = (row, column + 1)
            while cells.is_value(at) and at not in cells.indexes:
                yield at
                at = (row, at[1] + 1)


def _unspoken(cells: SheetText, found: Sequence[Spot], here: Sequence[_Here]) -> Iterator[Spot]:
    """Spots for numbers that no text speaks of and that the layout names and calls something."""
    spoken = {(spot.row, spot.column) for spot in found}
    for one in (one for one in here if one.answer.measurand):
        answer = one.answer
        named = answer.cells
        label = answer.label or answer.measurand.replace("_", " ")
        for at in sorted(cells.kinds):
            is_named = named.hold(*at) if named else at in one.beside
            if is_named and at not in spoken and cells.is_value(at):
                spoken.add(at)
                line = ("layout", named.range if named else label)
                yield Spot(*at, label, (cells.sheet.title,), NOTHING, "", line, at)


def _told(cells: SheetText, spot: Spot, here: Sequence[_Here]) -> Spot | None:
    """A spot with what the narrowest answers say of it, None where it is no reading."""
    told, which, line = Told(), spot.which, spot.line
    for one in (one for one in here if one.is_about(cells, spot)):
        told = _with_answer(told, one.answer)
        if one.answer.measurand and one.answer.cells:
            line = ("layout", one.answer.cells.range)
        part = one.part_of(spot)
        if part is not None:
            told, which = told._replace(which=True), _of_part(which, part)
    if told.measurand == NO_READING:
        cells.no_readings.add((spot.row, spot.column))
        return None
    if told == Told():
        return spot
    if told.measurand:
        which = which._replace(side="", other="")
    if told.stage is not None:
        which = which._replace(stage=told.stage)
    return replace(spot, which=which, unit=told.unit or spot.unit, line=line, told=told)


def _with_answer(told: Told, answer: Answer) -> Told:
    """What is told already, with what a narrower answer says in its place."""
    return told._replace(
        measurand=answer.measurand or told.measurand,
        by_cell=answer.cells is not None if answer.measurand else told.by_cell,
        stage=told.stage if answer.stage is None else answer.stage,
        unit=answer.unit or told.unit,
    )


def _of_part(which: Which, part: Position) -> Which:
    return which._replace(
        number=part.number, last=part.last, bank=part.bank, at=part.at, of=part.of
    )
