"""Places of elements in an XML part, so that some bytes of it can be changed and no other.

A real parser finds them; the part is never written anew, so that its prefixes, its byte
order mark, its spacing and all that we do not know stay as they are.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from xml.parsers import expat


class MarkupError(ValueError):
    """A part that is not the XML it should be."""


@dataclass
class Element:
    """An element and where it stands, in bytes from the start of the part.

    name: without prefix; prefix: "x:" or ""; parents: names from the root down; start, end:
    of the whole element; inner, inner_end: of what is between its tags (equal for <a/>);
    quote: the quotation mark around the text, where it is an attribute's value.
    """

    name: str
    prefix: str
    attributes: dict[str, str]
    parents: tuple[str, ...]
    start: int
    inner: int
    inner_end: int = 0
    end: int = 0
    text: str = ""
    quote: str = ""

    @property
    def empty_tag(self) -> bool:
        """Whether it is written as one tag, <a/>."""
        return self.inner == self.end


@dataclass(frozen=True)
class Edit:
    """Bytes to put in the place of data[start:end]."""

    start: int
    end: int
    new: bytes


_QUOTES = {'"': "&quot;", "'": "&apos;"}
# To the ">" that ends a tag; one within quotes does not.
_TAG = re.compile(rb"(?:[^\"'>]|\"[^\"]*\"|'[^']*')*>")


def _tag_end(data: bytes, start: int) -> int:
    found = _TAG.match(data, start)
    if found is None:
        raise MarkupError("a tag has no end")
    return found.end()


class _Reader:
    """What the parser reports, gathered."""

    def __init__(self, data: bytes, wanted: Collection[str]) -> None:
        self.data = data
        self.wanted = wanted
        self.found: list[Element] = []
        self.path: list[str] = []
        self.open: list[Element] = []
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self.start
        self.parser.EndElementHandler = self.end
        self.parser.CharacterDataHandler = self.text
        self.parser.XmlDeclHandler = _refuse_encodings
        self.parser.StartDoctypeDeclHandler = _refuse_document_types

    def read(self) -> None:
        try:
            self.parser.Parse(self.data, True)
        except expat.ExpatError as error:
            raise MarkupError(f"it is no well-formed XML: {error}") from None

    def start(self, name: str, attributes: dict[str, str]) -> None:
        prefix, _, local = name.rpartition(":")
        if local in self.wanted:
            at = self.parser.CurrentByteIndex
            element = Element(
                name=local,
                prefix=f"{prefix}:" if prefix else "",
                attributes=attributes,
                parents=tuple(self.path),
                start=at,
                inner=_tag_end(self.data, at),
            )
            self.found.append(element)
            self.open.append(element)
        self.path.append(local)

    def end(self, _name: str) -> None:
        self.path.pop()
        if not self.open or self.open[-1].parents != tuple(self.path):
            return
        element = self.open.pop()
        if self.data[element.inner - 2 : element.inner] == b"/>":
            element.inner_end = element.end = element.inner
        else:
            element.inner_end = self.parser.CurrentByteIndex
            element.end = _tag_end(self.data, element.inner_end)

    def text(self, content: str) -> None:
        if self.open and len(self.open[-1].parents) + 1 == len(self.path):
            self.open[-1].text += content


def _refuse_encodings(_version: str, encoding: str | None, _standalone: int) -> None:
    if (encoding or "utf-8").lower() not in ("utf-8", "us-ascii"):
        raise MarkupError(f"it is written in {encoding}, not in UTF-8")


def _refuse_document_types(*_parts: object) -> None:
    raise MarkupError("it has a document type, which no workbook part may have")


def elements(data: bytes, wanted: Collection[str]) -> list[Element]:
    """The elements of these local names, in the order of their start tags.

    Raises MarkupError where the part is no XML in UTF-8.
    """
    reader = _Reader(data, wanted)
    reader.read()
    return reader.found


def attribute_value(data: bytes, element: Element, name: str) -> Element | None:
    """An attribute of an element, as if it were an element that holds the value as its text."""
    pattern = rb"\s" + name.encode() + rb"\s*=\s*(?:\"([^\"]*)\"|'([^']*)')"
    found = re.compile(pattern).search(data, element.start, element.inner)
    if found is None:
        return None
    inner, inner_end = found.span(found.lastindex or 0)
    return Element(
        name=name,
        prefix="",
        attributes={},
        parents=(*element.parents, element.name),
        start=found.start(),
        inner=inner,
        inner_end=inner_end,
        end=found.end(),
        text=element.attributes[name],
        quote=chr(data[inner_end]),
    )


def spliced(data: bytes, edits: Iterable[Edit]) -> bytes:
    """The part with some bytes changed. Edits may touch but not overlap."""
    pieces, done = [], 0
    for edit in sorted(edits, key=lambda e: (e.start, e.end)):
        pieces += [data[done : edit.start], edit.new]
        done = edit.end
    return b"".join([*pieces, data[done:]])


def escaped(text: str, quotes: str = "") -> str:
    """Text as it stands between two tags, or with these quotation marks written as entities."""
    text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    for quote in quotes:
        text = text.replace(quote, _QUOTES[quote])
    return text


def new_text(data: bytes, element: Element, text: str) -> Edit:
    """The change of an element's text, which writes quotation marks as they were written.

    LibreOffice writes them as entities between tags too, Excel only where they must be.
    """
    before = data[element.inner : element.inner_end]
    entities = [mark for mark, entity in _QUOTES.items() if entity.encode() in before]
    inside = escaped(text, element.quote + "".join(entities))
    return Edit(element.inner, element.inner_end, inside.encode())


def attribute(name: str, value: str) -> str:
    """An attribute with the space before it."""
    return f' {name}="{escaped(value, chr(34))}"'
