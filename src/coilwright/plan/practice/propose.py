"""A practice job made of a job that is ready or has mistakes, and what is wrong with one."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator

from coilwright.calc.roof.shapes import Point
from coilwright.job.answers import asked
from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.job.practice import (
    FIGURE,
    Damage,
    Decision,
    Judged,
    Option,
    Outcome,
    Paper,
    Practice,
)
from coilwright.job.roof import Measured, Shape
from coilwright.job.steps import STEPS
from coilwright.job.stock import CoilOnHand
from coilwright.plan.ask_first import ask_first
from coilwright.plan.plan import plan
from coilwright.plan.practice.review import tolerance
from coilwright.plan.practice.solve import FIRST, Solved, solve, to_put_right
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import Kind, show
from coilwright.values.keys import Key
from coilwright.words.counting import counted

_HEAD = Order(buyer="the shop (invented)", ship_to="the yard (invented)",
              freight="prepaid by the supplier (invented)")
"""A key is ready, so its order has a head."""


def faults(practice: Practice, seed: int = 0) -> tuple[str, ...]:
    """What is wrong with a variant, each in a sentence; none where it can be practiced."""
    try:
        solved = solve(practice, seed)
    except ValueError as error:
        return (f"{error}.",)
    return tuple(_faults(solved))


def _faults(solved: Solved) -> Iterator[str]:
    if not solved.key.ready and not _has_mistakes(solved.practice):
        yield f"The key is not ready: {solved.key.reasons[0].text}"
    for solution in solved.solutions:
        decision = solution.decision
        name = f"“{decision.key}”"
        if solution.figure is not None:
            if solution.figure.mark:
                yield f"{name}: the key's figure rests on a guess."
            try:
                tolerance(decision, solution.figure) if decision.tolerance else 0.0
            except ValueError as error:
                yield f"{name}: the tolerance “{decision.tolerance}”: {error}"
            for key in decision.accept:
                if key not in solved.key.figures:
                    yield f"{name}: the key has no figure “{key}” to accept."
            continue
        for key in solution.right:
            if decision.option(key) is None:
                yield f"{name}: “{key}” is right by the plan, and is no option."
        if not any(decision.option(key) for key in solution.right) and (
            decision.judged is not Judged.LOADS
        ):
            yield f"{name}: none of its options is right."
        if decision.judged is Judged.ASK_FIRST:
            yield from _ties(solved, decision)


def _has_mistakes(practice: Practice) -> bool:
    """Whether its key is the job with its mistakes, which is never ready: they are to be found."""
    return any(one.judged is Judged.STOPS for one in practice.decisions)


def _ties(solved: Solved, decision: Decision) -> Iterator[str]:
    """Where the last that is asked first and the next move the order alike, nobody can tell."""
    count = decision.count or FIRST
    effects = ask_first(solved.over.job, solved.over)
    if len(effects) > count:
        last, after = effects[count - 1], effects[count]
        if last.stops == after.stops and abs((last.mass or 0) - (after.mass or 0)) < 1:
            yield f"“{decision.key}”: “{last.key}” and “{after.key}” move the order alike."


_PROPOSED = (
    (Key.STRIP_WIDTH, "strip", "How wide is the strip?", "1/32 in",
     "The strip is the coverage and the take-up together."),
    (Key.COIL_COUNT, "coils", "How many coils do you order?", "",
     "The coils are as many as the limits on one of them make it."),
    (Key.COIL_MASS_ORDERED, "weight", "How many pounds do you order in all?", "2 %",
     "The order is the panels, spare, thread-up and tail, and what the supplier may ship short."),
)
_LIMIT_NAMES = {
    "arbor": "the load of one arbor", "rack": "the load of the rack, shared",
    "decoiler": "the load of the floor decoiler", "diameter": "the outside diameter",
    "supplier": "the supplier's heaviest coil", "site": "what the site can lift",
}


def propose(made: Plan, name: str, title: str, story: str) -> Practice:
    """A practice job made from a job: its papers, and decisions that are proposed.

    Of a job that is ready, what its papers say is left out, to be entered. A job with mistakes is
    handed over whole: what stops its order is what there is to find. Raises ValueError where it is
    neither.
    """
    if not made.ready:
        return _to_find(made, name, title, story)
    less = Outcome(damage=(Damage.METAL, Damage.MONEY, Damage.DAYS),
                   why="What is short has to be ordered again.")
    more = Outcome(damage=(Damage.METAL, Damage.MONEY), why="What is over is paid for.")
    decisions = [
        Decision(key=key, ask=ask, judged=Judged.FIGURE, of=figure, tolerance=allowed, less=less,
                 more=more, why=why)
        for figure, key, ask, allowed, why in _PROPOSED if figure in made.figures
    ]
    if made.governing is not None:
        wrong = Outcome(damage=(Damage.DANGER, Damage.DAYS),
                        why="A coil made to the wrong limit does not fit, or is not carried.")
        decisions.append(Decision(
            key="limit", ask="What limits the longest coil?", judged=Judged.LIMIT,
            options=tuple(Option(key=limit.key, words=_LIMIT_NAMES.get(limit.key, limit.name),
                                 if_wrong=wrong) for limit in made.limits),
            why="The least of all the lengths that the limits allow governs.", reason=True,
        ))
    return Practice(
        name=name, title=title, story=story, teaches=_teaches(decisions),
        lesson="Compare each step with the key's.", decisions=tuple(decisions), level=2,
        key=_without_names(made, title), papers=_papers(made), stripped=_stripped(made),
    )


def _teaches(decisions: Iterable[Decision]) -> str:
    """What a practice job teaches, by what it asks."""
    names = [_TAUGHT[one.key] for one in decisions]
    last = names.pop()
    before = f"{', '.join(names)} and " if names else ""
    return f"From the papers: {before}{last}."


def _to_find(made: Plan, name: str, title: str, story: str) -> Practice:
    """A practice job of a job with mistakes: it is handed over as it is, and they are found."""
    key = _without_names(made, title)
    over = plan(key)
    mistakes = to_put_right(over)
    if not mistakes:
        raise ValueError(
            f"the job is no key, for it is not ready: {made.reasons[0].text} Settle that, or put "
            "mistakes in: of a job with findings that stop it those are what there is to find.")
    told = {finding.key for finding in over.findings}
    options = [Option(key=f.key, words=f.what[:_LONGEST_WORDS], if_wrong=Outcome(
        damage=(Damage.METAL, Damage.MONEY, Damage.DAYS), why=f.why)) for f in mistakes]
    options += [Option(key=key, words=words, if_wrong=Outcome(damage=(Damage.DAYS,), why=why))
                for key, words, why in _NOT_SO if key not in told][:_FALSE]
    # By their keys, so that the place of an option does not tell.
    options.sort(key=lambda option: option.key)
    count = len(mistakes)
    return Practice(
        name=name, title=title, story=story, level=2, key=key, papers=_papers(over),
        teaches=f"To find what is wrong in a job: {counted(count, 'mistake')}.",
        lesson="Hold each number to the paper that it comes from.",
        decisions=(Decision(
            key="wrong", ask="What in the job has to be put right before anything is ordered?",
            judged=Judged.STOPS, options=tuple(options), reason=True,
            why="Each of them stops the order, and stands among the findings with what to do.",
        ),),
    )


_LONGEST_WORDS, _FALSE = 300, 4
_NOT_SO = (
    ("machine.take_up", "The take-up is not the machine's.", "The take-up is the machine's."),
    ("machine.strip", "The strip is wider or narrower than the machine takes.",
     "The machine takes the strip."),
    ("metal.gauge_differs", "The thickness is not that of the gauge.",
     "Nothing in the job says another thickness than its gauge."),
    ("machine.inside", "The coil's inside diameter does not fit the machine.",
     "The machine takes the inside diameter."),
    ("machine.coverage", "The coverage is more than the machine forms.",
     "The machine forms the coverage."),
    ("job.panel_too_long", "The longest panel cannot be carried and turned at the site.",
     "Nothing says that the panels are too long for the site."),
    ("roof.under_profile", "The pitch is less than the profile's own least.",
     "The pitch is not under a least that is known."),
    ("metal.thin_coating", "The metallic coating is thin.", "The coating is not thin."),
    ("machine.diameter", "A coil is larger outside than the machine takes.",
     "The coils are made to what the machine takes."),
    ("machine.load", "A coil is heavier than the machine carries.",
     "The coils are made to what the machine carries."),
    ("metal.unlike", "Two metals meet that must not.", "No such metals are in the job."),
)
"""What may be wrong in a job, by its finding: where it is not, an option that is not right."""
_TAUGHT = {"strip": "the strip", "coils": "the coils", "weight": "what they weigh",
           "limit": "what limits a coil"}


_ON_PAPER = ("roof", "metal", "panel", "machine", "coils", "haul")
"""Steps whose answers somebody who practices enters from the papers."""


_TABLED = (
    ("The metal weighs", Key.METAL_DENSITY),
    ("Its coating weighs, both sides", Key.METAL_COATING_MASS),
    ("Its coating is, both sides", Key.METAL_COATING_THICKNESS),
)
"""What a program looks up of a metal, and whoever works on paper has to be told."""


def _papers(made: Plan) -> tuple[Paper, ...]:
    titles = {step.key: step.title for step in STEPS}
    found = []
    for step in _ON_PAPER:
        lines = tuple(
            (answer.label, f"{{{answer.key}}}") for answer in asked(made.job)
            if answer.step == step and answer.value(made.job) is not None
        )
        if step == "metal":
            lines += tuple((label, f"{{{FIGURE}{key}}}") for label, key in _TABLED
                           if key in made.figures)
        if lines:
            found.append(Paper(title=titles[step], lines=lines))
        if step == "roof" and (planes := tuple(_planes(made))):
            found.append(Paper(title="The planes, true lengths", lines=planes))
    return (*found, *(_coil_on_hand(at, coil) for at, coil in enumerate(made.job.on_hand)))


def _planes(made: Plan) -> Iterator[tuple[str, str]]:
    """The planes that were measured one by one, and those with openings, each by its name."""
    for plane in made.planes:
        said = [_size(made, plane)] if plane.index is not None else []
        if plane.alike > 1:
            said.append(f"{plane.alike} alike")
        said += [f"an opening with corners {_corners(made, hole)}" for hole in plane.openings]
        if said:
            yield plane.name, ", ".join(said)


def _size(made: Plan, plane: PlanePlan) -> str:
    """How large a measured plane is, and its pitch."""
    assert plane.index is not None
    measured, at = made.job.roof.planes[plane.index], f"roof.planes.{plane.index}"
    if measured.shape is Shape.RECTANGLE and measured.measured is Measured.SLOPE:
        # Named, not written out: a variation may change them.
        size = f"{{{at}.eave}} along the eave, {{{at}.slope_length}} up the slope"
    else:
        size = f"corners, along the eave and up the slope: {_corners(made, plane.outline)}"
    pitch = f", pitch {show(plane.pitch, Kind.PITCH, made.job.units)}" if plane.pitch else ""
    return f"{size}{pitch}"


def _corners(made: Plan, outline: Iterable[Point]) -> str:
    units = made.job.units
    return "; ".join(f"{show(x, Kind.LENGTH, units)}, {show(y, Kind.LENGTH, units)}"
                     for x, y in outline)


def _coil_on_hand(at: int, coil: CoilOnHand) -> Paper:
    place = f"on_hand.{at}"
    sizes = [("Length left", "length")] if coil.length is not None else [
        ("Outside diameter", "outside"), ("Inside diameter", "inside")]
    return Paper(title=f"Tag on the coil {{{place}.tag}}", lines=tuple(
        (label, f"{{{place}.{name}}}") for label, name in (
            ("Metal", "metal"), ("Thickness", "thickness"), ("Width", "width"), *sizes,
            ("Color", "color"), ("Lot", "lot"))
        if getattr(coil, name) not in (None, "")
    ))


def _stripped(made: Plan) -> tuple[str, ...]:
    return tuple(
        answer.key for answer in asked(made.job)
        if answer.step in _ON_PAPER and answer.value(made.job) is not None
    )


_LEFT_OUT = "left out"


def _without_names(made: Plan, title: str) -> Job:
    """The key without who it was for."""
    old = made.job.job
    section = dataclasses.replace(
        old, name=title, client=old.client and _LEFT_OUT, site=old.site and _LEFT_OUT,
        designer=old.designer and _LEFT_OUT,
    )
    return dataclasses.replace(made.job, job=section, practice=None, order=_HEAD, about="")
