"""Why a text is no quantity: a code, the fields that go with it, and the words for people."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from workbook_tools.quantities.nearest import nearest_unit


class RefusalCode(StrEnum):
    """Why a text cannot be read; code that has to tell reasons apart asks for this."""

    NOT_ONE_QUANTITY = "not one quantity"
    LETTER_AMONG_DIGITS = "letter among digits"
    GROUPED_DIGITS = "grouped digits"
    DOUBTFUL_COMMA = "doubtful comma"
    DOUBTFUL_POINT = "doubtful point"
    TOO_MANY_DIGITS = "too many digits"
    TOO_LARGE = "too large"
    ZERO_BELOW_THE_LINE = "zero below the line"
    TWO_READINGS = "two readings"
    BARE_FRACTION = "bare fraction"
    DOUBTFUL_TENTH = "doubtful tenth"
    UNKNOWN_UNIT = "unknown unit"
    TAKES_NO_UNIT = "takes no unit"
    OTHER_KIND = "unit of another kind"
    UNIT_NOT_SAID = "unit not said"
    NO_READING_UNIT = "no unit of a reading"
    NO_TABLE_UNIT = "no unit of a table"
    NO_UNIT_SYSTEM = "no unit system"


_WORDS = {
    RefusalCode.NOT_ONE_QUANTITY: "it is not one number with at most one unit",
    RefusalCode.LETTER_AMONG_DIGITS: "it has a letter among the digits; perhaps {expected}",
    RefusalCode.GROUPED_DIGITS: ("it groups digits; write the number without grouping, as 1234.5"),
    RefusalCode.DOUBTFUL_COMMA: "the comma may group thousands or mark decimals",
    RefusalCode.DOUBTFUL_POINT: (
        "the point may group thousands or mark decimals; write {expected} without it"
    ),
    RefusalCode.TOO_MANY_DIGITS: "the number has more digits than any that can be kept",
    RefusalCode.TOO_LARGE: "the number is larger than any that can be kept",
    RefusalCode.ZERO_BELOW_THE_LINE: "the fraction has a zero below the line",
    RefusalCode.TWO_READINGS: "it may be two readings or a fraction; add a unit or split it",
    RefusalCode.BARE_FRACTION: "a fraction is likely of an inch; add its unit",
    RefusalCode.DOUBTFUL_TENTH: ("a tenth is 0.0001 in in an inch shop and 0.1 mm in a metric one"),
    RefusalCode.UNKNOWN_UNIT: "{got!r} is not a unit that is known here",
    RefusalCode.TAKES_NO_UNIT: "a {expected} takes no unit",
    RefusalCode.OTHER_KIND: "{got!r} is not a unit of {expected}",
    RefusalCode.UNIT_NOT_SAID: "neither the cell nor its heading nor the book says the unit",
    RefusalCode.NO_READING_UNIT: "{got!r} is not a unit that a reading can have",
    RefusalCode.NO_TABLE_UNIT: "{got!r} is not a unit that a table can have",
    RefusalCode.NO_UNIT_SYSTEM: 'units are "inch" or "metric"',
}


@dataclass(frozen=True)
class Refusal:
    """Why something cannot be read.

    parameter: what it was meant for, "" where that is plain; expected: what would do (a kind
    of quantity, the number that was likely meant); got: the part of the text that will not do.
    """

    code: RefusalCode
    parameter: str = ""
    expected: str = ""
    got: str = ""

    @property
    def words(self) -> str:
        """The reason in words, without a period."""
        told = _WORDS[self.code].format(expected=self.expected, got=self.got)
        near = nearest_unit(self.got) if self.code is RefusalCode.UNKNOWN_UNIT else ""
        return f"{told}; the nearest is {near}" if near else told


class UnreadableText(ValueError):
    """A text that is no quantity of the wanted kind; refusal tells why, str() says it."""

    def __init__(self, refusal: Refusal) -> None:
        super().__init__(refusal)
        self.refusal = refusal

    @property
    def code(self) -> RefusalCode:
        """The code of the refusal."""
        return self.refusal.code

    def __str__(self) -> str:
        return self.refusal.words


def refuse(code: RefusalCode, *, expected: str = "", got: str = "") -> UnreadableText:
    """The error, to be raised, of a text that is refused."""
    return UnreadableText(Refusal(code, expected=expected, got=got))
