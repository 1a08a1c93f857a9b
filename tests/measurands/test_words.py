"""Words: each label's measurand, stage and place; what is ambiguous is listed as such."""

import tomllib
from collections import Counter
from importlib import resources
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.measurands.lexicon import rules, senses
from workbook_tools.measurands.measurand import LANGUAGES
from workbook_tools.measurands.table import all_measurands, of_part
from workbook_tools.measurands.tokens import phrase, spelled, tokens
from workbook_tools.measurands.words import read_label

DATA = Path(__file__).parent / "data"
LEXICON = resources.files("workbook_tools.measurands").joinpath("lexicon")


def data(name):
    return tomllib.loads(LEXICON.joinpath(f"{name}.toml").read_text("utf-8"))


def labels(name):
    return tomllib.loads((DATA / f"labels_{name}.toml").read_text("utf-8"))["label"]


def right(label, languages):
    return read_label(label["text"], languages=languages).measurand == label["measurand"]


@pytest.mark.parametrize("languages", ["told", "any"])
@pytest.mark.parametrize(("name", "floor"), [("plain", 64), ("second", 66), ("shorthand", 60)])
def test_share_of_invented_labels_that_come_out_right(name, floor, languages):
    every = labels(name)
    count = sum(
        right(one, (one["language"],) if languages == "told" else LANGUAGES) for one in every
    )
    assert count >= floor, [one["text"] for one in every if not right(one, LANGUAGES)]


@pytest.mark.parametrize("name", ["plain", "second", "shorthand"])
def test_stages_and_places_of_invented_labels(name):
    every = labels(name)
    stages = sum(read_label(one["text"]).stage == one.get("stage", "") for one in every)
    places = sum(set(read_label(one["text"]).at) == set(one.get("at", ())) for one in every)
    assert stages == len(every)
    assert places >= len(every) - 1


# Lists


@pytest.mark.parametrize("name", ["parts", "nouns", "which"])
def test_a_word_is_in_one_list_or_listed_as_ambiguous(name):
    """Within a list and a language a word means one thing; else ambiguous.toml decides it."""
    decided = {
        (language, phrase)
        for file, key in (("ambiguous", "word"), ("phrases", "phrase"))
        for entry in data(file)[key]
        for language in (LANGUAGES if "any" in entry["languages"] else entry["languages"])
        for word in entry["words"]
        for phrase in spelled(word)
    }
    decided |= {
        (language, phrase)
        for one in all_measurands()
        for language, listed in (*one.words.items(), ("en", (one.name,)))
        for word in listed
        for phrase in spelled(word)
    }
    meanings = Counter()
    for groups in data(name).values():
        for named, listed in groups.items():
            for language in LANGUAGES if named == "any" else (named,):
                for form in {p for word in listed for p in spelled(word)}:
                    meanings[language, form] += 1
    assert [key for key, n in meanings.items() if n > 1 and key not in decided] == []


def test_a_word_of_the_table_means_one_measurand():
    seen = {}
    for one in all_measurands():
        for language, listed in one.words.items():
            for word in listed:
                assert seen.setdefault((language, spelled(word)[0]), one.id) == one.id


def test_ambiguous_words_have_several_meanings_or_say_why():
    for entry in data("ambiguous")["word"]:
        assert entry.get("why") or len(entry["means"]) > 1, entry


def test_every_listed_word_leaves_something_when_made_even():
    for language in LANGUAGES:
        assert all(phrase and all(phrase) for phrase in senses()[language])


def test_rules_name_parts_and_nouns_that_are():
    table = {(one.part, one.noun) for one in all_measurands()}
    parts = {part for part, _ in table} | set(data("parts"))
    nouns = {noun for _, noun in table} | set(data("nouns"))
    rule = rules()
    assert set(rule.default_noun) <= parts
    assert set(rule.default_part) <= nouns
    assert {part for several in rule.default_part.values() for part in several} <= parts
    assert {noun for several in rule.default_noun.values() for noun in several} <= nouns
    assert {part for pair in rule.combine for part in pair} <= parts
    for meant in (m for several in rule.means.values() for m in several):
        assert of_part(*meant.split()), meant
    for meant in rule.with_condition.values():
        assert of_part(*meant.split()), meant


def test_every_part_of_the_table_has_words():
    named = set(data("parts")) | {"assembly", "bearing", "lobe"}
    assert {one.part for one in all_measurands()} - named == set()


def test_every_name_means_its_measurand():
    wrong = {
        one.name: read_label(one.name, languages=("en",)).candidates[:3]
        for one in all_measurands()
        if one.id not in [c.measurand for c in read_label(one.name, languages=("en",)).candidates]
    }
    assert wrong == {}


# Labels


@pytest.mark.parametrize(
    ("label", "heading", "measurand"),
    [
        ("journal", "Main bearings", "main_journal"),
        ("clearance", "Rod bearings", "rod_bearing_clearance"),
        ("Lagerspiel", "Pleuellager", "rod_bearing_clearance"),
        ("Zapfen", "Hauptlager", "main_journal"),
        ("shell", "Main bearings", "main_shell_wall"),
        ("top", "Ring gaps", "top_ring_gap"),
        ("2nd", "Ring gaps", "second_ring_gap"),
        ("oil", "Rings", "oil_ring_gap"),
        ("thickness", "Head gasket", "gasket_thickness"),
        ("Spiel", "Kolben", "piston_clearance"),
    ],
)
def test_a_heading_says_what_a_label_leaves_out(label, heading, measurand):
    # common practice, no source
    assert read_label(label, (heading,)).measurand == measurand


@pytest.mark.parametrize(
    ("label", "measurands"),
    [
        ("Ring gap", {"top_ring_gap", "second_ring_gap", "oil_ring_gap"}),
        ("Valve lash", {"intake_lash", "exhaust_lash"}),
        ("Deck height", {"deck_height", "deck_clearance"}),
        ("Bearing clearance", {"main_bearing_clearance", "rod_bearing_clearance"}),
        ("Ventilspiel", {"intake_lash", "exhaust_lash"}),
        ("Hub", {"stroke", "intake_valve_lift"}),
    ],
)
def test_what_is_open_stays_open(label, measurands):
    # common practice, no source
    meaning = read_label(label)
    assert measurands <= {c.measurand for c in meaning.candidates}


@pytest.mark.parametrize(
    "text", ["Price", "Hours", "Rechnung", "Total invoice", "", "---", "4.030"]
)
def test_what_is_no_measurement_has_no_candidates(text):
    assert read_label(text).candidates == ()


def test_a_misspelt_word_is_taken_for_its_neighbor_and_said():
    meaning = read_label("Piston clearanse", languages=("en",))
    assert meaning.measurand == "piston_clearance"
    assert dict(meaning.taken_for) == {"clearanse": "clearance"}


@pytest.mark.parametrize("text", ["customer", "engine builder", "remarkable"])
def test_a_strange_word_is_not_taken_for_another(text):
    assert read_label(text).taken_for == ()


@pytest.mark.parametrize(
    ("label", "short"),
    [
        ("Rod 2 clearance", "Rod 2"), ("Main 3 oil clr", "Main 3"), ("Bore #4 top", "Cyl 4 top"),
        ("Kolbenspiel Zyl. 5", "Cyl 5"), ("Stroke", None),
    ],
)  # fmt: skip
def test_a_label_says_which_one(label, short):
    position = read_label(label).position()
    assert (position.short if position else None) == short


@pytest.mark.parametrize(
    ("label", "statistic"), [("Average bore", "mean"), ("Bore spread", "spread"), ("Bore", "")]
)
def test_a_label_says_what_is_made_of_readings(label, statistic):
    assert read_label(label).statistic == statistic


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ("Muñ. banc.", "main_journal"), ("Muñeq. biela", "rod_journal"), ("Alés.", "bore"),
        ("Haut. compr.", "compression_height"), ("Hubz.", "rod_journal"),
        ("Hauptlagerz.", "main_journal"), ("Crnk stroke", "stroke"),
        ("PistonDia", "piston_diameter"),
        ("MainBearingClearance", "main_bearing_clearance"), ("Vol. cul.", "chamber_volume"),
    ],
)  # fmt: skip
def test_short_forms_stand_for_the_words_they_begin(label, measurand):
    assert read_label(label).measurand == measurand


@pytest.mark.parametrize("label", ["Fr. 12", "Hr. Muster", "Xy. pist", "mnpq"])
def test_no_short_form_is_made_up(label):
    assert read_label(label).measurand in ("", "piston_diameter")


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ("Piston below barrel top", "deck_clearance"), ("zuiger onder dek", "deck_clearance"),
        ("Kolben unter Blockkante", "deck_clearance"), ("Liner above block", "liner_protrusion"),
        ("Piston proud of deck", "piston_protrusion"),
    ],
)  # fmt: skip
def test_a_face_with_a_word_for_below_or_above_says_how_far(label, measurand):
    assert read_label(label).measurand == measurand


@pytest.mark.parametrize(
    ("label", "stage"),
    [("after grinding", "final"), ("before honing", "found"), ("dopo la rettifica", "final"),
     ("antes de rectificar", "found"), ("Alésage trouvé", "found"),
     ("1st hone", "found"), ("efter slipning", "final")],
)  # fmt: skip
def test_an_operation_says_the_stage(label, stage):
    assert read_label(label).stage == stage


def test_beside_a_part_a_word_means_what_is_likeliest_there():
    assert read_label("Head gasket thk (comp)").measurand == "gasket_thickness"
    assert read_label("comp").measurand == "compression_ratio"


def test_a_wrist_pin_is_no_crankpin_below_the_crank():
    assert read_label("Wrist pin dia", ("Crank",)).measurand == "pin_diameter"
    assert read_label("Pin dia", ("Crank",)).measurand == "rod_journal"


@pytest.mark.parametrize("part", ["Piston", "Pin", "Ring set", "Locks pr", "Bearing pr"])
def test_what_a_bobweight_is_made_of_are_masses(part):
    assert read_label(part, ("Bobweight (g)",)).measurand.endswith("_mass")


def test_a_unit_tells_the_property():
    assert read_label("Piston (g)").measurand == "piston_mass"
    assert read_label("Piston (mm)").measurand == "piston_diameter"


@given(st.text(max_size=40), st.text(max_size=20))
def test_any_text_is_read(text, heading):
    meaning = read_label(text, (heading,))
    assert [c.cost for c in meaning.candidates] == sorted(c.cost for c in meaning.candidates)


@given(st.sampled_from([one["text"] for one in labels("plain")]))
def test_case_and_spaces_do_not_matter(text):
    assert phrase(f"  {text.upper()} ") == phrase(text.upper())
    assert read_label(f"  {text}  ").candidates == read_label(text).candidates


def test_tokens():
    assert tokens("Ø Zyl.-Bohrung (oben)") == ("ø", "zyl", "-", "bohrung", "oben")
    assert tokens("O.D. n° 4") == ("od", "no", "4")
    assert tokens("MainJournal2 kW") == ("main", "journal", "2", "kw")
    assert phrase("p/w") == ("p", "w")
    assert spelled("büchse") == (("buchse",), ("buechse",))


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ('Barrel bore, 6" down', "bore"),
        ("Kolben Ø 15 mm über Unterkante", "piston_diameter"),
        ("Diamètre piston 12 mm du bas", "piston_diameter"),
        ("Diametro pistone a 10 mm dal fondo", "piston_diameter"),
        ("Diámetro pistón a 10 mm del borde", "piston_diameter"),
    ],
)
def test_where_a_part_is_measured_says_nothing_of_what(label, measurand):
    assert read_label(label).measurand == measurand


def test_what_stands_in_brackets_may_be_only_where():
    assert read_label("Bore (mid, across ports)").measurand == "bore"
    assert read_label("Rod (big end)").measurand == "rod_housing_bore"


@pytest.mark.parametrize("label", ["honed to", "gehont auf", "honé à", "bruñido a", "levigato a"])
def test_what_is_honed_without_a_name_is_a_bore(label):
    assert read_label(label).measurand == "bore"
