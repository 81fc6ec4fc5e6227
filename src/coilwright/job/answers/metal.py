"""Answers about the metal."""

from __future__ import annotations

import re
from enum import StrEnum

from coilwright.calc.coating import COATINGS, EN_NAMES, US_NAMES
from coilwright.calc.metal import METALS, is_coated
from coilwright.job.answers.spec import Answer, Form, InCopy, UnreadableAnswer, Value, always
from coilwright.job.choices import YesNo
from coilwright.job.job import Job
from coilwright.job.metal import (
    CoatingName,
    Finish,
    MetalName,
    PaintedSide,
    Shade,
    ThicknessBasis,
    ThicknessIs,
    Touching,
)
from coilwright.units import Kind, System, show, sides
from coilwright.units.numbers import quote
from coilwright.values.keys import answer_key


class MetalKey:
    """The answers of this step by name."""

    METAL = answer_key("metal.metal")
    GRADE = answer_key("metal.grade")
    STANDARD = answer_key("metal.standard")
    TEMPER = answer_key("metal.temper")
    COATING = answer_key("metal.coating")
    GAUGE = answer_key("metal.gauge")
    THICKNESS = answer_key("metal.thickness")
    THICKNESS_BASIS = answer_key("metal.thickness_basis")
    THICKNESS_IS = answer_key("metal.thickness_is")
    THICKNESS_TOLERANCE = answer_key("metal.thickness_tolerance")
    THICKNESS_STANDARD = answer_key("metal.thickness_standard")
    FINISH = answer_key("metal.finish")
    COLOR = answer_key("metal.color")
    COLOR_CODE = answer_key("metal.color_code")
    BACK_COAT = answer_key("metal.back_coat")
    SHADE = answer_key("metal.shade")
    COLOR_CONFIRMED = answer_key("metal.color_confirmed")
    CUSTOM_COLOR = answer_key("metal.custom_color")
    PAINTED_SIDE = answer_key("metal.painted_side")
    FILM = answer_key("metal.film")
    TOUCHING = answer_key("metal.touching")


class CoatingAnswer(Answer):
    """A metallic coating. Who works in US units picks among those called by ounces, who works in
    metric among those called by grams first; where a European standard is named, among those it
    has alone."""

    def picks(self, job: Job) -> tuple[StrEnum, ...]:
        """Those that this job is offered, what it has already among them."""
        now = self.value(job)
        offered = US_NAMES
        if _EUROPEAN.search(job.metal.standard or ""):
            offered = (*EN_NAMES, *(name for name in US_NAMES if not COATINGS[name].standard))
        elif job.units is System.METRIC:
            offered = (*EN_NAMES, *US_NAMES)
        return offered if now in offered or not isinstance(now, CoatingName) else (*offered, now)


_EUROPEAN = re.compile(r"\bEN\s*\d", re.IGNORECASE)
"""The number of a European standard, also as `DIN EN 10346`."""


_THICKNESS_SAID = re.compile(
    r"(?P<number>\d{1,2})\s*(?P<word>ga|gauge|gage|oz|ounces?)?\.?", re.IGNORECASE)
_GRADE_WORD = re.compile(r"(?:grade|gr\.|alloy|type)\s*(?=\S)", re.IGNORECASE)
_LOWEST_GRADE = 33
"""The lowest grade of steel for roofs; a bare number below it is a gauge, or copper's ounces."""


class GradeAnswer(Answer):
    """A grade, an alloy or a type: `50`, `3003`, `304`; never a gauge.

    The word before it is left off, as papers say it themselves: `Grade 50` is read as `50`.
    """

    def read(self, text: str, system: System = System.US) -> Value:
        """The grade. Raises UnreadableAnswer with a sentence for the user."""
        value = super().read(_GRADE_WORD.sub("", text.strip()), system)
        said = _THICKNESS_SAID.fullmatch(str(value))
        if said and (said["word"] or int(said["number"]) < _LOWEST_GRADE):
            raise UnreadableAnswer(
                f"{self.label}: {quote(str(value))} says how thick the metal is, which is asked "
                "below. A grade is such as 50, 3003 or 304."
            )
        return value


def _no_metal(job: Job) -> bool:
    """Rows that hang on the metal are there before it is picked, so that the pick moves none."""
    return job.metal.metal is None


def _is_coated(job: Job) -> bool:
    return is_coated(job.metal.metal)


def _has_gauge(job: Job) -> bool:
    """Whether metal goes by gauge: where units are metric it is sold by its thickness."""
    metal = job.metal.metal
    sold_so = job.units is System.US or job.metal.gauge is not None
    return sold_so and (metal is None or METALS[metal].ordered_by_gauge)


def _graded(job: Job) -> bool:
    metal = job.metal.metal
    return metal is not None and bool(METALS[metal].grades)


def _tempered(job: Job) -> bool:
    metal = job.metal.metal
    return metal is not None and bool(METALS[metal].tempers)


def _finished(job: Job) -> bool:
    # What a file says of paint is shown, so that it can be taken back.
    metal = job.metal.metal
    return metal is None or METALS[metal].comes_painted or job.metal.is_painted


def _other_standards(job: Job) -> bool:
    # A metal's record names the standards of US orders; what is said of another goes before it.
    return job.metal.metal is not None and (
        job.units is System.METRIC or job.metal.standard is not None)


def _painted(job: Job) -> bool:
    return job.metal.is_painted


def _toleranced(job: Job) -> bool:
    metal = job.metal
    return bool(metal.thickness_is or metal.thickness_tolerance is not None
                or metal.thickness_standard)


_WORD = r"min(?:imum)?|nom(?:inal)?"
_SUPPLIED_AS = re.compile(
    rf"(?:(?P<before>{_WORD})\.?\s+)?(?P<number>.*?\d.*?)"
    rf"(?:(?:\s+|(?<=\d))(?P<after>{_WORD})\.?)?", re.IGNORECASE)


def thickness_is_typed(text: str) -> tuple[str, ThicknessIs | None]:
    """A thickness as suppliers write it: the number, and whether it is a minimum or a nominal.

    >>> thickness_is_typed("0.0236 in min."), thickness_is_typed("nom 0.024")
    (('0.0236 in', <ThicknessIs.MINIMUM: 'minimum'>), ('0.024', <ThicknessIs.NOMINAL: 'nominal'>))
    """
    found = _SUPPLIED_AS.fullmatch(" ".join(text.split()))
    said = found and (found["before"] or found["after"])
    if not found or not said:
        return text, None
    least = said.casefold().startswith("min")
    return found["number"], ThicknessIs.MINIMUM if least else ThicknessIs.NOMINAL


class ThicknessAnswer(Answer):
    """A decimal thickness; what it is said to be, such as `0.0236 min`, is an answer of its own."""

    def read(self, text: str, system: System = System.US) -> Value:
        """The thickness [in]. Raises UnreadableAnswer with a sentence for the user."""
        return super().read(thickness_is_typed(text)[0], system)


_BY = r"(?:by|per|as per|to|under|according to)"
_NAMED = r"(?:ASTM|EN|ISO|DIN|JIS)\b"
_TOLERANCE = re.compile(
    r"(?:±|\+\s*/?\s*[-−]|\+|plus or minus|plus)?\s*(?P<number>.*?\d.*?)"
    r"(?:,?\s+(?:either|each) way)?"
    rf"(?:[\s,;]+(?:{_BY}\s+(?P<by>[^\W\d].*)|(?P<named>{_NAMED}.*))"
    r"|,\s*(?P<said>[^\W\d].*))?", re.IGNORECASE)
_STANDARD_ALONE = re.compile(rf"(?:{_BY}\s+)?(?P<named>{_NAMED}.*|[^\d]+)", re.IGNORECASE)
_STANDARD_FIRST = re.compile(
    rf"(?:{_BY}\s+)?(?P<by>{_NAMED}[^,;]*|[^\W\d][^\d,;:]*?)\s*[,;:]\s*"
    r"(?P<size>(?:[±+−-]|plus or minus|0?\.\d).*)", re.IGNORECASE)


def _size_first(text: str) -> str:
    """A size that stands behind its standard, `mill standard, 0.05 mm`, before it."""
    whole = " ".join(text.split())
    found = _STANDARD_FIRST.fullmatch(whole)
    return whole if found is None else f"{found['size']}, {found['by']}"


def _sized(text: str) -> str:
    """What is said of the size, its sign included and no standard."""
    whole = _size_first(text)
    found = None if _STANDARD_ALONE.fullmatch(whole) else _TOLERANCE.fullmatch(whole)
    return text if found is None else whole[:found.end("number")]


def tolerance_typed(text: str) -> tuple[str, str | None]:
    """How far a thickness may differ as suppliers say it: the size, and by which standard.

    >>> tolerance_typed("± 0.003 in by ASTM A924"), tolerance_typed("+/- 0.003, EN 10143")
    (('0.003 in', 'ASTM A924'), ('0.003', 'EN 10143'))
    >>> tolerance_typed("±0.0016 in, mill standard")
    ('0.0016 in', 'mill standard')
    >>> tolerance_typed("mill standard, 0.05 mm")
    ('0.05 mm', 'mill standard')
    >>> tolerance_typed("0.003 in")
    ('0.003 in', None)
    """
    whole = _size_first(text)
    found = None if _STANDARD_ALONE.fullmatch(whole) else _TOLERANCE.fullmatch(whole)
    return (text, None) if found is None else (
        found["number"], found["by"] or found["named"] or found["said"])


class ToleranceAnswer(Answer):
    """How far a thickness may differ; the standard that says so is an answer of its own."""

    def read(self, text: str, system: System = System.US) -> Value:
        """The size [in]. Raises UnreadableAnswer with a sentence for the user."""
        alone = _STANDARD_ALONE.fullmatch(_size_first(text))
        if alone is not None:
            raise UnreadableAnswer(
                f"{self.label}: {quote(alone['named'])} says no size. How far it may differ is "
                f"wanted, such as {self.example(system)}, with the standard behind it or in a box "
                "of its own.")
        both = sides(_sized(text))
        if both is None:
            size = tolerance_typed(text)[0]
            try:
                return super().read(size, system)
            except UnreadableAnswer:
                if not size.strip()[:1].isalpha():
                    raise
                raise UnreadableAnswer(
                    f"{self.label}: {quote(text)} begins with words. The size comes first, and "
                    f"words behind it: {self.example(system)}, mill standard.") from None
        read = super().read
        under, over = (float(read(one, system)) for one in both)  # type: ignore[arg-type]
        if under in (0.0, over):
            return over
        assert self.kind is not None
        raise UnreadableAnswer(
            f"{self.label}: {quote(text)} differs by side, and the order says one size: either way "
            "of a nominal, or over a minimum. Order the least that may come as a minimum, and put "
            f"{show(under + over, self.kind, system)} here.")


def nothing_thinner(text: str) -> bool:
    """Whether a tolerance as it was typed lets nothing thinner come: `+0.006/−0` is a minimum's."""
    both = sides(_sized(text))
    return both is not None and not re.search("[1-9]", both.under) and bool(
        re.search("[1-9]", both.over))


METAL: tuple[Answer, ...] = (
    Answer(MetalKey.METAL, "Metal", Form.CHOICE, choices=tuple(MetalName)),
    GradeAnswer(MetalKey.GRADE, "Grade, alloy or type", Form.TEXT, needed=False, moves=False,
           asked=_graded, offered=_no_metal, rests_on=(MetalKey.METAL,)),
    Answer(MetalKey.STANDARD, "Metal's standard", Form.TEXT, needed=False, moves=False,
           asked=_other_standards, rests_on=(MetalKey.METAL,)),
    Answer(MetalKey.TEMPER, "Temper", Form.TEXT, needed=False, moves=False, asked=_tempered,
           offered=_no_metal, rests_on=(MetalKey.METAL,)),
    CoatingAnswer(MetalKey.COATING, "Metallic coating", Form.CHOICE, choices=tuple(CoatingName),
           asked=_is_coated, offered=_no_metal),
    Answer(MetalKey.GAUGE, "Gauge, or copper oz", Form.COUNT, Kind.COUNT, needed=False,
           moves=False, low=1, high=99, asked=_has_gauge,
           counted=("ga", "gauge", "gage", "oz", "ounce", "ounces")),
    ThicknessAnswer(MetalKey.THICKNESS, "Decimal thickness", Form.QUANTITY, Kind.THICKNESS,
           ("in", "mm"), low=0.005, high=0.25),
    Answer(MetalKey.THICKNESS_BASIS, "Thickness includes", Form.CHOICE,
           choices=tuple(ThicknessBasis), asked=_is_coated, offered=always),
    Answer(MetalKey.THICKNESS_IS, "Minimum or nominal", Form.CHOICE, choices=tuple(ThicknessIs),
           needed=False),
    ToleranceAnswer(MetalKey.THICKNESS_TOLERANCE, "Thickness tolerance", Form.QUANTITY,
           Kind.THICKNESS, ("in", "mm"), needed=False, zero=True, high=0.02, asked=_toleranced,
           examples=("0.003 in", "0.08 mm")),
    Answer(MetalKey.THICKNESS_STANDARD, "… by standard", Form.TEXT, needed=False, moves=False,
           asked=_toleranced),
    Answer(MetalKey.FINISH, "Finish", Form.CHOICE, choices=tuple(Finish), moves=False,
           asked=_finished, offered=always),
    # The color is the client's, and another roof has another client.
    Answer(MetalKey.COLOR, "Color", Form.TEXT, moves=False, asked=_painted,
           in_copy=InCopy.GUESS),
    Answer(MetalKey.COLOR_CODE, "Color code", Form.TEXT, needed=False, moves=False,
           asked=_painted, rests_on=(MetalKey.COLOR,), in_copy=InCopy.GUESS),
    Answer(MetalKey.BACK_COAT, "Back coat", Form.TEXT, needed=False, moves=False, asked=_painted),
    Answer(MetalKey.SHADE, "Shade", Form.CHOICE, choices=tuple(Shade), needed=False,
           moves=False, asked=_painted, rests_on=(MetalKey.COLOR,)),
    Answer(MetalKey.COLOR_CONFIRMED, "Color signed off", Form.CHOICE,
           choices=tuple(YesNo), moves=False, asked=_painted,
           rests_on=(MetalKey.COLOR, MetalKey.COLOR_CODE, MetalKey.FINISH),
           in_copy=InCopy.DROPPED),
    Answer(MetalKey.CUSTOM_COLOR, "Custom color", Form.CHOICE, choices=tuple(YesNo),
           needed=False, moves=False, asked=_painted),
    Answer(MetalKey.PAINTED_SIDE, "Painted side", Form.CHOICE, choices=tuple(PaintedSide),
           asked=_painted, asked_on="machine"),
    Answer(MetalKey.FILM, "Protective film", Form.CHOICE, choices=tuple(YesNo), needed=False,
           moves=False, asked=_painted),
    Answer(MetalKey.TOUCHING, "Touches or drains from", Form.CHOICE, choices=tuple(Touching),
           moves=False, in_copy=InCopy.GUESS),
)
