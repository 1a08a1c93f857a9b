"""A copy of a builder's book that holds the functions as defined names, or no longer does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.catalog import PREFIX, Function, entries
from workbook_tools.formulas.call_names import called_names, functions_named
from workbook_tools.hosts.archive import Archive, OutError, open_archive, read_part, write_copy
from workbook_tools.hosts.formula_elements import formula_elements
from workbook_tools.hosts.markup import Element
from workbook_tools.hosts.names import Name, calculated_on_opening, defined_names, with_names
from workbook_tools.hosts.portable.edge import (
    COMMENT_START,
    MARK_START,
    comment,
    definition,
    portability,
    words_in_place,
)


@dataclass(frozen=True)
class PortableBook:
    """What became of a book. All names are full ones (ENG.QUENCH), in order.

    added: written where there was none; renewed: ours, written anew; removed: ours, taken
    out; replaced: somebody else's, overwritten as asked; kept: somebody else's, left as they
    are, so that ours is missing; on_a_sheet: beside ours, somebody else's for one sheet, which
    win there; mended: ours that another program had damaged or doubled.
    not_portable: functions the book calls that have no formula, with the reason; to_translate:
    functions it calls as ENG_X or through an add-in's file; unknown: ENG names it calls that
    the catalog does not have; these three are told only where functions are put in.
    """

    book: Path
    out: Path
    added: tuple[str, ...] = ()
    renewed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    replaced: tuple[str, ...] = ()
    kept: tuple[str, ...] = ()
    on_a_sheet: tuple[str, ...] = ()
    mended: tuple[str, ...] = ()
    not_portable: tuple[tuple[str, str], ...] = ()
    to_translate: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Uses:
    """The functions a book names, those of them not called as ENG.X, and names that are none."""

    named: frozenset[str] = frozenset()
    to_translate: frozenset[str] = frozenset()
    unknown: frozenset[str] = frozenset()


def _uses(archive: Archive) -> _Uses:
    formulas = [
        element.text for _part, _data, holders in formula_elements(archive) for element in holders
    ]
    found = [call for formula in formulas for call in called_names(formula)]
    return _Uses(
        frozenset(name for formula in formulas for name in functions_named(formula)),
        frozenset(c.name for c in found if c.name and not c.plain),
        frozenset(c.spelled for c in found if not c.name),
    )


@dataclass(frozen=True)
class _Standing:
    """A defined name in the book that is ours, or spelled like one of the catalog's."""

    element: Element

    @property
    def name(self) -> str:
        """The name as the catalog spells it."""
        return self.element.attributes.get("name", "").upper()

    @property
    def empty(self) -> bool:
        """LibreOffice leaves an empty name beside a LAMBDA when its add-in has the function."""
        return not self.element.text.strip()

    @property
    def ours(self) -> bool:
        """Whether it is of our making: the mark is in the formula, where it outlasts saving."""
        return MARK_START in self.element.text

    @property
    def of_another_version(self) -> bool:
        """Whether it may be ours by a name unknown now. A builder's copy lacks our comment."""
        commented = COMMENT_START in self.element.attributes.get("comment", "")
        return self.ours and commented and self.name.startswith(f"{PREFIX}.")

    @property
    def on_a_sheet(self) -> bool:
        """Whether it holds for one sheet only, as in a sheet that was copied."""
        return "localSheetId" in self.element.attributes

    @property
    def damaged(self) -> bool:
        """Whether another program has made it unusable, or a second one beside the first."""
        whole = "_xlfn.LAMBDA(" in self.element.text
        return self.empty or (self.ours and (self.on_a_sheet or not whole))


def _standing(archive: Archive, data: bytes) -> list[_Standing]:
    catalog = {f.full_name for f in entries()}
    found = [_Standing(element) for element in defined_names(archive, data)]
    # One of ours may be of another version, with functions that this one does not have.
    return [s for s in found if s.name in catalog or s.of_another_version]


def portable(
    book: Path, out: Path, *, only: bool = False, remove: bool = False, replace: bool = False
) -> PortableBook:
    """Write a copy of a book that calculates in any current Excel with nothing installed.

    book: .xlsx or .xlsm, which stays as it is; out: a new file with the same ending; only:
    write the functions that the book calls and no others; remove: take ours out instead;
    replace: overwrite names of the same spelling that are not ours. Every cell is calculated
    on the next opening. Raises EditError where the book cannot be read or changed, or the
    copy not written.
    """
    if remove and (only or replace):
        raise OutError("remove takes the functions out: leave out only and replace")
    archive = open_archive(book)
    data = read_part(archive, archive.workbook)
    uses = _Uses() if remove else _uses(archive)
    reasons = portability()
    standing = _standing(archive, data)
    theirs = [s for s in standing if not s.ours and not s.empty]
    candidates = [] if remove else [
        f for f in entries()
        if (not reasons[f.name] or f.sees_cell) and (not only or f.name in uses.named)
    ]  # fmt: skip
    in_the_way = {s.name for s in theirs if not s.on_a_sheet}
    wanted = [f for f in candidates if replace or f.full_name not in in_the_way]
    written = {f.full_name for f in wanted}
    # What ours does not take the place of stays.
    overwritten = [s for s in theirs if replace and s.name in written]
    drop = [s.element for s in standing if s not in theirs or s in overwritten]
    names = [Name(f.full_name, comment(f), _text(f)) for f in wanted]
    data = with_names(archive, data, drop, names)
    if wanted:
        data = calculated_on_opening(archive, data)
    write_copy(archive, out, {archive.workbook: data})
    ours = {s.name for s in standing if s.ours or s.empty}
    replaced = {s.name for s in overwritten}
    return PortableBook(
        book=book,
        out=out,
        added=_sorted(written - ours - replaced),
        renewed=_sorted(written & ours),
        removed=_sorted(ours - written),
        replaced=_sorted(replaced),
        kept=_sorted({f.full_name for f in candidates} - written),
        on_a_sheet=_sorted(s.name for s in theirs if s.on_a_sheet and s.name in written - replaced),
        mended=_sorted(s.name for s in standing if s.damaged and not remove),
        not_portable=_reasons(reasons, uses),
        to_translate=_sorted(f"{PREFIX}.{name}" for name in uses.to_translate),
        unknown=_sorted(uses.unknown),
    )


def _text(function: Function) -> str:
    return words_in_place(function) if function.sees_cell else definition(function)


def _sorted(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(set(names)))


def _reasons(reasons: Mapping[str, str], uses: _Uses) -> tuple[tuple[str, str], ...]:
    return tuple((f.full_name, reasons[f.name]) for f in entries()
                 if f.name in uses.named and reasons[f.name])  # fmt: skip
