"""The first sheet of a build's spreadsheet: how it stands, key facts, findings."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from xlsxwriter.worksheet import Worksheet

from workbook_tools.render.cell_writer import NewBook, number_format
from workbook_tools.render.html import JUDGED, about_numbers, recomputed_words
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.key_facts import KeyFact
from workbook_tools.summary.summary import Summary

_HEADS = (
    "Key fact", "Least", "where", "Largest", "where", "Unit", "Band", "Band from",
    "All positions", "Verdict",
)  # fmt: skip
_WIDTHS = (22, 9, 11, 9, 11, 6, 16, 17, 12, 13)
_NUMBERS = (1, 3)
_STRIP = 8
# A note beside a number that is longer takes the columns of band and largest too.
_ONE_LINE = 45


class FirstSheet:
    """The sheet as it grows downward.

    ranges: where the numbers of a row stand in the appendix, by the row's identity, for the
    small drawing of its positions.
    """

    def __init__(
        self,
        new: NewBook,
        sheet: Worksheet,
        summary: Summary,
        shop: Shop,
        ranges: Mapping[int, str],
    ) -> None:
        self.new, self.sheet, self.summary, self.ranges = new, sheet, summary, ranges
        self.at = 0
        for column, width in enumerate(_WIDTHS):
            sheet.set_column(column, column, width)
        sheet.hide_gridlines(2)
        sheet.set_paper(9 if shop.paper == "a4" else 1)
        sheet.fit_to_pages(1, 0)
        sheet.set_margins(left=0.4, right=0.4, top=0.5, bottom=0.6)
        sheet.set_footer("&L&8&F&R&8page &P of &N")
        self._head(shop)
        self._facts()
        self._findings()
        self.title("Read and recomputed")
        self.wide(f"{summary.coverage} {recomputed_words(summary.recomputed)}".strip())
        self._people()
        self._lists()
        sheet.print_area(0, 0, self.at, len(_WIDTHS) - 1)

    def put(self, column: int, value: object, words: str = "", size: int = 9) -> None:
        """Write into a cell of the row that is being filled."""
        self.new.put(self.sheet, self.at, column, value, words, size)

    def title(self, text: str) -> None:
        """A heading over the whole width."""
        self.at += 1
        for column in range(len(_WIDTHS)):
            self.put(column, text if column == 0 else "", "section", 11)
        self.at += 1

    def wide(self, text: str, words: str = "", first: int = 0) -> None:
        """A text over all columns from this one on, as high as it needs."""
        style = self.new.style(f"wrap top {words}".strip(), 9)
        self.sheet.merge_range(self.at, first, self.at, len(_WIDTHS) - 1, "", style)
        self.new.put(self.sheet, self.at, first, text, f"wrap top {words}".strip(), 9)
        # Merged cells do not grow by themselves; a letter of text takes about this much width.
        lines = math.ceil(len(text) / (sum(_WIDTHS[first:]) * 1.25))
        self.sheet.set_row(self.at, 12.5 * max(1, lines) + 1.5)
        self.at += 1

    def _head(self, shop: Shop) -> None:
        standing = self.summary.standing
        word = "out" if standing.word in ("deviations", "not read") else "bold"
        self.put(0, standing.word.capitalize(), word, 18)
        self.put(2, " · ".join(standing.counts), "", 10)
        self.sheet.set_row(self.at, 26)
        self.at += 1
        for one in self.summary.glance:
            self.put(0, one.name, "soft")
            told = f"{one.text} ({one.said})" if one.text and one.said else one.text or one.said
            self.put(2, told, "out" if one.verdict in ("low", "high") else "bold")
            self.at += 1
        self.put(0, self.summary.title, "soft")
        self.put(2, ", ".join(filter(None, (shop.name, *shop.address))), "soft")
        self.at += 2
        for names in (("number", "customer"), ("engine", "builder"), ("started", "finished")):
            for column, name in zip((0, 4), names, strict=True):
                text = getattr(self.summary.job, name).text
                self.put(column, "Job" if name == "number" else name.capitalize(), "soft")
                said = text or "not in the book"
                self.put(column + 1, said, "bold" if text else "soft italic")
            self.at += 1
        if self.summary.changed:
            self.wide(f"Changed since the last copy: {self.summary.changed}")

    def _facts(self) -> None:
        self.title("Key facts")
        for column, name in enumerate(_HEADS):
            self.put(column, name, "head right" if column in _NUMBERS else "head", 8)
        self.at += 1
        for name, facts in self.summary.fact_groups:
            self.put(0, name, "bold soft", 8)
            self.at += 1
            for fact in facts:
                self._fact(fact)
        if not self.summary.facts:
            self.wide("No key size or clearance of an engine was read; see the other sheets.")
        self.wide(JUDGED, "soft")

    def _fact(self, fact: KeyFact) -> None:
        row = fact.row
        values = [number.value for number in row.numbers if number.value is not None]
        self.put(0, fact.name, "bold line")
        for column in range(1, len(_WIDTHS)):
            self.put(column, "", "line")
        self._found(fact, values)
        if not row.band and len(fact.where) > _ONE_LINE:
            self._reason(f"{fact.unit} {fact.where}")
        else:
            self.put(5, fact.unit, "soft line")
            self.put(6, row.band, "line", 8)
            self.put(7, row.origin, "soft line", 8)
        told = " ".join(filter(None, (fact.verdict, *row.told)))
        if fact.gaps:
            told = f"{told} no value at {fact.gaps}".strip()
        self.put(9, told, "out line" if row.worst in ("low", "high") else "line", 8)
        if id(row) in self.ranges and fact.is_drawn:
            drawn = {"range": self.ranges[id(row)], "markers": True, "series_color": "#1c2126"}
            self.sheet.add_sparkline(self.at, _STRIP, drawn)
        self.at += 1

    def _found(self, fact: KeyFact, values: Sequence[float]) -> None:
        extent = fact.row.extent
        if not values:
            self.put(1, fact.one, "look right line")
        elif fact.one or extent is None:
            self._number(1, max(values) if fact.most else values[0], fact.one)
            self.put(2, fact.where, "soft line", 8)
        else:
            self._number(1, min(values), extent.least)
            self.put(2, fact.least_at, "soft line", 8)
            self._number(3, max(values), extent.largest)
            self.put(4, fact.largest_at, "soft line", 8)

    def _reason(self, text: str) -> None:
        """A sentence beside a number, over the columns that it leaves empty."""
        last = _STRIP - 1
        self.sheet.merge_range(self.at, 2, self.at, last, "", self.new.style("soft wrap line", 8))
        self.new.put(self.sheet, self.at, 2, text, "soft wrap line", 8)
        lines = math.ceil(len(text) / (sum(_WIDTHS[2 : last + 1]) * 1.35))
        self.sheet.set_row(self.at, 11.5 * lines + 2)

    def _number(self, column: int, value: float, shown: str) -> None:
        numbers = number_format(shown)
        self.new.put(self.sheet, self.at, column, value, "bold right line", 9, numbers)

    def _people(self) -> None:
        self.title("Signed")
        for one in self.summary.people:
            self.put(0, one.did, "soft")
            self.put(1, ", ".join(one.names) or "not in the book", "bold" if one.names else "soft")
            if one.empty:
                self.put(4, f"{one.empty} empty", "look")
            self.at += 1

    def _lists(self) -> None:
        for title, table in self.summary.lists:
            self.title(title)
            for row in table.rows:
                named = zip(table.heads[1:], row[1:], strict=True)
                told = [f"{head.lower()} {said}" for head, said in named if said]
                self.put(0, row[0], "bold top")
                self.wide("; ".join(told), first=1)
        if self.summary.unlisted:
            self.wide(f"The book has no list of: {self.summary.unlisted}.", "soft")

    def _findings(self) -> None:
        self.title("Findings")
        for number, found in zip(self.summary.numbers, self.summary.findings, strict=True):
            where = f"{found.kind}, {found.place}:" if found.place else f"{found.kind}:"
            self.put(0, number, "bold top")
            accepted = f"Accepted by {found.accepted}." if found.accepted else ""
            told = (where, found.message, accepted, found.advice)
            self.wide(" ".join(filter(None, told)), first=1)
        if self.summary.findings:
            self.wide(about_numbers(self.summary.numbers), "soft")
        else:
            self.wide(
                "No problems found in what was checked. What the book gives no band for is not "
                "judged."
            )
