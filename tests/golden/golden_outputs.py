"""Every output file of a set of books, one hash each, to be compared between two commits.

    python tests/golden/golden_outputs.py                 say which files are not as kept
    python tests/golden/golden_outputs.py --keep          keep the hashes of the files as they are
    python tests/golden/golden_outputs.py --write FOLDER  write the files themselves

To see what changed, write them at both commits and compare: diff -r BEFORE AFTER.

What hangs on the machine or on a library's version and not on this program is taken out:

- A print is Typst's work, and another Typst sets another PDF. Kept is the data that it would
  be handed, which is all that this program has to do with it.
- Of a worksheet file the sheets, their texts and styles are kept, not the archive: how it is
  packed hangs on zlib, and what else is in it on XlsxWriter.
- The last digits of a number hang on the machine's mathematics: 12 are kept.
- The hash of a book's own file and the program's version stand as words.
"""

from __future__ import annotations

import argparse
import hashlib
import io
import json
import os
import re
import sys
import tempfile
import zipfile
from importlib.metadata import version
from pathlib import Path

import typst
from golden_books import make_books

from workbook_tools.reports.batch import summarize_books
from workbook_tools.reports.handover import KINDS
from workbook_tools.reports.month import summarize_month
from workbook_tools.reports.shop import Shop

KEPT = Path(__file__).with_name("outputs.json")
_SHEET_PARTS = re.compile(
    r"xl/(worksheets/[^/]+|sharedStrings|styles|workbook)\.xml|xl/worksheets/.+"
)
_LONG_NUMBER = re.compile(r"(?<![\w.])-?\d+\.\d{6,}(?:[eE][+-]?\d+)?")
_HASH = re.compile(r"\b[0-9a-f]{64}\b")


class _Compiler:
    """Stands where Typst's does, and hands back the data that it was handed."""

    def __init__(self, *_arguments, **_options):
        pass

    def compile(self, *, sys_inputs, **_options):
        data = json.loads(sys_inputs["data"])
        return json.dumps(data, ensure_ascii=False, indent=1).encode()


def made(folder: Path) -> dict[str, bytes]:
    """{path: content} of every output of all sets of books; folder: an empty one to work in."""
    books = make_books(folder / "books")
    out = folder / "out"
    usual, typst.Compiler = typst.Compiler, _Compiler
    try:
        for each in ("examples", "jobs", "faults"):
            summarize_books([books / each], out / each, kinds=KINDS)
        # Together they would all be told to be copies of one another.
        for path in sorted((books / "layouts").iterdir()):
            summarize_books([path], out / "layouts" / path.stem, kinds=KINDS)
        examples, clean = books / "examples", sorted((books / "faults").glob("clean_*"))
        summarize_month("2025-03", [examples, books / "jobs", *clean], out / "month")
        metric = Shop(units="metric", paper="a4")
        summarize_month("2025-05", [examples], out / "month_metric", metric)
    finally:
        typst.Compiler = usual
    files: dict[str, bytes] = {}
    for path in sorted(out.rglob("*")):
        name = path.relative_to(out).as_posix()
        if path.suffix == ".xlsx":
            files |= {f"{name}/{part}": text for part, text in _sheets(path).items()}
        elif path.is_file():
            files[f"{name}.json" if path.suffix == ".pdf" else name] = _plain(
                path.read_text("utf-8")
            )
    return files


def _sheets(path: Path) -> dict[str, bytes]:
    """The parts of a worksheet file that this program fills, one cell a line."""
    with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as archive:
        return {
            name: _plain(re.sub(r"(?=<(?:row|c|si|xf|font)\b)", "\n", archive.read(name).decode()))
            for name in archive.namelist()
            if _SHEET_PARTS.fullmatch(name)
        }


def _plain(text: str) -> bytes:
    text = _LONG_NUMBER.sub(lambda found: f"{float(found[0]):.12g}", text)
    text = _HASH.sub("(hash of the book)", text)
    return text.replace(version("workbook-tools"), "(version)").encode()


def hashes(files: dict[str, bytes]) -> dict[str, str]:
    """{path: the first digits of its content's hash}, sorted; a worksheet file is one."""
    told: dict[str, hashlib._Hash] = {}
    for path in sorted(files):
        name = path.partition(".xlsx/")[0] + ".xlsx" if ".xlsx/" in path else path
        told.setdefault(name, hashlib.sha256()).update(files[path])
    return {name: told[name].hexdigest()[:16] for name in sorted(told)}


def difference(kept: dict[str, str], now: dict[str, str]) -> str:
    """What is not as kept, a file a line, and how to look at it; "" where all is."""
    lines = [
        f"{'gone' if name not in now else 'new' if name not in kept else 'changed'}: {name}"
        for name in sorted({*kept, *now})
        if kept.get(name) != now.get(name)
    ]
    if not lines:
        return ""
    own = "python tests/golden/golden_outputs.py"
    how = (
        f"{len(lines)} of {len({*kept, *now})} output files are not as kept. "
        f"To see the change, run\n  {own} --write /tmp/after\n"
        "here, the same with --write /tmp/before in a checkout of the commit before, then\n"
        "  diff -r /tmp/before /tmp/after\n"
        f"If it is right, keep it: {own} --keep"
    )
    return "\n".join([*lines, how])


def _main() -> str:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--write", type=Path, metavar="FOLDER", help="write the files there")
    parser.add_argument("--keep", action="store_true", help="keep the hashes as they are now")
    wanted = parser.parse_args()
    # The bands of whoever runs this are theirs alone.
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_CONFIG_HOME"] = os.environ["APPDATA"] = str(Path(folder, "config"))
        files = made(Path(folder))
    if wanted.write:
        for name, content in files.items():
            path = wanted.write / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        return ""
    now = hashes(files)
    if wanted.keep:
        KEPT.write_text(json.dumps(now, indent=0) + "\n", "utf-8")
        return ""
    return difference(json.loads(KEPT.read_text("utf-8")), now)


if __name__ == "__main__":
    sys.exit(_main() or 0)
