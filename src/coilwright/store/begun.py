"""Which attempts at practice jobs were begun in a data folder: who begins one anew is told so."""

from __future__ import annotations

from contextlib import suppress

from coilwright.job.attempt import Attempt
from coilwright.job.plain_name import plain_name
from coilwright.job.practice import Practice
from coilwright.store.files import StoreError
from coilwright.store.jobs import Store


def attempts_begun(store: Store, practice: Practice) -> tuple[Attempt, ...]:
    """The attempts at a practice job that are kept among the jobs of a store, whatever variant."""
    found = []
    for entry in store.jobs():
        if entry.title == practice.title:  # a job that is practiced on is called so
            with suppress(StoreError):
                found.append(store.load(entry.path).practice)
    return tuple(one for one in found if one is not None and one.practice == practice.name)


def of_variant(attempts: tuple[Attempt, ...], name: str, seed: int) -> tuple[Attempt, ...]:
    """Those of one person at one variant. A person is told by the name, whatever its capitals."""
    return tuple(one for one in attempts
                 if one.seed == seed and plain_name(one.name) == plain_name(name) != "")
