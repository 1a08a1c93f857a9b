"""The shop's own file: what it says, and what is told where it cannot be used."""

import re
import tomllib

import pytest
from pictures import PNG

from workbook_tools.settings.shop import Shop, ShopError, find_shop, read_shop, shop_for, write_shop


@pytest.fixture
def shop_file(tmp_path):
    def write(text):
        path = tmp_path / "shop.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_the_file_to_start_from_is_one_that_can_be_read(tmp_path):
    path = write_shop(tmp_path / "new")
    assert read_shop(path) == Shop()
    tomllib.loads(path.read_text(encoding="utf-8"))


def test_every_line_of_the_file_to_start_from_works_when_it_is_filled_in(tmp_path):
    path = write_shop(tmp_path)
    (tmp_path / "logo.png").write_bytes(PNG)
    (tmp_path / "templates").mkdir()
    text = path.read_text(encoding="utf-8")
    filled = re.sub(r"^( *)# (logo|templates|\")", r"\1\2", text, flags=re.MULTILINE)
    path.write_text(filled.replace('name = ""', 'name = "Example Engines"'), encoding="utf-8")
    shop = read_shop(path)
    assert shop.name == "Example Engines"
    assert shop.address == ("12 Example Lane", "Anytown")
    assert (shop.logo, shop.logo_kind) == (PNG, "image/png")
    assert shop.templates == tmp_path / "templates"


def test_a_file_that_is_there_is_never_written_over(tmp_path):
    path = write_shop(tmp_path)
    path.write_text('name = "ours"', encoding="utf-8")
    with pytest.raises(FileExistsError):
        write_shop(tmp_path)
    assert read_shop(path).name == "ours"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('paper = "a5"', 'paper: expected "letter" or "a4", got \'a5\''),
        ("paper = 4", 'paper: expected "letter" or "a4", got 4'),
        ('units = "imperial"', 'units: expected "inch" or "metric", got \'imperial\''),
        ("name = 7", "name: expected a text of up to 80 characters, got 7"),
        ('name = "' + "x" * 81 + '"', "name: expected a text of up to 80"),
        ("address = [1, 2]", "address: expected up to 6 lines"),
        ('address = ["a","b","c","d","e","f","g"]', "address: expected up to 6 lines"),
        ('logo = "none.png"', "logo: expected a picture file, got "),
        ('logo = ""', "logo: expected the path of a picture file, got ''"),
        ('templates = "nowhere"', "templates: expected a folder, got "),
        ('papr = "a4"', "papr: no such key; the nearest is paper"),
        ('zzz = "a4"', "zzz: no such key; choose one of name"),
        ('name = "open', "not readable as TOML: "),
    ],
)
def test_a_bad_value_gives_file_key_and_reason(shop_file, text, words):
    path = shop_file(text)
    with pytest.raises(ShopError, match=re.escape(f"{path}: {words}")):
        read_shop(path)


def test_a_logo_that_is_no_picture_is_refused(shop_file, tmp_path):
    (tmp_path / "logo.png").write_text("#panic()", encoding="utf-8")
    with pytest.raises(ShopError, match="logo: expected a picture of the kind image/png"):
        read_shop(shop_file('logo = "logo.png"'))
    (tmp_path / "logo.svg").write_text("<svg/>", encoding="utf-8")
    with pytest.raises(ShopError, match=r"logo: expected a \.png or \.jpg file"):
        read_shop(shop_file('logo = "logo.svg"'))
    (tmp_path / "large.png").write_bytes(PNG + bytes(500_001))
    with pytest.raises(ShopError, match="at most 500,000 bytes"):
        read_shop(shop_file('logo = "large.png"'))


def test_the_shop_is_found_beside_the_books(tmp_path):
    books = tmp_path / "books"
    write_shop(books)
    (books / "a.xlsx").touch()
    assert find_shop([books]) == books / "shop.toml"
    assert find_shop([books / "a.xlsx"]) == books / "shop.toml"
    assert find_shop([tmp_path]) is None
    assert shop_for([tmp_path]) == Shop()


def test_two_shops_in_one_batch_are_not_chosen_between(tmp_path):
    for name in ("one", "two"):
        write_shop(tmp_path / name)
    with pytest.raises(ShopError, match="several shops"):
        shop_for([tmp_path / "one", tmp_path / "two"])
    chosen = tmp_path / "one" / "shop.toml"
    assert shop_for([tmp_path / "one", tmp_path / "two"], chosen) == Shop()


def test_a_shop_that_is_named_and_missing_is_told(tmp_path):
    with pytest.raises(ShopError, match="no such file; workbook-tools init writes one"):
        shop_for([tmp_path], tmp_path / "shop.toml")
