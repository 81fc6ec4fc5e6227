"""My shop being worked on: its lists are changed as those of a job are, with undo. No screens here.

The shop lies in a job of its own that holds nothing else, so that every form of rows serves it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.rows.place import RowPlace
from coilwright.job.shop import (
    Buyer,
    KeptMachine,
    Named,
    Rig,
    Shop,
    Supplier,
    free_name,
)
from coilwright.store import Store, StoreError
from coilwright.store.files import ChangedElsewhere, Seen
from coilwright.store.shop import load_shop, save_shop, shop_path
from coilwright.units import System
from coilwright.wizard.session import Session

Part = TypeVar("Part", KeptMachine, Rig, Supplier)


@dataclass(frozen=True, kw_only=True, slots=True)
class ShopDraft(Job):
    """A job that holds the shop while it is worked on, in the units of the latest job."""

    shop: Shop = Shop()


class ShopSession(Session):
    """Holds the shop; what is typed and cannot be read is kept with it.

    trouble: what was wrong with its file; empty if nothing. Raises StoreError where a damaged file
    cannot be set aside.
    """

    def __init__(self, store: Store) -> None:
        stamp = store.stamp(shop_path(store.folder))
        shop, self.trouble = load_shop(store.folder)
        super().__init__(store, _draft(shop, store.usual_units()))
        self._read = None if self.trouble else stamp

    @property
    def shop(self) -> Shop:
        """The shop as it is now."""
        assert isinstance(self.job, ShopDraft)
        return dataclasses.replace(self.job.shop, typed=dict(self.job.typed))

    def save(self, *, at_once: bool = False) -> bool:  # noqa: ARG002  # a shop has no plan
        """Write the shop if it changed. Raises StoreError; it is then still to be written.

        Where another window wrote the file meanwhile nothing is written over: its shop is read,
        and the sentence of the error says so.
        """
        if not self.dirty:
            return True
        try:
            self._read = save_shop(self.store.folder, self.shop, Seen(self._read))
        except ChangedElsewhere:
            stamp = self.store.stamp(shop_path(self.store.folder))
            shop, self.trouble = load_shop(self.store.folder)
            self.change(_draft(shop, self.job.units), "took the other window's shop")
            self.seal()
            self._read = stamp
            self.dirty = False
            raise StoreError("Another window changed the shop meanwhile; its shop is shown now. "
                             "Undo brings yours back.") from None
        self.dirty = False
        return True


def _draft(shop: Shop, units: System) -> ShopDraft:
    return ShopDraft(units=units, shop=dataclasses.replace(shop, typed={}), typed=dict(shop.typed))


def change_shop(store: Store, change: Callable[[Shop], Shop]) -> Shop:
    """Read the shop, change it and write it; the shop as it is then. Raises StoreError."""
    seen = Seen(store.stamp(shop_path(store.folder)))
    shop, trouble = load_shop(store.folder)
    if trouble:
        raise StoreError(trouble)
    changed = change(shop)
    if changed != shop:
        save_shop(store.folder, changed, seen)
    return changed


def shop_of(job: Job) -> Shop:
    """The shop in the job that holds it."""
    assert isinstance(job, ShopDraft)
    return job.shop


def _with(job: Job, shop: Shop) -> Job:
    assert isinstance(job, ShopDraft)
    return dataclasses.replace(job, shop=shop)


def _unlike(old: Sequence[Part], rows: Sequence[Part]) -> tuple[Part, ...]:
    """The rows, one that is new or changed with a name no other has."""
    made: dict[int, Part] = {}
    for index in sorted(range(len(rows)), key=lambda i: rows[i] not in old):
        row = rows[index]
        if any(plain_name(other.name) == plain_name(row.name) for other in made.values()):
            names: list[Named] = [*made.values()]
            row = dataclasses.replace(row, name=free_name(names, row.name))
        made[index] = row
    return tuple(made[index] for index in range(len(rows)))


BUYER: RowPlace[Buyer] = RowPlace(
    "shop.buyer.", lambda job: (shop_of(job).buyer,),
    lambda job, rows: _with(job, dataclasses.replace(shop_of(job), buyer=rows[0])),
)
MACHINES: RowPlace[KeptMachine] = RowPlace(
    "shop.machines.", lambda job: shop_of(job).machines,
    lambda job, rows: _with(job, dataclasses.replace(
        shop_of(job), machines=_unlike(shop_of(job).machines, rows))),
)
RIGS: RowPlace[Rig] = RowPlace(
    "shop.rigs.", lambda job: shop_of(job).rigs,
    lambda job, rows: _with(job, dataclasses.replace(
        shop_of(job), rigs=_unlike(shop_of(job).rigs, rows))),
)
SUPPLIERS: RowPlace[Supplier] = RowPlace(
    "shop.suppliers.", lambda job: shop_of(job).suppliers,
    lambda job, rows: _with(job, dataclasses.replace(
        shop_of(job), suppliers=_unlike(shop_of(job).suppliers, rows))),
)
"""Where the lists of the shop live in the job that holds it."""
