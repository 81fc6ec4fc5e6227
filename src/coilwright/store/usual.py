"""What a shop's jobs are in, as the file of one says it; looked into, and not read as a job."""

from __future__ import annotations

import json
from dataclasses import dataclass

from coilwright.units import System


@dataclass(frozen=True, slots=True)
class Usual:
    """What a shop's jobs are in. currency: empty where it is none but the usual."""

    units: System = System.US
    currency: str = ""


def usual_in(text: str) -> Usual | None:
    """What a job's text says it is in; None for no job, or none of the shop's own."""
    try:
        data = json.loads(text)
        if "format" not in data or data.get("practice") or data.get("about"):
            return None
        # Of a job that has only begun, its own section may not be there yet.
        head = data.get("job", {})
        return Usual(System(data.get("units", System.US)), str(head.get("currency") or ""))
    except (ValueError, LookupError, AttributeError, TypeError, RecursionError):
        return None
