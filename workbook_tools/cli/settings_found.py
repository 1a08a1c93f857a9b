"""Settings that hold for books though nobody named them, and the line that says which."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import wraps
from pathlib import Path
from typing import Any, Literal

from workbook_tools.batch.own_process import load_openpyxl
from workbook_tools.cli.shared import warn
from workbook_tools.settings.accepted import found_accepted
from workbook_tools.settings.found import bands_of, nearest_of_each

Kind = Literal["shop", "layout", "accepted"]
_MOST_TOLD = 6


def with_settings_of_books(*kinds: Kind) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Run a command with the bands of its books' shop, and tell what was found for them.

    kinds: what the command takes besides from the folders of its books, where no option names
    another.
    """

    def decorated(command: Callable[..., None]) -> Callable[..., None]:
        @wraps(command)
        def run(**given: Any) -> None:
            load_openpyxl()
            books = _books(given)
            wanted = [kind for kind in kinds if given.get(f"{kind}_file") is None]
            with bands_of(books, warn) as bands:
                found = [*settings_of(books, wanted), *bands]
                if found:
                    more = f" and {len(found) - _MOST_TOLD} more" if found[_MOST_TOLD:] else ""
                    told = ", ".join(str(path) for path in found[:_MOST_TOLD])
                    warn(f"Settings used: {told}{more}.")
                command(**given)

        return run

    return decorated


def _books(given: dict[str, Any]) -> list[Path]:
    if given.get("names"):  # Words of a survey.
        return []
    one = given.get("book")
    return list(given.get("books") or ([one] if one else []))


def settings_of(books: Sequence[Path], kinds: Sequence[Kind]) -> Iterator[Path]:
    """The files of these kinds that are found for books, each once."""
    from workbook_tools.settings.shop import SHOP_FILE

    if "shop" in kinds:
        yield from nearest_of_each(SHOP_FILE, books)
    if "layout" in kinds:
        yield from _layouts(books)
    if "accepted" in kinds:
        yield from found_accepted(books)


def _layouts(books: Sequence[Path]) -> Iterator[Path]:
    from workbook_tools.books.folder import find_books
    from workbook_tools.labels.layout import find_layouts

    try:
        found = find_books(books).books
    except OSError:  # Reading the books tells of it.
        return
    yield from dict.fromkeys(find_layouts(found, books).values())
