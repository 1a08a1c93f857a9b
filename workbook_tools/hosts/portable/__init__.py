"""The catalog as defined names that hold LAMBDAs: formulas that need no add-in."""

from __future__ import annotations

from workbook_tools.hosts.portable.book import PortableBook, portable
from workbook_tools.hosts.portable.edge import comment, definition, portability

__all__ = ["PortableBook", "comment", "definition", "portability", "portable"]
