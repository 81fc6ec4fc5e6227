"""Laws that hold for every number and every text."""

from __future__ import annotations

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coilwright.units import Kind, System, UnreadableQuantity, read, show, store
from coilwright.units.rules import RULES

KINDS = st.sampled_from(list(Kind))
SYSTEMS = st.sampled_from(list(System))


@st.composite
def held(draw: st.DrawFn, *kinds: Kind) -> tuple[float, Kind]:
    """A kind, and a number of it that can be real."""
    kind = draw(st.sampled_from(kinds or tuple(Kind)))
    rule = RULES[kind]
    most = float(rule.most)
    least = -most if rule.least is None else float(rule.least)
    if kind is Kind.COUNT:
        return float(draw(st.integers(int(least), int(most)))), kind
    plain = st.floats(least, most, allow_nan=False)
    # Numbers people type have few digits; the others come out of sums.
    short = st.builds(
        lambda n, d: n / 10**d, st.integers(-99_999, 99_999), st.integers(0, 6)
    ).filter(lambda x: least <= x <= most)
    return draw(plain | short), kind


@given(held(), SYSTEMS)
@settings(max_examples=400, deadline=None)
def test_what_is_stored_reads_back_exactly(pair: tuple[float, Kind], system: System) -> None:
    value, kind = pair
    text = store(value, kind, system)
    assert read(text, kind, negative=True) == value
    assert text == text.strip()
    assert text.isprintable()


@given(st.integers(0, 2000), st.integers(0, 999), st.sampled_from(["m", "cm", "mm"]))
@settings(max_examples=100, deadline=None)
def test_metric_lengths_stay_readable(whole: int, part: int, unit: str) -> None:
    value = read(f"{whole}.{part:03d} {unit}", Kind.LENGTH)
    assert len(store(value, Kind.LENGTH)) <= 22
    assert read(store(value, Kind.LENGTH), Kind.LENGTH) == value


ROUNDING = {
    # kind: half the last place shown, below and from a size [canonical unit]
    (Kind.LENGTH, System.US): (1200, 1 / 32, 1 / 2),
    (Kind.LENGTH, System.METRIC): (100 / 0.0254, 0.0005 / 0.0254, 0.005 / 0.0254),
    (Kind.WIDTH, System.US): (1, 0.0005, 0.0005),
    (Kind.WIDTH, System.METRIC): (1, 0.05 / 25.4, 0.05 / 25.4),
    (Kind.MASS, System.US): (100, 0.05, 0.5),
    (Kind.MASS, System.METRIC): (100 / 0.45359237, 0.05 / 0.45359237, 0.5 / 0.45359237),
}


@given(held(Kind.LENGTH, Kind.WIDTH, Kind.MASS), SYSTEMS)
@settings(max_examples=300, deadline=None)
def test_what_is_shown_is_the_number_rounded(pair: tuple[float, Kind], system: System) -> None:
    value, kind = pair
    edge, below, above = ROUNDING[kind, system]
    slack = (below if abs(value) < edge else above) * (1 + 1e-9) + abs(value) * 1e-15
    # Rounding up may pass the largest number that is read.
    assume(abs(value) + slack <= float(RULES[kind].most))
    back = read(show(value, kind, system), kind, system=system, negative=True)
    assert abs(back - value) <= slack


@given(held(), SYSTEMS)
@settings(max_examples=400, deadline=None)
def test_what_is_shown_can_be_typed(pair: tuple[float, Kind], system: System) -> None:
    value, kind = pair
    shown = show(value, kind, system)
    # Rounding may pass the largest number that is read.
    most = float(RULES[kind].most)
    assume(abs(value) < 0.99 * most)
    back = read(shown, kind, system=system, negative=True)
    # Near a border the same size may be shown in another unit.
    again = read(show(back, kind, system), kind, system=system, negative=True)
    assert abs(again - back) <= 1e-3 * abs(back)


@given(held())
@settings(max_examples=300, deadline=None)
def test_what_is_shown_in_metric_can_be_typed_with_a_decimal_comma(
    pair: tuple[float, Kind],
) -> None:
    """As printed, and as people write it who part decimals by a comma: the same number."""
    value, kind = pair
    shown = show(value, kind, System.METRIC)
    assume(abs(value) < 0.99 * float(RULES[kind].most))
    back = read(shown, kind, system=System.METRIC, negative=True)
    assert "," not in shown
    written = shown.replace(".", ",")
    whole, _, part = written.partition(",")
    digits = len(part) - len(part.lstrip("0123456789"))
    if "," in written and digits == 3 and whole.lstrip("-$") != "0":
        return  # 1,234 can be a thousand: asked or read so, as it always was
    assert read(written, kind, system=System.METRIC, negative=True) == back


@given(st.integers(0, 99_999), st.integers(0, 10**6), st.integers(1, 6), KINDS)
@settings(max_examples=300, deadline=None)
def test_a_comma_is_decimals_thousands_or_refused(
    whole: int, part: int, places: int, kind: Kind
) -> None:
    """Metric reads a comma that can part no thousands; US units refuse it, never guess."""
    assume(kind is not Kind.COUNT)
    text = f"{whole},{part % 10**places:0{places}d}"
    pointed = text.replace(",", ".")
    if places != 3:
        assert read_or_none(text, kind, System.METRIC) == read_or_none(
            pointed, kind, System.METRIC)
        assert read_or_none(text, kind, System.US) is None
    else:
        whole_number = read_or_none(text.replace(",", ""), kind, System.METRIC)
        assert read_or_none(text, kind, System.METRIC) in (
            whole_number, None, *((read_or_none(pointed, kind, System.METRIC),) * (not whole)))


def read_or_none(text: str, kind: Kind, system: System) -> float | None:
    try:
        return read(text, kind, system=system)
    except UnreadableQuantity:
        return None


@given(held(), SYSTEMS)
@settings(max_examples=200, deadline=None)
def test_zero_is_never_shown_with_a_sign(pair: tuple[float, Kind], system: System) -> None:
    value, kind = pair
    shown = show(value * 1e-30, kind, system)
    if kind is not Kind.TEMPERATURE:
        assert not shown.startswith("-")
        assert "-0" not in shown.replace("e-6", "")


@given(st.integers(0, 6_335_999), st.sampled_from([2, 4, 8, 16, 32, 64]), st.integers(0, 63))
@settings(max_examples=150, deadline=None)
def test_feet_inches_and_fractions_are_exact(inches: int, under: int, over: int) -> None:
    over %= under
    feet, rest = divmod(inches, 12)
    value = inches + over / under
    for text in (
        f"{feet}' {rest} {over}/{under}\"",
        f"{feet} ft {rest}-{over}/{under} in",
        f"{feet}ft{rest} {over}/{under}",
        f"{feet}′-{rest} {over}⁄{under}″",
    ):
        assert read(text, Kind.LENGTH) == value


ANYTHING = st.text(max_size=90)
NEARLY = st.text(alphabet="0123456789 ./:-+,'\"°%$#eftinmkgolbz½²³()*", max_size=30)


@given(ANYTHING | NEARLY, KINDS, SYSTEMS, st.booleans())
@settings(max_examples=1500, deadline=500)
def test_any_text_is_read_or_refused(text: str, kind: Kind, system: System, negative: bool) -> None:
    try:
        value = read(text, kind, system=system, negative=negative)
    except UnreadableQuantity as refusal:
        sentence = str(refusal)
        assert sentence.endswith(".")
        assert sentence.isprintable()
        assert len(sentence) < 220
    else:
        assert abs(value) <= float(RULES[kind].most)
        assert negative or value >= 0 or kind is Kind.TEMPERATURE
        assert read(store(value, kind), kind, negative=True) == value
        assert show(value, kind, system)
