"""What people go through by hand before a coil is hauled or lifted, in our own words.

All of it is common practice, no source: the manuals of machine, trailer and lifting gear, and
the local rules, have more.
"""

from __future__ import annotations

BEFORE_WHEELS = (
    "The plates of trailer, axles, hitch and towing vehicle are read today, not remembered.",
    "The whole is weighed where there is a scale, and the load on the hitch too.",
    "Coils on the rack are locked on their arbors as the machine's manual says; loose ends are "
    "banded.",
    "The hitch is closed, pinned and of the size it was made for; chains and breakaway cable are "
    "hooked on.",
    "Lights and trailer brakes are tried. Tyres, their load marks and wheel nuts are looked at.",
    "Jack up, run-out stands and covers locked, tools stowed, chocks taken away last.",
    "Every tie-down is tight, its tag can be read, and it lies on no cut edge without a pad.",
    "Coils carried as cargo cannot roll, slide or tip even with a tie-down loose.",
    "All of it is looked at again after the first few miles, and at every stop.",
)
BEFORE_LIFTING = (
    "The coil's own tag is read: what it weighs, not what was ordered.",
    "The plate of the forklift or crane and that of its attachment are read; the lesser counts.",
    "Slings are looked over this shift: each tag can be read, nothing is cut, bent or knotted, "
    "edges are padded.",
    "Ground, path and reach are looked at, and power lines overhead.",
    "One person gives the signs. Nobody is under a lifted coil or beside it; tag lines keep hands "
    "away.",
    "The coil is chocked before it is let go. Whoever cuts bands stands aside of their spring.",
)
