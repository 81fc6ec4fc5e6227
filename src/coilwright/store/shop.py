"""The shop on disk: one file in the data folder, and one to share with a partner."""

from __future__ import annotations

from pathlib import Path

from coilwright.job.shop import SharedShop, Shop
from coilwright.store.files import StoreError, read_text, set_aside, write_keeping_backup
from coilwright.store.reader import read_model, to_text

NAME = "shop.json"


def shop_path(folder: Path) -> Path:
    """Where the shop lies in a data folder."""
    return folder / NAME


def load_shop(folder: Path) -> tuple[Shop, str]:
    """The shop, and a sentence where its file could not be used; empty where it could.

    No file is an empty shop. A file that cannot be read is moved, as it is, to a name beside it, so
    that saving never writes over it. Raises StoreError where it cannot be moved.
    """
    path = shop_path(folder)
    if not path.exists():
        return Shop(), ""
    try:
        return read_model(read_text(path), Shop, str(path)), ""
    except StoreError as error:
        place = set_aside(path)
        return Shop(), f"{error} It is kept as {place}; the shop starts empty."


def save_shop(folder: Path, shop: Shop) -> None:
    """Write the shop whole, the version before beside it as `shop.json.bak`. Raises StoreError."""
    write_keeping_backup(shop_path(folder), to_text(shop))


def read_shared(path: Path) -> SharedShop:
    """A shop and its coils on hand from one file. Raises StoreError naming the first fault."""
    return read_model(read_text(path), SharedShop, str(path))
