"""Lists for the terminal: saved jobs, and what machines hold and form."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from coilwright.drawing.safe_text import one_line
from coilwright.job.machine import Machine, Profile
from coilwright.units import Kind, show


def columns(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Rows in columns, as wide as they need to be; a row is one line, whatever it holds."""
    lines = [header, *([one_line(cell) for cell in row] for row in rows)]
    wide = [max(len(line[n]) for line in lines) for n in range(len(header))]
    return "".join(
        "  ".join(f"{cell:<{room}}" for cell, room in zip(line, wide, strict=True)).rstrip() + "\n"
        for line in lines
    )


def machine_text(key: str, machine: Machine, width: int) -> str:
    """A machine in a few lines: what it forms, which profiles it has, what it holds."""
    lines = [f"{key}: {machine.name}"]
    if machine.about:
        lines += textwrap.wrap(machine.about, width - 2, initial_indent="  ",
                               subsequent_indent="  ")
    facts = [*_facts(machine)]
    wide = max((len(name) for name, _ in facts), default=0)
    lines += [f"  {name:<{wide}}  {value}" for name, value in facts]
    return "\n".join(lines) + "\n"


def _facts(machine: Machine) -> Iterator[tuple[str, str]]:
    for metal, forming in machine.forms.items():
        yield f"forms {metal.value}", _range(forming.thinnest, forming.thickest, Kind.THICKNESS)
    strip = _range(machine.narrowest_strip, machine.widest_strip, Kind.WIDTH)
    yield "strip width", strip
    for profile in machine.profiles:
        yield "profile", _profile(profile)
    if machine.arbors:
        yield "arbors", f"{machine.arbors}"
    for name, value, kind in (
        ("load on one arbor", machine.arbor_load, Kind.MASS),
        ("load on all arbors", machine.rack_load, Kind.MASS),
        ("rack: largest coil", machine.rack_diameter, Kind.WIDTH),
        ("decoiler load", machine.decoiler_load, Kind.MASS),
        ("decoiler: largest coil", machine.decoiler_diameter, Kind.WIDTH),
    ):
        if value is not None:
            yield name, show(value, kind)
    if machine.smallest_coil_id is not None or machine.largest_coil_id is not None:
        yield "rack: inside diameter", _range(
            machine.smallest_coil_id, machine.largest_coil_id, Kind.WIDTH
        )
    if (machine.decoiler_smallest_coil_id, machine.decoiler_largest_coil_id) != (None, None):
        yield "decoiler: inside diameter", _range(
            machine.decoiler_smallest_coil_id, machine.decoiler_largest_coil_id, Kind.WIDTH
        )


def _profile(profile: Profile) -> str:
    words = f"{profile.seam.value}, leg {show(profile.leg, Kind.WIDTH)}"
    words += f", coverage {_range(profile.narrowest, profile.widest, Kind.WIDTH)}"
    if profile.take_up is not None:
        words += f", take-up {show(profile.take_up, Kind.WIDTH)}"
    if profile.lowest_pitch is not None:
        words += f", from {show(profile.lowest_pitch, Kind.PITCH)}"
    return words


def _range(least: float | None, most: float | None, kind: Kind) -> str:
    if least is not None and most is not None:
        return f"{show(least, kind)} to {show(most, kind)}"
    if least is not None:
        return f"from {show(least, kind)}"
    return f"up to {show(most, kind)}" if most is not None else "not known"
