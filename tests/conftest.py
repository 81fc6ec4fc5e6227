"""What all tests share: modest searches for counter-examples, the same ones on every run.

A change is judged by what it changes, not by the luck of the draw. To look for new
counter-examples, run with `--hypothesis-profile=search`: other draws every time.
"""

from __future__ import annotations

from hypothesis import HealthCheck, settings

_SLOW_IS_FINE = [HealthCheck.too_slow]
settings.register_profile(
    "search", max_examples=60, deadline=None, suppress_health_check=_SLOW_IS_FINE
)
settings.register_profile("modest", settings.get_profile("search"), derandomize=True)
settings.load_profile("modest")
