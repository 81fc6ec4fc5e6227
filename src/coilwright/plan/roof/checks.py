"""Checks of the roof: pitch against seam, and narrow panels at a plane's ends."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import assert_never

from coilwright.calc import sources
from coilwright.calc.roof.panel_start import PanelStart
from coilwright.calc.roof.sliver_free import EQUAL
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.answers.roof import RoofKey
from coilwright.job.panel import Seam
from coilwright.job.roof import Building, Opening, OpeningWhat
from coilwright.plan.panel.slivers import check_slivers
from coilwright.plan.result import PlanePlan
from coilwright.plan.roof.pitch import pitch_answers
from coilwright.plan.view import View, acceptable, care, note, stop
from coilwright.units import Kind
from coilwright.values.finding import Finding
from coilwright.values.source import PLATE
from coilwright.words.counting import capitalized, counted, in_series, listed

LEAST_STANDING_SEAM = 0.25
"""Rise per 12 under which the model codes allow no standing seam (`sources.LOW_SLOPE`)."""
BARRIER = 0.5
"""Rise per 12 from which a panel that keeps water out is used (`sources.WATER_BARRIER`)."""
SHEDDING = 3.0
"""Rise per 12 from which a panel that only sheds water is used (`sources.WATER_SHEDDING`)."""
SHORT_OVERHANG = 2.0
"""An overhang under which a foot was likely meant [in]. Common practice, no source."""
CRICKET_FROM = 30.0
"""A chimney's width from which a cricket stands behind it [in] (`sources.CRICKET`)."""


def check_roof(view: View) -> Iterator[Finding]:
    """Overhangs, chimneys, planes of the building and measured ones, their slopes and seams."""
    yield from _short_overhang(view)
    yield from _chimneys(view)
    yield from _turned(view)
    yield from _broken(view)
    yield from _twice(view)
    yield from _left_behind(view)
    if not view.planes:
        return
    unknown = [p.name for p in view.planes if p.pitch is None]
    if unknown:
        yield stop(
            "roof.pitch_unknown", f"Pitch not known: {listed(unknown)}.",
            "The slope cannot be held to the code's least or to the profile's own.",
            "Measure the pitch, or ask the designer.", sources.LOW_SLOPE, "roof.planes",
        )
    known = [p for p in view.planes if p.pitch is not None]
    if not known:
        return
    flattest = min(known, key=lambda p: p.pitch or 0.0)
    yield from _flat(view, flattest)


def _short_overhang(view: View) -> Iterator[Finding]:
    """A foot typed into a box of inches."""
    roof = view.job.roof
    for key, words, over in (
        (RoofKey.EAVE_OVERHANG, "eave", roof.eave_overhang),
        (RoofKey.RAKE_OVERHANG, "rake", roof.rake_overhang),
    ):
        if roof.faces and over is not None and 0 < over < SHORT_OVERHANG:
            yield note(
                f"roof.short_{words}_overhang",
                f"The {words} overhang is {view.say(over, Kind.LENGTH)}.",
                "So little is rare. A number without a unit is taken in the unit beside its box, "
                "so a foot or a meter typed as 1 comes out too small.",
                "Write the unit with it, such as 1 ft or 30 cm; leave it where it is right.",
                sources.TRADE, key)


def _chimneys(view: View) -> Iterator[Finding]:
    """Chimneys so wide that a small roof is built behind them."""
    for place, opening in _openings(view):
        width = opening.width or 0.0
        if opening.what is OpeningWhat.CHIMNEY and width > CRICKET_FROM + 1e-9:
            yield note(
                f"{place}.cricket",
                f"A chimney is {view.say(width, Kind.LENGTH)} wide: past "
                f"{view.say(CRICKET_FROM, Kind.LENGTH)} the model code asks for a cricket.",
                "Water and snow lie behind a wide chimney. A cricket is a small roof there that "
                "leads them around; its planes, valleys and flashing are not in this job.",
                "Ask the designer whether it gets a cricket. If so, measure its planes and add "
                "them.",
                sources.CRICKET, place)


def _openings(view: View) -> Iterator[tuple[str, Opening]]:
    """All openings, each by its key."""
    roof = view.job.roof
    if roof.faces:
        for at, opening in enumerate(roof.building_openings):
            yield f"roof.building_openings.{at}", opening
    for index, plane in enumerate(roof.planes):
        for at, opening in enumerate(plane.openings):
            yield f"roof.planes.{index}.openings.{at}", opening


def _flat(view: View, plane: PlanePlan) -> Iterator[Finding]:
    pitch = plane.pitch or 0.0
    shown = view.say(pitch, Kind.PITCH)
    answer = _pitch_answer(view, plane)
    if pitch < LEAST_STANDING_SEAM - 1e-9:
        yield stop(
            "roof.too_flat",
            f"{plane.name} is {shown}; the code's least for standing seam is "
            f"{view.say(LEAST_STANDING_SEAM, Kind.PITCH)}.",
            "Water stands on a roof this flat and gets through the seams.",
            "Ask the designer and the building department for another roof system here.",
            sources.LOW_SLOPE, answer,
        )
    else:
        yield from _seam(view, plane.name, pitch, answer)
    profile = view.job.machine.profile(view.job.panel.seam, view.job.panel.leg)
    least = profile.lowest_pitch if profile else None
    if least is not None and pitch < least - 1e-9:
        yield stop(
            "roof.under_profile",
            f"{plane.name} is {shown}; this profile's own least is "
            f"{view.say(least, Kind.PITCH)}.",
            "The profile is not made to keep water out on a lower slope.",
            "Choose another profile, or ask the machine's maker and the designer.",
            PLATE, MachineKey.PROFILE_LOWEST_PITCH, answer,
        )


def _seam(view: View, name: str, pitch: float, answer: str) -> Iterator[Finding]:
    """What the seam's kind makes of the flattest slope."""
    seam, shown = view.job.panel.seam, view.say(pitch, Kind.PITCH)
    match seam:
        case None:
            return
        case Seam.SNAP_LOCK:
            if pitch < SHEDDING - 1e-9:
                yield care(
                    "roof.snap_lock_flat",
                    f"{name} is {shown}; a snap-lock seam usually wants "
                    f"{view.say(SHEDDING, Kind.PITCH)} or steeper.",
                    "A seam that is not folded only sheds water; on a low slope water backs up "
                    "in it.",
                    "Ask the designer; a double-lock seam is made for low slopes.",
                    sources.WATER_SHEDDING, PanelKey.SEAM, answer,
                )
        case Seam.SINGLE_LOCK:
            if pitch < SHEDDING - 1e-9:
                yield care(
                    "roof.single_lock_flat",
                    f"{name} is {shown}; a single-lock seam usually wants "
                    f"{view.say(SHEDDING, Kind.PITCH)} or steeper.",
                    "One fold sheds water but does not hold it back where it stands or is driven "
                    "up.",
                    "Ask the designer about sealant in the seam; a double-lock seam is made for "
                    "low slopes.",
                    sources.TRADE, PanelKey.SEAM, answer,
                )
        case Seam.DOUBLE_LOCK:
            if pitch < BARRIER - 1e-9:
                yield care(
                    "roof.double_lock_flat",
                    f"{name} is {shown}; even panels that hold water back usually want "
                    f"{view.say(BARRIER, Kind.PITCH)} or steeper.",
                    "The code may allow less, but every seam, end and curb then lies in standing "
                    "water.",
                    "Ask the designer, and the machine's maker for sealant in the seam.",
                    sources.WATER_BARRIER, PanelKey.SEAM, answer,
                )
        case _:
            assert_never(seam)


def _pitch_answer(view: View, plane: PlanePlan) -> str:
    """The answer a plane's pitch comes from."""
    if plane.index is not None:
        return "roof.planes"
    roof = view.job.roof
    # By their names: where both pitches are the same, the number does not tell whose it is.
    for shape, key, faces in (
        (Building.PORCH, RoofKey.PORCH_PITCH, ("Porch",)),
        (Building.GAMBREL, RoofKey.LOWER_PITCH, ("Lower 1", "Lower 2")),
    ):
        if roof.building is shape and plane.name in faces:
            return key
    return pitch_answers(view.job)[0]


def _broken(view: View) -> Iterator[Finding]:
    roof, upper = view.job.roof, view.value(RoofKey.PITCH)
    if (
        roof.building is Building.GAMBREL
        and upper is not None
        and roof.lower_pitch is not None
        and roof.lower_pitch <= upper
    ):
        yield care(
            "roof.gambrel_flat",
            f"The lower slopes are {view.say(roof.lower_pitch, Kind.PITCH)}, the upper ones "
            f"{view.say(upper, Kind.PITCH)}.",
            "A gambrel is steep below and flatter above; the two pitches may be the wrong way "
            "round, and every panel then has the wrong length.",
            "Look at the building again; change the pitches round if they are.",
            sources.PLANE_GEOMETRY, RoofKey.LOWER_PITCH, *pitch_answers(view.job),
        )


def _twice(view: View) -> Iterator[Finding]:
    """Planes measured one by one beside a building shape: a porch, or the same roof once more.

    One as large as a face of the shape is that face, also where it is the only one left. Others
    are the same roof, cut up another way, where they come to half of it; a porch or a dormer is
    shorter up the slope than the shape's own faces, and is let be.
    """
    faces = [p for p in view.planes if p.index is None and p.area.value > 0]
    if not faces:
        return
    measured = [p for p in view.planes if p.index is not None and p.area.value > 0]
    same = [p for p in measured if any(_alike(p, face) for face in faces)]
    shortest = min(_extents(face)[1] for face in faces)
    deep = [p for p in measured if p in same or _extents(p)[1] >= _DEEP * shortest]
    shaped, beside = _area(faces), _area(deep)
    if beside > _BESIDE * shaped:
        same = deep
    if not same:
        return
    counted, one = _area(same), len(same) == 1 and same[0].alike == 1
    yield acceptable(
        "roof.twice", f"{counted:.0f} beside {shaped:.0f} sq in",
        f"{listed([p.name for p in same])}, measured one by one, {'counts' if one else 'count'} "
        f"beside the building shape: {view.say(counted, Kind.AREA)} and "
        f"{view.say(shaped, Kind.AREA)}.",
        "If they are the same roof, metal is ordered for it twice.",
        "Delete the planes that the building shape draws; if they are another roof, say so.",
        sources.PLANE_GEOMETRY, "roof.planes", RoofKey.BUILDING,
    )


def _left_behind(view: View) -> Iterator[Finding]:
    """Openings of a building shape that was given up for planes, where these have fewer of a kind:
    they are in no list any more, nor is what goes around them in the order."""
    roof = view.job.roof
    if roof.faces or not view.planes:
        return
    left = Counter[OpeningWhat]()
    for opening in roof.building_openings:
        left[opening.what] += opening.count
    for plane in roof.planes:
        for opening in plane.openings:
            left[opening.what] -= opening.count * plane.alike
    missing = [counted(many, what.noun) for what, many in left.items() if many > 0]
    if missing:
        lies = "lies" if sum((+left).values()) == 1 else "lie"
        yield care(
            "roof.openings_left",
            f"{capitalized(in_series(missing))} of the building shape {lies} in no plane.",
            "Panels and trim go by the planes alone: what goes around an opening that lies in none "
            "is not ordered.",
            "Add what the roof has to its planes, in the list of openings. What it does not have, "
            "take out there once the building shape is picked again.",
            sources.PLANE_GEOMETRY, "roof.planes", RoofKey.BUILDING,
        )


def _area(planes: list[PlanePlan]) -> float:
    return sum(p.area.value * p.alike for p in planes)


def _extents(plane: PlanePlan) -> tuple[float, float]:
    """How far a plane reaches along the eave and up the slope [in]."""
    across, up = zip(*plane.outline, strict=True)
    return max(across) - min(across), max(up) - min(up)


def _alike(one: PlanePlan, face: PlanePlan) -> bool:
    """Whether two planes are as long, as deep and as large, by what a tape and an overhang make."""
    pairs = (*zip(_extents(one), _extents(face), strict=True), (one.area.value, face.area.value))
    return all(abs(a - b) <= _SAME * max(a, b) for a, b in pairs)


def _turned(view: View) -> Iterator[Finding]:
    roof = view.job.roof
    if (
        roof.building is Building.HIP
        and roof.length is not None
        and roof.width is not None
        and roof.length < roof.width
    ):
        yield note(
            "roof.turned",
            "The width is larger than the length; the ridge is taken along the width.",
            "On a hip roof of equal pitch the ridge runs the long way.",
            "Nothing, if the measures are right.", sources.HIP_ROOF, RoofKey.LENGTH, RoofKey.WIDTH,
        )


_BESIDE = 0.5
"""Share of a building from which planes beside it are the same roof: a look, not a rule."""
_SAME = 0.08
"""Share by which a plane measured on the roof may differ from the same face as it is drawn from
the building's measures, overhangs among them (no source)."""
_DEEP = 0.75
"""Share of a building's shortest face up the slope under which a plane is a porch or a dormer,
however many there are of them (no source)."""


def check_ends(view: View) -> Iterator[Finding]:
    """Slivers at the ends of planes, and a first seam that lies further in than one panel."""
    yield from check_slivers(view)
    # The figures, not the answers: a number nothing real has counts as not given.
    offset, coverage = view.value(PanelKey.OFFSET), view.value(PanelKey.COVERAGE)
    if (
        view.job.panel.start is PanelStart.OFFSET
        and offset is not None
        and coverage is not None
        and offset > coverage + EQUAL
    ):
        seam = math.fmod(offset, coverage)
        yield note(
            "panel.offset_wide",
            f"The first seam is typed at {view.say(offset, Kind.WIDTH)}; one panel covers "
            f"{view.say(coverage, Kind.WIDTH)}.",
            "Whole panels fit left of that seam, so another seam comes first.",
            f"Nothing, if that is meant; the first seam is then {view.say(seam, Kind.WIDTH)} in.",
            sources.PLANE_GEOMETRY, PanelKey.OFFSET, PanelKey.COVERAGE,
        )
