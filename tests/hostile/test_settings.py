"""Settings that nobody means well: refused in one line with the file's name, by every reader."""

import random

import pytest
from craft import good_book
from typer.testing import CliRunner

from workbook_tools.catalog.tables import TableError, read_tables
from workbook_tools.cli import app
from workbook_tools.labels.layout import LayoutError, read_layout
from workbook_tools.settings.shop import ShopError, read_shop

READERS = {
    "layout.toml": (read_layout, LayoutError),
    "shop.toml": (read_shop, ShopError),
    "bands.toml": (read_tables, TableError),
}
KEYS = ("units", "name", "band", "readings", "address", "cylinders", "banks", "files", "book")


def _nested(pick):
    """A value or a key nested deeper than Python follows."""
    depth, key = pick.choice([2_000, 20_000]), pick.choice(KEYS)
    return pick.choice(
        [
            f"{key} = {'[' * depth}1{']' * depth}",
            f"{key} = {'[' * depth}",
            f"{key} = {'{a=' * depth}1{'}' * depth}",
            f"[{key}]\nbore = {'[' * depth}{']' * depth}",
            f"[[{key}]]\nlow = {'[' * depth}{']' * depth}",
            f"{key}{'.a' * 2_000} = 1",
            f"[{key}{'.a' * 2_000}]\nb = 1",
        ]
    )


def _odd(pick):
    """A key with a value that nobody expects of it."""
    value = pick.choice(
        ["9" * 5_000, "-" + "9" * 4_000, "0x" + "f" * 9_000, "1e999", "nan", "1979-05-27", "[]",
         "{}", '""', '"\\u0000"', "'''" + "x" * 9_000 + "'''", "[[[]]]", "9999-99-99"]
    )  # fmt: skip
    head = pick.choice(["", f"[{pick.choice(KEYS)}]\n", f"[[{pick.choice(KEYS)}]]\n"])
    return f"{head}{pick.choice(KEYS)} = {value}"


@pytest.mark.parametrize("name", READERS)
@pytest.mark.parametrize("make", [_nested, _odd])
@pytest.mark.parametrize("count", [20, pytest.param(100, marks=pytest.mark.slow)])
def test_odd_settings_are_refused_with_the_name_of_the_file(tmp_path, name, make, count):
    read, expected = READERS[name]
    pick = random.Random(f"{name} {make.__name__} 20261128")
    path, refused = tmp_path / name, []
    for _ in range(count):
        path.write_text(make(pick), "utf-8")
        try:
            read(path)
        except expected as error:
            refused.append(str(error))
    assert len(refused) > count / 2
    assert [said for said in refused if not said.startswith(str(path)) or "\n" in said] == []


@pytest.mark.parametrize(
    ("cells", "reason"),
    [
        ("A1:XFD1048576", "expected at most 10,000 cells, got 17,179,869,184 ('A1:XFD1048576')"),
        ("Block!A1:A10001", "expected at most 10,000 cells, got 10,001 ('Block!A1:A10001')"),
        ("A0", "expected cells from A1 to XFD1048576, got 'A0'"),
        ("XFE1", "expected cells from A1 to XFD1048576, got 'XFE1'"),
        ("A1:B1048577", "expected cells from A1 to XFD1048576, got 'A1:B1048577'"),
        ("C5:B4", "expected the upper left cell first, got 'C5:B4'"),
    ],
)
def test_a_range_that_no_reading_fills_is_refused_where_it_stands(tmp_path, cells, reason):
    path = tmp_path / "layout.toml"
    for text, line in (
        (f'[readings]\nstroke = "B2"\nbore = "{cells}"\n', 3),
        (f'[readings]\nbore = ["B2", "{cells}"]\n', 2),
        (f'units = "inch"\n[readings]\nbore = {{ cells = "{cells}", unit = "in" }}\n', 3),
    ):
        path.write_text(text, "utf-8")
        with pytest.raises(LayoutError) as raised:
            read_layout(path)
        assert str(raised.value) == f"{path}, line {line}, readings.bore: {reason}"


def test_a_job_cell_that_no_sheet_has_is_refused(tmp_path):
    path = tmp_path / "layout.toml"
    path.write_text('[job]\nnumber = "Front!B0"\n', "utf-8")
    with pytest.raises(LayoutError, match=r"line 2, job\.number: expected cells from A1"):
        read_layout(path)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("[[band]]\ntable = 'x'\n", "line 1: origin: is missing"),
        ("band = " + "[" * 20_000, "nested more than 16 deep"),
        (None, "cannot be read: No such file or directory"),
        ("x = " + "9" * 5_000, "not TOML"),
    ],
    ids=["a row", "nested", "missing", "digits"],
)
@pytest.mark.parametrize("command", ["summarize", "month", "survey", "bands"])
def test_bands_that_cannot_be_used_are_one_message(tmp_path, monkeypatch, command, text, reason):
    book, bands = tmp_path / "book.xlsx", tmp_path / "own.toml"
    book.write_bytes(good_book())
    if text is not None:
        bands.write_text(text, "utf-8")
    monkeypatch.setenv("WORKBOOK_TOOLS_BANDS", str(bands))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    out = ["--out", str(tmp_path / "out")]
    words = {
        "summarize": ["summarize", str(book), *out],
        "month": ["month", "2026-10", str(book), *out],
        "survey": ["survey", str(book)],
        "bands": ["bands"],
    }[command]
    done = CliRunner().invoke(app, words)
    assert done.exit_code == 3
    assert done.stdout == ""
    assert done.stderr.startswith(str(bands))
    assert reason in done.stderr
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "out").exists()
