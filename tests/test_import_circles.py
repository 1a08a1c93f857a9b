"""No module of a room imports, by way of others of that room, itself.

Every import counts. One inside a function is done late and one under TYPE_CHECKING never, and
both let a circle run; but modules that need one another cannot be understood, moved or tested
one without the other, however the import is put off.
"""

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "workbook_tools"
ROOMS = sorted(path.name for path in PACKAGE.iterdir() if (path / "__init__.py").exists())

# Imports that close a circle today: (module, what it imports), and why it is there. Whoever undoes
# one takes its line away.
KNOWN = {
    ("workbook_tools.books.records", "workbook_tools.books.readings"): (
        "the type of a reading stands beside how one is found"
    ),
    ("workbook_tools.reports.workers", "workbook_tools.reports.cluster"): (
        "who does the work is chosen where it is done"
    ),
}


def name_of(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imports(tree: ast.Module, modules: set[str]) -> set[str]:
    """The modules among these that a module imports, whole or something of them."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            inside = {f"{node.module}.{alias.name}" for alias in node.names}
            # `from room import module` runs the module; a name of the room is the room's own.
            found |= inside & modules or {node.module}
    return found & modules


def graph(room: str) -> dict[str, set[str]]:
    paths = {
        name_of(path): path
        for path in sorted((PACKAGE / room).rglob("*.py"))
        if "templates" not in path.parts
    }
    return {
        name: imports(ast.parse(path.read_text(encoding="utf-8")), set(paths)) - {name}
        for name, path in paths.items()
    }


def circle(modules: dict[str, set[str]]) -> list[str]:
    """The modules of a circle, each imported by the one before it; none where there is none."""
    try:
        TopologicalSorter(modules).prepare()
    except CycleError as error:
        return list(reversed(error.args[1]))
    return []


@pytest.mark.parametrize("room", ROOMS)
def test_no_module_imports_itself_by_way_of_others(room):
    modules = graph(room)
    for importing, imported in KNOWN:
        modules.get(importing, set()).discard(imported)
    found = circle(modules)
    assert not found, " -> ".join(found)


@pytest.mark.parametrize(
    ("importing", "imported"),
    [
        pytest.param(*edge, marks=pytest.mark.xfail(strict=True, reason=why))
        for edge, why in KNOWN.items()
    ],
)
def test_a_known_circle_is_undone(importing, imported):
    assert imported not in graph(importing.split(".")[1]).get(importing, set())


def test_a_circle_is_seen_and_named():
    assert circle({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}}) in (
        ["a", "b", "c", "a"],
        ["b", "c", "a", "b"],
        ["c", "a", "b", "c"],
    )
    assert circle({"a": {"b"}, "b": {"c"}, "c": set()}) == []


def test_every_import_counts_wherever_it_stands():
    tree = ast.parse(
        "from typing import TYPE_CHECKING\n"
        "from room import a, A_CONSTANT\n"
        "if TYPE_CHECKING:\n    from room.b import B\n"
        "def later():\n    import room.c\n"
    )
    modules = {"room", "room.a", "room.b", "room.c", "room.d"}
    assert imports(tree, modules) == {"room.a", "room.b", "room.c"}
