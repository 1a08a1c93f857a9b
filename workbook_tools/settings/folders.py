"""Where the current user's settings lie, by the custom of each system."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

from platformdirs import user_config_path

_NAME = "workbook-tools"
# A shop's own bands and materials, and what names another file of them.
BANDS_FILE = "bands.toml"
BANDS_VARIABLE = "WORKBOOK_TOOLS_BANDS"


def settings_folder() -> Path:
    """The folder of the user's settings, whether it is there or not.

    On a Mac that is where it lay in earlier releases, as long as one lies there. Raises
    OSError or RuntimeError where the user has no home that may be looked into.
    """
    usual = user_config_path(_NAME, appauthor=False, roaming=True)
    earlier = Path("~/.config").expanduser() / _NAME
    in_library = "Library" in usual.parts and "Application Support" in usual.parts
    return earlier if in_library and not usual.is_dir() and earlier.is_dir() else usual


def usual_bands_file() -> Path:
    """Where a shop's own bands lie for the current user, by the custom of each system."""
    return settings_folder() / BANDS_FILE


def bands_file() -> str | None:
    """The shop's own bands that are in force, None where there are none."""
    return os.environ.get(BANDS_VARIABLE) or _usual_bands()


def bands_file_now() -> str | None:
    """The same as a process finds it that looks for the first time."""
    return os.environ.get(BANDS_VARIABLE) or _usual_bands.__wrapped__()


def look_again() -> None:
    """Look for the usual file anew where the environment is another now."""
    _usual_bands.cache_clear()


@cache
def _usual_bands() -> str | None:
    # Looked for once: a table is asked for often.
    try:
        usual = usual_bands_file()
        return str(usual) if usual.is_file() else None
    except (OSError, RuntimeError):
        return None  # Nobody's home, or one that may not be looked into.
