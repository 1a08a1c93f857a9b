"""What a function's Python means as a formula, and what of it has none."""

import functools
import inspect
import math

import ironcalc
import pytest
from each_case import each
from openpyxl import Workbook
from openpyxl.workbook.defined_name import DefinedName
from portable_text import names_declared

from workbook_tools.catalog import find, tables
from workbook_tools.catalog.errors import require
from workbook_tools.hosts.portable import definition
from workbook_tools.hosts.portable.compiler import Body
from workbook_tools.hosts.portable.terms import (
    Definition,
    NotPortable,
    Term,
    function_text,
    let,
)


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
