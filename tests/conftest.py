"""What all tests share: modest searches for counter-examples, the same ones on every run.

A change is judged by what it changes, not by the luck of the draw. To look for new
counter-examples, run with `--hypothesis-profile=search`: other draws every time.
"""

from __future__ import annotations

import pkgutil
from importlib import import_module

from hypothesis import HealthCheck, settings

import coilwright

# What hypothesis draws depends on the constants in the modules that are loaded; all are loaded
# here, so that it does not depend on which tests a worker has run before.
for _module in pkgutil.walk_packages(coilwright.__path__, "coilwright."):
    if not _module.name.endswith("__main__"):
        import_module(_module.name)

_SLOW_IS_FINE = [HealthCheck.too_slow]
settings.register_profile(
    "search", max_examples=60, deadline=None, suppress_health_check=_SLOW_IS_FINE
)
settings.register_profile("modest", settings.get_profile("search"), derandomize=True)
settings.load_profile("modest")
