"""What gives somebody the functions who installs no Python: kept here, and written anew by

    python example_books/functions_book.py

It is a book of all functions, with examples to play with, and the extension for LibreOffice.
Running it again gives the same bytes. Neither is a job: summaries pass over both.
"""

from __future__ import annotations

from pathlib import Path

from workbook_tools.functions_book import write_functions_book
from workbook_tools.hosts import libreoffice

FOLDER = Path(__file__).parent / "functions"
BOOK = FOLDER / "functions.xlsx"
EXTENSION = FOLDER / libreoffice.FILE_NAME


def main() -> None:
    """Write both anew."""
    BOOK.unlink(missing_ok=True)
    write_functions_book(BOOK)
    libreoffice.build(EXTENSION)


if __name__ == "__main__":
    main()
