"""Books of an invented shop as the reader hands them on, computed by the real catalog."""

from __future__ import annotations

from dataclasses import replace

from workbook_tools.books.places import spread
from workbook_tools.catalog import ArgumentError, calculate, find
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.records import Argument, Book, Reading, Record
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.measurands.position import parse

SHEET = "Build"
# Rows of a sheet with what a compression ratio needs, but the crown.
RATIO = [
    ["All sizes in inch"],
    ["Cyl", 1, 2],
    ["Bore", 4.0, 4.001],
    ["Deck clearance", 0.005, 0.006],
    ["Chamber volume (cc)", 64, 64.2],
    ["Stroke", 3.5],
    ["Gasket bore", 4.1],
    ["Gasket thickness", 0.04],
]
# What a crown holds, which the ratio needs too.
CROWN = ["Dish volume (cc)", 5]


def cell(address, value, text="", position="", unit="", sheet=SHEET):
    """A cell that a formula refers to: address, content, and what the book calls it."""
    return Place(sheet, address), value, Label(text, position, unit) if text else None


def typed_reading(place, label, value):
    """A typed number that labels name, and nothing else is known of."""
    return Reading(
        place=place, label=label, raw=value, measurand="", part=Position(), stage="", value=value,
        kind=None, system="inch", unit=label.unit, state="not understood",
    )  # fmt: skip


def call(address, text, name, *arguments, saved=..., position="", unit="", sheet=SHEET, **more):
    """A record of one call; an argument is a literal or a cell(...). saved: the same if left out.

    A formula of several parts is told by whole=False in more.
    """
    function = find(name)
    values = [a[1] if isinstance(a, tuple) and isinstance(a[0], Place) else a for a in arguments]
    system = "metric" if values and values[-1] == "metric" else "inch"
    listed = []
    for parameter, given, value in zip(function.parameters, arguments, values, strict=False):
        traced = isinstance(given, tuple) and isinstance(given[0], Place)
        listed.append(
            Argument(
                name=parameter.name,
                text=given[0].address if traced else repr(given),
                value=value,
                unit=parameter.kind.unit(system),
                place=given[0] if traced else None,
                label=given[2] if traced else None,
            )
        )
    part = parse(position) or Position()
    record = Record(
        place=Place(sheet, address),
        label=Label(text, position, unit) if text else None,
        formula=f"={function.full_name}({', '.join(a.text for a in listed)})",
        function=function,
        name=function.full_name,
        arguments=tuple(listed),
        saved=None,
        recomputed=None,
        value=None,
        unit="",
        state="error",
        system=system,
        measurand=of_one_part(function.measurand, "", part) if function.measurand else "",
        part=part,
    )
    try:
        result = calculate(function, values)
    except ArgumentError as error:
        blamed = tuple(
            a._replace(problem=f"expected {error.expected}, got {error.got}")
            if a.name == error.parameter
            else a
            for a in listed
        )
        return record._replace(
            arguments=blamed,
            saved=None if saved is ... else saved,
            problem=str(error),
            blamed=error.parameter,
            missing=error.missing,
        )
    kept = result.value if saved is ... else saved
    state = "same" if kept == result.value else "not saved" if kept is None else "stale"
    return record._replace(
        saved=kept,
        recomputed=result.value,
        value=result.value,
        unit=result.unit or unit,
        state=state,
        **more,
    )


def across(first, row, count):
    """Addresses of one row, from a column letter on."""
    return [f"{chr(ord(first) + i)}{row}" for i in range(count)]


def job(**texts):
    """A job with its fields as read from cells of the sheet Job."""
    return Job(
        **{n: JobField(t, Place("Job", f"B{i}")) for i, (n, t) in enumerate(texts.items(), 2)}
    )


def inch_v8():
    """An inch V8 on one sheet: one quench too tight, a stale ratio, a chamber never measured."""
    records = []
    bores = (3.9655, 3.9656, 3.9654, 3.9655, 3.9657, 3.9655, 3.9656, 3.9655)
    decks = (0.0080, 0.0085, 0.0075, 0.0100, 0.0012, 0.0085, 0.00775, 0.0105)
    gasket = cell("B8", "41 thou", "Gasket, compressed")
    stroke = cell("B5", 3.41, "Stroke")
    records.append(
        call("B40", "Displacement", "DISPLACEMENT", cell("B4", 3.9655, "Bore, nominal"), stroke, 8)
    )
    records.append(
        call("B41", "Rod to stroke", "ROD_STROKE_RATIO", cell("B6", 5.85, "Rod length"), stroke)
    )
    for i, (bore, deck) in enumerate(zip(bores, decks, strict=True)):
        at, column = f"Cyl {i + 1}", chr(ord("C") + i)
        records.append(
            call(
                f"{column}12",
                "Top ring gap",
                "RING_GAP",
                cell(f"{column}10", bore, "Bore", at),
                0.0045,
                position=at,
            )
        )
        records.append(
            call(
                f"{column}16",
                "Quench",
                "QUENCH",
                cell(f"{column}14", deck, "Deck clearance", at),
                gasket,
                position=at,
            )
        )
        quench = records[-1]
        records.append(
            call(
                f"{column}17",
                "Quench in band",
                "VERDICT",
                (quench.place, quench.value, quench.label),
                cell("B18", 0.043, "Quench, least"),
                cell("B19", 0.055, "Quench, most"),
                position=at,
            )
        )
        chamber = None if i == 2 else (63.2, 63.4, 0, 63.1, 63.5, 63.3, 63.2, 63.4)[i]
        records.append(
            call(
                f"{column}24",
                "Compression ratio",
                "COMPRESSION_RATIO",
                cell(f"{column}20", 690.2, "Cylinder volume", at),
                cell(f"{column}21", chamber, "Chamber volume", at, "cc"),
                8.9,
                1.7,
                cell("B22", 5.0, "Valve reliefs"),
                position=at,
                **({"saved": 9.87} if i == 5 else {}),
            )
        )
    housings = (2.5910, 2.5908, 2.5912, 2.5909, 2.5911)
    journals = (2.3986, 2.3983, 2.3985, 2.3986, 2.3958)
    for i, (housing, journal) in enumerate(zip(housings, journals, strict=True)):
        at, row = f"Main {i + 1}", 30 + i
        record = call(
            f"F{row}",
            "Main bearing clearance",
            "BEARING_CLEARANCE",
            cell(f"C{row}", housing, "Main housing", at),
            cell("B29", 0.095, "Shell wall"),
            cell(f"E{row}", journal, "Main journal", at),
            position=at,
        )
        records += [
            record,
            call(
                f"G{row}",
                "Main verdict",
                "VERDICT",
                (record.place, record.value, record.label),
                0.0018,
                0.003,
                position=at,
            ),
        ]
    records.append(
        call(
            "B44",
            "Piston speed at 6000",
            "MEAN_PISTON_SPEED",
            stroke,
            cell("B43", 6000, "Engine speed"),
        )
    )
    return Book(
        "24-031 small V8.xlsx",
        "5b1f" * 16,
        job(
            number="24-031",
            customer="R. Example",
            engine="V8, 3.965 x 3.410 in, iron block",
            builder="J. Sample",
            started="2024-03-04",
            finished="2024-04-19",
        ),
        tuple(records),
    )


def metric_four():
    """A metric inline four: nothing to find, readings of a range without labels of their own."""
    records = []
    units = "metric"
    bores = (87.002, 87.004, 87.001, 87.003)
    rows = (bores,)
    records.append(
        call(
            "G4",
            "Mean bore",
            "MEAN_READING",
            cell("B4:E4", rows, "Bore", "1", "mm", "Block"),
            4,
            unit="mm",
            sheet="Block",
        )
    )
    records.append(
        call(
            "G5",
            "Displacement",
            "DISPLACEMENT",
            (Place("Block", "G4"), 87.0025, Label("Mean bore")),
            cell("B6", 91.0, "Stroke", sheet="Block"),
            4,
            units,
            sheet="Block",
        )
    )
    for i, deck in enumerate((-0.15, -0.14, -0.155, -0.148)):
        at, column = f"{i + 1}", chr(ord("B") + i)
        record = call(
            f"{column}9",
            "Quench",
            "QUENCH",
            cell(f"{column}8", deck, "Deck clearance", at, "mm", "Head"),
            cell("G8", 1.15, "Gasket", "", "mm", "Head"),
            units,
            position=at,
            sheet="Head",
        )
        records += [
            record,
            call(
                f"{column}10",
                "Quench ok?",
                "VERDICT",
                (record.place, record.value, record.label),
                0.9,
                1.1,
                position=at,
                sheet="Head",
            ),
        ]
    return Book(
        "four.ods",
        "c0de" * 16,
        job(
            number="24-032",
            customer="",
            engine="Inline four, 87.0 x 91.0 mm",
            builder="J. Sample",
            started="",
            finished="2024-04-26",
        ),
        tuple(records),
    )


def with_readings(book):
    """The same book with the typed numbers that its calls take as readings of their own."""
    results = {record.place for record in book.records}
    typed = {}
    for record in book.records:
        for given in record.arguments:
            for place, value in spread(given.place, given.value) if given.place else ():
                if isinstance(value, (int, float)) and place not in results:
                    reading = typed_reading(place, given.label or Label(""), value)
                    typed[place] = reading._replace(
                        state="read", unit=given.unit, system=record.system
                    )
    return replace(book, readings=tuple(typed.values()))
