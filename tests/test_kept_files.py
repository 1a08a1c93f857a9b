"""What the program keeps of itself: used where it is whole, made anew where it is not."""

import os
import tomllib

import pytest

from workbook_tools import kept_files
from workbook_tools.batch.cache import clear, contents
from workbook_tools.kept_files import keep_made, made_files, own_toml, recall_made, usual_folder

TEXT = '[bore]\nusual = [0.05, 0.12]\nwords = ["Bohrung", "alésage"]\nopen = inf\n'


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty folder in place of the user's."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path))
    kept_files._folder_of_program.cache_clear()
    yield usual_folder()
    kept_files._folder_of_program.cache_clear()


def test_a_table_is_parsed_once(folder, monkeypatch):
    read = own_toml(TEXT)
    assert read == tomllib.loads(TEXT)
    monkeypatch.setattr(tomllib, "loads", None)
    assert own_toml(TEXT) == read


def test_another_text_is_another_table(folder):
    own_toml(TEXT)
    assert own_toml(TEXT.replace("0.12", "0.13")) != own_toml(TEXT)


def test_what_json_cannot_hold_is_read_each_time(folder):
    text = "started = 2026-11-29\n"
    assert own_toml(text) == own_toml(text) == tomllib.loads(text)
    assert not list(made_files(folder))


def test_a_fault_is_told_as_ever(folder):
    with pytest.raises(tomllib.TOMLDecodeError):
        own_toml("bore = ")


@pytest.mark.parametrize("damage", [lambda b: b[:-1], lambda b: b[:-1] + b"~", lambda b: b""])
def test_what_is_damaged_is_made_anew(folder, damage):
    own_toml(TEXT)
    (file,) = made_files(folder)
    file.write_bytes(damage(file.read_bytes()))
    assert recall_made(file.name) is None
    assert own_toml(TEXT) == tomllib.loads(TEXT)
    assert recall_made(file.name) is not None


@pytest.mark.skipif("os.name == 'nt'", reason="Windows keeps rights otherwise")
def test_what_others_could_have_written_is_not_used(folder):
    keep_made("table", b"ours")
    (folder / "program").chmod(0o777)
    kept_files._folder_of_program.cache_clear()
    assert recall_made("table") is None
    assert oct(folder.stat().st_mode & 0o777) == "0o700"


@pytest.mark.skipif("os.name == 'nt' or os.geteuid() == 0", reason="rights do not hold for root")
def test_where_nothing_can_be_kept_all_goes_on(folder):
    os.chmod(folder.parent, 0o500)
    assert own_toml(TEXT) == tomllib.loads(TEXT)


def test_it_goes_with_the_results_and_counts_as_none(folder):
    keep_made("table", b"ours")
    assert contents(folder) == (0, 0)
    assert clear(folder) == 0
    assert not list(made_files(folder))
