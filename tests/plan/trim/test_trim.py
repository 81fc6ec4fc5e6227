"""Trim: pieces along the edges, blanks nested, and what the panel coil gives."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coilwright.calc.roof.edges import EdgeKind
from coilwright.job.job import Job
from coilwright.job.roof import Building
from coilwright.job.trim import TrimFrom, TrimPiece, TrimSection
from coilwright.plan import Plan, TrimNest, plan
from coilwright.plan.coils.run import run_of
from coilwright.store import read_model, to_text
from tests.cases import building, set_answers, small_gable
from tests.draws import draws
from tests.generated import whole_jobs
from tests.plan.coils.stock import coil, with_coils
from tests.values.written import check


def with_trim(job: Job, *pieces: TrimPiece, **section: Any) -> Job:
    """The job with these pieces, 4 in laps and 10 ft blanks unless told otherwise."""
    given: dict[str, Any] = {"lap": 4.0, "blank": 120.0, "sheet_width": 48.0,
                             "sheet_length": 120.0, "pieces": pieces}  # fmt: skip
    return dataclasses.replace(job, trim=TrimSection(**{**given, **section}))


def piece(name: str, flat_width: float | None = None, **other: Any) -> TrimPiece:
    return TrimPiece(**{"name": name, "flat_width": flat_width, **other})


def gable(*pieces: TrimPiece, **section: Any) -> Plan:
    """40 by 24 ft in plan, 12 in and 6 in overhangs, 6:12: eaves 82 ft in all, ridge 41 ft."""
    return plan(with_trim(building(Building.GABLE), *pieces, **section))


def keys(done: Plan) -> set[str]:
    return {f.key for f in done.findings}


ROW = ("trim.pieces.0",)
SHEET = {"made_from": TrimFrom.FLAT_SHEET}


class TestPieces:
    def test_lengths_come_from_the_edges(self) -> None:
        """Two eaves of 492 in: ⌈(492 − 4)/(120 − 4)⌉ = ⌈4.2⌉ = 5 pieces each. One ridge so long."""
        done = gable(piece("Eave strip", 6.0, kind=EdgeKind.EAVE),
                     piece("Ridge cap", 14.0, kind=EdgeKind.RIDGE))  # fmt: skip
        assert done.figures["edges.eave"].value == pytest.approx(984)
        assert [row.count.value for row in done.trim] == [10, 5]

    def test_a_length_of_its_own_counts_instead(self) -> None:
        done = gable(piece("Odd", 6.0, length=116.0 * 3 + 4.0))
        assert done.trim[0].count.value == 3

    def test_a_piece_the_order_is_still_without_is_said(self) -> None:
        cap = piece("Ridge cap", 14.0, kind=EdgeKind.RIDGE)
        done = gable(cap, lap=None, blank=None)
        said = next(f for f in done.findings if f.key == "trim.1.left_out")
        assert "its lap and the length of its blanks are not known" in said.what
        assert said.answers == ("trim.lap", "trim.blank")
        assert done.figures["coil.length_ordered"].value < (
            gable(cap).figures["coil.length_ordered"].value)
        assert "trim.1.left_out" not in keys(gable(cap))
        assert "trim.1.left_out" not in keys(
            gable(dataclasses.replace(cap, made_from=TrimFrom.FLAT_SHEET), lap=None))
        assert "trim.1.left_out" not in keys(
            gable(dataclasses.replace(cap, lap=4.0, blank=120.0), lap=None, blank=None))

    def test_flat_width_by_legs_and_hems(self) -> None:
        done = gable(piece("Rake", None, kind=EdgeKind.RAKE, legs=(4.0, 3.5, 1.0),
                           hems=(0.5, 0.5)))  # fmt: skip
        assert done.trim[0].flat_width.value == 9.5
        assert done.trim[0].flat_width.equation == "w1 + w2 + w3 + w4 + w5"

    @pytest.mark.parametrize(
        ("one", "section", "words", "answers"),
        [
            (piece("Cap", 22.0, kind=EdgeKind.RIDGE), {}, "the panel coil is 21 in wide", ROW),
            (piece("Cap", 50.0, kind=EdgeKind.RIDGE, **SHEET), {}, "the flat sheet is 48 in wide",
             ("trim.sheet_width",)),
            (piece("Cap", 6.0, kind=EdgeKind.RIDGE, lap=120.0), {}, "is 10 ft long and laps",
             ("trim.blank",)),
            (piece("Cap", 6.0, kind=EdgeKind.RIDGE, blank=144.0, **SHEET), {},
             "longer than the flat sheets, which are 10 ft", ("trim.sheet_length",)),
            (piece("Cap", None, kind=EdgeKind.RIDGE), {}, "has no flat width", ROW),
            (piece("Cap", 6.0, kind=EdgeKind.RIDGE, made_from=TrimFrom.OTHER_COIL), {},
             "another coil of unknown width", ROW),
        ],
    )  # fmt: skip
    def test_what_cannot_be_made_stops_the_order(
        self, one: TrimPiece, section: dict[str, Any], words: str, answers: tuple[str, ...]
    ) -> None:
        done = gable(one, **section)
        found = next(f for f in done.stops if f.key == "trim.1.cannot")
        assert words in found.what
        assert found.answers == answers, "what is pointed to would change it"
        assert done.trim == ()
        assert done.coils

    def test_a_roof_without_such_an_edge_needs_none(self) -> None:
        done = gable(piece("Valley", 18.0, kind=EdgeKind.VALLEY))
        assert "trim.1.none" in keys(done)
        assert done.nests == ()

    def test_answers_are_asked_only_where_there_is_trim(self) -> None:
        assert "trim.lap" not in plan(building(Building.GABLE)).open_answers
        open_ = gable(piece("Cap", 14.0, kind=EdgeKind.RIDGE), lap=None).open_answers
        assert "trim.lap" in open_
        assert "trim.sheet_width" not in open_

    def test_written_and_read_back(self) -> None:
        job = with_trim(small_gable(), piece("Cap", None, kind=EdgeKind.RIDGE, legs=(6.0, 6.0)))
        assert read_model(to_text(job), Job, "job") == job
        assert '"trim"' not in to_text(small_gable())


class TestNesting:
    def test_three_flat_widths_on_sheets_by_hand(self) -> None:
        """Ten of 6, five of 14, eight of 20 in on 48 in: seven sheets, the last row 28 in long.

        Of the eaves two blanks are 28 in, of the ridge one: 492 − 4·116. The others are whole:
        8·6 + 4·14 + 8·20 = 264 in take six rows of 48, no fewer, with 24 in to spare. All
        together are 290 in, and take seven: six of 120 in and one of 28 are 748 in of sheet.
        """
        done = gable(
            piece("Eave strip", 6.0, kind=EdgeKind.EAVE, **SHEET),
            piece("Cap", 14.0, kind=EdgeKind.RIDGE, **SHEET),
            piece("Box", 20.0, length=8 * 116.0 + 4, **SHEET),
        )
        (nest,) = done.nests
        assert nest.sheets is not None
        assert nest.sheets.value == nest.rows.value == 7
        assert nest.length.value == pytest.approx(6 * 120 + 28)
        assert nest.proven
        self.holds(done, nest)

    @staticmethod
    def holds(done: Plan, nest: TrimNest) -> None:
        """Every blank once, no row wider than the metal, the drop what is left."""
        flat_width = {row.number: row.flat_width.value for row in done.trim}
        cut: dict[int, int] = {}
        for pattern in nest.patterns:
            wide = math.fsum(flat_width[number] * n for number, n in pattern.across)
            assert wide <= nest.width.value + 1e-6
            assert pattern.drop == pytest.approx(nest.width.value - wide, abs=1e-6)
            for number, n in pattern.across:
                cut[number] = cut.get(number, 0) + n * pattern.times
        wanted = {row.number: int(row.count.value) for row in done.trim if row.number in cut}
        assert cut == wanted
        assert nest.length.value == pytest.approx(
            math.fsum(p.length * p.times for p in nest.patterns))
        made = math.fsum(
            r.flat_width.value * length * n for r in done.trim if r.number in cut
            for length, n in r.sizes)  # fmt: skip
        left = nest.length.value * nest.width.value - made
        assert nest.drop.value == pytest.approx(left, abs=1e-6 * nest.length.value)
        assert left >= -1e-6 * nest.length.value

    def test_short_blanks_share_a_sheet(self) -> None:
        """5 ft blanks on 10 ft sheets, 24 in wide flat widths on 48 in: four to a sheet."""
        done = gable(piece("Cap", 24.0, length=56.0 * 7 + 4, blank=60.0, **SHEET))
        (nest,) = done.nests
        assert (done.trim[0].count.value, nest.rows.value) == (7, 4)
        assert nest.sheets is not None
        assert nest.sheets.value == 2

    def test_metals_and_blanks_apart(self) -> None:
        done = gable(
            piece("A", 6.0, length=500.0), piece("B", 6.0, length=500.0, **SHEET),
            piece("C", 6.0, length=500.0, made_from=TrimFrom.OTHER_COIL, width=20.0),
            piece("D", 6.0, length=500.0, blank=96.0), piece("E", 9.0, length=500.0),
        )  # fmt: skip
        assert [(n.made_from.value, len(n.patterns) > 0) for n in done.nests] == [
            ("panel coil", True), ("flat sheet", True), ("other coil", True),
            ("panel coil", True),
        ]  # fmt: skip
        for nest in done.nests:
            for figure in (nest.length, nest.drop, nest.sheets):
                if figure is not None:
                    check(figure)

    @given(st.lists(st.tuples(st.integers(8, 84), st.integers(1, 30)), min_size=1, max_size=8))
    @settings(max_examples=draws(40), deadline=None)
    def test_any_pieces(self, sizes: list[tuple[int, int]]) -> None:
        pieces = [piece(f"P{n}", quarter / 4, length=116.0 * count + 4)
                  for n, (quarter, count) in enumerate(sizes)]  # fmt: skip
        done = gable(*pieces)
        (nest,) = done.nests
        self.holds(done, nest)
        assert nest.bound <= nest.rows.value
        whole = math.fsum(r.flat_width.value * r.count.value for r in done.trim)
        assert nest.rows.value >= whole / nest.width.value - 1e-9


class TestFromThePanelCoil:
    def test_it_lengthens_the_order_by_hand(self) -> None:
        """Two 9 in blanks side by side on 21 in: eight of 120 in and two of 28, 508 in more.

        (508·1.03)/0.9 = 581.4 in more to order than without, on the same one coil.
        """
        without = gable()
        done = gable(piece("Eave strip", 9.0, kind=EdgeKind.EAVE))
        assert done.figures["trim.from_coil"].value == 508
        more = (done.figures["coil.length_ordered"].value
                - without.figures["coil.length_ordered"].value)  # fmt: skip
        assert more == pytest.approx(508 * 1.03 / 0.9)
        lines = {line.name: line.mass.value for line in done.account}
        assert lines["trim"] == pytest.approx(508 * 21 * 0.2833 * 0.0236)
        assert [c.count for c in done.coils[0].cuts if c.plane == 0] == [4, 1]
        assert [b.cut.name for b in run_of(done).coils[0].batches][-1] == "Trim"

    @given(whole_jobs(), st.lists(st.tuples(st.floats(2, 10), st.floats(20, 3000)), min_size=1,
                                  max_size=4), st.booleans())
    @settings(max_examples=draws(40), deadline=None)
    def test_the_account_still_adds_up(
        self, job: Job, sizes: list[tuple[float, float]], stocked: bool
    ) -> None:
        pieces = [piece(f"P{n}", g, length=length) for n, (g, length) in enumerate(sizes)]
        job = with_trim(job, *pieces)
        if stocked:
            metal, panel = job.metal, job.panel
            width = (panel.coverage or 0) + (panel.take_up or 0)
            job = with_coils(job, coil(
                "A", 200, metal=metal.metal, coating=metal.coating, thickness=metal.thickness,
                thickness_basis=metal.thickness_basis, color=metal.color or "", width=width,
            ))  # fmt: skip
        done = plan(job)
        assume(done.coils or done.from_stock)
        masses = [line.mass.value for line in done.account]
        scale = math.fsum(map(abs, masses))
        assert abs(math.fsum(masses) - done.figures["coil.mass_ordered"].value) <= 1e-9 * scale
        assert "trim" in {line.name for line in done.account}
        if "save.length" in done.figures:
            assert done.figures["save.length"].value >= -1e-6
            check(done.figures["save.without"])

    def test_trim_alone_on_sheets_changes_no_order(self) -> None:
        done = gable(piece("Cap", 14.0, kind=EdgeKind.RIDGE, **SHEET))
        assert done.coils[0].length.value == gable().coils[0].length.value

    def test_a_guessed_lap_marks_the_order(self) -> None:
        from tests.cases import guess

        job = with_trim(building(Building.GABLE), piece("Cap", 14.0, kind=EdgeKind.RIDGE))
        assert plan(guess(job, "trim.lap")).figures["coil.length_ordered"].mark == "~"
        assert "trim.lap" in plan(guess(job, "trim.lap")).guesses

    def test_the_lap_is_an_answer(self) -> None:
        """Two eaves of 492 in: ⌈(492 − 24)/(120 − 24)⌉ = 5 each."""
        job = with_trim(building(Building.GABLE), piece("Strip", 6.0, kind=EdgeKind.EAVE))
        assert plan(set_answers(job, {"trim.lap": 24.0})).trim[0].count.value == 10
