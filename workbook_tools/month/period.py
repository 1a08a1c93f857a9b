"""The months that a rollup is of: one, or several that follow one another."""

from __future__ import annotations

import calendar
import datetime
import re
from dataclasses import dataclass

# As many years of a shop's books as one page can still tell.
MOST_MONTHS = 120


class MonthError(ValueError):
    """A month, or a range of months, that is none; the message says how to write it."""


@dataclass(frozen=True)
class Period:
    """From the first day of one month to the last day of the same or a later one."""

    first: datetime.date
    last: datetime.date

    @property
    def months(self) -> tuple[str, ...]:
        """Each month as 2026-10, in order."""
        count = (self.last.year - self.first.year) * 12 + self.last.month - self.first.month + 1
        numbers = range(self.first.month - 1, self.first.month - 1 + count)
        return tuple(f"{self.first.year + n // 12:04}-{n % 12 + 1:02}" for n in numbers)

    @property
    def is_range(self) -> bool:
        """Whether it is more than one month."""
        return (self.first.year, self.first.month) != (self.last.year, self.last.month)

    @property
    def name(self) -> str:
        """As it stands in names of files: "2026-10", "2026-01-to-2026-11"."""
        first, last = f"{self.first:%Y-%m}", f"{self.last:%Y-%m}"
        return f"{first}-to-{last}" if self.is_range else first

    @property
    def title(self) -> str:
        """In words: "October 2026", "January to November 2026"."""
        first, last = (calendar.month_name[day.month] for day in (self.first, self.last))
        if not self.is_range:
            return f"{last} {self.last.year}"
        if self.first.year == self.last.year:
            return f"{first} to {last} {self.last.year}"
        return f"{first} {self.first.year} to {last} {self.last.year}"

    def holds(self, day: datetime.date) -> bool:
        """Whether a day is one of it."""
        return self.first <= day <= self.last


def period(first: str, last: str = "") -> Period:
    """The months from one to another, both written as 2026-10; last: left out, the one alone.

    Raises MonthError for what is no month, a last one before the first, and too many.
    """
    begin = _month(first, "month")
    end = _month(last, "last month") if last.strip() else begin
    if end < begin:
        raise MonthError(
            f"last month: expected {first.strip()} or a later one, got {last.strip()!r}"
        )
    days = calendar.monthrange(end.year, end.month)[1]
    found = Period(begin, end.replace(day=days))
    if len(found.months) > MOST_MONTHS:
        raise MonthError(
            f"months: expected at most {MOST_MONTHS}, got {len(found.months)} from "
            f"{first.strip()} to {last.strip()}"
        )
    return found


def _month(text: str, what: str) -> datetime.date:
    found = re.fullmatch(r"(\d{4})-(\d{2})", text.strip(), re.ASCII)
    if not found or not 1 <= int(found[2]) <= 12 or int(found[1]) < 1900:
        raise MonthError(f"{what}: expected a year and a month as 2026-10, got {text!r}")
    return datetime.date(int(found[1]), int(found[2]), 1)
