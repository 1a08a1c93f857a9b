"""The book of functions that is kept here: all of them, with examples to play with. Run:

    python example_books/functions_book.py

Running it again gives the same bytes. It is no job: summaries pass over it.
"""

from __future__ import annotations

from pathlib import Path

from workbook_tools.functions_book import write_functions_book

BOOK = Path(__file__).parent / "functions" / "functions.xlsx"


def main() -> None:
    """Write the book anew."""
    BOOK.unlink(missing_ok=True)
    write_functions_book(BOOK)


if __name__ == "__main__":
    main()
