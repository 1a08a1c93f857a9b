"""Connecting and disconnecting Excel, in a made-up user's folders."""

from __future__ import annotations

import importlib.util
import locale
import re
import sys
from pathlib import Path

import pytest

from workbook_tools.hosts import excel
from workbook_tools.hosts.excel.names import MODULE

OTHERS = b'"PYTHONPATH","C:\\Shop\\scripts"\r\n"SHOW CONSOLE","True"\r\n'


@pytest.fixture
def places(tmp_path):
    return excel.Places(tmp_path / "user", tmp_path / "Excel" / "XLSTART")


@pytest.fixture
def interpreter(tmp_path):
    """A Python in a virtual environment, with xlwings' library where pip puts it."""
    scripts = tmp_path / "venv" / "Scripts"
    scripts.mkdir(parents=True)
    (tmp_path / "venv" / "xlwings64-0.37.8.dll").touch()
    (scripts / "python.exe").touch()
    return scripts / "python.exe"


def addin():
    found = importlib.util.find_spec("xlwings")
    return (Path(found.origin).parent / "addin" / "xlwings.xlam").read_bytes()


def as_vba_reads(places):
    """{key: value} as the add-in's own VBA reads the file: two quoted texts a line."""
    text = places.settings.read_bytes().decode(locale.getencoding())
    assert text.endswith("\r\n")
    return dict(re.fullmatch('"([^"]*)","([^"]*)"', line).groups() for line in text.splitlines())


def everything(places):
    return {
        path.relative_to(folder.parent): path.read_bytes()
        for folder in (places.user_folder, places.start_folder)
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_a_first_connection_sets_up_addin_interpreter_and_module(places, interpreter):
    report = excel.connect(places, interpreter)
    assert as_vba_reads(places) == {
        "INTERPRETER_WIN": str(interpreter),
        "UDF MODULES": MODULE,
        "ADD_WORKBOOK_TO_PYTHONPATH": "False",
    }
    assert (places.start_folder / "xlwings.xlam").read_bytes() == addin()
    told = "\n".join(report.changed)
    for part in (str(places.addin), "INTERPRETER_WIN", str(interpreter), "UDF MODULES", MODULE):
        assert part in told
    assert any("Restart Excel" in step for step in report.next_steps)


def test_the_module_is_what_xlwings_can_import():
    assert importlib.util.find_spec(MODULE) is not None


def test_disconnecting_leaves_nothing_behind(places, interpreter):
    excel.connect(places, interpreter)
    report = excel.disconnect(places)
    assert everything(places) == {}
    told = "\n".join(report.changed)
    for part in (f"removed {places.addin}", "INTERPRETER_WIN removed", "UDF MODULES removed"):
        assert part in told


def test_other_settings_stay_to_the_last_byte(places, interpreter):
    places.settings.parent.mkdir(parents=True)
    places.settings.write_bytes(OTHERS)
    excel.connect(places, interpreter)
    assert places.settings.read_bytes().startswith(OTHERS)
    # A user of xlwings already, whose books may need the modules beside them.
    assert "ADD_WORKBOOK_TO_PYTHONPATH" not in as_vba_reads(places)
    excel.disconnect(places)
    assert places.settings.read_bytes() == OTHERS


def test_what_was_set_before_comes_back(places, interpreter):
    before = b'"udf modules","takeoff; prices"\n"INTERPRETER_WIN","C:\\Python\\python.exe"\n'
    places.settings.parent.mkdir(parents=True)
    places.settings.write_bytes(before)
    report = excel.connect(places, interpreter)
    settings = as_vba_reads(places)
    assert settings["UDF MODULES"] == f"takeoff;prices;{MODULE}"
    assert settings["INTERPRETER_WIN"] == str(interpreter)
    assert any('was "C:\\Python\\python.exe"' in line for line in report.changed)
    excel.connect(places, interpreter)
    excel.disconnect(places)
    assert as_vba_reads(places) == {
        "UDF MODULES": "takeoff; prices",
        "INTERPRETER_WIN": "C:\\Python\\python.exe",
    }


def test_connecting_again_changes_nothing(places, interpreter):
    excel.connect(places, interpreter)
    before = everything(places)
    again = excel.connect(places, interpreter)
    assert again.changed == ()
    assert "nothing changed" in again.next_steps[0]
    assert everything(places) == before
    excel.disconnect(places)
    assert everything(places) == {}


def test_connecting_from_another_python_takes_that_one(places, interpreter):
    excel.connect(places, interpreter)
    other = interpreter.with_name("pythonw.exe")
    report = excel.connect(places, other)
    assert len(report.changed) == 1
    assert as_vba_reads(places)["INTERPRETER_WIN"] == str(other)
    excel.disconnect(places)
    assert everything(places) == {}


def test_an_addin_of_another_version_comes_back(places, interpreter):
    places.start_folder.mkdir(parents=True)
    places.addin.write_bytes(b"an earlier version")
    report = excel.connect(places, interpreter)
    assert places.addin.read_bytes() == addin()
    assert any(str(places.earlier_addin) in line for line in report.changed)
    # Excel opens whatever lies in its start folder.
    assert [path.name for path in places.start_folder.iterdir()] == ["xlwings.xlam"]
    excel.disconnect(places)
    assert {path.name: data for path, data in everything(places).items()} == {
        "xlwings.xlam": b"an earlier version"
    }


def test_the_users_own_addin_stays(places, interpreter):
    places.start_folder.mkdir(parents=True)
    places.addin.write_bytes(addin())
    excel.connect(places, interpreter)
    excel.disconnect(places)
    assert places.addin.read_bytes() == addin()


def test_what_others_changed_since_then_stays_and_is_named(places, interpreter):
    excel.connect(places, interpreter)
    changed = places.settings.read_text(locale.getencoding())
    changed = changed.replace(str(interpreter), "C:\\Other\\python.exe")
    changed = changed.replace(MODULE, f"{MODULE};takeoff")
    places.settings.write_bytes(changed.encode())
    places.addin.write_bytes(b"a later version")
    report = excel.disconnect(places)
    assert as_vba_reads(places) == {
        "INTERPRETER_WIN": "C:\\Other\\python.exe",
        "UDF MODULES": "takeoff",
    }
    assert places.addin.read_bytes() == b"a later version"
    for part in ("C:\\Other\\python.exe", f"{places.addin} stays"):
        assert any(part in step for step in report.next_steps)


def test_disconnecting_without_a_connection_changes_nothing(places):
    report = excel.disconnect(places)
    assert report.changed == ()
    assert "not connected" in report.next_steps[0]
    assert everything(places) == {}


@pytest.mark.skipif(sys.platform == "win32", reason="about other systems")
@pytest.mark.parametrize("do", [excel.connect, excel.disconnect])
def test_elsewhere_than_on_windows_the_way_without_an_addin_is_named(do):
    with pytest.raises(excel.ExcelError, match="workbook-tools portable") as told:
        do()
    assert "only on Windows" in str(told.value)


def test_without_xlwings_nothing_is_changed(places, interpreter, monkeypatch):
    monkeypatch.setitem(sys.modules, "xlwings", None)
    with pytest.raises(excel.ExcelError, match=r"pip install \"PATH\\TO\\THE\\CLONE\[excel\]\""):
        excel.connect(places, interpreter)
    assert everything(places) == {}


def test_a_python_beside_which_excel_finds_no_library_is_refused(places, tmp_path):
    with pytest.raises(excel.ExcelError, match="virtual environment"):
        excel.connect(places, tmp_path / "Python" / "bin" / "python.exe")
    assert everything(places) == {}


def test_a_damaged_record_is_named_and_nothing_changed(places, interpreter):
    excel.connect(places, interpreter)
    places.record.write_text(places.record.read_text()[:-5])
    before = everything(places)
    for do in (excel.disconnect, lambda p: excel.connect(p, interpreter)):
        with pytest.raises(excel.ExcelError, match="is damaged") as told:
            do(places)
        assert str(places.record) in str(told.value)
    assert everything(places) == before


@pytest.mark.parametrize("do", ["connect", "disconnect"])
def test_a_file_that_excel_holds_open_is_named(places, interpreter, monkeypatch, do):
    excel.connect(places, interpreter)
    places.addin.write_bytes(addin() if do == "disconnect" else b"another version")

    # What Windows does with a file that a program holds open.
    def in_use(self_or_source, target=None, **_):
        raise PermissionError(13, "in use", str(target or self_or_source))

    monkeypatch.setattr("shutil.copyfile", in_use)
    monkeypatch.setattr(Path, "unlink", in_use)
    with pytest.raises(excel.ExcelError, match="close Excel") as told:
        excel.disconnect(places) if do == "disconnect" else excel.connect(places, interpreter)
    assert "xlwings.xlam" in str(told.value)


def test_a_folder_name_that_the_settings_cannot_hold_is_refused(
    places, interpreter, monkeypatch, tmp_path
):
    monkeypatch.setattr(locale, "getencoding", lambda: "cp1252")
    folder = tmp_path / "мастерская" / "Scripts"
    folder.mkdir(parents=True)
    (folder / "xlwings64-0.37.8.dll").touch()
    with pytest.raises(excel.ExcelError, match="letters"):
        excel.connect(places, folder / "python.exe")
    assert not places.settings.exists()


def test_letters_of_the_systems_code_page_are_kept(places, interpreter, monkeypatch):
    monkeypatch.setattr(locale, "getencoding", lambda: "cp1252")
    places.settings.parent.mkdir(parents=True)
    line = '"PYTHONPATH","C:\\Müller"\r\n'.encode("cp1252")
    places.settings.write_bytes(line)
    excel.connect(places, interpreter)
    assert places.settings.read_bytes().startswith(line)
