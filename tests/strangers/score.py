"""How well the batch reads strangers' books: a table by book, and every loss.

    python -m tests.strangers.score [--losses FILE] [--keep FOLDER] [--only s03 s14]

Needs LibreOffice, which calculates and saves the books.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from pathlib import Path

from workbook_tools.hosts import libreoffice

from .books import write_all
from .judge import judge

OUTCOMES = ("right", "wrong", "asked", "refused", "unnoticed")


def score_all(folder, profile):
    """Write the books into a folder, run the batch on them; return {book's truth's id: Score}."""
    truths = write_all(folder, profile)
    return {t["id"]: s for t, s in zip(truths, _scores(truths, Path(folder)), strict=True)}


def _scores(truths, folder):
    builds = defaultdict(list)
    for build in _summarize(folder / "books", folder / "summaries"):
        builds[build["book"]["file"]].append(build)
    return [judge(truth, builds[truth["book"]]) for truth in truths]


def _summarize(books, out):
    command = [sys.executable, "-m", "workbook_tools", "summarize", str(books), "--out", str(out)]
    done = subprocess.run([*command, "--afresh"], capture_output=True, text=True, check=False)
    # 3: a book could not be read, the others were.
    if done.returncode not in (0, 3):
        raise RuntimeError(f"summarize ended with {done.returncode}: {done.stderr[-2000:]}")
    found = [json.loads(path.read_text("utf-8")) for path in sorted(out.rglob("*.json"))]
    return [data for data in found if isinstance(data, dict) and "book" in data]


def totals(scores):
    """All books together, as percentages and counts: what the floors are held to."""
    sums = {name: Counter() for name in ("facts", "derived", "fields", "planted")}
    for score in scores.values():
        for name, counter in sums.items():
            counter.update(getattr(score, name))
    return {
        "facts right": _percent(sums["facts"], "right"),
        "facts wrong": _percent(sums["facts"], "wrong"),
        "derived right": _percent(sums["derived"], "right"),
        "fields right": _percent(sums["fields"], "right"),
        "planted caught": sums["planted"]["caught"],
        "planted": sums["planted"].total(),
        "false alarms": sum(score.alarms for score in scores.values()),
        "builds that say nothing": sum(score.mute for score in scores.values()),
        "not read": sum(not score.builds for score in scores.values()),
        "facts": sums["facts"].total(),
    }


def _percent(counter, key):
    return 100 * counter[key] / counter.total()


HEAD = (
    f"{'book':5}{'facts':>6}{'right':>6}{'wrong':>6}{'asked':>6}{'refus':>6}{'unnot':>6}{'%':>7}"
    f"{'derived':>9}{'d.wrong':>8}{'fields':>8}{'planted':>8}{'alarms':>7}{'extra':>6}  says"
)


def table(scores):
    """The table by book, as text."""
    lines = [HEAD]
    for ident, s in scores.items():
        counts = "".join(f"{s.facts[outcome]:6d}" for outcome in OUTCOMES)
        share = _percent(s.facts, "right")
        lines.append(
            f"{ident:5}{s.facts.total():6d}{counts}{share:7.1f}"
            f"{_of(s.derived, 'right'):>9}{s.derived['wrong']:8d}{_of(s.fields, 'right'):>8}"
            f"{_of(s.planted, 'caught'):>8}{s.alarms:7d}{s.elsewhere:6d}"
            f"  {_says(s)}"
        )
    return "\n".join(lines)


def _says(score):
    if not score.builds:
        return "not read"
    return "NOTHING" if score.mute else f"{score.builds} build{'s' * (score.builds > 1)}"


def _of(counter, key):
    return f"{counter[key]}/{counter.total()}" if counter else ""


def losses(scores):
    """Every loss, by book."""
    lines = []
    for ident, score in scores.items():
        lines += ["", f"## {ident}", ""]
        lines += [
            f"* {what}: {cell} | {true} | {said}" for what, cell, true, said in sorted(score.losses)
        ]
    return "\n".join(lines) + "\n"


def main():
    """Write the books, run the batch, print the table."""
    parser = argparse.ArgumentParser(description="How well the batch reads strangers' books.")
    parser.add_argument("--losses", type=Path, help="file to write every loss to")
    parser.add_argument("--keep", type=Path, help="new folder to keep books and summaries in")
    parser.add_argument("--only", nargs="+", help="books to show, by their ids")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        profile = libreoffice.fresh_profile(Path(scratch, "profile"))
        scores = score_all(options.keep or Path(scratch, "made"), profile)
    if options.only:
        scores = {ident: score for ident, score in scores.items() if ident in options.only}
    print(table(scores))
    print(", ".join(f"{name} {value:.4g}" for name, value in totals(scores).items()))
    if options.losses:
        text = f"# Losses\n\n```\n{table(scores)}\n```\n{losses(scores)}"
        options.losses.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
