"""Going from plane to plane."""

from __future__ import annotations

from coilwright.wizard.session import Session


def next_number(session: Session, by: int) -> int:
    """The number of the drawn plane after the chosen one, or before it, round and round."""
    numbers = [plane.number for plane in session.plan.planes]
    if not numbers:
        return session.chosen_plane
    at = numbers.index(session.chosen_plane) if session.chosen_plane in numbers else -by
    return numbers[(at + by) % len(numbers)]
