"""The heads over a table: their rows, the texts of each column, and which one it is of."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.vocabulary import BEARINGS, NO_SIZES, Stage, meaning_of
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts

# Heads that repeat so many of the table above are of one form with it.
_REPEATED = 2
# What a head or a title may leave to be assumed, to say what is measured of which part.
_SURE = 2
_MAY_BE = 3
# So many cylinders or the like has no engine.
_MOST_OF_A_KIND = 24
# Heads that count so many hold further down too.
_COUNTED = 3


@dataclass
class Head:
    """The rows of heads over a table: texts of each column from the lowest up, and its index.

    corner, corner_units: what stands before the numbers of a head, units apart; is_list: whether
    they say value, unit, limit or place, and no more; days: the columns headed by the day on
    which the sizes below were taken; over: heads further up that hold for rows which these do
    not fit.
    """

    rows: list[int]
    block: Block
    texts: dict[int, list[str]] = field(default_factory=dict)
    index: dict[int, Which] = field(default_factory=dict)
    corner: list[str] = field(default_factory=list)
    corner_units: list[str] = field(default_factory=list)
    is_list: bool = False
    days: Sequence[int] = ()
    over: Head | None = None

    def which(self, column: int) -> Which | None:
        """What the heads of a column say of which one it is, None where one says more."""
        if column in self.index:
            return self.index[column]
        told = NOTHING
        for text in self.texts.get(column, ()):
            said = which_of(text)
            if said is None:
                return None
            told = told.beside(said)
        return told if self.texts.get(column) else None

    def with_stages_of(self, above: Head | None) -> Head:
        """These heads with the stages over a table above whose heads they repeat without them."""
        own = {stage for texts in self.texts.values() for stage in _stages_said(texts)}
        if above is None or own - {*NO_SIZES}:
            return self
        if by_run := self._stages_by_run(above):
            told = {c: w._replace(stage=by_run[c]) for c, w in self.index.items()}
            return replace(self, index=told)
        again = [c for c, texts in self.texts.items() if texts[:1] == above.texts.get(c, [""])[:1]]
        stages = {c: _stages(above.texts.get(c, ())[1:]) for c in self.texts}
        if len(again) < _REPEATED or not any(stages[c] for c in again):
            return self
        return replace(self, texts={c: [*own, *stages[c]] for c, own in self.texts.items()})

    def with_limits_of(self, above: Head | None) -> Head:
        """These heads, which only count, with the limits left of them in heads further up.

        "Item | Min | Max | No. 1 | No. 2" and further down "M1 | M2" in place of the numbers.
        """
        first = min((*self.index, *self.texts), default=0)
        counts = all((told := self.which(c)) and told.number for c in (*self.index, *self.texts))
        if above is None or not first or not counts:
            return self
        limits = {c: t for c, t in above.texts.items() if c < first and _says_limit(t)}
        return replace(self, texts={**limits, **self.texts}) if limits else self

    def with_ones_of(self, above: Head | None) -> Head:
        """These heads, pairs of a left and a right one, each pair of what a head above it says.

        "left | right | left | right" below a table with "Front | | Rear" over the first of each.
        """
        banks = {c: w.bank for c in self.texts if (w := self.which(c)) and w == Which(bank=w.bank)}
        columns = sorted(banks)
        firsts = columns[::2]
        alike = [banks[c] for c in columns] == ["L", "R"] * len(firsts) and len(firsts) > 1
        told = {c: above.which(c) for c in firsts} if above and alike else {}
        ones = {c: w for c, w in told.items() if w and w.number}
        if len({w.number for w in ones.values()}) < len(firsts) or not ones:
            return self
        places = {"L": ("left",), "R": ("right",)}
        pairs = zip(columns, (w for w in ones.values() for _ in "LR"), strict=True)
        index = {c: w._replace(at=places[banks[c]], bank="") for c, w in pairs}
        return replace(self, index={**self.index, **index}, over=above)

    def below(self, above: Head | None) -> Head:
        """These heads, with those further up that count more columns than these have.

        "front | center | rear" below a table of the cylinders 1 to 4.
        """
        if above is None or self.over is not None:
            return self
        counting = above if len(above.index) >= _COUNTED and above.counts_all else above.over
        wider = counting is not None and not {*counting.index} <= {*self.texts, *self.index}
        return replace(self, over=counting) if wider else self

    @property
    def counts_all(self) -> bool:
        """Whether all that is told from another here is by its number."""
        return all(which.number for which in self.index.values())

    def of_columns(self, columns: Collection[int]) -> Head:
        """The heads of a row that is filled in these columns: these, or those further up."""
        if self.over is None:
            return self
        own = {*self.texts, *self.index}
        told = {*self.over.first_of_each.values()}
        if told <= own:
            fits = {*columns} <= told and len(columns) > 1
        else:
            fits = {*columns} == told and not told <= own
        return self.over if fits else self

    @property
    def first_of_each(self) -> Mapping[int, int]:
        """The first column of each one that these heads number, by its number."""
        whiches = {c: self.which(c) for c in sorted({*self.texts, *self.index}, reverse=True)}
        return {w.number: c for c, w in whiches.items() if w and w.number}

    def with_rods_below(self, above: Head | None) -> Head:
        """These heads with rods for R1 R2 R3 where those above count mains as M1 M2 M3."""
        over = {w.of for c in above.texts if (w := above.which(c))} if above else set()
        told = {c: w for c in self.texts if (w := self.which(c)) and w.number}
        if "main" not in over or {(w.bank, w.of) for w in told.values()} != {("R", "")}:
            return self
        rods = {c: w._replace(bank="", of="rod") for c, w in told.items()}
        return replace(self, index={**self.index, **rods})

    def below_title(self, title: str, row: int) -> Head:
        """These heads over rows below a title further down, which may name another part.

        "Mic'd the mains" below "Cyl | Bore | Taper": there the bores are what the title measures.
        """
        mine = _measured_part(title)
        texts = {c: t for c, t in self.texts.items() if counts(t[0]) is None}
        parts = {c: told for c, t in texts.items() if any(told := _measured_part(t[0]))}
        others = [
            c
            for c, told in parts.items()
            if told != mine and not _are_of_one_bearing(title, texts[c][0])
        ]
        if not any(mine) or len(others) != 1 or mine in parts.values():
            return self
        texts |= {others[0]: [title, *texts[others[0]][1:]]}
        return replace(self, rows=[row], texts=texts, corner=[])

    def has_only_places(self) -> bool:
        """Whether the heads say no more than where on a part: "top | bottom"."""
        told = [self.which(c) for c in self.texts if counts(self.texts[c][0]) is None]
        return bool(told) and all(w is not None and w.at and not w.number for w in told)

    def _stages_by_run(self, above: Head) -> dict[int, Stage]:
        """The stage of each column where heads count twice, as those above do with their stages."""
        runs, others = _runs(self.index), _runs(above.index)
        stages = [{above.which_stage(c) for c in run} for run in others]
        if len(runs) != len(others) or len(runs) < 2 or any(len(s) != 1 for s in stages):
            return {}
        named = [next(iter(s)) for s in stages]
        if len({*named}) < len(named):
            return {}
        return {c: stage for run, stage in zip(runs, named, strict=True) for c in run}

    def which_stage(self, column: int) -> Stage:
        """The stage that the heads of a column say."""
        told = self.which(column)
        return told.stage if told else ""


def _are_of_one_bearing(title: str, text: str) -> bool:
    """Whether a head may measure something of the mains, or of the rods, that a title names.

    "Shell bore" below "MAINS", and below "PINS" further down.
    """
    of_both = [
        {
            term.of
            for c in meaning_of(t).candidates
            if c.cost <= _MAY_BE and (term := find(c.measurand))
        }
        for t in (title, text)
    ]
    return bool(of_both[0] & of_both[1] & {*BEARINGS})


def _measured_part(text: str) -> tuple[str, str]:
    """Of what, and which part of it, a text measures, "" where it names none surely."""
    meaning = meaning_of(text)
    sure = meaning.part and meaning.candidates and meaning.candidates[0].cost <= _SURE
    term = find(meaning.candidates[0].measurand) if sure and which_of(text) is None else None
    return (term.of, term.part if term.of else "") if term is not None else ("", "")


def _runs(index: Mapping[int, Which]) -> list[list[int]]:
    """The columns that count, parted where they begin again: 1 2 3 4 and 1 2 3 4."""
    runs: list[list[int]] = []
    last = 0
    for column in sorted(index):
        if not runs or index[column].number <= last:
            runs.append([])
        runs[-1].append(column)
        last = index[column].number
    return runs


def counted_part(text: str) -> str:
    """What the numbers below a head count: mains below "Main", rods below "Crankpin"."""
    meaning = meaning_of(text)
    part = meaning.part
    if "main" in part:
        return "main"
    # Numbered pins are crankpins; piston pins go by the cylinder.
    pins = part == "pin" and any(c.measurand == "rod_journal" for c in meaning.candidates)
    return "rod" if pins or part in ("rod", "rod_journal", "rod_bearing", "big_end") else ""


# Main bearings and connecting rods as a crank's card numbers them: "MB-1", "CR-1".
_STATION = re.compile(r"(?P<letters>MB|CR|RB|CB)[ -]?(?P<number>\d{1,2})")
_MOST_LETTERS = 2
_Place = TypeVar("_Place")


def of_stations(texts: Mapping[_Place, str]) -> dict[_Place, Which]:
    """Names of rows or columns that number mains and rods by their letters: MB-1, CR-1."""
    told = {at: found for at, text in texts.items() if (found := _STATION.fullmatch(text))}
    letters = {found["letters"] for found in told.values()}
    if "MB" not in letters or len(letters) > _MOST_LETTERS or len(told) < len(texts):
        return {}
    return {
        at: Which(int(found["number"]), of="main" if found["letters"] == "MB" else "rod")
        for at, found in told.items()
    }


def picks_some(numbers: Sequence[int | None]) -> bool:
    """Whether numbers are some of what is counted, as those that were checked: 1, 4, 6, 7."""
    picked = [n for n in numbers if n is not None and n <= _MOST_OF_A_KIND]
    return len(picked) == len(numbers) == len({*picked}) > 1


def _says_limit(texts: Sequence[str]) -> bool:
    return any(stage in NO_SIZES for stage in _stages_said(texts))


def _stages(texts: Sequence[str]) -> list[str]:
    """The texts that say when something was measured."""
    return [t for t in texts if (said := which_of(t)) is not None and said.stage]


def _stages_said(texts: Sequence[str]) -> list[Stage]:
    """The stages that texts say: a "min" beside "as found" of the table above is the smallest."""
    return [said.stage for t in texts if (said := which_of(t)) is not None and said.stage]
