"""Sessions on jobs that begin: new ones, and one like another."""

from __future__ import annotations

from coilwright.job.copies import begun_in, copied, copy_words
from coilwright.job.from_shop import start
from coilwright.job.job import Job
from coilwright.job.shop import Shop
from coilwright.store import Store, StoreError
from coilwright.store.shop import load_shop, read_shop
from coilwright.wizard.session import Session

_HOW = ("F4, or a click on its word “guess”, makes one guess sure; “Step: confirm all” of Ctrl+P "
        "all of a step.")


def begun(store: Store, job: Job) -> Session:
    """A session on a job that is saved with the first change."""
    return Session(store, job)


def begun_new(store: Store) -> tuple[Session, str]:
    """A session on a new job: in the units and the currency of the last one, and as the shop has
    it; and what was wrong with the file of the shop."""
    usual = store.usual()
    job = begun_in(usual.units, usual.currency)
    try:
        shop, trouble = load_shop(store.folder)
    except StoreError as error:
        return begun(store, job), str(error)
    return begun(store, job if shop.is_empty else start(job, shop)), trouble


def begun_like(store: Store, old: Job) -> Session:
    """A session on a job like another, saved, which says what came along: it is a job with content,
    looked at or worked on. Raises StoreError."""
    new = copied(old, _shop(store))
    session = Session.open(store, store.create(new))
    session.is_copy = True
    session.news = f"{copy_words(old, new)}\n{_HOW}"
    return session


def _shop(store: Store) -> Shop:
    """The shop; one that cannot be read has no places, and says so where it is opened."""
    try:
        return read_shop(store.folder)
    except StoreError:
        return Shop()
