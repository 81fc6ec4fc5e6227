"""Trim: how many pieces an edge takes, and how wide the flat blank is (its flat width)."""

from __future__ import annotations

from coilwright.units import Kind
from coilwright.values.formula import down, formula, greatest, pi, tangent, total, up
from coilwright.values.source import Grade, Source

LAPPED_RUN = Source("pieces in a row, each lapping the one before", Grade.GEOMETRY)
NESTED = Source("blanks side by side across the width, rows one after the other",
                Grade.GEOMETRY)
FLAT_WIDTH = Source(
    "FAA-H-8083-31, Aviation Maintenance Technician Handbook, Airframe, vol. 1, ch. 4: "
    "flats and bend allowances added up",
    Grade.PUBLISHED,
)
SETBACK = Source("FAA-H-8083-31, Airframe, vol. 1, ch. 4: setback K·(R + T)", Grade.PUBLISHED)
BEND_ALLOWANCE = Source(
    "FAA-H-8083-31, Airframe, vol. 1, ch. 4: the empirical bend allowance", Grade.MEMORY
)
BRAKE_WORK = Source("bend allowance left out in thin sheet bent on a brake", Grade.PRACTICE)


@formula(Kind.COUNT, LAPPED_RUN, "L l p")
def pieces(length: float, lap: float, piece: float) -> float:
    """Pieces that cover one run of an edge: ⌈(L − l)/(p − l)⌉, and one at least.

    length: of the run; lap: what each piece lies over the one before; piece: length of one.
    All in inches; the piece must be longer than its lap (see `check_piece`).

    Terms: length [in], lap [in], piece [in].

    >>> pieces(length=504, lap=3, piece=120)
    5.0
    """
    return greatest(up((length - lap) / (piece - lap)), 1)


@formula(Kind.LENGTH, LAPPED_RUN, "L n l p")
def last_blank(length: float, pieces: float, lap: float, piece: float) -> float:
    """The last blank of a run, which is cut to what is left: L − (n − 1)·(p − l) [in].

    length: of the run; pieces: on it; lap and piece as in `pieces`.

    Terms: length [in], pieces [1], lap [in], piece [in].

    >>> last_blank(length=504, pieces=5, lap=3, piece=120)
    36
    """
    return length - (pieces - 1) * (piece - lap)


@formula(Kind.COUNT, LAPPED_RUN, "n m")
def pieces_of_runs(pieces: float, runs: float) -> float:
    """Pieces on so many runs of one length: n·m.

    Terms: pieces [1], runs [1].

    >>> pieces_of_runs(pieces=5, runs=2)
    10
    """
    return pieces * runs


@formula(Kind.COUNT, LAPPED_RUN, "N")
def all_pieces(*pieces: float) -> float:
    """Pieces on all runs: ΣN.

    Terms: pieces [1].

    >>> all_pieces(10, 4)
    14.0
    """
    return total(*pieces)


@formula(Kind.LENGTH, LAPPED_RUN, "L n l m")
def cut_length(length: float, pieces: float, lap: float, runs: float) -> float:
    """Blanks of so many runs of one length, end to end: (L + (n − 1)·l)·m [in].

    Each run takes its own length and its laps: its last blank is cut to what is left.

    Terms: length [in], pieces [1], lap [in], runs [1].

    >>> cut_length(length=504, pieces=5, lap=3, runs=1)
    516
    """
    return (length + (pieces - 1) * lap) * runs


@formula(Kind.LENGTH, LAPPED_RUN, "s l")
def side_run(side: float, lap: float) -> float:
    """What covers one side of an opening, past the corner where the next side's piece laps it:
    s + l [in].

    Terms: side [in], lap [in].

    >>> side_run(side=24, lap=4)
    28
    """
    return side + lap


@formula(Kind.LENGTH, LAPPED_RUN, "L r")
def equal_run(length: float, runs: float) -> float:
    """One of several runs of one length: L/r [in].

    Terms: length [in], runs [1].

    >>> equal_run(length=1008, runs=2)
    504.0
    """
    return length / runs


def check_piece(piece: float, lap: float) -> None:
    """Raise ValueError, in a sentence, where a piece of trim [in] is no longer than its lap."""
    if piece <= lap:
        raise ValueError(
            f"A piece {piece:g} in long cannot lap {lap:g} in: the piece must be longer than "
            "its lap."
        )


@formula(Kind.RATIO, SETBACK, "A")
def setback_factor(angle: float) -> float:
    """K of a bend through A degrees: tan(A/2), which is 1 at a right angle [1].

    angle: bent through, in degrees, as a number.

    Terms: angle [1].

    >>> round(setback_factor(90), 6)
    1.0
    """
    return tangent(pi * angle / 360)


@formula(Kind.WIDTH, SETBACK, "K R T")
def setback(factor: float, radius: float, thickness: float) -> float:
    """From the mold line to where the bend begins: K·(R + T) [in].

    factor: `setback_factor` [1]; radius: inside [in]; thickness [in].

    Terms: factor [1], radius [in], thickness [in].

    >>> round(setback(factor=1.0, radius=0.0625, thickness=0.0236), 6)
    0.0861
    """
    return factor * (radius + thickness)


@formula(Kind.WIDTH, FLAT_WIDTH, "F s")
def flat(leg: float, *setbacks: float) -> float:
    """The flat part of a leg measured to the mold lines: F − Σs [in], a setback per bend.

    Terms: leg [in], setbacks [in].

    >>> round(flat(4, 0.0861), 3)
    3.914
    """
    return leg - total(*setbacks)


@formula(Kind.WIDTH, BEND_ALLOWANCE, "R T A")
def bend_allowance(radius: float, thickness: float, angle: float) -> float:
    """Sheet that one bend takes: (0.01743·R + 0.0078·T)·A [in].

    radius: inside [in]; thickness [in]; angle: bent through, in degrees, as a number.

    Terms: radius [in], thickness [in], angle [1].

    >>> round(bend_allowance(radius=0.0625, thickness=0.0236, angle=90), 6)
    0.114611
    """
    return (0.01743 * radius + 0.0078 * thickness) * angle


@formula(Kind.WIDTH, FLAT_WIDTH, "w")
def developed_width(*parts: float) -> float:
    """Width of the flat blank: flats and bend allowances added up [in].

    Terms: parts [in].

    >>> round(developed_width(3.914, 5.914, 0.12), 3)
    9.948
    """
    return total(*parts)


@formula(Kind.WIDTH, BRAKE_WORK, "w")
def flat_width(*parts: float) -> float:
    """Flat width of brake work in thin sheet: legs and hems added up [in], bends left out.

    Terms: parts [in].

    >>> round(flat_width(4, 6, 0.5), 2)
    10.5
    """
    return total(*parts)


@formula(Kind.AREA, LAPPED_RUN, "L g")
def blanks_area(length: float, flat_width: float) -> float:
    """Flat area of the blanks of one kind of trim, laid end to end: L·g [in²].

    Terms: length [in], flat_width [in].

    >>> blanks_area(length=504, flat_width=12)
    6048
    """
    return length * flat_width


@formula(Kind.AREA, NESTED, "L W A")
def nest_drop(length: float, width: float, *areas: float) -> float:
    """Area that becomes no blank: L·W − ΣA [in²].

    length: of all rows cut from metal of this width; areas: of the blanks nested on them.

    Terms: length [in], width [in], areas [in²].

    >>> nest_drop(1200, 48, 21_600, 28_800)
    7200.0
    """
    return length * width - total(*areas)


@formula(Kind.COUNT, NESTED, "S p")
def blanks_along(sheet: float, piece: float) -> float:
    """Blanks end to end on a sheet: ⌊S/p⌋. Both in inches.

    Terms: sheet [in], piece [in].

    >>> blanks_along(sheet=120, piece=40)
    3.0
    """
    return down(sheet / piece)


@formula(Kind.COUNT, NESTED, "r a")
def sheets(rows: float, along: float) -> float:
    """Flat sheets for so many rows of blanks: ⌈r/a⌉.

    Terms: rows [1], along [1].

    >>> sheets(rows=7, along=3)
    3.0
    """
    return up(rows / along)
