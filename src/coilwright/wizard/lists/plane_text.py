"""Planes in words: a title, the panel list, the ends of all planes, edges. No screens here."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING

from coilwright.job.roof import Building
from coilwright.units import Kind, show
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.progress import names_of, waiting_for
from coilwright.wizard.widgets.columns import cells, fit, pad
from coilwright.words.counting import counted, listed

if TYPE_CHECKING:
    from coilwright.plan import Plan, PlanePlan

_GAP = "  "
_FOUND = 2
"""Lines that a form has for what is found of its row."""


def no_planes(plan: Plan) -> str:
    """What stands in the list of planes while there is none: what the shape that was picked waits
    for, or how there comes to be one."""
    if plan.job.roof.building is Building.PLANES:
        return "   none yet: Enter adds a plane"
    if not plan.job.roof.faces:
        return "   none yet: pick a shape above, or Enter adds a plane"
    lack = plan.lacks.get(Key.BUILDING_AREA)
    why, keys = waiting_for(plan, () if lack is None else lack.needs)
    waits = f": {why.value} {listed(names_of(keys))}" if keys else ""
    return f"   none yet{waits}"


def title_of(plan: Plan, plane: PlanePlan) -> str:
    """Number, name, area, pitch, and how many alike."""
    system = plan.job.units
    facts = [f"{plane.area.mark} {plane.area.text(system)}".strip()]
    if plane.pitch is not None:
        facts.append(f"pitch {show(plane.pitch, Kind.PITCH, system)}")
    if plane.alike > 1:
        facts.append(f"{plane.alike} planes alike")
    return f"{plane.number} {plane.name}: {', '.join(facts)}"


def panel_lines(plan: Plan, plane: PlanePlan, width: int) -> list[str]:
    """The panels of a plane by length and end cuts, with their numbers in the drawing."""
    from coilwright.drawing.plane_facts import end_words, length_mark, runs

    rows = plane.panel_list
    if not rows:
        return ["No panels yet: the Panel step still needs answers."]
    system, mark = plan.job.units, length_mark(plan, plane.number)
    head = ("count", "length", "eave end", "ridge end", "numbers")
    cells = [
        (f"{row.count}", f"{mark}{show(row.length, Kind.LENGTH, system)}", row.low.words,
         row.high.words, runs(row.numbers))
        for row in rows
    ]
    wide = [max(len(row[at]) for row in (head, *cells)) for at in range(4)]
    made = []
    for count, length, low, high, numbers in (head, *cells):
        lead = _GAP.join((count.rjust(wide[0]), length.rjust(wide[1]), low.ljust(wide[2]),
                          high.ljust(wide[3]))) + _GAP
        parts = textwrap.wrap(numbers, max(8, width - len(lead))) or [""]
        made.append(lead + parts[0])
        made.extend(" " * len(lead) + part for part in parts[1:])
    made.append("")
    made += textwrap.wrap(
        f"Ends: {end_words(plane, system)}. Numbers are those in the drawing, from the left. "
        "Lengths are as cut, allowance and rounding included; a slanted end is cut from square "
        "by its angle." + (" The count is for all planes alike." if plane.alike > 1 else ""),
        max(20, width),
    )
    return made


def ends_lines(plan: Plan, width: int) -> list[str]:
    """A line a plane: its panels, the widths at both ends, and whether one is a sliver."""
    from coilwright.drawing.plane_facts import end_words
    from coilwright.plan.panel.slivers import SLIVER

    least = plan.job.panel.narrowest_end
    least = SLIVER if least is None else least
    laid = [
        (plane, counted(len(plane.panels), "panel")
         + (f" × {plane.alike}" if plane.alike > 1 else ""))
        for plane in plan.planes if plane.end_widths is not None
    ]
    name = min(18, max((cells(plane.name) for plane, _ in laid), default=0))
    count = max((len(words) for _, words in laid), default=0)
    made = []
    for plane, words in laid:
        ends = plane.end_widths or (least, least)
        mark = "  ◂ sliver" if min(ends) < least and plane.panels else ""
        made.append(fit(
            f"{plane.number:>4} {pad(plane.name, name)}  {pad(words, count)}  "
            f"{end_words(plane, plan.job.units)}{mark}", width,
        ))
    return made


def sliver_lines(plan: Plan, width: int) -> list[str]:
    """The finding on slivers: which start avoids them and what it costs."""
    return [
        line
        for finding in plan.findings if finding.key == "panel.sliver"
        for line in textwrap.wrap(
            f"{finding.level.value.upper()}  {finding.what} {finding.do}", width,
            subsequent_indent="      ",
        )
    ]


def edge_findings(plan: Plan, width: int) -> list[str]:
    """What is said of edges: halves that do not agree, or have no partner."""
    endings = ("_unlike", "_alone", ".edge_gone")
    return [
        line
        for finding in plan.findings if finding.key.endswith(endings)
        for line in textwrap.wrap(
            f"{finding.level.value.upper()}  {finding.what} {finding.do}", width,
            subsequent_indent="      ",
        )
    ]


def row_findings(plan: Plan, *keys: str) -> list[Finding]:
    """What is found of a row by its key, or of what it lies in; the gravest first."""
    return [finding for finding in plan.findings
            if any(f"{one}.".startswith(f"{key}.")
                   for key in keys for one in (*finding.answers, finding.key))]


def found_lines(found: Sequence[Finding], width: int) -> list[str]:
    """The first of what is found of a row, and how many more there are; two lines where it can be.
    """
    if not found:
        return []
    first, more = found[0], len(found) - 1
    count = f" (+{more} more on the summary)" if more else ""
    level = first.level.value.upper()
    said = [textwrap.wrap(f"{level}  {escape_controls(text)}{count}", max(20, width),
                          subsequent_indent=" " * (len(level) + 2))
            for text in (f"{first.what} {first.do}", first.what)]
    return next((lines for lines in said if len(lines) <= _FOUND), said[-1])


def total_lines(plan: Plan, width: int) -> list[str]:
    """All edges of the roof by kind, true lengths."""
    from coilwright.drawing.plane_facts import edge_totals

    totals = edge_totals(plan)
    if not totals:
        return []
    words = " · ".join(f"{kind.value} {length}" for kind, length in totals)
    return textwrap.wrap(f"Whole roof: {words}", width, subsequent_indent="  ")
