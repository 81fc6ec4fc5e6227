"""What a table of planes holds, in words, and what is left of its text. No screens here."""

from __future__ import annotations

from coilwright.job.roof import Plane, Shape
from coilwright.store.plane_rows import Rows
from coilwright.units import Kind, System, show


def said_of_rows(rows: Rows, system: System) -> list[str]:
    """Bad rows by number and reason, then the planes, then columns that were passed over."""
    made = [f"× row {bad.number}: {bad.reason}   ({bad.text[:60]})" for bad in rows.bad]
    made += [f"✓ {number} {_plane(plane, system)}" for number, plane in enumerate(rows.good, 1)]
    if rows.ignored:
        made.append(f"Columns passed over: {', '.join(rows.ignored)}.")
    return made


def _plane(plane: Plane, system: System) -> str:
    def said(size: float | None) -> str:
        return "" if size is None else show(size, Kind.LENGTH, system)

    if plane.shape is Shape.CORNERS:
        facts = [f"{len(plane.corners)} corners"]
    else:
        facts = [f"{said(plane.eave)} × {said(plane.slope_length)}"]
    if plane.top is not None:
        facts.append(f"top {said(plane.top)}")
    if plane.pitch is not None:
        facts.append(f"pitch {show(plane.pitch, Kind.PITCH, system)}")
    if plane.alike > 1:
        facts.append(f"{plane.alike} alike")
    if plane.openings:
        facts.append(f"openings {len(plane.openings)}")
    return f"{plane.name or 'no name'}: {plane.shape.value} {', '.join(facts)}, {plane.measured}"


def rest_of(text: str, rows: Rows) -> str:
    """The text without the rows that were taken: headings and bad rows, or nothing.

    A text with quoted cells may have rows of several lines, so it is left whole while a row of
    it is bad.
    """
    if not rows.bad:
        return ""
    if '"' in text:
        return text
    lines = text.splitlines()
    first = next((n for n, line in enumerate(lines, 1) if line.strip()), 1)
    filled = sum(1 for line in lines if line.strip(" \t,;"))
    kept = {bad.number for bad in rows.bad}
    if filled > len(rows.good) + len(rows.bad):
        kept.add(first)  # the headings
    return "\n".join(line for number, line in enumerate(lines, 1) if number in kept)
