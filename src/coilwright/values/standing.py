"""How far an answer, or what rests on answers, can be trusted."""

from __future__ import annotations

from enum import StrEnum


class Standing(StrEnum):
    """How far an answer, or a figure that rests on answers, can be trusted."""

    SURE = "sure"
    GUESS = "guess"
    ASK = "ask"
