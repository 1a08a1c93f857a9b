"""Bearings: housing, both shells, journal; the clearance cold and hot, and shells to order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import uses
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import pulled, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.table import Cells, Column, Lines, table
from workbook_tools.formulas.references import cell_address, fixed

TITLE = "Bearings"
_UPPER, _LOWER = "Upper shell wall", "Lower shell wall"
# Walls on the shelf, and the pairs that they make: halves differ by one step at most.
_WALLS = ("A", "B", "C")
_PAIRS = ((0, 0), (0, 1), (1, 1), (1, 2), (2, 2))
_NEVER = 1000
_HOT = (
    "Hot: free expansion, and no verdict on it. Bands are for bearings measured cold, and shells, "
    "studs and iron caps let a housing open less than free expansion says."
)


@dataclass(frozen=True)
class _Kind:
    """Main bearings or rod bearings.

    limits: of the clearance, cold; pairs, bounds, names: of the shells on the shelf, as ranges.
    """

    name: str
    rows: Sequence[str]
    journals: Sequence[str]
    housings: Sequence[str] | None
    limits: Limits
    wanted: str
    bounds: str
    names: str


def build(draft: Draft) -> None:
    """Write the sheet."""
    plan = draft.plan
    page = draft.page(TITLE, "Bearings", (9, 10, 10, 10, 10, 10, 10, 10, 10, 11, 9, 14))
    page.section(
        "What the table of bands has for the use, mains and rods each",
        "The limits under the tables start with it; the bearing maker's figure comes first. The "
        "rule of an aluminum block is for mains measured cold, never for rods.",
    )
    lines = Lines(page, "Bearing start")
    lines.head("Least", "Most", "Notes")
    starts = {name: _start(draft, lines, name) for name in ("main", "rod")}
    lines.line("Oil that the clearance is for", None, role="spec")
    page.gap()
    shelves = {name: _shelf(page, name) for name in ("main", "rod")}
    page.gap()
    _bearings(
        draft,
        page,
        _Kind("Main", plan.main_rows, draft.ranges["main journals"], None, *starts["main"],
              *shelves["main"]),
    )  # fmt: skip
    page.gap()
    _bearings(
        draft,
        page,
        _Kind("Rod", plan.rod_rows, draft.ranges["rod journals"], draft.ranges["big end"],
              *starts["rod"], *shelves["rod"]),
    )  # fmt: skip
    Lines(page, "Bearings").line("Seen by", None, role="sign")
    page.finish()


def _start(draft: Draft, lines: Lines, name: str) -> tuple[Limits, str]:
    """The use of one kind of bearing, its band, and the clearance wanted."""
    plan, use, block = draft.plan, draft.cells["use"], draft.cells["block material"]
    rule = f'=IF(AND({use}<>"",LEFT({block},8)="aluminum"),"aluminum block",{use})'
    own = lines.line(
        f"Use of the engine, for {name}s",
        None,
        role="spec",
        words=uses() if name == "rod" else (*uses(), "aluminum block"),
        start=rule if name == "main" else f"={use}",
        note="from the sheets Job and Heat; type over it" if name == "main" else "from Job",
    )
    journal = draft.ranges[f"{name} journals"][0]
    limits = lines.usual(
        f"Usual clearance, {name}s",
        q.of(f"{name}_bearing_clearance"),
        plan.call("BEARING_BAND", journal, own),
        own,
        journal,
    )
    ends = (str(limits.low).removeprefix("="), str(limits.high).removeprefix("="))
    low, high = (end.rpartition(",")[2].rstrip(")") for end in ends)
    wanted = lines.line(
        f"{name.capitalize()} clearance wanted",
        q.alone(q.of(f"{name}_bearing_clearance")),
        role="spec",
        start=when_filled(f"ROUND(({low}+{high})/2,{plan.pick(4, 3)})", low, high),
        note="the middle of the band; type over it",
    )
    return limits, fixed(wanted)


def _shelf(page: Page, name: str) -> tuple[str, str]:
    """Shells that can be had; returns the ranges of the pairs' bounds and of their names."""
    wall = q.alone(q.of(f"{name}_shell_wall"))
    page.section(
        f"{name.capitalize()} shells on the shelf, by wall",
        "From the thinnest up. Halves are mixed by one step at most (common practice); which half "
        "goes up is for the bearing maker to say.",
    )
    row = page.next()
    walls = []
    for i, step in enumerate(_WALLS):
        page.put(row, 2 + 2 * i, f"wall {step}", "label")
        where = f"{name.capitalize()} shelf / Wall {step}"
        walls.append(fixed(page.enter(row, 3 + 2 * i, where, "spec", wall)))
    names, pairs, bounds = page.next(), page.next(), page.next()
    for text, at in (("Pair", names), ("Sum of both walls", pairs), ("From", bounds)):
        page.put(at, 1, text, "note")
    for i, (one, other) in enumerate(_PAIRS):
        thin, thick = walls[one], walls[other]
        page.put(names, 2 + i, f"{_WALLS[one]}, {_WALLS[other]}", "unit")
        total = when_filled(f"{thin}+{thick}", thin, thick)
        here = page.put(pairs, 2 + i, total, "pulled", q.GAP)
        if i == 0:
            between = f'=IF({here}="",{_NEVER},0)'
        else:
            before = cell_address(pairs, 1 + i)
            between = f"=IF(COUNT({before},{here})<2,{_NEVER},({before}+{here})/2)"
        page.put(bounds, 2 + i, between, "pulled", q.GAP)
    last = 1 + len(_PAIRS)
    ranges = [
        f"{fixed(cell_address(at, 2))}:{fixed(cell_address(at, last))}" for at in (bounds, names)
    ]
    return ranges[0], ranges[1]


def _bearings(draft: Draft, page: Page, kind: _Kind) -> None:
    plan, cells, name = draft.plan, draft.cells, kind.name.lower()
    note = (
        "Housing without shells, caps tightened; walls by a ball anvil at the middle of the shell. "
    )
    if kind.housings:
        note += "Which throw a rod runs on: type its number. "
    page.section(f"{kind.name} bearings", note + _HOT)
    housing, clearance = f"{kind.name} housing bore", f"{kind.name} bearing clearance"
    rise, material = (
        (cells["rod rise"], cells["rods material"])
        if kind.housings
        else (cells["housing rise"], cells["block material"])
    )
    heat = (rise, cells["rod rise"], material, cells["crank material"])

    def sizes(c: Cells) -> tuple[str, ...]:
        return (c[housing], c[_UPPER], c["Journal size"], c[_LOWER])

    def cold(c: Cells) -> str:
        return when_filled(plan.call("BEARING_CLEARANCE", *sizes(c)), *sizes(c))

    def hot(c: Cells) -> str:
        upper, lower = c[_UPPER], c[_LOWER]
        given = (c[housing], upper, c["Journal size"], *heat, '"steel"', lower)
        return when_filled(plan.call("HOT_BEARING_CLEARANCE", *given), *sizes(c), *heat)

    def order(c: Cells) -> str:
        room = f"{c[housing]}-{c['Journal size']}-{kind.wanted}"
        pair = f"INDEX({kind.names},1,MATCH({room},{kind.bounds},1))"
        bore, journal = c[housing], c["Journal size"]
        return when_filled(f'IFERROR({pair},"none fits")', bore, journal, kind.wanted)

    of = f"{name}_bearing_clearance"
    first, where = _where(draft, kind, housing)
    table(
        page,
        f"{kind.name} bearings",
        kind.name,
        kind.rows,
        (
            *where,
            first,
            Column(_UPPER, quantity=q.of(f"{name}_shell_wall")),
            Column(_LOWER, quantity=q.of(f"{name}_shell_wall")),
            Column(
                "Journal size", "pulled", q.of(f"{name}_journal"), formula=_journal(draft, kind)
            ),
            Column(clearance, "result", q.of(of), formula=cold, judged=True, limits=kind.limits),
            Column(
                f"{clearance}, hot", "result", q.of(f"hot_{name}_bearing_clearance"), formula=hot
            ),
            Column(
                "Measured with the shells in",
                quantity=q.of(of),
                judged=True,
                limits=kind.limits,
                prompt="Bore gauge zeroed on the journal, or gauging strip.",
                required=False,
            ),
            Column("Shells to order", "pulled", formula=order),
        ),
    )


def _where(draft: Draft, kind: _Kind, housing: str) -> tuple[Column, tuple[Column, ...]]:
    """The column of the housings, and the one that says which throw a rod runs on."""
    measurand = q.of(f"{kind.name.lower()}_housing_bore")
    if kind.housings is None:
        return Column(housing, quantity=q.alone(measurand)), ()
    own = iter(kind.housings)
    throw = Column(
        "On throw no.",
        quantity=q.numbered(draft.plan.journals),
        prompt="1 is the throw at the front.",
        alike=False,
    )
    return Column(housing, "pulled", measurand, formula=lambda _c: pulled(next(own))), (throw,)


def _journal(draft: Draft, kind: _Kind) -> Callable[[Cells], str]:
    """Formulas for the journal that a bearing runs on."""
    by_row = iter(kind.journals)

    def formula(c: Cells) -> str:
        if kind.housings is None:
            return pulled(next(by_row))
        number = c["On throw no."]
        # Each journal takes two rows of its sheet.
        return when_filled(f"INDEX({draft.cells['throws']},2*{number}-1)", number)

    return formula
