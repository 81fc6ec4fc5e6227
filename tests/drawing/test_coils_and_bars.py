"""The coil end-on and the bars of where the metal goes, in characters."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.drawing.bars import account_bars, account_columns, account_lines, account_parts
from coilwright.drawing.coil import coil_lines
from coilwright.job.edit import new_job
from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from tests.cases import guess, set_answers, small_gable
from tests.generated import whole_jobs

_EIGHTHS = " ▏▎▍▌▋▊▉"
GABLE = plan(small_gable())


def eighths(bar: str) -> int:
    return sum(8 if c == "█" else _EIGHTHS.index(c) for c in bar)


@given(whole_jobs(), st.integers(-1, 120), st.integers(-1, 50))
def test_a_coil_stays_in_its_room(job: Job, width: int, height: int) -> None:
    lines = coil_lines(plan(job), width, height)
    assert len(lines) <= max(height, 0)
    assert all(len(line) <= width for line in lines)


def ring(found: Plan, width: int = 60, height: int = 20) -> list[str]:
    return [re.sub("  [A-Za-z].*", "", line) for line in coil_lines(found, width, height)
            if set(line) & set("█▀▄░")]


def test_the_coil_is_round_and_hollow_to_scale() -> None:
    picture = ring(GABLE, 90, 20)
    rack, coil, hole = 32.0, GABLE.coils[0].outside_diameter.value, 20.0
    across = max(len(line) for line in picture)
    assert abs(2 * len(picture) - across) <= 1
    middle = picture[len(picture) // 2]
    metal = [n for n, c in enumerate(middle) if c in "█▀▄"]
    assert abs((metal[-1] - metal[0] + 1) / across - coil / rack) <= 2.5 / across
    gap = max(b - a for a, b in pairwise(metal)) - 1
    assert abs(gap / across - hole / rack) <= 2.5 / across
    assert picture == picture[::-1] or [
        line.translate(str.maketrans("▀▄", "▄▀")) for line in picture[::-1]
    ] == picture


def test_the_sizes_are_written_whole_or_not_at_all() -> None:
    outside, largest = (figure.text(GABLE.job.units) for figure in (
        GABLE.coils[0].outside_diameter, GABLE.figures["coil.1.largest"]))
    sizes = {"32 in", "20 in", outside, largest}
    assert all(size in "\n".join(coil_lines(GABLE, 60, 20)) for size in sizes)
    for width in range(1, 60):
        for line in coil_lines(GABLE, width, 30):
            if re.search(r"\d", line):
                assert any(line.endswith(f" {size}") for size in sizes)


def test_without_a_coil_the_rack_alone_is_drawn() -> None:
    found = plan(set_answers(small_gable(), {"panel.coverage": None}))
    assert not found.coils
    picture = "".join(ring(found))
    assert "░" in picture
    assert "█" not in picture
    assert coil_lines(plan(new_job()), 40, 12) != []


@given(whole_jobs(), st.integers(-1, 140))
def test_bars_stay_in_their_room(job: Job, width: int) -> None:
    assert all(len(line) <= max(width, 0) for line in account_lines(plan(job), width))


@given(whole_jobs(), st.integers(4, 90))
def test_bars_are_as_long_as_their_shares_and_add_up(job: Job, room: int) -> None:
    found = plan(job)
    rows = [row for row in found.account if row.mass.value > 1e-6]
    if not rows:
        return
    bars = account_bars(rows, room)
    most = max(row.share.value for row in rows)
    for row, bar in zip(rows, bars, strict=True):
        exact = row.share.value / most * room * 8
        assert abs(eighths(bar) - exact) <= max(0.5 + 1e-6, 1 - exact)
        assert len(bar) <= room
    whole = sum(row.share.value for row in rows) / most * room * 8
    assert abs(sum(map(eighths, bars)) - whole) <= len(bars)


def test_the_bars_name_every_part_and_end_with_the_order() -> None:
    lines = account_lines(GABLE, 78)
    *parts, last = lines
    assert parts[0].startswith("roof covered ")
    masses = {row.name: row.mass.text() for row in GABLE.account if row.mass.value > 1e-6}
    assert len(parts) == len(masses)
    for name, mass in masses.items():
        line = next(line for line in parts if line.startswith(name))
        assert mass in line
    assert last.strip() == f"ordered   {GABLE.figures['coil.mass_ordered'].text()}"
    assert last.rindex("lb") == parts[0].rindex("lb")


def test_guesses_are_marked() -> None:
    guessed = plan(guess(small_gable(), "coils.spare"))
    assert "ordered ~ 2,250 lb" in account_lines(guessed, 78)[-1]
    assert "~" not in "".join(account_lines(GABLE, 78))
    assert "~ 30" in "\n".join(coil_lines(guessed, 78, 20)) or "~ 29" in "\n".join(
        coil_lines(guessed, 78, 20)
    )


def test_no_order_no_bars() -> None:
    assert account_lines(plan(new_job()), 80) == []


def test_the_parts_in_columns_add_up_to_the_order_in_feet_pounds_and_money() -> None:
    priced = plan(set_answers(GABLE.job, {"coils.price": 1.2}))
    lines = account_columns(priced, 78)
    assert lines[0].split() == ["as", "strip", "weight", "cost"]
    assert lines[-1].startswith("ordered")
    parts = account_parts(priced)
    for place in range(3):
        *some, whole = [row[place].value for _, row in parts]
        assert math.isclose(math.fsum(some), whole, rel_tol=1e-9)
    # 2,250 lb at $1.20, to the pound that the weight is shown to
    assert priced.figures["coil.cost"].text() in lines[-1]
    assert "cost" not in account_columns(GABLE, 78)[0]


@pytest.mark.parametrize("width", [0, 1, 10, 20, 30, 40, 60])
def test_columns_never_run_over(width: int) -> None:
    priced = plan(set_answers(GABLE.job, {"coils.price": 1.2}))
    assert all(len(line) <= width for line in account_columns(priced, width))
    assert account_columns(plan(new_job()), width) == []
