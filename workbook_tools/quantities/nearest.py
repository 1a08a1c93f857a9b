"""What was likely meant by a name that is not known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from workbook_tools.quantities.spellings import SPELLINGS


def nearest(word: str, known: Iterable[str], least: float = 0.6) -> str:
    """The name that is spelled most like a word, in whatever case; "" where none is like it.

    least: how much alike they have to be, from 0 to 1.
    """
    names = {_even(name): name for name in known}
    near = difflib.get_close_matches(_even(word), names, n=1, cutoff=least)
    return names[near[0]] if near else ""


def hint(word: str, known: Iterable[str]) -> str:
    """The end of a message on a name that is not known: the nearest one, or all there are."""
    names = list(known)
    near = nearest(word, names)
    return f"the nearest is {near}" if near else f"choose one of {', '.join(names)}"


def nearest_unit(text: str) -> str:
    """The unit that is spelled most like a text, "" where none is."""
    return nearest(text, SPELLINGS, 0.7)


def _even(name: str) -> str:
    return name.strip().replace("_", " ").casefold()
