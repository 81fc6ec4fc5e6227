"""Passes by hand, and what holds for any: every strand is for something, and none is too long."""

from __future__ import annotations

import doctest
import math

import pytest
from hypothesis import given, settings

from coilwright.calc import pass_parts, pass_search, passes, slitting
from coilwright.calc.passes import Passes, Wanted, slit_in_passes
from coilwright.values.formula import Formula
from tests.calc.passes_checked import check, questions
from tests.draws import draws
from tests.rules import for_each

FOOT = 12.0
STRIP = 20.625


def lengths(found: Passes | None) -> list[float]:
    assert found is not None
    return [one.length / FOOT for one in found.passes]


def across(found: Passes | None) -> list[tuple[tuple[int, int], ...]]:
    assert found is not None
    return [one.across for one in found.passes]


@pytest.mark.parametrize("module", [pass_parts, pass_search, passes, slitting])
def test_the_examples_are_what_comes_out(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]
    finder, runner = doctest.DocTestParser(), doctest.DocTestRunner()
    for name, value in vars(module).items():
        if isinstance(value, Formula) and value.__module__ == getattr(module, "__name__", ""):
            example = finder.get_doctest(value.__doc__ or "", dict(vars(module)), name, None, 0)
            assert runner.run(example).failed == 0, name


def test_three_coils_two_across_by_hand() -> None:
    """43 in less 1/2 in holds two strips of 20 5/8 in: two passes of 1,051 ft, four strands.

    1,051 ft twice, not one and a half times: 2,102 ft of master, 1 3/4 in of it drop beside
    four strands, of which one is surplus.
    """
    found = slit_in_passes(43.0, 0.5, [Wanted(STRIP, coils=(1051 * FOOT,) * 3)])
    assert found is not None
    assert lengths(found) == [1051, 1051]
    assert across(found) == [((0, 2),), ((0, 2),)]
    assert [one.drop for one in found.passes] == [1.75, 1.75]
    strands = [strand for one in found.passes for strand in one.strands]
    assert [strand.coil for strand in strands] == [0, 1, 2, None]
    assert [strand.surplus for strand in strands] == [False, False, False, True]
    assert found.drop == pytest.approx(1.75 * 2102 * FOOT)
    assert found.area == pytest.approx(43 * 2102 * FOOT)
    assert found.is_least
    assert found.is_fewest
    assert found.gap == 0
    ((one, often),) = found.alike()
    assert (one.length, often) == (1051 * FOOT, 2)


def test_the_same_metal_in_coils_of_any_length_is_two_even_passes() -> None:
    """3,153 ft in all, none over 1,200 ft: half of it is 1,576 1/2 ft, in two passes."""
    found = slit_in_passes(43.0, 0.5, [Wanted(STRIP, total=3153 * FOOT, longest=1200 * FOOT)])
    assert lengths(found) == pytest.approx([788.25, 788.25])
    assert across(found) == [((0, 2),), ((0, 2),)]
    assert found is not None
    assert found.is_fewest


def test_coils_unlike_go_side_by_side_longest_first() -> None:
    """Of 900, 500, 880 and 510 ft: 900 with 880, 510 with 500; 1,410 ft against 1,780 or more."""
    coils = tuple(n * FOOT for n in (900.0, 500.0, 880.0, 510.0))
    found = slit_in_passes(43.0, 0.5, [Wanted(STRIP, coils=coils)])
    assert lengths(found) == [900, 510]
    assert found is not None
    assert [[s.coil for s in one.strands] for one in found.passes] == [[0, 2], [1, 3]]


def test_trim_beside_the_strip_costs_nothing() -> None:
    """48 in less 1/2 in leaves 6 1/4 in beside two strips: a 5 1/2 in strand in each pass."""
    strip = Wanted(STRIP, coils=(1051 * FOOT,) * 3)
    found = slit_in_passes(48.0, 0.5, [strip, Wanted(5.5, total=2000 * FOOT)])
    assert lengths(found) == [1051, 1051]
    assert across(found)[0] == ((0, 2), (1, 1))
    # beside the third strip there is room for four, and one of them is enough
    assert across(found)[1] in (((0, 1), (1, 1)), ((0, 2), (1, 1)))
    assert found is not None
    assert found.is_fewest


def test_what_the_strip_leaves_too_little_of_takes_a_pass_of_its_own() -> None:
    """Two passes leave room for 1 and 4 strands of 5 1/2 in: 500 ft of each is 2,500 ft.

    5,300 ft are wanted. 48 in hold eight strands, so 2,800 ft more take 350 ft of master.
    """
    strip = Wanted(STRIP, coils=(500 * FOOT,) * 3)
    found = slit_in_passes(48.0, 0.5, [strip, Wanted(5.5, total=5300 * FOOT)])
    assert lengths(found) == pytest.approx([500, 500, 350])
    assert found is not None
    assert found.is_fewest


def test_a_wide_strand_too_heavy_for_the_pass_gets_one_of_its_own() -> None:
    """A wide coil may be 600 ft; beside strips of 1,051 ft it would be 1,051 ft long."""
    strip = Wanted(10.0, coils=(1051 * FOOT,))
    wide = Wanted(30.0, coils=(550 * FOOT,), longest=600 * FOOT)
    assert lengths(slit_in_passes(43.0, 0.5, [strip, wide])) == [1051, 550]
    free = Wanted(30.0, coils=(550 * FOOT,))
    assert lengths(slit_in_passes(43.0, 0.5, [strip, free])) == [1051]


def test_a_length_in_all_is_shared_out_to_coils_no_longer_than_they_may_be() -> None:
    found = slit_in_passes(43.0, 0.5, [Wanted(40.0, total=2500 * FOOT, longest=1000 * FOOT)])
    assert lengths(found) == pytest.approx([2500 / 3] * 3)
    by_master = slit_in_passes(43.0, 0.5, [Wanted(40.0, total=2500 * FOOT)], 900 * FOOT)
    assert lengths(by_master) == pytest.approx([2500 / 3] * 3)


def test_nothing_wanted_takes_nothing_and_too_wide_does_not_go() -> None:
    nothing = slit_in_passes(43.0, 0.5, [Wanted(20.0)])
    assert nothing is not None
    assert (nothing.passes, nothing.length, nothing.is_fewest) == ((), 0, True)
    assert slit_in_passes(43.0, 0.5, [Wanted(42.6, total=100.0)]) is None
    assert slit_in_passes(43.0, 0.5, [Wanted(42.5, total=100.0)]) is not None
    assert slit_in_passes(43.0, 0.5, [Wanted(20.0, total=9.0), Wanted(60.0)]) is not None


@for_each([
    (0.0, 0.5, Wanted(20.0), math.inf, "master's width"),
    (math.nan, 0.5, Wanted(20.0), math.inf, "master's width"),
    (43.0, -1.0, Wanted(20.0), math.inf, "edge trim"),
    (43.0, 0.5, Wanted(0.0), math.inf, "Width 1 must"),
    (43.0, 0.5, Wanted(20.0, total=-1.0), math.inf, "length of width 1"),
    (43.0, 0.5, Wanted(20.0, total=math.inf), math.inf, "length of width 1"),
    (43.0, 0.5, Wanted(20.0, coils=(0.0,)), math.inf, "coil of width 1"),
    (43.0, 0.5, Wanted(20.0, coils=(9.0,), total=9.0), math.inf, "not both"),
    (43.0, 0.5, Wanted(20.0, coils=(900.0,), longest=800.0), math.inf, "800 in at most"),
    (43.0, 0.5, Wanted(20.0, coils=(900.0,)), 700.0, "700 in at most"),
    (43.0, 0.5, Wanted(20.0, longest=0.0), math.inf, "longest strand"),
    (43.0, 0.5, Wanted(20.0), 0.0, "longest pass"),
])
def test_sizes_that_make_no_sense_are_refused(
    master: float, edge: float, wanted: Wanted, longest: float, says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        slit_in_passes(master, edge, [wanted], longest)


def test_a_large_order_is_answered_with_a_bound() -> None:
    """Too many coils for a table: the answer still holds, and its gap is said."""
    wanted = [
        Wanted(width, coils=tuple(100.0 + 7 * ((n * k) % 41) for n in range(40)))
        for k, width in enumerate((20.5, 13.25, 9.5, 7.125, 5.5), 3)
    ]
    found = slit_in_passes(60.0, 0.5, wanted)
    assert found is not None
    check(60.0, 0.5, wanted, math.inf, found)
    assert 0 < found.bound < found.length
    assert found.gap == pytest.approx(found.length - found.bound)
    assert not found.is_least
    assert not found.is_fewest


@pytest.mark.parametrize("has_totals", [False, True])
def test_very_narrow_strands_are_answered_all_the_same(has_totals: bool) -> None:
    """Sets of strands without number: not all are looked at, and nothing is claimed of them."""
    wanted = [Wanted(0.75 + n / 16, coils=(100.0 + n, 90.0)) for n in range(6)]
    if has_totals:
        wanted += [Wanted(0.8 + n / 16, total=5000.0) for n in range(6)]
    found = slit_in_passes(60.0, 0.5, wanted)
    assert found is not None
    check(60.0, 0.5, wanted, math.inf, found)
    assert has_totals or found.length == 105
    assert not (has_totals and found.is_least)


@settings(max_examples=draws(60), deadline=None)
@given(questions(most_coils=6, most_totals=3))
def test_every_answer_gives_what_is_wanted(
    question: tuple[float, float, list[Wanted], float]
) -> None:
    found = slit_in_passes(*question)
    assert found is not None
    check(*question, found)
    assert found == slit_in_passes(*question), "the same question, the same answer"
