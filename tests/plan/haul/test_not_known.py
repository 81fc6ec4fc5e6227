"""What is not known clears nothing; what cannot be is refused; a guess marks what rests on it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.answers import ANSWERS, Form, UnreadableAnswer, Value
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilOn
from coilwright.job.edit import give_text
from coilwright.job.haul import CargoOn, CoilEye, HitchKind
from coilwright.job.job import Job
from coilwright.plan import Plan, plan
from coilwright.plan.haul.road import RATINGS
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.plan.haul.cases import ON_THE_ROAD, on_the_road, with_one_on_hand
from tests.rules import for_each
from tests.values.written import check

LABELED = [name for name in RATINGS if name != "hitch"]


def findings(done: Plan) -> dict[str, str]:
    return {f.key: f.what for f in done.findings if f.key.startswith("haul.")}


def on_the_roads_only(done: Plan) -> list[str]:
    return [line.key for line in done.loads if line.place not in ("site", "shop")]


def test_nothing_to_haul_is_nothing_at_all() -> None:
    done = plan(small_gable())
    assert on_the_roads_only(done) == []
    assert findings(done) == {}
    assert not any(key.startswith("haul.") for key in (*done.figures, *done.lacks))


def test_the_trailers_weight_alone_makes_lines_that_clear_nothing() -> None:
    done = plan(set_answers(small_gable(), {"machine.weight": 7400.0}))
    assert len(on_the_roads_only(done)) == 7
    assert not any(line.known or line.over or line.margin for line in done.loads)
    assert list(findings(done)) == ["haul.ratings_missing"]
    assert "Read it off the plate." in findings(done)["haul.ratings_missing"]
    assert done.ready, "what is not known about hauling stops no order"


def test_a_weight_without_coils_is_no_load_yet() -> None:
    job = set_answers(small_gable(), {"machine.weight": 7400.0, "metal.thickness": None})
    assert on_the_roads_only(plan(job)) == []


@for_each(LABELED)
def test_a_missing_rating_is_named_and_leaves_no_margin(name: str) -> None:
    done = plan(on_the_road({f"haul.{name}": None}))
    (line,) = (line for line in done.loads if not line.known)
    assert line.needs == (f"haul.{name}",)
    assert line.rating is None
    assert line.margin is None
    assert not line.over
    label = ANSWERS[f"haul.{name}"].label
    assert label[0].lower() + label[1:] in findings(done)["haul.ratings_missing"]
    assert done.stops == ()


def test_without_the_hitch_all_that_hangs_on_it_is_not_known() -> None:
    done = plan(on_the_road({"haul.hitch": None, "haul.cargo_coils": 0}))
    unknown = [line.key for line in done.loads if not line.known]
    assert unknown == ["haul.hitch", "haul.tongue_weight", "haul.tow", "haul.tow_vehicle",
                       "haul.combination"]  # fmt: skip
    assert "what hitch and tow vehicle are rated for" in findings(done)["haul.ratings_missing"]


@pytest.mark.parametrize("part", ["machine.weight", "haul.gear", "haul.rack_mass"])
def test_a_missing_part_of_the_trailer_clears_nothing(part: str) -> None:
    done = plan(on_the_road({part: None, "haul.cargo_coils": 0}))
    trailer = next(line for line in done.loads if line.key == "haul.trailer")
    assert trailer.load is None
    assert not trailer.known
    assert "haul.loads_missing" in findings(done)


def test_known_parts_that_are_too_much_already_stop() -> None:
    # 7,400 + 2,500 = 9,900 lb without the gear
    done = plan(on_the_road({"haul.gear": None, "haul.trailer_gvwr": 9899.0}))
    assert [f.key for f in done.stops] == ["haul.trailer"]
    assert "without what is not known yet" in findings(done)["haul.trailer"]
    inside = plan(on_the_road({"haul.gear": None, "haul.trailer_gvwr": 9900.0}))
    assert inside.stops == ()
    trailer = next(line for line in inside.loads if line.key == "haul.trailer")
    assert not trailer.known


def test_where_the_cargo_rides_must_be_known() -> None:
    done = plan(on_the_road({"haul.cargo_on": None}))
    trailer = next(line for line in done.loads if line.key == "haul.trailer")
    assert trailer.load is None
    assert trailer.needs == ("haul.cargo_on",)


@pytest.mark.parametrize(
    ("change", "key", "needs"),
    [
        ({"haul.rack_coils": 2, "haul.rack_mass": None, "haul.cargo_coils": 0}, "haul.trailer",
         ("haul.rack_mass",)),
        ({"haul.cargo_coils": 2}, "haul.ties", ("haul.cargo_coils",)),
    ],
)
def test_coils_this_job_has_not_weigh_nobody_knows_what(
    change: dict[str, Value | None], key: str, needs: tuple[str, ...]
) -> None:
    done = plan(on_the_road(change))
    line = next(line for line in done.loads if line.key == key)
    assert line.load is None
    assert line.needs == needs
    assert "haul.more_coils" in findings(done)


def test_no_coils_yet_wait_for_what_the_coils_wait_for() -> None:
    done = plan(on_the_road({"metal.thickness": None, "haul.rack_mass": None,
                             "haul.rack_coils": 1}))  # fmt: skip
    trailer = next(line for line in done.loads if line.key == "haul.trailer")
    assert "metal.thickness" in trailer.needs
    assert "the coils of the order" in findings(done)["haul.loads_missing"]


MASSES = [k for k, a in ANSWERS.items() if k.startswith("haul.") and a.form is Form.QUANTITY]


@for_each(MASSES)
def test_less_than_nothing_is_refused_when_typed(key: str) -> None:
    unit = ANSWERS[key].bare[0] if ANSWERS[key].bare else ""  # type: ignore[index]
    with pytest.raises(UnreadableAnswer):
        ANSWERS[key].read(f"-5 {unit}")
    job, error = give_text(on_the_road(), key, f"-5 {unit}")
    assert error
    assert job.typed[key] == f"-5 {unit}", "what was typed is not lost"


@pytest.mark.parametrize(
    "key", ["haul.gear", "haul.rack_mass", "haul.trailer_gvwr", "haul.tie_over_limit"]
)
def test_less_than_nothing_from_a_file_is_stopped_and_clears_nothing(key: str) -> None:
    done = plan(on_the_road({key: -500.0}))
    assert [f.key for f in done.stops] == [f"{key}.unreal"]
    assert any(not line.known for line in done.loads)


def test_axles_at_the_hitch_are_refused() -> None:
    with pytest.raises(UnreadableAnswer, match="cannot be nothing"):
        ANSWERS["haul.hitch_to_axles"].read("0 ft")
    done = plan(on_the_road({"haul.hitch_to_axles": 0.0}))
    assert [f.key for f in done.stops] == ["haul.hitch_to_axles.unreal"]


def test_more_coils_on_the_rack_than_arbors_is_refused_in_one_sentence() -> None:
    said = findings(plan(on_the_road({"haul.rack_coils": 3})))["haul.rack_arbors"]
    assert said == "3 coils on the rack; the machine has 2 arbors."


OTHER: dict[str, list[Value]] = {
    "haul.rack_coils": [0, 1, 2], "haul.axles": [1, 3], "haul.cargo_coils": [0, 1, 2],
    "haul.ties_over": [0, 2], "haul.ties_direct": [0, 2],
    "haul.hitch": list(HitchKind), "haul.cargo_on": list(CargoOn), "haul.eye": list(CoilEye),
    "haul.blocked": list(YesNo),
}
BASES = [
    on_the_road(),
    on_the_road({"haul.tongue_weight": None}),
    with_one_on_hand(on_the_road({
        "haul.rack_mass": None, "haul.rack_coils": 1, "haul.tongue_weight": None,
        "haul.cargo_on": CargoOn.TRAILER, "haul.cargo_at": 190.0,
    })),
    with_one_on_hand(on_the_road({"haul.cargo_coils": 2, "haul.eye": None})),
    on_the_road({"haul.rack_mass": 0.0, "haul.gear": 0.0, "haul.tongue_weight": None}),
    on_the_road({"haul.rack_mass": None, "haul.rack_coils": 0, "haul.tongue_weight": None}),
]  # fmt: skip


def others(job: Job, key: str) -> list[Value]:
    """Other values the answer might have had."""
    own = ANSWERS[key].value(job)
    if key in OTHER:
        return [v for v in OTHER[key] if v != own]
    assert isinstance(own, float)
    return [own * 0.5, own * 1.3, own + 400.0]


@pytest.mark.slow
@pytest.mark.parametrize("base", range(len(BASES)))
def test_what_moves_with_an_answer_is_marked_while_it_is_a_guess(base: int) -> None:
    job = BASES[base]
    before = plan(job).figures
    assert not any(f.mark for f in before.values())
    for key in [*ON_THE_ROAD, "haul.rack_coils", "haul.cargo_at"]:
        if ANSWERS[key].value(job) is None or not ANSWERS[key].asked(job):
            continue
        marked = {k for k, f in plan(guess(job, key)).figures.items() if f.mark}
        for value in others(job, key):
            after = plan(set_answers(job, {key: value})).figures
            moved = {
                k for k, f in before.items()
                if k in after and abs(f.value - after[k].value) > 1e-9 * abs(f.value)
            }
            assert moved <= marked, f"{key}: {moved - marked}"


@pytest.mark.parametrize("base", range(len(BASES)))
def test_every_equation_on_the_road_gives_its_figure(base: int) -> None:
    made = [f for f in plan(BASES[base]).figures.values() if f.key.startswith("haul.")]
    assert len([f for f in made if f.formula]) > 10
    for figure in made:
        if figure.formula is not None:
            check(figure)


@given(st.sets(st.sampled_from(sorted(ON_THE_ROAD))), st.sampled_from(range(len(BASES))))
@settings(max_examples=draws(100))
def test_with_any_answers_gone_nothing_unknown_is_cleared(gone: set[str], base: int) -> None:
    job = set_answers(BASES[base], dict.fromkeys(sorted(gone)))
    whole = {line.key: line for line in plan(BASES[base]).loads}
    for line in plan(job).loads:
        assert line.known == (line.load is not None and line.rating is not None)
        assert line.known or line.needs
        assert all(key in ANSWERS for key in (*line.needs, *line.answers))
        was = whole.get(line.key)
        # fewer ratings, never a higher one
        if line.rating is not None and was is not None and was.rating is not None:
            assert line.rating.value <= was.rating.value * (1 + 1e-9)


def test_a_part_that_alone_is_over_says_so_of_axles_and_tow_vehicle_too() -> None:
    # 7,400 + 2,500 − 1,300 = 8,600 lb on the axles before any gear
    done = plan(on_the_road({"haul.gear": None, "haul.axle_rating": 4299.0}))
    (finding,) = done.stops
    assert finding.key == "haul.axles"
    assert "8,600 lb" in finding.what
    assert "without what is not known yet" in finding.what
    assert not plan(on_the_road({"haul.gear": None, "haul.axle_rating": 4300.0})).stops
    bare: dict[str, Value | None] = {
        "haul.tongue_weight": None, "haul.hitch_to_axles": None, "haul.empty_tongue_weight": None}
    (finding,) = plan(on_the_road({**bare, "haul.tow_gvwr": 6999.0})).stops
    assert finding.key == "haul.tow_vehicle"
    assert "7,000 lb" in finding.what
    unsure = plan(on_the_road({**bare, "haul.tow_gvwr": 7001.0}))
    assert not unsure.stops
    assert not next(line for line in unsure.loads if line.key == "haul.tow_vehicle").known


@pytest.mark.parametrize("change", [{"haul.rack_coils": 1}, {"haul.rack_mass": 1500.0}])
def test_coils_that_only_ride_on_the_rack_ask_for_its_plate(
    change: dict[str, Value | None]
) -> None:
    """They are cut from a decoiler, but the rack carries them on the road."""
    bare = set_answers(on_the_road(), {
        "coils.coil_on": CoilOn.DECOILER, "machine.decoiler_load": 9000.0,
        "machine.decoiler_diameter": 60.0, "machine.decoiler_smallest_coil_id": 16.0,
        "machine.decoiler_largest_coil_id": 24.0, "machine.arbors": None,
        "machine.arbor_load": None, "machine.rack_load": None, "haul.rack_coils": None,
        "haul.rack_mass": None, "haul.cargo_coils": 0,
    })
    assert not {"machine.arbors", "machine.arbor_load"} & set(plan(bare).open_answers)
    riding = plan(set_answers(bare, change))
    assert {"machine.arbors", "machine.arbor_load"} <= set(riding.open_answers)
    assert not riding.ready
    two = plan(set_answers(bare, {**change, "machine.arbors": 2}))
    assert "machine.rack_load" in two.open_answers
