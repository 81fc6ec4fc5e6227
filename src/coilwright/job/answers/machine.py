"""Answers about the machine. What a metal needs is asked for the one chosen.

What it says of one profile is asked on the Panel step, where seam and leg are.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

from coilwright.job.answers.round_length import RoundLength
from coilwright.job.answers.spec import Answer, Form, always
from coilwright.job.job import Job
from coilwright.job.machine import Forming, Profile
from coilwright.units import Kind
from coilwright.values.keys import answer_key


class MachineKey:
    """The answers of this step by name."""

    NAME = answer_key("machine.name")
    THINNEST = answer_key("machine.thinnest")
    THICKEST = answer_key("machine.thickest")
    NARROWEST_STRIP = answer_key("machine.narrowest_strip")
    WIDEST_STRIP = answer_key("machine.widest_strip")
    PROFILE_NARROWEST = answer_key("machine.profile_narrowest")
    PROFILE_WIDEST = answer_key("machine.profile_widest")
    PROFILE_TAKE_UP = answer_key("machine.profile_take_up")
    PROFILE_LOWEST_PITCH = answer_key("machine.profile_lowest_pitch")
    ARBORS = answer_key("machine.arbors")
    ARBOR_LOAD = answer_key("machine.arbor_load")
    RACK_LOAD = answer_key("machine.rack_load")
    RACK_DIAMETER = answer_key("machine.rack_diameter")
    SMALLEST_COIL_ID = answer_key("machine.smallest_coil_id")
    LARGEST_COIL_ID = answer_key("machine.largest_coil_id")
    DECOILER_LOAD = answer_key("machine.decoiler_load")
    DECOILER_DIAMETER = answer_key("machine.decoiler_diameter")
    DECOILER_SMALLEST_COIL_ID = answer_key("machine.decoiler_smallest_coil_id")
    DECOILER_LARGEST_COIL_ID = answer_key("machine.decoiler_largest_coil_id")
    THREAD_UP = answer_key("machine.thread_up")
    TAIL = answer_key("machine.tail")
    SHORTEST_PANEL = answer_key("machine.shortest_panel")
    SPEED = answer_key("machine.speed")
    WEIGHT = answer_key("machine.weight")


_INCHES = ("in", "mm")
_POUNDS = ("lb", "kg")


def _on_rack(job: Job) -> bool:
    on = job.coils.coil_on
    return on is None or on.is_rack


def _rack_carries(job: Job) -> bool:
    """Whether coils sit on the rack, if only while they are hauled."""
    return _on_rack(job) or bool(job.haul.rack_coils or job.haul.rack_mass)


def _two_arbors(job: Job) -> bool:
    return _rack_carries(job) and (job.machine.arbors or 0) > 1


def _on_decoiler(job: Job) -> bool:
    return not _on_rack(job)


def _metal_known(job: Job) -> bool:
    return job.metal.metal is not None


def _profile_known(job: Job) -> bool:
    return job.panel.seam is not None and job.panel.leg is not None


def _metal(job: Job) -> str:
    return job.metal.metal or ""


def _of_panel(job: Job) -> str:
    seam, leg = job.panel.seam, job.panel.leg
    profile = job.machine.profile(seam, leg)
    return f"{seam}, {profile.leg if profile else leg}" if _profile_known(job) else ""


def _name(job: Job) -> Any:
    return job.machine.name or None


def _set_name(job: Job, value: Any) -> Job:
    machine = dataclasses.replace(job.machine, name=value or "")
    return dataclasses.replace(job, machine=machine)


def _forming(name: str) -> Callable[[Job], Any]:
    def get(job: Job) -> Any:
        forming = job.machine.forms.get(job.metal.metal) if job.metal.metal else None
        return None if forming is None else getattr(forming, name)

    return get


def _set_forming(name: str) -> Callable[[Job, Any], Job]:
    def put(job: Job, value: Any) -> Job:
        metal = job.metal.metal
        if metal is None:
            return job
        forming = dataclasses.replace(job.machine.forms.get(metal, Forming()), **{name: value})
        forms = {**job.machine.forms, metal: forming}
        if forming == Forming():
            del forms[metal]
        machine = dataclasses.replace(job.machine, forms=forms)
        return dataclasses.replace(job, machine=machine)

    return put


def _profile(name: str) -> Callable[[Job], Any]:
    def get(job: Job) -> Any:
        profile = job.machine.profile(job.panel.seam, job.panel.leg)
        return None if profile is None else getattr(profile, name)

    return get


def _set_profile(name: str) -> Callable[[Job, Any], Job]:
    def put(job: Job, value: Any) -> Job:
        seam, leg = job.panel.seam, job.panel.leg
        if seam is None or leg is None:
            return job
        old = job.machine.profile(seam, leg)
        new = dataclasses.replace(old or Profile(seam=seam, leg=leg), **{name: value})
        kept = tuple(p for p in job.machine.profiles if p is not old)
        bare = new == Profile(seam=seam, leg=leg)
        machine = dataclasses.replace(job.machine, profiles=kept if bare else (*kept, new))
        return dataclasses.replace(job, machine=machine)

    return put


def _of_metal(name: str, label: str) -> Answer:
    return Answer(f"machine.{name}", label, Form.QUANTITY, Kind.THICKNESS, _INCHES,
                  low=0.005, high=0.25, asked=_metal_known, holds_for=_metal,
                  getter=_forming(name), setter=_set_forming(name))


def _of_profile(name: str, label: str, kind: Kind, needed: bool = True) -> Answer:
    return Answer(f"machine.profile_{name}", label, Form.QUANTITY, kind,
                  _INCHES if kind is Kind.WIDTH else None, needed=needed, zero=kind is Kind.PITCH,
                  low=0.5 if kind is Kind.WIDTH else None, high=240, asked=_profile_known,
                  offered=always, asked_on="panel", holds_for=_of_panel,
                  getter=_profile(name), setter=_set_profile(name))


MACHINE: tuple[Answer, ...] = (
    Answer(MachineKey.NAME, "Machine", Form.TEXT, needed=False, moves=False, getter=_name,
           setter=_set_name),
    _of_metal("thinnest", "Thinnest it forms"),
    _of_metal("thickest", "Thickest it forms"),
    Answer(MachineKey.NARROWEST_STRIP, "Narrowest strip", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=1, high=100),
    Answer(MachineKey.WIDEST_STRIP, "Widest strip", Form.QUANTITY, Kind.WIDTH, _INCHES, low=1,
           high=100),
    _of_profile("narrowest", "Profile: narrowest", Kind.WIDTH),
    _of_profile("widest", "Profile: widest", Kind.WIDTH),
    _of_profile("take_up", "Profile: take-up", Kind.WIDTH, needed=False),
    _of_profile("lowest_pitch", "Profile: lowest pitch", Kind.PITCH, needed=False),
    Answer(MachineKey.ARBORS, "Arbors on the rack", Form.COUNT, Kind.COUNT, zero=True, high=8,
           asked=_rack_carries),
    Answer(MachineKey.ARBOR_LOAD, "Load on one arbor", Form.QUANTITY, Kind.MASS, _POUNDS,
           low=50, high=60_000, asked=_rack_carries),
    Answer(MachineKey.RACK_LOAD, "Load on all arbors", Form.QUANTITY, Kind.MASS, _POUNDS,
           low=50, high=120_000, asked=_two_arbors, offered=_rack_carries),
    Answer(MachineKey.RACK_DIAMETER, "Rack: largest coil", Form.QUANTITY, Kind.WIDTH, _INCHES,
           low=10, high=100, asked=_on_rack),
    Answer(MachineKey.SMALLEST_COIL_ID, "Rack: smallest coil ID", Form.QUANTITY, Kind.WIDTH,
           _INCHES, low=2, high=60, asked=_on_rack),
    Answer(MachineKey.LARGEST_COIL_ID, "Rack: largest coil ID", Form.QUANTITY, Kind.WIDTH,
           _INCHES, low=2, high=60, asked=_on_rack),
    Answer(MachineKey.DECOILER_LOAD, "Floor decoiler load", Form.QUANTITY, Kind.MASS, _POUNDS,
           low=50, high=60_000, asked=_on_decoiler),
    Answer(MachineKey.DECOILER_DIAMETER, "Decoiler: largest coil", Form.QUANTITY, Kind.WIDTH,
           _INCHES, low=10, high=100, asked=_on_decoiler),
    Answer(MachineKey.DECOILER_SMALLEST_COIL_ID, "Decoiler: least coil ID", Form.QUANTITY,
           Kind.WIDTH, _INCHES, low=2, high=60, asked=_on_decoiler),
    Answer(MachineKey.DECOILER_LARGEST_COIL_ID, "Decoiler: largest coil ID", Form.QUANTITY,
           Kind.WIDTH, _INCHES, low=2, high=60, asked=_on_decoiler),
    RoundLength(MachineKey.THREAD_UP, "Thread-up loss", Form.QUANTITY, Kind.LENGTH, ("ft", "m"),
           zero=True, high=1200),
    RoundLength(MachineKey.TAIL, "Tail loss", Form.QUANTITY, Kind.LENGTH, ("ft", "m"), zero=True,
           high=1200),
    RoundLength(MachineKey.SHORTEST_PANEL, "Shortest panel", Form.QUANTITY, Kind.LENGTH,
           ("ft", "m"),
           needed=False, moves=False, low=6, high=1200),
    Answer(MachineKey.SPEED, "Forming speed", Form.QUANTITY, Kind.SPEED, ("ft/min", "m/min"),
           needed=False, moves=False, high=60_000),
    Answer(MachineKey.WEIGHT, "Machine weight", Form.QUANTITY, Kind.MASS, _POUNDS,
           needed=False, moves=False, high=100_000),
)
