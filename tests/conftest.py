"""What all tests share: modest, repeatable searches for counter-examples."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

settings.register_profile(
    "modest", max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("modest")
