"""A fresh LibreOffice profile with the add-in, and books calculated in it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.libreoffice.office import environment

SESSION = Path(__file__).with_name("office_session.py")


def _absent(reason: str):
    """Skip, but never where the tests have to prove the add-in."""
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def office():
    """The LibreOffice of this machine; without one the test is skipped, but fails in CI."""
    try:
        return libreoffice.find_office()
    except libreoffice.OfficeError as missing:
        return _absent(str(missing))


@pytest.fixture(scope="session")
def profile(office, tmp_path_factory):
    """A profile of its own with the add-in installed, which calculates every cell on load."""
    return libreoffice.fresh_profile(tmp_path_factory.mktemp("profile"))


@pytest.fixture(scope="session")
def recalculated(profile, tmp_path_factory):
    """recalculated(book, to="xlsx"): the path of the book as LibreOffice calculated it."""

    def calculate(book, to="xlsx") -> Path:
        folder = tmp_path_factory.mktemp("recalculated")
        [result] = libreoffice.recalculate([book], folder, profile, to)
        return result

    return calculate


@pytest.fixture(scope="session")
def office_python(office):
    """A Python that can talk to a running LibreOffice: its own, or the one it is linked to."""
    beside = [office.programs / name for name in ("python", "python.exe", "../Resources/python")]
    for python in [*beside, Path("/usr/bin/python3")]:
        if python.exists():
            tried = subprocess.run([python, "-c", "import uno"], capture_output=True, check=False)
            if tried.returncode == 0:
                return python
    return _absent("no Python on this machine can import uno: install LibreOffice's Python part")


@pytest.fixture(scope="session")
def in_session(office, office_python):
    """in_session(profile, {cell: formula}): what a running LibreOffice shows and describes."""

    def run(profile, formulas):
        pipe = f"workbooktools{os.getpid()}"
        command = [office.program("soffice"), *profile.options, "--headless", "--norestore"]
        process = subprocess.Popen(
            [*command, f"--accept=pipe,name={pipe};urp;"],
            env=environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            told = subprocess.run(
                [office_python, SESSION, pipe],
                input=json.dumps(formulas),
                capture_output=True,
                text=True,
                timeout=60,
                check=False,
            )
            assert told.returncode == 0, told.stderr
            process.wait(timeout=30)
        finally:
            if process.poll() is None and sys.platform != "win32":
                os.killpg(process.pid, 9)
                process.wait()
        return json.loads(told.stdout)

    return run
