"""A LibreOffice of the tests' own: a fresh profile with the add-in, and books calculated in it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from workbook_tools.hosts import libreoffice


def absent(reason: str):
    """Skip for want of a program, but fail in CI, where everything has to be proved."""
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def office():
    """The LibreOffice of this machine; without one the test is skipped, but fails in CI."""
    try:
        return libreoffice.find_office()
    except libreoffice.OfficeError as missing:
        return absent(str(missing))


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
