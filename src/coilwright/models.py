"""Models: frozen data classes that files and forms are made of.

They are plain data classes, so that opening a job costs no more than reading it. pydantic,
which takes longer to load than the rest of the core, is called on only to say what is wrong
with a file that cannot be read, and to describe the format.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, ClassVar, Self, dataclass_transform


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
