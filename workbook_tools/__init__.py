"""Worksheet functions and a batch tool for engine building.

In Python: `read` a book, `check` it, `summarize` a folder, `evaluate` a formula, look up
`functions`, and take what books hold as pandas frames with `readings_frame` and
`findings_frame`.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook_tools.api import check, evaluate, functions, read, summarize
    from workbook_tools.frames import findings_frame, readings_frame

__version__ = "0.1.0"
__all__ = [
    "__version__",
    "check",
    "evaluate",
    "findings_frame",
    "functions",
    "read",
    "readings_frame",
    "summarize",
]

# Brought in when they are asked for: a command that needs none of them starts at once.
_WHERE = {
    "check": "api",
    "evaluate": "api",
    "findings_frame": "frames",
    "functions": "api",
    "read": "api",
    "readings_frame": "frames",
    "summarize": "api",
}


def __getattr__(name: str) -> object:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
