"""Fixtures of all tests: `eng` calls a worksheet function, `agree` compares with a source.

`pytest tests/published --sources` ends with one line for each comparison: function, source,
expected, got, difference.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from workbook_tools.catalog import calculate, find

pytest_plugins = ["books_on_the_spot"]

_ROWS = pytest.StashKey[list[tuple[str, str, str, str, str]]]()


@pytest.fixture(scope="session")
def eng():
    """The value that a worksheet call gives: eng("QUENCH", 0.002, "38 thou")."""

    def call(name, *arguments):
        function = find(name)
        assert function is not None, f"{name} is not in the catalog"
        return calculate(function, arguments).value

    return call


def pytest_addoption(parser):
    parser.addoption("--sources", action="store_true", help="list every check against a source")


def pytest_configure(config):
    # The bands of whoever runs the tests are theirs alone.
    own = str(Path(tempfile.gettempdir(), "workbook-tools-tests"))
    os.environ["XDG_CONFIG_HOME"] = os.environ["APPDATA"] = own
    config.stash[_ROWS] = []


@pytest.fixture
def agree(request) -> Callable[..., None]:
    """agree(function, source, expected, got, rel=, abs=): record the comparison and assert it."""
    rows = request.config.stash[_ROWS]

    def check(function, source, expected, got, *, rel=1e-9, abs=0.0):
        assert find(function) is not None, f"{function} is not in the catalog"
        number = isinstance(expected, (int, float))
        difference = f"{got - expected:.3g}" if number else ("" if got == expected else "differs")
        rows.append(
            (
                function,
                source,
                f"{expected:.9g}" if number else str(expected),
                f"{got:.9g}" if number else str(got),
                difference,
            )
        )
        if number:
            assert got == pytest.approx(expected, rel=rel, abs=abs), f"{function}: {source}"
        else:
            assert got == expected, f"{function}: {source}"

    return check


def pytest_terminal_summary(terminalreporter, config):
    if not config.getoption("--sources"):
        return
    rows = [("function", "source", "expected", "got", "difference"), *sorted(config.stash[_ROWS])]
    terminalreporter.section("checks against sources")
    for function, source, expected, got, difference in rows:
        terminalreporter.line(f"{function:24} {expected:>16} {got:>16} {difference:>10}  {source}")
