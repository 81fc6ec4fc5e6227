"""What is said where somebody is about to begin a practice job."""

from __future__ import annotations

from coilwright.job.practice import Practice
from coilwright.store import Store
from coilwright.store.begun import attempts_begun, of_variant

_VARIES = ("Neighbors take different variants: the same lesson, a few sizes others, and what "
           "follows from them.")
_ONE = "It has one variant only: neighbors get the same numbers."


class BeginWords:
    """Says what a variant is, and of the one that is typed whether its name has begun it before."""

    def __init__(self, store: Store, practice: Practice) -> None:
        self._about = _VARIES if practice.varies else _ONE
        self._begun = attempts_begun(store, practice)

    def __call__(self, texts: tuple[str, ...]) -> str:
        """By the texts as they stand: the name, and the variant where there are several."""
        name, *more = texts
        seed = more[0].strip() if more else "0"
        own = of_variant(self._begun, name, int(seed)) if seed.isdecimal() and len(seed) < 9 else ()
        variant = f"Variant {seed}" if more else "It"
        if any(one.handed_in is not None for one in own):
            again = " Another variant is new." if more else ""
            return (f"{self._about} {variant} was handed in by that name: in a class the first "
                    f"attempt at it counts.{again}")
        if own:
            return (f"{self._about} {variant} was begun by that name, and stands in the list of "
                    "jobs, not handed in yet.")
        return self._about
