"""What was saved with the first release means the same today.

The tables in first_release hold what that release gave; nothing here writes them anew.
"""

import json
import math
from pathlib import Path

import pytest
from each_case import each
from kept_books import kept_results

from workbook_tools.books.bench import try_formula
from workbook_tools.catalog import find

KEPT = Path(__file__).with_name("first_release")
CALLS = json.loads((KEPT / "calls.json").read_text("utf-8"))
RESULTS = {tuple(key): said for key, said in json.loads((KEPT / "results.json").read_text("utf-8"))}


def same(kept, now):
    """Whether a value is the kept one: a number to the digits that a machine's arithmetic has."""
    if isinstance(kept, list):
        pairs = isinstance(now, (list, tuple)) and len(kept) == len(now)
        return pairs and all(map(same, kept, now))
    if isinstance(kept, (int, float)) and isinstance(now, (int, float)):
        return math.isclose(kept, now, rel_tol=1e-12, abs_tol=1e-15)
    return kept == now


def test_the_table_has_the_whole_catalog_of_that_release():
    assert len(CALLS) == 141
    assert sum(len(kept["calls"]) for kept in CALLS.values()) > 2000


@each("name", CALLS)
def test_no_parameter_was_moved_or_put_between(name):
    function = find(name)
    assert function is not None, f"{name} is gone; saved books call it"
    kept = CALLS[name]
    names = [p.name for p in function.parameters] + ["units"] * function.takes_units
    assert names[: len(kept["parameters"])] == kept["parameters"]
    assert function.required <= kept["required"]


@each("prefix", ["ENG.", "ENG_"])
@each("name", CALLS)
def test_a_saved_call_gives_what_it_gave(name, prefix):
    changed = []
    for formula, value, unit in CALLS[name]["calls"]:
        result = try_formula(formula.replace("ENG.", prefix))
        if not same(value, result.value) or unit != result.unit:
            changed.append(f"{formula}: was {value} {unit}, is {result.value} {result.unit}")
    assert not changed, "\n".join(changed)


@pytest.fixture(scope="module")
def now():
    return kept_results(KEPT / "books")


@pytest.mark.parametrize("book", sorted({key[0] for key in RESULTS}))
def test_a_kept_book_comes_to_what_it_came_to(now, book):
    changed = []
    for key, (value, unit, state, saved) in RESULTS.items():
        if key[0] != book:
            continue
        got = now.get(key)
        # How a result that stands in no cell is called may change, and what it comes to not.
        told = 4 if key[2] else 2
        if got is None or not same([value, unit, state, saved][:told], got[:told]):
            changed.append(f"{key[1:]}: was {[value, unit, state, saved]}, is {got}")
    assert not changed, "\n".join(changed)


def test_the_results_of_the_clean_kept_books_are_the_same_as_saved(now):
    # The troubled six has its faults on purpose, and books without formulas save no results.
    clean = {key: said for key, said in now.items() if not key[0].startswith(("troubled", "with"))}
    assert len(clean) > 1300
    # What the batch computes of their readings may be in a cell that has the builder's own formula.
    states = {state: [] for state in ("same", "computed")}
    for value, _, state, saved in clean.values():
        states[state].append((value, saved))
    assert len(states["same"]) > 1300
    for value, saved in states["computed"]:
        assert saved is None or value == pytest.approx(saved, abs=1e-9)
