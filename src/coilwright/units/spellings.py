"""The ways people write a unit, brought to the one name used in `factors.UNITS`."""

from __future__ import annotations

import re
from functools import lru_cache

from .factors import UNITS

_WORDS = {
    "in": 'in inch inches "',
    "ft": "ft foot feet '",
    "yd": "yd yds yard yards",
    "thou": "thou thous mil mils",
    "m": "m metre metres meter meters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "mm": "mm millimetre millimetres millimeter millimeters",
    "µm": "µm um micron microns micrometre micrometres micrometer micrometers",
    "lb": "lb lbs # pound pounds",
    "oz": "oz ounce ounces",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    "g": "g gram grams gramme grammes",
    "t": "t tonne tonnes",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "s": "s sec secs second seconds",
    "°F": "°f f degf degreef degreesf fahrenheit degfahrenheit degreesfahrenheit δ°f δf",
    "°C": "°c c degc degreec degreesc celsius degcelsius degreescelsius centigrade δ°c δc",
    "%": "% percent pct",
    "°": "° deg degs degree degrees",
    "USD": "usd $ dollar dollars us$",
    "¢": "¢ cent cents",
    "ppm": "ppm µin/in µm/m",
}

_WHOLE = {
    "short ton": "shortton shorttons uston ustons",
    "t": "metricton metrictons",
    "square": "square squares sq sqs",
    "ft/min": "fpm",
    "in/min": "ipm",
    "lb/ft": "plf",
    "lb/ft3": "pcf",
    "g/m2": "gsm",
    "g/cm3": "g/cc",
    "per °F": "/°f /f in/in/°f in/in/f in/in°f 1/°f 1/f",
    "per °C": "/°c /c /k m/m/°c m/m/k in/in/°c 1/°c 1/k",
    "ppm/°F": "µin/in/°f µin/in/f",
    "ppm/°C": "µm/m/°c µm/m/k µm/m/c",
}

_BASE = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_COMPLETE = {word: unit for unit, words in _WHOLE.items() for word in words.split()}


@lru_cache(maxsize=512)
def unit_named(text: str) -> str | None:
    """Return the name in `UNITS` of a unit as typed (lower case), or None if it is not known.

    >>> unit_named("pounds per square foot"), unit_named("kg/m³"), unit_named("cubits")
    ('lb/ft2', 'kg/m3', None)
    """
    plain = text.replace("²", "2").replace("³", "3").replace("^", "").replace("**", "")
    plain = re.sub(r"\bper\b", "/", plain.replace(".", " "))
    packed = "".join(plain.split())
    if packed in _COMPLETE:
        return _COMPLETE[packed]
    named = "/".join(_part(part) or "?" for part in plain.split("/"))
    return named if named in UNITS else None


def _part(text: str) -> str | None:
    """Return one side of a unit's slash, such as `sq ft`, as `ft2`."""
    text = "".join(text.split())
    power = ""
    if raised := re.fullmatch(r"(.*[^0-9])([23])", text):
        text, power = raised[1], raised[2]
    elif text not in _BASE and (worded := re.fullmatch(r"(square|sq|cubic|cu)(.+)", text)):
        text, power = worded[2], "2" if worded[1] in ("square", "sq") else "3"
    base = _BASE.get(text)
    return None if base is None else base + power
