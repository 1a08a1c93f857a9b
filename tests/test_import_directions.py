"""The rooms import one way: a test that reads the syntax tree holds the direction."""

import ast
from pathlib import Path

from each_case import each

PACKAGE = Path(__file__).parents[1] / "workbook_tools"

# Each floor may import those below it; the ones above them know nothing of who is above.
_CATALOG = {"catalog", "kept_files", "measurands", "quantities", "settings"}
_BOOKS = {"books", "formulas", "book_files", *_CATALOG}
_JOBS = {"jobs", "labels", *_BOOKS}
_SUMMARY = {"summary", "findings", *_JOBS}
_BATCH = {"batch", "render", *_SUMMARY}

# What each room may import of ours, itself left out.
MAY_IMPORT = {
    "kept_files": set(),
    "quantities": set(),
    "settings": {"kept_files", "measurands", "quantities"},
    "measurands": {"kept_files", "quantities"},
    "catalog": _CATALOG,
    "formulas": _CATALOG,
    "book_files": set(),
    "hosts": {"book_files", "formulas", *_CATALOG},
    "buildbook": {"book_files", "hosts", "formulas", *_CATALOG},
    "books": _BOOKS,
    "labels": _BOOKS,
    "jobs": {"labels", *_BOOKS},
    "annotate": {"hosts", *_JOBS},
    "functions_book": {"hosts", "render", *_BOOKS},
    "findings": _JOBS,
    "summary": {"findings", *_JOBS},
    "render": _SUMMARY,
    "batch": {"render", *_SUMMARY},
    "month": _BATCH,
    "terminal": set(),
    "cli": {"terminal", "month", "buildbook", "hosts", "annotate", "functions_book", *_BATCH},
    "__main__": {"cli"},
    "api": {"batch", *_SUMMARY},
    "frames": {"api", *_BATCH},
    "__init__": {"api", "frames"},
}


def room(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imported_rooms(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names = [node.module]
            if node.module == "workbook_tools":
                names = [f"workbook_tools.{alias.name}" for alias in node.names]
        else:
            continue
        for name in names:
            parts = name.split(".")
            if parts[0] == "workbook_tools" and len(parts) > 1:
                found.add(parts[1])
    return found


MODULES = sorted(p for p in PACKAGE.rglob("*.py") if "templates" not in p.parts)


@each("here", sorted({*map(room, MODULES)}))
def test_the_modules_of_a_room_import_only_downward(here):
    assert here in MAY_IMPORT, f"{here} is no room of the design"
    modules = [path for path in MODULES if room(path) == here]
    upward = {
        str(path.relative_to(PACKAGE)): wrong
        for path in modules
        if (wrong := imported_rooms(path) - {here, "__version__"} - MAY_IMPORT[here])
    }
    assert not upward


def test_the_reader_of_imports_sees_them():
    assert imported_rooms(PACKAGE / "catalog" / "calculate.py") == {"quantities", "catalog"}
