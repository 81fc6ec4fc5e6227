"""Why a gauge alone is ambiguous: the sources held against one another.

Computed from the gauge tables tested beside this file. The advice to order by decimal thickness
is the Canadian Roofing Reference Manual's, section 10.2 (read).
"""

from __future__ import annotations

from itertools import product

from fluids.piping import t_from_gauge

from coilwright.calc.gauges import GAUGES, gauge_meanings
from coilwright.calc.metal import METALS
from tests.printed import printed
from tests.rules import for_each


def test_twenty_four_gauge_means_six_things() -> None:
    row = GAUGES[24]
    meanings = {
        "bare": (row.manufacturers, ".0239"),
        "galvanized nominal": (row.galvanized, ".0276"),
        "galvanized least": (row.galvanized_least, ".0236"),
        "US standard": (row.us_standard, ".0250"),
        "Brown & Sharpe": (row.awg, ".0201"),
        "Birmingham": (t_from_gauge(24, SI=False, schedule="BWG"), ".022"),
    }
    for thickness, text in meanings.values():
        assert thickness == printed(text)
    sizes = [thickness for thickness, _ in meanings.values()]
    assert max(sizes) / min(sizes) == printed("1.37")


@for_each(product(GAUGES, ("steel", "stainless steel", "aluminum")))
def test_meanings_are_thinnest_first_and_from_the_table(gauge: int, metal: str) -> None:
    meanings = gauge_meanings(gauge, METALS[metal].gauge)
    sizes = [m.thickness for m in meanings]
    assert sizes == sorted(sizes)
    assert set(sizes) <= set(GAUGES[gauge])
    assert all(m.words and m.source.text for m in meanings)


def test_higher_gauge_is_thinner_in_every_column() -> None:
    for lower, higher in zip(list(GAUGES)[:-1], list(GAUGES)[1:], strict=True):
        assert all(a > b for a, b in zip(GAUGES[lower], GAUGES[higher], strict=True))


def test_unknown_gauges_mean_nothing() -> None:
    assert gauge_meanings(7, METALS["steel"].gauge) == ()
    assert gauge_meanings(17, METALS["copper"].gauge) == ()
