"""What a plan holds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from coilwright.calc.roof.edges import Edge, EdgeKind
from coilwright.calc.roof.end_cuts import EndCut
from coilwright.calc.roof.layout import Panel
from coilwright.calc.roof.outline import bounds
from coilwright.calc.roof.shapes import Point
from coilwright.job.found_cuts import FoundCuts
from coilwright.job.job import Job
from coilwright.plan.held import NOT_KNOWN as NOT_KNOWN
from coilwright.plan.held import Fit as Fit
from coilwright.plan.held import LoadLine as LoadLine
from coilwright.plan.ledger import Lack
from coilwright.plan.purchases import BuyLine, idle_questions
from coilwright.plan.questions import Question, called_for
from coilwright.plan.ready import Readiness, Reason
from coilwright.plan.trim_result import TrimNest as TrimNest
from coilwright.plan.trim_result import TrimPattern as TrimPattern
from coilwright.plan.trim_result import TrimRow as TrimRow
from coilwright.values.figure import Figure
from coilwright.values.finding import Finding, Level
from coilwright.values.keys import row_key


@dataclass(frozen=True, slots=True)
class PanelGroup:
    """Panels of one ordered length [in] on one plane, all planes alike counted."""

    length: float
    count: int


@dataclass(frozen=True, slots=True)
class PanelRow:
    """Panels of one ordered length [in] with the same cuts at both ends, all alike counted.

    numbers: of these panels on one plane, from 1 at the left, as they are drawn. sides: left and
    right side once the ends are cut [in], None where an end is shaped.
    """

    length: float
    count: int
    low: EndCut
    high: EndCut
    numbers: tuple[int, ...]
    sides: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class PlanePlan:
    """One roof plane, laid out.

    outline and openings are true on the slope [in]; panels is empty while the coverage width
    is missing; groups counts ordered lengths over all `alike` planes, longest first. index: its
    place among the job's planes, None where the building shape made it. said: edges whose kind
    was set, by number.
    """

    number: int
    name: str
    pitch: float | None
    alike: int
    outline: tuple[Point, ...]
    openings: tuple[tuple[Point, ...], ...]
    edges: tuple[Edge, ...]
    panels: tuple[Panel, ...]
    groups: tuple[PanelGroup, ...]
    start: float | None
    end_widths: tuple[float, float] | None
    area: Figure
    index: int | None = None
    said: tuple[tuple[int, EdgeKind], ...] = ()
    listing: Callable[[], tuple[PanelRow, ...]] = field(default=tuple, compare=False, repr=False)

    @property
    def key(self) -> str:
        """The plane's key; its figures begin with it."""
        return row_key("plane", self.number)

    @property
    def uncovered(self) -> tuple[float, float]:
        """What panels leave bare at its left and right end, too narrow for one more [in]."""
        if not self.panels:
            return 0.0, 0.0
        left, _, right, _ = bounds(self.outline)
        return (min(panel.x0 for panel in self.panels) - left,
                right - max(panel.x1 for panel in self.panels))

    @property
    def panel_list(self) -> tuple[PanelRow, ...]:
        """The panels by ordered length and end cuts, longest first; worked out when asked for."""
        return self.listing()


@dataclass(frozen=True, slots=True)
class Cut:
    """`count` panels of one length [in] for one plane, cut from one coil."""

    plane: int
    name: str
    length: float
    count: int


@dataclass(frozen=True, slots=True)
class CoilPlan:
    """One coil to order and what is cut from it: nothing, where a pass winds one too many."""

    number: int
    length: Figure
    mass: Figure
    outside_diameter: Figure
    panels_length: Figure
    cuts: tuple[Cut, ...]


@dataclass(frozen=True, slots=True)
class StockCoil:
    """A strip of a coil on hand that is used, and what is cut from it.

    index: the coil's place among the job's coils on hand, from 0. strip: which strip of it, from
    1; strips: how many its width gives. key begins the keys of its figures. name: its tag, with
    the strip's number where there are several. length: the least it can be. taken: panels,
    spare, thread-up and tail. left: the least that is left over; too_short: not worth keeping.
    """

    index: int
    tag: str
    strip: int
    strips: int
    key: str
    name: str
    length: Figure
    usable: Figure
    panels_length: Figure
    taken: Figure
    left: Figure
    heaviest: Figure
    too_short: bool
    cuts: tuple[Cut, ...]


_SHOWN = 1 / 16
"""The finest step of a length that is shown [in]; in metric, millimeters, it is less than two."""


@dataclass(frozen=True, slots=True)
class Proof:
    """How good the cut plan is.

    proven: no other orders less metal, or as little in fewer new coils. least: no cut plan orders
    less; gap: this one is within so much of it, and gap_mass the same as weight.
    """

    proven: bool
    least: Figure
    gap: Figure
    gap_mass: Figure

    @property
    def is_least(self) -> bool:
        """Whether what lies above the least is less than any figure shows: sums of many lengths
        leave so much behind, and no search can win it."""
        return self.gap.value < _SHOWN / 2


@dataclass(frozen=True, slots=True)
class Limit:
    """One thing that limits a coil, as the longest length it allows."""

    key: str
    name: str
    words: str
    length: Figure


@dataclass(frozen=True, slots=True)
class AccountLine:
    """One part of the ordered weight: its share, its length of strip, and what it costs.

    What comes from coils on hand is a part below nothing; the shares are then of all metal used.
    money: None while the price is not known.
    """

    name: str
    mass: Figure
    share: Figure
    length: Figure | None = None
    money: Figure | None = None


@dataclass(frozen=True, slots=True)
class SlitStrand:
    """One strand of a pass: its width, and the coil of the order it is; None where it is trim's."""

    name: str
    width: Figure
    coil: int | None


@dataclass(frozen=True, slots=True)
class SlitPass:
    """One pass of the order: strands side by side, all as long as the pass.

    drop: width that becomes no strand, edge trim included. mass: of the master it takes.
    """

    key: str
    strands: tuple[SlitStrand, ...]
    length: Figure
    drop: Figure
    mass: Figure
    drop_mass: Figure


@dataclass(frozen=True, slots=True)
class SlitPlan:
    """One master width slit for what the job orders.

    strips: panel strips one master gives side by side. length, mass: of the master. width: of the
    drop, on the average of the length; share: of the master; drop_mass and money: what the drop
    weighs and costs. passes: those of the order; empty for a master that is only compared, and
    where the supplier slits to width: the drop is then the supplier's. coils: coils of the order.
    proven: no passes for these coils take less of this master. left_out: other coils for trim
    that are not slit from the masters; they come as they are.
    """

    key: str
    master: Figure
    strips: Figure
    length: Figure
    mass: Figure
    width: Figure
    share: Figure
    drop_mass: Figure
    money: Figure | None
    passes: tuple[SlitPass, ...] = ()
    coils: int | None = None
    proven: bool = True
    left_out: tuple[str, ...] = ()

    def alike(self) -> tuple[tuple[SlitPass, int], ...]:
        """Passes of one length and the same strands: the first of them, and how many there are."""
        found: dict[tuple[object, ...], list[SlitPass]] = {}
        for one in self.passes:
            key = (round(one.length.value, 6), tuple(
                (strand.name, strand.width.value) for strand in one.strands))
            found.setdefault(key, []).append(one)
        return tuple((same[0], len(same)) for same in found.values())


@dataclass(frozen=True, slots=True)
class Plan:
    """All that follows from a job. The same job gives the same plan.

    open_answers: needed and not given. guesses: answers that move the order and are guesses.
    from_stock: coils on hand that are used, in the order they are loaded, before the new ones.
    found: what a longer search found beyond the quick one, for the job to keep (`keep_found`).
    slits: the supplier's masters slit for this order, least metal first. loads: trailer first.
    buy: everything to buy, coils first.
    readiness: whether the order can go out, and why not. current: the plan of the answers as they
    are now, where this one is of an order as it was sent: its plates decide what carries a coil.
    """

    job: Job
    figures: Mapping[str, Figure]
    lacks: Mapping[str, Lack]
    planes: tuple[PlanePlan, ...]
    limits: tuple[Limit, ...]
    governing: Limit | None
    coils: tuple[CoilPlan, ...]
    fewest_coils: int | None
    fits: tuple[Fit, ...]
    account: tuple[AccountLine, ...]
    findings: tuple[Finding, ...]
    open_answers: tuple[str, ...]
    guesses: tuple[str, ...]
    from_stock: tuple[StockCoil, ...] = ()
    proof: Proof | None = None
    trim: tuple[TrimRow, ...] = ()
    nests: tuple[TrimNest, ...] = ()
    found: FoundCuts | None = None
    slits: tuple[SlitPlan, ...] = ()
    loads: tuple[LoadLine, ...] = ()
    buy: tuple[BuyLine, ...] = ()
    readiness: Readiness = Readiness()
    current: Plan | None = None

    @property
    def concealed(self) -> bool:
        """Whether it is practice that is not handed in, and keeps back what is to be found."""
        return self.readiness.concealed

    @property
    def ordered_slit(self) -> SlitPlan | None:
        """The master and the passes of the order; None where the supplier slits to width."""
        return next((slit for slit in self.slits if slit.passes), None)

    @property
    def stops(self) -> tuple[Finding, ...]:
        """Findings that must be settled before anything is ordered."""
        return tuple(f for f in self.findings if f.level is Level.STOP)

    @property
    def ready(self) -> bool:
        """Whether the order can go out: nothing holds it."""
        return self.readiness.ready

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """All that stands between the plan and an order; empty when it is ready."""
        return self.readiness.reasons

    @property
    def questions(self) -> tuple[Question, ...]:
        """The questions this job calls for, person by person: see `called_for`."""
        return called_for(self.job, {*self.open_answers, *self.guesses},
                          idle=idle_questions(self.buy))
