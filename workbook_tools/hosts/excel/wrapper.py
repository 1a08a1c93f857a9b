"""The VBA text between a cell and Python: as xlwings generates it, but with real errors.

Where Python cannot be reached, or raises, xlwings puts the message into the cell as a text,
which AVERAGE and SUM skip without a word. And an error value that Python returns loses its
number on the way: pywin32 hands it over as "argument missing". So the text that xlwings
generates is corrected before Excel gets it: every failure is Excel's own #VALUE!.
"""

from __future__ import annotations

import functools
import io
from collections.abc import Callable
from types import ModuleType
from typing import Any, TextIO

from workbook_tools.hosts.excel.names import INSTALLATION, MODULE

_CALL, _FAILURE = "XLPy.CallUDF(", " = Err.Description"
_CHECKED_CALL, _ERROR = "EngCall(", " = CVErr(xlErrValue)"

# Private, so that the function wizard does not list it. A result of one row arrives as an
# array of one dimension, any other array as rows and columns, both counted from 0.
_ENG_CALL = """\
' Calls Python through xlwings and puts Excel's own #VALUE! where an error value came back.
Private Function EngCall(udfModule, udfName, udfArguments, book, caller) As Variant
    Dim result As Variant, lastColumn As Long, r As Long, c As Long
    result = XLPy.CallUDF(udfModule, udfName, udfArguments, book, caller)
    If IsArray(result) Then
        lastColumn = -1
        On Error Resume Next
        lastColumn = UBound(result, 2)
        On Error GoTo 0
        For r = LBound(result) To UBound(result)
            If lastColumn = -1 Then
                If VarType(result(r)) = vbError Then result(r) = CVErr(xlErrValue)
            Else
                For c = 0 To lastColumn
                    If VarType(result(r, c)) = vbError Then result(r, c) = CVErr(xlErrValue)
                Next c
            End If
        Next r
    ElseIf VarType(result) = vbError Then
        result = CVErr(xlErrValue)
    End If
    EngCall = result
End Function

"""


def with_real_errors(text: str) -> str:
    """xlwings' wrapper text of our module, corrected so that every failure is #VALUE!.

    Raises RuntimeError where the text is not made as known, so that nothing is imported
    whose errors might be texts.
    """
    functions = text.count("End Function\n")
    if text.count(_FAILURE) != functions or text.count(f" = {_CALL}") != 2 * functions:
        raise RuntimeError(
            "this version of xlwings writes its VBA functions in a way that is not known to "
            f"workbook-tools: install a version that is, with {INSTALLATION}"
        )
    return _ENG_CALL + text.replace(_CALL, _CHECKED_CALL).replace(_FAILURE, _ERROR)


def correct(udfs: ModuleType) -> None:
    """Let xlwings write our module's wrapper with real errors; other modules' stay as they are.

    udfs: the module xlwings.udfs, which has no setting for this. Doing it twice is harmless.
    """
    original: Callable[..., None] = udfs.generate_vba_wrapper
    if hasattr(original, "corrects_errors"):
        return

    @functools.wraps(original)
    def generate(module_name: str, module: ModuleType, f: TextIO, xl_workbook: Any) -> None:
        if module_name != MODULE:
            return original(module_name, module, f, xl_workbook)
        text = io.StringIO()
        original(module_name, module, text, xl_workbook)
        f.write(with_real_errors(text.getvalue()))
        return None

    generate.corrects_errors = True  # type: ignore[attr-defined]
    udfs.generate_vba_wrapper = generate  # type: ignore[attr-defined]
