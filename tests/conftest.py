"""What all tests share: modest searches for counter-examples, the same ones on every run.

A change is judged by what it changes, not by the luck of the draw. To look for new
counter-examples, run with `--hypothesis-profile=search`: other draws every time.

`-m quick` runs what is soon over: no screens, no processes, no generated examples.
"""

from __future__ import annotations

import gc
import inspect
import pkgutil
from importlib import import_module

import pytest
from hypothesis import HealthCheck, settings

import coilwright

# What hypothesis draws depends on the constants in the modules that are loaded; all are loaded
# here, so that it does not depend on which tests a worker has run before.
for _module in pkgutil.walk_packages(coilwright.__path__, "coilwright."):
    if not _module.name.endswith("__main__"):
        import_module(_module.name)

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


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what is quick, so that a new test is one or the other without being told."""
    for item in items:
        test = getattr(item, "obj", None)
        slow = (
            item.get_closest_marker("slow") is not None
            or inspect.iscoroutinefunction(test)
            or getattr(test, "is_hypothesis_test", False)
            or "_against_" in item.path.name  # solvers
            or "subprocess" in vars(getattr(item, "module", None) or object)
            or not _SLOW_FIXTURES.isdisjoint(getattr(item, "fixturenames", ()))
        )
        item.add_marker("slow" if slow else "quick")


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """One file, or one test, is sooner over without workers."""
    one = len(config.args) == 1 and ".py" in config.args[0]
    return 0 if one else None
