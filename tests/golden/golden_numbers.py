"""Every number that is read from the books, as one table, to be compared number by number.

    python tests/golden/golden_numbers.py                  say which numbers are not as kept
    python tests/golden/golden_numbers.py --keep           keep the numbers as they are now
    python tests/golden/golden_numbers.py --write FILE     write the table as CSV
    python tests/golden/golden_numbers.py --values FILE    say which values differ from those of
                                                           such a table, whatever they are called

A row is a number or text in a role: the result of a function, its argument, a reading named by
its label, a field of the job. Only `rows_of` knows how the program keeps them: whoever changes
that changes it here, and sees that the numbers stay.
"""

from __future__ import annotations

import argparse
import csv
import gzip
import io
import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from golden_books import make_books

from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book
from workbook_tools.labels.layout import layouts_of

KEPT = Path(__file__).with_name("numbers.csv.gz")
COLUMNS = (
    "file", "part", "sheet", "cell", "label", "position", "function", "name", "value", "unit",
    "state",
)  # fmt: skip
# What says which number a row is; the rest is what is told of it. Where there is a cell, that
# says it without the position.
_KEY = ("file", "part", "sheet", "cell", "position", "function", "name")
_MOST_LINES = 40

Row = dict[str, str]


def rows_of(book: Book) -> Iterator[tuple[object, ...]]:
    """(place, label, function, name, value, unit, state) of all that was read from a book."""
    for r in book.records:
        name = r.function.full_name if r.function else r.name
        yield r.place, r.label, name, "result", r.value, r.unit, r.state
        yield r.place, r.label, name, "saved", r.saved, "", ""
        for a in r.arguments:
            # An argument without a cell of its own stands in that of its call.
            here = (a.place, a.label) if a.place else (r.place, r.label)
            yield *here, name, a.name, a.value, a.unit, "refused" if a.problem else ""
    for r in (*book.readings, *book.missing):
        yield r.place, r.label, "", r.measurand or "typed", r.value, r.unit, f"{r.stage} {r.state}"
    for s in book.stated:
        yield s.place, s.label, "", s.measurand, s.value, s.unit, f"{s.stage} worked out"
    for n in book.no_readings:
        yield n.place, None, "", "no reading", n.value, "", n.kind
    for s in book.stale_formulas:
        yield s.place, s.label, "", "recalculated", s.fresh, "", "stale"
    for t in book.typed_over:
        yield t.place, t.label, "", "typed over", t.value, "", ""
    for group in (book.job, book.office):
        for name, field in vars(group).items():
            text = getattr(field, "text", None)
            if text:
                yield field.place, None, "", name, text, "", "field"
    for part in book.office.parts:
        yield part.place, None, "", "part", f"{part.part}: {part.said}", "", "field"
    for fastener in book.office.fasteners:
        said = "; ".join(f"{head}: {text}" for head, text in fastener.said)
        yield fastener.place, None, "", "fastener", f"{fastener.name}: {said}", "", "field"


def numbers(folder: Path) -> list[Row]:
    """The rows of all books, sorted; folder: an empty one to work in."""
    books = make_books(folder / "books")
    paths = sorted(p for p in books.rglob("*") if p.suffix in (".xlsx", ".ods"))
    layouts = layouts_of(paths, [books])
    rows = set()
    for path in paths:
        file = path.relative_to(books).as_posix()
        for book in read_jobs(path, layouts.get(path)):
            for place, label, function, name, value, unit, state in rows_of(book):
                at = place or Place("", "")
                said = (label.text, label.position) if label else ("", "")
                where = (file, book.part, at.sheet, at.address, *said)
                rows.add((*where, function, name, _text(value), unit, state))
    return [dict(zip(COLUMNS, row, strict=True)) for row in sorted(rows)]


def _text(value: object) -> str:
    if isinstance(value, tuple):
        return "; ".join(_text(part) for part in value)
    if isinstance(value, CellError):
        return value.text
    if isinstance(value, float):
        # The digits beyond hang on the machine's mathematics.
        return f"{value:.12g}"
    return "" if value is None else str(value)


def _csv(rows: list[Row]) -> bytes:
    target = io.StringIO()
    writer = csv.DictWriter(target, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return target.getvalue().encode()


def _read(path: Path) -> list[Row]:
    content = path.read_bytes()
    text = (gzip.decompress(content) if path.suffix == ".gz" else content).decode()
    return list(csv.DictReader(io.StringIO(text)))


def difference(before: list[Row], now: list[Row]) -> str:
    """The rows that are only on one side, as lines; "" where there are none."""
    old, new = ([" | ".join(row.values()) for row in rows] for rows in (before, now))
    gone, come = sorted({*old} - {*new}), sorted({*new} - {*old})
    return _told([f"- {row}" for row in gone], [f"+ {row}" for row in come])


def value_difference(before: list[Row], now: list[Row]) -> str:
    """The numbers that only one side has, or whose value or unit differs; "" for none."""

    def keyed(rows: list[Row]) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {}
        for row in rows:
            key = " | ".join(row[n] for n in _KEY if n != "position" or not row["cell"])
            found.setdefault(key, set()).add(f"{row['value']} {row['unit']}".strip())
        return found

    old, new = keyed(before), keyed(now)
    return _told(
        [f"- {k}: {', '.join(sorted(old[k]))}" for k in sorted(old.keys() - new.keys())],
        [f"+ {k}: {', '.join(sorted(new[k]))}" for k in sorted(new.keys() - old.keys())],
        [
            f"! {k}: {', '.join(sorted(old[k]))} -> {', '.join(sorted(new[k]))}"
            for k in sorted(old.keys() & new.keys())
            if old[k] != new[k]
        ],
    )


def _told(*groups: list[str]) -> str:
    lines = []
    for group in groups:
        lines += group[:_MOST_LINES]
        if len(group) > _MOST_LINES:
            lines.append(f"  and {len(group) - _MOST_LINES} more of these")
    return "\n".join(lines)


def _main() -> str:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--keep", action="store_true", help="keep the numbers as they are now")
    parser.add_argument("--write", type=Path, metavar="FILE", help="write the table as CSV")
    parser.add_argument("--values", type=Path, metavar="FILE", help="compare values with a table")
    wanted = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        # The bands of whoever runs this are theirs alone.
        os.environ["XDG_CONFIG_HOME"] = os.environ["APPDATA"] = str(Path(folder, "config"))
        now = numbers(Path(folder))
    if wanted.keep:
        KEPT.write_bytes(gzip.compress(_csv(now), mtime=0))
    if wanted.write:
        wanted.write.write_bytes(_csv(now))
    if wanted.values:
        return value_difference(_read(wanted.values), now)
    if wanted.keep or wanted.write:
        return ""
    told = difference(_read(KEPT), now)
    own = "python tests/golden/golden_numbers.py"
    how = (
        "\nNumbers are not as kept (- kept, + now). For all of them write the table here and in a "
        f"checkout\nof the commit before, and compare:\n  {own} --write FILE\n"
        f"If the change is right, keep it:\n  {own} --keep"
    )
    return told + how if told else ""


if __name__ == "__main__":
    sys.exit(_main() or 0)
