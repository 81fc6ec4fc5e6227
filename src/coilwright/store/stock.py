"""The stock on disk: one file in the data folder, written whole, a damaged one set aside."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.stock import Stock
from coilwright.store.files import StoreError, read_text, set_aside, write_keeping_backup
from coilwright.store.reader import read_model, to_text

NAME = "stock.json"


def stock_path(folder: Path) -> Path:
    """Where the stock lies in a data folder."""
    return folder / NAME


def load_stock(folder: Path) -> tuple[Stock, str]:
    """The coils on hand, and a sentence where the file could not be used; empty where it could.

    No file is an empty stock. A file that cannot be read as a stock is moved, byte for byte as
    it is, to a name beside it, so that saving never writes over it. Raises StoreError where it
    cannot be moved.
    """
    path = stock_path(folder)
    if not path.exists():
        return Stock(), ""
    try:
        return read_model(read_text(path), Stock, str(path)), ""
    except StoreError as error:
        place = set_aside(path)
        return Stock(), f"{error} It is kept as {place}; the list of coils on hand starts empty."


def save_stock(folder: Path, stock: Stock) -> None:
    """Write the stock whole, the version before beside it as `stock.json.bak`.

    Raises StoreError.
    """
    write_keeping_backup(stock_path(folder), to_text(stock))
