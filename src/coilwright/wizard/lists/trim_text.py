"""Trim in lines of text: a piece as the list shows it, and blanks as they are cut. No screens."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from coilwright.job.rows.trim import standing_of
from coilwright.plan.trim import covered_key
from coilwright.units import Kind, System, show
from coilwright.values.rounding import show_rounded, step_up
from coilwright.values.standing import Standing
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.widgets.columns import cells, fit, pad
from coilwright.words.counting import counted, noun

if TYPE_CHECKING:
    from coilwright.plan import Plan, TrimNest
    from coilwright.plan.result import TrimRow

_ONE_LINE = 81
"""Cells a piece takes on one line."""


def piece_row(plan: Plan, index: int, width: int) -> str:
    """One piece on a line, or two where there is little room.

    Name, where, flat width, pieces, metal; ~ stands before one that is a guess.
    """
    piece, system = plan.job.trim.pieces[index], plan.job.units
    guess = standing_of(plan.job, index) is not Standing.SURE
    # The first cell is left to the mark of the row one is at.
    named, number = escape_controls(piece.name), f" {'~' if guess else ''}{index + 1}".rjust(3)
    name = pad(named, min(30, max(16, width - 65)) + 3 - len(number))
    row = next((r for r in plan.trim if r.number == index + 1), None)
    if row is not None:
        mark = row.count.mark or " "
        size = (
            f"{pad(f'{row.flat_width.mark}{row.flat_width.text(system)} flat', 15)} {mark}"
            f"{pad(_blanks(row, system), 20)}"
        )
    else:
        size = pad(why_not(plan, index), 37)
    if width < _ONE_LINE:
        head = f"{number} {pad(named, min(30, max(20, width - 27)))} " \
               f"{pad(piece.goes_on, 11)} "
        return f"{fit(head + piece.made_from, width)}\n{fit(f'      {size}', width)}"
    return fit(f"{number} {name} {pad(piece.goes_on, 11)} {size} {piece.made_from}", width)


def _blanks(row: TrimRow, system: System) -> str:
    """How many blanks of which length, short: all of a run but its last are as long as a blank; one
    that reaches no further than a side or an end is cut to that, up to the next inch or 10 mm."""
    many = row.count.text(system)
    if row.has_whole:
        return f"{many} of {row.blank.text(system)}"
    up = show_rounded(step_up(row.sizes[0][0], Kind.LENGTH, system), Kind.LENGTH, system)
    return f"{many} {'of' if len(row.sizes) == 1 else 'up to'} {up}"


def why_not(plan: Plan, index: int) -> str:
    """Why a piece has no blanks yet, in a few words."""
    piece, key = plan.job.trim.pieces[index], f"trim.{index + 1}"
    if any(f.key == f"{key}.none" for f in plan.findings):
        return f"the roof has no {piece.goes_on}"
    if any(typed.startswith(f"trim.pieces.{index}.") for typed in plan.job.typed):
        return "unclear: open it"
    if piece.flat_width is None and not piece.legs:
        return "flat width is missing"
    if any(f.key == f"{key}.cannot" for f in plan.findings):
        return "cannot be made so: open it"
    lack = plan.lacks.get(f"{key}.count")
    return "length is missing" if lack is not None and not lack.needs else "waits for answers"


def about_piece(plan: Plan, index: int) -> list[str]:
    """What follows from a piece's measures, or the finding on it."""
    key, system = f"trim.{index + 1}", plan.job.units
    for finding in plan.findings:
        if finding.key in (f"{key}.cannot", f"{key}.none"):
            return [f"{finding.level.value.upper()} {finding.what} {finding.do}"]
    row = next((r for r in plan.trim if r.number == index + 1), None)
    if row is None:
        lack = plan.lacks.get(f"{key}.count")
        if lack is not None and lack.because:
            return [f"Not yet: {lack.because}."]
        return ["Its blanks wait for answers that are still open."]
    piece = row.piece
    length = plan.figures.get(f"{key}.length") or plan.figures.get(covered_key(piece) or "")
    covers = "covers" if row.count.value == 1 else "cover"
    cover = f" {covers} {length.text(system)}" if length is not None else ""
    pieces, longest = noun(row.count.value, "piece"), show(row.sizes[0][0], Kind.LENGTH, system)
    long = f" of {longest}" if len(row.sizes) == 1 else f", {longest} at most,"
    said = (
        f"{row.count.mark}{row.count.text(system)} {pieces}{long}{cover}; "
        f"flat width {row.flat_width.mark}{row.flat_width.text(system)}; blanks "
        f"{row.area.mark}{row.area.text(system)}."
    )
    lines = [said]
    if sides := _sides(plan, key):
        lap = row.piece.lap or plan.job.trim.lap or 0.0
        lines.append(f"Sides: {sides}. Each blank is its side and the lap past its corner, "
                     f"{show(lap, Kind.LENGTH, system)}; what it leaves of its row goes on to the "
                     "next.")
    if piece.flat_width is not None and (piece.legs or piece.hems):
        lines.append("The flat width that is given counts; its legs and hems do not.")
    elif (plain := plan.figures.get(f"{key}.plain")) is not None:
        lines += [
            f"Legs and hems added up: {plain.text(system)}. With its bends: "
            f"{row.flat_width.mark}{row.flat_width.text(system)}.",
            "Bend one and measure it before the rest is cut: brakes differ.",
        ]
    return lines


def _sides(plan: Plan, key: str) -> str:
    """How many sides of which length a piece around openings covers; empty for any other."""
    said = list[str]()
    for at in count(1):
        side, many = (plan.figures.get(f"{key}.run{at}.{what}") for what in ("side", "count"))
        if side is None or many is None:
            return ", ".join(said)
        said.append(f"{many.text(plan.job.units)} × {side.text(plan.job.units)}")
    return ""


def nest_lines(plan: Plan, nest: TrimNest, width: int) -> list[str]:
    """One metal: how many sheets or rows, what each row is cut into, and what is left."""
    system, pieces = plan.job.units, plan.job.trim.pieces
    rows = f"{nest.rows.mark}{nest.rows.text(system)} {noun(nest.rows.value, 'row')}"
    if nest.all_whole:
        rows += f" of {nest.blank.text(system)}"
    else:
        rows += f", the longest {nest.blank.text(system)}"
    if nest.sheets is not None:
        sheets = f"{nest.sheets.text(system)} {noun(nest.sheets.value, 'sheet')}"
        along = counted(int(plan.figures[f"{nest.key}.along"].value), "row")
        many = f"on {nest.sheets.mark}{sheets}, {along} of {nest.blank.text(system)} from each"
        if len({pattern.length for pattern in nest.patterns}) > 1:
            many += ", short rows end to end"
    else:
        many = f"{nest.length.mark}{nest.length.text(system)} of coil"
    on = f"{many};".replace(", ", ",\n").split("\n")
    drop = f"{nest.drop.mark}{nest.drop.text(system)}"
    proof = ("fewer rows cannot do" if nest.has_fewest_rows
             else f"{counted(nest.bound, 'row')} at least")
    lines = [
        fit(f"{nest.made_from}, {nest.width.text(system)} wide: {rows}", width),
        *_wrapped("  ", [*on, f"drop {drop};", proof], "", width, " "),
    ]
    flat_widths = {
        row.number: f"{row.flat_width.mark}{row.flat_width.text(system)}" for row in plan.trim
    }
    for pattern in nest.patterns:
        left = f"{show(pattern.drop, Kind.WIDTH, system)} drop"
        if pattern.length < nest.blank.value:
            left += f", the row {show(pattern.length, Kind.LENGTH, system)} long"
        cuts = [
            f"{count} × {flat_widths[number]} {escape_controls(pieces[number - 1].name)}"
            for number, count in pattern.across
        ]
        times = "1 row: " if pattern.times == 1 else f"{pattern.times} rows: "
        lines.extend(_wrapped(f"  {times:<9}", cuts, f"; {left}", width, " + "))
    return lines


def _wrapped(head: str, parts: list[str], tail: str, width: int, sign: str) -> list[str]:
    """Parts on as many lines as it takes: nobody cuts from a line that is cut short."""
    room = width - len(sign.rstrip()) - 1
    lines, now = [], head + parts[0]
    # What is left over may stand on a line of its own too.
    left = [said for said in tail.replace(", ", "\n, ").split("\n") if said]
    more = [*((sign, part) for part in parts[1:]),
            *((f"{said[0]} ", said[1:].strip()) for said in left)]
    for between, part in more:
        if cells(now + between + part) > room:
            lines.append(now + between.rstrip())
            now = " " * len(head) + part
        else:
            now += between + part
    return [fit(line, width) for line in (*lines, now)]
