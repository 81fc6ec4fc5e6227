"""Reading HTML strictly and Markdown by CommonMark, and holding JSON to a schema: short helpers."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

from markdown_it import MarkdownIt

_VOID = {"meta", "wbr", "br"}


class Page(HTMLParser):
    """Reads a page; an element left open or closed out of turn is an error."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.cells: list[str] = []
        self.pieces: list[str] = []
        self.feed(text)
        self.close()
        assert not self.open, f"left open: {self.open}"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes.update(name for name, _ in attrs)
        if tag in ("td", "th"):
            self.cells.append("")
        if tag not in _VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes.update(name for name, _ in attrs)

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"{tag} closed, but nothing is open"
        assert self.open[-1] == tag, f"{tag} closed while {self.open[-1]} is open"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        if "style" in self.open:
            return
        self.pieces.append(data)
        if self.open and {"td", "th"} & set(self.open):
            self.cells[-1] += data

    @property
    def text(self) -> str:
        return "".join(self.pieces)


READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
"""Reads Markdown as most programs do: CommonMark with tables; HTML in it passes through as HTML."""


@dataclass
class ReadTable:
    """A table read from Markdown, with the heading above it."""

    title: str
    header: list[str] = field(default_factory=list)
    rows: list[list[str]] = field(default_factory=list)


def read_tables(markdown: str) -> list[ReadTable]:
    """The tables of a page of Markdown, cells as plain text."""
    found: list[ReadTable] = []
    title, kind = "", ""
    for token in READER.parse(markdown):
        if token.type in ("heading_open", "th_open", "td_open"):
            kind = token.type
        elif token.type == "table_open":
            found.append(ReadTable(title))
        elif token.type == "tr_open" and found[-1].header:
            found[-1].rows.append([])
        elif token.type == "inline":
            text = "".join(child.content for child in token.children or ())
            if kind == "heading_open":
                title = text
            elif kind == "th_open":
                found[-1].header.append(text)
            elif kind == "td_open":
                found[-1].rows[-1].append(text)
            kind = ""
    return found


def table_under(markdown: str, title: str) -> ReadTable:
    """The first table under a heading."""
    return next(table for table in read_tables(markdown) if table.title == title)


_TYPES: dict[str, tuple[type, ...]] = {
    "object": (dict,), "array": (list,), "string": (str,), "integer": (int,),
    "number": (int, float), "boolean": (bool,), "null": (type(None),),
}  # fmt: skip
_KNOWN = {
    "$schema", "$defs", "title", "description", "type", "required", "properties", "items",
    "additionalProperties", "anyOf", "enum", "const", "minimum", "$ref",
}  # fmt: skip


def faults(value: Any, schema: dict[str, Any], root: dict[str, Any], at: str = "$") -> list[str]:
    """What in a value does not fit a JSON Schema, for the few words our schema uses."""
    assert set(schema) <= _KNOWN, set(schema) - _KNOWN
    if "$ref" in schema:
        name = schema["$ref"].removeprefix("#/$defs/")
        return faults(value, root["$defs"][name], root, at)
    if "anyOf" in schema:
        each = [faults(value, one, root, at) for one in schema["anyOf"]]
        return [] if any(not found for found in each) else each[0]
    found = []
    if "const" in schema and value != schema["const"]:
        found.append(f"{at} is not {schema['const']!r}")
    if "enum" in schema and value not in schema["enum"]:
        found.append(f"{at} is {value!r}")
    if "type" in schema:
        fits = isinstance(value, _TYPES[schema["type"]])
        if not fits or (isinstance(value, bool) and schema["type"] != "boolean"):
            return [*found, f"{at} is not of type {schema['type']}"]
    if "minimum" in schema and value < schema["minimum"]:
        found.append(f"{at} is under {schema['minimum']}")
    if isinstance(value, dict):
        found += [f"{at} lacks {key}" for key in schema.get("required", ()) if key not in value]
        for key, one in value.items():
            inner = schema.get("properties", {}).get(key, schema.get("additionalProperties"))
            found += ([f"{at} has {key}, which the schema does not describe"] if inner is None else
                      faults(one, inner, root, f"{at}.{key}"))
    if isinstance(value, list) and "items" in schema:
        for number, one in enumerate(value):
            found += faults(one, schema["items"], root, f"{at}[{number}]")
    return found
