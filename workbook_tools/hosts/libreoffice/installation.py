"""Put the add-in into LibreOffice and take it out again."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.hosts.libreoffice.office import (
    Office,
    OfficeError,
    find_office,
    require_python,
    run,
)
from workbook_tools.hosts.libreoffice.package import FILE_NAME, IDENTIFIER, build

_SECONDS = 120.0


@dataclass(frozen=True)
class Profile:
    """A LibreOffice user profile in a folder of its own, apart from the user's."""

    folder: Path

    def temporary(self) -> Path:
        """A folder for temporary files, which goes with the profile; made where missing."""
        folder = self.folder.resolve() / "temporary"
        folder.mkdir(parents=True, exist_ok=True)
        return folder

    @property
    def options(self) -> list[str]:
        """What makes a program of LibreOffice use this profile and nothing else installed.

        Extensions for all users are looked for inside it too, because that is the only kind
        that root may install.
        """
        home = self.folder.resolve()
        return [
            f"-env:UserInstallation={home.as_uri()}",
            f"-env:UNO_SHARED_PACKAGES={(home / 'shared').as_uri()}",
        ]


def install(profile: Profile | None = None) -> str:
    """Install the add-in for the current user, or for all users when run by root.

    profile: a profile apart from the user's own; left out, the user's own. An add-in of an
    earlier version is replaced. Returns what was changed and what to do next. Raises
    OfficeError, which says what to do, where LibreOffice is missing, has too old a Python,
    or refuses.
    """
    office = find_office()
    require_python(office)
    with tempfile.TemporaryDirectory() as folder:
        package = build(Path(folder) / FILE_NAME, tool=(sys.executable, "-m", "workbook_tools"))
        try:
            _unopkg(office, ["add", "--force", "--suppress-license"], str(package), profile)
        except OfficeError:
            # What was refused is still listed, as not registered.
            with contextlib.suppress(OfficeError):
                _unopkg(office, ["remove"], IDENTIFIER, profile)
            raise
    return f"The worksheet functions are installed {_for_whom(profile)}. {_next_step(profile)}"


def remove(profile: Profile | None = None) -> str:
    """Remove the add-in from where `install` puts it.

    profile: as for `install`. Returns what was changed, or that nothing was. Raises
    OfficeError where LibreOffice is missing or refuses.
    """
    office = find_office()
    if not is_installed(office, profile):
        return f"The worksheet functions were not installed {_for_whom(profile)}."
    _unopkg(office, ["remove"], IDENTIFIER, profile)
    return f"The worksheet functions are removed {_for_whom(profile)}. {_next_step(profile)}"


def is_installed(office: Office, profile: Profile | None = None) -> bool:
    """Whether LibreOffice lists the add-in where `install` would put it."""
    return f"Identifier: {IDENTIFIER}" in _unopkg(office, ["list"], None, profile).splitlines()


def _is_root() -> bool:
    return sys.platform != "win32" and os.geteuid() == 0


def _for_whom(profile: Profile | None) -> str:
    if profile:
        return f"in the profile {profile.folder}"
    return "for all users of this machine" if _is_root() else "for the current user"


def _unopkg(
    office: Office, arguments: Sequence[str], subject: str | None, profile: Profile | None
) -> str:
    command = [office.program("unopkg"), *arguments]
    if _is_root():
        command.append("--shared")
    if subject:
        command.append(subject)
    if profile:
        done = _run_again(command + profile.options, profile.temporary())
    else:
        done = _run_again(command)
    if done.returncode:
        # Indented lines are a traceback through LibreOffice's own files.
        told = [line for line in done.stdout.splitlines() if line.strip()]
        lines = [line for line in told if line.strip() == line] or told
        if not lines:
            lines = [f"It ended with status {done.returncode} and said nothing: try it again."]
        if _lock(profile).exists():
            lines.append("LibreOffice seems to be running: close all its windows and try again.")
        raise OfficeError(
            f"LibreOffice's unopkg refused to {arguments[0]} the add-in:\n" + "\n".join(lines)
        )
    return done.stdout


def _run_again(
    command: Sequence[str], temp: Path | None = None
) -> subprocess.CompletedProcess[str]:
    """Run a command, once more where it fails without a word, as now and then at its start."""
    done = run(command, _SECONDS, temp)
    silent = done.returncode and not done.stdout.strip()
    return run(command, _SECONDS, temp) if silent else done


def _lock(profile: Profile | None) -> Path:
    """The file that LibreOffice keeps in a profile while it runs, and after a crash."""
    return (profile.folder if profile else _users_profile()) / ".lock"


def _next_step(profile: Profile | None) -> str:
    if _lock(profile).exists():
        return (
            "LibreOffice seems to be running: close all its windows and start it again, "
            "the change shows only then."
        )
    return "The change shows when LibreOffice is started the next time."


def _users_profile() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        base = Path(os.environ.get("APPDATA", home / "AppData" / "Roaming"))
        return base / "LibreOffice" / "4"
    if sys.platform == "darwin":
        return home / "Library" / "Application Support" / "LibreOffice" / "4"
    base = Path(os.environ.get("XDG_CONFIG_HOME") or home / ".config")
    return base / "libreoffice" / "4"
