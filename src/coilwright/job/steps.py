"""The wizard's steps, in order. A new step is a line here, answers, words and a form."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its key, its title, and what it settles."""

    key: str
    title: str
    about: str


STEPS: tuple[Step, ...] = (
    Step("job", "Job", "Who it is for, by when, and who decides."),
    Step("roof", "Roof", "The planes the panels must cover."),
    Step("metal", "Metal", "What the roof is made of, and how it is finished."),
    Step("machine", "Machine", "What the roll former can form, hold and carry."),
    Step("panel", "Panel", "The seam, the width that shows, and the metal the legs take up."),
    Step("trim", "Trim", "Pieces for the edges, and their blanks nested across the metal."),
    Step("coils", "Coils", "How many coils, how long, how heavy."),
    Step("haul", "Haul and lift", "Loads against plates: trailer, hitch, tie-downs, lifting."),
    Step("quotes", "Suppliers", "What each quote lands at, when it comes, what is missing."),
    Step("summary", "Summary", "Ready or not, and why; what to send."),
)


def step_number(key: str) -> int:
    """The step's number as people count, from 1. Raises KeyError for an unknown step."""
    for number, step in enumerate(STEPS, 1):
        if step.key == key:
            return number
    raise KeyError(key)

MISTAKEN_IN = ("job", "roof", "metal", "panel", "machine", "coils", "haul")
"""The steps in whose answers mistakes are made for practice."""
MISTAKES_OFFERED_IN = ("metal", "panel", "machine", "coils", "haul")
"""Those of them that are offered: in the others hardly any job takes a mistake that stops its order
and that no figure gives away; named all the same, they are tried."""
