"""The user's settings lie where the system keeps such things."""

import sys
from pathlib import Path

import pytest

from workbook_tools.settings import folders
from workbook_tools.settings.folders import settings_folder


@pytest.mark.skipif(sys.platform != "linux", reason="the custom of Linux")
def test_the_folder_by_the_xdg_base_directory_specification(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    assert settings_folder() == tmp_path / "workbook-tools"
    monkeypatch.delenv("XDG_CONFIG_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert settings_folder() == tmp_path / ".config" / "workbook-tools"


@pytest.mark.skipif(sys.platform == "win32", reason="a Mac's folders")
def test_a_mac_s_earlier_folder_holds_until_there_is_a_new_one(monkeypatch, tmp_path):
    from platformdirs.macos import MacOS

    def on_a_mac(name, *, appauthor, roaming):
        return Path(MacOS(name, appauthor, roaming=roaming).user_config_dir)

    monkeypatch.setattr(folders, "user_config_path", on_a_mac)
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    usual = tmp_path / "Library" / "Application Support" / "workbook-tools"
    assert settings_folder() == usual
    earlier = tmp_path / ".config" / "workbook-tools"
    earlier.mkdir(parents=True)
    assert settings_folder() == earlier
    usual.mkdir(parents=True)
    assert settings_folder() == usual
