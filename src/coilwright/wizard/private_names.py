"""Every private name of Textual that the wizard uses, where, and why there is no public one.

Textual may change these without a word: after an upgrade look here first. A test holds that no
other is used.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PrivateUse:
    """name: as Textual has it. file: the only one that uses it, within this package."""

    name: str
    file: str
    reason: str


TEXTUAL_PRIVATE_NAMES = (
    PrivateUse(
        "_parser", "terminal.py",
        "Reading ends with ParseError, which is defined there alone."),
    PrivateUse(
        "_xterm_parser", "terminal.py",
        "The wizard reads the keyboard itself, so that Escape is not kept from the next key, and "
        "turns what it reads into events as Textual does."),
    PrivateUse(
        "_debug", "terminal.py",
        "The driver hands it to its parser; a driver that replaces that loop does the same."),
    PrivateUse(
        "_handle_exception", "app.py",
        "What was typed is written before the app that failed is taken down; no event says so."),
    PrivateUse(
        "_focus_sort_key", "widgets/field.py",
        "Tab goes by places on the screen. A field that has only just come has none, and a key "
        "typed ahead would pass it over; no public method says where it stands."),
)
