"""What is typed at the head of an order, or of a request, kept in the shop for the next job."""

from __future__ import annotations

from coilwright.job.from_shop import lacks_of_head, with_head_kept
from coilwright.job.job import Job
from coilwright.job.shop import Shop
from coilwright.store import Store, StoreError
from coilwright.wizard.lists.form import Outcome
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import change_shop
from coilwright.words.counting import listed


def offered(shop: Shop | None, job: Job, key: str) -> list[str]:
    """That the shop lacks what was typed, and what keeps it, a line; none for nothing."""
    lacks = [] if shop is None else lacks_of_head(shop, job)
    named = escape_controls(listed(lacks))
    return [f"My shop does not have {named} yet: {key} keeps that for the next job."
            ] if lacks else []


def keep(store: Store, job: Job) -> Outcome:
    """Keep what the shop lacks."""
    lacks: list[str] = []

    def kept(shop: Shop) -> Shop:
        lacks[:] = lacks_of_head(shop, job)
        return with_head_kept(shop, job)

    try:
        change_shop(store, kept)
    except StoreError as error:
        return Outcome(failed=str(error))
    if not lacks:
        return Outcome(say="My shop has all of it, or nothing was typed yet.")
    named = escape_controls(listed(lacks))
    return Outcome(changed=True, say=f"Kept in my shop: {named}. A new job begins with it.")
