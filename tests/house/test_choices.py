"""A table by the members of an enum has all of them, or is listed here with its reason."""

from __future__ import annotations

import ast
import enum
import importlib
from collections.abc import Iterator
from pathlib import Path

from tests.house.source import FILES, SOURCE, nodes

PARTIAL = {
    ("job/answers/spec.py", "Kind"): "what nobody gives with decimals is rounded to none",
    ("plan/quotes/figures.py", "Per"): "a charge by the mile, share or lump goes by no amount",
    ("plan/roof/edges.py", "EdgeKind"): "the sides of a plane are spread into it",
    ("store/plane_rows/cells.py", "Column"): "columns of lengths are spread into it",
    ("wizard/answering.py", "Standing"): "what is neither sure nor a guess is asked",
    ("wizard/lists/arrivals.py", "Kind"): "other measures of a coil have no unit to leave out",
}
"""By file and enum: why a table has not every member."""


def partial(file: Path) -> Iterator[tuple[str, str, int, list[str]]]:
    """Tables of a file that lack members: the file, the enum, the line, what is missing."""
    module = None
    for table in nodes(file):
        if not isinstance(table, ast.Dict):
            continue
        members = [key for key in table.keys
                   if isinstance(key, ast.Attribute) and isinstance(key.value, ast.Name)]
        for choice in {key.value.id for key in members if isinstance(key.value, ast.Name)}:
            if module is None:
                parts = file.relative_to(SOURCE.parent).with_suffix("").parts
                module = importlib.import_module(".".join(parts).removesuffix(".__init__"))
            kind = getattr(module, choice, None)
            if isinstance(kind, type) and issubclass(kind, enum.Enum):
                there = {key.attr for key in members
                         if isinstance(key.value, ast.Name) and key.value.id == choice}
                if missing := sorted(set(kind.__members__) - there):
                    yield str(file.relative_to(SOURCE)), choice, table.lineno, missing


def test_a_table_by_a_choice_has_all_of_it() -> None:
    found = {(path, choice): (line, missing)
             for file in FILES for path, choice, line, missing in partial(file)}
    assert {place: lack for place, lack in found.items() if place not in PARTIAL} == {}
    assert sorted(PARTIAL) == sorted(found), "what is listed is there"
