"""SMACNA galvanized sheet tolerance table (based on ASTM A924/A653-94).

Flag: published, read in a copy. The copy prints .0217 as the least of 25 gauge (its own mm
column says .5274 mm, 0.0207 in) and .020 as the most of 29 gauge; both are corrected here by the
table's symmetry about the nominal.
"""

from __future__ import annotations

import pytest

from coilwright.calc.gauges import GAUGES, gauge_meanings
from coilwright.calc.metal import METALS
from tests.printed import printed
from tests.rules import for_each

# gauge: nominal, least, most [in], and lb/ft² where the table prints it
TABLE = {
    16: (".0635", ".0575", ".0695", "2.656"),
    17: (".0575", ".0525", ".0625", ""),
    18: (".0516", ".0466", ".0566", "2.156"),
    19: (".0456", ".0406", ".0506", ""),
    20: (".0396", ".0356", ".0436", "1.656"),
    21: (".0366", ".0326", ".0406", ""),
    22: (".0336", ".0296", ".0376", "1.406"),
    23: (".0306", ".0266", ".0346", ""),
    24: (".0276", ".0236", ".0316", "1.156"),
    25: (".0247", ".0207", ".0287", ""),
    26: (".0217", ".0187", ".0247", "0.906"),
    27: (".0202", ".0172", ".0232", "0.844"),
    28: (".0187", ".0157", ".0217", "0.781"),
    29: (".0172", ".0142", ".0202", "0.719"),
    30: (".0157", ".0127", ".0187", "0.656"),
}
PRINTED_WEIGHTS = [gauge for gauge, row in TABLE.items() if row[3]]


def band(gauge: int) -> float:
    """The tolerance either way [in]: the pattern of the table."""
    return {16: 0.006, 17: 0.005, 18: 0.005, 19: 0.005}.get(gauge, 0.004 if gauge < 26 else 0.003)


@for_each(TABLE)
def test_row(gauge: int) -> None:
    nominal, least, most, _ = TABLE[gauge]
    row = GAUGES[gauge]
    assert row.galvanized == printed(nominal)
    assert row.galvanized_least == printed(least)
    assert row.galvanized_most == printed(most)


@for_each(TABLE)
def test_band(gauge: int) -> None:
    row = GAUGES[gauge]
    assert row.galvanized - row.galvanized_least == pytest.approx(band(gauge), abs=1e-9)
    assert row.galvanized_most - row.galvanized == pytest.approx(band(gauge), abs=1e-9)


@for_each(TABLE)
def test_nominal_follows_from_weight(gauge: int) -> None:
    # computed: t = (oz of the Manufacturers' Standard + 2.5) / (16·41.82)
    assert (GAUGES[gauge].ounces + 2.5) / (16 * 41.82) == printed(TABLE[gauge][0])


@for_each(PRINTED_WEIGHTS)
def test_weight(gauge: int) -> None:
    assert (GAUGES[gauge].ounces + 2.5) / 16 == printed(TABLE[gauge][3])


def test_usual_aluminum_zinc_decimals_are_the_least_column() -> None:
    # computed remark: .0236, .0296, .0187, .0157, .0142 are exactly this table's least column
    for gauge, usual in ((24, ".0236"), (22, ".0296"), (26, ".0187"), (28, ".0157"),
                         (29, ".0142")):  # fmt: skip
        assert GAUGES[gauge].galvanized_least == printed(usual)
        assert printed(usual) in [m.thickness for m in gauge_meanings(gauge, METALS["steel"].gauge)]
