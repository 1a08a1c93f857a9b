"""What a running LibreOffice tells of itself."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from libreoffice_programs import absent

from workbook_tools.hosts.libreoffice.office import environment

SESSION = Path(__file__).with_name("office_session.py")


@pytest.fixture(scope="session")
def office_python(office):
    """A Python that can talk to a running LibreOffice: its own, or the one it is linked to."""
    beside = [office.programs / name for name in ("python", "python.exe", "../Resources/python")]
    for python in [*beside, Path("/usr/bin/python3")]:
        if python.exists():
            tried = subprocess.run([python, "-c", "import uno"], capture_output=True, check=False)
            if tried.returncode == 0:
                return python
    return absent("no Python on this machine can import uno: install LibreOffice's Python part")


@pytest.fixture(scope="session")
def in_session(office, office_python):
    """in_session(profile, {cell: formula}): what a running LibreOffice shows and describes.

    script: another one to run with the data in it; more: variables of its environment.
    """

    def run(profile, data, script=SESSION, more=None):
        pipe = f"workbooktools{os.getpid()}"
        command = [office.program("soffice"), *profile.options, "--headless", "--norestore"]
        process = subprocess.Popen(
            [*command, f"--accept=pipe,name={pipe};urp;"],
            env={**environment(), **(more or {})},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            told = subprocess.run(
                [office_python, script, pipe],
                input=json.dumps(data),
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
