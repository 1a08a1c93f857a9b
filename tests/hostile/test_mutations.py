"""Good books changed at random: each is read or refused in one line, never a crash or a hang.

BOOK_MUTATIONS sets how many of each book at length (20000 for a night); the first of them are
always the same, and are those of the short run.
"""

import hashlib
import os
import random
import re
from pathlib import Path

import pytest
from craft import archive, good_book, good_ods, parts, reader, result_of, strict_book

from workbook_tools.batch.build import Task

EXAMPLES = Path(__file__).parents[2] / "example_books"
# Of each book.
COUNTS = [30, pytest.param(int(os.environ.get("BOOK_MUTATIONS", "800")), marks=pytest.mark.slow)]
SECONDS = 20
ODD = [
    b"", b"0", b"-1", b"1e999", b"1e307", b"-1e300", b"1e-320", b"NaN", b"99999999999999999999",
    b"A1:XFD1048576", b"#REF!",
    b"&#0;", b"&amp;", b"<", b"]]>", b"\xff\xfe", b"\xc3", b"s", b"str", b"e", b"d", b"true",
    b"rId1", b"../../x", b"ENG.QUENCH(", b"ENG.QUENCH(1,1)", b"{1,2;3}", b"A" * 3000, b"'", b'"',
]  # fmt: skip


def mutated(pick, book):
    """One good book changed: bytes of the archive, or something in one of its parts."""
    if pick.random() < 0.1:
        return _bytes(pick, book)
    named = parts(book)
    for _ in range(pick.choice([1, 1, 1, 2, 3])):
        name = pick.choice(list(named))
        change = pick.choice([_bytes, _value, _value, _value, _value, _element, _swap])
        named[name] = change(pick, named[name])
        if pick.random() < 0.05:
            del named[name]
    return archive(named)


def _bytes(pick, content):
    made = bytearray(content)
    for _ in range(pick.randint(1, 8)):
        if not made:
            break
        at = pick.randrange(len(made))
        way = pick.random()
        if way < 0.5:
            made[at] = pick.randrange(256)
        elif way < 0.7:
            del made[at : at + pick.randint(1, 40)]
        elif way < 0.9:
            made[at:at] = made[at : at + pick.randint(1, 60)]
        else:
            del made[at:]
    return bytes(made)


def _spots(content, pattern):
    return [m.span(1) for m in re.finditer(pattern, content)]


def _value(pick, content):
    """Another attribute value or text."""
    spots = _spots(content, rb'"([^"<>]*)"') + _spots(content, rb">([^<>]+)<")
    if not spots:
        return _bytes(pick, content)
    start, end = pick.choice(spots)
    return content[:start] + pick.choice(ODD) + content[end:]


def _element(pick, content):
    """A tag taken out, doubled, or moved."""
    spots = _spots(content, rb"(<[^<>]*>)")
    if not spots:
        return _bytes(pick, content)
    start, end = pick.choice(spots)
    at = pick.choice(spots)[pick.randrange(2)]
    tag, way = content[start:end], pick.random()
    if way < 0.4:
        return content[:start] + content[end:]
    return (
        content[:at] + tag + content[at:] if way < 0.8 else content[:at] + tag * 50 + content[at:]
    )


def _swap(pick, content):
    """Two values exchanged."""
    spots = (
        sorted(pick.sample(found, 2)) if len(found := _spots(content, rb'"([^"<>]*)"')) > 1 else []
    )
    if not spots:
        return content
    (a, b), (c, d) = spots
    return content[:a] + content[c:d] + content[b:c] + content[a:b] + content[d:]


@pytest.fixture(scope="module")
def worker():
    made = reader(seconds=SECONDS)
    yield made
    made.stop()


BOOKS = {
    "small.xlsx": good_book,
    "strict.xlsx": strict_book,
    "opendocument.ods": good_ods,
    "several_sheets.xlsx": (EXAMPLES / "flat_twin.xlsx").read_bytes,
    "without_formulas.xlsx": (EXAMPLES / "without_formulas" / "old_inch_v8.xlsx").read_bytes,
}


@pytest.mark.parametrize("name", BOOKS)
@pytest.mark.parametrize("count", COUNTS)
def test_changed_books_are_read_or_refused_in_a_line_and_left_alone(worker, tmp_path, name, count):
    pick = random.Random(f"{name} 20261031")
    book, read, refused = BOOKS[name](), 0, 0
    path = tmp_path / name
    for number in range(count):
        content = mutated(pick, book)
        path.write_bytes(content)
        before = path.stat()
        result = result_of(worker, Task(path, hashlib.sha256(content).hexdigest()))
        after = path.stat()
        assert path.read_bytes() == content
        assert (after.st_mtime_ns, after.st_size) == (before.st_mtime_ns, before.st_size)
        if result.refused:
            refused += 1
            for bad in ("could not be summarized", "broke down", "took longer", "was ended"):
                assert bad not in result.refused, f"mutation {number}: {result.refused}"
            assert "\n" not in result.refused
        else:
            read += 1
    # Changes that nothing notices, or that everything does, would test nothing.
    assert read > count / 10
    assert refused > count / 10
