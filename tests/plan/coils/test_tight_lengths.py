"""A coil on hand whose length nobody measured is counted on with a margin, and that is said."""

from __future__ import annotations

import pytest

from coilwright.job.stock import LengthBy
from coilwright.plan import plan
from coilwright.plan.coils.after_run import is_too_much
from coilwright.plan.coils.run import run_of
from coilwright.plan.result import Plan
from coilwright.sheets import render
from coilwright.values.finding import Finding, Level
from tests.cases import small_gable
from tests.plan.coils.stock import coil, with_coils

TEN = 10 * 217 * 1.03 + 72 + 48
"""Ten panels of 18 ft 1 in with 3 % spare, thread-up and tail: 2,355.1 in."""


def with_one(inches: float | None, by: LengthBy | None = LengthBy.MEASURED, **other: float) -> Plan:
    return plan(with_coils(small_gable(), coil(
        "A", inches and inches / 12, length_by=by if inches else None, **other)))


def panels(done: Plan) -> int:
    return sum(cut.count for used in done.from_stock for cut in used.cuts)


def said(done: Plan) -> list[Finding]:
    return [f for f in done.findings if f.key.endswith(".tight")]


@pytest.mark.parametrize(("by", "margin"), [
    (LengthBy.MEASURED, 0.0), (LengthBy.SAID, 0.01), (None, 0.01), (LengthBy.GUESSED, 0.05),
])
def test_what_it_may_be_short_by_is_held_back(by: LengthBy | None, margin: float) -> None:
    """The tenth panel is cut from it once its least length holds it, and no sooner."""
    enough = TEN / (1 - margin)
    assert panels(with_one(enough - 1, by)) == 9
    done = with_one(enough + 1, by)
    assert panels(done) == 10
    (used,) = done.from_stock
    assert used.length.value == pytest.approx((enough + 1) * (1 - margin))
    assert used.left.value >= 0


def test_a_600_ft_leftover_is_not_planned_down_to_a_sixteenth() -> None:
    """600 ft by its tag: 594 ft are counted on, 6 ft are held back."""
    done = with_one(7200.0, LengthBy.SAID)
    (used,) = done.from_stock
    assert used.length.value == pytest.approx(7128.0)
    (finding,) = said(done)
    assert finding.level is Level.NOTE
    assert "planned as 594 ft, not the 600 ft" in finding.what
    assert "common practice, no source" in str(finding.source)
    run = " ".join(render("run", done, "text", 100).split())
    assert "On hand: 594 ft at least; said to be 600 ft, and not measured" in run
    measured = " ".join(render("run", with_one(7200.0), "text", 100).split())
    assert "600 ft at least; as it was measured, with nothing held back" in measured
    assert "check what is left on it before the last panels are cut" in measured
    # It can be longer, too: that counts where it is lifted.
    assert done.figures["on_hand.1.longest"].value == pytest.approx(7272.0)


@pytest.mark.parametrize(("by", "margin"), [
    (LengthBy.MEASURED, 0.0), (LengthBy.SAID, 0.01), (LengthBy.GUESSED, 0.05),
])
def test_more_than_can_be_left_of_it_is_told(by: LengthBy, margin: float) -> None:
    """Past its panels, thread-up and tail, as long as it may be, and a fiftieth for the tape."""
    done = with_one(7200.0, by)
    used = run_of(done).coils[0]
    most = 7200 * (1 + margin) - (panels(done) * 217 + 72 + 48) + 0.02 * 7200 * (1 - margin)
    assert [is_too_much(done, used, None, most + off) for off in (-1, 1)] == [False, True]


def test_an_estimate_is_said_louder_and_a_measured_length_not_at_all() -> None:
    (finding,) = said(with_one(7200.0, LengthBy.GUESSED))
    assert finding.level is Level.CARE
    assert said(with_one(7200.0, LengthBy.MEASURED)) == []


def test_a_coil_measured_by_its_diameters_is_planned_by_its_least_length() -> None:
    done = with_one(None, outside=24.0, inside=20.0)
    assert done.from_stock
    assert said(done) == []
