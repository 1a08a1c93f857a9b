"""A refusal tells its code and fields, and its words are made from them."""

import pickle

import pytest
from each_case import each

from workbook_tools import quantities
from workbook_tools.quantities import (
    Refusal,
    RefusalCode,
    UnreadableText,
    read_text,
    system_named,
    unit_named,
)


@each(
    ("text", "kind", "system", "refusal"),
    [
        ("std", quantities.LENGTH, "inch", Refusal(RefusalCode.NOT_ONE_QUANTITY)),
        (
            ".0O25",
            quantities.LENGTH,
            "inch",
            Refusal(RefusalCode.LETTER_AMONG_DIGITS, expected=".0025"),
        ),
        ("1,234.5", quantities.LENGTH, "inch", Refusal(RefusalCode.GROUPED_DIGITS)),
        ("1,234", quantities.LENGTH, "inch", Refusal(RefusalCode.DOUBTFUL_COMMA)),
        ("1" * 101, quantities.LENGTH, "inch", Refusal(RefusalCode.TOO_MANY_DIGITS)),
        ("1e999", quantities.LENGTH, "inch", Refusal(RefusalCode.TOO_LARGE)),
        ("3/0 in", quantities.LENGTH, "inch", Refusal(RefusalCode.ZERO_BELOW_THE_LINE)),
        ("18/20", quantities.LENGTH, "inch", Refusal(RefusalCode.TWO_READINGS)),
        ("3/8", quantities.LENGTH, "metric", Refusal(RefusalCode.BARE_FRACTION)),
        ("3 tenths", quantities.LENGTH, "metric", Refusal(RefusalCode.DOUBTFUL_TENTH)),
        ("3 over", quantities.LENGTH, "inch", Refusal(RefusalCode.UNKNOWN_UNIT, got="over")),
        (
            "8 cc",
            quantities.COUNT,
            "inch",
            Refusal(RefusalCode.TAKES_NO_UNIT, expected="count"),
        ),
        (
            "63 cc",
            quantities.LENGTH,
            "inch",
            Refusal(RefusalCode.OTHER_KIND, expected="length", got="cc"),
        ),
        ("3 lb", quantities.READING, "inch", Refusal(RefusalCode.UNKNOWN_UNIT, got="lb")),
        ("300 K", quantities.READING, "inch", Refusal(RefusalCode.NO_READING_UNIT, got="K")),
    ],
)
def test_each_reason_has_its_code(text, kind, system, refusal):
    with pytest.raises(UnreadableText) as raised:
        read_text(text, kind, system)
    assert raised.value.refusal == refusal
    assert str(raised.value) == refusal.words


def test_a_table_and_a_choice_of_system_have_codes_of_their_own():
    with pytest.raises(UnreadableText) as raised:
        unit_named("deg F")
    assert raised.value.refusal == Refusal(RefusalCode.NO_TABLE_UNIT, got="deg F")
    with pytest.raises(UnreadableText) as raised:
        system_named("imperial")
    assert raised.value.refusal == Refusal(RefusalCode.NO_UNIT_SYSTEM, got="imperial")


@each("code", RefusalCode)
def test_every_code_has_words_and_they_name_its_fields(code):
    words = Refusal(code, expected="length", got="{odd}").words
    assert words
    assert "{expected}" not in words
    assert "{got" not in words


def test_the_error_goes_from_one_process_to_another():
    error = UnreadableText(Refusal(RefusalCode.UNKNOWN_UNIT, got="over"))
    assert pickle.loads(pickle.dumps(error)).refusal == error.refusal
