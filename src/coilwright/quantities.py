"""Numbers in files: readable text outside ("42 ft 6 in"), canonical floats inside."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, PlainSerializer, WithJsonSchema

from coilwright.units import Kind, read, store


def _quantity(kind: Kind, example: str) -> Any:
    def understand(value: object) -> object:
        return read(value, kind) if isinstance(value, str) else value

    def readable(value: float) -> str:
        return store(value, kind)

    return (
        BeforeValidator(understand),
        PlainSerializer(readable, return_type=str),
        WithJsonSchema({"type": "string", "examples": [example]}),
    )


Length = Annotated[float, *_quantity(Kind.LENGTH, "42 ft 6 in")]
Width = Annotated[float, *_quantity(Kind.WIDTH, "21 in")]
Thickness = Annotated[float, *_quantity(Kind.THICKNESS, "0.0236 in")]
Mass = Annotated[float, *_quantity(Kind.MASS, "3000 lb")]
Pitch = Annotated[float, *_quantity(Kind.PITCH, "6:12")]
Percent = Annotated[float, *_quantity(Kind.PERCENT, "3 %")]
Price = Annotated[float, *_quantity(Kind.MONEY_PER_MASS, "1.2 USD/lb")]
Speed = Annotated[float, *_quantity(Kind.SPEED, "60 ft/min")]


def _temperature() -> Any:
    def understand(value: object) -> object:
        return read(value, Kind.TEMPERATURE, negative=True) if isinstance(value, str) else value

    def readable(value: float) -> str:
        return store(value, Kind.TEMPERATURE)

    return (
        BeforeValidator(understand),
        PlainSerializer(readable, return_type=str),
        WithJsonSchema({"type": "string", "examples": ["-20 °F"]}),
    )


Temperature = Annotated[float, *_temperature()]
Offset = Annotated[
    float,
    BeforeValidator(
        lambda v: read(v, Kind.LENGTH, negative=True) if isinstance(v, str) else v
    ),
    PlainSerializer(lambda v: store(v, Kind.LENGTH), return_type=str),
    WithJsonSchema({"type": "string", "examples": ["-3 ft 2 in"]}),
]
"""A length that may run to the left, and so be negative."""
