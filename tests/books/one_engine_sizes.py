"""The sizes of an invented inline six, for books that write it down in many ways."""

from __future__ import annotations

INCH, CC = 0.0254, 1e-6
BORES = (3.9052, 3.9055, 3.9051, 3.9058, 3.9054, 3.9053)
CHAMBERS = (69.5, 69.9, 69.4, 70.1, 69.6, 69.3)
DECKS = (0.0120, 0.0125, 0.0110, 0.0140, 0.0125, 0.0115)
STROKE, DISH, GASKET_BORE, GASKET = 3.6250, 10.0, 3.9700, 0.0430
CYLINDERS = range(1, 7)


def mm(*inches):
    return [round(i * 25.4, 5) for i in inches]


def comma(*numbers):
    return [f"{n:.5f}".rstrip("0").rstrip(".").replace(".", ",") for n in numbers]


def fill(sheet, rows):
    for row in rows:
        sheet.append(row)
