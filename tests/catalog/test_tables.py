"""Materials and bands: ours, a shop's rows over them, and what is said of a bad row."""

import os
import subprocess
import sys

import pytest

from workbook_tools.catalog import calculate, find, tables, tables_shown
from workbook_tools.catalog.tables import TableError, read_tables
from workbook_tools.settings.folders import BANDS_VARIABLE

GOOD_BAND = """[[band]]
table = "ring gap factor"
use = "street"
ring = "top"
low = 0.0044
high = 0.0052
factor = 0.0048
origin = "our own"
"""
HEADS = "expected rows headed [[band]], [[use]] or [[material]]"
SIZED = GOOD_BAND.replace("low =", 'low_base = "0.02 mm"\nlow =')
USE = """[[use]]
name = "Rally"
meaning = "forest roads"
like = "road race"
"""
PROOF = """[[band]]
table = "proof stress"
grade = "M tempered"
size = "any"
low = 120
origin = "our bolt maker"
"""
GOOD_MATERIAL = """[[material]]
name = "Aluminum 356"
expansion = 21.4e-6
range = "20 to 100 deg C"
modulus = 72e9
density = 2680
source = "foundry's sheet"
"""


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """shop(text): makes the text the shop's own file and returns its path."""

    def write(text):
        path = tmp_path / "bands.toml"
        path.write_text(text, encoding="utf-8")
        monkeypatch.setenv(BANDS_VARIABLE, str(path))
        tables._cached_tables.cache_clear()
        return path

    yield write
    tables._cached_tables.cache_clear()


def fault(tmp_path, text):
    path = tmp_path / "shop.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TableError) as raised:
        read_tables(path)
    assert raised.value.file == str(path)
    return raised.value.line, raised.value.reason


def test_every_row_of_ours_is_read_and_says_where_it_comes_from():
    ours = read_tables()
    assert ours.materials
    assert ours.bands
    for material in ours.materials.values():
        assert material.name == material.name.lower()
        assert 1e-6 < material.expansion < 40e-6
        assert 1e9 < material.modulus < 700e9
        assert 1000 < material.density < 25000
        assert material.source
    for band in ours.bands.values():
        assert band.origin


def test_a_shop_s_row_takes_the_place_of_ours_and_a_new_one_is_added(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(GOOD_BAND + GOOD_MATERIAL, encoding="utf-8")
    ours, both = read_tables(), read_tables(path)
    key = ("ring gap factor", frozenset({("use", "street"), ("ring", "top")}))
    assert ours.bands[key].factor != 0.0048
    assert (both.bands[key].factor, both.bands[key].origin) == (0.0048, "our own")
    assert (both.bands[key].low, both.bands[key].high) == (0.0044, 0.0052)
    assert list(both.bands) == list(ours.bands)
    assert "aluminum 356" not in ours.materials
    assert both.materials["aluminum 356"].expansion == 21.4e-6
    assert set(both.materials) - set(ours.materials) == {"aluminum 356"}


def test_the_environment_names_the_shop_s_file(shop):
    before = tables.factor("ring gap factor", use="street", ring="top")
    shop(GOOD_BAND)
    assert tables.factor("ring gap factor", use="street", ring="top") == 0.0048
    assert tables.find_band("ring gap factor", use="street", ring="top").origin == "our own"
    assert before != 0.0048


def test_a_shop_s_material_is_known_to_the_functions_of_a_new_start(tmp_path):
    path = tmp_path / "bands.toml"
    path.write_text(GOOD_MATERIAL, encoding="utf-8")
    program = (
        "from workbook_tools.catalog import calculate, find\n"
        "print(calculate(find('BLOCK_GROWTH'), (9, 110, 'aluminum 356')).value)"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], env={**os.environ, BANDS_VARIABLE: str(path)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert float(run.stdout) == pytest.approx(21.4e-6 * 9 * 110 / 1.8)


def test_a_shop_s_use_stands_on_another_where_it_has_no_row(tmp_path):
    path = tmp_path / "bands.toml"
    path.write_text(USE + GOOD_BAND.replace('"street"', '"Rally"'), encoding="utf-8")
    program = (
        "from workbook_tools.catalog import calculate, find\n"
        "print(*calculate(find('RING_GAP_BAND'), (4, 'rally', 'top')).value[0], sep='|')\n"
        "print(*calculate(find('BEARING_BAND'), (2, 'rally')).value[0], sep='|')"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], env={**os.environ, BANDS_VARIABLE: str(path)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    rings, bearings = run.stdout.splitlines()
    assert rings == "0.0176|0.0208|our own"
    assert bearings.endswith("as for road race")


def test_a_shop_s_use_of_one_table_says_what_the_others_need(tmp_path):
    path = tmp_path / "bands.toml"
    path.write_text(GOOD_BAND.replace('"street"', '"Rally"'), encoding="utf-8")
    program = (
        "from workbook_tools.catalog import calculate, find\n"
        "calculate(find('BEARING_BAND'), (2, 'rally'))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], env={**os.environ, BANDS_VARIABLE: str(path)},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert "needs a [[use]] row that says which it is like, got 'rally'" in run.stderr


def test_a_bad_shop_file_spoils_only_what_needs_a_table(shop):
    path = shop(GOOD_BAND.replace("0.0048", "'wide'"))
    assert calculate(find("QUENCH"), (0.002, 0.038)).value == pytest.approx(0.040)
    with pytest.raises(ValueError, match="line 7: factor: expected a number, got 'wide'") as raised:
        calculate(find("BLOCK_GROWTH"), (9, 110, "aluminum"))
    assert str(path) in str(raised.value)


def test_figures_are_converted_from_the_row_s_unit(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(PROOF + 'unit = "ksi"', encoding="utf-8")
    key = ("proof stress", frozenset({("grade", "m tempered"), ("size", "any")}))
    # 120 kips of 1000 lbf on a square inch.
    assert read_tables(path).bands[key].low == pytest.approx(120e3 * 4.4482216152605 / 0.0254**2)


@pytest.mark.parametrize(
    ("text", "line", "reason"),
    [
        ("x = ", 1, "not TOML: "),
        (GOOD_BAND + "\n\nlow == 3", 11, "not TOML: "),
        ('[[bands]]\ntable = "t"', 1, f"{HEADS}, got 'bands'"),
        ('\n\n[band]\ntable = "t"', 3, f"{HEADS}, got 'band'"),
        (
            "# our own bands, from band to band\n" + GOOD_BAND + '[[bands]]\ntable = "t"',
            10,
            f"{HEADS}, got 'bands'",
        ),
        ("\nshop = 'ours'", 2, f"{HEADS}, got 'shop'"),
        ("band = [{table = 't'}]", 1, f"{HEADS}, got 'band'"),
        (GOOD_BAND.replace('origin = "our own"\n', ""), 1, "origin: is missing"),
        (GOOD_BAND.replace('"our own"', '" "'), 8, "origin: expected a text, got ' '"),
        (GOOD_BAND.replace('"our own"', "7"), 8, "origin: expected a text, got 7"),
        (GOOD_BAND.replace('"street"', "3"), 3, "use: expected a text, got 3"),
        (
            PROOF.replace("low = 120\n", ""),
            1,
            "expected low, high or factor",
        ),
        (
            GOOD_BAND.replace("low = 0.0044\n", ""),
            1,
            "table 'ring gap factor' has the figures factor, high, low; this row has factor, high",
        ),
        (
            GOOD_BAND.replace("gap factor", "gap factors"),
            2,
            "table: no table 'ring gap factors'; the nearest is ring gap factor",
        ),
        (
            GOOD_BAND.replace("0.0048", "0.0058"),
            7,
            "factor: expected factor to be from low to high",
        ),
        (
            GOOD_BAND.replace("0.0044", "-0.0044"),
            5,
            "low: expected 0.00022 to 0.18, got -0.0044",
        ),
        (
            # Per cent of the bore.
            GOOD_BAND.replace("0.0044", "0.44").replace("0.0052", "0.52").replace("0.0048", "0.48"),
            5,
            "low: expected 0.00022 to 0.18, got 0.44",
        ),
        (
            GOOD_BAND + 'unit = "in"',
            9,
            "unit: expected none, as the figures are plain numbers, got 'in'",
        ),
        (PROOF, 1, "unit: expected a unit of stress, got 'none'"),
        (PROOF + 'unit = "thou"', 7, "unit: expected a unit of stress, got 'thou'"),
        (PROOF + 'unit = "psi"', 5, "low: expected 3.26e+03 to 1.41e+06, got 120"),
        (GOOD_BAND.replace("0.0048", '"4.8 thou"'), 7, "factor: expected a number, got '4.8 thou'"),
        (GOOD_BAND.replace("0.0048", "nan"), 7, "factor: expected a number, got nan"),
        (GOOD_BAND.replace("0.0048", "true"), 7, "factor: expected a number, got True"),
        (GOOD_BAND.replace("0.0044", "0.0054"), 5, "low: expected low to be no higher than high"),
        (GOOD_BAND + 'unit = "furlong"', 9, "unit: 'furlong' is not a unit that is known here"),
        (GOOD_BAND + 'unit = "deg F"', 9, "unit: 'deg F' is not a unit that a table can have"),
        (GOOD_BAND.replace("low =", "loww ="), 5,
         "loww: no such key of a band; the nearest is low"),
        (GOOD_BAND.replace('"street"', '"stret"'), 3,
         "use: no use 'stret'; the nearest is street; one of your own needs a [[use]] row"),
        (GOOD_BAND * 2, 9, "a second row for the same conditions in this file"),
        (
            GOOD_BAND.replace("ring =", "rung ="),
            1,
            "table 'ring gap factor' has the conditions ring, use; this row has rung, use",
        ),
        (
            '[[band]]\ntable = "ring gap factor"\nlow = 1\norigin = "o"',
            1,
            "table 'ring gap factor' has the conditions ring, use; this row has none",
        ),
        (SIZED.replace("0.02 mm", "0.02"), 5,
         "low_base: expected a length with its unit, such as \"0.02 mm\", got '0.02'"),
        (SIZED.replace("0.02 mm", "0.02 bar"), 5, "low_base: "),
        (SIZED.replace("0.02 mm", "2.2 mm"), 5, "low_base: expected at most 2 mm, got '2.2 mm'"),
        (GOOD_BAND + 'sizes = ["4 in", "3 in"]', 9,
         "sizes: expected the least before the largest"),
        (GOOD_BAND + 'sizes = ["4 in"]', 9,
         "sizes: expected the least and the largest, got ['4 in']"),
        # 0.0044 of the bore and 0.2 mm, and 0.0052 of the bore, cross below 250 mm.
        (SIZED.replace("0.02 mm", "0.2 mm") + 'sizes = ["75 mm", "120 mm"]', 6,
         "low: expected low to be no higher than high"),
        (PROOF + 'unit = "ksi"\nlow_base = "1 mm"', 8,
         "low_base: stands only with figures per unit of a size, which have no unit"),
        (USE.replace("road race", "rally x"), 4, "like: no use 'rally x'; the nearest is rally"),
        (USE.replace("like", "alike"), 4, "alike: no such key of a use; the nearest is like"),
        (GOOD_MATERIAL.replace("range", "ranges"), 4,
         "ranges: no such key of a material; the nearest is range"),
        (GOOD_MATERIAL + "poisson = 3\n", 8, "poisson: expected 0 to 0.5, got 3"),
        (GOOD_MATERIAL.replace("72e9", "0"), 5,
         "modulus: expected 1e+09 to 1e+12 Pa, got 0"),
        # In GPa, in millionths, in g/cm3: as data sheets print them.
        (GOOD_MATERIAL.replace("72e9", "72.4"), 5,
         "modulus: expected 1e+09 to 1e+12 Pa, got 72.4"),
        (GOOD_MATERIAL.replace("21.4e-6", "21.4"), 3,
         "expansion: expected 1e-07 to 0.0001 1/K, got 21.4"),
        (GOOD_MATERIAL.replace("2680", "2.68"), 6,
         "density: expected 500 to 25000 kg/m3, got 2.68"),
        (GOOD_MATERIAL.replace("density = 2680\n", ""), 1, "density: is missing"),
        (GOOD_MATERIAL * 2, 9, "name: a second row for 'aluminum 356' in this file"),
    ],
)  # fmt: skip
def test_a_bad_row_gives_line_and_reason(tmp_path, text, line, reason):
    got_line, got_reason = fault(tmp_path, text)
    assert got_line == line
    assert got_reason.startswith(reason) if reason.endswith(" ") else got_reason == reason


def test_the_message_reads_file_line_reason(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(GOOD_BAND.replace("0.0048", "'wide'"), encoding="utf-8")
    with pytest.raises(TableError) as raised:
        read_tables(path)
    assert str(raised.value) == f"{path}, line 7: factor: expected a number, got 'wide'"


def test_a_file_that_cannot_be_read(tmp_path):
    missing = tmp_path / "none.toml"
    with pytest.raises(TableError) as raised:
        read_tables(missing)
    assert str(raised.value) == f"{missing}: cannot be read: No such file or directory"
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(TableError, match="line 1: not a UTF-8 text: invalid start byte; save the"):
        read_tables(binary)


def test_a_text_of_another_encoding_is_told_with_its_line(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_bytes(GOOD_MATERIAL.replace("foundry's sheet", "Gießerei").encode("cp1252"))
    with pytest.raises(TableError, match="line 7: not a UTF-8 text"):
        read_tables(path)


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_the_marks_and_line_ends_of_other_editors(tmp_path, mark, ends):
    path = tmp_path / "shop.toml"
    path.write_bytes((mark + GOOD_MATERIAL.replace("\n", ends)).encode())
    assert read_tables(path).materials["aluminum 356"].expansion == 21.4e-6


def test_a_row_that_is_not_there_is_told():
    with pytest.raises(ValueError, match="the table of materials has no 'cheese'"):
        tables.expansion("cheese")
    with pytest.raises(ValueError, match="table 'ring gap factor' has no factor for use 'moon'"):
        tables.factor("ring gap factor", use="moon", ring="top")
    with pytest.raises(ValueError, match="has no such row"):
        tables.row("ring gap factor", use="moon", ring="top")
    assert not tables.has_band("ring gap factor", use="moon", ring="top")
    assert tables.has_band("ring gap factor", use="street", ring="top")


def test_words_of_a_condition_come_in_the_order_of_the_rows():
    uses = tables.words("ring gap factor", "use")
    assert uses[0] == "street"
    assert len(uses) == len(set(uses))
    assert tables.words("no such table", "use") == ()


def test_the_rows_that_a_new_file_shows_can_be_used(tmp_path):
    path = tmp_path / "shop.toml"
    lines = tables_shown._START.splitlines()
    rows = lines.index("# [[band]]")
    path.write_text("\n".join(line.removeprefix("# ") for line in lines[rows:]), encoding="utf-8")
    both = read_tables(path)
    assert both.materials["our block alloy"].density == 2680
    assert len(both.bands) == len(read_tables().bands)
