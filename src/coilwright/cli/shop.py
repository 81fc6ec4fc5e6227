"""My shop on the command line: what it holds, and one file of it to share with a partner."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING

from coilwright.cli.problems import Problem
from coilwright.drawing.safe_text import one_line

if TYPE_CHECKING:
    from coilwright.job.shop import Shop
    from coilwright.job.stock import Stock
    from coilwright.store.files import Seen


def shop(given: argparse.Namespace) -> int:
    """Print the shop, write it with the coils on hand to one file, or take such a file in."""
    if given.replace and given.taken is None:
        raise Problem("--replace goes with --import FILE.")
    if given.force and given.file is None:
        raise Problem("--force goes with --export FILE.")
    seen = _seen()
    mine, coils = _load()
    if given.file is not None:
        return _export(mine, coils, given.file, given.force)
    if given.taken is not None:
        return _import(mine, coils, given.taken, given.replace, seen)
    if given.json:
        from coilwright.store import to_text

        print(to_text(mine), end="")
        return 0
    _print(mine, coils)
    return 0


def _seen() -> tuple[Seen, Seen]:
    """What the files of shop and coils look like: another window may write them meanwhile."""
    from coilwright.store import home
    from coilwright.store.files import Seen, stamp
    from coilwright.store.shop import shop_path
    from coilwright.store.stock import stock_path

    return Seen(stamp(shop_path(home()))), Seen(stamp(stock_path(home())))


def _load() -> tuple[Shop, Stock]:
    """The shop and the coils on hand; a file that cannot be used stays where it is."""
    from coilwright.store import home
    from coilwright.store.shop import read_shop
    from coilwright.store.stock import read_stock

    return read_shop(home()), read_stock(home())


def _export(mine: Shop, coils: Stock, name: str, force: bool) -> int:
    from coilwright.cli.saving import save
    from coilwright.job.shop import share
    from coilwright.store import to_text

    text = to_text(share(mine, coils))
    if name == "-":
        print(text, end="")
        return 0
    path = save(text, name, force)
    print(f"Saved {path}: {_counted(mine, coils)}. It holds names, phone numbers and addresses as "
          "the shop has them; give it to nobody who should not see those.", file=sys.stderr)
    return 0


def _import(
    mine: Shop, coils: Stock, name: str, replace: bool, seen: tuple[Seen, Seen]
) -> int:
    from coilwright.job.shop import merge
    from coilwright.store import home
    from coilwright.store.shop import read_shared, save_shop
    from coilwright.store.stock import save_stock

    merged = merge(mine, coils, read_shared(name), replace_mine=replace)
    if merged.shop != mine:
        save_shop(home(), merged.shop, seen[0])
    if merged.stock != coils:
        save_stock(home(), merged.stock, seen[1])
    for verb, found in (("added", merged.added), ("replaced", merged.replaced)):
        for what, names in found.items():
            print(f"{verb} {what}: {one_line(', '.join(names))}")
    for what, names in merged.kept.items():
        print(f"kept mine, {what}: {one_line(', '.join(names))}")
    if merged.kept:
        print("What is kept differs in the file; --replace takes the file's instead. The version "
              "before stays beside each file as .bak.", file=sys.stderr)
    if not (merged.added or merged.replaced or merged.kept):
        print("Everything in the file was there already.", file=sys.stderr)
    return 0


def _counted(mine: Shop, coils: Stock) -> str:
    from coilwright.words.counting import counted

    return ", ".join((
        counted(len(mine.machines), "machine"), counted(len(mine.rigs), "rig"),
        counted(len(mine.suppliers), "supplier"), f"{counted(len(coils.coils), 'coil')} on hand",
    ))


def _print(mine: Shop, coils: Stock) -> None:
    if mine.is_empty:
        print("Nothing is in the shop yet: the wizard's screen “My shop” fills it, or --import "
              "FILE takes a partner's.", file=sys.stderr)
    else:
        print("".join(f"{text}\n" for text in _lines(mine)), end="")
        print(f"coils on hand: {len(coils.coils)}")


def _lines(mine: Shop) -> Iterator[str]:
    from coilwright.job.shop import BUYER_FIELDS

    for name, label in BUYER_FIELDS.items():
        if text := getattr(mine.buyer, name):
            yield f"{label.lower()}: {one_line(text)}"
    for kept in mine.machines:
        about = f", {one_line(kept.machine.about)}" if kept.machine.about else ""
        yield f"machine: {one_line(kept.name)}{about}"
    for rig in mine.rigs:
        yield f"rig: {one_line(rig.name)}{f', {one_line(rig.about)}' if rig.about else ''}"
    for one in mine.suppliers:
        said = (one.name, one.contact, one.email, one.phone, one.supplies)
        yield f"supplier: {one_line(', '.join(filter(None, said)))}"
