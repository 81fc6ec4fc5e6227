"""The shop on disk: one file in the data folder, and one to share with a partner."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.shop import SharedShop, Shop
from coilwright.store.files import Seen, Stamp, named_path, read_text, write_keeping_backup
from coilwright.store.reader import read_model, read_or_empty, read_or_set_aside, to_text

NAME = "shop.json"


def shop_path(folder: Path) -> Path:
    """Where the shop lies in a data folder."""
    return folder / NAME


def read_shop(folder: Path) -> Shop:
    """The shop; no file is an empty one. Raises StoreError; the file stays as it is."""
    return read_or_empty(shop_path(folder), Shop)


def load_shop(folder: Path) -> tuple[Shop, str]:
    """The shop to be worked on, and what was wrong with its file; empty if nothing.

    A broken file is set aside. Raises StoreError: see `read_or_set_aside`.
    """
    return read_or_set_aside(shop_path(folder), Shop, "the shop")


def save_shop(folder: Path, shop: Shop, seen: Seen | None = None) -> Stamp:
    """Write the shop whole, the version before beside it as `shop.json.bak`.

    seen: what the file looked like when it was read. Raises ChangedElsewhere and StoreError.
    """
    return write_keeping_backup(shop_path(folder), to_text(shop), seen)


def read_shared(name: str) -> SharedShop:
    """A shop and its coils on hand from a file by its name as typed.

    Raises StoreError naming the first fault.
    """
    path = named_path(name)
    return read_model(read_text(path), SharedShop, str(path))
