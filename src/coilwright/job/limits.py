"""How long a list in a file may be: far longer than any job needs, short enough to work with.

What is longer is refused where it is read and where it is written, so that whatever is written
can be opened again.
"""

from __future__ import annotations

from collections.abc import Mapping

MOST_ROWS = 1_000
"""Entries of a list: planes, pieces of trim, coils on hand, suppliers and all others."""
MOST_NAMES = 10_000
"""Entries of an object: a thousand rows may each have several marks."""
MOST_LETTERS = 20_000
"""Signs of one text; whole sheets and jobs, as they were sent, are as long as they are."""
MOST_CORNERS = 6_000
"""Corners of all planes together, four of them for an opening: beyond that nothing is drawn."""
MOST_ENTRIES = 60_000
"""Entries of all lists and objects of a file together: a thousand planes have some ten thousand."""
MOST_SHARED_OUT = 4_000
"""Panels that differ in plane or length, beyond which no longer search is made: its cuts are kept
with the job, and take three entries each."""
_WHOLE = frozenset(("sheet", "job"))
_MOST_OF: Mapping[str, int] = {
    "corners": 100, "openings": 50, "building_openings": 50, "received": 100, "coils": 2_000,
    "on_hand": 200, "arrived": 500,
    # Of cuts that were found: as many as there are different panels and strips.
    "panels": MOST_SHARED_OUT, "cuts": MOST_SHARED_OUT, "rooms": MOST_SHARED_OUT,
}
"""By the name of a list, where it has a limit of its own."""


def most_of(name: str) -> int:
    """How many entries the list of a name may have."""
    return _MOST_OF.get(name, MOST_ROWS)


def too_long(name: str, letters: int) -> str:
    """Why the text of a name cannot be so long, in one sentence; empty where it can."""
    if letters <= MOST_LETTERS or name in _WHOLE:
        return ""
    return f"a text of {letters:,} signs is longer than any; {MOST_LETTERS:,} is the most"


def no_room(name: str, count: int) -> str:
    """Why a list of a name cannot have so many entries, in one sentence; empty where it can."""
    most = most_of(name)
    if count <= most:
        return ""
    return f"{count:,} are more than any job has; {most:,} is the most"
