"""No size from 60 × 18 up takes a button, a line of keys or a word from what opens over a screen;
and a click on a key that is named there presses it.

`python -m tests.dialogs` says what is wrong where.
"""

from __future__ import annotations

import importlib
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Button, OptionList, Static

import coilwright.wizard
from coilwright.wizard.lists.plane_tables import FullScreenModal
from coilwright.wizard.screens.base import Modal
from coilwright.wizard.screens.help import TextModal
from coilwright.wizard.widgets.text import KeysLine
from tests import dialogs


def every_dialog(base: type = Modal) -> Iterator[type]:
    """All that open over a screen, but those that others are made of."""
    for cls in base.__subclasses__():
        named = getattr(sys.modules[cls.__module__], cls.__name__, None) is cls
        if named and cls.__module__.startswith("coilwright.") and (
                cls not in (TextModal, FullScreenModal)):
            yield cls
        yield from every_dialog(cls)


async def test_no_size_takes_anything_from_a_dialog(tmp_path: Path) -> None:
    for module in pkgutil.walk_packages(coilwright.wizard.__path__, "coilwright.wizard."):
        importlib.import_module(module.name)
    found, met = await dialogs.look(tmp_path, dialogs.SIZES)
    assert found == {}
    assert {cls.__name__ for cls in every_dialog()} - {cls.__name__ for cls in met} == set(), (
        "not looked at: tests/dialogs.py opens each")


class Cut(Modal[Any]):
    """All that can be wrong with a dialog."""

    DEFAULT_CSS = """
    Cut #wide { width: 80; }
    Cut #low { height: 1; }
    Cut #rows { width: 20; }
    Cut #tall { height: 30; }
    """

    def compose(self) -> ComposeResult:
        """Too wide, too long, too low, and a button below the edge."""
        with Vertical(classes="box"):
            yield Static("Enter opens · F9 goes on", id="dead")
            yield KeysLine("F8 waves", id="idle")
            yield Static("words", id="wide")
            yield Static("more words than there is room for in one row of sixty cells, all said",
                         id="low")
            rows = OptionList("a row of more than twenty cells", "one more", id="rows")
            rows.styles.height = 1
            yield rows
            yield Static("", id="tall")
            yield Button("Done", id="under", compact=True)


async def test_what_a_size_takes_away_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(dialogs.SCREENS, "cut", lambda _session: Cut())
    found, _ = await dialogs.look(tmp_path, ((60, 18),), ("cut",), ())
    said = " ".join(found)
    for wrong in ("Static wide sticks out of Vertical box sideways", "Static low: 2 rows in 1",
                  "OptionList rows: a row of 31 in", "OptionList rows: 1 rows high",
                  "Button under sticks out of Vertical box", "nothing says how it is closed",
                  "Static dead: a click on f9 presses nothing", "KeysLine idle: f8 does nothing"):
        assert wrong in said, found
