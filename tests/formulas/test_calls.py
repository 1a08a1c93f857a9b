"""Every spelling of a call that a file can hold is found, and nothing else."""

import pytest

from workbook_tools.formulas.call_names import bare_name, mentions_call
from workbook_tools.formulas.calls import calls_in, parse
from workbook_tools.formulas.tokens import tokens_of


@pytest.mark.parametrize(
    "spelled",
    [
        "ENG.QUENCH",
        "ENG_QUENCH",
        "eng.quench",
        "Eng_Quench",
        "@ENG.QUENCH",
        "[1]!ENG_QUENCH",
        r"'C:\books\shop.xlam'!ENG_QUENCH",
        "shop.xlam!ENG_QUENCH",
        "_xldudf_ENG_QUENCH",
        "_xludf.ENG.QUENCH",
        "_xll.ENG.QUENCH",
        "_xlfn.ENG.QUENCH",
        "shop.xlam!_xldudf_ENG_QUENCH",
    ],
)
def test_spellings_are_one_function(spelled):
    assert bare_name(spelled) == "QUENCH"
    (part,) = parse(f"{spelled}(B7,B9)")
    assert part.call.name == "QUENCH"
    assert [a[0].text for a in part.call.arguments] == ["B7", "B9"]


@pytest.mark.parametrize(
    "formula",
    [
        "QUENCH(B7)",
        "SUM(ENG.TABLE)",
        "STRENG.QUENCH(1)",
        '"ENG.QUENCH(1,2)"',
        'A1&"ENG_X("',
        "ENG1",
    ],
)
def test_other_text_is_no_call(formula):
    assert list(calls_in(parse(formula))) == []


def test_nested_calls_come_after_their_outer_one():
    parts = parse('IF(A1>0,ROUND(ENG.QUENCH (B7,ENG_DECK_CLEARANCE(1,2,3,4)*2),4),"none")')
    assert [call.name for call in calls_in(parts)] == ["QUENCH", "DECK_CLEARANCE"]


def test_left_out_argument_and_text_with_a_comma():
    (part,) = parse('ENG.QUENCH(1,,"a,b")')
    assert [[p.text for p in a] for a in part.call.arguments] == [["1"], [], ['"a,b"']]


def test_array_constants_and_sheet_names_stay_whole():
    (part,) = parse("ENG.MEAN_READING({1,2;3,4},'Left, bank'!A1)")
    assert [a[0].text for a in part.call.arguments] == ["{1,2;3,4}", "'Left, bank'!A1"]


def test_absurd_nesting_is_refused_not_crashed():
    with pytest.raises(ValueError, match="too deeply"):
        parse("ENG.QUENCH(" * 3000 + "1" + ")" * 3000)


def test_unclosed_call_is_refused():
    with pytest.raises(ValueError, match="not closed"):
        parse("ENG.QUENCH(1,2")


def test_quick_look():
    assert mentions_call("ROUND(eng_quench (1),2)")
    assert not mentions_call("ENG.QUENCH")


@pytest.mark.parametrize(
    ("formula", "meant"),
    [
        ("LET(d,B2,ENG.QUENCH(d,B3))", "ENG.QUENCH(B2,B3)"),
        ("_xlfn.LET(_xlpm.d,B2,ENG.QUENCH(_xlpm.d,B3))", "ENG.QUENCH(B2,B3)"),
        (
            "2*LET(d,B2-C2,e,d*2,e+ENG.QUENCH(d,e))",
            "2*(((B2-C2)*2)+ENG.QUENCH((B2-C2),((B2-C2)*2)))",
        ),
        ("LET(q,ENG.QUENCH(B2,B3),IF(q>1,q,0))", "IF(ENG.QUENCH(B2,B3)>1,ENG.QUENCH(B2,B3),0)"),
        ("LET(a,LET(b,B2,b+1),a)", "(B2+1)"),
        ('LET(d, B2 ,"d"&d)', '("d"&B2)'),
        ("LET(d,{1,2},SUM(d))", "SUM({1,2})"),
        ("LET(d,B2)", "LET(d,B2)"),
        ("LET(d,B2,e,d)", "LET(d,B2,e,d)"),
        ("LET(ENG.QUENCH(1,2),B2,3)", "LET(ENG.QUENCH(1,2),B2,3)"),
    ],
)
def test_names_of_let_are_put_back_as_what_they_stand_for(formula, meant):
    assert "".join(token.value for token in tokens_of(formula)) == meant


def test_a_let_that_doubles_with_each_name_is_left_as_it_stands():
    names = ",".join(f"n{i},n{i - 1}+n{i - 1}" for i in range(1, 40))
    formula = f"LET(n0,B1,{names},n39)"
    assert "".join(token.value for token in tokens_of(formula)) == formula
