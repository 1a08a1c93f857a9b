"""What a check rests on is declared, refused where it names too little, and told in the manual."""

import itertools
import math
import re
import subprocess
import sys
from pathlib import Path

import pytest
from sources import (
    ARITHMETIC,
    DATA,
    INDEPENDENT,
    MEMORY,
    PRACTICE,
    PRINTED,
    arithmetic,
    from_memory,
    independent,
    open_data,
    practice,
    printed,
    tally,
)

from workbook_tools.catalog import calculate

ROOT = Path(__file__).parents[1]


def test_each_class_says_what_it_is():
    made = {
        PRINTED: printed("A Book of Engines, 3e", "Example 4-2, p. 17"),
        DATA: open_data("A data set", "CC BY 4.0"),
        INDEPENDENT: independent("every pair tried", itertools.combinations),
        MEMORY: from_memory("ISO 1"),
        PRACTICE: practice(memory=True),
        ARITHMETIC: arithmetic(),
    }
    assert all(kind == source.kind for kind, source in made.items())
    assert "from memory" in made[MEMORY].text
    assert "from memory" in made[PRACTICE].text
    assert "combinations" in made[INDEPENDENT].text


@pytest.mark.parametrize(
    ("work", "place"),
    [("", "p. 4"), ("A Book", ""), ("A Book", "somewhere"), ("A Book (from memory)", "p. 4")],
)
def test_a_printed_value_names_work_and_place(work, place):
    with pytest.raises(ValueError, match=r"expected a work|not a printed value"):
        printed(work, place)


@pytest.mark.parametrize("by", [(), (calculate,), (math.sqrt,)])
def test_an_independent_method_names_a_library_s_function_and_none_of_ours(by):
    with pytest.raises(ValueError, match=r"expected the library|is ours|another way"):
        independent("by hand", *by)


def test_open_data_names_its_license():
    with pytest.raises(ValueError, match="license"):
        open_data("A data set", "")


def test_a_function_counts_by_its_best_class():
    checks = [("A", ARITHMETIC), ("A", PRINTED), ("B", PRACTICE), ("B", MEMORY), ("A", MEMORY)]
    lines = [" ".join(line.split()) for line in tally(checks, ["A", "B", "C"])]
    assert "printed value 1 1" in lines
    assert "from memory 2 1" in lines
    assert "own arithmetic 1 0" in lines
    assert "no check 0 1" in lines
    assert "1 of 3 functions" in " ".join(lines)
    assert lines[-2:] == ["B from memory", "C no check"]


@pytest.mark.slow
def test_the_manual_names_what_has_no_outside_check():
    run = subprocess.run(
        [sys.executable, "-m", "pytest", "tests/published", "--sources", "-q", "-n", "0"],
        capture_output=True, text=True, check=True, cwd=ROOT,
    )  # fmt: skip
    _, _, table = run.stdout.partition("what the functions rest on")
    outside, every = map(int, re.search(r"(\d+) of (\d+) functions", table).groups())
    rest = re.findall(r"^  ([A-Z_]+) ", table, re.MULTILINE)
    assert outside + len(rest) == every
    assert outside >= 120
    assert "no check\n" not in table.partition("The others")[2]
    chapter = (ROOT / "workbook_tools" / "manual" / "sources.md").read_text("utf-8")
    said = chapter.partition("no outside check -->")[2].partition("<!--")[0]
    assert re.findall(r"`([A-Z_]+)`", said) == rest
    lead = chapter.partition("have no such check")[2].partition("<!--")[0]
    ours = re.findall(rf"^  ([A-Z_]+) +{ARITHMETIC}$", table, re.MULTILINE)
    assert re.findall(r"`([A-Z_]+)`", lead) == ours
