"""Lists for the terminal: saved jobs, and what machines hold and form."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from coilwright.drawing.safe_text import one_line
from coilwright.job.machine import Machine
from coilwright.units import System


def columns(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows in columns, as wide as they need to be; a row is one line, whatever it holds."""
    lines = [header, *([one_line(cell) for cell in row] for row in rows)]
    wide = [max(len(line[n]) for line in lines) for n in range(len(header))]
    return "".join(
        "  ".join(f"{cell:<{room}}" for cell, room in zip(line, wide, strict=True)).rstrip() + "\n"
        for line in lines
    )


def machine_text(key: str, machine: Machine, width: int, system: System) -> str:
    """A machine in a few lines: what it forms, which profiles it has, what it holds."""
    from coilwright.sheets.machine import machine_facts

    lines = [f"{key}: {machine.name}"]
    if machine.about:
        lines += textwrap.wrap(machine.about, width - 2, initial_indent="  ",
                               subsequent_indent="  ")
    facts = machine_facts(machine, system)
    wide = max((len(name) for name, _ in facts), default=0)
    lines += [f"  {name:<{wide}}  {value}" for name, value in facts]
    return "\n".join(lines) + "\n"
