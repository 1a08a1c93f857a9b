"""Putting the add-in into LibreOffice and taking it out, and what is said about it."""

from __future__ import annotations

import os
import shutil
import sys
import zipfile
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.hosts import libreoffice
from workbook_tools.hosts.libreoffice import installation
from workbook_tools.hosts.libreoffice import office as programs


@pytest.fixture
def own_profile(office, tmp_path):
    """A profile with the add-in that the test may spoil."""
    return libreoffice.fresh_profile(tmp_path / "profile")


def test_install_replaces_and_remove_leaves_nothing(office, own_profile, tmp_path):
    said = libreoffice.install(own_profile)
    assert said.startswith(
        f"The worksheet functions are installed in the profile {own_profile.folder}"
    )
    assert installation.is_installed(office, own_profile)
    assert "removed" in libreoffice.remove(own_profile)
    assert not installation.is_installed(office, own_profile)
    assert "were not installed" in libreoffice.remove(own_profile)

    book = openpyxl.Workbook()
    book.active["A1"] = "=ENG.QUENCH(-0.002,0.042)"
    book.save(tmp_path / "book.xlsx")
    [after] = libreoffice.recalculate([tmp_path / "book.xlsx"], tmp_path / "out", own_profile)
    assert openpyxl.load_workbook(after, data_only=True).active["A1"].value == "#NAME?"
    assert not [f for f in own_profile.folder.rglob("*") if f.name == "CalcAddIns.xcu"]


@pytest.mark.slow
def test_an_activated_virtual_environment_does_not_reach_the_python_inside(
    office, monkeypatch, tmp_path
):
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    monkeypatch.setenv("PATH", path)
    profile = libreoffice.fresh_profile(tmp_path / "profile")
    assert installation.is_installed(office, profile)
    book = openpyxl.Workbook()
    book.active["A1"] = "=ENG.QUENCH(-0.002,0.042)"
    book.save(tmp_path / "book.xlsx")
    [after] = libreoffice.recalculate([tmp_path / "book.xlsx"], tmp_path / "out", profile)
    value = openpyxl.load_workbook(after, data_only=True).active["A1"].value
    assert value == pytest.approx(0.040)


def test_an_old_python_is_named_by_the_component_too(office, monkeypatch, tmp_path):
    # The check in the component itself, which also serves those who install by a double click.
    package = libreoffice.build(tmp_path / "functions.oxt")
    demanding = tmp_path / "demanding.oxt"
    with zipfile.ZipFile(package) as source, zipfile.ZipFile(demanding, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            if name == "component.py":
                changed = data.replace(b"sys.version_info < (3, 11)", b"sys.version_info < (9, 9)")
                assert changed != data
                data = changed
            target.writestr(name, data)
    monkeypatch.setattr(installation, "build", lambda path, tool: shutil.copy(demanding, path))
    profile = libreoffice.Profile(tmp_path / "profile")
    with pytest.raises(libreoffice.OfficeError, match=r"need Python 3\.11 or later inside Libre"):
        libreoffice.install(profile)
    assert not installation.is_installed(office, profile)


def test_the_python_inside_is_told_as_it_is(office, office_python):
    done = programs.run(
        [str(office_python), "-c", "import sys; print(*sys.version_info[:2])"], seconds=60
    )
    assert programs.python_version(office) == tuple(map(int, done.stdout.split()))


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("libpyuno.so", b"\0libstdc++.so.6\0libpython3.8.so.1.0\0"),
        ("pyuno.pyd", b"\0KERNEL32.dll\0python38.dll\0"),
        ("libpyuno.dylib", b"\0@loader_path/LibreOfficePython.framework/Versions/3.8/Libre\0"),
    ],
)
def test_too_old_a_python_is_refused(tmp_path, name, content):
    (tmp_path / name).write_bytes(content)
    with pytest.raises(libreoffice.OfficeError, match=r"has Python 3\.8 inside.*install a newer"):
        programs.require_python(programs.Office(tmp_path))


def test_a_libreoffice_without_python_is_told_apart(tmp_path):
    with pytest.raises(libreoffice.OfficeError, match="has no Python: install its Python part"):
        programs.require_python(programs.Office(tmp_path))


def test_a_missing_libreoffice_is_said(monkeypatch, tmp_path):
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(programs, "_WHERE_INSTALLED", {"linux": (f"{tmp_path}/libreoffice*",)})
    with pytest.raises(libreoffice.OfficeError, match="LibreOffice was not found: install it"):
        libreoffice.find_office()


def test_the_newest_libreoffice_is_found_where_it_installs_itself(monkeypatch, tmp_path):
    for version in ("7.6", "25.8"):
        folder = tmp_path / f"libreoffice{version}" / "program"
        folder.mkdir(parents=True)
        for program in ("soffice", "unopkg"):
            Path(programs.Office(folder).program(program)).touch()
    monkeypatch.setenv("PATH", "")
    monkeypatch.setattr(
        programs, "_WHERE_INSTALLED", {sys.platform: (f"{tmp_path}/libreoffice*/program",)}
    )
    assert libreoffice.find_office().programs == folder


@pytest.mark.libreoffice
@pytest.mark.skipif(sys.platform == "win32", reason="a shell's script stands for the program")
@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("exit 81", "status 81 and said nothing: try it again"),
        ("echo '  no room'; exit 1", "no room"),
    ],
)
def test_a_program_that_ends_early_is_told_with_what_it_said(tmp_path, script, told):
    office = programs.Office(tmp_path)
    program = Path(office.program("unopkg"))
    program.write_text(f"#!/bin/sh\n{script}\n")
    program.chmod(0o755)
    with pytest.raises(libreoffice.OfficeError, match=told):
        installation.is_installed(office)


@pytest.mark.libreoffice
@pytest.mark.skipif(sys.platform == "win32", reason="a shell's script stands for the program")
def test_a_program_that_once_ends_without_a_word_is_run_again(tmp_path):
    office = programs.Office(tmp_path)
    program = Path(office.program("unopkg"))
    program.write_text(
        f"#!/bin/sh\n[ -e {tmp_path}/begun ] || {{ touch {tmp_path}/begun; exit 81; }}\n"
    )
    program.chmod(0o755)
    assert not installation.is_installed(office)


@pytest.mark.slow
def test_a_running_libreoffice_has_to_be_started_again(own_profile):
    (own_profile.folder / ".lock").touch()
    assert "close all its windows and start it again" in libreoffice.install(own_profile)


def test_a_run_that_takes_too_long_is_stopped(profile, tmp_path):
    book = openpyxl.Workbook()
    book.save(tmp_path / "book.xlsx")
    with pytest.raises(libreoffice.OfficeError, match="did not finish within 0 s and was stopped"):
        libreoffice.recalculate([tmp_path / "book.xlsx"], tmp_path / "out", profile, seconds=0.05)
    # The profile can be used again.
    assert libreoffice.recalculate([tmp_path / "book.xlsx"], tmp_path / "out", profile)


def test_a_file_that_is_no_book_is_named(profile, tmp_path):
    broken = tmp_path / "broken.xlsx"
    broken.write_bytes(b"PK\3\4 no more than this")
    with pytest.raises(libreoffice.OfficeError, match=r"did not save .*broken\.xlsx"):
        libreoffice.recalculate([broken], tmp_path / "out", profile)


def test_books_are_never_overwritten(tmp_path):
    profile = libreoffice.Profile(tmp_path / "profile")
    book = tmp_path / "book.xlsx"
    book.write_bytes(b"as it was")
    with pytest.raises(libreoffice.OfficeError, match="would be saved over"):
        libreoffice.recalculate([book], tmp_path, profile)
    with pytest.raises(ValueError, match="expected books with different names"):
        libreoffice.recalculate([book, tmp_path / "b" / "book.xlsx"], tmp_path / "out", profile)
    assert book.read_bytes() == b"as it was"


def test_a_profile_is_not_set_up_twice(tmp_path):
    (tmp_path / "user").mkdir()
    (tmp_path / "user" / "registrymodifications.xcu").touch()
    with pytest.raises(libreoffice.OfficeError, match="holds a LibreOffice profile already"):
        libreoffice.fresh_profile(tmp_path)
