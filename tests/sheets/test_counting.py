"""One coil is not `1 coils`, on sheets and on screens."""

from __future__ import annotations

import dataclasses
import re

from coilwright.job.roof import Opening, OpeningWhat, Plane
from coilwright.job.trim import TrimFrom, TrimPiece, TrimSection
from coilwright.plan import plan
from coilwright.sheets import KINDS, render
from coilwright.wizard.lists.plane_text import ends_lines
from coilwright.wizard.lists.trim_text import about_piece, nest_lines, piece_row
from coilwright.words.counting import counted, noun
from tests.cases import small_gable, with_planes

_ONE_OF_MANY = re.compile(
    r"\b1 (?:coils|panels|planes|pieces|rows|sheets|strips|strands|people|questions|guesses)\b"
)


def test_in_words() -> None:
    assert (counted(1, "row"), counted(0, "row"), counted(1200, "row")) == (
        "1 row", "0 rows", "1,200 rows",
    )
    assert (noun(1.0, "sheet"), noun(2.0, "sheet")) == ("sheet", "sheets")


def test_a_plane_of_one_panel_and_one_piece_of_trim() -> None:
    piece = TrimPiece(name="Apron", flat_width=12.0, length=100.0, made_from=TrimFrom.FLAT_SHEET)
    section = TrimSection(lap=4.0, blank=120.0, sheet_width=48.0, sheet_length=120.0,
                          pieces=(piece,))
    small = Plane(name="Hood", eave=15.0, slope_length=96.0, pitch=6.0)
    job = dataclasses.replace(with_planes(small_gable(), small), trim=section)
    found = plan(job)
    said = [line for kind in KINDS for line in render(kind, found, "md").splitlines()]
    said += ends_lines(found, 76)
    said += about_piece(found, 0)
    said += [line for nest in found.nests for line in nest_lines(found, nest, 76)]
    assert [line for line in said if _ONE_OF_MANY.search(line)] == []
    assert any("1 piece of 8 ft 4 in" in line for line in said)
    assert any("1 sheet" in line for line in said)
    assert any("1 panel" in line for line in ends_lines(found, 76))


def test_flashing_is_as_long_as_the_side_it_covers() -> None:
    """Four sides of a chimney of 3 by 2 ft, each with its lap of 4 in, are no blanks of 10 ft."""
    chimney = Opening(what=OpeningWhat.CHIMNEY, left=60.0, up=60.0, width=36.0, height=24.0)
    pieces = (TrimPiece(name="Flashing", flat_width=16.0, around=OpeningWhat.CHIMNEY,
                        made_from=TrimFrom.PANEL_COIL),
              TrimPiece(name="Sill", flat_width=6.0, length=240.0, runs=3,
                        made_from=TrimFrom.PANEL_COIL),
              TrimPiece(name="Rake", flat_width=6.0, length=300.0,
                        made_from=TrimFrom.PANEL_COIL))
    job = small_gable()
    plane = dataclasses.replace(job.roof.planes[0], alike=1, openings=(chimney,))
    found = plan(dataclasses.replace(with_planes(job, plane), trim=TrimSection(
        lap=4.0, blank=120.0, pieces=pieces)))
    flashing, sill, rake = (piece_row(found, at, 100) for at in range(3))
    assert "4 up to 3 ft 4 in " in flashing
    assert "3 of 6 ft 8 in " in sill
    assert "3 of 10 ft " in rake
    assert about_piece(found, 0)[1].startswith("Sides: 2 × 3 ft, 2 × 2 ft. Each blank is its side ")
    assert not any(line.startswith("Sides") for line in about_piece(found, 2))
