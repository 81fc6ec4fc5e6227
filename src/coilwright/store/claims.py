"""Coils on hand that more than one job counts on: read from the state line of each, never planned.

A coil can be cut once. A job claims it while the list of coils on hand has it as the job took it:
after a run what is left of it differs, and the job that ran claims it no longer.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.stock import CoilOnHand, Stock
from coilwright.store.files import StoreError
from coilwright.store.stock import stock_path

_MOST_NAMED = 3
"""So many other jobs that claim a coil are named; the rest are counted."""

Claims = Mapping[str, str]
"""By the tag of a coil, a checksum of its sizes as the job took it."""


class Claimant(NamedTuple):
    """A job that claims coils: where it is, what it is called, and which."""

    path: Path
    title: str
    claims: Claims


def claims(job: Job) -> dict[str, str]:
    """The coils a job counts on; none once it was run and what was left is put back."""
    if job.life.state is OrderState.RUN and job.put_back_on is not None:
        return {}
    return {coil.tag: _mark(coil) for coil in job.on_hand}


def _mark(coil: CoilOnHand) -> str:
    sizes = (coil.thickness, coil.width, coil.length, coil.outside, coil.inside)
    text = ", ".join("" if size is None else repr(float(size)) for size in sizes)
    return f"{zlib.crc32(f'{coil.metal.value}, {text}'.encode()):08x}"


def shared_coils(
    claimants: Iterable[Claimant], folder: Path
) -> dict[str, tuple[Claimant, ...]]:
    """By tag, the jobs of each coil in stock that more than one of them claims.

    The list of coils on hand is read only where jobs have a coil in common.
    """
    by_coil: dict[tuple[str, str], list[Claimant]] = {}
    for claimant in claimants:
        for tag, mark in claimant.claims.items():
            by_coil.setdefault((tag, mark), []).append(claimant)
    several = {coil: found for coil, found in by_coil.items() if len(found) > 1}
    if not several:
        return {}
    in_stock = _in_stock(folder)
    return {
        tag: tuple(found) for (tag, mark), found in several.items() if in_stock.get(tag) == mark
    }


def claimed_of(stock: Stock, claimants: Iterable[Claimant]) -> dict[str, str]:
    """By tag, which jobs claim a coil as the list has it, in words; one nobody claims is not there.
    """
    here = {(coil.tag, _mark(coil)): coil.tag for coil in stock.coils}
    by_tag: dict[str, list[str]] = {}
    for claimant in claimants:
        for tag, mark in claimant.claims.items():
            if (tag, mark) in here:
                by_tag.setdefault(tag, []).append(f"“{claimant.title}”")
    return {tag: _named(titles) for tag, titles in by_tag.items()}


def _in_stock(folder: Path) -> dict[str, str]:
    from coilwright.store.reader import read_or_empty  # a list of jobs mostly does without

    try:
        stock = read_or_empty(stock_path(folder), Stock)
    except StoreError:
        # The list of coils itself says what is wrong with its file.
        return {}
    return {coil.tag: _mark(coil) for coil in stock.coils}


ClaimsByJob = Mapping[Path, Mapping[str, Sequence[Claimant]]]
"""By the path of a job, the coils that others claim too: by tag, all that claim it."""


def claims_by_job(shared: Mapping[str, Sequence[Claimant]]) -> ClaimsByJob:
    """Shared coils by the job that claims them: a list of jobs asks for each of its rows."""
    by_job: dict[Path, dict[str, Sequence[Claimant]]] = {}
    for tag, found in shared.items():
        for one in found:
            by_job.setdefault(one.path, {})[tag] = found
    return by_job


def claim_words(by_job: ClaimsByJob, path: Path) -> str:
    """Which coils of a job others claim too, and which others; empty for none."""
    parts = []
    for tag, found in by_job.get(path, {}).items():
        others = [f"“{one.title}”" for one in found if one.path != path]
        parts.append(f"coil {tag} is claimed by {_named(others)} too")
    return "; ".join(parts)


def _named(titles: Sequence[str]) -> str:
    """The first few of some jobs, and how many more there are."""
    more = len(titles) - _MOST_NAMED
    return " and ".join((*titles[:_MOST_NAMED], *([f"{more:,} more"] if more > 0 else ())))
