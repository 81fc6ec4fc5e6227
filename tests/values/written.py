"""Works out an equation as it is written on the screen, with units, and nothing else.

    sum     := product (('+' | '−') product)*
    product := power (('·' | '/') power)*
    power   := atom ('²' | '³')?
    atom    := number | symbol | 'π' | '(' sum ')' | '√(' sum ')' | '⌈' sum '⌉' | '⌊' sum '⌋'
             | '|' sum '|' | 'tan(' sum ')' | 'min(' sum (',' sum)* ')' | 'max(' … ')'
             | 'Σ(' symbol ')'
             | 'sin(' sum ')' | 'arcsin(' sum ')'

It knows none of the program's code: only the text of the equation and the terms put in, as
quantities with units. `Σ(L)` is the sum of every term whose symbol is L and a number. A sine is
taken of an angle with its unit, never of a plain number; an arcsine of a plain number, and it is
an angle.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from typing import Any

from coilwright.plan.working import as_put_in, as_worked, put_in
from coilwright.units import Kind, System, registry
from coilwright.values.figure import Figure

_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+(?:\.\d+)?(?:e[+-]?\d+)?)|(?P<name>[A-Za-zΑ-Ωα-ω][A-Za-z0-9]*)"
    r"|(?P<sign>[()⌈⌉⌊⌋|+−·/²³√,]))"
)
_FUZZ = 1e-9
_UNITS = {
    "in": "inch", "in²": "inch**2", "in³": "inch**3", "lb": "pound", "lb/in": "pound/inch",
    "lb/in²": "pound/inch**2", "lb/in³": "pound/inch**3", "1": "dimensionless", "°F": "degF",
    "Δ°F": "delta_degF", "1/Δ°F": "1/delta_degF", "in/min": "inch/minute", "USD": "USD",
    "USD/lb": "USD/pound",
    "°": "degree",
}  # fmt: skip
_PRINTED = _UNITS | {
    "": "dimensionless", "for 12 of run": "dimensionless", "m": "meter", "mm": "millimeter",
    "m²": "meter**2", "m³": "meter**3", "kg": "kilogram", "kg/m": "kilogram/meter",
    "kg/m²": "kilogram/meter**2", "kg/m³": "kilogram/meter**3", "°C": "degC",
    "Δ°C": "delta_degC", "1/Δ°C": "1/delta_degC", "m/min": "meter/minute",
    "USD/kg": "USD/kilogram", "min": "minute",
}  # fmt: skip
_ROUNDED = 1e-6
"""How far a number of seven digits may be off, as a share of it; a little more than the half of
the last digit."""


class WrongEquation(AssertionError):
    """The equation shown does not give the figure, or cannot be worked out at all."""


def unit_of(kind: Kind) -> str:
    """The kind's canonical unit in pint's words."""
    return _UNITS[kind.unit]


def quantity(figure: Figure) -> Any:
    """The figure with its unit."""
    return registry().Quantity(figure.value, unit_of(figure.kind))


def check(figure: Figure) -> None:
    """Hold a figure to the equation shown beside it, in value and in unit.

    Raises WrongEquation.
    """
    import pint

    terms = dict(zip(figure.symbols, map(quantity, figure.terms), strict=True))
    if len(terms) != len(figure.terms):
        raise WrongEquation(f"{figure.key}: two terms share a symbol in {figure.equation}")
    try:
        result = worked_out(figure.equation, terms)
        value = registry().Quantity(result).to(unit_of(figure.kind)).magnitude
    except pint.DimensionalityError as error:
        raise WrongEquation(f"{figure.key}: {figure.equation}: {error}") from error
    # A difference of nearly equal numbers keeps the rounding of the larger ones.
    scale = max([abs(figure.value), *(_size(t, figure) for t in terms.values())])
    if not math.isclose(value, figure.value, rel_tol=1e-9, abs_tol=1e-12 * scale):
        raise WrongEquation(
            f"{figure.key}: {figure.equation} gives {value!r}, shown is {figure.value!r}"
        )


def check_printed(figure: Figure, system: System) -> None:
    """Hold a working to itself, as a person with a pencil would: nothing is read but its text.

    The numbers put in, with the units printed beside them, give the result that is printed, in
    value and in unit, within what seven digits show; and the same numbers stand in the equation.
    Raises WrongEquation.
    """
    import pint

    assert figure.formula is not None
    said = [as_put_in(term, system, figure).rpartition(" = ")[2] for term in figure.terms]
    numbers, units = zip(*map(_printed, said), strict=True) if said else ((), ())
    if said and put_in(figure, system) != figure.formula.written_with(numbers):
        raise WrongEquation(f"{figure.key}: {put_in(figure, system)} holds not {said}")
    terms = {s: registry().Quantity(n, u)
             for s, n, u in zip(figure.symbols, numbers, units, strict=True)}
    number, unit = _printed(as_worked(figure, system).partition(" = ")[0])
    try:
        value = registry().Quantity(worked_out(figure.equation, terms))
        # No factor is left to the reader: the result is in the units of what was put in.
        if value.to(unit).magnitude != value.magnitude and not _same(value, unit):
            raise WrongEquation(f"{figure.key}: {figure.equation} is in {value.units}, not {unit}")
        result = value.to(unit).magnitude
    except pint.DimensionalityError as error:
        raise WrongEquation(f"{figure.key}: {figure.equation}: {error}") from error
    per_unit = registry().Quantity(1.0, _delta(unit_of(figure.kind))).to(_delta(unit)).magnitude
    slack = _moved(figure) * per_unit + _ROUNDED * abs(number)
    if abs(result - number) > slack:
        raise WrongEquation(f"{figure.key}: {said} in {figure.equation} give {result}, "
                            f"printed is {number} {unit}")


def _printed(text: str) -> tuple[float, str]:
    """A printed number and its unit in pint's words."""
    number, _, unit = text.partition(" ")
    return float(number.replace("−", "-")), _PRINTED[unit]


def _same(value: Any, unit: str) -> bool:
    return math.isclose(value.to(unit).magnitude, value.magnitude, rel_tol=1e-12)


def _delta(unit: str) -> str:
    return {"degF": "delta_degF", "degC": "delta_degC"}.get(unit, unit)


def _moved(figure: Figure) -> float:
    """How far a figure moves where each number put in is off in its seventh digit."""
    assert figure.formula is not None
    values = [term.value for term in figure.terms]
    there = figure.formula(*values)
    moved = 0.0
    for place, value in enumerate(values):
        moved += max(abs(figure.formula(*values[:place], value * (1 + off), *values[place + 1 :])
                         - there) for off in (-_ROUNDED, _ROUNDED))
    return moved


def _size(term: Any, figure: Figure) -> float:
    if term.units == registry().Quantity(1, unit_of(figure.kind)).units:
        return abs(float(term.magnitude))
    return 0.0


def worked_out(equation: str, terms: Mapping[str, Any]) -> Any:
    """The value of an equation. Raises WrongEquation where it makes no sense."""
    return _Reader(equation, terms).result()


class _Reader:
    def __init__(self, text: str, terms: Mapping[str, Any]) -> None:
        self.text = text
        self.terms = terms
        self.tokens = self._tokens(text)
        self.at = 0

    def _tokens(self, text: str) -> list[tuple[str, str]]:
        tokens, position = [], 0
        text = text.rstrip()
        while position < len(text):
            match = _TOKEN.match(text, position)
            if match is None:
                raise WrongEquation(f"{text[position:]!r} makes no sense in {self.text}")
            assert match.lastgroup is not None
            tokens.append((match.lastgroup, match[match.lastgroup]))
            position = match.end()
        return tokens

    def result(self) -> Any:
        value = self.sum()
        if self.at != len(self.tokens):
            raise WrongEquation(f"something is left over in {self.text}")
        return value

    def peek(self) -> str:
        return self.tokens[self.at][1] if self.at < len(self.tokens) else ""

    def take(self, wanted: str = "") -> tuple[str, str]:
        if self.at >= len(self.tokens) or (wanted and self.peek() != wanted):
            raise WrongEquation(f"{wanted or 'something'} is missing in {self.text}")
        self.at += 1
        return self.tokens[self.at - 1]

    def sum(self) -> Any:
        value = self.product()
        while self.peek() in ("+", "−"):
            sign = self.take()[1]
            other = self.product()
            value = value + other if sign == "+" else value - other
        return value

    def product(self) -> Any:
        value = self.power()
        while self.peek() in ("·", "/"):
            sign = self.take()[1]
            other = self.power()
            value = value * other if sign == "·" else value / other
        return value

    def power(self) -> Any:
        value = self.atom()
        if self.peek() in ("²", "³"):
            value = value ** {"²": 2, "³": 3}[self.take()[1]]
        return value

    def atom(self) -> Any:
        group, text = self.take()
        if group == "number":
            return float(text)
        if group == "name":
            return self.named(text)
        if text == "(":
            return self.closed(")")
        if text == "√":
            self.take("(")
            return self.closed(")") ** 0.5
        if text == "⌈":
            return math.ceil(self.pure(self.closed("⌉"), -1))
        if text == "⌊":
            return math.floor(self.pure(self.closed("⌋"), 1))
        if text == "|":
            return abs(self.closed("|"))
        raise WrongEquation(f"{text!r} is out of place in {self.text}")

    def named(self, name: str) -> Any:
        if name == "π":
            return math.pi
        if name == "Σ":
            self.take("(")
            stem = self.take()[1]
            self.take(")")
            parts = [v for s, v in self.terms.items() if re.fullmatch(rf"{stem}\d+", s)]
            return _summed(parts)
        if name == "tan":
            self.take("(")
            return math.tan(self.pure(self.closed(")"), 0))
        if name == "sin":
            self.take("(")
            return self.sine(self.closed(")"))
        if name == "arcsin":
            self.take("(")
            return self.arcsine(self.closed(")"))
        if name in ("min", "max"):
            self.take("(")
            values = [self.sum()]
            while self.peek() == ",":
                self.take()
                values.append(self.sum())
            self.take(")")
            return _extreme(values, name)
        if name not in self.terms:
            raise WrongEquation(f"{name} in {self.text} stands for no term")
        return self.terms[name]

    def closed(self, by: str) -> Any:
        value = self.sum()
        self.take(by)
        return value

    def pure(self, value: Any, side: int) -> float:
        """A plain number a hair beyond the value: rounding knows no units."""
        number = self.plain(value)
        return float(number + side * _FUZZ * max(1.0, abs(number)))

    def plain(self, value: Any) -> float:
        """A number without a unit; an angle, which to pint is one, is refused."""
        quantity = registry().Quantity(value)
        if _is_angle(quantity):
            raise WrongEquation(f"an angle stands for a plain number in {self.text}")
        return float(quantity.to("dimensionless").magnitude)

    def sine(self, value: Any) -> float:
        """The sine of an angle; a plain number, which to pint is radians, is refused."""
        quantity = registry().Quantity(value)
        if not _is_angle(quantity):
            raise WrongEquation(f"the sine of what is no angle in {self.text}")
        return math.sin(quantity.to("radian").magnitude)

    def arcsine(self, value: Any) -> Any:
        """The angle from 0° to 90° with this sine."""
        share = self.plain(value)
        if not 0 <= share <= 1 + _FUZZ:
            raise WrongEquation(f"no angle has the sine {share} in {self.text}")
        return registry().Quantity(math.asin(min(1.0, share)), "radian").to("degree")


def _is_angle(quantity: Any) -> bool:
    return bool(quantity.units in (registry().degree, registry().radian))


def _summed(parts: list[Any]) -> Any:
    if not parts:
        return 0.0
    unit = parts[0].units
    return registry().Quantity(math.fsum(p.to(unit).magnitude for p in parts), unit)


def _extreme(values: list[Any], name: str) -> Any:
    unit = registry().Quantity(values[0]).units
    magnitudes = [registry().Quantity(v).to(unit).magnitude for v in values]
    return registry().Quantity(min(magnitudes) if name == "min" else max(magnitudes), unit)
