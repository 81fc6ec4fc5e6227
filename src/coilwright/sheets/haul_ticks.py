"""What people go through by hand before they haul or lift: ticks of the haul and lift card."""

from __future__ import annotations

BEFORE_WHEELS = (
    "Plates of trailer, axles, hitch and tow vehicle read today.",
    "Weighed where there is a scale, tongue or pin weight too.",
    "Coils locked on their arbors by the machine's manual; ends banded.",
    "Hitch closed, pinned, of its size; chains and breakaway hooked on.",
    "Lights and trailer brakes tried; tires and wheel nuts looked at.",
    "Jack up, stands and covers locked, tools stowed, chocks last.",
    "Every tie-down tight, its tag readable, edges padded.",
    "Coils as cargo cannot roll, slide or tip with one tie-down loose.",
    "Looked at again after the first few miles, and at every stop.",
)
"""What people go through by hand before the wheels turn: common practice, no source."""
BEFORE_LIFTING = (
    "Trailer level, jacks down, wheels chocked before its rack is loaded.",
    "The coil's own tag read: what it weighs, not what was ordered.",
    "Plates of forklift or crane and attachment read; the lesser counts.",
    "Slings looked over this shift: tags, cuts, knots; edges padded.",
    "Ground, path and reach looked at, and power lines overhead.",
    "One person gives the signs; hands off, tag lines only.",
    "Coil chocked before it is let go; stand aside when bands are cut.",
)
"""The same, before a coil is lifted: common practice, no source."""
