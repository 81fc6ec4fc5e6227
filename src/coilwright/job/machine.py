"""The machine: what it can form, hold and carry. Every limit may be unknown."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from coilwright.job.fields import STRICT, Length, Mass, Pitch, Speed, Thickness, Width
from coilwright.job.metal import MetalName
from coilwright.job.panel import Seam
from coilwright.units import System


@dataclass(frozen=True, kw_only=True, slots=True)
class Forming:
    """Thicknesses of one metal that the machine forms [in]."""

    __pydantic_config__ = STRICT

    thinnest: Thickness | None = None
    thickest: Thickness | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Profile:
    """One profile the machine has tooling for; widths are coverage widths [in]."""

    __pydantic_config__ = STRICT

    seam: Seam
    leg: Width
    narrowest: Width | None = None
    widest: Width | None = None
    take_up: Width | None = None
    lowest_pitch: Pitch | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Machine:
    """A roll former as its plate and manual describe it.

    forms: by metal; a metal that is not in it is one the machine does not form, unless the
    list is empty, which means that nothing is known yet.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-machine"] = "coilwright-machine"
    version: Literal[2] = 2
    name: str = ""
    about: str = ""
    invented: bool = False
    forms: dict[MetalName, Forming] = field(default_factory=dict)
    profiles: tuple[Profile, ...] = ()
    narrowest_strip: Width | None = None
    widest_strip: Width | None = None
    arbors: int | None = None
    arbor_load: Mass | None = None
    rack_load: Mass | None = None
    rack_diameter: Width | None = None
    smallest_coil_id: Width | None = None
    largest_coil_id: Width | None = None
    decoiler_load: Mass | None = None
    decoiler_diameter: Width | None = None
    decoiler_smallest_coil_id: Width | None = None
    decoiler_largest_coil_id: Width | None = None
    thread_up: Length | None = None
    tail: Length | None = None
    shortest_panel: Length | None = None
    speed: Speed | None = None
    weight: Mass | None = None

    @property
    def is_called_an_example(self) -> bool:
        """Whether it is an invented example that nobody has called by a machine's own name."""
        return self.invented and _INVENTED in self.name

    def profile(self, seam: Seam | None, leg: float | None) -> Profile | None:
        """The profile with this seam and leg height, if the machine has tooling for it."""
        for one in self.profiles:
            if one.seam is seam and leg is not None and abs(one.leg - leg) < 1e-6:
                return one
        return None


_INVENTED = "(invented)"
"""What the name of each example says of it."""


def asked_of_example(machine: Machine, guesses: int) -> str:
    """What is said before so many values of a machine are made sure at one key, where they are of
    an invented example; empty for any other machine."""
    if not machine.invented or not guesses:
        return ""
    values = "this value is" if guesses == 1 else f"these {guesses} values are"
    return (f"Not yet: {values} of an invented example. Held against your machine's plate and "
            "manual? Then the same once more makes them sure. Coils would be ordered and lifted "
            "by them.")


_MILLIMETER, _SIXTEENTH = 1 / 25.4, 1 / 16


def plate_system(machine: Machine) -> System:
    """The units its plate is in: those that more of its sizes are whole in.

    >>> plate_system(Machine(widest_strip=26.0)), plate_system(Machine(widest_strip=670 / 25.4))
    (<System.US: 'US'>, <System.METRIC: 'metric'>)
    """
    sizes = [size for size in (
        machine.narrowest_strip, machine.widest_strip, machine.rack_diameter,
        machine.smallest_coil_id, machine.largest_coil_id, machine.decoiler_diameter,
        *(one for profile in machine.profiles for one in (profile.narrowest, profile.widest)),
    ) if size is not None]
    in_inches, in_metric = (sum(abs(size / step - round(size / step)) < _LOOSE for size in sizes)
                            for step in (_SIXTEENTH, _MILLIMETER))
    return System.METRIC if in_metric > in_inches else System.US


_LOOSE = 1e-6
"""Of a step: a size this near to a whole number of them is one."""
