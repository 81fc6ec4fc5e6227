"""Attempts at practice jobs as they are begun, and which were begun before in a data folder."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from coilwright.job.attempt import Attempt
from coilwright.job.plain_name import plain_name
from coilwright.job.practice import Practice
from coilwright.store.clock import now
from coilwright.store.files import StoreError
from coilwright.store.jobs import Store


def begin_attempt(store: Store, practice: Practice, seed: int, name: str) -> Attempt:
    """An attempt that is begun now, which knows how many the same person began at this variant
    here before."""
    attempt = Attempt(practice=practice.name, seed=seed, name=name.strip()[:80], begun=now())
    before = of_variant(attempts_begun(store, practice), attempt.name, seed)
    return replace(attempt, before=len(before))


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
