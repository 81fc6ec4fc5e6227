"""What a machine forms and holds, in words."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coilwright.job.answers import answers_of
from coilwright.job.job import Job
from coilwright.job.machine import Machine, Profile
from coilwright.sheets.blocks import Text, line, strong
from coilwright.units import Kind, System, show
from coilwright.values.standing import Standing

EXAMPLE = "(invented)"
"""In the name of each machine that comes with the program, which is nobody's."""


def machine_text(job: Job) -> Text:
    """What the machine is called on our sheets: an example is one until its values were held
    against a plate; then the mark in its name says nothing that is so."""
    name = job.machine.name or ""
    if EXAMPLE not in name.casefold():
        return line(name)
    guessed = any(one.section == "machine" and one.asked(job)
                  and one.standing(job) is Standing.GUESS for one in answers_of("machine"))
    if guessed:
        return line(name, strong("; only an example, until its plate is read"))
    bare = re.sub(re.escape(EXAMPLE), "", name, flags=re.IGNORECASE)
    return line(" ".join(bare.split()))


def machine_facts(machine: Machine, system: System = System.US) -> tuple[tuple[str, str], ...]:
    """What a machine forms and holds: what it is about and the words for it, one after another.

    What is not known is left out, but for the strip's width and a profile's coverage.
    """
    return tuple(_facts(machine, system))


def _facts(machine: Machine, system: System) -> Iterator[tuple[str, str]]:
    for metal, forming in machine.forms.items():
        yield f"forms {metal.value}", _range(
            forming.thinnest, forming.thickest, Kind.THICKNESS, system
        )
    yield "strip width", _range(
        machine.narrowest_strip, machine.widest_strip, Kind.WIDTH, system
    )
    for profile in machine.profiles:
        words = f"{profile_name(profile, system)}, {profile_facts(profile, system)}"
        yield "profile", words
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
            yield name, show(value, kind, system)
    if machine.smallest_coil_id is not None or machine.largest_coil_id is not None:
        yield "rack: inside diameter", _range(
            machine.smallest_coil_id, machine.largest_coil_id, Kind.WIDTH, system
        )
    if (machine.decoiler_smallest_coil_id, machine.decoiler_largest_coil_id) != (None, None):
        yield "decoiler: inside diameter", _range(
            machine.decoiler_smallest_coil_id, machine.decoiler_largest_coil_id, Kind.WIDTH,
            system,
        )


def profile_name(profile: Profile, system: System) -> str:
    """A profile in a few words: its seam and leg."""
    return f"{profile.seam.value}, leg {show(profile.leg, Kind.WIDTH, system)}"


def profile_facts(profile: Profile, system: System) -> str:
    """What else a machine says of a profile: coverage, take-up, lowest pitch."""
    words = f"coverage {_range(profile.narrowest, profile.widest, Kind.WIDTH, system)}"
    if profile.take_up is not None:
        words += f", take-up {show(profile.take_up, Kind.WIDTH, system)}"
    if profile.lowest_pitch is not None:
        words += f", from {show(profile.lowest_pitch, Kind.PITCH, system)}"
    return words


def _range(least: float | None, most: float | None, kind: Kind, system: System) -> str:
    if least is not None and most is not None:
        return f"{show(least, kind, system)} to {show(most, kind, system)}"
    if least is not None:
        return f"from {show(least, kind, system)}"
    return f"up to {show(most, kind, system)}" if most is not None else "not known"


def about_machine(machine: Machine, system: System = System.US) -> tuple[str, ...]:
    """What is said of a machine, a line each: its story, whether it is invented, its facts."""
    lines = [machine.about] if machine.about else []
    if machine.invented:
        lines.append("An invented example: hold every value against your machine's own plate.")
    lines += [f"{about}: {words}" for about, words in machine_facts(machine, system)]
    return (*lines, "The rating plate and the manual decide, not this list.")
