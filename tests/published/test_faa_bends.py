"""Developed width of a channel, against FAA-H-8083-31, Airframe, vol. 1, ch. 4.

Read in copies: U-channel, legs 1.00 in, base 2.00 in to the mold lines, thickness .040 in,
inside radius .16 in, bends of 90°: setback 0.20, flats .80, 1.60, .80; total printed as about
3.76. The empirical bend allowance is from memory: 0.279 in each, which makes the total 3.758.
"""

from __future__ import annotations

from typing import Any

import pytest

from coilwright.job.roof import Building
from coilwright.job.trim import TrimFrom, TrimPiece
from coilwright.plan import Plan, plan
from tests.cases import building, set_answers
from tests.plan.trim.test_trim import with_trim


def channel(**other: Any) -> Plan:
    """The channel as a piece of trim, from .040 in panel coil unless told otherwise."""
    given = {"legs": (1.0, 2.0, 1.0), "radius": 0.16, "length": 480.0, **other}
    job = with_trim(building(Building.GABLE), TrimPiece(name="Channel", **given))
    return plan(set_answers(job, {"metal.thickness": 0.040}))


def test_the_channel_from_the_panel_coil() -> None:
    done = channel()
    value = {k.removeprefix("trim.1."): f.value for k, f in done.figures.items()}
    assert [value["setback1"], value["setback2"]] == pytest.approx([0.20, 0.20], abs=0.005)
    assert [value[f"flat{n}"] for n in (1, 2, 3)] == pytest.approx([0.80, 1.60, 0.80], abs=0.005)
    assert [value["bend1"], value["bend2"]] == pytest.approx([0.279, 0.279], abs=0.0005)
    assert done.trim[0].flat_width.value == pytest.approx(3.758, abs=0.0005)
    assert value["plain"] == 4.0


def test_the_channel_from_sheets_of_its_own_thickness() -> None:
    done = channel(made_from=TrimFrom.FLAT_SHEET, thickness=0.040, angles=(90.0, 90.0))
    assert done.trim[0].flat_width.value == pytest.approx(3.758, abs=0.0005)
