"""The formula text itself: what Excel wants of it, and what the compiler makes of Python."""

import math
import re
from importlib.metadata import version

import ironcalc
import pytest
from each_case import each
from examples import example
from portable_text import names_declared, without_texts

from workbook_tools import quantities
from workbook_tools.catalog import ArgumentError, calculate, entries, find
from workbook_tools.hosts.portable import comment, definition, portability
from workbook_tools.hosts.portable.terms import (
    NotPortable,
    literal,
)

PORTABLE = [f for f in entries() if not portability()[f.name]]
of_each_function = each("function", PORTABLE)

# Microsoft, [MS-XLSX] 2.2.2 (Formulas), future-function-list: functions that a file names
# with a prefix. From memory; all others used here are of Excel 2007 and older.
FUTURE = {"LAMBDA", "LET", "ISOMITTED", "HSTACK", "VSTACK", "TOROW", "BYROW", "BYCOL", "MAP"}
OLD = re.findall(
    r"\w+",
    """
    ABS ACOS ASIN ATAN ATAN2 AVERAGE CHOOSE COLUMNS COS COSH EXP FIND IF INT LN LOG10 LOWER MAX MIN
    MOD PI ROWS SIN SINH SQRT SUM TAN TANH TRIM
    """,
)


def test_nine_of_ten_functions_are_portable():
    assert len(PORTABLE) >= 0.9 * len(portability())


@of_each_function
def test_it_is_within_excels_limits(function):
    text = definition(function)
    # Microsoft, Excel specifications and limits: 8,192 characters, 64 levels, 255 arguments.
    assert len(text) <= 8000
    assert "\n" not in text
    level = deepest = 0
    for letter in without_texts(text):
        level += {"(": 1, ")": -1}.get(letter, 0)
        deepest = max(deepest, level)
    assert level == 0
    assert deepest <= 64
    # Microsoft, "Text values in formulas are limited to 255 characters".
    assert max(len(t) for t in re.findall(r'"((?:[^"]|"")*)"', text)) <= 255
    # ECMA-376 comment of a defined name; with 256 characters Excel does not open the file.
    assert len(comment(function)) <= 255
    assert comment(function).endswith(f" [workbook-tools {version('workbook-tools')}]")


@of_each_function
def test_functions_carry_the_prefix_that_a_file_wants(function):
    called = re.findall(r"([\w.]+)\(", without_texts(definition(function)))
    for name in called:
        prefix, _, bare = name.rpartition(".")
        assert (
            (prefix == "_xlfn" and bare in FUTURE)
            or (prefix == "_xlpm" and bare.startswith("f_"))
            or (not prefix and bare in OLD)
        ), name


@of_each_function
def test_names_are_declared_once_and_are_no_cells(function):
    text = without_texts(definition(function))
    declared = [name.upper() for name in names_declared(text)]
    assert len(declared) == len(set(declared))
    assert {name.upper() for name in re.findall(r"_xlpm\.(\w+)", text)} <= set(declared)
    for name in declared:
        # ECMA-376 Part 1, 18.17.2.5: a name may not read as a reference in A1 or R1C1 style.
        assert not re.fullmatch(r"[A-Z]{1,3}\d+|R\d*(C\d*)?|C\d*", name), name
        assert "." not in name


@of_each_function
def test_the_arguments_are_those_of_the_function(function):
    declared = re.match(r"_xlfn\.LAMBDA\(((?:_xl[op][mp]\.\w+,)+)", definition(function))[1]
    names = [p.name for p in function.parameters] + ["units"] * function.takes_units
    optional = [p.optional for p in function.parameters] + [True] * function.takes_units
    expected = [f"_xl{'op' if o else 'pm'}.{n}" for n, o in zip(names, optional, strict=True)]
    assert declared.rstrip(",").split(",")[: len(names)] == expected


@of_each_function
def test_a_place_left_empty_between_commas_never_counts_as_zero(function):
    # Excel takes it for an omitted argument, which arithmetic may count as 0.
    text = definition(function)
    for system in quantities.SYSTEMS:
        given = example(function.name, system)
        for i, parameter in enumerate(function.parameters):
            if parameter.optional or parameter.kind is quantities.TEXT:
                continue
            zero = ((0.0, *given[i][0][1:]),) if parameter.block else 0.0
            try:
                calculate(function, [*given[:i], zero, *given[i + 1 :]])
            except ArgumentError as error:
                if error.parameter == parameter.name:
                    continue
            assert f"IF(_xlfn.ISOMITTED(_xlpm.{parameter.name}),#VALUE!," in text, parameter.name


def test_the_whole_text_of_a_short_one():
    metric = (
        'IF(_xlfn.ISOMITTED(_xlpm.units),0,IF(TRIM(_xlpm.units)="metric",1,'
        'IF(TRIM(_xlpm.units)="inch",0,#VALUE!)))'
    )
    assert definition(find("QUENCH")) == (
        "_xlfn.LAMBDA(_xlpm.deck_clearance,_xlpm.gasket_thickness,_xlop.units,_xlfn.LET("
        f'_xlpm.made_by,"workbook-tools {version("workbook-tools")}",_xlpm.metric,{metric},'
        "_xlpm.length_unit,IF(_xlpm.metric,0.001,0.0254),"
        "_xlpm.deck_clearance_si,IF(_xlfn.ISOMITTED(_xlpm.deck_clearance),#VALUE!,"
        'IF(_xlpm.deck_clearance<"",_xlpm.deck_clearance*_xlpm.length_unit,#VALUE!)),'
        '_xlpm.gasket_thickness_si,IF(_xlpm.gasket_thickness<"",'
        "_xlpm.gasket_thickness*_xlpm.length_unit,#VALUE!),"
        "_xlpm.f_ended,_xlfn.LAMBDA(_xlpm.number,_xlfn.LET("
        "_xlpm.step,10^(11-INT(LOG10(ABS(_xlpm.number)+(_xlpm.number=0)))),"
        "_xlpm.short,INT(_xlpm.number*_xlpm.step+0.5)/_xlpm.step,"
        "IF(_xlpm.short=INT(_xlpm.number*_xlpm.step/1000+0.5)/(_xlpm.step/1000),"
        "_xlpm.short,_xlpm.number))),"
        "_xlpm.answer,_xlpm.deck_clearance_si+_xlpm.gasket_thickness_si,"
        "IF((_xlpm.deck_clearance_si>=-0.018)*(_xlpm.deck_clearance_si<=0.036)"
        "*(_xlpm.gasket_thickness_si>0)*(_xlpm.gasket_thickness_si>=3.333E-05)"
        "*(_xlpm.gasket_thickness_si<=0.024)*(ABS(_xlpm.answer)<=0.036),"
        "_xlpm.f_ended(_xlpm.answer/_xlpm.length_unit),#VALUE!)))"
    )


def test_the_reasons_are_in_words():
    for name, reason in portability().items():
        if reason:
            assert re.match(r"(it|its) ", reason), name
            assert "'" not in reason, f"{name}: {reason}"


# Constants.


@each(
    ("value", "text"),
    [
        (2, "2"),
        (2.0, "2"),
        (-0.5, "-0.5"),
        (21.5e-6, "2.15E-05"),
        (1e22, "1E+22"),
        (4.4482216152605, "4.4482216152605"),
        (math.pi, "(PI())"),
        (-4 * math.pi, "(-4*PI())"),
        (math.pi / 180, "(PI()/180)"),
        (5 / 9, "(5/9)"),
        (0.1 + 0.2, "(0.3+6E-17)"),
        (-(0.1 + 0.2), "(-0.3-6E-17)"),
        (True, "TRUE"),
        ('7/16" "fine"', '"7/16"" ""fine"""'),
    ],
)
def test_constants(value, text):
    assert literal(value).text == text


@each("kind", [k for k in quantities.KINDS.values() if k.si])
@each("system", quantities.SYSTEMS)
def test_unit_factors_are_exact_with_fifteen_digits(kind, system):
    # Microsoft, Excel specifications and limits: number precision 15 digits.
    for value in quantities.scale(kind, system):
        text = literal(value).text
        for number in re.findall(r"[\d.]+(?:E[+-]?\d+)?", text):
            assert len(re.sub(r"E.*|\.", "", number).strip("0")) <= 15
        assert eval(text.replace("PI()", "math.pi")) == value


def test_a_text_too_long_for_one_literal_is_joined():
    # Microsoft, "Text values in formulas are limited to 255 characters".
    long = "  ".join(f'alloy "{i}" of the shop' for i in range(40))
    text = literal(long).text
    assert max(len(t.replace('""', '"')) for t in re.findall(r'"((?:[^"]|"")*)"', text)) == 255
    model = ironcalc.create("book", "en", "UTC", "en")
    model.update_cell_with_formula(0, 1, 1, f"={text}=A2")
    model.update_cell_with_text(0, 2, 1, long)
    model.evaluate()
    assert model.get_cell_value(0, 1, 1) is True


def test_what_no_cell_holds_is_refused():
    with pytest.raises(NotPortable, match="inf"):
        literal(math.inf)


# The compiler, on Python that the catalog may hold. `text` is never run, only read.


# What has no formula.
