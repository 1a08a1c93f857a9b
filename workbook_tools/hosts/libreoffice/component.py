"""The add-in as LibreOffice loads it: every method of the service ENG is a catalog function.

This file travels in the extension beside `pythonpath/`. LibreOffice executes it during
installation already, when the interface below is not known yet, and with whatever Python it
brings: so only uno is imported at the top, and the catalog with the first call.
"""

from __future__ import annotations

import contextlib
import math
import os
import sys
from typing import Any

import uno
import unohelper
from com.sun.star.lang import IllegalArgumentException, XServiceInfo

if sys.version_info < (3, 11):  # noqa: UP036 - LibreOffice's own Python may be older
    raise RuntimeError(
        "The ENG worksheet functions need Python 3.11 or later inside LibreOffice, which has "
        f"{sys.version_info[0]}.{sys.version_info[1]}. Install a newer LibreOffice."
    )

SERVICE = "ENG"
IMPLEMENTATION = "workbooktools.WorksheetFunctions"
# More cells than a range of readings ever has: a whole column or row was given.
_MANY_CELLS = 50000

_interfaces: list[Any] = [XServiceInfo]
# pyuno raises a type of its own while the name is unknown.
with contextlib.suppress(Exception):
    _interfaces.append(uno.getClass("workbooktools.XWorksheetFunctions"))


@contextlib.contextmanager
def _own_modules() -> Any:
    """Imports of what travels with this file, whichever others Python might find first."""
    folder = os.path.join(os.path.dirname(__file__), "pythonpath")
    sys.path.insert(0, folder)
    try:
        yield
    finally:
        sys.path.remove(folder)


def _catalog() -> Any:
    with _own_modules():
        import platformdirs  # noqa: F401 - found here rather than later, in another extension

        from workbook_tools import catalog
    return catalog


def _last_filled(row: tuple[Any, ...]) -> int:
    """Index of the last cell that holds something, -1 in an empty row."""
    return next((c for c in range(len(row) - 1, -1, -1) if row[c] not in ("", None)), -1)


def _used_part(arguments: tuple[Any, ...]) -> list[Any]:
    """Arguments without the empty end of whole columns and rows.

    All are cut where the fullest of them ends, so that they still stand side by side.
    """
    large = [isinstance(a, tuple) and len(a) * len(a[0]) > _MANY_CELLS for a in arguments]
    rows, columns = 1, 1
    for table in (a for a, is_large in zip(arguments, large, strict=True) if is_large):
        for r, row in enumerate(table):
            last = _last_filled(row)
            if last >= 0:
                rows, columns = max(rows, r + 1), max(columns, last + 1)
    return [
        tuple(row[:columns] for row in a[:rows]) if is_large else a
        for a, is_large in zip(arguments, large, strict=True)
    ]


def _shown(value: Any) -> Any:
    """A result as its cell holds it."""
    from workbook_tools.quantities.noise import ended

    if isinstance(value, Exception):
        return math.nan  # The only error that a table can hold: the cell shows #NUM!.
    return ended(value) if isinstance(value, float) else value


class WorksheetFunctions(unohelper.Base, *_interfaces):  # type: ignore[misc]
    """One object for all functions; LibreOffice finds the methods in the type library."""

    _loaded: Any = None

    def __init__(self, context: Any) -> None:
        self._context = context

    def __getattr__(self, name: str) -> Any:
        if not name.isupper():
            raise AttributeError(name)
        if self._loaded is None:
            WorksheetFunctions._loaded = _catalog()
        function = self._loaded.find(name)
        if function is None:
            raise AttributeError(name)

        def call(*arguments: Any) -> Any:
            if function.sees_cell:
                return self._reason(*arguments)
            return self._call(function, arguments)

        setattr(self, name, call)  # found directly from now on
        return call

    def _call(self, function: Any, arguments: tuple[Any, ...]) -> Any:
        catalog = self._loaded
        given = [catalog.OMITTED if a is None else a for a in _used_part(arguments)]
        try:
            value = catalog.calculate(function, given).value
        except catalog.ArgumentError as error:
            names = [p.name for p in function.parameters]
            position = names.index(error.parameter) if error.parameter in names else 0
            # What gives an error value in the cell, Err:502. The words are shown nowhere.
            raise IllegalArgumentException(str(error), self, position) from None
        if function.result.name == "text" and not function.result_block:
            # The type library says `any` for these (see result_type), which takes no table.
            if isinstance(value, tuple):
                raise IllegalArgumentException("expected single values, not a range", self, 0)
            return value
        rows = value if isinstance(value, tuple) else ((value,),)
        return tuple(tuple(map(_shown, row)) for row in rows)

    def _reason(self, document: Any, cell: Any) -> str:
        """Words about a cell itself, which come with their document."""
        with _own_modules():
            from workbook_tools.formulas.seen_cells import reason_of
        words: str = reason_of(self._context, document, cell)
        return words

    def getImplementationName(self) -> str:
        """The name under which the object is registered."""
        return IMPLEMENTATION

    def supportsService(self, name: str) -> bool:
        """Whether the object is the service of this name."""
        return name == SERVICE

    def getSupportedServiceNames(self) -> tuple[str, ...]:
        """The one service, whose name stands before the point in ENG.QUENCH."""
        return (SERVICE,)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(WorksheetFunctions, IMPLEMENTATION, (SERVICE,))
