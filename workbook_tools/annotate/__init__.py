"""A builder's own book with the catalog's results beside it: annotated, in a copy."""

from __future__ import annotations

from workbook_tools.annotate.annotated import AnnotatedBook, annotate

__all__ = ["AnnotatedBook", "annotate"]
