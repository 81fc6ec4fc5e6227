"""Rows in and out: what a spreadsheet may hold, what is wrong in it, and the way back."""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.roof import Building, Measured, Opening, OpeningWhat, Plane, Shape
from coilwright.plan import plan
from coilwright.plan.plane_changes import to_planes
from coilwright.store.plane_rows import (
    Rows,
    RowsError,
    planes_to_write,
    read_rows,
    read_rows_file,
    write_rows,
    write_rows_file,
)
from coilwright.units import System
from tests.cases import building, small_gable, with_planes
from tests.draws import draws
from tests.generated import planes
from tests.rules import for_each

TABLE = """Name,Shape,Eave (ft),Slope length,Pitch,Notes
Front,rectangle,42,18 ft,6/12,sunny
Back,,42.5,5.4 m,6 in 12,
Round,hexagon,42,18,6,
Worse,,xx,18,1/3,
,triangle,20,10 ft 6,,
Need,trapezoid,20,,,

Last,,10,10,,
"""


def test_a_table_with_headings() -> None:
    rows = read_rows(TABLE)
    assert [(p.name, p.shape.value, p.eave, p.pitch) for p in rows.good] == [
        ("Front", "rectangle", 504.0, 6.0),
        ("Back", "rectangle", 510.0, 6.0),
        ("", "triangle", 240.0, None),
        ("Last", "rectangle", 120.0, None),
    ]
    assert rows.good[1].slope_length == pytest.approx(5400 / 25.4)
    assert rows.ignored == ("Notes",)


def test_every_bad_row_is_named_by_number_and_reason() -> None:
    """Numbers count as a spreadsheet's do: the headings are row 1."""
    bad = {row.number: row for row in read_rows(TABLE).bad}
    assert sorted(bad) == [4, 5, 7]
    assert "“hexagon” is not a shape" in bad[4].reason
    assert "Eave: “xx”" in bad[5].reason
    assert "Pitch: “1/3”" in bad[5].reason
    assert "still needs: top, slope length" in bad[7].reason
    assert bad[4].text.startswith("Round | hexagon")


@for_each([
    "Front,42 ft,18 ft,6:12,2",
    "Front\t42 ft\t18 ft\t6:12\t2",
    "Front; 42 ft; 18 ft; 6:12; 2",
    "\ufeffFront,42,18,6,2\r\n",
    '"Front","42\' 0""","18\'","6/12","2"',
    "how many,plane,Up the slope,EAVE_LENGTH,roof pitch\n2,Front,18,42,26.565051177°",
    "name,eave (in),slope length [m],pitch,alike\nFront,504,5.4864,50 %,2",
    "name;eave, mm;slope length;pitch;count\nFront;12801.6;18 ft;6;2",
    "name,shape,eave,slope length,rise,run,alike\nFront,rect,42,18,4 ft,8 ft,2",
])
def test_one_plane_written_many_ways(text: str) -> None:
    rows = read_rows(text)
    assert rows.bad == ()
    (plane,) = rows.good
    assert plane.name == "Front"
    assert plane.eave == pytest.approx(504)
    assert plane.slope_length == pytest.approx(216)
    assert plane.alike == 2
    if plane.pitch is not None:
        assert plane.pitch == pytest.approx(6)
    else:
        assert (plane.pitch_rise, plane.pitch_run) == (48, 96)


def test_bare_sizes_are_in_the_jobs_units() -> None:
    (plane,) = read_rows("Front,12.8,5.4", System.METRIC).good
    assert plane.eave == pytest.approx(12800 / 25.4)
    (same,) = read_rows("Front,42 ft,18 ft", System.METRIC).good
    assert same.eave == 504


def test_corners_openings_and_edges_in_a_cell() -> None:
    text = (
        'name,corners,openings,edges,measured,pitch\n'
        'Odd,"0,0; 40 ft,0; 30 ft,18 ft; -2 ft,18 ft","5 ft, 4 ft, 3 ft, 2 ft; '
        'Chimney: 5, 8, 3, 2","3 wall; 2 hip",in plan,6\n'
    )
    (plane,) = read_rows(text).good
    assert plane.shape is Shape.CORNERS
    assert plane.corners == ((0, 0), (480, 0), (360, 216), (-24, 216))
    assert plane.openings == (
        Opening(left=60, up=48, width=36, height=24),
        Opening(left=60, up=96, width=36, height=24, what=OpeningWhat.CHIMNEY))
    # What each is for comes back, on which its trim hangs.
    assert "; chimney " in write_rows((plane,))
    assert read_rows(write_rows((plane,))).good == (plane,)
    assert plane.edges == {2: EdgeKind.HIP, 3: EdgeKind.WALL}
    assert plane.measured is Measured.PLAN


@for_each([
    ("name,eave,slope length\nA,0,18", "three different corners"),
    ("name,eave,slope length\nA,-4,18", "below zero"),
    ("name,eave,slope length,alike\nA,4,18,0", "0 planes alike"),
    ("name,eave,slope length,alike\nA,4,18,1.5", "whole"),
    ("name,eave,slope length,measured\nA,4,18,plan", "still needs: pitch"),
    ("name,eave,slope length,measured\nA,4,18,roughly", "not a way to measure"),
    ("name,corners\nA,\"0,0; 9,9; 9,0; 0,9\"", "crosses or touches"),
    ("name,corners\nA,\"0,0; 9\"", "Corner 2"),
    ("name,eave,slope length,openings\nA,9,9,\"5,5,9,9\"", "outside the plane"),
    ("name,eave,slope length,openings\nA,9,9,\"chimney ; 1,1,2,2\"", "1, “chimney”, should be 4"),
    ("name,eave,slope length,edges\nA,9,9,wall", "an edge's number and its kind"),
    ("name,eave,slope length,edges\nA,9,9,3 fence", "“fence” is not a kind of edge"),
    ("A,42,18,6,1,7", "more cells than columns, from “7”"),
    ("A,42", "still needs: slope length"),
    ("A;12,5;5", "12,5"),
    ("name,eave,slope length\n" + "x" * 201 + ",9,9", "too many for a name"),
])
def test_what_is_wrong_in_a_row_is_said(text: str, reason: str) -> None:
    rows = read_rows(text)
    assert rows.good == ()
    (bad,) = rows.bad
    assert reason in bad.reason


def test_a_quotation_mark_never_closed_is_found() -> None:
    rows = read_rows('Front,42,18\n"Back,42,18\nPorch,10,8\n')
    assert [p.name for p in rows.good] == ["Front"]
    assert rows.bad[0].number == 2
    assert "never closed" in rows.bad[0].reason


def test_a_heading_twice_is_used_once() -> None:
    rows = read_rows("name,eave,slope length,eave\nA,42,18,99")
    assert rows.good[0].eave == 504
    assert rows.ignored == ("eave (again)",)


@pytest.mark.parametrize("text", ["", "\n\n", " , ,\n", "\ufeff"])
def test_nothing_is_nothing(text: str) -> None:
    assert read_rows(text) == Rows()


@given(st.text(max_size=300))
@settings(max_examples=draws(150))
def test_no_text_makes_it_fall_over(text: str) -> None:
    rows = read_rows(text)
    assert all(bad.reason for bad in rows.bad)


@given(st.lists(st.lists(st.sampled_from(
    ["name", "eave", "42", "18 ft", "6:12", "corners", '"', "0,0;1,1", "", "-3", "=1+1", "\x00"]
), max_size=6), max_size=6), st.sampled_from(",;\t"))  # fmt: skip
def test_no_table_makes_it_fall_over(cells: list[list[str]], mark: str) -> None:
    text = "\n".join(mark.join(row) for row in cells)
    rows = read_rows(text)
    assert len(rows.good) + len(rows.bad) <= len(cells) + 1


# -- out, and back -------------------------------------------------------------------------------

NAMES = st.one_of(
    st.text(max_size=30),
    st.tuples(st.sampled_from(["=", "+", "-", "@", "'", "'=", "''@"]), st.text(max_size=12)).map(
        "".join
    ),
).map(lambda text: " ".join(text.split()))
KINDS = st.dictionaries(st.integers(1, 12), st.sampled_from(EdgeKind), max_size=3)


@st.composite
def any_plane(draw: st.DrawFn) -> Plane:
    plane = draw(planes())
    more: dict[str, object] = {
        "name": draw(NAMES), "edges": dict(sorted(draw(KINDS).items())),
    }  # fmt: skip
    if plane.pitch is None and draw(st.booleans()):
        more |= {"pitch_rise": draw(st.floats(1, 100)), "pitch_run": draw(st.floats(6, 100))}
    return dataclasses.replace(plane, **more)


@given(st.lists(any_plane(), max_size=5), st.sampled_from(System), st.sampled_from(",;\t"))
@settings(max_examples=draws(150))
def test_out_and_back_is_the_same(made: list[Plane], system: System, mark: str) -> None:
    rows = read_rows(write_rows(made, system, mark), system)
    assert rows.bad == ()
    assert rows.ignored == ()
    assert list(rows.good) == made


@given(NAMES)
def test_no_name_is_written_as_a_formula(name: str) -> None:
    text = write_rows([Plane(name=name, eave=9, slope_length=9)])
    (_, row) = csv.reader(io.StringIO(text, newline=""))
    assert row[0][:1] not in ("=", "+", "-", "@", "\t", "\r")
    (plane,) = read_rows(text).good
    assert plane.name == name


def test_no_pitch_is_written_as_a_time_of_day() -> None:
    assert "6 in 12" in write_rows([Plane(eave=9, slope_length=9, pitch=6)])


def test_unused_columns_are_left_out() -> None:
    head = write_rows([Plane(name="A", eave=504, slope_length=216)]).splitlines()
    assert head == ["name,shape,eave,slope length", "A,rectangle,42 ft,18 ft"]


# -- files ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["roof.csv", "roof.tsv"])
def test_a_file_out_and_back(tmp_path: Path, name: str) -> None:
    made = (Plane(name="Südseite", eave=504, slope_length=216, pitch=6, alike=2),
            Plane(name="=1", shape=Shape.TRIANGLE, eave=120, slope_length=90.3))
    write_rows_file(tmp_path / name, with_planes(small_gable(), *made))
    assert read_rows_file(tmp_path / name).good == made


def test_a_building_shape_is_written_as_its_planes(tmp_path: Path) -> None:
    """Sizes that are worked out are written as people read them, and read back as written."""
    job = building(Building.CROSS, wing_left=60.0, wing_width=200.0, wing_projection=100.0)
    for system in System:
        job = dataclasses.replace(job, units=system)
        write_rows_file(tmp_path / "roof.csv", job)
        text = (tmp_path / "roof.csv").read_text("utf-8-sig")
        assert not re.search(r"\.\d{7}" if system is System.METRIC else r"\.\d{5}", text), text
        back = read_rows_file(tmp_path / "roof.csv", system).good
        assert back == planes_to_write(job)
        exact = to_planes(job).roof.planes
        assert [one.slope_length for one in back] == pytest.approx(
            [one.slope_length for one in exact], abs=1e-4)
        before, after = (plan(with_planes(small_gable(), *planes)) for planes in (exact, back))
        assert [len(one.panels) for one in after.planes] == [
            len(one.panels) for one in before.planes]
        assert {edge.kind for one in after.planes for edge in one.edges} == {
            edge.kind for one in before.planes for edge in one.edges}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_files_as_spreadsheets_save_them(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "roof.csv"
    path.write_bytes("name,eave,slope length\r\nSüd,42 ft,18 ft\r\n".encode(encoding))
    (plane,) = read_rows_file(path).good
    assert plane.name == "Süd"


def test_what_is_no_table_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "a.xlsx").write_bytes(b"PK\x03\x04\x00\x00")
    (tmp_path / "big.csv").write_bytes(b"," * 5_000_001)
    for name, words in (("a.xlsx", "save the table as CSV"), ("big.csv", "far too large"),
                        ("none.csv", "could not be read"), (".", "is a folder")):
        with pytest.raises(RowsError, match=words):
            read_rows_file(tmp_path / name)
    with pytest.raises(RowsError, match="could not be written"):
        write_rows_file(tmp_path / "a.xlsx" / "roof.csv", small_gable())
