"""The invented example machines, demo jobs and coils on hand that come with the program.

In a checkout they stand in the top folders `machines` and `demo`; in an installed package
they lie beside the code.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple, TypeVar

from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.stock import Stock
from coilwright.store.files import read_text
from coilwright.store.reader import parse, read_model

Model = TypeVar("Model")

_PACKAGE = Path(__file__).parents[1]
_JOB = ".job.json"


class DemoEntry(NamedTuple):
    """A demo job as a list shows it."""

    title: str
    about: str


def folder(name: str) -> Path:
    """The folder `machines` or `demo`, wherever this copy of the program keeps it."""
    beside = _PACKAGE / name
    return beside if beside.is_dir() else _PACKAGE.parents[1] / name


def _files(name: str, suffix: str) -> Iterator[tuple[str, Path]]:
    for path in sorted(folder(name).glob(f"*{suffix}")):
        yield path.name.removesuffix(suffix), path


def _read(name: str, suffix: str, model: type[Model]) -> dict[str, Model]:
    return {
        key: read_model(read_text(path), model, path.name) for key, path in _files(name, suffix)
    }


@cache
def machines() -> dict[str, Machine]:
    """The example machines by key. Raises StoreError if one is damaged."""
    return _read("machines", ".machine.json", Machine)


@cache
def shipped_practice_names() -> frozenset[str]:
    """What the practice jobs are called that come with the program, by their files."""
    return frozenset(key for key, _ in _files("demo/practice", ".practice.json"))


@cache
def demo_entries() -> dict[str, DemoEntry]:
    """Title and description of each demo job by key, without making the jobs.

    The start screen lists them; loading what makes a job of a file would take longer than
    painting it. Raises StoreError if a file is no JSON.
    """
    found = {}
    for key, path in _files("demo", _JOB):
        data = parse(read_text(path), "coilwright-job", path.name)
        title, about = data.get("job", {}).get("name"), data.get("about")
        found[key] = DemoEntry(str(title or key), str(about or ""))
    return found


@cache
def demo_jobs() -> dict[str, Job]:
    """The demo jobs by key. Raises StoreError if one is damaged."""
    return _read("demo", _JOB, Job)


@cache
def demo_stock() -> Stock:
    """The example coils on hand. Raises StoreError if the file is damaged."""
    return _read("demo", ".stock.json", Stock)["shop"]
