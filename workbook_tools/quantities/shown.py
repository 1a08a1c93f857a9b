"""A quantity as people read it: rounded as a spreadsheet rounds, with its unit."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from workbook_tools.quantities.kinds import Kind, System


def _rounded(value: float, digits: int) -> Decimal:
    """Rounded as a spreadsheet shows it: half up, of the fifteen digits that it keeps."""
    kept = Decimal(f"{value:.15g}")
    return kept.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def _fixed(value: float, digits: int) -> str:
    """A number below 1e15 with so many digits after the point, rounded as _rounded does."""
    kept = f"{value:.15g}"
    rest = kept.partition(".")[2]
    halfway = len(rest) == digits + 1 and rest[-1] == "5"
    if halfway or abs(value) >= 1e6 or digits > 8 or "e" in kept:
        return f"{_rounded(value, digits):,f}"
    # With digits to spare and nothing halfway, the quick way gives the same.
    return f"{value:,.{digits}f}"


def show(value: float, kind: Kind, system: System) -> str:
    """A bare number with its unit, for people: 0.04 of a length in inches is '0.0400 in'."""
    digits = kind.decimals[0] if system == "inch" else kind.decimals[1]
    text = _fixed(value, digits) if abs(value) < 1e15 else f"{value:g}"
    if not text.strip("-0.,"):
        # Never show a small reading as nothing, nor what rounding left of nothing as a reading.
        nothing = abs(value) < 10.0 ** -(digits + 6)
        text = f"{0:.{digits}f}" if nothing else f"{value:.3g}"
    unit = kind.unit(system)
    return f"{text} {unit}" if unit else text
