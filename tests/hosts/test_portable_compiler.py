"""The formula text itself: what Excel wants of it, and what the compiler makes of Python."""

import functools
import inspect
import math
import re
from importlib.metadata import version

import ironcalc
import pytest
from each_case import each
from examples import example
from openpyxl import Workbook
from openpyxl.workbook.defined_name import DefinedName

from workbook_tools import quantities
from workbook_tools.catalog import ArgumentError, calculate, entries, find, tables
from workbook_tools.catalog.errors import require
from workbook_tools.hosts.portable import comment, definition, portability
from workbook_tools.hosts.portable.compiler import Body
from workbook_tools.hosts.portable.terms import (
    Definition,
    NotPortable,
    Term,
    function_text,
    let,
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


def without_texts(text):
    return re.sub(r'"(?:[^"]|"")*"', '""', text)


def arguments_of(text, function):
    """The arguments of every call of a function, each as text."""
    for call in re.finditer(re.escape(function) + r"\(", text):
        level, start, found = 0, call.end(), []
        for at in range(call.end(), len(text)):
            if level == 0 and text[at] in ",)":
                found.append(text[start:at])
                start = at + 1
            if level == 0 and text[at] == ")":
                break
            level += {"(": 1, ")": -1, "{": 1, "}": -1}.get(text[at], 0)
        yield found


def names_declared(text):
    """The names that a text declares, as parameters and as LET bindings."""
    for arguments in arguments_of(text, "_xlfn.LAMBDA"):
        yield from (re.fullmatch(r"_xl[op][mp]\.(\w+)", a)[1] for a in arguments[:-1])
    for arguments in arguments_of(text, "_xlfn.LET"):
        yield from (re.fullmatch(r"_xlpm\.(\w+)", a)[1] for a in arguments[:-1:2])


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
        "_xlpm.answer,_xlpm.deck_clearance_si+_xlpm.gasket_thickness_si,"
        "IF((_xlpm.deck_clearance_si>=-0.018)*(_xlpm.deck_clearance_si<=0.036)"
        "*(_xlpm.gasket_thickness_si>0)*(_xlpm.gasket_thickness_si>=3.333E-05)"
        "*(_xlpm.gasket_thickness_si<=0.024)*(ABS(_xlpm.answer)<=0.036),"
        "_xlpm.answer/_xlpm.length_unit,#VALUE!)))"
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


def compiled(python, **words):
    definition = Definition()
    names = list(inspect.signature(python).parameters)
    terms = {n: Term(definition.fresh(n), words=words.get(n, ())) for n in names}
    body = Body(definition, python, terms)
    return function_text([t.text for t in terms.values()], let(definition.bindings, body.text()))


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    """run(python, arguments): what the engine makes of the compiled function."""
    folder = tmp_path_factory.mktemp("compiled")

    def calculate(python, *arguments, **words):
        book = Workbook()
        name = DefinedName("ENG.X", attr_text=compiled(python, **words))
        book.defined_names["ENG.X"] = name
        book.save(folder / "book.xlsx")
        model = ironcalc.load_from_xlsx(str(folder / "book.xlsx"), "en", "UTC", "en")
        texts = [f'"{a}"' if isinstance(a, str) else repr(a) for a in arguments]
        model.update_cell_with_formula(0, 1, 1, f"=ENG.X({','.join(texts)})")
        model.evaluate()
        return model.get_cell_value(0, 1, 1)

    return calculate


STANDARD = 9.80665


def _signs(x, y):
    return -(x**2) + (-x) ** 2 * 2 - -x


def _powers(x, y):
    return x**y**2 / (x**y) ** 0.5


def _order(x, y):
    return x - (y - x) - (x + (y + 1)) / (x / (y / x)) * (x * (y * 3))


def _rest(x, y):
    return x % y + x // y + y % -x + math.floor(-x) + math.ceil(x / 3)


def _angles(x, y):
    return math.atan2(x, y) + math.atan2(x, -y) * 2


def _bounds(x, y):
    return min(x, y, x * y) + 10 * max(x + y, 2.5) + 100 * max((x, y)) + 1000 * sum((x, y, 1))


def _long_bounds(x, y):
    return max(x * 2 + y * 3 - x * y * 7, y * 2 + x * 3 - x / y / 7 + x * y)


def _tests(x, y):
    return 1 if 0 < x <= y < 100 and not (x == y or y != y) else 2 if x > y else 3


def _inside(x, y):
    return (1 if x in (1.0, 2.0, 3.0) else 2) + (10 if y not in (1.0, 2.0) else 20)


def _again(x, y):
    first = x + y
    first = first * 2
    First, last = first + 1, y
    return First - last


def _cells(x, y):
    r, c, a1, rod1, true, pi = x, y, x * y, x + y, x - y, x / y
    R = r + c + a1
    return R + rod1 * true * pi


def _constants(x, y):
    return x * STANDARD + y * math.pi + math.tau


def _hyperbolic(x, y):
    return math.sinh(x) + math.cosh(y) - math.tanh(x) + math.exp(-x) + math.log(y) + math.log10(x)


def _share(x, part=0.5):
    require(x > 0, "x", "above 0")
    return x * part


def _calls(x, y):
    whole = _share(x)
    return whole + _share(y, part=0.25) + _share(x=y, part=x)


ARITHMETIC = [
    _signs, _powers, _order, _rest, _angles, _bounds, _long_bounds, _tests, _inside, _again,
    _cells, _constants, _hyperbolic, _calls,
]  # fmt: skip


@each("python", ARITHMETIC)
@each(("x", "y"), [(2.0, 3.0), (3.0, 2.0), (0.7, 0.7), (2.0, 2.0), (1.1, 17.0)])
def test_arithmetic_is_what_python_means(run, python, x, y):
    assert run(python, x, y) == pytest.approx(python(x, y), rel=1e-14)


def test_a_requirement_of_a_called_function_is_an_error(run):
    assert run(_calls, -1.0, 2.0) == "#VALUE!"
    assert run(_calls, 1.0, -2.0) == "#VALUE!"


def _by_word(x, material):
    return x * tables.expansion(material) + tables.expansion("gray iron")


def test_a_table_is_a_look_up(run):
    words = ("aluminum", "steel")
    for word in words:
        got = run(_by_word, 2.0, word, material=words)
        assert got == pytest.approx(_by_word(2.0, word), rel=1e-14)
    assert run(_by_word, 2.0, "pewter", material=words) == "#VALUE!"


def test_one_table_is_written_once():
    text = definition(find("HOT_PISTON_CLEARANCE"))
    assert text.count('="alloy steel"') == 1


def test_a_word_that_no_row_has_is_an_error(run):
    got = run(_by_word, 2.0, "steel", material=("steel", "unobtainable"))
    assert isinstance(got, float)
    assert run(_by_word, 2.0, "unobtainable", material=("steel", "unobtainable")) == "#VALUE!"


def test_an_optional_argument_without_default():
    def of(x, y=None):
        return x if y is None else x + y

    given = Definition()
    raw = {
        "x": Term(given.fresh("x")),
        "y": Term(given.fresh("y"), omitted="_xlfn.ISOMITTED(_xlpm.y)"),
    }
    text = Body(given, of, raw).text()
    assert text == "IF(_xlfn.ISOMITTED(_xlpm.y),_xlpm.x,_xlpm.x+_xlpm.y)"


def test_a_name_is_used_once_whatever_its_case():
    names = sorted(name.upper() for name in names_declared(compiled(_cells)))
    assert names == ["A1_", "C_", "PI_", "ROD1_", "R_", "R_2", "TRUE_", "X", "Y"]


# What has no formula.


def _loops(x):
    for _ in range(3):
        x = x / 2
    return x


def _searches(x):
    while x > 1:
        x = x / 2
    return x


def _listing(x):
    return sum([x * i for i in range(3)])


def _itself(x):
    return 1.0 if x < 1 else _itself(x - 1)


def _texts(text):
    return text.strip()


def _free_word(x, material):
    return x * tables.expansion(material)


def _several(x):
    return ((x, 1.0),)


def _uses_several(x):
    return _several(x)


def _branches(x):
    if x > 1:
        return 1.0
    return x


def _unknown(x):
    return unknown(x)  # noqa: F821


def _built_in(x):
    return sorted((x, 1.0))


@functools.cache
def _kept(x):
    return x * 2


def _uses_kept(x):
    return _kept(x)


@pytest.mark.parametrize(
    ("python", "reason"),
    [
        (_loops, "step by step"),
        (_searches, "until it has the result"),
        (_listing, "step by step"),
        (_itself, "calls itself"),
        (_texts, "takes a text apart"),
        (_free_word, "can be any text"),
        (_uses_several, "several values"),
        (_branches, "which has no worksheet formula"),
        (_unknown, "which has no worksheet formula"),
        (_built_in, "which has no worksheet formula"),
    ],
    ids=lambda p: getattr(p, "__name__", ""),
)
def test_what_has_no_formula_says_why(python, reason):
    with pytest.raises(NotPortable, match=reason):
        compiled(python)


def test_a_cached_function_is_read_through(run):
    assert run(_uses_kept, 3.0) == 6.0
