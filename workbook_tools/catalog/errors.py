"""The one error that a worksheet function raises for bad input."""

from __future__ import annotations


class ArgumentError(ValueError):
    """Input that a worksheet function cannot use.

    parameter: name of the parameter, or of the function where the call as a whole is wrong;
    expected: what it needs ("a length above 0"); got: what came ("0", "empty").
    missing: whether nothing at all came, so that a report can ask for a measurement.
    """

    def __init__(self, parameter: str, expected: str, got: str, *, missing: bool = False) -> None:
        super().__init__(parameter, expected, got)
        self.parameter = parameter
        self.expected = expected
        self.got = got
        self.missing = missing

    def __str__(self) -> str:
        return f"{self.parameter}: expected {self.expected}, got {self.got}"


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
