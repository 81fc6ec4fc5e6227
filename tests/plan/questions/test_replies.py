"""Questions of a job: status, order, replies that flow back into it, and what holds the order."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coilwright.job.agreement import agreement
from coilwright.job.answers import ANSWERS
from coilwright.job.choices import YesNo
from coilwright.job.edit import do_not_know, new_job
from coilwright.job.job import Asked, Job
from coilwright.job.metal import CoatingName, Finish, MetalName
from coilwright.job.questions import PERSONS, all_questions
from coilwright.plan import plan
from coilwright.plan.questions import Question, Status, by_person, question_of, reply, waive
from coilwright.sheets import render
from coilwright.sheets.state import state_of
from coilwright.store import shipped
from coilwright.store.reader import from_data, to_data
from coilwright.values.standing import Standing
from tests.cases import guess, set_answers, small_gable
from tests.draws import draws
from tests.generated import partial_jobs
from tests.plan.questions.held import holding
from tests.plan.quotes.five import all_in, barn

TEXT_ONLY = sorted(key for key, entry in all_questions().items() if not entry.answer)


def of(job: Job) -> dict[str, Question]:
    """The job's questions by key."""
    return {q.key: q for q in plan(job).questions}


class TestStatus:
    """Open, guess or settled."""

    def test_it_follows_the_answer(self) -> None:
        key = "machine_maker.take_up"
        sure = small_gable()
        assert of(sure)[key].status is Status.SETTLED
        assert of(guess(sure, "panel.take_up"))[key].status is Status.GUESS
        assert of(set_answers(sure, {"panel.take_up": None}))[key].status is Status.OPEN

    def test_it_says_what_the_answer_shows(self) -> None:
        assert of(small_gable())["machine_maker.take_up"].said == "5 in"

    def test_what_cannot_be_read_is_open_and_shown(self) -> None:
        job, error = reply(small_gable(), "machine_maker.take_up", "about five")
        assert error
        asked = of(job)["machine_maker.take_up"]
        assert (asked.status, asked.said) == (Status.OPEN, "about five")

    def test_a_color_not_confirmed_is_not_settled(self) -> None:
        job = set_answers(small_gable(), {"metal.color_confirmed": YesNo.NO})
        asked = of(job)["client.color_confirmed"]
        assert asked.status is Status.OPEN
        assert asked.urgent
        assert asked in holding(plan(job))

    def test_the_order_waits_for_a_guess_that_moves_it(self) -> None:
        assert not of(small_gable())["machine_maker.take_up"].waits
        assert of(guess(small_gable(), "panel.take_up"))["machine_maker.take_up"].waits


class TestReply:
    """What was said goes into the job."""

    def test_a_number_becomes_the_answer(self) -> None:
        job, error = reply(new_job(), "supplier.inside_diameter", "508 mm")
        assert error == ""
        assert job.coils.inside_diameter == pytest.approx(20.0)
        assert ANSWERS["coils.inside_diameter"].standing(job) is Standing.SURE
        assert job.questions == {}

    def test_not_settled_makes_it_a_guess(self) -> None:
        job, _ = reply(new_job(), "supplier.inside_diameter", "20 in", settled=False)
        assert ANSWERS["coils.inside_diameter"].standing(job) is Standing.GUESS
        job, _ = reply(job, "supplier.inside_diameter", "20 in")
        assert ANSWERS["coils.inside_diameter"].standing(job) is Standing.SURE

    def test_the_same_value_doubted_becomes_a_guess(self) -> None:
        job, _ = reply(small_gable(), "machine_maker.take_up", "5 in", settled=False)
        assert of(job)["machine_maker.take_up"].status is Status.GUESS

    def test_a_usual_value_confirmed_on_the_phone(self) -> None:
        job = do_not_know(new_job(), "coils.tolerance")
        job, _ = reply(job, "supplier.tolerance", "10 %")
        assert ANSWERS["coils.tolerance"].standing(job) is Standing.SURE

    def test_nothing_typed_takes_the_answer_away(self) -> None:
        job, error = reply(small_gable(), "machine_maker.take_up", "  ")
        assert (job.panel.take_up, error) == (None, "")

    def test_one_sentence_says_what_cannot_be_read(self) -> None:
        job, error = reply(small_gable(), "machine_maker.take_up", "five-ish")
        assert error.startswith(("“five-ish”", "Take-up"))
        assert job.typed["panel.take_up"] == "five-ish"

    @pytest.mark.parametrize(("key", "text", "said"), [
        ("supplier.skid", "Yes, no charge", "yes, no charge"),
        ("supplier.eye", "eye up; always", "eye up, always"),
        ("supplier.inside_diameter", "20 in, no charge", "20 in, no charge"),
        ("supplier.minimum_order", "1,500 lb, else set-up", "1,500 lb, else set-up"),
    ])
    def test_words_behind_an_answer_are_kept_as_a_note_of_the_reply(
        self, key: str, text: str, said: str
    ) -> None:
        job, error = reply(new_job(), key, text)
        asked = of(job)[key]
        assert (error, asked.status, asked.said) == ("", Status.SETTLED, said)
        answer = ANSWERS[asked.words.answer]
        assert answer.said(job) == said.partition(", ")[0]
        assert said.endswith(f", {asked.note}")
        again = from_data(to_data(job), Job)
        assert of(again)[key].said == said
        if key == "supplier.skid":
            assert "yes, no charge" in render("questions", plan(job), "text")
            # The note is of what was said: another answer has none, and so has a reply without.
            other = set_answers(job, {"coils.skid": YesNo.NO})
            assert of(other)[key].said == "no"
            assert of(reply(job, key, "yes")[0])[key].said == "yes"

    @pytest.mark.parametrize("text", ["20 in, 24 in for thin metal", "perhaps, no charge"])
    def test_two_numbers_or_none_are_no_answer_with_a_note(self, text: str) -> None:
        job, error = reply(new_job(), "supplier.inside_diameter", text)
        assert error
        assert of(job)["supplier.inside_diameter"].note == ""

    def test_two_people_may_settle_one_answer(self) -> None:
        job, _ = reply(new_job(), "designer.tested_assembly", "no")
        assert of(job)["building_department.tested_assembly"].status is Status.SETTLED

    @given(st.sampled_from(TEXT_ONLY), st.text(max_size=80), st.booleans())
    def test_any_other_reply_is_kept_as_it_is(self, key: str, text: str, settled: bool) -> None:
        job, error = reply(small_gable(), key, text, settled)
        assert error == ""
        kept = job.questions.get(key)
        if kept is None:
            assert not text.strip()
        else:
            assert (kept.text, kept.settled) == (text, settled)
        assert dataclasses.replace(job, questions=small_gable().questions) == small_gable()

    def test_a_reply_against_the_order_holds_it_and_what_is_waived_then_is_ordered_so(self) -> None:
        gable = set_answers(small_gable(), {"coils.supplier_heaviest": 600.0})
        job = dataclasses.replace(gable, order=dataclasses.replace(
            gable.order, supplier="Birch Metals (invented)"))
        assert len(plan(job).coils) > 1, "one coil alone is of one lot"
        two, _ = reply(job, "supplier.one_lot", "Two lots.")
        asked = of(two)["supplier.one_lot"]
        assert (asked.status, asked.status.is_done) == (Status.AGAINST, False)
        (reason,) = plan(two).reasons
        assert reason.words.startswith("Birch Metals (invented) replied “Two lots”; the order asks "
                                       "for one production lot for all coils.")
        assert "so far Two lots; but the order asks for one production lot" in " ".join(
            render("questions", plan(two), "text").replace("│", " ").split())
        waived = waive(two, "supplier.one_lot", "the porch takes the second")
        assert plan(waived).ready
        for one, words in ((job, "One production lot"), (waived, "Production lots as you replied")):
            assert words in render("order", plan(one), "text")
        # Our own papers say it as the order does, and what it was that was taken on.
        kept = [" ".join(render("summary", plan(one), "md").split()) for one in (job, waived)]
        assert ["; one production lot for all lines." in text for text in kept] == [True, False]
        assert "; production lots as the supplier replied, which was taken on" in kept[1]
        (taken,) = (t for t in plan(waived).readiness.settled if t.key == "supplier.one_lot")
        assert taken.text == (
            "Birch Metals (invented) replied “Two lots”; the order asks for one production lot for "
            "all coils. Waived: the porch takes the second")
        assert of(from_data(to_data(waived), Job))["supplier.one_lot"].differs
        # What is asked after the order and holds none is told beside its findings.
        none, _ = reply(job, "supplier.certificates", "No certificates for stock coils")
        (found,) = [one for one in plan(none).findings if "certificate" in one.what]
        assert "the order asks for a mill certificate for each coil" in found.what
        assert plan(none).ready

    @pytest.mark.parametrize(("text", "agrees"), [
        ("Yes, one lot.", YesNo.YES), ("one lot, tags numbered", YesNo.YES),
        ("No, more than one lot.", YesNo.NO), ("it will be 2 lots", YesNo.NO),
        ("Yes, two lots", None), ("as stock comes", None), ("not yet", None), ("", None),
        # What agrees may mean another thing beside other words, or be no promise.
        ("One lot per coil", None), ("Each coil is one lot", None),
        ("One lot for the first coil", None), ("Same lot unless we run out", None),
        ("Usually one lot", None), ("We will try for one lot", None), ("Should be one lot", None),
        ("No, one lot if you wait", None), ("No, unless you wait", YesNo.NO),
    ])
    def test_whether_it_agrees_is_read_where_its_words_tell(
        self, text: str, agrees: YesNo | None
    ) -> None:
        words = all_questions()["supplier.one_lot"]
        assert agreement(words, Asked(text=text)) is agrees

    def test_coils_on_a_rack_that_its_maker_forbids_on_the_road_stop_the_job(self) -> None:
        job = set_answers(small_gable(), {"haul.rack_coils": 2})
        key = "machine_maker.rack_on_the_road"
        said = "questions.against.machine_maker.rack_on_the_road"
        told = [{one.key: one for one in plan(reply(job, key, text)[0]).stops}
                for text in ("Not on the road.", "Yes, two, pinned")]
        assert [said in stops for stops in told] == [True, False]
        assert told[0][said].what == (
            "The machine maker replied “Not on the road”; the job hauls coils on the rack.")
        assert told[0][said].answers == ("haul.rack_coils",)
        # What its words do not tell is asked, and what was said of it counts.
        stops = {one.key for one in plan(reply(job, key, "Ask your dealer", agrees=YesNo.NO)[0]
                                         ).stops}
        assert said in stops
        # They ride there, too, where only their weight is said and nobody counted them.
        weighed = set_answers(reply(job, key, "Not on the road.")[0], {
            "haul.rack_coils": None, "haul.rack_mass": 2000.0})
        (stopped,) = (one for one in plan(weighed).stops if one.key == said)
        assert "Change “Coils' weight on the rack”, or" in stopped.do
        assert stopped.answers == ("haul.rack_mass",)
        # A job that hauls none there says nothing of it: the reply settles the question.
        for none in (None, 0):
            away = reply(set_answers(job, {"haul.rack_coils": none}), key, "Not on the road.")[0]
            assert said not in {one.key for one in plan(away).findings}
            assert question_of(away, key).status is Status.SETTLED

    @pytest.mark.parametrize("key", [
        key for key, words in all_questions().items() if words.caution and words.order_says
        # Its caution is for the hands; who slits the edges himself orders so.
        and key != "supplier.slitting"])
    def test_no_waiver_lifts_a_reply_on_what_can_hurt_someone(self, key: str) -> None:
        words = all_questions()[key]
        asking: dict[str, object] = {"haul.rack_coils": 2} if words.says_with else {
            "job.engineered": YesNo.YES}
        job = waive(set_answers(small_gable(), asking), key, "we know")

        def holds(one: Job) -> bool:
            return any(key in reason.key for reason in plan(one).reasons)

        assert (question_of(job, key).status, holds(job)) == (Status.WAIVED, False)
        against, _ = reply(job, key, f"{words.differs[0].capitalize()}.")
        waived = waive(against, key, "we know better")
        unsaid, _ = reply(waived, key, waived.questions[key].text, settled=False)
        # Nor does taking the waiver back, nor opening the question again.
        for one in (against, waived, waive(waived, key, ""), unsaid):
            assert question_of(one, key).status is Status.AGAINST
            assert holds(one)
            assert key not in {taken.key for taken in plan(one).readiness.settled}
        (reason,) = (one for one in plan(waived).reasons if key in one.key)
        assert "o waiver lifts it" in reason.do
        for text, agrees in (("Yes, in writing", None), (words.differs[0], YesNo.YES)):
            anew, _ = reply(waived, key, text, agrees=agrees)
            assert (question_of(anew, key).status, holds(anew)) == (Status.SETTLED, False)

    def test_what_stops_by_an_answer_is_lifted_by_no_waiver_of_its_question(self) -> None:
        job = set_answers(small_gable(), {"metal.color_confirmed": YesNo.NO,
                                          "panel.leg": 9.0, "coils.inside_diameter": 3.0})
        waived = job
        for key, words in all_questions().items():
            if words.answer:
                waived = waive(waived, key, "we know better")
        stops = [{one.key for one in plan(of).stops} for of in (job, waived)]
        assert stops[0] == stops[1]
        assert "metal.color_unconfirmed" in stops[0]

    def test_text_not_settled_is_a_guess_and_none_is_open(self) -> None:
        job, _ = reply(small_gable(), "supplier.price_holds", "two weeks, he thinks", settled=False)
        assert of(job)["supplier.price_holds"].status is Status.GUESS
        job, _ = reply(job, "supplier.price_holds", "", settled=False)
        assert of(job)["supplier.price_holds"].status is Status.OPEN
        assert job.questions == small_gable().questions

    def test_an_unknown_question_is_refused(self) -> None:
        with pytest.raises(KeyError):
            reply(small_gable(), "supplier.weather", "fine")


class TestRule:
    """A question is settled by a reply and by nothing else, whoever is asked and whether it holds.
    """

    @pytest.mark.parametrize("key", TEXT_ONLY)
    def test_without_a_reply_nothing_settles_it(self, key: str) -> None:
        job = dataclasses.replace(small_gable(), questions={})
        assert reply(job, key, " \n")[0] == job
        marked = dataclasses.replace(job, questions={key: Asked(settled=True)})
        if (asked := of(marked).get(key)) is not None:
            assert (asked.status, asked.reply) == (Status.OPEN, "")

    def test_what_all_quotes_say_alike_is_the_reply_that_settles_it(self) -> None:
        same = [all_in(name, "1.78/lb", one_lot=YesNo.YES, lead_time=21) for name in ("Ash", "Elk")]
        job = barn(*same)
        job = dataclasses.replace(job, questions={}, coils=dataclasses.replace(
            job.coils, lead_time=None))
        asked = of(job)
        assert asked["supplier.lead_time"].status is Status.OPEN
        assert asked["supplier.lead_time"].reply == "21 days"
        assert asked["supplier.one_lot"].reply == "Ash: Yes, one lot.; Elk: Yes, one lot."
        for key in ("supplier.lead_time", "supplier.one_lot"):
            done, error = reply(job, key, asked[key].reply)
            assert (error, of(done)[key].status) == ("", Status.SETTLED)
        differs = dataclasses.replace(same[1], one_lot=YesNo.NO, lead_time=29)
        asked = of(dataclasses.replace(job, quotes=dataclasses.replace(
            job.quotes, received=(same[0], differs))))
        assert asked["supplier.lead_time"].reply == asked["supplier.one_lot"].reply == ""


class TestRelevance:
    """Only what the job calls for is asked."""

    def test_the_report_only_where_one_is_specified(self) -> None:
        assert "designer.report" not in of(small_gable())
        assert "supplier.tested_profiles" not in of(small_gable())
        job = set_answers(small_gable(), {"job.engineered": YesNo.YES})
        assert {"designer.report", "designer.clips", "supplier.tested_profiles"} <= set(of(job))

    def test_bare_metal_has_no_color(self) -> None:
        job = set_answers(small_gable(), {"metal.finish": Finish.BARE})
        asked = set(of(job))
        assert not asked & {"client.color", "client.color_confirmed", "supplier.finish_warranty",
                            "machine_maker.painted_side", "supplier.film"}  # fmt: skip
        assert "supplier.metal_warranty" in asked

    def test_a_finish_not_known_is_asked_about_with_its_color(self) -> None:
        assert {"client.finish", "client.color", "supplier.finish_system"} <= set(of(new_job()))

    def test_only_steel_has_a_metallic_coating(self) -> None:
        job = set_answers(small_gable(), {"metal.metal": MetalName.ALUMINUM})
        assert "supplier.coating" in of(small_gable())
        assert "supplier.coating" not in of(job)

    def test_a_machine_nobody_knows_is_asked_about_as_a_whole(self) -> None:
        assert {"machine_maker.metals", "machine_maker.tooling"} <= set(of(new_job()))
        assert not {"machine_maker.metals", "machine_maker.tooling"} & set(of(small_gable()))

    def test_a_condition_on_what_is_not_known_does_not_hold(self) -> None:
        job = set_answers(small_gable(), {"metal.metal": None, "metal.coating": CoatingName.AZ50})
        assert "supplier.coating" not in of(job)


class TestHolding:
    """What must not be left open."""

    def test_nothing_is_left_when_all_is_settled(self) -> None:
        job = small_gable()
        for question in holding(plan(job)):
            text = "20000 lb" if question.words.answer else "settled"
            if question.words.answer == "coils.lead_time":
                text = "3 weeks"
            job, error = reply(job, question.key, text)
            assert error == ""
        assert holding(plan(job)) == ()

    def test_a_reply_one_is_not_sure_of_still_holds(self) -> None:
        job, _ = reply(small_gable(), "supplier.slitting", "probably", settled=False)
        assert "supplier.slitting" in [q.key for q in holding(plan(job))]
        job, _ = reply(job, "supplier.slitting", "yes, in writing")
        assert "supplier.slitting" not in [q.key for q in holding(plan(job))]

    def test_what_only_nags_never_holds(self) -> None:
        job = new_job()
        assert all(q.words.holds for q in holding(plan(job)))
        assert "supplier.price_moves" not in [q.key for q in holding(plan(job))]

    def test_a_reply_that_holds_and_settles_nothing_makes_a_draft_of_the_same_figures(self) -> None:
        """Replies that are no answers change no figure."""
        job = small_gable()
        done, _ = reply(job, "supplier.slitting", "no", settled=False)
        assert (plan(done).ready, state_of(plan(done))) == (False, "DRAFT, 1 to settle")
        assert {k: f.value for k, f in plan(done).figures.items()} == {
            k: f.value for k, f in plan(job).figures.items()}


@given(partial_jobs())
@settings(max_examples=draws(25))
def test_any_job_has_its_questions_in_order(jobs: tuple[Job, Job]) -> None:
    job = jobs[1]
    asked = plan(job).questions
    assert len({q.key for q in asked}) == len(asked)
    assert [q.who for q in asked] == sorted((q.who for q in asked), key=PERSONS.index)
    for mine in by_person(asked).values():
        settled = [q.status is Status.SETTLED for q in mine]
        assert settled == sorted(settled), "what is settled comes last"
        left = [q.urgent for q in mine if q.status is not Status.SETTLED]
        assert left == sorted(left, reverse=True), "what holds the order comes first"
    assert sum(map(len, by_person(asked).values())) == len(asked)
    assert set(holding(plan(job))) <= set(asked)


@given(partial_jobs(), st.data())
@settings(max_examples=draws(25))
def test_a_reply_to_any_question_is_never_lost(jobs: tuple[Job, Job], data: st.DataObject) -> None:
    """Whatever is said to whatever is asked can be found again in the job."""
    job = jobs[1]
    asked = data.draw(st.sampled_from(plan(job).questions))
    text = data.draw(st.sampled_from(["20 in", "yes", "steel", "2027-05-31", "no idea", "3:12"]))
    done, error = reply(job, asked.key, text)
    said = of(done).get(asked.key)
    if said is not None:
        assert said.said
        assert (said.status is Status.OPEN) == bool(error or _unsettled(said))
    else:  # the reply itself made the question moot
        answer = ANSWERS[asked.words.answer]
        assert answer.value(done) is not None or answer.key in done.typed


def _unsettled(question: Question) -> bool:
    return bool(question.words.settled_by) and question.said not in question.words.settled_by


@pytest.mark.parametrize("name", shipped.demo_jobs())
def test_old_jobs_load_and_have_questions(name: str) -> None:
    job = dataclasses.replace(shipped.demo_jobs()[name], questions={})
    assert "questions" not in to_data(job)
    assert from_data(to_data(job), Job).questions == {}
    assert plan(job).questions


def test_replies_survive_the_file() -> None:
    job, _ = reply(small_gable(), "supplier.price_holds", "until 12 June")
    assert from_data(to_data(job), Job) == job
