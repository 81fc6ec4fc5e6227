"""What is asked of an opening. No screens here."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from enum import StrEnum
from typing import Any

from coilwright.job.answers import Form
from coilwright.job.job import Job
from coilwright.job.roof import (
    SPLIT_FRONT,
    WHOLE_FRONT,
    Building,
    Measured,
    MeasuredTo,
    Opening,
    OpeningMeasured,
    OpeningWhat,
)
from coilwright.units import Kind
from coilwright.wizard.lists.measure import Measure, always
from coilwright.wizard.lists.opening_places import FACES, in_plane

_FEET = ("ft", "m")
_LARGEST = 1200
"""Of an opening's own sizes [in]: 100 is a chimney in millimeters or inches, no hole of 100 m."""


def _on(shape: Building, names: tuple[str, ...], of: str = "") -> Measure[Opening]:
    """On which face it lies, of those that a shape makes; they are listed as the planes are."""
    make: Any = StrEnum
    faces: type[StrEnum] = make(f"FaceOf{shape.name.title()}", {
        name.upper().replace(" ", "_"): f"{number} {name}" for number, name in enumerate(names, 1)})
    by_name = dict(zip(names, faces, strict=True))

    def get(opening: Opening) -> StrEnum | None:
        return by_name.get(opening.on)

    def put(opening: Opening, face: StrEnum | None) -> Opening:
        return dataclasses.replace(
            opening, on="" if face is None else face.value.partition(" ")[2])

    return Measure(
        name=f"on_{shape.name.lower()}{of}", label="Lies on", form=Form.CHOICE,
        choices=tuple(faces), get=get, put=put,
        help="The plane it is in, by its number in the list of planes and the drawing.",
        applies=lambda job, _opening, key: (
            job.roof.building is shape and job.roof.faces == names and key.startswith(FACES.key)))


def _on_faces() -> Iterator[Measure[Opening]]:
    """Each shape has faces of its own, and the front of one with a wing may be in two parts."""
    for shape in Building:
        if set(SPLIT_FRONT) <= set(shape.faces):
            yield _on(shape, tuple(f for f in shape.faces if f not in SPLIT_FRONT))
            yield _on(shape, tuple(f for f in shape.faces if f != WHOLE_FRONT), "_split")
        elif shape.faces:
            yield _on(shape, shape.faces)


def _length(name: str, label: str, help_line: str, *, signed: bool = False,
            high: float = 12_000, **more: Any) -> Measure[Opening]:
    return Measure(name=name, label=label, help=help_line, kind=Kind.LENGTH, bare=_FEET,
                   low=None if signed else 0.1, high=high, zero=signed, negative=signed,
                   **more)


def _boxed(_job: Job, opening: Any, _key: str) -> bool:
    return opening is None or not opening.corners


def _on_slope(job: Job, opening: Any, key: str) -> bool:
    """Whether what is level is asked: in a plane that was measured in plan all of it is."""
    plane = next((one for index, one in enumerate(job.roof.planes)
                  if key.startswith(in_plane(index).key)), None)
    return _boxed(job, opening, key) and (plane is None or plane.measured is Measured.SLOPE)


MEASURES: tuple[Measure[Opening], ...] = (
    Measure(name="what", label="What it is", form=Form.CHOICE, choices=tuple(OpeningWhat),
            empty=OpeningWhat.OTHER,
            help="Trim can be made to go around all chimneys, skylights or vents.",
            more="Panels treat all openings alike. What it is decides which flashing goes around "
                 "it, and a wide chimney is asked for a cricket: a small roof behind it that "
                 "leads water around."),
    *_on_faces(),
    Measure(name="to", label="Point measured", form=Form.CHOICE, choices=tuple(MeasuredTo),
            empty=MeasuredTo.CORNER, applies=_boxed,
            help="Where the two lengths below end: a chimney is often measured to its middle."),
    Measure(name="measured", label="Measured", form=Form.CHOICE, choices=tuple(OpeningMeasured),
            empty=OpeningMeasured.SLOPE, applies=_on_slope,
            help="Its height is how far up the roof it reaches, not how tall it stands: in plan, "
                 "the pitch stretches it.",
            more="A tape laid on the roof gives lengths on the slope, a drawing from above or a "
                 "level gives them in plan. Lengths along the eave are the same in both."),
    _length("left", "From left",
            "Standing before this eave, from its left end; or as a line below says.",
            signed=True, applies=_boxed,
            more="Stand on the ground before this eave and look at the roof: left is your left, "
                 "at the back of the house too. Where a wing takes a part of the eave, or the "
                 "plane reaches past its end, the form says where 0 is and what to add."),
    _length("up", "Up from eave", "From the eave's edge up the slope, or in plan if you say so.",
            signed=True, applies=_boxed),
    _length("width", "Width", "Along the eave. 2 x 3 ft fills width and height.", applies=_boxed,
            high=_LARGEST),
    _length("height", "Height",
            "How far up the roof it reaches, along the slope, or in plan if you say so.",
            applies=_boxed, high=_LARGEST),
    Measure(name="count", label="How many", form=Form.COUNT, kind=Kind.COUNT, low=1, high=20,
            empty=1, help="Alike, in a row along the eave."),
    _length("apart", "… one every", "From one's left edge to the next one's.",
            applies=lambda _job, opening, _key: opening is not None and opening.count > 1,
            offered=always, unasked="there is one; asked for two or more"),
)
