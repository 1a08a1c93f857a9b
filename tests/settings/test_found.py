"""Settings that nobody named: found from the books upward, and never more than that is trusted."""

import os
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest

from workbook_tools.labels.layout import layouts_of
from workbook_tools.settings.accepted import accepted_of
from workbook_tools.settings.folders import BANDS_VARIABLE
from workbook_tools.settings.found import bands_of, folders_up
from workbook_tools.settings.shop import ShopError, find_shop, shop_for

PNG = b"\x89PNG\r\n\x1a\n" + bytes(8)
ACCEPTED = """[[accepted]]
job = "26-{number}"
cell = "S!C3"
who = "R. Lund"
when = "2026-05-28"
why = "seen"
"""


@pytest.fixture
def home(tmp_path, monkeypatch):
    """The user's home, with the folder of a month in it that holds a book."""
    at = tmp_path / "home"
    (at / "shop" / "2026-05").mkdir(parents=True)
    monkeypatch.setenv("HOME", str(at))
    monkeypatch.setenv("USERPROFILE", str(at))
    workbook = openpyxl.Workbook()
    workbook.active.append(["Job no.", "26-001"])
    workbook.active.append(["Deck clearance (in)", 0.005])
    workbook.save(at / "shop" / "2026-05" / "1.xlsx")
    return at


@pytest.fixture
def month(home):
    return home / "shop" / "2026-05"


def test_folders_are_searched_up_to_the_home_and_outside_of_it_to_what_was_named(
    home, month, tmp_path
):
    assert folders_up(month, [month]) == (month, home / "shop", home)
    assert folders_up(month, [home / "shop"]) == (month, home / "shop", home)
    # Above the home, or outside of it, as in a folder that all users write into.
    away = tmp_path / "away" / "deep"
    away.mkdir(parents=True)
    assert folders_up(away, [away]) == (away,)
    assert folders_up(away, [away / "book.xlsx"]) == (away,)
    assert folders_up(away, [away.parent]) == (away, away.parent)
    assert folders_up(away, [tmp_path]) == (away, away.parent, tmp_path)


def test_a_home_that_is_the_whole_machine_is_none(month, monkeypatch):
    for name in ("HOME", "USERPROFILE"):
        monkeypatch.setenv(name, month.anchor)
    assert folders_up(month, [month]) == (month,)


def test_each_kind_is_found_above_the_books(home, month):
    (home / "shop.toml").write_text('name = "Ours"')
    (home / "shop" / "layout.toml").write_text("cylinders = 6")
    for number, folder in enumerate((home / "shop", month)):
        (folder / "accepted.toml").write_text(ACCEPTED.format(number=number))
    book = month / "1.xlsx"
    for named in ([month], [book], [home / "shop"]):
        assert find_shop(named) == home / "shop.toml"
        assert layouts_of([book], named)[book].form_of("1.xlsx").cylinders == 6
    shop = shop_for([month])
    assert (shop.name, [one.job for one in shop.accepted]) == ("Ours", ["26-1", "26-0"])
    # The nearest shop and layout hold alone.
    (month / "shop.toml").write_text('name = "This month"')
    (month / "layout.toml").write_text("cylinders = 4")
    assert shop_for([book]).name == "This month"
    assert layouts_of([book], [book])[book].form_of("1.xlsx").cylinders == 4
    assert find_shop([home / "shop"]) == home / "shop.toml"


def test_nothing_above_the_folder_named_is_read_outside_the_home(home, tmp_path):
    inside = tmp_path / "everybody" / "job"
    inside.mkdir(parents=True)
    for name in ("shop.toml", "layout.toml", "accepted.toml", "bands.toml"):
        (tmp_path / "everybody" / name).write_text("this would be refused")
    book = inside / "1.xlsx"
    assert (find_shop([inside]), accepted_of([book]), layouts_of([book], [inside])) == (
        None,
        (),
        {},
    )
    with bands_of([inside]) as bands:
        assert bands == ()


def test_a_link_out_of_the_home_leads_to_no_settings_of_others(home, month, tmp_path):
    others = tmp_path / "others" / "job"
    others.mkdir(parents=True)
    (tmp_path / "others" / "layout.toml").write_text("cylinders = 12")
    (tmp_path / "others" / "shop.toml").write_text('name = "Others"')
    (month / "linked").symlink_to(others)
    assert layouts_of([month / "linked" / "1.xlsx"], [month]) == {}
    assert find_shop([month / "linked"]) is None
    # Nor does a link into the home make a folder of the home's out of one that all write into.
    (tmp_path / "others" / "ours").symlink_to(month)
    (home / "shop.toml").write_text('name = "Ours"')
    assert find_shop([tmp_path / "others" / "ours"]) == home / "shop.toml"


def test_a_shop_from_above_brings_no_templates_and_no_logo_from_elsewhere(home, month, tmp_path):
    (home / "templates").mkdir()
    (home / "templates" / "summary.html.jinja").write_text("<script>anything</script>")
    (home / "shop.toml").write_text('templates = "templates"\nname = "Ours"')
    told = []
    shop = shop_for([month], tell=told.append)
    assert (shop.name, shop.templates) == ("Ours", None)
    assert len(told) == 1
    assert str(home / "shop.toml") in told[0]
    outside = tmp_path / "logo.png"
    outside.write_bytes(PNG)
    (home / "linked.png").symlink_to(outside)
    for path in ("../logo.png", str(outside), "linked.png"):
        (home / "shop.toml").write_text(f"logo = '{path}'")
        with pytest.raises(ShopError, match=r"expected a picture file in the folder of shop\.toml"):
            shop_for([month])
    (home / "own.png").write_bytes(PNG)
    (home / "shop.toml").write_text("logo = 'own.png'")
    assert shop_for([month]).logo == PNG


def test_a_linked_settings_file_counts_once_and_looks_for_its_logo_where_the_link_is(home, month):
    kept = home / "kept"
    kept.mkdir()
    (kept / "shop.toml").write_text("logo = 'own.png'")
    (kept / "own.png").write_bytes(PNG)
    (month / "shop.toml").symlink_to(kept / "shop.toml")
    (home / "shop" / "other").mkdir()
    (home / "shop" / "other" / "shop.toml").symlink_to(kept / "shop.toml")
    assert find_shop([month, home / "shop" / "other"]) == month / "shop.toml"
    with pytest.raises(ShopError, match="expected a picture file, got"):
        shop_for([month])
    (month / "shop.toml").unlink()
    (month / "shop.toml").symlink_to(month / "shop.toml")
    assert find_shop([month]) is None


def test_bands_of_several_shops_are_not_chosen_between_and_the_environment_goes_first(
    home, month, monkeypatch
):
    (home / "bands.toml").write_text("")
    with bands_of([month]) as found:
        assert found == (home / "bands.toml",)
        assert os.environ[BANDS_VARIABLE] == str(home / "bands.toml")
    assert BANDS_VARIABLE not in os.environ
    (home / "other").mkdir()
    (home / "other" / "bands.toml").write_text("")
    told = []
    with bands_of([month, home / "other"], told.append) as found:
        assert (found, BANDS_VARIABLE in os.environ) == ((), False)
    assert "the books have several" in told[0]
    monkeypatch.setenv(BANDS_VARIABLE, "elsewhere.toml")
    with bands_of([month]) as found:
        assert (found, os.environ[BANDS_VARIABLE]) == ((), "elsewhere.toml")


@pytest.mark.slow
def test_a_command_tells_on_stderr_which_settings_it_used(home, month):
    for name in ("shop.toml", "layout.toml"):
        (home / name).write_text("")
    # A word for a use of the shop's own, which the catalog knows only where the bands are
    # found before it is loaded.
    (home / "shop" / "bands.toml").write_text(
        '[[use]]\nname = "rally"\nmeaning = "forest roads"\nlike = "street"\n'
    )
    workbook = openpyxl.load_workbook(month / "1.xlsx")
    workbook.active["A3"] = '=ENG.BAND("crank end play","rally")'
    workbook.save(month / "1.xlsx")

    def run(*words):
        command = [sys.executable, "-m", "workbook_tools", *map(str, words)]
        return subprocess.run(
            command, capture_output=True, text=True, cwd=month, env=_without_settings(home)
        )

    done = run("check", ".", "--afresh", "--format", "json", "--processes", "1")
    used = [home / "shop.toml", home / "layout.toml", home / "shop" / "bands.toml"]
    assert f"Settings used: {', '.join(map(str, used))}." in done.stderr.splitlines()
    assert "Settings used" not in done.stdout
    named = run("survey", "1.xlsx", "--layout", home / "layout.toml")
    assert f"Settings used: {home / 'shop' / 'bands.toml'}." in named.stderr
    assert "Settings used" not in run("survey", "--names", "gasket").stderr
    assert f"settings        {', '.join(map(str, used))}" in run("doctor").stdout
    tried = run("evaluate", "--book", "1.xlsx", "Sheet!A3")
    assert "as for service" in tried.stdout, tried.stderr


def _without_settings(home):
    kept = {k: v for k, v in os.environ.items() if k != BANDS_VARIABLE}
    return {**kept, "HOME": str(home), "USERPROFILE": str(home), "PYTHONPATH": str(Path.cwd())}
