"""What the models' fields are made of: frozen models, limits, quantities with their units."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Final

from coilwright.units import Kind, read, store

STRICT: Final = {"extra": "forbid", "allow_inf_nan": False}
"""A model's `__pydantic_config__`: a field it does not know is refused, and so is no number."""


@dataclass(frozen=True, slots=True)
class Constraint:
    """A demand on a field's value, beside its type: what must hold, and the words for it."""

    holds: Callable[[Any], bool]
    message: str

    def check(self, value: Any) -> Any:
        """The value as it is. Raises ValueError with the message where it does not hold."""
        if not self.holds(value):
            raise ValueError(self.message)
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Callable[[Any], Any]) -> Any:
        from pydantic_core import core_schema  # only where a file is read

        return core_schema.no_info_after_validator_function(self.check, handler(source))


def between(least: int, most: int) -> Constraint:
    """From `least` to `most`, both included."""
    return Constraint(lambda v: least <= v <= most, f"it must be from {least} to {most}")


def text_between(least: int, most: int) -> Constraint:
    """A text of `least` to `most` characters, both included."""
    return Constraint(
        lambda v: least <= len(v) <= most, f"it must have {least} to {most} characters"
    )


@dataclass(frozen=True, slots=True)
class Quantity:
    """Marks a float that files keep as readable text of one kind."""

    kind: Kind
    example: str
    negative: bool = False

    def parse(self, value: object) -> object:
        """Text read as a number; anything else as it is.

        Raises UnreadableQuantity; and ValueError for a bare number that could not be written as
        text and read again, for the next save would spoil the file.
        """
        if isinstance(value, bool):
            raise ValueError(f"a size with its unit is wanted, such as “{self.example}”")
        if isinstance(value, str):
            return read(value, self.kind, negative=self.negative)
        if isinstance(value, (int, float)):
            # One with no end, or too long for a float, is refused as no number at all.
            with contextlib.suppress(OverflowError):
                if math.isfinite(value):
                    self._can_be_kept(float(value))
        return value

    def _can_be_kept(self, value: float) -> None:
        wanted = f"write it with its unit, such as “{self.example}”"
        if value < 0 and not self.negative:
            raise ValueError(f"a number below zero cannot be right: {wanted}")
        try:
            store(value, self.kind)
        except ValueError:
            raise ValueError(f"a number so far off cannot be right: {wanted}") from None

    def text(self, value: float) -> str:
        """The number as files keep it; reading it gives the same number."""
        return store(value, self.kind)

    def __get_pydantic_core_schema__(self, source: Any, handler: Callable[[Any], Any]) -> Any:
        from pydantic_core import core_schema  # only where a file is read or written

        return core_schema.no_info_before_validator_function(
            self.parse,
            handler(source),
            serialization=core_schema.plain_serializer_function_ser_schema(
                self.text, return_schema=core_schema.str_schema()
            ),
        )

    def __get_pydantic_json_schema__(self, _schema: Any, _handler: Any) -> dict[str, Any]:
        return {"type": "string", "examples": [self.example]}


Length = Annotated[float, Quantity(Kind.LENGTH, "42 ft 6 in")]
Width = Annotated[float, Quantity(Kind.WIDTH, "21 in")]
Thickness = Annotated[float, Quantity(Kind.THICKNESS, "0.0236 in")]
Mass = Annotated[float, Quantity(Kind.MASS, "3000 lb")]
Pitch = Annotated[float, Quantity(Kind.PITCH, "6:12")]
Percent = Annotated[float, Quantity(Kind.PERCENT, "3 %")]
Price = Annotated[float, Quantity(Kind.MONEY_PER_MASS, "1.2 USD/lb")]
Speed = Annotated[float, Quantity(Kind.SPEED, "60 ft/min")]
Angle = Annotated[float, Quantity(Kind.ANGLE, "60°")]
Temperature = Annotated[float, Quantity(Kind.TEMPERATURE, "-20 °F", negative=True)]
Offset = Annotated[float, Quantity(Kind.LENGTH, "-3 ft 2 in", negative=True)]
"""A length that may run to the left, and so be negative."""
LONGEST_NAME = 60
Name = Annotated[
    str, text_between(1, LONGEST_NAME), Constraint(lambda v: bool(v.strip()), "a name is wanted")
]
"""What something of the shop is picked by."""
Line = Annotated[str, text_between(0, 200)]
"""One line of text: a name, a place, a remark."""
