"""Whether this process runs this program alone, so that it may be forked itself.

Apart from what forks, which takes long to load: the command says so before all else.
"""

from __future__ import annotations

_is_own = False


def own_process() -> None:
    """Say that this process runs this program alone.

    What a program of somebody else's holds open is not to be held by others.
    """
    global _is_own
    _is_own = True


def is_own_process() -> bool:
    """Whether it was said."""
    return _is_own
