"""Sizes in the trainers' words, said in metric to whoever works in metric.

The words are written with US sizes ("4 to 6 in is usual"). A metric reader gets the same sentence
with its sizes turned and rounded as a person would say them; usual values beside it are exact.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from coilwright.units import System, in_thousands

_NUMBER = r"[-−]?\d+(?:,\d{3})*(?:\.\d+)?(?:/\d+)?"
_SIZES = re.compile(
    rf"(?<![\w$./])(?P<numbers>{_NUMBER}(?:(?:, | to | and | or ){_NUMBER})*) "
    r"(?P<unit>in|ft|lb|°F)(?![\w/]| (?:\d|of run|in 12))"
)
_INCH, _FOOT, _POUND = 25.4, 0.3048, 0.45359237
_SMALL = 0.2
"""Inches under which a size is a thickness, said in hundredths of a millimeter."""


_PRICE = re.compile(r"\$(\d+\.\d\d)/lb")
_OTHERWISE = (
    ("Rise in 12 of run: 6/12, or an angle, 26.6°.",
     "An angle, such as 30°, or a grade, such as 58 %."),
    ("Rise in 12 of run of the lower, steep slope, such as 20/12 or 60°",
     "Angle of the lower, steep slope, such as 60°, or a grade, such as 173 %"),
    ("inches of rise in 12 of run, so 6 in 12, or an angle",
     "an angle, such as 30°, or the rise as a share of the run, 58 %"),
    ("Rise in 12 of run of the porch roof;", "Pitch of the porch roof, an angle;"),
    ("such as 3/12", "such as 14°"), ("such as 3 in 12", "such as 14°"),
    ("Rise in 12 of run, such as 6/12; needed", "An angle, such as 30°; needed"),
    ("bare: ft or m; in any direction: 0,0; 40,0; 20,18 ft 6 in",
     "bare: m; in any direction: 0,0; 12,0; 6,5.5"),
    ("1.78/lb, 62 per cwt, 2.90/ft, 148/square of flat coil; 4650 lump",
     "3.92/kg, 3920/tonne, 9.50/m, 15.90/m²; 4650 lump"),
    ("as it ships: a square of it is 100 sq ft.", "as it ships."),
    ("write it so: 248/square of roof.", "ask for one by the kilogram or for all together."),
    ("0.0248; 0.025; 0.0249", "0.63; 0.64; 0.63"),
    ("Feet of panel a minute", "Meters of panel a minute"),
    ("Most profiles take 4 to 6 in.", "Most profiles take 100 to 150 mm."),
    ("such as 36, 43 and 48 in,", "such as 1000, 1250 and 1500 mm,"),
    ("such as half an inch for both", "such as 12 mm for both"),
    ("design wind speed, exposure and special wind region",
     "design wind speed, terrain category and wind zone"),
    ("an exposure letter", "the kind of terrain"),
    ("in money: $500.", "in money: 500."),
    ("6,000 lb is usual", "2700 kg is usual"),
    ("per lb, ft or coil", "per kg, m or coil"), ("per lb or coil", "per kg or coil"),
    ("0.05/lb, 4.10/mile", "0.11/kg, 2.55/km"), ("0.05/lb", "0.11/kg"), ("2.05/lb", "4.50/kg"),
    ("per mile", "per km"),
    ("by US construction rules from 6 ft up (29 CFR 1926.501). Local rules may be stricter.",
     "by the rules of the place, from about 2 m up in many of them and from any height in some "
     "(common practice, no source). Ask what yours say."),
    ("bill of lading", "freight papers"),
    ("such as May 31, 2030", "such as 31 May 2030"),
    ("such as May 10, 2030", "such as 10 May 2030"),
    ("bow in 8 ft", "bow in 2 m"), ("in 8 ft at most", "in 2 m at most"),
    ("across the strip, to 1/32 in", "across the strip, to 0.5 mm"),
    # What receiving holds a coil to in metric, as calc.receiving.measures has it.
    ("straight edge are read to 1/32 in", "straight edge are read to 0.5 mm"),
    ("wider by 1/8 in at most", "wider by 3 mm at most"),
    ("read to 0.0005 in", "read to 0.01 mm"), ("lie within 0.002 in", "lie within 0.05 mm"),
    ("across a coil is read to 1/8 in", "across a coil is read to 4 mm"),
    ("stainless roofs: 28 to 24 ga", "stainless roofs: 0.4 to 0.6 mm"),
    ("wider than 30 in (", "wider than about 760 mm ("),
    ("0.2 mil primer, 0.75 to 0.8 mil top coat", "5 µm primer, 19 to 20 µm top coat"),
    ("from -20 to 150 °F", "from about -30 to 65 °C"),
    ("2 x 3 ft", "0.6 x 0.9 m"), ("500 ft; 1000 ft", "150 m; 300 m"),
    ("steel of 28 to 22 ga, aluminum of 0.027 to 0.040 in and three-quarter-hard copper of "
     "16 to 20 oz", "steel of 0.4 to 0.8 mm, aluminum of 0.7 to 1.0 mm and three-quarter-hard "
     "copper of 0.55 to 0.7 mm"),
    ("A gauge can be out by a third.", "What is sold as one thickness can be out by a tenth."),
    ("A gauge number alone can be out by a third, in weight and in length.",
     "A thickness by name alone can be out by a tenth, in weight and in length."),
    ("such as AZ50 or G90", "such as AZ150 or Z275"), ("Grade 50, or alloy", "S280GD, or alloy"),
    ("often 180 °F", "often 80 °C"),
    ("American ones over 8 ft", "American ones over 2.44 m"),
    ("The metal meets the gauge and misses the report by a few thousandths.",
     "The metal is of that thickness by name, and misses the report by a few hundredths of a "
     "millimeter."),
    ("One hundred pounds", "45.4 kg, one hundred US pounds"),
    ("of inches or millimeters", "of millimeters"),
)
"""What is said otherwise: of pitches an angle first, which is usual in metric."""
_UNIT_WORDS = tuple((re.compile(rf"\b{us}\b"), metric) for us, metric in (
    ("in inches to a sixteenth", "to the millimeter"),
    ("one or two thousandths of an inch", "0.03 to 0.05 mm"),
    ("a good part of an inch", "a good many millimeters"),
    ("within a sixteenth", "within 1.5 mm"), ("Within a sixteenth", "Within 1.5 mm"),
    ("[Hh]alf an inch", "13 mm"), ("[Aa] quarter inch", "6 mm"), ("[Aa]n inch", "25 mm"),
    ("Twenty inches", "508 mm"), ("few inches", "few centimeters"), ("by inches", "by centimeters"),
    ("inches", "millimeters"), ("first ten feet", "first three meters"),
    ("(many|few|few more|first|last|in) feet", r"\1 meters"),
    ("(every|first|the|a) foot(?! of)", r"\1 meter"), ("miles", "kilometers"),
    ("a few hundred pounds", "a hundred kilograms and more"), ("(?<!US )pounds", "kilograms"),
    ("([Tt]he|[Aa]) pound", r"\1 kilogram"), ("the square or", "the square meter or"),
))
"""Units by name; feet that somebody stands on are left to them."""


def with_units(text: str, system: System) -> str:
    """The text with its sizes in the reader's units; as it is for US."""
    if system is System.US or "metric" in text:
        return text  # what speaks of both systems means both
    for us, metric in _OTHERWISE:
        text = text.replace(us, metric)
    text = _SIZES.sub(_turned, text)
    text = _PRICE.sub(lambda price: f"${float(price[1]) / _POUND:.2f}/kg", text)
    for words, named in _UNIT_WORDS:
        text = words.sub(named, text)
    return text


_US_SOURCES = ("ASTM", "AISI", "IBC", "SMACNA", "Professional Roofing", "Kissell", "IRC")
_DENSITY = re.compile(r"(\d\.\d+) lb/in³")
_BOTH_EXPANSIONS = re.compile(r"( per °C), \d+\.\d+e-6 per °F")
_EXPANSION = re.compile(r"(\d+\.\d+)e-6 per °F")
_PITCH = re.compile(r"(?<![\d/:])" + rf"({_NUMBER}):12\b")
_KILOGRAMS_PER_CUBIC_METER = _POUND / (_INCH / 1000) ** 3


def source_in(source: object, system: System) -> str:
    """Where a number comes from, for a reader in these units; one of the US says that it is.

    >>> source_in("ASTM B258 appendix: 0.2833 lb/in³", System.METRIC)
    'US source: ASTM B258 appendix: 7842 kg/m³'
    """
    text = str(source)
    if system is System.US:
        return text
    text = with_units(text, system)
    text = _DENSITY.sub(lambda one: f"{float(one[1]) * _KILOGRAMS_PER_CUBIC_METER:.0f} kg/m³", text)
    text = _EXPANSION.sub(lambda one: f"{float(one[1]) * 1.8:.1f}e-6 per °C",
                          _BOTH_EXPANSIONS.sub(r"\1", text))
    text = _PITCH.sub(lambda one: f"{math.degrees(math.atan(_value(one[1]) / 12)):.3g}°", text)
    theirs = any(name in text for name in _US_SOURCES) and "US " not in text and "EN " not in text
    return f"US source: {text}" if theirs else text


def _turned(match: re.Match[str]) -> str:
    unit, turn = _TURN[match["unit"]]
    numbers = re.sub(_NUMBER, lambda n: turn(_value(n[0])), match["numbers"])
    return f"{numbers} {unit}"


def _value(text: str) -> float:
    above, _, below = text.replace(",", "").replace("−", "-").partition("/")
    return float(above) / (float(below) if below else 1.0)


def _millimeters(inches: float) -> str:
    value = inches * _INCH
    return f"{value:.2f}" if abs(inches) < _SMALL else in_thousands(value, System.METRIC)


def _meters(feet: float) -> str:
    return in_thousands(feet * _FOOT, System.METRIC, 1)


def _kilograms(pounds: float) -> str:
    value = pounds * _POUND
    return in_thousands(value if value < 100 else round(value, -1), System.METRIC)


def _celsius(fahrenheit: float) -> str:
    return f"{(fahrenheit - 32) / 1.8:.0f}"


_TURN: dict[str, tuple[str, Callable[[float], str]]] = {
    "in": ("mm", _millimeters), "ft": ("m", _meters), "lb": ("kg", _kilograms),
    "°F": ("°C", _celsius),
}
