"""A job: what was answered, and how sure each answer is. Nothing here is computed."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from typing import Literal

from coilwright.job.attempt import Attempt
from coilwright.job.choices import YesNo
from coilwright.job.coils import CoilSection
from coilwright.job.fields import (
    STRICT,
    Length,
    Temperature,
)
from coilwright.job.found_cuts import FoundCuts
from coilwright.job.haul import HaulSection
from coilwright.job.life import Life
from coilwright.job.machine import Machine
from coilwright.job.metal import (
    MetalSection,
)
from coilwright.job.order import Order
from coilwright.job.panel import PanelSection
from coilwright.job.quotes import Currency, OwnAnswer, QuoteSection
from coilwright.job.receiving import Arrival
from coilwright.job.requests import Request
from coilwright.job.roof import RoofSection
from coilwright.job.stock import CoilOnHand
from coilwright.job.trim import TrimSection
from coilwright.units import System, show_date
from coilwright.units.currency import DOLLARS
from coilwright.values.standing import Standing


@dataclass(frozen=True, kw_only=True, slots=True)
class JobSection:
    """Who, what, by when.

    currency: that all prices of the job are in; None: US dollars. A price in a file stands as
    `USD/lb` in each of them, which then means the job's own.
    """

    __pydantic_config__ = STRICT

    name: str | None = None
    client: str | None = None
    site: str | None = None
    building_use: str | None = None
    needed_by: datetime.date | None = None
    designer: str | None = None
    engineered: YesNo | None = None
    trim_in_house: YesNo | None = None
    salt_water: YesNo | None = None
    coldest: Temperature | None = None
    hottest: Temperature | None = None
    longest_handled: Length | None = None
    currency: Currency | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """What was said to a question: a reply, where it fills no answer, or why it is waived.

    settled: whether the reply settles it. agrees: whether it agrees with what the order says, as
    the user said of a reply whose words do not tell it. waived: why the order may go out without an
    answer; empty while it may not. of: the answers that the question's condition looks at, as they
    were.
    """

    __pydantic_config__ = STRICT

    text: str = ""
    settled: bool = False
    agrees: YesNo | None = None
    waived: str = ""
    of: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class Acceptance:
    """A finding that somebody takes on knowingly: who, why, and what it said then.

    of: what the finding was of (`Finding.accept`); once that changes it is no longer accepted.
    words: what it read then; empty in files of earlier versions.
    """

    __pydantic_config__ = STRICT

    by: str
    reason: str
    of: str
    words: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Job:
    """One job, one order: one metal, one profile, one machine.

    standing: by answer key, for answers that are not sure. typed: by answer key, what was typed
    last and could not be read yet, kept so that nothing typed is lost. questions: replies by
    question key, for questions that fill no answer. on_hand: the coils on hand this job may use, as
    they were when it took them. on_hand_planes: by tag, the names of the planes that such a coil is
    kept to: they are cut from it alone, and nothing else is (`Trim`: rows of blanks for trim).
    found_cuts: what a longer search for the least metal found, used while it fits the job. quotes:
    what suppliers quoted. order: what stands at the head of the order. life: how far the order is,
    and what was sent. requests: which suppliers were asked for a quote. arrived: the coils of the
    order as they came. confirmed: by answer key, what a confirmation was given for
    (`job.confirmations`). by_quote: by answer key, whose quote it is from; before_quote: what stood
    there until then. accepted: by finding key, what somebody takes on knowingly. put_in_stock: by
    the key of a coil (`coil.1`, `on_hand.1`) that was put back after the run, the tag under which
    what was left of it went to stock: of a coil on hand its own, though nothing was left; empty of
    a new one of which nothing was. put_back_on: the day it was. practice: whose attempt at which
    practice job it is; until that is handed in, its plan keeps back what is to be found.
    """

    __pydantic_config__ = STRICT

    format: Literal["coilwright-job"] = "coilwright-job"
    version: Literal[2] = 2
    units: System = System.US
    job: JobSection = JobSection()
    roof: RoofSection = RoofSection()
    metal: MetalSection = MetalSection()
    panel: PanelSection = PanelSection()
    machine: Machine = Machine()
    trim: TrimSection = TrimSection()
    coils: CoilSection = CoilSection()
    haul: HaulSection = HaulSection()
    quotes: QuoteSection = QuoteSection()
    order: Order = Order()
    life: Life = Life()
    requests: tuple[Request, ...] = ()
    on_hand: tuple[CoilOnHand, ...] = ()
    on_hand_planes: dict[str, tuple[str, ...]] = field(default_factory=dict)
    found_cuts: FoundCuts | None = None
    arrived: tuple[Arrival, ...] = ()
    standing: dict[str, Standing] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    questions: dict[str, Asked] = field(default_factory=dict)
    confirmed: dict[str, dict[str, str]] = field(default_factory=dict)
    by_quote: dict[str, str] = field(default_factory=dict)
    before_quote: dict[str, OwnAnswer] = field(default_factory=dict)
    accepted: dict[str, Acceptance] = field(default_factory=dict)
    put_in_stock: dict[str, str] = field(default_factory=dict)
    put_back_on: datetime.date | None = None
    practice: Attempt | None = None
    about: str = ""

    def __post_init__(self) -> None:
        quotes = self.quotes.in_job_currency(
            self.job.currency or (DOLLARS if self.units is System.US else ""))
        if quotes is not self.quotes:
            object.__setattr__(self, "quotes", quotes)

    @property
    def title(self) -> str:
        """The job's name, or words that stand in for it."""
        return self.job.name or "Unnamed job"

    def day(self, day: datetime.date) -> str:
        """A day as the job shows it: as people write it where its units are used."""
        return show_date(day, self.units)

    @property
    def currency(self) -> str:
        """The code of the currency that its prices are in."""
        return self.job.currency or DOLLARS

    @property
    def practicing(self) -> bool:
        """Whether it is practice that is not handed in yet."""
        return self.practice is not None and self.practice.handed_in is None
