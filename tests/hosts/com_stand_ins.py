"""Stand-ins for Windows' COM layer, so that xlwings' own function machinery runs anywhere.

Replaced is only what pywin32 and Windows bring: nothing of xlwings. What pywin32 really does
with values was seen with its Windows build (312): cells arrive as floats, texts, bools, None
and, for errors, as the int of their code; a VARIANT of VT_ERROR leaves as an error value
whose number is lost ("argument missing").
"""

from __future__ import annotations

import ctypes
import datetime
import importlib
import sys
import types
from contextlib import contextmanager, suppress
from types import SimpleNamespace
from unittest.mock import MagicMock

FUNCTIONS = "workbook_tools.hosts.excel.functions"
OMITTED = -2147352572  # what COM passes for an argument left out
VT_ERROR = 10
# The codes of error values: Microsoft, XlCVError enumeration, in COM's facility 0x800A.
ERRORS = {
    "#NULL!": 2000,
    "#DIV/0!": 2007,
    "#VALUE!": 2015,
    "#REF!": 2023,
    "#NAME?": 2029,
    "#NUM!": 2036,
    "#N/A": 2042,
    "#SPILL!": 2045,
    "#CALC!": 2050,
}
RANGE_IID = "{00020846-0000-0000-C000-000000000046}"


def error(text):
    """An error value as a cell's content crosses COM."""
    return ERRORS[text] + 0x800A0000 - 2**32


class ComTime(datetime.datetime):
    """pywintypes' time type, which is a datetime."""


class VARIANT:
    def __init__(self, varianttype, value):
        self.varianttype = varianttype
        self.value = value


class Cells:
    """A range of cells as Excel hands it over; one cell's Value is no table."""

    def __init__(self, *rows):
        self.Value = rows[0][0] if len(rows) == 1 == len(rows[0]) else rows
        self.Rows = SimpleNamespace(Count=len(rows))
        self.Columns = SimpleNamespace(Count=len(rows[0]))
        self.Count = len(rows) * len(rows[0])
        self.Worksheet, self.Row, self.Column = MagicMock(), 1, 1
        kind = SimpleNamespace(GetTypeAttr=lambda: SimpleNamespace(iid=RANGE_IID))
        self._oleobj_ = SimpleNamespace(GetTypeInfo=lambda: kind)


def _modules():
    def module(name, **content):
        made = types.ModuleType(name)
        made.__dict__.update(content)
        return made

    com_error = type("com_error", (Exception,), {})
    dispatch = type("PyIDispatch", (), {})

    def as_it_is(thing, **_):
        return thing

    def not_wrapped(thing):
        raise com_error

    client = module(
        "win32com.client",
        VARIANT=VARIANT,
        Dispatch=as_it_is,
        DispatchEx=as_it_is,
        CDispatch=dispatch,
        CoClassBaseClass=dispatch,
        DispatchBaseClass=dispatch,
    )
    server_util = module("win32com.server.util", wrap=as_it_is, unwrap=not_wrapped)
    server = module("win32com.server", util=server_util, __path__=[])
    return {
        "pywintypes": module(
            "pywintypes", com_error=com_error, error=com_error, TimeType=ComTime, IID=str
        ),
        "pythoncom": module(
            "pythoncom",
            __file__="pythoncom.dll",
            VT_ERROR=VT_ERROR,
            CoInitialize=lambda *_: None,
            IID_IDispatch=0,
            TypeIIDs={0: dispatch},
        ),
        "win32timezone": module("win32timezone", TimeZoneInfo=MagicMock()),
        "win32com": module("win32com", client=client, server=server, __path__=[]),
        "win32com.client": client,
        "win32com.server": server,
        "win32com.server.util": server_util,
        "win32com.server.dispatcher": module("win32com.server.dispatcher"),
        "win32com.server.policy": module("win32com.server.policy"),
        **{f"win32{n}": MagicMock() for n in ("api", "con", "gui", "process", "event")},
    }


def _foreign(stand_ins):
    """The names of modules that are loaded and go with xlwings or with what stands in."""
    roots = {"xlwings", *stand_ins}
    return [name for name in sys.modules if name == FUNCTIONS or name.split(".")[0] in roots]


@contextmanager
def windows():
    """xlwings as it is on Windows, with our functions imported; undone at the end.

    Yields udfs (xlwings' own), server (the object that Excel's VBA talks to) and functions
    (our module, as xlwings finds it).
    """
    stand_ins = _modules()
    before = {name: sys.modules.pop(name) for name in _foreign(stand_ins)}
    sys.modules.update(stand_ins)
    ctypes.windll = ctypes.oledll = MagicMock()
    real_dll, ctypes.PyDLL = ctypes.PyDLL, MagicMock()
    try:
        xlwings = importlib.import_module("xlwings")
        xlwings._xlwindows = importlib.import_module("xlwings._xlwindows")
        xlwings.engines.add(xlwings.main.Engine(impl=xlwings._xlwindows.engine))
        udfs = importlib.import_module("xlwings.udfs")
        # What xlwings itself does on Windows only.
        xlwings.func, xlwings.arg = udfs.xlfunc, udfs.xlarg
        com_server = importlib.import_module("xlwings.com_server")
        functions = udfs.get_udf_module(FUNCTIONS, None)
        try:
            yield SimpleNamespace(udfs=udfs, server=com_server.XLPython(), functions=functions)
        finally:
            com_server.loop.close()
    finally:
        ctypes.PyDLL = real_dll
        del ctypes.windll, ctypes.oledll
        for name in _foreign(stand_ins):
            del sys.modules[name]
        sys.modules.update(before)
        with suppress(AttributeError):
            del sys.modules[FUNCTIONS.rpartition(".")[0]].functions
