"""The request for a quote: one page a supplier can quote from, and what they are asked to answer.

It says what is wanted as the order will, without a price; weights are called about, since no coil
is made from it. Nothing private: no marks of guesses, no reasons, no client, not the job's name.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from coilwright.drawing.safe_text import one_line
from coilwright.job.answers.job import JobKey
from coilwright.job.choices import YesNo
from coilwright.job.names import who
from coilwright.job.plain_name import plain_name
from coilwright.job.questions import question_words
from coilwright.job.requests import Request
from coilwright.plan.order_limits import (
    coils_together,
    heaviest_coil,
    largest_coil,
    tight_package,
)
from coilwright.plan.ready import Reason, ReasonKind, where_to
from coilwright.plan.result import Plan
from coilwright.sheets.blocks import (
    Block,
    Inline,
    Sheet,
    Text,
    facts,
    heading,
    numbered,
    paragraph,
    stacked,
    strong,
    table,
)
from coilwright.sheets.names import value_text
from coilwright.sheets.wanted import (
    STATED,
    each,
    every_coil,
    in_one_line,
    metal_facts,
    or_room,
    trim_metal,
    unloading,
)
from coilwright.units import System
from coilwright.values.keys import row_key
from coilwright.words.in_units import with_units

_BASES = {System.US: "the pound, the foot, the square or the coil",
          System.METRIC: "the kilogram, the meter, the square meter or the coil"}
"""What suppliers price by, where the job's units are in use."""
_OTHER = {System.US: "gauge", System.METRIC: "thickness"}
"""By what sheet is called there: gauges are of US tables."""
_SUPPLIER = "supplier"
ASKED: tuple[str, ...] = tuple(f"{_SUPPLIER}.{name}" for name in (
    "price_basis", "price_holds", "minimum_order", "lead_time", "payment", "one_lot",
    "slitting", "heaviest_coil", "custom_color", "finish_warranty", "metal_warranty",
    "tested_profiles", "nearest_stock", "flaws", "technical_support",
))
"""The questions each supplier is asked, whatever another one said, where the job calls for them."""

_CUSTOM, _OF_STOCK = f"{_SUPPLIER}.custom_color", "Do you stock this color?"

_ALWAYS = frozenset((f"{_SUPPLIER}.tested_profiles",))
"""Asked of a supplier whatever the job says: a report decides for this one or for the next."""


def request_sheet(plan: Plan, to: str = "") -> Sheet:
    """The request; to: the supplier it is addressed to, one that was asked where it is recorded."""
    request = _request(plan, to)
    number = request.number if request else ""
    said = plan.job.job.currency  # who says none is quoted to as suppliers there do
    in_currency = f"in {said}, " if said else ""
    return Sheet(f"Request for quote {number}".rstrip(), stacked(
        facts("request", _head(plan, request, to)),
        facts("metal", metal_facts(plan, request=True)),
        facts(each(plan), every_coil(plan, request=True)),
        *_coils(plan),
        *trim_metal(plan, request=True),
        facts("delivery", _delivery(plan)),
        heading(2, "Please answer"),
        numbered(_questions(plan)),
        paragraph(f"Quote {in_currency}by {_BASES[plan.job.units]}, as you usually do, and "
                  "name slitting, set-up, skids, film, freight and every surcharge apart. Where "
                  f"you offer another {_OTHER[plan.job.units]}, width, coating or finish, say so."),
        paragraph(strong("This is no order."), " Coils are made from a written order only."),
    ), compact=True, draft=bool(makes_draft(plan)))


def makes_draft(plan: Plan) -> tuple[Reason, ...]:
    """What of what is wanted is not settled and no supplier can settle; none: it is no draft."""
    return tuple(reason for reason in plan.reasons
                 if not _theirs(reason) and not _untold(reason))


def _untold(reason: Reason) -> bool:
    """Whether it is open or a guess and reaches nothing a request says: how the coils ride home.

    What lifts at the site does: by it no package is heavier than the request allows.
    """
    match reason.kind:
        case ReasonKind.ASK | ReasonKind.GUESS:
            key = reason.key
        case ReasonKind.QUESTION:
            key = question_words(reason.key).answer
        case ReasonKind.STOP | ReasonKind.ACCEPT | ReasonKind.HEAD | ReasonKind.MISSING:
            return False
        case _:
            assert_never(reason.kind)
    return key.startswith("haul.") and not key.startswith("haul.site_")


def _theirs(reason: Reason) -> bool:
    """Whether it is for the supplier to say."""
    match reason.kind:
        case ReasonKind.QUESTION:
            return reason.key.startswith(f"{_SUPPLIER}.")
        case ReasonKind.ASK | ReasonKind.GUESS:
            return who(reason.key) == _SUPPLIER
        case ReasonKind.HEAD:
            return True
        case ReasonKind.STOP | ReasonKind.ACCEPT | ReasonKind.MISSING:
            return False
        case _:
            assert_never(reason.kind)


def _request(plan: Plan, to: str) -> Request | None:
    """What was recorded of asking this supplier; where none is named, of asking anybody, if all
    were asked under one number."""
    asked = plan.job.requests
    if to:
        mine = [one for one in asked if plain_name(one.supplier) == plain_name(to)]
        return mine[-1] if mine else None
    return asked[-1] if len({one.number for one in asked}) == 1 else None


def _head(plan: Plan, request: Request | None, to: str) -> Iterator[tuple[str, Text]]:
    order = plan.job.order
    addressed = request if to else None
    yield "Request number", or_room(request.number if request else "", narrow=True)
    date = plan.job.day(request.date) if request and request.date else ""
    yield "Date", or_room(date, narrow=True)
    if request is not None and request.answer_by is not None:
        yield "Answer by", or_room(plan.job.day(request.answer_by))
    yield "From", or_room(in_one_line(
        order.buyer, (addressed.by if addressed else "") or order.contact, order.phone,
        order.email))
    contact, email = (addressed.contact, addressed.email) if addressed else ("", "")
    yield "To", or_room(in_one_line(addressed.supplier if addressed else to, contact, email))


def _coils(plan: Plan) -> tuple[Block, ...]:
    """The coils, alike ones together."""
    system = plan.job.units
    counts: dict[tuple[str, ...], int] = {}
    for coil in plan.coils:
        least = plan.figures[row_key("coil", coil.number, "shortest")]
        row = (
            coil.length.text(system), f"about {coil.mass.text(system)}", least.text(system),
            heaviest_coil(plan, coil).text(system), largest_coil(plan, coil).text(system),
        )
        counts[row] = counts.get(row, 0) + 1
    if not counts:
        return (paragraph(strong("Coils:"), " not worked out yet."),)
    header = ("coils", "length of each", "weight of each", "min length", "max weight", "max OD")
    length, mass = (figure.text(system) for figure in coils_together(plan))
    count = f"{len(plan.coils):,} coil{'s' if len(plan.coils) > 1 else ''}"
    return (
        table(header, [(f"{many:,}", *row) for row, many in counts.items()], right=range(6),
              keep=True),
        paragraph(strong("Total of these coils:"),
                  f" {count}, {length}, about {mass}. One production lot.{_packed(plan)}"),
    )


def _packed(plan: Plan) -> str:
    """What max weight is of, where it is all that a package may weigh."""
    tight = tight_package(plan)
    if tight is None or not tight.gross:
        return ""
    return (f" Max weight {tight.heaviest.text(plan.job.units)} is gross, skid and packing "
            "included.")


def _delivery(plan: Plan) -> Iterator[tuple[str, Inline]]:
    order = plan.job.order
    yield "Ship to", or_room(one_line(where_to(plan.job)))
    yield "Receiving hours", or_room(order.hours)
    yield "Unloading, by us", unloading(plan)
    yield "Needed by", or_room(value_text(plan.job, JobKey.NEEDED_BY), narrow=True)


def _questions(plan: Plan) -> Iterator[str]:
    """What each supplier is asked, then what holds the order and has no line above to be said in.
    """
    asked = plan.questions
    called = {question.key for question in asked}
    always = [key for key in ASKED if key in called or key in _ALWAYS]
    holding = [question.key for question in asked
               if question.who == _SUPPLIER and question.urgent and question.key not in ASKED
               and question.words.answer not in STATED]
    stocked = plan.job.metal.custom_color is YesNo.NO
    for key in (*always, *holding):
        # Of a color that is no custom one each supplier is asked no more than whether it is there.
        yield _OF_STOCK if stocked and key == _CUSTOM else with_units(
            question_words(key).ask, plan.job.units)
