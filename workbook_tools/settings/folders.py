"""Where the current user's settings lie, by the custom of each system."""

from __future__ import annotations

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
