"""The one error that a worksheet function raises for bad input."""

from __future__ import annotations


class ArgumentError(ValueError):
    """Input that a worksheet function cannot use.

    parameter: name of the parameter, or of the function where the call as a whole is wrong;
    expected: what it needs ("a length above 0"); got: what came ("0", "empty").
    missing: whether nothing at all came, so that a report can ask for a measurement.
    impossible: whether it is a number that no engine can have, so likely a slip; cure: what was
    likely meant ("perhaps 38 thou was meant"), "" where nothing suggests itself; at: row and
    column, from 1, of the cell in a range that is given as a whole.
    """

    def __init__(
        self,
        parameter: str,
        expected: str,
        got: str,
        *,
        missing: bool = False,
        impossible: bool = False,
        cure: str = "",
        at: tuple[int, int] | None = None,
    ) -> None:
        super().__init__(parameter, expected, got)
        self.parameter = parameter
        self.expected = expected
        self.got = got
        self.missing = missing
        self.impossible = impossible
        self.cure = cure
        self.at = at

    @property
    def why(self) -> str:
        """What was needed, what came, and what was likely meant."""
        cure = f"; {self.cure}" if self.cure else ""
        return f"expected {self.expected}, got {self.got}{cure}"

    def __str__(self) -> str:
        return f"{self.parameter}: {self.why}"


class RequirementError(ArgumentError):
    """A rule between parameters that does not hold; raised by a function's own body."""


def require(
    holds: bool, parameter: str, expected: str, got: str = "", *, missing: bool = False
) -> None:
    """Refuse the call, naming a parameter, unless a rule between parameters holds.

    holds: the rule, evaluated; parameter: the one to blame; expected: what it must be, in
    words ("longer than half the stroke"); got: what came, where that is not simply the
    content of the parameter's own cell; missing: whether a reading was not taken. Raises
    RequirementError, which the edge completes with what stood in the cell.
    """
    if not holds:
        raise RequirementError(parameter, expected, got, missing=missing)
