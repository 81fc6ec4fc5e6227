"""Mistakes put into a job: nothing but the job's numbers tells them from what is only said so."""

from __future__ import annotations

import dataclasses
import re
from enum import StrEnum
from functools import cache
from pathlib import Path

import pytest

from coilwright.job.anonymous import names_in, names_in_labels, said_of, without_names
from coilwright.job.answers import ANSWERS
from coilwright.job.attempt import Attempt
from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.job.places import put_place
from coilwright.job.practice import Damage, Practice, to_work_on, vary
from coilwright.job.steps import MISTAKEN_IN, MISTAKES_OFFERED_IN
from coilwright.plan import plan
from coilwright.plan.practice.plant import Planted, mistakes_in, plant
from coilwright.plan.practice.propose import faults, propose
from coilwright.plan.practice.solve import solve, to_put_right
from coilwright.plan.result import Plan
from coilwright.sheets import FORMS, KINDS, render, render_as
from coilwright.sheets.practice import handout, key_sheet
from coilwright.store import to_text
from coilwright.store.files import StoreError
from coilwright.store.practice import load_practice, seal
from coilwright.store.shipped import demo_jobs
from coilwright.units import System
from coilwright.values.digest import digest
from tests.planted import mistake_faults
from tests.rules import for_each

COUNT = 4
OWN = "mill-row-mistakes"
"""The demo job that has mistakes of its own."""


@cache
def made_of(key: str) -> Practice:
    """A practice job made of a demo job, with mistakes to find."""
    return propose(plan(demo_jobs()[key]), f"of-{key}", "Found", "A job, invented.",
                   mistakes=COUNT)


@cache
def bare_plan(key: str, units: System) -> Plan:
    """The plan of a demo job that names nobody, in these units."""
    return plan(without_names(dataclasses.replace(demo_jobs()[key], units=units), "Found"))


@cache
def mistakes_of(key: str, units: System) -> tuple[Planted, ...]:
    """All that can be put in; into a job with mistakes of its own, all that is said to be."""
    return tuple(mistakes_in(bare_plan(key, units), "any", hidden=key != OWN))


def shape(words: str) -> str:
    """How something is said, whatever its numbers, sides and choices are."""
    return re.sub(r"\d[\d,./ ]*|least|most|steel|aluminum|copper|zinc|\w+-lock", "#", words)


@pytest.mark.slow
@for_each(demo_jobs())
def test_what_is_wrong_and_what_is_only_said_so_are_made_alike(key: str) -> None:
    one = made_of(key)
    assert faults(one) == ()
    decision, right = one.decisions[0], set(solve(one, 0).solution("wrong").right)
    if key != OWN:
        assert len(right) == COUNT
    # On the key in the order of the handout, to be ticked down.
    short = render_as(key_sheet(solve(one, 0), details=False), "text", 1_000)
    letters = re.findall(r"^- (\w+)\. ", short, re.MULTILINE)
    assert letters == sorted(letters)
    assert len(letters) == len(right)
    false = [option for option in decision.options if option.key not in right]
    assert len(false) >= 4
    # What names a gauge is judged by the table on the wall, whatever of it the job has.
    poster = [paper for paper in one.papers if "by gauge" in paper.title]
    assert bool(poster) == any("gauge" in option.words for option in decision.options)
    # Beside steel's least, which other sheet's number is a middle is said of each.
    assert all("nominal" in name or "least" in name for paper in poster for name, _ in paper.lines)
    for option in decision.options:
        if option.key == "metal.gauge_differs":
            hangs = " ".join(text for _, text in poster[0].lines)
            meant = re.findall(r"[\d.]+ (?:in|mm)", option.words.partition("that is")[2])
            assert meant
            assert all(thickness in hangs for thickness in meant), (option.words, hangs)
    # Each is what the same check says of the job in which it is so: same form, same precision.
    units = demo_jobs()[key].units
    said = {made.finding.key: shape(made.finding.what) for made in mistakes_of(key, units)}
    said |= {finding.key: shape(finding.what) for finding in to_put_right(bare_plan(key, units))}
    both = [option for option in decision.options if option.key in said]
    assert len(both) >= len(decision.options) // 2
    for option in both:
        assert shape(option.words) == said[option.key]
    # What is only said so is not so, and names a number that the job has otherwise.
    over = plan(one.key)
    assert not {option.key for option in false} & {finding.key for finding in over.findings}
    assert not {option.words for option in false} & {finding.what for finding in over.findings}
    # The place of an option hangs on its key alone, and differs from variant to variant.
    for seed in (0, 1):
        shown = [option.key for option in vary(one, seed).decisions[0].options]
        assert shown == sorted(shown, key=lambda each: digest(f"{one.name}/wrong/{each}/{seed}"))
    assert shown != [option.key for option in decision.options]


@pytest.mark.slow
@for_each(demo_jobs())
def test_the_learners_job_is_as_if_the_mistakes_had_been_typed(key: str) -> None:
    one = made_of(key)
    bare = without_names(demo_jobs()[key], "Found")
    if key != OWN:
        whole = bare_plan(key, bare.units)
        _, put = plant(whole, COUNT, f"{one.name}/{one.title}")
        assert {made.finding.key for made in put} == set(solve(one, 0).solution("wrong").right)
        for made in put:
            bare = put_place(bare, made.answer.key, made.says)
        # Nothing but the stop shows them: nothing is asked for that was not, no figure is missing.
        over = plan(bare)
        assert over.open_answers == whole.open_answers
        assert set(over.lacks) == set(whole.lacks)
    typed = dataclasses.replace(bare, standing={}, questions={}, confirmed={}, accepted={},
                                found_cuts=None)
    job = to_work_on(one, Attempt(practice=one.name))
    assert to_text(dataclasses.replace(job, practice=None)) == to_text(typed)


@pytest.mark.slow
@pytest.mark.parametrize("key", demo_jobs())
def test_nothing_that_a_learner_sees_tells_what_was_put_in(key: str, tmp_path: Path) -> None:
    one = made_of(key)
    solved = solve(one, 0)
    decision = solved.practice.decisions[0]
    right = set(solved.solution("wrong").right)
    job = to_work_on(solved.practice, Attempt(practice=one.name))
    made = plan(job)
    pages = [render(kind, made, form) for kind in KINDS for form in FORMS]
    for text in (*pages, to_text(job)):
        flat = " ".join(text.split())
        assert not any(option.words in flat for option in decision.options)
        assert one.notes not in flat or not one.notes
    paper = render_as(handout(solved), "text", 400)
    for option in decision.options:
        assert f"- ☐ {decision.letter(option.key)}. {option.words}" in paper
        assert option.if_wrong.why not in paper
        assert not any(hint in paper for hint in option.hints)
        assert bool(option.hints) == (option.key in right)  # in the sealed key alone
    # On disk all of it is sealed: readable by the program, not at a glance.
    sealed = seal(one)
    path = tmp_path / "one.practice.json"
    path.write_text(sealed, "utf-8")
    assert load_practice(path) == one
    for option in decision.options:
        assert option.key not in sealed
        assert option.words not in sealed
    path.write_text(sealed.replace("sealed\": [\n  \"", "sealed\": [\n  \"0", 1), "utf-8")
    with pytest.raises(StoreError, match="changed or cut"):
        load_practice(path)
    path.write_text(to_text(one), "utf-8")
    assert load_practice(path) == one


def test_the_subjects_that_are_wanted_are_those_that_are_mistaken() -> None:
    made = plan(demo_jobs()["heron-lane-barn"])
    for subject in ("machine", "haul"):
        _, put = plant(made, 3, "x", (subject,))
        assert {one.answer.step for one in put} == {subject}
        assert len(put) == 3
    assert plant(made, 2, "x") == plant(made, 2, "x")
    # Each step that is offered takes one; of the others none does in this job.
    for subject in MISTAKEN_IN:
        assert bool(plant(made, 1, "x", (subject,))[1]) is (subject in MISTAKES_OFFERED_IN)


@pytest.mark.slow
@for_each([*((key, job.units) for key, job in demo_jobs().items()),
           ("heron-lane-barn", System.METRIC)])
def test_every_mistake_is_wrong_by_the_checks_and_by_more_than_its_last_digit(
    key: str, units: System
) -> None:
    base, found = bare_plan(key, units), mistakes_of(key, units)
    assert found
    for one in found:
        job = put_place(base.job, one.answer.key, one.says)
        assert list(mistake_faults(base, job, one)) == []
        # It is given as finely as the right one.
        assert one.says != one.was
        assert len(one.says) <= len(one.was) + 4 or one.answer.choices
        assert one.answer.shown(one.answer.value(job), units) == one.says


@pytest.mark.slow
def test_what_is_only_said_to_be_wrong_is_of_the_steps_that_were_asked_for() -> None:
    steps = ("panel", "machine", "metal", "coils")
    base = plan(demo_jobs()["heron-lane-barn"])
    one = propose(base, "few", "Few", "A job, invented.", mistakes=4, subjects=steps)
    of_step = {made.finding.key: made.answer.step
               for step in MISTAKEN_IN for made in mistakes_in(base, "any", (step,), hidden=False)}
    right = set(solve(one, 0).solution("wrong").right)
    false = [option.key for option in one.decisions[0].options if option.key not in right]
    assert len(false) == 4
    assert {of_step[key] for key in false if key in of_step} <= set(steps)
    assert not any(key.startswith("haul.") for key in false)


@pytest.mark.parametrize("steps", [
    ("panel", "machine", "coils"), ("metal", "panel"), ("machine",)])
def test_where_steps_give_too_few_nothing_far_from_them_is_said_to_be_wrong(
    steps: tuple[str, ...]
) -> None:
    # A load on the road beside a panel is ruled out unread; so is a metal that no line names.
    one = propose(plan(demo_jobs()["heron-lane-barn"]), "few", "Few", "A job, invented.",
                  mistakes=2, subjects=steps)
    false = [option for option in one.decisions[0].options if not option.hints]
    assert len(false) == 4
    assert not any(option.key.startswith(("haul.", "job.", "roof.")) for option in false)
    assert not any("zinc is not" in option.words for option in false)
    # Nor is it said to meet a metal, where nothing of the metal is asked; what the steps are held
    # to comes before what they are not.
    if "metal" not in steps:
        assert not any(option.key in ("metal.unlike", "metal.color_unconfirmed")
                       for option in false)


def test_a_coil_that_cannot_be_held_can_hurt_somebody() -> None:
    one = propose(plan(demo_jobs()["heron-lane-barn"]), "held", "Held", "A job, invented.",
                  mistakes=1, subjects=("coils",))
    right = {key: one.decisions[0].option(key) for key in solve(one, 0).solution("wrong").right}
    option = right["machine.inside"]
    assert option is not None
    assert Damage.DANGER in option.if_wrong.damage
    (text,) = (line for line in render_as(key_sheet(solve(one, 0)), "text", 400).splitlines()
               if "Coil inside diameter" in line and "may come off" in line)
    assert "right." in text


# -- whose job it is -----------------------------------------------------------------------
def names_said(job: Job, *texts: str) -> tuple[str, ...]:
    """What of some texts names somebody or some place of the job."""
    return said_of(names_in(job), *texts)


SECRET = "Zzyzx"


def with_secret(value: object, name: str = "") -> object:
    """A part of a job in which every text has somebody's name in it."""
    if isinstance(value, StrEnum) or name in {"format", "on"}:
        return value
    if isinstance(value, str):
        return f"{value} {SECRET}" if value else value
    if isinstance(value, tuple):
        return tuple(with_secret(one, name) for one in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return dataclasses.replace(value, **{
            field.name: with_secret(getattr(value, field.name), field.name)
            for field in dataclasses.fields(value)})
    return value


@for_each(demo_jobs())
def test_nothing_of_the_client_is_left(key: str) -> None:
    job = demo_jobs()[key]
    known = with_secret(dataclasses.replace(
        job, job=dataclasses.replace(job.job, client="C", designer="D", site="S"),
        order=Order(buyer="B", number="12", phone="555", terms="T", ship_to="H")))
    assert isinstance(known, Job)
    assert SECRET in to_text(known)
    bare = without_names(known, "Found")
    assert SECRET not in to_text(bare)
    # What the order rests on is what it was.
    for name in ("roof.planes", "metal.thickness", "panel.coverage", "machine.arbor_load"):
        if name in ANSWERS:
            assert ANSWERS[name].value(bare) == ANSWERS[name].value(job)
    assert len({plane.name for plane in bare.roof.planes}) == len(
        {plane.name for plane in job.roof.planes})
    own, other = plan(bare), plan(job)
    assert {k: f.value for k, f in own.figures.items() if k.startswith("coil.")} == {
        k: f.value for k, f in other.figures.items() if k.startswith("coil.")}


def test_a_name_in_what_is_handed_out_is_seen_and_a_word_of_the_trade_is_not() -> None:
    job = demo_jobs()["heron-lane-barn"]
    job = dataclasses.replace(
        job, job=dataclasses.replace(job.job, name="Ozias's Friday shed",
                                         client="Tamsin Ridge Vale"),
        order=Order(buyer="Brackwater Roofs", unloading="Forklift", freight="Prepaid"))
    for text, names in (
        ("Tamsin Vale's Friday shed", ("Tamsin", "Vale")), ("the VALE shed", ("VALE",)),
        ("Ozias has a shed", ("Ozias",)), ("A shed for Brackwater", ("Brackwater",)),
        ("The Friday shed, a forklift, prepaid", ()), ("A roof on Heron Lane", ("Heron",)),
        ("A barn where the lane bends", ()),
        ("Brackwater roofs", ("Brackwater",)), ("A Ridge of copper", ("Ridge",)),
    ):
        assert names_said(job, text, text) == names
    # A company is called by its trade; what it is called besides is its name.
    job = dataclasses.replace(job, order=Order(buyer="Brackwater Seam & Gutter of Copper Eave"))
    assert names_said(job, "A double-lock seam along the gutter, copper to the eave") == ()
    assert names_said(job, "Brackwater's gutter") == ("Brackwater",)
    # A place that is called by nothing else is called by those words.
    job = dataclasses.replace(job, job=dataclasses.replace(job.job, site="Mill Row"))
    assert names_said(job, "The porch in Mill Row, a row of it") == ("Mill Row",)
    # So is a client of the trade, by all of its words and by none of them; a person by each.
    for client, names in (
        ("Double Lock Roofing, LLC", ("Double Lock Roofing",)), ("Vale Roofing Supply", ("Vale",)),
        ("Vale Timber Company", ("Vale",)), ("Ann Ridge", ("Ridge",)),
    ):
        job = dataclasses.replace(job, order=Order(), job=dataclasses.replace(
            job.job, client=client, site="Old Mill Road"))
        assert names_said(job, "Old timber shed, double lock roofing to the ridge; for Vale") == (
            tuple(name.lower() for name in names) if names != ("Vale",) else names)
    job = dataclasses.replace(job, job=dataclasses.replace(
        job.job, client="Double Lock Roofing", site=""))
    for text, names in (
        ("The Double Lock barn", ("Double Lock",)), ("Double-lock seam, a double lock", ()),
        ("Double Lock Roofing's barn", ("Double Lock Roofing",)),
    ):
        assert names_said(job, text) == names
    # Whoever drew the roof is called by the name, and by no word of the trade of drawing.
    job = dataclasses.replace(job, job=dataclasses.replace(
        job.job, client="", designer="Hill Architects and Design Group"))
    for text, names in (
        ("A group of architects, to their design", ()), ("A hill", ()),
        ("By Hill Architects and Design Group", ("Hill Architects and Design Group",)),
        ("Done as Hill wants it", ("Hill",)), ("Hill and dale: Hill, on a hill. Hill", ()),
        ("A barn for Mr. Hill", ("Mr Hill",)), ("ask dr Hill or MRS HILL", ("dr Hill", "MRS HILL")),
        ("A Mr., a Group; an Architects' design", ()),
    ):
        assert names_said(job, text) == names
    # What follows each other with capitals is one name, small words within it too.
    job = dataclasses.replace(
        job, order=Order(buyer="Hill and Field Supply"), job=dataclasses.replace(
            job.job, designer="Wexley Architects", site="Hill Road behind the Old Mill"))
    for text, names in (
        ("Hill and Field Supply", ("Hill and Field Supply",)),
        ("For Hill and Field", ("Hill and Field",)), ("On Hill Road", ("Hill Road",)),
        ("At the old mill", ("old mill",)), ("A hill and field, a road behind", ()),
    ):
        assert names_said(job, text) == names
    assert names_said(job, "To the architects' design; ask Wexley") == ("Wexley",)
    # A job often is called after its client, and so may a plane or the machine be; each is one
    # name, however it is written.
    job = dataclasses.replace(
        job, job=dataclasses.replace(job.job, name="Fennimore barn", client="Ann Ridge"),
        machine=dataclasses.replace(job.machine, name="Jorik's trailer"),
        roof=dataclasses.replace(job.roof, planes=(
            dataclasses.replace(job.roof.planes[0], name="Quillow side"),
            dataclasses.replace(job.roof.planes[1], name="Fennimores' side 2B"))))
    for text, names in (
        ("The Fennimore barn", ("Fennimore",)), ("FENNIMORE's, of fennimore", ("FENNIMORE",)),
        ("On Jorik's trailer to Quillow", ("Jorik", "Quillow")), ("A Barn, a Side, a Trailer", ()),
        ("The Quillows' barn, of Quillow", ("Quillows",)),
    ):
        assert names_said(job, text, text) == names
    assert said_of({*names_in_labels(("Barn for Mrs. Street",))},
                   "A street, and Mrs. Street's barn; the Mrs.") == ("Mrs Street",)
    bare = to_text(without_names(job, "Found")).casefold()
    assert [name for name in ("fennimore", "jorik", "quillow") if name in bare] == []


@pytest.mark.parametrize("name", [
    "North Side", "Main Street House, Front", "Standing Seam Porch", "Double Lock Barn 2",
    "The Owner's Garage", "Kitchen Dormer, Left", "Two-Arbor Trailer", "Spare Machine",
    "Phase Two (copy)", "May Barn", "Dairy Parlor and Hay Storage", "Tandem Flatbed",
    "Zinc Ridge, Upper East Wing", "Vale shed (invented)", "Timber Porch", "Lumber Store",
])
def test_what_anything_may_be_called_names_nobody(name: str) -> None:
    assert [*names_in_labels((name,))] == []


def test_words_that_name_nobody_stay() -> None:
    bare = without_names(demo_jobs()["heron-lane-barn"], "Found")
    assert bare.metal.color == demo_jobs()["heron-lane-barn"].metal.color
    assert bare.job.name == "Found"
    assert "Heron" not in to_text(bare)
    # A color of somebody's own is called what it is, and so is its code.
    job = demo_jobs()["heron-lane-barn"]
    bare = without_names(dataclasses.replace(
        job, job=dataclasses.replace(job.job, client="Quillow"),
        metal=dataclasses.replace(job.metal, color="Quillow gray", color_code="Q-1 Quillow")), "F")
    assert (bare.metal.color, bare.metal.color_code) == ("Color 1", "Code 2")
