"""What is asked about a plane measured by itself. No screens here.

What was typed and could not be read lies in the job beside that of the answers, under
`roof.planes.0.eave`; it moves with the plane.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from coilwright.job.answers import Answer, Form, UnreadableAnswer
from coilwright.job.edit import give_typed
from coilwright.job.job import Job
from coilwright.job.roof import Measured, Opening, Shape
from coilwright.job.rows.planes import plane_key, replace
from coilwright.units import Kind, System
from coilwright.values.standing import Standing

_FEET = ("ft", "m")


def _length(text: str, system: System) -> float:
    spec = Answer("", "Corner", Form.QUANTITY, Kind.LENGTH, _FEET, zero=True, negative=True)
    value = spec.read(text, system)
    assert isinstance(value, float)
    return value


def _length_text(value: float, system: System) -> str:
    spec = Answer("", "Corner", Form.QUANTITY, Kind.LENGTH, _FEET, zero=True, negative=True)
    return spec.text(value, system)


def _rows(text: str, size: int, what: str, like: str) -> list[list[str]]:
    rows = []
    for number, row in enumerate(filter(str.strip, re.split(r"[;\n|]", text)), 1):
        parts = [part.strip() for part in re.split(r"[,\t]", row)]
        if len(parts) != size or not all(parts):
            raise UnreadableAnswer(
                f"{what} {number}, “{row.strip()[:40]}”, should be {size} sizes with commas "
                f"between, such as {like}."
            )
        rows.append(parts)
    return rows


class CornersAnswer(Answer):
    """A plane's corners on one line: `0,0; 40 ft,0; 20 ft,18 ft`."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The corners. Raises UnreadableAnswer with a sentence for the user."""
        rows = _rows(text, 2, "Corner", "40 ft, 0")
        return tuple((_length(x, system), _length(y, system)) for x, y in rows)

    def text(self, value: Any, system: System = System.US) -> str:
        """The corners as they stand in the box."""
        return "; ".join(
            f"{_length_text(x, system)}, {_length_text(y, system)}" for x, y in value or ()
        )


class OpeningsAnswer(Answer):
    """A plane's openings on one line: left, up, width, height; and so on."""

    def read(self, text: str, system: System = System.US) -> Any:
        """The openings. Raises UnreadableAnswer with a sentence for the user."""
        openings = []
        for row in _rows(text, 4, "Opening", "10 ft, 4 ft, 2 ft, 3 ft"):
            left, up, width, height = (_length(part, system) for part in row)
            if width <= 0 or height <= 0:
                raise UnreadableAnswer(
                    "An opening needs a width and a height above 0. What stands left of or below "
                    "the plane's origin has a minus in front, such as -2 ft."
                )
            openings.append(Opening(left=left, up=up, width=width, height=height))
        return tuple(openings)

    def text(self, value: Any, system: System = System.US) -> str:
        """The openings as they stand in the box."""
        return "; ".join(
            ", ".join(_length_text(s, system) for s in (o.left, o.up, o.width, o.height))
            for o in value or ()
        )


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of a plane: its answer, one line of help, and what an empty box means."""

    answer: Answer
    help: str
    empty: Any = None


def _at(index: int, name: str) -> tuple[Callable[[Job], Any], Callable[[Job, Any], Job]]:
    def get(job: Job) -> Any:
        planes = job.roof.planes
        return getattr(planes[index], name) if index < len(planes) else None

    def put(job: Job, value: Any) -> Job:
        return replace(job, index, job.roof.planes[index].model_copy(update={name: value}))

    return get, put


def _shaped(index: int, *shapes: Shape) -> Callable[[Job], bool]:
    def asked(job: Job) -> bool:
        planes = job.roof.planes
        return index < len(planes) and planes[index].shape in shapes

    return asked


def measures(index: int) -> tuple[Measure, ...]:
    """What is asked about the plane at an index, in order."""
    key = plane_key(index)

    def length(name: str, label: str, low: float, *shapes: Shape, zero: bool = False,
               negative: bool = False) -> Answer:
        get, put = _at(index, name)
        return Answer(f"{key}.{name}", label, Form.QUANTITY, Kind.LENGTH, _FEET, zero=zero,
                      negative=negative, low=None if negative else low, high=120_000,
                      asked=_shaped(index, *shapes), getter=get, setter=put)

    def other(spec: type[Answer], name: str, label: str, form: Form, *shapes: Shape,
              **more: Any) -> Answer:
        get, put = _at(index, name)
        return spec(f"{key}.{name}", label, form, asked=_shaped(index, *(shapes or Shape)),
                    getter=get, setter=put, **more)

    def unread(name: str, label: str) -> Answer:
        """A length that stands in for a pitch nobody has read: asked while there is none."""
        get, put = _at(index, name)
        return Answer(f"{key}.{name}", label, Form.QUANTITY, Kind.LENGTH, ("in", "mm"),
                      needed=False, low=0, high=12_000,
                      asked=lambda job: index < len(job.roof.planes)
                      and job.roof.planes[index].pitch is None,
                      getter=get, setter=put)

    sided = (Shape.RECTANGLE, Shape.TRIANGLE, Shape.TRAPEZOID, Shape.PARALLELOGRAM)
    return (
        Measure(other(Answer, "name", "Name", Form.TEXT, needed=False),
                "What you call it, such as porch or north side.", ""),
        Measure(other(Answer, "shape", "Shape", Form.CHOICE, choices=tuple(Shape)),
                "Corners lets you give any outline, corner by corner.", Shape.RECTANGLE),
        Measure(length("eave", "Eave", 1, *sided), "Length along the eave, the bottom edge."),
        Measure(length("top", "Top", 0, Shape.TRAPEZOID, zero=True),
                "Length along the ridge, the top edge."),
        Measure(length("slope_length", "Slope length", 1, *sided),
                "From eave to ridge, square to the eave."),
        Measure(length("offset", "Top shifted by", 0, Shape.TRIANGLE, Shape.TRAPEZOID,
                       Shape.PARALLELOGRAM, zero=True, negative=True),
                "How far right of the eave's left end the top begins; empty: centred."),
        Measure(other(CornersAnswer, "corners", "Corners", Form.TEXT, Shape.CORNERS),
                "Along the eave, up; bare: ft or m; in any direction: 0,0; 40,0; 20,18 ft 6 in",
                ()),
        Measure(other(Answer, "measured", "Measured", Form.CHOICE, choices=tuple(Measured)),
                "In plan, level lengths are stretched up the slope by the pitch.",
                Measured.SLOPE),
        Measure(other(Answer, "pitch", "Pitch", Form.QUANTITY, kind=Kind.PITCH, zero=True,
                      high=240, needed=False),
                "Rise in 12 of run, such as 6/12; needed where it was measured in plan."),
        *(
            Measure(unread(name, label), help_line)
            for name, label, help_line in (
                ("pitch_rise", "… or rise", "A measured rise; with the run it gives the pitch."),
                ("pitch_run", "… over run", "The level run that belongs to the rise or slope."),
                ("pitch_slope", "… or slope",
                 "Measured up the slope over that run, instead of the rise."),
            )
        ),
        Measure(other(Answer, "alike", "How many alike", Form.COUNT, kind=Kind.COUNT, low=1,
                      high=999),
                "Planes of exactly this size and shape, this one counted.", 1),
        Measure(other(OpeningsAnswer, "openings", "Openings", Form.TEXT, needed=False),
                "Left (- is left of origin), up, width, height; bare: ft or m; next after ;",
                ()),
    )


def give_measure(job: Job, index: int, measure: Measure, text: str) -> tuple[Job, str]:
    """The job with what was typed taken as a plane's measure, and the error if it was not.

    While text cannot be read the plane is a guess too, so that no order goes out on it.
    """
    taken, error = give_typed(job, measure.answer, measure.empty, text)
    if error:
        taken = replace(taken, index, taken.roof.planes[index], Standing.GUESS)
    return taken, error
