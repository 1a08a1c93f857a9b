"""The shop that hands a summary over: name, address, logo, paper and units, from shop.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from pathlib import Path, PureWindowsPath
from typing import Any, Literal

from workbook_tools.quantities import System
from workbook_tools.quantities.nearest import hint
from workbook_tools.settings.accepted import Accepted, accepted_of
from workbook_tools.settings.finished import scopes, sections
from workbook_tools.settings.found import nearest_of_each
from workbook_tools.settings.gauges import Gauge, gauge_of
from workbook_tools.settings.toml_file import SettingsError

Paper = Literal["letter", "a4"]
# By scope of a job: the sections that the record of a finished one has to hold.
Required = tuple[tuple[str, tuple[str, ...]], ...]
SHOP_FILE = "shop.toml"
LOGO_KINDS = {".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg"}
LOGO_STARTS = {"image/png": b"\x89PNG\r\n\x1a\n", "image/jpeg": b"\xff\xd8\xff"}
# A logo goes into every page that is written.
LARGEST_LOGO = 500_000
MOST_ADDRESS_LINES = 6
LONGEST_LINE = 80


class ShopError(Exception):
    """A shop.toml that cannot be used: file, key, what was expected and what stands there."""


@dataclass(frozen=True)
class Shop:
    """Who hands the summary over, and how it is printed.

    logo: the picture's bytes, b"" for none, with its media type in logo_kind; units: what
    tables that mix books are told in; templates: a folder whose files replace the
    templates of the same name, None for the ones that come with the program; finished: lists
    of what the record of a finished job has to hold, for scopes whose list is not the usual one;
    engine_kinds: those that a month tells fits by, each with words of an engine's name that
    mean it; gauges: with the uncertainty of a reading by each; accepted: findings that the
    accepted.toml of the books' folders, or of those above them, accept.
    """

    name: str = ""
    address: tuple[str, ...] = ()
    logo: bytes = b""
    logo_kind: str = ""
    paper: Paper = "letter"
    units: System = "inch"
    templates: Path | None = None
    finished: Required = ()
    engine_kinds: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    gauges: tuple[Gauge, ...] = ()
    accepted: tuple[Accepted, ...] = ()


_STARTER = """\
# The shop, as its summaries name it. Keep this file in the folder with the books or in one above
# it, or name it with --shop. A line that begins with # says nothing; take the # away to fill it in.

# Name at the head of every summary, up to 80 characters.
name = ""

# Address and telephone, one line each, six at most.
address = [
    # "12 Example Lane",
    # "Anytown",
]

# A picture for the head of the page: PNG or JPEG, at most 500,000 bytes. The path counts
# from this file; one that leads out of its folder needs --shop.
# logo = "logo.png"

# Paper that is printed on: "letter" or "a4".
paper = "letter"

# Units of the tables that put inch and metric books together: "inch" or "metric".
# A single build is always told in the units of its own book.
units = "inch"

# A folder with templates of your own, by the names of those that come with the program
# (summary.html.jinja, summary.typ, month.typ ...). What is not in it is taken from there.
# Used only where this file is named with --shop: templates that came with somebody's books
# are never used by themselves.
# templates = "templates"

# What the record of a finished job has to hold, by what was built. A section that is empty is a
# finding. Where a scope is not named here, the list that comes with the program holds; a list
# here takes its place.
{lists}

# Kinds of engine that a month tells its fits by, each with words of which one stands in what
# the books call the engine. An engine that none names is told by its layout and size.
# engine_kinds."Street V8" = ["street V8", "iron V8"]

# Gauges: what each measures, and the expanded uncertainty (k = 2) of a reading by it, as its
# certificate or the shop's own trials say. A verdict whose limit lies within the uncertainty of
# what it judges is then marked: cannot tell. Without gauges no uncertainty is told.
# gauges."Bore gauge" = { measures = ["bore", "bearing bore"], uncertainty = "0.0002 in" }
# gauges."Micrometers" = { measures = ["journal", "piston diameter"], uncertainty = "0.0001 in" }
"""


def write_shop(folder: Path) -> Path:
    """Write a commented shop.toml to fill in, and return its path.

    folder: made where it is missing. Raises FileExistsError where a shop.toml is already
    there, which is left as it is, and OSError where the file cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / SHOP_FILE
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(_starter())
    return path


def _starter() -> str:
    lines = []
    for scope in scopes().values():
        listed = ", ".join(f'"{name}"' for name in scope.sections)
        lines.append(f'# finished."{scope.name}" = [{listed}]')
    return _STARTER.replace("{lists}", "\n".join(lines))


def find_shop(named: Iterable[Path]) -> Path | None:
    """The shop.toml of the books that are named, None where there is none.

    named: files and folders; looked for in each folder itself and beside each file, then in
    the folders above as far as `folders_up` goes, the nearest one first. Raises ShopError where
    several are found, since a batch has one shop.
    """
    found = nearest_of_each(SHOP_FILE, named)
    if len(found) > 1:
        several = ", ".join(str(path) for path in found)
        raise ShopError(f"the books have several shops: {several}; name one with --shop")
    return next(iter(found), None)


def shop_for(
    named: Iterable[Path],
    shop_file: Path | None = None,
    tell: Callable[[str], object] = lambda _: None,
    codes: Collection[str] = (),
) -> Shop:
    """The shop of a batch: from the file given, else the one of the books, else nameless.

    One that was only found may have come with the books from somebody else: its templates,
    which are programs of a kind, are not used, which is told in a line, and its logo lies
    in its own folder. codes: that findings have, for the accepted ones, () to take any. Raises
    ShopError where a file is given and missing, or cannot be used.
    """
    folders = list(named)
    found = read_shop(shop_file) if shop_file else _found(folders, tell)
    try:
        return replace(found, accepted=accepted_of(folders, codes))
    except SettingsError as error:
        raise ShopError(str(error)) from None


def _found(named: Sequence[Path], tell: Callable[[str], object]) -> Shop:
    """The shop of the file that was found for the books, nameless where there is none."""
    path = find_shop(named)
    if path is None:
        return Shop()
    data = _data(path)
    if data.pop("templates", None) is not None:
        tell(
            f"Templates not used: {path} was only found, and templates are used only of a file "
            f"that is named. If they are yours: --shop {path}"
        )
    return _shop(_Reader(path, data, found=True))


def read_shop(path: Path) -> Shop:
    """A shop from its file. Raises ShopError, with file, key and reason, for a bad value."""
    return _shop(_Reader(path, _data(path)))


def _data(path: Path) -> dict[str, Any]:
    """What a shop.toml says, by keys that are all known."""
    try:
        with path.open("rb") as file:
            data = tomllib.load(file)
    except FileNotFoundError:
        raise ShopError(f"{path}: there is no such file; workbook-tools init writes one") from None
    except ValueError as error:  # No UTF-8, no TOML, or a number of thousands of digits.
        raise ShopError(f"{path}: not readable as TOML: {error}") from None
    except RecursionError:
        raise ShopError(f"{path}: not readable as TOML: brackets in too many brackets") from None
    except OSError as error:
        raise ShopError(f"{path}: {error.strerror or error}") from None
    known = [f.name for f in fields(Shop) if f.name not in ("logo_kind", "accepted")]
    for key in data:
        if key not in known:
            raise ShopError(f"{path}: {key}: no such key; {hint(key, known)}")
    return data


def _shop(read: _Reader) -> Shop:
    logo, kind = read.logo()
    return Shop(
        name=read.line("name"),
        address=read.address(),
        logo=logo,
        logo_kind=kind,
        paper="a4" if read.choice("paper", ("letter", "a4")) == "a4" else "letter",
        units="metric" if read.choice("units", ("inch", "metric")) == "metric" else "inch",
        templates=read.folder("templates"),
        finished=read.finished(),
        engine_kinds=read.engine_kinds(),
        gauges=read.gauges(),
    )


@dataclass(frozen=True)
class _Reader:
    """The values of one file, each refused with file, key, what was expected and what came.

    found: whether nobody named the file, so that it leads nowhere out of its folder.
    """

    path: Path
    data: Mapping[str, Any]
    found: bool = False

    def refuse(self, key: str, expected: str, got: object) -> ShopError:
        try:
            shown = str(got) if isinstance(got, Path) else repr(got)
        except (RecursionError, ValueError):
            shown = "a value nested too deep, or with too many digits"
        return ShopError(f"{self.path}: {key}: expected {expected}, got {shown}")

    def line(self, key: str) -> str:
        value = self.data.get(key, "")
        if not isinstance(value, str) or len(value) > LONGEST_LINE:
            raise self.refuse(key, f"a text of up to {LONGEST_LINE} characters", value)
        return " ".join(value.split())

    def address(self) -> tuple[str, ...]:
        value = self.data.get("address", [])
        lines = value.splitlines() if isinstance(value, str) else value
        fits = isinstance(lines, list) and len(lines) <= MOST_ADDRESS_LINES
        if not fits or not all(isinstance(x, str) and len(x) <= LONGEST_LINE for x in lines):
            expected = f"up to {MOST_ADDRESS_LINES} lines of up to {LONGEST_LINE} characters"
            raise self.refuse("address", expected, value)
        return tuple(" ".join(line.split()) for line in lines if line.strip())

    def choice(self, key: str, words: tuple[str, str]) -> str:
        value = self.data.get(key, words[0])
        if not isinstance(value, str) or value.strip().lower() not in words:
            raise self.refuse(key, " or ".join(f'"{word}"' for word in words), value)
        return value.strip().lower()

    def finished(self) -> Required:
        value = self.data.get("finished", {})
        if not isinstance(value, dict):
            raise self.refuse("finished", "a table, as under [finished]", value)
        for scope, listed in value.items():
            if scope not in scopes():
                raise ShopError(f"{self.path}: finished: {scope}: no such scope; "
                                f"{hint(scope, scopes())}")  # fmt: skip
            if not isinstance(listed, list) or not all(isinstance(x, str) for x in listed):
                raise self.refuse(f"finished: {scope}", "a list of sections", listed)
            for name in listed:
                if name not in sections():
                    raise ShopError(f"{self.path}: finished: {scope}: {name}: no such section; "
                                    f"{hint(name, sections())}")  # fmt: skip
        return tuple((scope, tuple(listed)) for scope, listed in value.items())

    def engine_kinds(self) -> Mapping[str, tuple[str, ...]]:
        value = self.data.get("engine_kinds", {})
        if not isinstance(value, dict):
            raise self.refuse("engine_kinds", "a table of kinds with their words", value)
        for kind, words in value.items():
            listed = isinstance(words, list) and all(
                isinstance(w, str) and w.strip() for w in words
            )
            if not kind.strip() or len(kind) > LONGEST_LINE or not listed or not words:
                expected = f"a kind of up to {LONGEST_LINE} characters with a list of words"
                raise self.refuse("engine_kinds", expected, {kind: words})
        return {" ".join(kind.split()): tuple(words) for kind, words in value.items()}

    def gauges(self) -> tuple[Gauge, ...]:
        value = self.data.get("gauges", {})
        if not isinstance(value, dict):
            raise self.refuse("gauges", "a table of gauges", value)
        found = []
        for name, told in value.items():
            try:
                found.append(gauge_of(name, told))
            except ValueError as error:
                raise ShopError(f"{self.path}: gauges: {name}: {error}") from None
        return tuple(found)

    def folder(self, key: str) -> Path | None:
        return self._path(key, "a folder", Path.is_dir)

    def logo(self) -> tuple[bytes, str]:
        path = self._path("logo", "a picture file", Path.is_file)
        if path is None:
            return b"", ""
        kind = LOGO_KINDS.get(path.suffix.lower())
        if kind is None:
            raise self.refuse("logo", "a .png or .jpg file", path)
        if path.stat().st_size > LARGEST_LOGO:
            raise self.refuse("logo", f"a file of at most {LARGEST_LOGO:,} bytes", path)
        picture = path.read_bytes()
        if not picture.startswith(LOGO_STARTS[kind]):
            raise self.refuse("logo", f"a picture of the kind {kind}", path)
        return picture, kind

    def _path(self, key: str, what: str, there: Callable[[Path], bool]) -> Path | None:
        if key not in self.data:
            return None
        value = self.data[key]
        if not isinstance(value, str) or not value.strip():
            raise self.refuse(key, f"the path of {what}", value)
        path = self.path.parent / value
        if self.found and _leads_out(value, path, self.path.parent):
            expected = f"{what} in the folder of {SHOP_FILE}, as nobody named that with --shop"
            raise self.refuse(key, expected, value)
        try:
            if there(path):
                return path
        except (OSError, ValueError):  # A name that no file can have.
            pass
        raise self.refuse(key, what, path)


def _leads_out(value: str, path: Path, folder: Path) -> bool:
    """Whether a path leaves its folder: by what it says, or by a link."""
    # Its words first, as on Windows a look at another machine's file already greets that.
    said = PureWindowsPath(value)
    if said.anchor or value.startswith("~") or ".." in said.parts:
        return True
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError, ValueError):
        return True
