"""A coil on hand as it is typed: what is asked, and the coil that the texts make. No screens."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.job import Job
from coilwright.job.metal import CoatingName, MetalName, ThicknessBasis
from coilwright.job.stock import CoilOnHand
from coilwright.units import Kind, System
from coilwright.wizard.lists.trim import NameAnswer

_INCHES, _FEET = ("in", "mm"), ("ft", "m")
_KEY = "on-hand."
MUST = ("tag", "metal", "thickness", "width")


def _nothing(_job: Job) -> None:
    """The texts lie in the job as typed; there is no answer below them."""
    return


def _steel(job: Job) -> bool:
    return job.typed.get(f"{_KEY}metal") == MetalName.STEEL.value


def _no_length(job: Job) -> bool:
    return not job.typed.get(f"{_KEY}length")


def _no_diameters(job: Job) -> bool:
    typed = job.typed
    return bool(typed.get(f"{_KEY}length")) or not (
        typed.get(f"{_KEY}outside") and typed.get(f"{_KEY}inside"))


def _answer(spec: type[Answer], name: str, label: str, form: Form, **more: Any) -> Answer:
    return spec(f"{_KEY}{name}", label, form, needed=name in MUST, getter=_nothing, **more)


ASKED: tuple[tuple[Answer, str], ...] = (
    (_answer(NameAnswer, "tag", "Tag", Form.TEXT),
     "What is written on it; no two coils have the same."),
    (_answer(Answer, "metal", "Metal", Form.CHOICE, choices=tuple(MetalName)),
     "As its tag or its papers say."),
    (_answer(Answer, "coating", "Metallic coating", Form.CHOICE, choices=tuple(CoatingName),
             asked=_steel),
     "A job takes only the coating it asks for; not known means it fits none."),
    (_answer(Answer, "thickness", "Decimal thickness", Form.QUANTITY, kind=Kind.THICKNESS,
             bare=_INCHES, low=0.005, high=0.25),
     "Measured or from the tag; a gauge number is no thickness."),
    (_answer(Answer, "thickness_basis", "Thickness is", Form.CHOICE,
             choices=tuple(ThicknessBasis), asked=_steel),
     "With its coating or without; leave it empty where nobody knows."),
    (_answer(Answer, "width", "Width", Form.QUANTITY, kind=Kind.WIDTH, bare=_INCHES, low=1,
             high=100),
     "A wider coil than the strip can be slit."),
    (_answer(Answer, "colour", "Colour", Form.TEXT),
     "As the tag says; empty for bare metal."),
    (_answer(Answer, "lot", "Lot", Form.TEXT),
     "Two lots of one colour can differ in shade."),
    (_answer(Answer, "where", "Where it stands", Form.TEXT),
     "So that it can be found again."),
    (_answer(Answer, "length", "Length", Form.QUANTITY, kind=Kind.LENGTH, bare=_FEET, low=1,
             high=240_000, asked=_no_diameters),
     "What is left on it; empty where only its diameters are known."),
    (_answer(Answer, "outside", "… or outside across", Form.QUANTITY, kind=Kind.WIDTH,
             bare=_INCHES, low=1, high=120, asked=_no_length),
     "Measured across the wound metal; it gives a least and a greatest length."),
    (_answer(Answer, "inside", "… and inside across", Form.QUANTITY, kind=Kind.WIDTH,
             bare=_INCHES, low=1, high=120, asked=_no_length),
     "Measured across the hole."),
)
"""What is asked about a coil, each with a line of help."""


def texts_of(coil: CoilOnHand, system: System) -> dict[str, str]:
    """A coil as its form shows it, by the name of the field."""
    made = {}
    for answer, _help in ASKED:
        name = answer.key.removeprefix(_KEY)
        value = getattr(coil, name)
        if value not in (None, ""):
            made[name] = answer.text(value, system)
    return made


def job_of(texts: Mapping[str, str], system: System) -> Job:
    """A job that holds nothing but the texts, as a form's fields want it."""
    return Job(units=system, typed={f"{_KEY}{name}": t for name, t in texts.items() if t.strip()})


def name_of(answer: Answer) -> str:
    """The name of the coil's field an answer fills."""
    return answer.key.removeprefix(_KEY)


def tidied(texts: Mapping[str, str], name: str, system: System) -> dict[str, str]:
    """The texts, one of them as it was read; the same where it cannot be."""
    made = dict(texts)
    for answer, _help in ASKED:
        if name_of(answer) == name and texts.get(name, "").strip():
            try:
                made[name] = answer.text(answer.read(texts[name], system), system)
            except UnreadableAnswer:
                return made
    return made


def coil_of(texts: Mapping[str, str], system: System) -> tuple[CoilOnHand | None, str]:
    """The coil the texts make, or None and why not yet, in one sentence."""
    job = job_of(texts, system)
    found: dict[str, Any] = {}
    missing = []
    for answer, _help in ASKED:
        name = name_of(answer)
        text = texts.get(name, "")
        if not answer.asked(job):
            continue
        if not text.strip():
            if name in MUST:
                missing.append(answer.label.lower())
            continue
        try:
            found[name] = answer.read(text, system)
        except UnreadableAnswer as error:
            return None, str(error)
    if missing:
        return None, f"Still missing: {', '.join(missing)}."
    if not {"length", "outside", "inside"} & set(found):
        return None, "Still missing: its length, or its outside and inside diameter."
    try:
        return CoilOnHand(**found), ""
    except ValueError as error:
        return None, f"{error}."
