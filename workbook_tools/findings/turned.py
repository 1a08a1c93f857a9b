"""What calls give with the sign of one argument turned."""

from __future__ import annotations

from workbook_tools.catalog import OMITTED, ArgumentError, calculate
from workbook_tools.findings.finding import call_of
from workbook_tools.jobs.readings import number_of
from workbook_tools.jobs.records import Record

SIGN_ADVICE = (
    "Look which way the piston is: below deck and dish are plus, above deck and dome minus."
)


def turned(record: Record, name: str) -> float | None:
    """What a call gives with the sign of one argument turned, None where it refuses that."""
    if record.function is None:
        return None
    given = {a.name: a for a in record.arguments}
    values: list[object] = []
    for parameter in record.function.parameters:
        argument = given.get(parameter.name)
        value: object = argument.value if argument else OMITTED
        if argument is not None and parameter.name == name:
            number = number_of(argument.value, parameter.kind, record.system)
            if not number:
                return None
            value = -number
        values.append(value)
    if record.function.takes_units:
        values.append(record.system)
    try:
        result = calculate(record.function, values).value
    except ArgumentError:
        return None
    return float(result) if isinstance(result, (int, float)) else None


def both_readings(record: Record | None, name: str) -> str:
    """What a call gives with an argument as typed, and with its sign turned."""
    other = turned(record, name) if record else None
    if record is None or other is None or not isinstance(record.value, (int, float)):
        return ""
    return (
        f". {call_of(record)} is {record.value:.4g} as typed and {other:.4g}"
        f"{' ' + record.unit if record.unit else ''} with the other sign"
    )
