"""The VBA text and the texts of the function wizard, as xlwings itself generates them."""

from __future__ import annotations

import io
import subprocess
from pathlib import Path
from types import SimpleNamespace
from unittest.mock import MagicMock
from xml.sax.saxutils import escape

import pytest
from com_stand_ins import FUNCTIONS, windows
from each_case import each

from workbook_tools.catalog import UNITS_HELP, entries, find
from workbook_tools.hosts.excel import wrapper

# Microsoft, [MS-VBAL] VBA Language Specification, 3.3.5.2 Reserved Identifiers; from memory.
RESERVED = """
    abs addressof and any array as boolean byref byte byval call case cbool cbyte ccur cdate
    cdbl cdec cdecl cint circle clng clnglng clngptr close const csng cstr currency cvar cverr
    date debug decimal declare defbool defbyte defcur defdate defdbl defdec defint deflng
    deflnglng deflngptr defobj defsng defstr defvar dim do doevents double each else elseif
    empty end endif enum eqv erase event exit false fix for friend function get global gosub
    goto if imp implements in input inputb int integer is lbound len lenb let like line lock
    long longlong longptr loop lset me mod new next not nothing null on open option optional
    or paramarray preserve print private pset public put raiseevent redim rem resume return
    rset scale seek select set sgn shared single spc static step stop string sub tab then to
    true type typeof ubound unlock until variant wend while with withevents write xor
"""
# What the generated text itself uses, in any case: a parameter of that name would hide it.
USED = {"application", "xlpy", "engcall", "thisworkbook", "activeworkbook", "caller", "err"}
CATALOG = list(entries())
# A module of somebody else beside ours.
OTHER = "somebodys_functions"


@pytest.fixture(scope="module")
def excel():
    with windows() as machinery:
        yield machinery


@pytest.fixture(scope="module")
def imported(excel):
    """What "Import Functions" does with a book: the VBA module, and help by function."""
    book = MagicMock()
    book.Name = "job.xlsm"
    book.Application.Version = "16.0"
    texts = []
    book.VBProject.VBComponents.Import.side_effect = lambda path: texts.append(
        Path(path).read_text(encoding="ascii")
    )
    excel.udfs.import_udfs(FUNCTIONS, book)
    [text] = texts
    helps = {
        made.args[0]: SimpleNamespace(**made.kwargs)
        for made in book.Application.MacroOptions.call_args_list
    }
    return SimpleNamespace(text=text, helps=helps)


def names_of(function):
    optional = [p.name for p in function.parameters if p.optional]
    required = [p.name for p in function.parameters if not p.optional]
    return required, optional + ["units"] * function.takes_units


def test_the_module_holds_every_function_and_nothing_else_in_view(imported):
    found = [line for line in imported.text.splitlines() if "Function " in line.split("(")[0]]
    shown = {line.split("(")[0] for line in found if not line.startswith(("End", "Private"))}
    shown = {line for line in shown if "Exit Function" not in line}
    assert shown == {f"Function ENG_{function.name}" for function in entries()}


@each("function", CATALOG)
def test_declaration_and_call(imported, function):
    required, optional = names_of(function)
    name = f"ENG_{function.name}"
    declared = ", ".join([*required, *(f"Optional {n}" for n in optional)])
    assert f"\nFunction {name}({declared})\n" in imported.text
    passed = ", ".join(required + optional)
    assert (
        f'{name} = EngCall("{FUNCTIONS}", "{name}", Array({passed}), '
        "ThisWorkbook, Application.Caller)\n"
    ) in imported.text
    assert f"failed:\n    {name} = CVErr(xlErrValue)\nEnd Function\n" in imported.text


def test_no_failure_becomes_a_text(imported):
    assert "Err.Description" not in imported.text
    # The one call of xlwings' server is in the function that looks at what comes back.
    assert imported.text.count("XLPy.CallUDF(") == 1


def test_the_text_keeps_the_limits_of_vba(imported):
    # Microsoft, "Line too long" error of Visual Basic for Applications: 1,023 characters.
    assert max(map(len, imported.text.splitlines())) <= 1023


@each("function", CATALOG)
def test_no_name_means_something_else_in_vba(function):
    required, optional = names_of(function)
    lower = [name.lower() for name in required + optional]
    assert not set(lower) & {*RESERVED.split(), *USED}
    assert len(set(lower)) == len(lower)
    assert all(name.isidentifier() and not name.startswith("_") for name in lower)
    # Microsoft, VBA naming rules: 255 characters at most.
    assert len(f"ENG_{function.name}") <= 255


@each("function", CATALOG)
def test_category_and_help(imported, function):
    shown = imported.helps[f"'job.xlsm'!ENG_{function.name}"]
    assert shown.Category == f"ENG {function.section}"
    first = function.summary.split(". ")[0]
    assert shown.Description.startswith(first)
    assert len(shown.Description) <= 255
    required, optional = names_of(function)
    assert len(shown.ArgumentDescriptions) == len(required + optional)
    helps = {p.name: p.help for p in function.parameters} | {"units": UNITS_HELP}
    for name, text in zip(required + optional, shown.ArgumentDescriptions, strict=True):
        assert len(text) <= 255
        assert text.startswith("Optional. ") == (name in optional)
        # Whole sentences of the catalog's own help.
        assert helps[name].startswith(text.removeprefix("Optional. ")), text
        assert text.endswith((".", "!", "?")), text


def test_of_a_long_help_only_whole_sentences_are_shown(imported):
    long = find("PISTON_TO_VALVE")
    assert len(f"{long.summary} {long.caution} {long.result_help}") > 255
    shown = imported.helps["'job.xlsm'!ENG_PISTON_TO_VALVE"].Description
    assert shown.endswith(".")
    assert f"{long.summary} {long.caution} {long.result_help}".startswith(shown)


def generated(excel, name, module):
    text = io.StringIO()
    excel.udfs.generate_vba_wrapper(name, module, text, SimpleNamespace(Name="job.xlsm"))
    return text.getvalue()


def test_the_functions_of_others_are_written_as_xlwings_writes_them(excel):
    def half(x):
        return x / 2

    module = SimpleNamespace(half=excel.udfs.xlfunc(half))
    text = generated(excel, OTHER, module)
    assert "half = XLPy.CallUDF(" in text
    assert "half = Err.Description" in text
    assert "EngCall" not in text


def test_correcting_twice_changes_nothing(excel):
    once = generated(excel, FUNCTIONS, excel.functions)
    wrapper.correct(excel.udfs)
    assert generated(excel, FUNCTIONS, excel.functions) == once


@pytest.mark.parametrize("old", ["Err.Description", "XLPy.CallUDF("])
def test_an_unknown_way_of_writing_is_refused(excel, old):
    text = io.StringIO()
    excel.udfs.generate_vba_wrapper.__wrapped__(
        FUNCTIONS, excel.functions, text, SimpleNamespace(Name="job.xlsm")
    )
    wrapper.with_real_errors(text.getvalue())
    with pytest.raises(RuntimeError, match=r"pip install .*\[excel\]"):
        wrapper.with_real_errors(text.getvalue().replace(old, "SomethingElse"))


# What xlwings' server would give back, by the first argument of the call; 448 is the error
# value that pywin32 makes of every error value.
SERVER = """
Function FromServer(udfModule, udfName, udfArguments, book, caller)
    Dim table(0 To 1, 0 To 1) As Variant, line(0 To 1) As Variant, column(0 To 1, 0 To 0)
    table(0, 0) = 1.5: table(0, 1) = CVErr(448): table(1, 0) = CVErr(448): table(1, 1) = "ok"
    line(0) = CVErr(448): line(1) = 2.5
    column(0, 0) = CVErr(448): column(1, 0) = 3.5
    Select Case udfArguments(0)
        Case "number": FromServer = 4.5
        Case "text": FromServer = "out"
        Case "error": FromServer = CVErr(448)
        Case "table": FromServer = table
        Case "line": FromServer = line
        Case "column": FromServer = column
        Case Else: Err.Raise 1000, "xlwings", "Could not activate Python COM server"
    End Select
End Function

Function Shown(value) As String
    If VarType(value) = vbError Then
        Shown = "error " & CLng(value)
    Else
        Shown = CStr(value)
    End If
End Function

Function GivesNumber(): GivesNumber = Shown(ENG_QUENCH("number", 1)): End Function
Function GivesText(): GivesText = Shown(ENG_QUENCH("text", 1)): End Function
Function GivesError(): GivesError = Shown(ENG_QUENCH("error", 1)): End Function
Function Unreachable(): Unreachable = Shown(ENG_QUENCH("?", 1)): End Function
Function GivesTable()
    Dim x
    x = ENG_QUENCH("table", 1)
    GivesTable = Shown(x(0, 0)) & "|" & Shown(x(0, 1)) & "|" & Shown(x(1, 0)) & "|" & Shown(x(1, 1))
End Function
Function GivesLine()
    Dim x
    x = ENG_QUENCH("line", 1)
    GivesLine = Shown(x(0)) & "|" & Shown(x(1))
End Function
Function GivesColumn()
    Dim x
    x = ENG_QUENCH("column", 1)
    GivesColumn = Shown(x(0, 0)) & "|" & Shown(x(1, 0))
End Function
"""
# Microsoft, XlCVError enumeration: xlErrValue is 2015, shown as #VALUE!.
GIVEN = {
    "GivesNumber": "4.5",
    "GivesText": "out",
    "GivesError": "error 2015",
    "Unreachable": "error 2015",
    "GivesTable": "1.5|error 2015|error 2015|ok",
    "GivesLine": "error 2015|2.5",
    "GivesColumn": "error 2015|3.5",
}


# A Basic module as LibreOffice keeps it in a profile.
MODULE = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Module1"
 script:language="StarBasic">%s</script:module>"""


def test_the_vba_text_runs_and_every_failure_is_a_value_error(imported, office, tmp_path):
    """The whole generated module in LibreOffice's Basic, which runs VBA text.

    Replaced: xlwings' server, and what only Excel has, the book and the cell that calls.
    """
    body = imported.text.partition("\n")[2]
    body = body.replace("XLPy.CallUDF(", "FromServer(")
    body = body.replace("ThisWorkbook, Application.Caller", "Nothing, Nothing")
    body = body.replace("If TypeOf Application.Caller Is Range Then", "If True Then")
    written = tmp_path / "given.txt"
    lines = [f'Print #1, "{name}=" & {name}()' for name in GIVEN]
    main = "\n".join(
        ["Sub Main", f'Open "{written}" For Output As #1', *lines, "Close #1", "End Sub"]
    )
    module = "\n".join(["Option VBASupport 1", body, SERVER, main])
    command = [
        office.program("soffice"),
        f"-env:UserInstallation={tmp_path.as_uri()}",
        "--headless",
    ]
    # The first start makes the profile, with an empty Module1 in it.
    for last in ("--terminate_after_init", "macro:///Standard.Module1.Main"):
        subprocess.run([*command, last], capture_output=True, timeout=60, check=True)
        basic = tmp_path / "user" / "basic" / "Standard" / "Module1.xba"
        basic.write_text(MODULE % escape(module), encoding="utf-8")
    given = dict(line.split("=", 1) for line in written.read_text().splitlines())
    assert given == GIVEN
