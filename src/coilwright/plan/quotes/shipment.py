"""What one supplier would ship for this job: the plan rerun on what is quoted, then their sizes.

The plan gives the coils that cover the job at this supplier's under side. Each goes up to a size
offered or a step of length; the order goes up to a step of weight and to the least they sell.

Lengths and weights are as they are worked out, not as the order rounds them to be read: so a quote
lands at the same in both systems of units, and a price by the pound at what the summary says the
coils cost. That is half a pound a coil from what the order says, less than any scale shows; each
line says by how much it multiplies, so that a reader finds its cents.

Where the order is in passes of a master the buyer pays for all of the master, as the order says:
metal, slitting and what is done before slitting go by its weight or area, freight and skids by the
strands that ship.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from coilwright.calc.cutting.cutplan import WORTH_KEEPING
from coilwright.calc.quotes import Shipped, exact, stepped_up
from coilwright.job.answers import ANSWERS
from coilwright.job.answers.coils import CoilsKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.metal import MetalKey
from coilwright.job.confirmations import carry_confirmations
from coilwright.job.job import Job
from coilwright.job.quotes import Quote
from coilwright.plan.coils.sold import sells_any_length, sizes_sold, wanted_lengths
from coilwright.plan.plan import plan
from coilwright.plan.purchases import BuyLine
from coilwright.plan.quotes.arriving import lead_time_of
from coilwright.plan.quotes.checks import trim_lines, with_trim
from coilwright.plan.quotes.in_sizes import CannotShip, Tried, least_in_sizes, made_up
from coilwright.plan.result import Plan
from coilwright.units import Kind, show
from coilwright.values.keys import AnswerKey, Key
from coilwright.values.rounding import step_down, step_up
from coilwright.values.standing import Standing

_LOOSE = Fraction(1, 10**6)
"""Slack of a length that is held to a size offered [in]."""
_READ = Fraction(1, 1000)
"""As a share: lengths this near are one, for an order is rounded to be read. Common practice, no
source."""

_SAID: dict[str, AnswerKey] = {
    "thickness": MetalKey.THICKNESS, "coating": MetalKey.COATING,
    "thickness_is": MetalKey.THICKNESS_IS, "finish": MetalKey.FINISH,
    "tolerance": CoilsKey.TOLERANCE, "tolerance_over": CoilsKey.TOLERANCE_OVER,
    "heaviest": CoilsKey.SUPPLIER_HEAVIEST, "lead_time": CoilsKey.LEAD_TIME,
    "inside_diameter": CoilsKey.INSIDE_DIAMETER,
}
"""The answer that a field of a quote says."""


@dataclass(frozen=True, slots=True)
class Shipment:
    """What would ship, as ordered: no coil longer or shorter than it is sold.

    plan: of the job as quoted. lengths: of the coils [in]. mass: of all [lb]. needed: what the
    plan orders [lb]; over: what is paid for beyond it [lb]. usable: panels the job is for [in].
    left: expected on each coil after the run [in], where nothing is spoiled; worth_keeping:
    the part of them that is long enough for another job [in]. over_side: how far over the ordered
    weight it may come. too_long: the longest coil that the machine or site takes [in], where a
    coil is longer than it. trim_lines: what is bought for trim beside the coils, and compared with
    them. strands: for trim, of the passes the coils are slit in. bought: the weight that is paid
    for, times that of the coils; more than 1 in passes, whose drop and strands for trim are paid
    for with the coils.
    """

    plan: Plan
    lengths: tuple[Fraction, ...]
    mass_per_length: Fraction
    needed: Fraction
    usable: Fraction
    left: tuple[Fraction, ...]
    worth_keeping: Fraction
    over_side: Fraction
    too_long: float | None
    trim_lines: tuple[BuyLine, ...] = ()
    strands: tuple[BuyLine, ...] = ()
    bought: Fraction = Fraction(1)

    @property
    def leftover(self) -> Fraction:
        """Expected on all coils after the run [in]."""
        return sum(self.left, Fraction(0))

    @property
    def leftover_read(self) -> Fraction:
        """The same [in], the sum of what is read of each coil on all papers."""
        return sum((exact(step_down(float(one), Kind.LENGTH, self.plan.job.units))
                    for one in self.left), Fraction(0))

    @property
    def length(self) -> Fraction:
        """Length of all coils [in]."""
        return sum(self.lengths, Fraction(0))

    @property
    def length_read(self) -> Fraction:
        """The same [in], the sum of each coil's as the order says it: so long a supplier makes
        them, and charges by."""
        return sum((exact(step_up(float(one), Kind.LENGTH, self.plan.job.units))
                    for one in self.lengths), Fraction(0))

    @property
    def mass(self) -> Fraction:
        """Weight of all coils [lb]."""
        return self.length * self.mass_per_length

    @property
    def trim(self) -> Shipped | None:
        """The metal for trim that is compared with the coils; None where there is none."""
        if not self.trim_lines:
            return None
        mass, length, area, count = (Fraction(0),) * 4
        for one in self.trim_lines:
            many, long = exact(one.count.value), exact(one.length.value)
            mass += exact(one.mass.value)
            length += many * long
            area += many * long * exact(one.width.value)
            count += many
        return Shipped(mass, length, area, self.roof, int(count))

    @property
    def carried(self) -> tuple[BuyLine, ...]:
        """The metal for trim that ships with the coils and is paid for with them or beside them."""
        return (*self.trim_lines, *self.strands)

    @property
    def mass_together(self) -> Fraction:
        """Weight of the coils, and of the metal for trim that is compared with them [lb]."""
        return self.mass + sum((exact(one.mass.value) for one in self.carried), Fraction(0))

    @property
    def over(self) -> Fraction:
        """Weight beyond what the plan orders [lb]."""
        return max(Fraction(0), self.mass - self.needed)

    @property
    def roof(self) -> Fraction:
        """Area of the roof [in²]."""
        return exact(self.plan.figures[Key.ROOF_AREA].value)

    def shipped(self, distance: int | None = None, more: Fraction = Fraction(1)) -> Shipped:
        """What prices are held to. more: times what is ordered."""
        width = exact(self.plan.figures[Key.STRIP_WIDTH].value)
        return Shipped(self.mass * more, self.length_read * more, self.length * width * more,
                       self.roof, len(self.lengths), distance)

    def paid_for(self, distance: int | None = None, more: Fraction = Fraction(1)) -> Shipped:
        """What the price of the metal is held to: in passes all of the master, drop included.

        A price by length goes by the strands, whose length is the order's. more: times what is
        ordered.
        """
        of_it = self.shipped(distance, more)
        return dataclasses.replace(of_it, mass=of_it.mass * self.bought,
                                   area=of_it.area * self.bought)


def quoted_job(job: Job, quote: Quote) -> Job:
    """The job with the metal, width, tolerance and limits of a quote, where it says any.

    A width other than the job's strip makes panels that cover more or less: the take-up is the
    machine's, and stays.
    """
    metal, coils, panel = job.metal, job.coils, job.panel
    if quote.thickness is not None:
        metal = dataclasses.replace(metal, thickness=quote.thickness, gauge=quote.gauge)
    for name in ("coating", "thickness_is", "finish"):
        if (said := getattr(quote, name)) is not None:
            metal = dataclasses.replace(metal, **{name: said})
    # The least order is made up afterwards, so it is nothing to stop for.
    changes: dict[str, object] = {"minimum_order": None}
    for name, said in (("tolerance", quote.tolerance), ("tolerance_over", quote.tolerance_over),
                       ("supplier_heaviest", quote.heaviest),
                       ("lead_time", lead_time_of(job, quote)),
                       ("inside_diameter", quote.inside_diameter)):
        if said is not None:
            changes[name] = said
    sizes, heaviest = quote.coil_masses or quote.coil_lengths, ANSWERS[CoilsKey.SUPPLIER_HEAVIEST]
    if sizes and quote.heaviest is None and heaviest.standing(job) is Standing.GUESS:
        # What it sells is what it ships; a guess, as of another order's supplier, holds none back.
        changes["supplier_heaviest"] = None
    if quote.tolerance is not None and quote.tolerance_over is None:
        # What was not said of the over side is what was asked, not what the under side is.
        over = coils.tolerance if coils.tolerance_over is None else coils.tolerance_over
        changes["tolerance_over"] = over
    coils = dataclasses.replace(coils, **changes)  # type: ignore[arg-type]
    strip = asked_width(job)
    if (quote.width is not None and strip is not None and panel.take_up is not None
            and panel.take_up < quote.width != strip):
        panel = dataclasses.replace(panel, coverage=quote.width - panel.take_up)
    # What it says is sure, whatever was guessed.
    said_keys = {key for name, key in _SAID.items() if getattr(quote, name) is not None}
    if sizes:
        said_keys.add(CoilsKey.SUPPLIER_HEAVIEST)
    marks = {key: mark for key, mark in job.standing.items() if key not in said_keys}
    # Whom the order goes to is nothing of this quote.
    return carry_confirmations(job, dataclasses.replace(
        job, metal=metal, coils=coils, panel=panel, standing=marks,
        quotes=dataclasses.replace(job.quotes, received=())))


def asked_width(job: Job) -> float | None:
    """The strip's width that is asked for [in]; None while it is not known."""
    coverage, take_up = job.panel.coverage, job.panel.take_up
    return None if coverage is None or take_up is None else coverage + take_up


def shipment(job: Job, quote: Quote) -> Shipment:
    """What this supplier would ship. Raises CannotShip."""
    quoted = quoted_job(job, quote)
    first = plan(quoted)
    if not first.coils and not (quote.coil_lengths or quote.coil_masses):
        raise CannotShip(_no_coils(first))
    per_length = first.figures.get(Key.STRIP_MASS_PER_LENGTH)
    longest = first.figures.get(Key.COIL_LONGEST)
    if per_length is None or longest is None:
        raise CannotShip(_no_coils(first))
    heavy, most = exact(per_length.value), exact(longest.value)
    if sizes := sizes_sold(quote, heavy):
        done, lengths = _in_sizes(quote, quoted, sizes, heavy, most)
        bought = _bought(done, heavy)
    else:
        done, lengths = first, _planned(first, quote)
        if quote.length_increment:
            lengths = [stepped_up(length, exact(quote.length_increment)) for length in lengths]
        bought = _bought(done, heavy)
        lengths = made_up(quote, lengths, heavy * bought, most, sizes)
    return _made(done, lengths, heavy, most, bought, sum(_planned(done, quote), Fraction(0)))


def as_ordered(order: Plan, quote: Quote, made: Shipment) -> Shipment:
    """What is ordered of this supplier as the order stands: that is billed, whatever it would
    ship if it were asked anew.

    order: the plan that goes by the quote. made: what it would ship; returned where it is the same.
    An order under the least one is made up to it.
    """
    per_length = order.figures.get(Key.STRIP_MASS_PER_LENGTH)
    longest = order.figures.get(Key.COIL_LONGEST)
    if per_length is None or longest is None or not order.coils:
        return made
    heavy, most = exact(per_length.value), exact(longest.value)
    sizes = sizes_sold(quote, heavy)
    lengths = [exact(coil.length.value) for coil in order.coils]
    bought = _bought(order, heavy)
    # Its steps of weight are in its coils already, and a hair over one is not another.
    lengths = made_up(dataclasses.replace(quote, increment=None), lengths, heavy * bought, most,
                      sizes)
    if len(lengths) == len(made.lengths) and all(
            abs(one - other) <= _READ * other
            for one, other in zip(sorted(lengths), sorted(made.lengths), strict=True)):
        return made
    return _made(order, lengths, heavy, most, bought, sum(_planned(order, quote), Fraction(0)))


def ordered_shipment(made: Plan) -> Shipment:
    """What ships where the supplier makes the coils as they are ordered, whatever its quote says.

    Raises CannotShip.
    """
    per_length, longest = (made.figures.get(key) for key in (
        Key.STRIP_MASS_PER_LENGTH, Key.COIL_LONGEST))
    if per_length is None or longest is None or not made.coils:
        raise CannotShip(_no_coils(made))
    heavy, lengths = exact(per_length.value), [exact(coil.length.value) for coil in made.coils]
    return _made(made, lengths, heavy, exact(longest.value), _bought(made, heavy),
                 sum(lengths, Fraction(0)))


def _planned(made: Plan, quote: Quote) -> list[Fraction]:
    """The coils of a plan [in]; those of nearly one length are ordered alike where any is sold."""
    return ([exact(coil.length.value) for coil in made.coils] if sells_any_length(quote)
            else wanted_lengths(made.figures, made.coils))


def _bought(made: Plan, heavy: Fraction) -> Fraction:
    """The weight that is paid for, times that of the coils: what their passes take of the master.

    The drop grows with the coils: every strand is as long as its pass.
    """
    slit = made.ordered_slit
    coils = sum((exact(coil.length.value) for coil in made.coils), Fraction(0)) * heavy
    return Fraction(1) if slit is None or not coils else exact(slit.mass.value) / coils


def _no_coils(made: Plan) -> str:
    if made.readiness.nothing_to_buy:
        return "Nothing is bought: all metal comes from coils on hand."
    lack = made.lacks.get(Key.COIL_MASS_ORDERED)
    if lack is not None and lack.because:
        return f"The order cannot be worked out on what is quoted: {lack.because}."
    return "The order is not known yet: an answer it needs is open."


def _in_sizes(
    quote: Quote, job: Job, sizes: Sequence[Fraction], heavy: Fraction, most: Fraction
) -> tuple[Plan, list[Fraction]]:
    """The cut plan that ships the least metal of those with each size as the longest coil.

    Its coils are cut as even as they can be, and each goes up to the next size: coils cut uneven on
    purpose, so that one of them gets by with a smaller size, are not looked for.
    """
    def tries() -> Iterator[Tried[Plan]]:
        for cap in sizes:
            if cap > most + _LOOSE:
                return
            coils = dataclasses.replace(
                job.coils, supplier_heaviest=float(cap * heavy * (1 + _LOOSE)))
            made = plan(dataclasses.replace(job, coils=coils))
            yield Tried(made, wanted_lengths(made.figures, made.coils),
                        heavy * _bought(made, heavy))

    best = least_in_sizes(quote, tries(), sizes, most)
    if best is None:
        raise CannotShip(
            "None of the coil sizes offered makes the panels and fits your machine and site: they "
            f"take up to {show(float(most), Kind.LENGTH, job.units)}, "
            f"{show(float(most * heavy), Kind.MASS, job.units)}.")
    return best


def _made(
    done: Plan, lengths: list[Fraction], heavy: Fraction, most: Fraction, bought: Fraction,
    planned: Fraction,
) -> Shipment:
    """planned: length of the coils that the plan orders."""
    figures, job = done.figures, done.job
    keep = exact(WORTH_KEEPING if job.coils.keep_length is None else job.coils.keep_length)
    lost = exact(figures[MachineKey.THREAD_UP].value) + exact(figures[MachineKey.TAIL].value)
    cut = [exact(coil.panels_length.value) for coil in done.coils]
    left = [
        max(Fraction(0), length - (cut[at] + lost if at < len(cut) else 0))
        for at, length in enumerate(lengths)
    ]
    over = job.coils.tolerance_over
    if over is None:
        over = figures[CoilsKey.TOLERANCE].value
    return Shipment(
        plan=done, lengths=tuple(lengths), mass_per_length=heavy, needed=planned * heavy,
        usable=sum(cut, Fraction(0)), left=tuple(left),
        worth_keeping=sum((one for one in left if one >= keep), Fraction(0)),
        over_side=exact(over),
        too_long=float(most) if any(one > most + _LOOSE for one in lengths) else None,
        trim_lines=trim_lines(done.buy) if with_trim(job) else (),
        strands=tuple(one for one in done.buy if one.in_pass), bought=bought,
    )
