"""What a cell's worksheet error is about: the one function that looks at a cell itself."""

from __future__ import annotations

from typing import Annotated

from workbook_tools.catalog.kinds import CellItself, Note
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.quantities import TEXT

SECTION = "Reasons"

SeenCell = Annotated[str, TEXT, CellItself(), Note("A single cell, on this sheet or another.")]
Words = Annotated[str, TEXT]


@worksheet_function(SECTION)
def why(cell: SeenCell) -> Words:
    """Why a cell shows an error, in words; of one without an error, what its call is.

    Returns
    -------
    The argument that was refused, what was expected, and what stands in which cell. Where the
    error comes from another cell, the reason is that cell's.

    Equation
    --------
    words on the formula of the cell and on the cells that it refers to

    Validity
    --------
    In LibreOffice and in Excel with xlwings. A formula alone does not see another cell's formula:
    in a book that carries the functions itself, the answer says so.

    Source
    ------
    none needed: it repeats what the functions in the cell say of their input
    """
    return cell
