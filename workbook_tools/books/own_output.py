"""Workbooks that this program wrote as its output, which are no books of the shop's."""

from __future__ import annotations

import os
import re
import zipfile
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import BinaryIO

from workbook_tools.books.folder import Found

# The property of a document that says which output it is; other programs keep it on saving.
PROPERTY = "workbook-tools"
BUILD_SUMMARY, MONTH, FUNCTIONS = "build summary", "summary of a month", "book of functions"
REVIEW = "review copy"

_PLURAL = {
    BUILD_SUMMARY: "build summaries",
    MONTH: "summaries of months",
    FUNCTIONS: "books of functions",
    REVIEW: "review copies",
}
# Where workbooks keep their properties, and more of it than any that are ours have.
_PARTS = ("docProps/custom.xml", "docProps/core.xml", "meta.xml")
_MOST = 65_536
_SAID = re.compile(rf'name="{PROPERTY}"[^>]*>\s*(?:<[\w:]+>)?([a-z ]+)<')
# The first release wrote no such property, but titles of its own, and always this time.
_TITLE = re.compile(r"title>(?:(Build summary, )|Builds of [A-Z][a-z]+ \d{4}<)")
_TIME = re.compile(r"(?:created[^>]*|creation-date)>2000-01-01T00:00:00")


def own_output(file: Path | BinaryIO) -> str:
    """Which output of this program a workbook is, as BUILD_SUMMARY or REVIEW; "" for none.

    file: an .xlsx or .ods file, whatever its name and place. Raises nothing: what cannot be
    opened is none.
    """
    try:
        with zipfile.ZipFile(file) as archive:
            here = [part for part in _PARTS if part in archive.NameToInfo]
            for part in here:
                with archive.open(part) as properties:
                    found = _told(properties.read(_MOST).decode("utf-8", "replace"))
                if found:
                    return found
    except Exception:
        # Opening it as a book says what is wrong with it.
        return ""
    return ""


def _told(properties: str) -> str:
    said = _SAID.search(properties)
    if said and said[1] in _PLURAL:
        return said[1]
    title = _TITLE.search(properties)
    if title and _TIME.search(properties):
        return BUILD_SUMMARY if title[1] else MONTH
    return ""


def without_own_output(found: Found) -> Found:
    """The books found, with workbooks that this program wrote as output left aside."""
    own = {
        path: what for path in found.books if os.path.isfile(path) and (what := own_output(path))
    }
    if not own:
        return found
    many = Counter((path.parent, what) for path, what in own.items())
    aside = {
        (path.parent if many[path.parent, what] > 1 else path, what): many[path.parent, what]
        for path, what in own.items()
    }
    return replace(
        found,
        books=tuple(path for path in found.books if path not in own),
        left_aside=(
            *found.left_aside,
            *(
                (path, f"{count} {_PLURAL[what]} that this program wrote" if count > 1
                 else f"a {what} that this program wrote")
                for (path, what), count in aside.items()
            ),
        ),
    )  # fmt: skip
