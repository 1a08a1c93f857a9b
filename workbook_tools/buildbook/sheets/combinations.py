"""The plan: three combinations side by side, what follows from each, and what must be bought."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from workbook_tools.buildbook import quantities as q
from workbook_tools.buildbook.bands import choices
from workbook_tools.buildbook.draft import Draft
from workbook_tools.buildbook.formulas import called, when_filled
from workbook_tools.buildbook.page import Limits, Page
from workbook_tools.buildbook.plan import Plan
from workbook_tools.buildbook.quantities import Quantity
from workbook_tools.buildbook.table import Lines

TITLE = "Plan"
MANY = 3
_FIRST, _UNIT = 5, 4
_KIND = "Kind of piston"
_BORE, _DECK = "Nominal finished bore", "Deck clearance, from the sizes"
_Cells = Mapping[str, str]


@dataclass(frozen=True)
class _Typed:
    """A size that is chosen; name: by which other sheets use the one taken."""

    label: str
    quantity: Quantity
    name: str = ""
    prompt: str = ""


@dataclass(frozen=True)
class _Follows:
    """What follows; call: a formula from the cells of the same combination; needed: of these."""

    label: str
    quantity: Quantity
    call: Callable[[Plan, _Cells], str]
    needed: tuple[str, ...]


_SIZES = (
    _Typed(_BORE, q.of("bore"), "bore"),
    _Typed("Stroke", q.of("stroke"), "stroke"),
    _Typed("Rod length, center to center", q.of("rod_length"), "rod length"),
    _Typed("Compression height", q.of("compression_height"), "compression height",
           "Pin center to the flat of the crown."),
    _Typed("Deck height", q.of("deck_height"), "planned deck height",
           "Crank centerline to deck, as it will be machined."),
    _Typed("Piston length", q.of("piston_length"), "", "Crown to the skirt's lower end."),
    _Typed("Liner length", q.of("liner_length"), "", "Deck to the bore's lower end."),
    _Typed("Chamber volume", q.of("chamber_volume")),
    _Typed("Crown volume", q.of("crown_volume"), "",
           "Plus = dish or reliefs, minus = dome, 0 = flat."),
    _Typed("Head gasket, compressed", q.of("gasket_thickness")),
    _Typed("Gasket bore", q.of("gasket_bore")),
    _Typed("Intake closing, near the seat", q.of("intake_closing"), "",
           "Crank degrees after bottom dead center, from the cam card."),
    _Typed("Reciprocating mass of one cylinder", q.of("reciprocating_mass"), "reciprocating mass",
           "Piston, pin, rings, locks, small end."),
    _Typed("Highest engine speed", q.of("engine_speed"), "speed", "As agreed with the customer."),
)  # fmt: skip
_SPAN = ("Stroke", "Rod length, center to center")


def _of(name: str, *labels: str) -> Callable[[Plan, _Cells], str]:
    """A call whose arguments are cells of the combination, or figures as they stand."""
    return lambda plan, c: plan.call(name, *(c.get(label, label) for label in labels))


_VOLUMES = ("Swept volume", "Chamber volume", "Gasket volume", "Deck volume", "Crown volume")
_STACK = ("Deck height", *_SPAN, "Compression height")
_RESULTS = (
    _Follows(_DECK, q.of("deck_clearance"),
             _of("DECK_CLEARANCE", *_STACK), _STACK),
    _Follows("Quench, cold", q.of("quench"),
             _of("QUENCH", _DECK, "Head gasket, compressed"),
             (_DECK, "Head gasket, compressed")),
    _Follows("Displacement", q.of("displacement"),
             lambda plan, c: plan.call("DISPLACEMENT", c[_BORE], c["Stroke"],
                                       plan.cylinders), (_BORE, "Stroke")),
    _Follows("Rod to stroke", q.of("rod_stroke_ratio"),
             _of("ROD_STROKE_RATIO", _SPAN[1], _SPAN[0]), _SPAN),
    _Follows("Swept volume", q.of("cylinder_volume"), _of("CYLINDER_VOLUME", _BORE, "Stroke"),
             (_BORE, "Stroke")),
    _Follows("Gasket volume", q.of("gasket_volume"),
             _of("GASKET_VOLUME", "Gasket bore", "Head gasket, compressed"),
             ("Gasket bore", "Head gasket, compressed")),
    _Follows("Deck volume", q.of("deck_volume"), _of("DECK_VOLUME", _BORE, _DECK), (_BORE, _DECK)),
    _Follows("Compression ratio", q.of("compression_ratio"),
             _of("COMPRESSION_RATIO", *_VOLUMES), _VOLUMES),
    _Follows("Trapped ratio", q.of("dynamic_ratio"),
             _of("DYNAMIC_RATIO", "Compression ratio", *_SPAN, "Intake closing, near the seat",
                 "0"), ("Compression ratio", *_SPAN, "Intake closing, near the seat")),
    _Follows("Cranking pressure, expected", q.of("cranking_pressure"),
             _of("CRANKING_PRESSURE", "Trapped ratio", "0", "1.2"), ("Trapped ratio",)),
    _Follows("Skirt below the bore", q.of("skirt_exposure"),
             _of("SKIRT_EXPOSURE", _DECK, "Stroke", "Piston length",
                 "Liner length"),
             (_DECK, "Stroke", "Piston length", "Liner length")),
    _Follows("Mean piston speed", q.of("mean_piston_speed"),
             _of("MEAN_PISTON_SPEED", "Stroke", "Highest engine speed"),
             ("Stroke", "Highest engine speed")),
    _Follows("Rod bolt load, each of two", q.of("rod_bolt_load"),
             _of("ROD_BOLT_LOAD", "Reciprocating mass of one cylinder", *_SPAN,
                 "Highest engine speed", "2", "0"),
             ("Reciprocating mass of one cylinder", *_SPAN, "Highest engine speed")),
)  # fmt: skip


def build(draft: Draft) -> None:
    """Write the sheet."""
    page = draft.page(TITLE, "Plan", (12, 12, 9, 8, 14, 14, 14, 14))
    page.section(
        "Combinations side by side",
        "Heavy edges: the first one is filled in. Fill in the others to compare, and say below "
        "which is taken: every other sheet goes by that one.",
    )
    taken = _combinations(draft, page)
    page.gap()
    kind = _pistons(draft, page, taken)
    page.gap()
    _to_buy(draft, page, taken | {_KIND: kind})
    page.finish()


def _combinations(draft: Draft, page: Page) -> dict[str, str]:
    """The combinations; returns the cells of the one that is taken."""
    plan = draft.plan
    row = page.next(plain=False)
    page.put(row, 1, "What", "head")
    page.spread(row, 1, 3)
    heads = ("Unit", *(f"Combination {i}" for i in range(1, MANY + 1)), "Taken")
    for column, text in enumerate(heads, _UNIT):
        page.put(row, column, text, "head")
    row = page.next()
    _label(page, row, "Combination taken", None)
    number = page.enter(
        row,
        _FIRST + MANY,
        "Combination taken",
        "spec",
        q.numbered(MANY),
        start=1,
        required=True,
    )
    columns: list[dict[str, str]] = [{} for _ in range(MANY)]
    taken: dict[str, str] = {}
    for size in _SIZES:
        row = page.next()
        _label(page, row, size.label, size.quantity)
        for i, cells in enumerate(columns):
            cells[size.label] = page.enter(
                row,
                _FIRST + i,
                f"Combination {i + 1} / {size.label}",
                "spec",
                size.quantity,
                prompt=size.prompt,
                required=i == 0,
            )
        ends = (columns[0][size.label], columns[-1][size.label])
        chosen = f"INDEX({ends[0]}:{ends[1]},1,{number})"
        formula = f'=IF({number}="","",IF({chosen}="","",{chosen}))'
        taken[size.label] = page.put(row, _FIRST + MANY, formula, "pulled", size.quantity)
        if size.name:
            draft.lend(size.name, page, taken[size.label])
    for result in _RESULTS:
        row = page.next()
        _label(page, row, result.label, result.quantity)
        for i, cells in enumerate((*columns, taken)):
            needed = [cells[label] for label in result.needed]
            formula = when_filled(result.call(plan, cells), *needed)
            cells[result.label] = page.put(row, _FIRST + i, formula, "result", result.quantity)
    return taken


def _label(page: Page, row: int, label: str, quantity: Quantity | None) -> None:
    page.put(row, 1, label, "label")
    page.spread(row, 1, 3)
    if quantity is not None and quantity.unit(page.plan):
        page.put(row, _UNIT, quantity.unit(page.plan), "unit")


def _pistons(draft: Draft, page: Page, taken: Mapping[str, str]) -> str:
    """The clearance that the use asks for, cold and hot; returns the cell of the kind of piston."""
    plan, cells = draft.plan, draft.cells
    page.section(
        "Pistons of the combination taken",
        "Cold by the table of bands, hot by the materials and rises of the sheet Heat: near zero "
        "or below it the piston would seize. The piston maker's figure comes first.",
    )
    lines = Lines(page, "Pistons planned", label_columns=2)
    lines.head("Least", "Most", "Verdict", "Band from, notes")
    kind = lines.line(
        "Kind of piston",
        None,
        role="spec",
        words=choices("PISTON_CLEARANCE_BAND", "piston"),
        required=True,
    )
    draft.lend("kind", page, kind)
    bore, use = taken[_BORE], cells["use"]
    call = plan.call("PISTON_CLEARANCE_BAND", bore, use, kind)
    clearance = q.of("piston_clearance")
    lines.usual("Usual piston clearance", clearance, call, bore, use, kind)
    row = page.row - 1
    low, high = f"E{row}", f"F{row}"
    size = lines.line(
        "Piston skirt wanted",
        q.of("piston_diameter"),
        when_filled(
            plan.call("PISTON_SIZE_FOR_CLEARANCE", bore, f"({low}+{high})/2"), bore, low, high
        ),
    )
    heat = tuple(cells[n] for n in ("block rise", "skirt rise", "block material",
                                    "pistons material"))  # fmt: skip
    sizes = (bore, size, *heat)
    lines.line(
        "Piston clearance, hot",
        q.of("hot_piston_clearance"),
        called(plan, "HOT_PISTON_CLEARANCE", *sizes),
        judged=True,
        limits=Limits(0, when_filled(f"ROUND({high},{plan.pick(4, 3)})", high), "no seizing"),
    )
    return kind


def _to_buy(draft: Draft, page: Page, taken: Mapping[str, str]) -> None:
    page.section("What it takes, and what must be bought")
    lengths = draft.plan.pick("0.000", "0.00")

    def number(label: str) -> str:
        return f'TEXT({taken[label]},"{lengths}")'

    bore, stroke, rod = _BORE, "Stroke", "Rod length, center to center"
    for part, words, needed in (
        ("Pistons", f'{taken[_KIND]}&", bore "&{number(bore)}&", compression height "&'
         f'{number("Compression height")}', (_KIND, bore, "Compression height")),
        ("Rods", f'"center to center "&{number(rod)}', (rod,)),
        ("Crank", f'"stroke "&{number(stroke)}', (stroke,)),
        ("Head gasket", f'"bore "&{number("Gasket bore")}&", compressed "&'
         f'{number("Head gasket, compressed")}&" as planned; the sheet Gasket has the last word"',
         ("Gasket bore", "Head gasket, compressed")),
    ):  # fmt: skip
        row = page.next()
        page.put(row, 1, part, "label")
        page.put(row, 2, when_filled(words, *(taken[label] for label in needed)), "said")
        page.spread(row, 2, page.columns - 1)
        page.enter(
            row, page.columns, f"To buy / {part}", "choice", words=("have", "order", "ordered")
        )
