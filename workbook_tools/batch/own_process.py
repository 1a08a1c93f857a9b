"""Whether this process runs this program alone, so that it may be forked itself.

Apart from what forks, which takes long to load: the command says so before all else.
"""

from __future__ import annotations

import sys

_is_own = False


def own_process() -> None:
    """Say that this process runs this program alone.

    What a program of somebody else's holds open is not to be held by others.
    """
    global _is_own
    _is_own = True


def load_openpyxl() -> None:
    """Load openpyxl without numpy, which takes longer to load than openpyxl does.

    openpyxl has it to write its numbers, and does without where it is not installed. Nothing
    here writes them; a program of somebody else's may, and so only a process of its own does
    this.
    """
    if "openpyxl" in sys.modules or "numpy" in sys.modules:
        return
    sys.modules["numpy"] = None  # type: ignore[assignment]  # So Python is told: not installed.
    try:
        import openpyxl  # noqa: F401
    finally:
        del sys.modules["numpy"]


def is_own_process() -> bool:
    """Whether it was said."""
    return _is_own
