"""Two calm themes of our own."""

from __future__ import annotations

from textual.theme import Theme

DARK = Theme(
    name="coilwright-dark",
    primary="#7fb0c8",
    secondary="#9aa7b0",
    accent="#e0b36a",
    foreground="#d8dcdf",
    background="#171b1e",
    surface="#1f2529",
    panel="#272e33",
    success="#8dbf8b",
    warning="#e0b36a",
    error="#e58a80",
    dark=True,
)
LIGHT = Theme(
    name="coilwright-light",
    primary="#1f5f7d",
    secondary="#51606a",
    accent="#8a5a00",
    foreground="#1d2225",
    background="#f6f5f1",
    surface="#ffffff",
    panel="#e7e6e0",
    success="#2d6a2b",
    warning="#8a5a00",
    error="#a32920",
    dark=False,
)
