"""A practice job made of a job that is ready or has mistakes, and what is wrong with one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from coilwright.calc.roof.shapes import Point
from coilwright.job.anonymous import without_names
from coilwright.job.answers import ANSWERS, asked
from coilwright.job.answers.job import JobKey
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
from coilwright.job.steps import MISTAKEN_IN, STEPS
from coilwright.job.stock import CoilOnHand
from coilwright.plan.ask_first import ask_first
from coilwright.plan.plan import plan
from coilwright.plan.practice.only_said import only_said
from coilwright.plan.practice.plant import Planted, plant
from coilwright.plan.practice.poster import posters
from coilwright.plan.practice.review import tolerance
from coilwright.plan.practice.solve import FIRST, Solved, solve, to_put_right
from coilwright.plan.result import Plan, PlanePlan
from coilwright.units import Kind, System, show
from coilwright.values.finding import Finding
from coilwright.values.keys import Key
from coilwright.words.counting import counted, in_series


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
     "The strip is the coverage and the take-up together.",
     ("Where: on the paper of the panel.", "What: add the coverage and the take-up.",
      "Why: the legs and the seam are formed of the same strip; they do not show on the roof.")),
    (Key.COIL_COUNT, "coils", "How many coils do you order?", "",
     "The coils are as many as the limits on one of them make it.",
     ("Where: on the papers of the machine and of the coils.",
      "What: find how long one coil may be, and hold the length of all panels to it.",
      "Why: an arbor, a rack and a forklift each carry so much; each panel comes from one coil.")),
    (Key.COIL_MASS_ORDERED, "weight", "What do all coils that you order weigh, together?", "2 %",
     "The coils are the panels, spare, thread-up and tail, and what the supplier may ship short.",
     ("Where: on the papers of the roof, the metal, the machine and the coils.",
      "What: the panels end to end, the spare, thread-up and tail of each coil, by the weight of "
      "the strip; and the tolerance, under.",
      "Why: a coil that comes as short as it may must still cover the roof.")),
)
_METRIC = {"1/32 in": "1 mm"}
"""How far off a size may be, as whoever measures in millimeters says it."""
_LIMIT_HINTS = (
    "Where: on the papers of the machine and of the coils.",
    "What: work out how long a coil each limit allows; the least of them governs.",
    "Why: a coil that is over any one of them does not fit, or is not carried.",
)
_LIMIT_NAMES = {
    "arbor": "the load of one arbor", "rack": "the load of the rack, shared",
    "decoiler": "the load of the floor decoiler", "diameter": "the outside diameter",
    "supplier": "the supplier's heaviest coil", "site": "what the site can lift",
}


def propose(
    made: Plan, name: str, title: str, story: str, *, mistakes: int = 0,
    subjects: Collection[str] = MISTAKEN_IN,
) -> Practice:
    """A practice job made from a job: its papers, and decisions that are proposed.

    A job with mistakes is handed over whole: what stops its order is what there is to find. Into
    any other, so many mistakes are put, in answers of some steps; where none is to be put in, and
    the job is ready, what its papers say is left out, to be entered. Raises ValueError where it is
    no key, or where no mistake can be made.
    """
    key = without_names(made.job, title)
    own = plan(key)
    if to_put_right(own):
        return _to_find(own, name, title, story, (), MISTAKEN_IN)
    if mistakes:
        job, put = plant(own, mistakes, f"{name}/{title}", subjects)
        if not put:
            raise ValueError("no answer of those steps makes a mistake that stops the order; "
                             "name others, or none for all.")
        if len(put) < mistakes:
            raise ValueError(_too_few(len(put), subjects))
        return _to_find(plan(job), name, title, story, put, subjects)
    if not made.ready:
        raise ValueError(
            f"the job is no key, for it is not ready: {made.reasons[0].text} Settle that, or put "
            "mistakes in: then those are what there is to find.")
    return _to_enter(own, name, title, story)


def _too_few(count: int, subjects: Collection[str]) -> str:
    """That no more mistakes can be put in, and what to do."""
    all_steps = set(subjects) >= set(MISTAKEN_IN)
    where = "this job" if all_steps else ", ".join(subjects)
    fits = "fits" if count == 1 else "fit"
    return (f"only {counted(count, 'mistake')} {fits} into {where}: "
            f"{'' if all_steps else 'add a step, or '}take {count}.")


def _to_enter(made: Plan, name: str, title: str, story: str) -> Practice:
    """A practice job of a job that is ready: what its papers say is entered, and decided on."""
    metric = made.job.units is System.METRIC
    less = Outcome(damage=(Damage.METAL, Damage.MONEY, Damage.DAYS),
                   why="What is short has to be ordered again.")
    more = Outcome(damage=(Damage.METAL, Damage.MONEY), why="What is over is paid for.")
    decisions = [
        Decision(key=key, ask=ask, judged=Judged.FIGURE, of=figure, less=less, more=more, why=why,
                 tolerance=_METRIC.get(allowed, allowed) if metric else allowed, hints=hints)
        for figure, key, ask, allowed, why, hints in _PROPOSED if figure in made.figures
    ]
    if made.governing is not None:
        wrong = Outcome(damage=(Damage.DANGER, Damage.DAYS),
                        why="A coil made to the wrong limit does not fit, or is not carried.")
        decisions.append(Decision(
            key="limit", ask="What limits the longest coil?", judged=Judged.LIMIT,
            options=tuple(Option(key=limit.key, words=_LIMIT_NAMES.get(limit.key, limit.name),
                                 if_wrong=wrong) for limit in made.limits),
            why="The least of all the lengths that the limits allow governs.", reason=True,
            hints=_LIMIT_HINTS,
        ))
    return Practice(
        name=name, title=title, story=story, teaches=_teaches(decisions),
        lesson="Compare each step with the key's.", decisions=tuple(decisions), level=2,
        key=made.job, papers=_papers(made), stripped=_stripped(made),
    )


def _teaches(decisions: Iterable[Decision]) -> str:
    """What a practice job teaches, by what it asks."""
    names = [_TAUGHT[one.key] for one in decisions]
    last = names.pop()
    before = f"{', '.join(names)} and " if names else ""
    return f"From the papers: {before}{last}."


def _to_find(
    over: Plan, name: str, title: str, story: str, put: tuple[Planted, ...],
    subjects: Collection[str],
) -> Practice:
    """A practice job of a job with mistakes: it is handed over as it is, and they are found.

    put: those that were put in, for the trainer's notes. subjects: the steps that they are in.
    """
    mistakes = {finding.key: finding for finding in to_put_right(over)}
    options = [_right_option(finding) for finding in mistakes.values()]
    options += [_false_option(one) for one in only_said(
        over, f"{name}/{title}/not", subjects, len(mistakes), hidden=bool(put))]
    return Practice(
        name=name, title=title, story=story, level=2, key=over.job,
        papers=(*_papers(over, whole=True), *posters(over.job, options)),
        teaches="To find what is wrong in a job before it is ordered.",
        lesson="Hold each number to the paper that it comes from.",
        decisions=(Decision(
            key="wrong", ask="What in the job has to be put right before anything is ordered?",
            judged=Judged.STOPS, options=tuple(options), reason=True,
            why="Each of them stops the order, and stands among the findings with what to do.",
        ),),
        notes="".join(f"Put in: {one.answer.label} {one.says}, not {one.was}. " for one in put),
    )


def mistakes_to_find(made: Practice) -> int:
    """How many there are to find in a practice job of a job with mistakes; 0 in any other."""
    return sum(bool(option.hints) for decision in made.decisions if decision.judged is Judged.STOPS
               for option in decision.options)


_LONGEST_WORDS = 300
_ON_THE_ROAD = "haul."
_HELD = ("job.panel_too_long", "machine.load", "machine.diameter", "machine.inside", "machine.no_")
_PERMITTED = ("roof.", "panel.no_report", "panel.report_")
"""Begin the keys of stops that do not spoil all that is ordered: loads on the road, what a holder
or a site takes, what may be built. All others are of the metal itself."""
_UNTESTED = "panel.outside_report"
"""Begins the keys of stops for what was tested otherwise: what holds on the roof is not known."""


def _right_option(finding: Finding) -> Option:
    bought = not finding.key.startswith((_ON_THE_ROAD, *_HELD, *_PERMITTED))
    damage: tuple[Damage, ...] = (Damage.METAL, Damage.MONEY, Damage.DAYS)
    if finding.key.startswith(_UNTESTED):
        damage = (Damage.DANGER, *damage)
    elif finding.key.startswith(_ON_THE_ROAD):
        damage = (Damage.DANGER,)
    elif finding.key.startswith(_HELD):
        damage = (Damage.DANGER, Damage.DAYS)
    elif finding.key.startswith(_PERMITTED):
        damage = (Damage.MONEY, Damage.DAYS)
    return Option(
        key=finding.key, words=finding.what[:_LONGEST_WORDS], hints=_finding_hints(finding),
        if_wrong=Outcome(damage=damage, why=finding.why, of_order=bought))


def _false_option(one: Planted) -> Option:
    """What a mistake would be called that the job does not have."""
    return Option(
        key=one.finding.key, words=one.finding.what[:_LONGEST_WORDS],
        if_wrong=Outcome(damage=(), why=(
            f"The job does not say so: {one.answer.label} is {one.was}.")))


def _finding_hints(finding: Finding) -> tuple[str, ...]:
    """Where a mistake is, what is to be looked at, and why it matters."""
    steps = {step.key: step.title for step in STEPS}
    labels = [ANSWERS[key].label for key in finding.answers if key in ANSWERS]
    held = f"Look at {in_series(labels)}." if labels else "Look at what is missing there."
    return (f"Where: something is wrong on the step {steps.get(finding.step, finding.step)}.",
            f"What: {held}", f"Why: {finding.why}")


_TAUGHT = {"strip": "the strip", "coils": "the coils", "weight": "what they weigh",
           "limit": "what limits a coil"}


_ON_PAPER = ("roof", "metal", "panel", "machine", "coils", "haul")
"""Steps whose answers somebody who practices enters from the papers."""
_OF_SOMEBODY = frozenset((JobKey.NAME, JobKey.CLIENT, JobKey.SITE, JobKey.DESIGNER,
                          JobKey.BUILDING_USE, JobKey.UNITS))
"""Answers of the first step that are on no paper."""


_PAGE_OF_ITS_OWN = 3
"""Lines from which on a paper is apart from that of the planes: on a projector it is a page."""
_TABLED = (
    ("The metal weighs", Key.METAL_DENSITY),
    ("Its coating weighs, both sides", Key.METAL_COATING_MASS),
    ("Its coating is, both sides", Key.METAL_COATING_THICKNESS),
)
"""What a program looks up of a metal, and whoever works on paper has to be told."""


def _papers(made: Plan, *, whole: bool = False) -> tuple[Paper, ...]:
    """What the papers say. whole: with what the first step says, for a job to find mistakes in."""
    titles = {step.key: step.title for step in STEPS}
    found = []
    for step in (*(("job",) if whole else ()), *_ON_PAPER):
        lines = tuple(
            (answer.label, f"{{{answer.key}}}") for answer in asked(made.job)
            if answer.step == step and answer.value(made.job) is not None
            and answer.key not in _OF_SOMEBODY
        )
        if step == "metal":
            lines += tuple((label, f"{{{FIGURE}{key}}}") for label, key in _TABLED
                           if key in made.figures)
        if whole and step == "machine":
            lines += tuple(_tooling(made))
        planes = tuple(_planes(made)) if step == "roof" else ()
        if planes and len(lines) < _PAGE_OF_ITS_OWN:
            lines, planes = (*lines, *planes), ()
        if lines:
            found.append(Paper(title=titles[step], lines=lines))
        if planes:
            found.append(Paper(title="The planes, true lengths", lines=planes))
    return (*found, *(_coil_on_hand(at, coil) for at, coil in enumerate(made.job.on_hand)))


def _tooling(made: Plan) -> Iterator[tuple[str, str]]:
    """What the machine's sheet says it forms, whatever the job asks of it."""
    machine, units = made.job.machine, made.job.units
    if machine.forms:
        yield "Metals it forms", ", ".join(machine.forms)
    if machine.profiles:
        yield "Tooling it has", "; ".join(
            f"{one.seam}, leg {show(one.leg, Kind.WIDTH, units)}" for one in machine.profiles)


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
            ("Metal", "metal"), ("Metallic coating", "coating"), ("Thickness", "thickness"),
            ("Thickness is stated", "thickness_basis"), ("Width", "width"), *sizes,
            ("Length known by", "length_by"), ("Color", "color"), ("Color code", "color_code"),
            ("Lot", "lot"))
        if getattr(coil, name) not in (None, "")
    ))


def _stripped(made: Plan) -> tuple[str, ...]:
    return tuple(
        answer.key for answer in asked(made.job)
        if answer.step in _ON_PAPER and answer.value(made.job) is not None
    )
