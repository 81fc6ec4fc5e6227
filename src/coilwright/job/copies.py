"""Jobs that begin as a copy of another: what comes along, what is a guess, what stays behind.

Of an answer, `Answer.in_copy` says it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from coilwright.job.answers import ANSWERS, Answer, InCopy, UnreadableAnswer
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.answers.panel import PanelKey
from coilwright.job.delivery import same_place_again
from coilwright.job.edit import clear, give, give_text, new_job
from coilwright.job.job import Job
from coilwright.job.life import Life
from coilwright.job.quotes import TYPED as QUOTED
from coilwright.job.quotes import OwnAnswer, QuoteSection, sizes_of
from coilwright.job.receiving import TYPED as ARRIVED
from coilwright.job.requests import TYPED as REQUESTED
from coilwright.job.rows.paper import ORDER_HEAD
from coilwright.job.shop import Shop
from coilwright.job.steps import STEPS
from coilwright.units import System
from coilwright.values.keys import AnswerKey
from coilwright.values.standing import Standing
from coilwright.words.counting import counted

_LEFT_BEHIND = (ARRIVED, QUOTED, ORDER_HEAD.key, REQUESTED)
"""What the keys begin with of marks and texts that stay with the other job."""
_NO_SHOP = Shop()
COPY = " (copy)"
"""What the name of a copy ends with."""


def kept_apart(job: Job) -> Job:
    """The job as it goes on beside the one whose file another window wrote.

    It is called a copy, and its order has no number: that belongs to one order.
    """
    new = dataclasses.replace(job, order=dataclasses.replace(job.order, number=""))
    return _called_copy(new)


def begun_in(units: System, currency: str) -> Job:
    """A new job, empty but for its units and, where one is named, its currency: a shop changes
    neither from job to job."""
    job = new_job(units=units)
    made, error = give_text(job, JobKey.CURRENCY, currency) if currency else (job, "")
    return job if error else made


def _called_copy(job: Job) -> Job:
    return give(job, JobKey.NAME, f"{job.job.name}{COPY}") if job.job.name else job


def copied(job: Job, shop: Shop = _NO_SHOP) -> Job:
    """A new job that begins as a copy of this one. shop: whose places are the same for any job.

    Measures of the machine and the rig come along. What was confirmed, replied, accepted or
    weighed for the other job does not, nor do its days, the gear at its site, its coils on hand,
    its quotes and requests, the number, reference, supplier, terms and freight of its order, and
    what arrived for it; nor where its coils went, but for a place of the buyer's (`delivery`), with
    its hours and gear. What is of its building and its site, the color of its client, what its
    supplier said of days and price and what it sells (heaviest coil, least order, masters), and
    what an awarded quote said where nobody had answered before, stands there as a guess, and so do
    its planes and openings and what trim was measured by length. Tolerances, camber and what a
    thickness is, which any supplier could have said, are guesses too. What an award filled is again
    what was typed before it, a guess as well; the price and the heaviest coil, or nothing: no quote
    in the copy gives them, and its coils would go by them.
    """
    marks = {k: v for k, v in job.standing.items() if not k.startswith(_LEFT_BEHIND)}
    texts = {k: v for k, v in job.typed.items() if not k.startswith(_LEFT_BEHIND)}
    there = ("ship_to", "hours", "unloading")
    left = {} if same_place_again(job, shop) else dict.fromkeys(there, "")
    new = dataclasses.replace(
        job, standing=marks, typed=texts, questions={}, accepted={}, arrived=(), on_hand=(),
        on_hand_planes={}, requests=(), order=dataclasses.replace(
            job.order, number="", revision="", reference="", date=None, supplier="", attention="",
            supplier_phone="", terms="", freight="", **left), about="", found_cuts=None,
        confirmed={k: v for k, v in job.confirmed.items() if k == PanelKey.TAKE_UP},
        quotes=_sold_before(job), by_quote={}, before_quote={}, life=Life(),
        put_in_stock={}, put_back_on=None,
    )
    for key, answer in ANSWERS.items():
        if answer.in_copy is InCopy.DROPPED:
            new = clear(new, key)
    for key in _back_from_an_award(job):
        new = _as_before(new, key, job.before_quote.get(key))
    guesses = {answer.mark(new): Standing.GUESS for answer in ANSWERS.values()
               if _is_guess(answer, job) and answer.standing(new) is Standing.SURE}
    guesses |= {key: Standing.GUESS for key in _measured_rows(new)
                if new.standing.get(key, Standing.SURE) is Standing.SURE}
    new = dataclasses.replace(new, standing={**new.standing, **guesses})
    return _called_copy(new)


def _sold_before(old: Job) -> QuoteSection:
    """No quote, and what the supplier of the other order sold for it: a caution, should this one go
    there too."""
    awarded = old.quotes.as_awarded
    if awarded is None:
        return QuoteSection(sold_before=old.quotes.sold_before)
    return QuoteSection(sold_before=sizes_of(awarded))


_OF_AN_AWARD = (CoilsKey.PRICE, CoilsKey.SUPPLIER_HEAVIEST)
"""What an award fills that is of its own order's coils, or limits the coils of any: another's are
limited by nothing that no quote of theirs says."""
_GOES_WITH: dict[str, AnswerKey] = {CoilsKey.TOLERANCE_OVER: CoilsKey.TOLERANCE}
"""An answer that, left empty, is as another says: what was of both sides is so again."""
_SAID_BY_SUPPLIERS = (
    CoilsKey.TOLERANCE, CoilsKey.TOLERANCE_OVER, CoilsKey.WIDTH_TOLERANCE, CoilsKey.CAMBER,
    CoilsKey.CAMBER_OVER, MetalKey.THICKNESS_IS, MetalKey.THICKNESS_TOLERANCE,
    MetalKey.THICKNESS_STANDARD,
)
"""What whoever slits keeps to: typed with no supplier in play it is what the buyer asks of all."""


def _back_from_an_award(job: Job) -> Iterator[str]:
    """The answers of an awarded quote that are again in a copy what stood there before, where
    anything did; what nobody had answered stays as a guess, but for what hangs on that order."""
    before = {key: own.text for key, own in job.before_quote.items() if key in job.by_quote}
    for key, answer in ANSWERS.items():
        if key in job.by_quote and answer.in_copy is not InCopy.DROPPED and (
                key in _OF_AN_AWARD or before.get(key) or before.get(_GOES_WITH.get(key, key))):
            yield key


def _as_before(new: Job, key: str, own: OwnAnswer | None) -> Job:
    """The job with an answer as it was before an award filled it; without where it was empty."""
    bare = clear(new, key)
    if own is None or not own.text:
        return bare
    try:
        return give(bare, key, ANSWERS[key].read(own.text, new.units), Standing.GUESS)
    except UnreadableAnswer:  # a file that was edited by hand
        return bare


def _had_supplier(old: Job) -> bool:
    """Whether a supplier was in play: asked, quoting or ordered from."""
    return bool(old.order.supplier.strip() or old.quotes.received or old.requests or old.life.sent)


def _is_guess(answer: Answer, old: Job) -> bool:
    """Whether an answer of another job is a guess in its copy: what an awarded quote or any
    supplier's reply said is its supplier's, who is left behind."""
    return answer.in_copy is InCopy.GUESS or (
        answer.in_copy is InCopy.KEPT and (answer.key in old.by_quote or (
            answer.key in _SAID_BY_SUPPLIERS and _had_supplier(old))))


def _measured_rows(job: Job) -> Iterator[str]:
    """The keys of the rows that were measured on the building."""
    for index, plane in enumerate(job.roof.planes):
        yield f"roof.planes.{index}"
        yield from (f"roof.planes.{index}.openings.{n}" for n in range(len(plane.openings)))
    yield from (f"roof.building_openings.{n}" for n in range(len(job.roof.building_openings)))
    yield from (f"trim.pieces.{index}" for index, piece in enumerate(job.trim.pieces)
                if piece.length is not None)


# -- in words ------------------------------------------------------------------------------


def copy_words(old: Job, new: Job) -> str:
    """What became of another job in one that began as its copy, a line each: what is a guess, what
    came along, what stays behind."""
    guesses, kept = [*_guessed(new, old)], [one.title for one in STEPS if _came_along(new, one.key)]
    said = [f"Like “{old.title}”."]
    if guesses:
        said.append(f"{counted(len(guesses), 'guess')} now, of that job: {'; '.join(guesses)}.")
    if kept:
        said.append(f"As it stood: the rest on {', '.join(kept)}.")
    if place := new.order.ship_to:
        also = [what for text, what in ((new.order.hours, "hours"), (new.order.unloading, "gear"))
                if text]
        said.append(f"Coils go to “{place}” as they did, with its {' and '.join(also)}."
                    if also else f"Coils go to “{place}” as they did.")
    if left := [*_left_behind(old, new)]:
        said.append(f"Left behind: {'; '.join(left)}.")
    return "\n".join(said)


def _guessed(job: Job, old: Job) -> Iterator[str]:
    for answer in ANSWERS.values():
        if (_is_guess(answer, old) and answer.standing(job) is Standing.GUESS
                and answer.asked(job)):  # nobody seeks the wing of a roof that has none
            yield answer.label
    roof = job.roof
    openings = len(roof.building_openings) + sum(len(plane.openings) for plane in roof.planes)
    lengths = sum(piece.length is not None for piece in job.trim.pieces)
    for count, one in ((len(roof.planes), "plane"), (openings, "opening"),
                       (lengths, "piece of trim with its length")):
        if count:
            yield counted(count, one)


def _came_along(job: Job, step: str) -> bool:
    """Whether anything of a step stands in the copy as it stood."""
    return any(answer.step == step and answer.in_copy is InCopy.KEPT
               and key not in (JobKey.NAME, JobKey.UNITS) and answer.value(job) is not None
               for key, answer in ANSWERS.items())


def _left_behind(job: Job, new: Job) -> Iterator[str]:
    """What there was of the other job that a copy of it lacks."""
    gear = False
    for answer in ANSWERS.values():
        if answer.in_copy is not InCopy.DROPPED or answer.value(job) is None:
            continue
        if answer.key.startswith("haul.site_"):
            gear = True
        else:
            yield answer.label
    order = job.order
    where = not new.order.ship_to and (order.ship_to or order.hours or order.unloading)
    for there, what in (
        (gear, "the gear at its site"), (job.questions, "replies"),
        (job.accepted, "what was taken on"), (job.on_hand, "coils on hand"),
        (job.quotes.received or job.requests, "quotes and requests"),
        (order.number or order.reference or order.supplier or order.terms or order.freight,
         "number, reference, supplier, terms and freight of its order"),
        (where, "where its coils went (an empty Ship to means the new site)"),
        (job.life.steps, "the life of its order"),
        (job.arrived, "what arrived"),
    ):
        if there:
            yield what
