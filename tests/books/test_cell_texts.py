"""The words that name nothing measured: each list, in the languages of the trade's other words."""

import re

import pytest

from workbook_tools.labels.cell_texts import either_of, lists_from, words_of


def test_words_of_all_languages_are_one_list():
    assert {"so", "macht", "donc", "entonces", "quindi"} <= words_of("results")


@pytest.mark.parametrize(
    ("text", "said"),
    [("[a]\nnl = ['nee']", "unknown languages"), ("[a]\nen = ['N/A']", "lower case")],
)
def test_a_list_that_cannot_be_used_is_refused(text, said):
    with pytest.raises(ValueError, match=said):
        lists_from(text)


def test_the_longest_of_several_words_is_found():
    assert re.match(either_of("piston_below"), "in the hole")[0] == "in the hole"
    assert re.match(either_of("crown_takes"), "domed")[0] == "domed"
    assert not re.match(either_of("piston_above"), "outer")
