"""What the sheets of an .xlsx workbook share: texts, and styles that tell what cells are."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from openpyxl.cell.text import Text
from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format
from openpyxl.xml.constants import SHEET_MAIN_NS
from openpyxl.xml.functions import fromstring, iterparse


def require_root(root: Any, name: str) -> None:
    """Refuse a part of another namespace, in which nothing would be found."""
    if root.tag != f"{{{SHEET_MAIN_NS}}}{name}":
        raise ValueError(f"expected a {name} of SpreadsheetML, got {root.tag}")


_TEXT = f"{{{SHEET_MAIN_NS}}}t"
_ITEM = f"{{{SHEET_MAIN_NS}}}si"
# A larger part is read element by element, so that it never is in memory as a whole.
MOST_AT_ONCE = 2_000_000


def read_texts(archive: zipfile.ZipFile, path: str) -> list[str]:
    """The texts that cells share, in the order of their numbers."""
    texts: list[str] = []
    for item in _items(archive, path) if path else ():
        if len(item) == 1 and item[0].tag == _TEXT:
            text = item[0].text or ""
        else:
            rich: Any = Text.from_tree(item)
            text = rich.content
        # As openpyxl does: Excel escapes an underscore so that looks like an escape.
        texts.append(text.replace("x005F_", ""))
    return texts


def _items(archive: zipfile.ZipFile, path: str) -> Iterator[Any]:
    """The elements that hold one text each."""
    if archive.getinfo(path).file_size <= MOST_AT_ONCE:
        root: Any = fromstring(archive.read(path))
        yield from root.iter(_ITEM)
        return
    with archive.open(path) as source:
        for _, element in iterparse(source):
            if element.tag == _ITEM:
                yield element
                element.clear()


@dataclass(frozen=True)
class Styles:
    """The cell styles, by number, that make dates, lengths of time, and text struck through."""

    dates: frozenset[int] = frozenset()
    durations: frozenset[int] = frozenset()
    struck: frozenset[int] = frozenset()


@lru_cache(maxsize=8)
def read_styles(part: bytes) -> Styles:
    """The styles of a workbook's part, read once for programs that write it alike each time."""
    root: Any = fromstring(part)
    require_root(root, "styleSheet")

    def each(path: str) -> list[Any]:
        return list(root.findall("/".join(f"{{{SHEET_MAIN_NS}}}{tag}" for tag in path.split("/"))))

    codes = dict(BUILTIN_FORMATS)
    codes.update((int(f.get("numFmtId")), f.get("formatCode")) for f in each("numFmts/numFmt"))
    strikes = [font.find(f"{{{SHEET_MAIN_NS}}}strike") for font in each("fonts/font")]
    struck = {
        n for n, s in enumerate(strikes) if s is not None and s.get("val") not in ("0", "false")
    }
    styles = each("cellXfs/xf")
    formats = [codes.get(int(style.get("numFmtId", 0)), "General") for style in styles]
    return Styles(
        frozenset(n for n, code in enumerate(formats) if is_date_format(code)),
        frozenset(n for n, code in enumerate(formats) if is_timedelta_format(code)),
        frozenset(n for n, style in enumerate(styles) if int(style.get("fontId", 0)) in struck),
    )
