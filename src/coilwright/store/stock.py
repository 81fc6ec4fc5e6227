"""The stock on disk: one file in the data folder, written whole, a damaged one set aside."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.stock import Stock
from coilwright.store.files import (
    Seen,
    Stamp,
    StoreError,
    UnreadFile,
    read_text,
    reason,
    write_keeping_backup,
)
from coilwright.store.reader import NewerFile, read_model, to_text

NAME = "stock.json"


def stock_path(folder: Path) -> Path:
    """Where the stock lies in a data folder."""
    return folder / NAME


def read_stock(folder: Path) -> Stock:
    """The coils on hand; no file is an empty stock. Raises StoreError; the file stays as it is."""
    path = stock_path(folder)
    return read_model(read_text(path), Stock, str(path)) if path.exists() else Stock()


def load_stock(folder: Path) -> tuple[Stock, str]:
    """The coils on hand to be worked on, and what was wrong with the file; empty if nothing.

    A file that was read whole and is broken is moved, byte for byte as it is, to a name beside
    it, so that saving never writes over it. Raises StoreError where it cannot be moved, where
    the file cannot be read, and where a newer version wrote it: then it stays where it is.
    """
    try:
        return read_stock(folder), ""
    except (UnreadFile, NewerFile):
        raise
    except StoreError as error:
        place = _set_aside(stock_path(folder))
        return Stock(), f"{error} It is kept as {place}; the list of coils on hand starts empty."


def save_stock(folder: Path, stock: Stock, seen: Seen | None = None) -> Stamp:
    """Write the stock whole, the version before beside it as `stock.json.bak`.

    seen: what the file looked like when it was read. Raises ChangedElsewhere and StoreError.
    """
    return write_keeping_backup(stock_path(folder), to_text(stock), seen)


def _set_aside(path: Path) -> Path:
    number = 1
    while (place := path.with_name(f"stock.damaged-{number}.json")).exists():
        number += 1
    try:
        path.replace(place)
    except OSError as error:
        raise StoreError(
            f"{path} is damaged and could not be set aside: {reason(error)}."
        ) from None
    return place
