"""A file of settings is read, or refused with the line and what is wrong."""

import tomllib

import pytest

from workbook_tools.settings.toml_file import (
    MOST_NESTED,
    SettingsError,
    parse_toml,
    read_toml,
)

TEXT = """\
units = "inch"
job.number = "B2"

[readings]
bore = "C5:C12"  # bore = "D5:D12" in older books
"deck clearance" = { cells = "B3", unit = "thou" }

[[book]]
files = ["V8*.xlsx"]
[book.job]
number = "B3"

[[book]]
files = ["I6*.xlsx"]
[book.job]
number = "B4"
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("units",), 1),
        (("job", "number"), 2),
        (("readings",), 4),
        (("readings", "bore"), 5),
        (("readings", "deck clearance"), 6),
        (("readings", "deck clearance", "unit"), 6),
        (("readings", "stroke"), 4),
        (("book",), 8),
        (("book", 0, "job", "number"), 11),
        (("book", 1), 13),
        (("book", 1, "files"), 14),
        (("book", 1, "job", "number"), 16),
        (("shop",), 0),
    ],
)
def test_the_line_of_a_key(path, line):
    assert parse_toml(TEXT, "layout.toml").line_of(*path) == line


def test_the_content_is_what_the_standard_library_reads(tmp_path):
    path = tmp_path / "layout.toml"
    path.write_bytes(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode())
    assert read_toml(path).data == tomllib.loads(TEXT)


@pytest.mark.parametrize(
    ("text", "line", "reason"),
    [
        ("units = ", 1, "not TOML: "),
        ("units = 'inch'\nunits == 3", 2, "not TOML: "),
        ("a = 1\nb = " + "[" * 5000 + "]" * 5000, 0, "its values are nested more than"),
        ("a = 1\nb = " + "[" * (MOST_NESTED + 1) + "]" * (MOST_NESTED + 1), 2, "b: its values are"),
        ("a = 1\nb = " + "9" * 5000, 2, "not TOML: "),
        ("a = 1\n[b]\nc = [9223372036854775808]", 2, "b: it holds a number larger than"),
    ],
)
def test_what_cannot_be_used_is_refused_with_its_line(text, line, reason):
    with pytest.raises(SettingsError) as raised:
        parse_toml(text, "shop.toml")
    assert raised.value.line == line
    assert raised.value.reason.startswith(reason)
    assert str(raised.value).startswith("shop.toml")


def test_the_largest_number_of_toml_and_the_deepest_list_are_read():
    deepest = "[" * (MOST_NESTED - 1) + "1" + "]" * (MOST_NESTED - 1)
    assert parse_toml(f"a = 9223372036854775807\nb = {deepest}", "x").data["a"] == 2**63 - 1


def test_a_file_that_is_not_there_or_no_text(tmp_path):
    with pytest.raises(SettingsError, match=r"none\.toml: cannot be read: No such file"):
        read_toml(tmp_path / "none.toml")
    path = tmp_path / "shop.toml"
    path.write_bytes("name = 'x'\ntown = 'Gießen'".encode("cp1252"))
    with pytest.raises(SettingsError, match="line 2: not a UTF-8 text"):
        read_toml(path)


def test_only_rows_under_heads_of_their_own_count_as_headed():
    assert parse_toml(TEXT, "x").has_head("book")
    assert not parse_toml("book = [{files = []}]", "x").has_head("book")
