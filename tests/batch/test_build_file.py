"""Brief builds on disk: those that were put there last, in the order of their files."""

from dataclasses import replace

import pytest
from sample import inch_v8, metric_four

from workbook_tools.batch import build_file
from workbook_tools.batch.build import build_of
from workbook_tools.batch.build_file import BuildFile, Builds
from workbook_tools.findings import check
from workbook_tools.settings.shop import Shop


@pytest.fixture(params=[0, 8_000_000], ids=["on disk", "in memory"])
def kept(request, monkeypatch):
    monkeypatch.setattr(build_file, "_IN_MEMORY", request.param)
    return BuildFile()


@pytest.fixture(scope="module")
def some():
    return [build_of(b, check(b), Shop(), ()).brief for b in (inch_v8(), metric_four())]


def test_builds_come_back_as_they_were_in_the_order_of_their_files(kept, some):
    kept.put(7, some)
    kept.put(3, some[:1])
    kept.put(5, some)
    kept.take_out(5)
    assert kept.places == ((3, 0), (7, 0), (7, 1))
    every = kept.at(kept.places)
    assert list(every) == [some[0], *some]
    assert (len(every), every[-1], list(every[1:])) == (3, some[1], some)
    assert (kept.of(7), kept.of(5)) == (tuple(some), ())


def test_what_is_put_again_takes_the_place_of_what_was_there(kept, some):
    kept.put(1, some)
    later = replace(some[0], saved="2026-10-05T12:00:00")
    kept.put(1, [later])
    assert list(kept.at(kept.places)) == [later]


def test_builds_end():
    builds = Builds(2, lambda n: n)
    assert list(builds) == [0, 1]
    with pytest.raises(IndexError):
        builds[2]
