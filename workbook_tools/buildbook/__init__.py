"""The book to start from: a builder's working paper, filled in at the bench."""

from __future__ import annotations

from workbook_tools.buildbook.book import BookReport, fields, new_book
from workbook_tools.buildbook.like import new_like
from workbook_tools.buildbook.page import Field
from workbook_tools.buildbook.plan import (
    LAYOUTS,
    OPTIONAL_SHEETS,
    SCOPES,
    BuildBookError,
    Layout,
    OlderBookError,
    Plan,
    plan_for,
)

__all__ = [
    "LAYOUTS",
    "OPTIONAL_SHEETS",
    "SCOPES",
    "BookReport",
    "BuildBookError",
    "Field",
    "Layout",
    "OlderBookError",
    "Plan",
    "fields",
    "new_book",
    "new_like",
    "plan_for",
]
