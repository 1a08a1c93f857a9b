"""What a batch made of one stranger's book, beside what is true of it.

* A fact counts by the readings and results of its cell: measurand, value (2 in 10,000), stage and
  position must fit. A position left out, where the truth has one, is wrong.
* A cell with a planted mistake is right if asked or refused, or read with a finding on it.
* Derived numbers: displacement 0.5 %, ratio 0.05, masses and volumes 0.2 %, lengths 2.6 µm; two
  different answers for one place are wrong.
* A planted mistake is caught by a finding on one of its cells that names at most six cells. A false
  alarm is a finding that touches neither a planted nor an excused cell, unless it only says that
  something could not be read, is missing or was never calculated.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from dataclasses import dataclass, field

# Other names under which the same thing may be told.
ALSO = {
    "deck_clearance": ("piston_protrusion",),
    "piston_protrusion": ("deck_clearance",),
    "dome_volume": ("crown_volume",),
    "crown_volume": ("dish_volume", "dome_volume"),
    "chamber_volume": ("combustion_volume",),
    "spring_height": ("intake_spring_height", "exhaust_spring_height"),
    "main_journal_out_of_round": ("journal_out_of_round",),
    "rod_journal_taper": ("journal_taper",),
    "seat_runout": ("intake_seat_runout", "exhaust_seat_runout"),
}
# Two names of one thing that count in opposite directions.
TURNED = (
    {"piston_protrusion", "deck_clearance"},
    {"dome_volume", "crown_volume"},
    {"dome_volume", "dish_volume"},
)
SOFT = re.compile(
    r"unreadable|not understood|not read|missing|never calculated|not saved|open question", re.I
)
AHEAD_AND_BEHIND = {"front": "1", "centre": "2", "center": "2", "middle": "2"}


@dataclass
class Score:
    """Counts of one book, and its losses: (what, cell, what is true, what was said)."""

    facts: Counter = field(default_factory=Counter)
    derived: Counter = field(default_factory=Counter)
    fields: Counter = field(default_factory=Counter)
    planted: Counter = field(default_factory=Counter)
    alarms: int = 0
    elsewhere: int = 0
    builds: int = 0
    # Builds that hold no reading, no result and no finding.
    mute: int = 0
    losses: list[tuple[str, str, str, str]] = field(default_factory=list)

    def lose(self, what, cell, true, said=""):
        self.losses.append((what, cell, str(true), str(said)))


def judge(truth, builds):
    """The score of a book. builds: the builds that the batch wrote of it, as read from JSON."""
    score = Score(builds=len(builds))
    answers = defaultdict(list)
    for build in builds:
        # A result of the book's own is an answer, whether its saved value still holds or not.
        results = [r | {"state": "read"} for r in build["results"] if r["cell"]]
        for answer in [*build["readings"], *results]:
            answers[f"{answer['sheet']}!{answer['cell']}"].append(answer)
        score.mute += not (build["readings"] or build["results"] or build["findings"])
    findings = [f for build in builds for f in build["findings"]]
    hard = [(f, _cells(f)) for f in findings if not SOFT.search(f["kind"])]
    _facts(truth, answers, hard, score)
    _elsewhere(truth, answers, score)
    _jobs(truth, builds, score)
    _planted(truth, hard, score)
    return score


def _read(answers):
    return [a for a in answers if a["state"] == "read"]


def _facts(truth, answers, hard, score):
    by_cell = defaultdict(list)
    for job in truth["jobs"]:
        for fact in job["facts"]:
            by_cell[fact["cell"]].append(fact)
    for cell, facts in by_cell.items():
        there = answers.get(cell, [])
        for fact in facts:
            outcome = _outcome(fact, facts, there, hard)
            score.facts[outcome] += 1
            if outcome != "right":
                said = "; ".join(map(_told, there))
                score.lose(f"fact {outcome}", cell, _wanted(fact), said)


def _outcome(fact, facts, there, hard):
    read = _read(there)
    if not there:
        return "unnoticed"
    if fact.get("doubt"):
        found = any(fact["cell"] in cells and len(cells) <= 6 for _, cells in hard)
        return "right" if not read or found else "wrong"
    if any(_fits(answer, fact) for answer in read):
        return "right"
    if any(not any(_fits(answer, other) for other in facts) for answer in read):
        return "wrong"
    states = {answer["state"] for answer in there} - {"read"}
    return min(states) if states else "unnoticed"


def _elsewhere(truth, answers, score):
    """Numbers taken for measurements where the truth has none."""
    left = {f["cell"] for job in truth["jobs"] for f in job["facts"]} | set(truth["either"])
    for cell, there in answers.items():
        if cell in left or cell.rsplit("!", 1)[0] in truth["ignore_sheets"]:
            continue
        taken = [
            answer
            for answer in _read(there)
            if answer["measurand"] not in ("", "cylinder_count")
            and not re.search("target|limit", answer.get("stage") or "")
        ]
        if taken:
            score.elsewhere += 1
            score.lose("taken where no fact stands", cell, "", _told(taken[0]))


def _fits(answer, fact):
    name = fact["quantity"].removesuffix("_found")
    si, stage = answer["si"], answer.get("stage") or ""
    if not isinstance(si, (int, float)) or answer["measurand"] not in (name, *ALSO.get(name, ())):
        return False
    if {answer["measurand"], name} in TURNED and si * fact["si"] < 0:
        si = -si
    # A percentage may be told in hundredths or, as it is written, in percent.
    wanted = [fact["si"], fact["value"]] if fact["unit"] == "%" else [fact["si"]]
    near = any(abs(si - value) <= max(1e-9, 2e-4 * abs(value)) for value in wanted)
    staged = stage == "found" if fact["quantity"].endswith("_found") else stage in _FINAL
    return near and staged and _same_place(fact.get("at"), answer)


_FINAL = ("", "machined", "final")


def _same_place(at, answer):
    """Whether an answer is of the same cylinder or journal; banks are compared where both tell."""
    if at is None:
        return True
    part = answer.get("part") or {}
    said = " ".join(str(part.get(key) or "") for key in ("bank", "number")).lower().split()
    wanted = str(at).lower()
    digits, told = re.findall(r"\d+", wanted), re.findall(r"\d+", " ".join(said))
    if not digits:
        said += str(part.get("at") or "").lower().split()
        return wanted in said or AHEAD_AND_BEHIND.get(wanted, "") in said or _behind(wanted, told)
    if not told:
        return ("front" in said and wanted == "1") or ("rear" in said and wanted != "1")
    bank = (part.get("bank") or "").lower()[:1]
    return digits == told and (wanted[0].isdigit() or not bank or bank == wanted[0])


def _behind(wanted, told):
    if wanted == "rear":
        return bool(told) and told != ["1"]
    return False


def _jobs(truth, builds, score):
    left = list(builds)
    for job in truth["jobs"]:
        best = max(left, key=lambda build: _agreeing(job, build), default=None)
        if best is not None:
            left.remove(best)
        _fields(job, best, score)
        for wanted in job["derived"]:
            _derived(wanted, best, score)


def _text(build, key):
    return _plain((build["job"].get(key) or {}).get("text", "")) if build else ""


def _plain(text):
    return re.sub(r"\s+", " ", str(text if text is not None else "")).strip().lower()


def _agreeing(job, build):
    return sum(
        _text(build, key) == _plain(wanted["value"]) for key, wanted in job["fields"].items()
    )


def _fields(job, build, score):
    for key, wanted in job["fields"].items():
        got, right = _text(build, key), _plain(wanted["value"])
        fits = (
            got == right or got.endswith(" " + right) or got in map(_plain, wanted.get("also", []))
        )
        outcome = "right" if got and fits else "wrong" if got else "missing"
        score.fields[outcome] += 1
        if outcome != "right":
            score.lose(f"field {key} {outcome}", wanted["cell"], wanted["value"], got)


def _derived(wanted, build, score):
    quantity, si = wanted["quantity"], wanted["si"]
    names = (quantity, *ALSO.get(quantity, ()))
    got = [
        result["si"]
        for result in (build or {"results": []})["results"]
        if result["measurand"] in names
        and isinstance(result["si"], (int, float))
        and _same_place(wanted.get("at"), result)
        and not re.search("target|limit|found", result.get("stage") or "")
    ]
    near = [abs(value - si) <= _slack(quantity, si) for value in got]
    outcome = "absent" if not got else "right" if all(near) or wanted.get("doubt") else "wrong"
    score.derived[outcome] += 1
    if outcome == "wrong":
        score.lose("derived wrong", f"{quantity} {wanted.get('at', '')}", si, got[:4])


def _slack(quantity, si):
    if quantity == "displacement":
        return 5e-3 * abs(si)
    if "ratio" in quantity:
        return 0.05
    return 2.6e-6


def _planted(truth, hard, score):
    used = set()
    for mistake in (m for job in truth["jobs"] for m in job["planted"]):
        cells = set(mistake["cells"])
        hits = {
            place
            for place, (finding, named) in enumerate(hard)
            if (named & cells and len(named) <= 6) or _whole_sheet(finding, mistake)
        }
        used |= hits
        score.planted["caught" if hits else "missed"] += 1
        if not hits:
            score.lose("mistake missed", mistake["cells"][0], mistake["kind"], mistake["what"])
    excused = {
        cell
        for job in truth["jobs"]
        for x in (*job["legit"], *job["planted"])
        for cell in x["cells"]
    }
    for place, (finding, named) in enumerate(hard):
        if place in used or named & excused or finding["sheet"] in truth["ignore_sheets"]:
            continue
        score.alarms += 1
        cell = f"{finding['sheet']}!{finding['cell']}"
        score.lose("false alarm", cell, finding["kind"], finding["message"][:160])


def _whole_sheet(finding, mistake):
    """Whether a finding speaks of a sheet left behind, rather than of one of its cells."""
    sheets = {cell.rsplit("!", 1)[0] for cell in mistake["cells"]}
    return mistake["kind"] == "left_behind" and finding["sheet"] in sheets


def _cells(finding):
    sheet = finding["sheet"]
    named = {c if "!" in c else f"{sheet}!{c}" for c in finding.get("cells") or []}
    words = re.findall(r"\b[A-Z]{1,3}[1-9]\d*\b", finding["message"])
    return named | {f"{sheet}!{finding['cell']}"} | {f"{sheet}!{word}" for word in words}


def _wanted(fact):
    near = f" [{fact['near']}]" if fact.get("near") else ""
    return f"{fact['quantity']} {fact.get('at', '')} = {fact['value']} {fact['unit']}{near}"


def _told(answer):
    part = answer.get("part") or {}
    number = " ".join(str(part.get(key) or "") for key in ("bank", "number")).strip()
    words = [answer["state"], answer["measurand"] or "?", number, answer.get("stage")]
    si = answer["si"]
    shown = f"{si:.6g} SI" if isinstance(si, (int, float)) else str(si)
    words += [shown, f"({answer['reason']})" if answer.get("reason") else ""]
    return " ".join(str(word) for word in words if word)
