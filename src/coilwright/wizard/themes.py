"""Three themes of our own: two calm ones, and one of high contrast."""

from __future__ import annotations

from textual.theme import Theme


def _scroll_bar(thumb: str, hover: str) -> dict[str, str]:
    """What makes the thumb of a scroll bar stand out: Textual's own is a faint mix."""
    return {"scrollbar": thumb, "scrollbar-hover": hover}


DARK = Theme(
    name="coilwright-dark",
    primary="#7fb0c8",
    secondary="#b5c0c8",
    accent="#e6bd78",
    foreground="#d8dcdf",
    background="#171b1e",
    surface="#1f2529",
    panel="#272e33",
    success="#8dbf8b",
    warning="#e6bd78",
    error="#e58a80",
    dark=True,
    variables=_scroll_bar("#9aa7b0", "#7fb0c8"),
)
LIGHT = Theme(
    name="coilwright-light",
    primary="#1f5f7d",
    secondary="#3d4a53",
    accent="#643f00",
    foreground="#1d2225",
    background="#f0efe9",
    surface="#ffffff",
    panel="#e7e6e0",
    success="#2d6a2b",
    warning="#643f00",
    error="#a32920",
    dark=False,
    variables=_scroll_bar("#3d4a53", "#1f5f7d"),
)
CONTRAST = Theme(
    name="coilwright-contrast",
    primary="#66e0ff",
    secondary="#e0e0e0",
    accent="#ffd75f",
    foreground="#ffffff",
    background="#000000",
    surface="#1c1c1c",
    panel="#3a3a3a",
    success="#7dff7d",
    warning="#ffd75f",
    error="#ff9a90",
    dark=True,
    variables=_scroll_bar("#e0e0e0", "#66e0ff"),
)
THEMES = {
    DARK.name: "dark", LIGHT.name: "light", CONTRAST.name: "high contrast",
    "ansi-dark": "the terminal's own, dark", "ansi-light": "the terminal's own, light",
}
"""All that are offered, and what they are called."""
