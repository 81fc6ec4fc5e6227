"""Typographic marks, fractions and spaces brought to the plain characters the grammar knows."""

from __future__ import annotations

import re

_MARKS = {
    "'": "’′‘ʹʼ´`ˈ",
    '"': "”″“ʺ˝„",
    "-": "‐‑‒–—−﹣",
    "/": "⁄∕÷",
    ":": "∶",
    "°": "º˚",
    "µ": "μ",
    "x": "×",
    " ": "\t\r\n\u00a0\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))),
    "": "\u200b\u200c\u200d\u2060\ufeff",
}
_PLAIN = str.maketrans({odd: plain for plain, odds in _MARKS.items() for odd in odds})
# Full-width forms stand at a fixed distance from ASCII.
_NARROW = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}
_FRACTIONS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅙": "1/6", "⅚": "5/6",
    "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
}  # fmt: skip


def tidy(text: str) -> str:
    """Return the text in lower case with plain quote marks, dashes, slashes, digits and spaces.

    `6½″` becomes `6 1/2"`; two apostrophes become one inch mark; `6.7 × 10^-6` becomes `6.7 e-6`.
    """
    text = text.translate(_NARROW).translate(_PLAIN)
    text = text.replace("℉", "°f").replace("℃", "°c")
    for mark, plain in _FRACTIONS.items():
        # The spaces keep 6½ from becoming 61/2.
        text = text.replace(mark, f" {plain} ")
    text = text.lower().replace("''", '"')
    text = re.sub(r"([0-9])\s*[x*]\s*10\s*(?:\^|\*\*)?\s*([+-]?[0-9]+)\b", r"\1e\2", text)
    return " ".join(text.split())
