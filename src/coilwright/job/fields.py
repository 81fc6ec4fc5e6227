"""What the models' fields are made of: frozen models, limits, quantities with their units."""

from __future__ import annotations

import contextlib
import dataclasses
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Any, ClassVar, Self, dataclass_transform

from coilwright.units import Kind, read, store


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
class Frozen:
    """A model that never changes: a new state is a new model.

    A class that inherits from it becomes a frozen data class with named fields only. What is alike
    for all is written here once: making it for every class costs time at every start.
    """

    __pydantic_config__: ClassVar[Mapping[str, Any]] = {
        "extra": "forbid",
        "allow_inf_nan": False,
    }

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        dataclass(frozen=True, kw_only=True, repr=False, match_args=False)(cls)

    def __repr__(self) -> str:
        fields = dataclasses.fields(self)  # type: ignore[arg-type]
        said = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in fields)
        return f"{type(self).__name__}({said})"

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """The same with some fields changed. Raises TypeError for a field it has not."""
        return dataclasses.replace(self, **(update or {}))  # type: ignore[type-var]


@dataclass(frozen=True, slots=True)
class Must:
    """A demand on a field's value, beside its type: what must hold, and the words for it."""

    hold: Callable[[Any], bool]
    words: str

    def check(self, value: Any) -> Any:
        """The value as it is. Raises ValueError with the words where it does not hold."""
        if not self.hold(value):
            raise ValueError(self.words)
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Callable[[Any], Any]) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(self.check, handler(source))


def between(least: int, most: int) -> Must:
    """From `least` to `most`, both included."""
    return Must(lambda v: least <= v <= most, f"it must be from {least} to {most}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """Marks a float that files keep as readable text of one kind."""

    kind: Kind
    example: str
    negative: bool = False

    def take(self, value: object) -> object:
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
        from pydantic_core import core_schema

        return core_schema.no_info_before_validator_function(
            self.take,
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
