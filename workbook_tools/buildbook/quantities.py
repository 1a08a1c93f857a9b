"""Kinds of number that are written at the bench: unit, digits, and what is plausible."""

from __future__ import annotations

from dataclasses import dataclass, replace

from workbook_tools.buildbook.plan import Plan

Range = tuple[float, float]


@dataclass(frozen=True)
class Quantity:
    """A kind of number, each pair for inch books and for metric ones.

    units; digits: number formats; plausible: readings outside are asked about, since a slip
    of the unit or of the decimal point puts them there. Not a band: nothing is judged by it.
    others: how one in another unit is typed, "" where there is none.
    """

    units: tuple[str, str]
    digits: tuple[str, str]
    plausible: tuple[Range, Range]
    others: tuple[str, str] = ("", "")

    def unit(self, plan: Plan) -> str:
        """The unit of bare numbers in this book, "" for plain numbers."""
        return plan.pick(*self.units)

    def format(self, plan: Plan) -> str:
        """The number format, with a little air on the right: LibreOffice drops indents there."""
        return ";".join(f"{part}_ " for part in plan.pick(*self.digits).split(";"))

    def other(self, plan: Plan) -> str:
        """How one in another unit than the book's is typed, "" where there is none."""
        return plan.pick(*self.others)

    def range(self, plan: Plan) -> Range:
        """Least and most that can be meant."""
        return plan.pick(*self.plausible)


def alone(quantity: Quantity) -> Quantity:
    """The same where plain arithmetic, which reads no unit, is done with it."""
    return replace(quantity, others=("", ""))


def numbered(most: int) -> Quantity:
    """A number out of a row, from 1."""
    return _plain("", "0", 1, most)


def _plain(unit: str, digits: str, low: float, high: float) -> Quantity:
    return Quantity((unit, unit), (digits, digits), ((low, high), (low, high)))


_LENGTHS, _GAPS = ("25.4 mm", "1.0 in"), ("2.5 thou", "2.5 thou")
_SIGNED = ("+0.0000;-0.0000;0.0000", "+0.000;-0.000;0.000")

SIZE = Quantity(("in", "mm"), ("0.0000", "0.000"), ((0.02, 20), (0.5, 500)), _LENGTHS)
LENGTH = Quantity(("in", "mm"), ("0.000", "0.00"), ((0.02, 40), (0.5, 1000)), _LENGTHS)
GAP = Quantity(("in", "mm"), ("0.0000", "0.000"), ((0, 0.3), (0, 8)), _GAPS)
DECK = Quantity(("in", "mm"), _SIGNED, ((-0.2, 0.5), (-5, 12)), _GAPS)
VOLUME = _plain("cc", "0.0", 1, 5000)
CROWN = _plain("cc", "+0.0;-0.0;0.0", -200, 200)
MASS = _plain("g", "0.0", 0.5, 50_000)
OIL = _plain("g", "0.0", 0, 50)
RATIO = _plain("", '0.00":1"', 4, 30)
NUMBER = _plain("", "0.000", 0, 100)
FACTOR = _plain("", "0.0000", 0, 1)
SHARE = _plain("", "0 %", 0, 1)
COUNT = _plain("", "0", 0, 1000)
# ISO 21940-11 grades go by 0.4, 1, 2.5, 6.3, 16 and so on.
GRADE = _plain("", "0.0", 0.4, 4000)
ANGLE = _plain("deg", "0.0", -720, 720)
CAM_ANGLE = _plain("deg cam", "0.0", 60, 160)
SPEED = _plain("rpm", "#,##0", 20, 20_000)
LEAKAGE = _plain("", "0.0", 0, 100)
FORCE = Quantity(("lbf", "N"), ("0", "0"), ((5, 2000), (20, 9000)), ("650 N", "145 lbf"))
RATE = Quantity(("lbf/in", "N/mm"), ("0", "0.0"), ((10, 5000), (2, 900)))
TORQUE = Quantity(("lbf.ft", "N.m"), ("0", "0"), ((0.5, 1500), (1, 2000)), ("95 N.m", "70 lbf.ft"))
# A wrench is set closer than a dynamometer is read.
TIGHTENING = replace(TORQUE, digits=("0.0", "0.0"))
PRESSURE = Quantity(("psi", "kPa"), ("0", "0"), ((1, 2000), (5, 15_000)), ("7 bar", "7 bar"))
TEMPERATURE = Quantity(
    ("deg F", "deg C"), ("0", "0"), ((-40, 400), (-40, 200)), ("20 deg C", "68 deg F")
)
BAROMETER = Quantity(("inHg", "kPa"), ("0.00", "0.0"), ((15, 32), (50, 110)))
POWER = Quantity(("hp", "kW"), ("0", "0"), ((0.5, 5000), (0.5, 4000)))
SWEPT = Quantity(("cu in", "cc"), ("0.0", "0"), ((1, 2000), (20, 33_000)))
PISTON_SPEED = Quantity(("ft/min", "m/s"), ("#,##0", "0.0"), ((10, 8000), (0.1, 40)))
UNBALANCE = Quantity(("oz.in", "g.mm"), ("0.00", "0"), ((0, 50), (0, 40_000)))
POWER_FACTOR = _plain("", "0.000", 0.5, 2)
