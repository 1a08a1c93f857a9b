"""The catalog as a LibreOffice add-in: build it, install it, calculate books with it."""

from __future__ import annotations

from workbook_tools.hosts.libreoffice.installation import Profile, install, remove
from workbook_tools.hosts.libreoffice.office import OfficeError, OutError, find_office
from workbook_tools.hosts.libreoffice.package import FILE_NAME, build
from workbook_tools.hosts.libreoffice.recalculation import (
    Format,
    Recalculated,
    fresh_profile,
    recalculate,
    recalculate_each,
)

__all__ = [
    "FILE_NAME",
    "Format",
    "OfficeError",
    "OutError",
    "Profile",
    "Recalculated",
    "build",
    "find_office",
    "fresh_profile",
    "install",
    "recalculate",
    "recalculate_each",
    "remove",
]
