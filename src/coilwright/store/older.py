"""Files of older versions: raw data brought to the next version, before anything is judged.

Version 2 spells as the trade in America does, in its fields and in what is picked from lists, and
calls a field by the word of the trade.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Data = dict[str, Any]

_SPELLED = {
    "colour": "color", "centred": "centered", "centre": "center", "aluminium": "aluminum",
    "galvanised": "galvanized",
}
"""Words of version 1 as version 2 spells them, the longer of two alike first."""
_RENAMED = {
    "girth": "flat_width",
    "smallest_inside": "smallest_coil_id", "largest_inside": "largest_coil_id",
    "decoiler_smallest_inside": "decoiler_smallest_coil_id",
    "decoiler_largest_inside": "decoiler_largest_coil_id",
    "hitch_load": "tongue_weight", "hitch_load_rating": "tongue_weight_rating",
    "empty_hitch_load": "empty_tongue_weight",
    "trailer_rating": "trailer_gvwr", "tow_rating": "tow_gvwr", "combination_rating": "gcwr",
    "second_batch": "second_lot",
}
"""Fields, and parts of keys, by the name they had in version 1."""
_PICKED = frozenset(("metal", "report_metal", "touching", "start", "faults"))
"""Fields whose values are picked from a list; what was typed freely stays as it was typed."""
_BY_KEY = frozenset(("standing", "typed", "questions", "forms"))
"""Objects whose names are keys of answers, of questions or of metals."""


def _spelled(text: str) -> str:
    for old, new in _SPELLED.items():
        text = text.replace(old, new)
    return text


def _renamed(key: str) -> str:
    """A field or a key, such as `trim.pieces.0.girth`, as version 2 has it."""
    return ".".join(_RENAMED.get(part, part) for part in _spelled(key).split("."))


def _respelled(name: str, value: Any) -> Any:
    """A field's value as version 2 has it."""
    if isinstance(value, dict):
        if name in _BY_KEY:
            return {_renamed(key): _respelled(key, part) for key, part in value.items()}
        return to_version_2(value)
    if isinstance(value, list):
        return [_respelled(name, part) for part in value]
    return _spelled(value) if name in _PICKED and isinstance(value, str) else value


def to_version_2(data: Data) -> Data:
    """Version 1 with its fields and picks in American spelling; other words stay as they are."""
    made = {_renamed(name): _respelled(name, value) for name, value in data.items()}
    return {**made, "version": 2} if "version" in data else made


DROPPED = ("notching_unit",)
"""Fields that files of version 2 may have, and that nothing was ever made of."""


def without_dropped(data: Any) -> Any:
    """Data without the fields that there are no more, wherever a machine stands in it."""
    if isinstance(data, list):
        return [without_dropped(part) for part in data]
    if not isinstance(data, dict):
        return data
    return {name: without_dropped(part) for name, part in data.items() if name not in DROPPED}


CONVERSIONS: Mapping[int, Callable[[Data], Data]] = {1: to_version_2}
"""By version: makes raw data of the next version of it."""
