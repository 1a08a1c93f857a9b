"""The reference page beside the catalog, with what only the hosts know of each function."""

from __future__ import annotations

from workbook_tools.catalog.reference import PAGE, as_markdown
from workbook_tools.hosts.portable import portability


def reference_page() -> str:
    """The page as it should stand in the file. Raises nothing."""
    return as_markdown(portability())


if __name__ == "__main__":
    PAGE.write_text(reference_page(), encoding="utf-8", newline="\n")
