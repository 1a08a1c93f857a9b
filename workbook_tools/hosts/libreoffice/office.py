"""Find the installed LibreOffice, and run its programs so that none can hang around."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

NEEDED_PYTHON = (3, 11)
# Bytes of address space; with one of the example books it takes a tenth of it.
MOST_MEMORY = 6_000_000_000
_WHERE_INSTALLED = {
    "win32": (
        r"C:\Program Files\LibreOffice\program",
        r"C:\Program Files (x86)\LibreOffice\program",
    ),
    "darwin": ("/Applications/LibreOffice.app/Contents/MacOS",),
    "linux": (
        "/usr/lib/libreoffice/program",
        "/usr/lib64/libreoffice/program",
        "/opt/libreoffice*/program",
        "/snap/libreoffice/current/lib/libreoffice/program",
    ),
}


class OfficeError(RuntimeError):
    """LibreOffice is missing, too old, running, or refused; the message says what to do."""


class OutError(OfficeError):
    """A file that cannot be written where it was asked for."""


@dataclass(frozen=True)
class Office:
    """An installed LibreOffice: the folder that holds soffice and unopkg."""

    programs: Path

    def program(self, name: str) -> str:
        """The full path of one of its programs, such as "unopkg"."""
        # On Windows only the .com form waits and prints to the console.
        return str(self.programs / (f"{name}.com" if sys.platform == "win32" else name))


def find_office() -> Office:
    """The LibreOffice of this machine: on the search path, or where it installs itself.

    Raises OfficeError where there is none.
    """
    for folder in _candidates():
        office = Office(folder)
        # A starter of its own kind, as a snap has, lies apart from the other programs.
        if Path(office.program("soffice")).exists() and Path(office.program("unopkg")).exists():
            return office
    raise OfficeError(
        "LibreOffice was not found: install it, or put the folder of its program soffice "
        "on the search path (PATH)"
    )


def _candidates() -> Iterator[Path]:
    on_path = shutil.which("soffice") or shutil.which("libreoffice")
    if on_path:
        yield Path(on_path).resolve().parent
    for pattern in _WHERE_INSTALLED.get(sys.platform, _WHERE_INSTALLED["linux"]):
        root = Path(Path(pattern).anchor)
        installed = root.glob(str(Path(pattern).relative_to(root)))
        yield from sorted(installed, key=_version_in_name, reverse=True)


def _version_in_name(folder: Path) -> list[int]:
    return [int(digits) for digits in re.findall(r"\d+", str(folder))]


def python_version(office: Office) -> tuple[int, int] | None:
    """The Python that LibreOffice has inside, None where that cannot be told.

    Raises OfficeError where it has none at all.
    """
    folders = [office.programs, office.programs.parent / "Frameworks"]
    bridges = [folder / name for folder in folders for name in _BRIDGES]
    present = [bridge for bridge in bridges if bridge.exists()]
    if not present:
        raise OfficeError(
            f"LibreOffice in {office.programs} has no Python: install its Python part "
            "(on Debian and Ubuntu: apt install python3-uno)"
        )
    # The bridge is linked to one Python library, whose name is in the file.
    for bridge in present:
        found = _PYTHON_LIBRARY.search(bridge.read_bytes())
        if found:
            digits = next(part for part in found.groups() if part)
            return 3, int(digits)
    return None


_BRIDGES = ("libpyuno.so", "libpyuno.dylib", "pyuno.pyd", "pyuno.dll", "libpyuno.dll")
_PYTHON_LIBRARY = re.compile(
    rb"libpython3\.(\d+)|python3(\d+)\.dll|Python[^\0]{0,40}/Versions/3\.(\d+)/"
)


def require_python(office: Office) -> None:
    """Raise OfficeError where LibreOffice's own Python is missing or older than needed."""
    version = python_version(office)
    if version is not None and version < NEEDED_PYTHON:
        raise OfficeError(
            f"LibreOffice in {office.programs} has Python {version[0]}.{version[1]} inside; "
            f"the worksheet functions need {NEEDED_PYTHON[0]}.{NEEDED_PYTHON[1]} or later: "
            "install a newer LibreOffice"
        )


def environment(temp: Path | None = None) -> dict[str, str]:
    """The environment variables to start LibreOffice with, from whatever Python runs here.

    temp: a folder for its temporary files, the system's where it is None.
    """
    found = {**os.environ, "SAL_USE_VCLPLUGIN": "svp", "LC_ALL": "C.UTF-8"}
    # This environment's own Python settings must not reach the Python inside LibreOffice.
    for name in ("PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV"):
        found.pop(name, None)
    if sys.platform == "linux":
        # It looks for its library beside the first python3 on the search path, which in an
        # activated virtual environment is one that it cannot work with.
        found["PATH"] = os.pathsep.join(["/usr/bin", "/bin", found.get("PATH", "")])
    if temp is not None:
        found.update(dict.fromkeys(("TMPDIR", "TMP", "TEMP"), str(temp)))
    return found


def run(
    command: Sequence[str], seconds: float, temp: Path | None = None
) -> subprocess.CompletedProcess[str]:
    """Run a program of LibreOffice to its end, or stop it and all that it started.

    temp: a folder for its temporary files, which it leaves behind where it is stopped; the
    system's where it is None. Returns what it printed, errors included. Raises OfficeError
    when the time is over or the program cannot be started.
    """
    process = None
    try:
        with _no_stop_meanwhile():
            process = _start(command, temp)
        _limit_memory(process.pid)
        output, _ = process.communicate(timeout=seconds)
    except subprocess.TimeoutExpired:
        assert process is not None
        _stop(process)
        raise OfficeError(
            f"LibreOffice did not finish within {seconds:.0f} s and was stopped"
        ) from None
    except BaseException:
        if process is not None:
            _stop(process)
        raise
    return subprocess.CompletedProcess(list(command), process.returncode, output, "")


def _start(command: Sequence[str], temp: Path | None) -> subprocess.Popen[str]:
    try:
        return subprocess.Popen(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            encoding="utf-8",
            errors="replace",
            env=environment(temp),
            start_new_session=sys.platform != "win32",
        )
    except OSError as error:
        raise OfficeError(f"{command[0]} cannot be started: {error}") from None


@contextlib.contextmanager
def _no_stop_meanwhile() -> Iterator[None]:
    """Hold back signals to this program: one amid a start would lose what was started.

    It would go on, and write into folders that are removed.
    """
    if threading.current_thread() is not threading.main_thread():
        yield  # Signals are dealt with in the main thread alone.
        return
    held: list[int] = []
    numbers = [getattr(signal, n) for n in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, n)]
    handlers = {number: signal.getsignal(number) for number in numbers}
    handlers = {number: handler for number, handler in handlers.items() if callable(handler)}
    for number in handlers:
        signal.signal(number, lambda number, _: held.append(number))
    try:
        yield
    finally:
        for number, handler in handlers.items():
            signal.signal(number, handler)
        for number in held[:1]:
            signal.raise_signal(number)


def _limit_memory(process: int) -> None:
    if sys.platform == "linux":
        import resource

        # What it starts has the same limit. It may have ended by now.
        with contextlib.suppress(OSError):
            resource.prlimit(process, resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def _stop(process: subprocess.Popen[str]) -> None:
    """End a program of ours with its children: soffice is only a starter of the real one."""
    if sys.platform == "win32":
        subprocess.run(
            ["taskkill", "/F", "/T", "/PID", str(process.pid)], capture_output=True, check=False
        )
    else:
        with contextlib.suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
    process.wait()
