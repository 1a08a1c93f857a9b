"""What builders type in five languages: how many labels are understood at once, by their words.

The labels and what they mean were written from memory, without the lexicon at hand, and no word
was taken into it from this list. common practice, no source; from memory
"""

import csv
from pathlib import Path

import pytest

from workbook_tools.labels.vocabulary import meaning_of

LABELS = Path(__file__).parent / "data" / "labels_as_typed.csv"
# The share that is understood, and that no change of words or rules may lower by more than this.
UNDERSTOOD = {"en": 0.84, "de": 0.76, "fr": 0.78, "es": 0.78, "it": 0.73}
LOST_AT_MOST = 0.005


def labels(language):
    with LABELS.open(encoding="utf-8", newline="") as file:
        return [one for one in csv.DictReader(file) if one["language"] == language]


@pytest.mark.parametrize("language", UNDERSTOOD)
def test_most_labels_are_understood_by_their_words_alone(language):
    # common practice, no source
    every = labels(language)
    right = [
        one
        for one in every
        if meaning_of(one["label"], tuple(h for h in (one["head"], one["title"]) if h)).measurand
        == one["measurand"]
    ]
    assert len(every) > 600
    assert len(right) >= (UNDERSTOOD[language] - LOST_AT_MOST) * len(every)


@pytest.mark.parametrize(
    ("label", "headings", "measurand", "number"),
    [
        ("Cyl 3", ("Liner protrusion",), "liner_protrusion", 3),
        ("Cyl 5", ("CHAMBER CC",), "chamber_volume", 5),
        ("Cil. 2", ("Asp.", "Giochi valvole"), "intake_lash", 2),
        ("Cil 1", ("2º", "LUZ DE AROS"), "second_ring_gap", 1),
        ("Cyl 4", (), "", 4),
        ("Guide clearance In 3", (), "intake_stem_clearance", 3),
        ("Lash E", (), "exhaust_lash", 0),
        ("Oil (deg C)", (), "oil_temperature", 0),
        ("Water (deg F)", (), "coolant_temperature", 0),
        ("Room deg C", (), "", 0),
        # Alone it is of the valve, below guides that of its stem.
        ("Holgura admisión", (), "intake_lash", 0),
        ("Holgura admisión", ("Guías y válvulas (mm)",), "intake_stem_clearance", 0),
        ("Gioco banco n.5", (), "main_bearing_clearance", 5),
    ],
)
def test_a_count_below_what_is_measured_only_counts(label, headings, measurand, number):
    meaning = meaning_of(label, headings)
    # "Cyl 4" alone may be its bore or its pressure.
    assert meaning.measurand == measurand or not measurand
    assert meaning.number == number
