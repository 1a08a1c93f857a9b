"""The catalog as user-defined functions of Excel for Windows, through xlwings' free part.

`functions` is the module that xlwings imports inside its Python server; nothing here imports
it, because it needs xlwings and pywin32, which only the `excel` extra brings.
"""

from workbook_tools.hosts.excel.connection import (
    ExcelError,
    Places,
    Report,
    connect,
    disconnect,
    users_places,
)

__all__ = ["ExcelError", "Places", "Report", "connect", "disconnect", "users_places"]
