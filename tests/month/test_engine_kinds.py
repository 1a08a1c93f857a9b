"""Which engines are of one kind: as the shop says, else by layout and size."""

import pytest

from workbook_tools.month.engine_kinds import NOT_TOLD, Engine, engine_kinds, layout

LITER, CUBIC_INCH = 1e-3, 0.0254**3


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("inch V8, iron block, 4.05 bore", "V8"),
        ("Big V-8", "V8"),
        ("metric inline four, 2.0 L", "inline four"),
        ("2.0 L four", "4-cylinder"),
        ("R6 Diesel", "inline six"),
        ("Reihenvierzylinder", "inline four"),
        ("quatre cylindres en ligne", "inline four"),
        ("6 cilindri in linea", "inline six"),
        ("4-Zylinder-Boxer", "flat four"),
        ("flat twin (air cooled)", "flat twin"),
        ("parallel twin 640 cc", "twin"),
        ("single", "single"),
        ("334 iron block", ""),
        ("", ""),
    ],
)
def test_a_layout_is_read_from_what_the_engine_is_called(text, told):
    assert layout(text) == told


def kinds(*engines, named=None, units="inch"):
    return engine_kinds(engines, named or {}, units)


def test_an_overbore_is_of_the_same_kind_and_a_longer_stroke_is_not():
    sizes = (334, 339, 367, 344)
    told = kinds(*(Engine("", "iron V8", size * CUBIC_INCH, 8) for size in sizes))
    same = "V8, 334 to 344 cu in"
    assert told == [same, same, "V8, 367 cu in", same]


def test_sizes_are_told_in_the_units_of_the_shop():
    four = Engine("", "inline four", 1.998 * LITER, 4)
    moped = Engine("", "single 49 cc", None, 1)
    assert kinds(four, moped, units="metric") == ["inline four, 2.0 L", "single, 0.05 L"]
    assert kinds(moped) == ["single, 3.0 cu in"]


def test_the_book_comes_before_the_shop_and_the_shop_before_the_size():
    named = {"Street V8": ["iron block"]}
    told = kinds(
        Engine("Marine", "iron block V8", 5.5 * LITER, 8),
        Engine("", "Iron  Block, 334", 5.5 * LITER, 8),
        Engine("marine", "x", None, 0),
        named=named,
    )
    assert told == ["Marine", "Street V8", "Marine"]


def test_what_a_book_does_not_say_is_not_made_up():
    assert kinds(Engine("", "", None, 0)) == [NOT_TOLD]
    assert kinds(Engine("", "", None, 6)) == ["6-cylinder, size not told"]
    assert kinds(Engine("", "V8, iron", None, 8)) == ["V8, size not told"]
    # What stands before a comma is no kind.
    assert kinds(Engine("", "blue one, V8 5.5 l", None, 0)) == ["V8, 336 cu in"]
