"""Formulas: one function of plain numbers that is also an equation one can print.

A formula is written once, as an ordinary function. Called with floats it computes. Called
with symbols it writes itself down (`π·(OD² − ID²) / (4·t)`), so the equation on the screen
is the code that ran.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import Any, Generic, ParamSpec

from coilwright.units import Kind
from coilwright.values.source import Source

P = ParamSpec("P")
_SUM, _PRODUCT, _POWER, _ATOM = range(4)
_FUZZ = 1e-9
"""Relative slack of `up` and `down`: 217.0000000001 of one is 217, not 218."""
_WRITE_OUT = 6
"""A sum of more terms than this prints as `Σ(L)`, the sum of every L1, L2, …"""
_DIGITS = 7
"""Digits of a number put into an equation: far closer than a tape or a tag."""


@dataclass(frozen=True, slots=True, eq=False)
class Expr:
    """A written piece of an equation and how tightly it binds; `number` for one put in."""

    text: str
    bind: int = _ATOM
    number: bool = False

    def within(self, bind: int) -> str:
        """The text, in brackets where the surroundings bind tighter."""
        return self.text if self.bind >= bind else f"({self.text})"

    def __add__(self, other: object) -> Expr:
        return Expr(f"{self.text} + {_expr(other).text}", _SUM)

    def __radd__(self, other: object) -> Expr:
        return _expr(other) + self

    def __sub__(self, other: object) -> Expr:
        return Expr(f"{self.text} − {_expr(other).within(_PRODUCT)}", _SUM)

    def __rsub__(self, other: object) -> Expr:
        return _expr(other) - self

    def __mul__(self, other: object) -> Expr:
        return Expr(f"{self.within(_PRODUCT)}·{_expr(other).within(_PRODUCT)}", _PRODUCT)

    def __rmul__(self, other: object) -> Expr:
        return _expr(other) * self

    def __truediv__(self, other: object) -> Expr:
        return Expr(f"{self.within(_PRODUCT)} / {_expr(other).within(_POWER)}", _PRODUCT)

    def __rtruediv__(self, other: object) -> Expr:
        return _expr(other) / self

    def __pow__(self, power: int) -> Expr:
        sign = {2: "²", 3: "³"}[power]
        return Expr(f"{self.within(_ATOM)}{sign}", _POWER)

    def __abs__(self) -> Expr:
        return Expr(f"|{self.text}|")


def _expr(value: object) -> Expr:
    if isinstance(value, Expr):
        return value
    if value is pi:
        return Expr("π")
    if isinstance(value, (int, float)):
        return Expr(f"{value:g}")
    raise TypeError(f"{value!r} has no place in an equation")


def number_text(value: float) -> str:
    """A number as it stands in an equation: seven digits, no powers of ten, − for minus."""
    plain = f"{Decimal(f'{value:.{_DIGITS}g}'):f}"
    if "." in plain:
        plain = plain.rstrip("0").rstrip(".")
    return plain.replace("-", "−")


def _put_in(value: float) -> Expr:
    text = number_text(value)
    return Expr(f"({text})" if value < 0 else text, _ATOM, number=True)


pi: float = math.pi


def _written(name: str, values: tuple[Any, ...]) -> Expr:
    return Expr(f"{name}({', '.join(_expr(v).text for v in values)})")


def root(x: float) -> float:
    """√x."""
    if isinstance(x, Expr):
        return Expr(f"√({x.text})")
    return math.sqrt(x)


def tangent(x: float) -> float:
    """tan(x), of an angle in radians."""
    if isinstance(x, Expr):
        return Expr(f"tan({x.text})")
    return math.tan(x)


def sine(degrees: float) -> float:
    """sin(x), the angle in degrees."""
    if isinstance(degrees, Expr):
        return Expr(f"sin({degrees.text})")
    return math.sin(math.radians(degrees))


def arcsine(x: float) -> float:
    """arcsin(x) in degrees: the angle from 0° to 90° whose sine is x, for x from 0 to 1."""
    if isinstance(x, Expr):
        return Expr(f"arcsin({x.text})")
    return math.degrees(math.asin(x))


def up(x: float) -> float:
    """⌈x⌉, the next whole number, forgiving the last digits of a float."""
    if isinstance(x, Expr):
        return Expr(f"⌈{x.text}⌉")
    return float(math.ceil(x - _FUZZ * max(1.0, abs(x))))


def down(x: float) -> float:
    """⌊x⌋, the whole number below, forgiving the last digits of a float."""
    if isinstance(x, Expr):
        return Expr(f"⌊{x.text}⌋")
    return float(math.floor(x + _FUZZ * max(1.0, abs(x))))


def least(*values: float) -> float:
    """The smallest of the values."""
    if isinstance(values[0], Expr):
        return _written("min", values)
    return min(values)


def greatest(*values: float) -> float:
    """The largest of the values."""
    if isinstance(values[0], Expr):
        return _written("max", values)
    return max(values)


def total(*values: float) -> float:
    """The sum of the values, rounded once (0 for none)."""
    if values and isinstance(values[0], Expr):
        if len(values) <= _WRITE_OUT:
            text = " + ".join(_expr(v).text for v in values)
            return Expr(text, _SUM if len(values) > 1 else _ATOM)
        if values[0].number:
            first, second, *_, last = (_expr(v).text for v in values)
            return Expr(f"{first} + {second} + … + {last}", _SUM)
        stem = _expr(values[0]).text.rstrip("0123456789")
        return Expr(f"Σ({stem})")
    return math.fsum(values)


class Formula(Generic[P]):
    """A named equation: call it with numbers, or ask it to write itself down."""

    def __init__(
        self, function: Callable[P, float], kind: Kind, source: Source, symbols: str
    ) -> None:
        self._function = function
        self.kind = kind
        self.source = source
        self.name = function.__name__
        self.__doc__ = function.__doc__
        self.__name__ = function.__name__
        self.__module__ = function.__module__
        self.__wrapped__ = function
        self._symbols = tuple(symbols.split())
        parameters = inspect.signature(function).parameters.values()
        self._many = any(p.kind is p.VAR_POSITIONAL for p in parameters)
        if len(self._symbols) != len(parameters):
            raise TypeError(f"{self.name}: one symbol for each parameter, please")

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> float:
        return self._function(*args, **kwargs)

    def symbols(self, count: int) -> tuple[str, ...]:
        """The symbols of `count` terms; the last one repeats, numbered, where terms do."""
        if not self._many:
            return self._symbols
        fixed, stem = self._symbols[:-1], self._symbols[-1]
        stems = stem.split(",")
        rest = count - len(fixed)
        return fixed + tuple(
            f"{stems[i % len(stems)]}{i // len(stems) + 1}" for i in range(rest)
        )

    @property
    def takes_many(self) -> bool:
        """Whether all its terms are alike, as of a sum or a least: their symbols say nothing."""
        return self._many and len(self._symbols) == 1 and "," not in self._symbols[0]

    def written(self, count: int) -> str:
        """The equation in symbols, for `count` terms."""
        if not self._many:
            return self._written
        return self._write(count)

    def written_with(self, values: Sequence[float]) -> str:
        """The equation with numbers put in for its symbols, in canonical units; π stays π.

        A sum of many terms shows its first two and its last. Raises TypeError where there are
        not as many values as symbols.
        """
        function: Callable[..., Any] = self._function
        return _expr(function(*map(_put_in, values))).text

    @cached_property
    def _written(self) -> str:
        return self._write(len(self._symbols))

    def _write(self, count: int) -> str:
        function: Callable[..., Any] = self._function
        result = function(*[Expr(s) for s in self.symbols(count)])
        return _expr(result).text


def formula(
    kind: Kind, source: Source, symbols: str
) -> Callable[[Callable[P, float]], Formula[P]]:
    """Make a function a `Formula`.

    kind: what the result is, which gives its unit. source: where the equation comes from.
    symbols: one word for each parameter, as the equation shows it; for `*args` a stem that
    is numbered (`L` gives L1, L2, …; `x,y` gives x1, y1, x2, …).
    """

    def wrap(function: Callable[P, float]) -> Formula[P]:
        return Formula(function, kind, source, symbols)

    return wrap
