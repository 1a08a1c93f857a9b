"""How a build book looks: paper, ink, and what a cell's look says about it.

Printed in gray it still reads: what is typed stands in boxes, what is computed on gray,
limits in italics between rules; a verdict carries a word and a sign, not color alone.
"""

from __future__ import annotations

from typing import Any, Literal

from openpyxl import Workbook
from openpyxl.formatting.rule import Rule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Protection, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.styles.numbers import NumberFormat
from openpyxl.utils.indexed_list import IndexedList

FONT = "Arial"
# Widths are counted in digits of the book's own font, which one as wide stands in for anywhere:
# in points, as LibreOffice lays them out; Excel rounds down to whole pixels.
DIGIT_WIDTH = 10 * 0.556
INK = "26343B"
SOFT = "6B7780"
RULE = "9AA5AB"
SECTION = "3E5C57"
HEAD = "E4E8E2"
PAPER = "FFFDF2"
LIMIT = "EAF1EE"
COMPUTED = "EFEFEF"

# What a cell is for. The first three stay when the next job is started from a book.
Role = Literal[
    "spec",
    "band",
    "origin",
    "reading",
    "text",
    "date",
    "sign",
    "choice",
    "result",
    "verdict",
    "pulled",
    "said",
    "doubt",
    "label",
    "head",
    "row",
    "unit",
    "note",
    "section",
    "title",
    "strip",
]
KEPT: tuple[Role, ...] = ("spec", "band", "origin")
EMPTIED: tuple[Role, ...] = ("reading", "text", "date", "sign", "choice")
COMPUTED_ROLES: tuple[Role, ...] = ("result", "verdict", "pulled", "said", "doubt", "strip")
DATE_FORMAT = "yyyy-mm-dd"

_SIZES: dict[Role, float] = {
    "title": 15,
    "section": 10.5,
    "note": 8.5,
    "origin": 8,
    "unit": 8.5,
    "head": 8.5,
    "strip": 9,
}
_COLORS: dict[Role, str] = {
    "title": INK,
    "section": "FFFFFF",
    "note": SOFT,
    "unit": SOFT,
    "origin": SOFT,
    "strip": INK,
    "doubt": "8E2A12",
}
_FILLS: dict[Role, str] = {
    "section": SECTION,
    "head": HEAD,
    "reading": PAPER,
    "text": PAPER,
    "date": PAPER,
    "sign": PAPER,
    "choice": PAPER,
    "spec": PAPER,
    "band": LIMIT,
    "origin": LIMIT,
    "result": COMPUTED,
    "verdict": COMPUTED,
    "pulled": COMPUTED,
    "said": COMPUTED,
    "strip": HEAD,
}
_SIDES: dict[Role, str] = {
    "reading": "right",
    "band": "right",
    "result": "right",
    "pulled": "right",
    "date": "center",
    "verdict": "center",
    "head": "center",
    "row": "center",
    "sign": "center",
    "unit": "left",
}
_THIN = Side(style="thin", color=RULE)
_HAIR = Side(style="hair", color=RULE)
_BOX = Border(left=_THIN, right=_THIN, top=_THIN, bottom=_THIN)
_MUST = Border(left=Side(style="thick", color=SECTION), right=_THIN, top=_THIN, bottom=_THIN)
_EDGES: dict[Role, Border] = {
    **dict.fromkeys(("reading", "text", "date", "sign", "choice", "spec"), _BOX),
    **dict.fromkeys(
        ("result", "verdict", "pulled", "said", "band", "origin"),
        Border(left=_HAIR, right=_HAIR, top=_HAIR, bottom=_HAIR),
    ),
    "head": Border(bottom=Side(style="medium", color=SECTION)),
}


def plain(workbook: Workbook) -> None:
    """Make the font of the sheets the book's own, which column widths go by."""
    own: Any = workbook
    standard = Font(name=FONT, size=10)
    own._fonts = IndexedList([standard])
    own._named_styles["Normal"].font = standard


def font(role: Role) -> Font:
    """The font of a role."""
    return Font(
        name=FONT,
        size=_SIZES.get(role, 9.5),
        bold=role in ("title", "section", "head", "row", "verdict", "doubt"),
        italic=role in ("note", "band", "origin"),
        color=_COLORS.get(role, INK),
    )


def fill(role: Role) -> PatternFill:
    """The ground of a role."""
    color = _FILLS.get(role)
    return PatternFill("solid", start_color=color, end_color=color) if color else PatternFill()


def border(role: Role, required: bool = False) -> Border:
    """The lines round a role's cells; what must be filled in has a heavy edge at its left."""
    return _MUST if required else _EDGES.get(role, Border())


def alignment(role: Role, numeric: bool = False) -> Alignment:
    """Where the content stands; a number under `spec` stands right like a reading."""
    side = "right" if role == "spec" and numeric else _SIDES.get(role, "left")
    wrap = role in ("head", "note", "text", "spec", "origin", "said") and not numeric
    indent = 0 if side != "left" or role == "note" else 1
    return Alignment(horizontal=side, vertical="center", wrap_text=wrap, indent=indent)


def protection(role: Role) -> Protection:
    """Only formulas are locked."""
    return Protection(locked=role in COMPUTED_ROLES)


def _word(content: str, sign: str, color: str, ground: str, number: int) -> Rule:
    heavy = content != "ok"
    edge = Side(style="thin", color=color)
    look = DifferentialStyle(
        font=Font(bold=True, color=color),
        fill=PatternFill("solid", start_color=ground, end_color=ground, bgColor=ground),
        numFmt=NumberFormat(numFmtId=200 + number, formatCode=f'"{sign} "@'),
        border=Border(left=edge, right=edge, top=edge, bottom=edge) if heavy else None,
    )
    return Rule(
        type="cellIs", operator="equal", formula=[f'"{content}"'], dxf=look, priority=number
    )


def verdict_rules() -> list[Rule]:
    """ok, low and high: each with its sign, its ground, and a frame where it is out."""
    return [
        _word("ok", "✓", "1F6B4A", "E2F0E6", 1),
        _word("low", "▼", "8E2A12", "F7DDD2", 2),
        _word("high", "▲", "8E2A12", "F7DDD2", 3),
    ]
