"""Fixtures of all tests: `eng` calls a worksheet function, `agree` compares with a source.

`pytest tests/published --sources` ends with one line for each comparison (function, expected,
got, difference, class of the source, source), and with how many checks and functions rest on
what.
"""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from sources import Source, tally

from workbook_tools.catalog import calculate, entries, find

pytest_plugins = ["books_on_the_spot", "libreoffice_programs", "measured_processes"]

COMPARED = "compared with a source"
# The files that take longest, in that order.
LONGEST = [
    "test_calculated", "test_fault_set", "test_batch", "test_libreoffice_install",
    "test_mutations", "test_month", "test_new_like", "test_new_book", "test_exit_codes",
    "test_libreoffice_menu", "test_cli", "test_check", "test_contents",
    "test_libreoffice_recalculation", "test_portable_engine", "test_portable_book",
    "test_libreoffice_example_books", "test_libreoffice", "test_opening", "test_excel_functions",
    "test_libreoffice_opendocument", "test_archive", "test_settings",
]  # fmt: skip


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
    # Bands and kept results of whoever runs the tests are theirs alone, and so are those of
    # each process that runs tests beside this one.
    own = tempfile.mkdtemp(prefix="workbook-tools-tests-")
    atexit.register(shutil.rmtree, own, ignore_errors=True)
    os.environ["XDG_CONFIG_HOME"] = os.environ["APPDATA"] = str(Path(own, "settings"))
    os.environ["XDG_CACHE_HOME"] = os.environ["LOCALAPPDATA"] = str(Path(own, "kept"))
    # Batches that tests run in here start one process each, not one for each core: the cores
    # have tests to run.
    os.environ["PYTHON_CPU_COUNT"] = "1"
    config.pluginmanager.register(_NoOffice())
    gc.disable()


def pytest_collection_finish():
    # Thousands of tests live as long as the run: nothing among them need be looked at again.
    gc.freeze()
    gc.enable()


def pytest_xdist_auto_num_workers(config):
    """Files that are named run here: they are done before other processes would have started."""
    return 0 if all(a.split("::")[0].endswith(".py") for a in config.args) else None


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """Whatever takes a fixture of LibreOffice is marked, before marks select what runs.

    The longest files start first, so that processes beside each other end together.
    """
    for item in items:
        if "office" in item.fixturenames:
            item.add_marker("libreoffice")
    places = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: places.get(item.path.stem, len(LONGEST)))


def pytest_runtest_setup(item):
    for marker in item.iter_markers("needs"):
        if not any(map(shutil.which, marker.args)):
            from libreoffice_programs import absent

            absent(f"none of these is installed: {', '.join(marker.args)}")


class _NoOffice:
    """Holds that a test without the mark starts no LibreOffice."""

    def __init__(self):
        self.held = False
        sys.addaudithook(self)

    def __call__(self, event, arguments):
        if self.held and event == "subprocess.Popen":
            program = Path(os.fsdecode(arguments[0])).stem
            assert program not in ("soffice", "unopkg"), "mark this test with libreoffice"

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        self.held = item.get_closest_marker("libreoffice") is None
        try:
            return (yield)
        finally:
            self.held = False


@pytest.fixture
def agree(request) -> Callable[..., None]:
    """agree(function, source, expected, got, rel=, abs=): record the comparison and assert it.

    source: made by one of the functions of `sources`, which say what the check rests on.
    """

    def check(function, source, expected, got, *, rel=1e-9, abs=0.0):
        assert find(function) is not None, f"{function} is not in the catalog"
        assert isinstance(source, Source), f"{source!r}: name it by a function of tests/sources.py"
        number = isinstance(expected, (int, float))
        difference = f"{got - expected:.3g}" if number else ("" if got == expected else "differs")
        texts = [f"{value:.9g}" if number else str(value) for value in (expected, got)]
        # Kept with the test's own report, which also comes from a process beside this one.
        row = (function, source.text, *texts, difference, source.kind)
        request.node.user_properties.append((COMPARED, row))
        if number:
            assert got == pytest.approx(expected, rel=rel, abs=abs), f"{function}: {source.text}"
        else:
            assert got == expected, f"{function}: {source.text}"

    return check


def pytest_terminal_summary(terminalreporter, config):
    if not config.getoption("--sources"):
        return
    rows = [
        tuple(row)
        for reports in terminalreporter.stats.values()
        for report in reports
        if getattr(report, "when", None) == "call"
        for name, row in report.user_properties
        if name == COMPARED
    ]
    terminalreporter.section("checks against sources")
    head = ("function", "source", "expected", "got", "difference", "class")
    for function, source, expected, got, difference, kind in (head, *sorted(rows)):
        line = f"{function:28} {expected:>16} {got:>16} {difference:>10}  {kind:26}  {source}"
        terminalreporter.line(line)
    terminalreporter.section("what the functions rest on")
    checks = [(row[0], row[-1]) for row in rows]
    for line in tally(checks, [f.name for f in entries() if not f.sees_cell]):
        terminalreporter.line(line)
