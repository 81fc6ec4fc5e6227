"""The invented example machines, demo jobs and coils on hand that come with the program.

In a checkout they stand in the top folders `machines` and `demo`; in an installed package
they lie beside the code.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TypeVar

from coilwright.job.fields import Frozen
from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.stock import Stock
from coilwright.store import read_model, read_text

Model = TypeVar("Model", bound=Frozen)

_HERE = Path(__file__).parent


def folder(name: str) -> Path:
    """The folder `machines` or `demo`, wherever this copy of the program keeps it."""
    beside = _HERE / name
    return beside if beside.is_dir() else _HERE.parents[1] / name


def _read(name: str, suffix: str, model: type[Model]) -> dict[str, Model]:
    return {
        path.name.removesuffix(suffix): read_model(read_text(path), model, path.name)
        for path in sorted(folder(name).glob(f"*{suffix}"))
    }


@cache
def machines() -> dict[str, Machine]:
    """The example machines by key. Raises StoreError if one is damaged."""
    return _read("machines", ".machine.json", Machine)


@cache
def demo_jobs() -> dict[str, Job]:
    """The demo jobs by key. Raises StoreError if one is damaged."""
    return _read("demo", ".job.json", Job)


@cache
def demo_stock() -> Stock:
    """The example coils on hand. Raises StoreError if the file is damaged."""
    return _read("demo", ".stock.json", Stock)["shop"]
