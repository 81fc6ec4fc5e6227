"""What all tests share: modest searches for counter-examples, the same ones on every run.

A change is judged by what it changes, not by the luck of the draw. To look for new
counter-examples, run with `--hypothesis-profile=search`: other draws every time.

`-m quick` runs what is soon over: no screens, no processes, no generated examples.
"""

from __future__ import annotations

import gc
import inspect
import os
import pkgutil
import re
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

import coilwright

# Where no bytecode is kept, every worker and every process that a test starts compiles all anew.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# Thousands of short tests leave little behind: looking for garbage often is a tenth of their time.
gc.set_threshold(200_000, 20, 100)

_SLOW_IS_FINE = [HealthCheck.too_slow]
settings.register_profile(
    "search", max_examples=60, deadline=None, suppress_health_check=_SLOW_IS_FINE
)
settings.register_profile(
    "modest", settings.get_profile("search"), derandomize=True, max_examples=20
)
settings.load_profile("modest")


_SLOW_FIXTURES = {"process"}
_ONLY_SLOW = re.compile(r"^pytestmark = pytest\.mark\.slow$|^import subprocess$", re.MULTILINE)
_PLAIN_TEST = re.compile(r"^ *def test_", re.MULTILINE)


def has_only_slow_tests(path: Path) -> bool:
    """Whether no test of a file is quick, told without loading it: solvers, processes, screens."""
    text = path.read_text("utf-8")
    return bool("_against_" in path.name or _ONLY_SLOW.search(text)) or not _PLAIN_TEST.search(text)


def pytest_configure(config: pytest.Config) -> None:
    """Load all modules wherever tests run: in each worker, or here where there is none.

    What hypothesis draws depends on the constants in the modules that are loaded; so it does not
    depend on which tests a worker has run before.
    """
    if config.getoption("numprocesses", None):
        return
    for module in pkgutil.walk_packages(coilwright.__path__, "coilwright."):
        if not module.name.endswith("__main__"):
            import_module(module.name)


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Leave a file without a quick test unread where only those are wanted."""
    if config.option.markexpr != "quick" or not collection_path.match("test_*.py"):
        return None
    return has_only_slow_tests(collection_path) or None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what is quick, so that a new test is one or the other without being told."""
    slow_files = {path for path in {item.path for item in items} if has_only_slow_tests(path)}
    for item in items:
        slow = (
            item.path in slow_files
            or item.get_closest_marker("slow") is not None
            or inspect.iscoroutinefunction(getattr(item, "obj", None))
            or getattr(getattr(item, "obj", None), "is_hypothesis_test", False)
            or not _SLOW_FIXTURES.isdisjoint(getattr(item, "fixturenames", ()))
        )
        item.add_marker("slow" if slow else "quick")


def pytest_collection_finish() -> None:
    """What was loaded stays: the search for garbage need not look through it again."""
    gc.freeze()


def pytest_sessionfinish() -> None:
    """What is left goes with the process: to look through all of it takes ten seconds.

    That no error comes of garbage is tried where much of it is made: the fixture `collected`.
    """
    gc.freeze()


@pytest.fixture
def collected(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """What a test leaves is collected at its end, and no error comes of it."""
    errors: list[str] = []
    gc.freeze()  # not what others left
    with monkeypatch.context() as patched:
        patched.setattr(gc, "freeze", lambda: None)
        patched.setattr(sys, "unraisablehook", lambda wrong: errors.append(repr(wrong)))
        yield
        assert gc.collect() > 0
    assert errors == []


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One file, or one test, is sooner over without workers."""
    one = len(config.args) == 1 and ".py" in config.args[0]
    return 0 if one else None
