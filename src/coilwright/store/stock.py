"""The stock on disk: one file in the data folder, written whole, a damaged one set aside."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.stock import Stock
from coilwright.store.files import Seen, Stamp, write_keeping_backup
from coilwright.store.reader import read_or_empty, read_or_set_aside, to_text

NAME = "stock.json"


def stock_path(folder: Path) -> Path:
    """Where the stock lies in a data folder."""
    return folder / NAME


def read_stock(folder: Path) -> Stock:
    """The coils on hand; no file is an empty stock. Raises StoreError; the file stays as it is."""
    return read_or_empty(stock_path(folder), Stock)


def load_stock(folder: Path) -> tuple[Stock, str]:
    """The coils on hand to be worked on, and what was wrong with the file; empty if nothing.

    A broken file is set aside. Raises StoreError: see `read_or_set_aside`.
    """
    return read_or_set_aside(stock_path(folder), Stock, "the list of coils on hand")


def save_stock(folder: Path, stock: Stock, seen: Seen | None = None) -> Stamp:
    """Write the stock whole, the version before beside it as `stock.json.bak`.

    seen: what the file looked like when it was read. Raises ChangedElsewhere and StoreError.
    """
    return write_keeping_backup(stock_path(folder), to_text(stock), seen)
