"""Lines of dots, of strokes and in ASCII; buildings from above to scale in each; shapes to pick.

Which sign shows which dots is held to the Unicode charts of Braille Patterns (U+2800) and Symbols
for Legacy Computing Supplement (U+1CC00), a few read off by hand.
"""

from __future__ import annotations

import pytest

from coilwright.drawing.above import above_lines, face_at
from coilwright.drawing.line_work import Dots, LineWork
from coilwright.drawing.plane import plane_lines
from coilwright.drawing.shapes import shape_lines
from coilwright.job.roof import Building, Opening, Plane, Shape
from coilwright.plan import plan
from coilwright.plan.roof.above import seen_from_above
from tests.cases import building, small_gable, with_planes


def dots(work: LineWork, *places: tuple[int, int]) -> str:
    canvas = Dots(1, 1)
    for place in places:
        canvas.dot(*place)
    return canvas.lines(work)[0]


@pytest.mark.quick
def test_signs_show_the_dots_they_stand_for():
    top, bottom = ((0, 0), (1, 0)), ((0, 3), (1, 3))
    assert dots(LineWork.BRAILLE, *top) == "⠉"
    assert dots(LineWork.BRAILLE, *bottom) == "⣀"
    assert dots(LineWork.BRAILLE, (0, 1), (1, 2)) == "⠢"
    # The chart: OCTANT-3 first, OCTANT-23, OCTANT-123, OCTANT-4; OCTANT-2345678 last.
    assert dots(LineWork.OCTANTS, (0, 1)) == "\U0001cd00"
    assert dots(LineWork.OCTANTS, (1, 0), (0, 1)) == "\U0001cd01"
    assert dots(LineWork.OCTANTS, (1, 1)) == "\U0001cd03"
    assert dots(LineWork.OCTANTS, *((x, y) for x in (0, 1) for y in range(4) if x or y)) == (
        "\U0001cde5")
    assert dots(LineWork.OCTANTS, *((0, y) for y in range(4))) == "▌"
    assert dots(LineWork.OCTANTS, *bottom) == "▂"


ELL = building(Building.ELL, wing_width=168.0, wing_projection=120.0)


@pytest.mark.parametrize("work", LineWork)
@pytest.mark.parametrize(("width", "height"), [(60, 40), (40, 12), (20, 6)])
def test_a_building_is_drawn_to_scale_in_every_kind_of_line(work, width, height):
    above = seen_from_above(plan(ELL))
    assert above is not None
    lines = above_lines(above, width, height, 1, work)
    assert len(lines) <= height
    assert max(map(len, lines)) <= width
    # 41 ft 6 in by 35 ft 6 in from above; a cell is twice as tall as wide.
    wide, high = max(map(len, lines)), 2 * len([line for line in lines if line.strip()])
    assert abs(wide / high - (41.5 / 35.5)) < 2.5 / len(lines)
    text = "\n".join(lines)
    assert "[1]" in text
    if work is LineWork.ASCII:
        assert text.isascii()
    if height > 6:
        assert all(f"{number}" in text for number in (2, 3, 4))


def test_every_drawing_can_do_without_unicode():
    job = with_planes(small_gable(), Plane(
        shape=Shape.TRAPEZOID, eave=504.0, top=200.0, slope_length=216.0, pitch=6.0,
        openings=(Opening(left=180.0, up=60.0, width=36.0, height=48.0),)))
    lines = plane_lines(plan(job).planes[0], 78, 22, work=LineWork.ASCII)
    assert "".join(lines).replace("·", "").isascii()  # between words, not in the drawing
    fine = plane_lines(plan(job).planes[0], 78, 22, work=LineWork.BRAILLE)
    assert any("⠀" < sign < "⣿" for line in fine for sign in line)
    for shape in (*Building, *Shape):
        assert "".join(shape_lines(shape, 12, 4, LineWork.ASCII)).isascii()


def test_no_two_buildings_look_alike():
    for work, high in ((LineWork.BRAILLE, 3), (LineWork.BLOCKS, 4)):
        for kind in (Building, Shape):
            drawn = [shape_lines(shape, 12, high, work) for shape in kind]
            assert all(drawn)
            assert len(set(drawn)) == len(drawn)


@pytest.mark.quick
@pytest.mark.parametrize("work", LineWork)
@pytest.mark.parametrize("kind", [Building.HIP, Building.PORCH, Building.ELL])
def test_the_face_in_a_cell_is_the_one_whose_number_stands_there(work, kind):
    """Brackets stand in the middle of the chosen face, so the cell of its digit lies in it."""
    above = seen_from_above(plan(building(
        kind, wing_width=168.0, wing_projection=120.0, porch_depth=96.0, porch_pitch=3.0)))
    assert above is not None
    for face in above.faces:
        number = face.plane.number
        lines = above_lines(above, 60, 24, number, work)
        row = next(at for at, line in enumerate(lines) if f"[{number}]" in line)
        column = lines[row].index(f"[{number}]") + 1
        assert face_at(above, 60, 24, column, row, work) == number
    assert face_at(above, 60, 24, 200, 2, work) is None
    assert face_at(above, 4, 2, 0, 0, work) is None
