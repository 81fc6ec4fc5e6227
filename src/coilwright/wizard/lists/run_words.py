"""After the run, in words: what is left of a coil on paper, and what seems to be in stock already.

No screens here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import assert_never

from coilwright.job.answers.coils import CoilsKey
from coilwright.job.job import Job
from coilwright.job.life import OrderState
from coilwright.job.receiving import Arrival, coil_name
from coilwright.job.stock import CoilOnHand, LengthBy, Stock
from coilwright.plan.coils.after_run import (
    exceeded_length,
    is_on_its_way,
    is_too_much,
    tags_of_new,
    too_short_to_keep,
)
from coilwright.plan.coils.run import RunCoil, lacks_of_list, left_of
from coilwright.plan.receiving.report import ArrivalReport
from coilwright.plan.result import Plan
from coilwright.store.put_elsewhere import SameCoil
from coilwright.units import Kind, System, show
from coilwright.wizard.lists.coil_draft import length_text
from coilwright.wizard.literal import escape_controls
from coilwright.words.counting import capitalized, in_series


def change_lines(before: Stock, after: Stock, system: System) -> list[str]:
    """What differs, a line a coil."""
    lines = []
    for coil in before.coils:
        now = after.find(coil.tag)
        if now is None:
            lines.append(f"{escape_controls(coil.tag)} is used up: taken out of stock")
        elif now != coil:
            lines.append(f"{escape_controls(coil.tag)}: {length_text(coil, system)} in stock, "
                         f"then {_left_text(now, system)}")
    lines += [f"{escape_controls(coil.tag)} goes into stock with {_left_text(coil, system)}"
              for coil in after.coils if before.find(coil.tag) is None]
    return lines


def short_lines(before: Stock, after: Stock, plan: Plan) -> list[str]:
    """A word on leftovers that go to stock though they are too short to keep, by the job; how short
    one is at the least may be by the spare, which is seldom all used."""
    keep = plan.figures.get(CoilsKey.KEEP_LENGTH)
    if keep is None:
        return []
    short = [f"{escape_controls(coil.tag)}, {length_text(coil, plan.job.units)}"
             for coil in too_short_to_keep(before, after, keep)]
    return [f"Too short to keep ({keep.label.casefold()}: {keep.text(plan.job.units)}), and in "
            f"stock all the same: {'; '.join(short)}. 0 as what is left keeps one out."
            ] if short else []


def _left_text(coil: CoilOnHand, system: System) -> str:
    """What goes back of a coil; on paper more was left where nobody measured it."""
    least = "" if coil.length_by is LengthBy.MEASURED else (
        ", the least that can be left: not measured")
    return f"{length_text(coil, system)}{least}"


def twice_lines(
    plan: Plan, stock: Stock, measured: Mapping[str, float],
    came: Mapping[int, Arrival] | None = None, put: Mapping[str, str] | None = None,
) -> list[str]:
    """A word on new coils whose leftover seems to be in stock already, and not from this job."""
    ours = {key for key, tag in (put or {}).items() if stock.find(tag) is not None}
    tags = [tag for key, tag in tags_of_new(plan, came) if measured.get(key) and key not in ours]
    there = [escape_controls(tag) for tag in tags if stock.find(tag) is not None]
    return [f"In stock already, this would be one more: {', '.join(there)}"] if there else []


def elsewhere_words(
    elsewhere: Mapping[str, SameCoil], names: Mapping[str, str], *, in_place: bool
) -> str:
    """That another job's file has these coils of the same order, so that one of the two is a copy
    of the other; the same key again puts them back all the same.

    elsewhere: by coil key; names: what each is called here; in_place: what the other put in stock
    is what this one puts right.
    """
    files = [*dict.fromkeys(escape_controls(elsewhere[key].file) for key in sorted(elsewhere))]
    many = len(files) > 1
    put = [escape_controls(elsewhere[key].tag) for key in sorted(elsewhere) if elsewhere[key].tag]
    what = (f"{'say' if many else 'says'} {'as well ' if in_place else ''}that it put "
            f"{in_series(put)} in stock" if put else
            f"{'have' if many else 'has'} {in_series([names[key] for key in sorted(elsewhere)])} "
            "of this order too")
    then = ("puts this length in its place" if in_place else
            "puts it in stock once more" if put else
            "puts it back from this one: then put nothing back from the other")
    return (f"{in_series(files)} {what}: one of these files is a copy of the other. "
            f"Ctrl+S again {then}.")


def more_lines(
    plan: Plan, coils: Sequence[RunCoil], measured: Mapping[str, float],
    came: Mapping[str, ArrivalReport],
) -> list[str]:
    """A word on each coil of which more is measured than can be left where all its panels were cut.
    """
    lines = []
    for coil in coils:
        left, one = measured.get(coil.key), came.get(coil.key)
        if left is not None and is_too_much(plan, coil, one, left):
            paper = left_of(coil, one) or coil.left
            lacks = lacks_of_list(paper)
            said = (paper.text(plan.job.units) if lacks is None else
                    f"{show(lacks, Kind.LENGTH, plan.job.units)} short of its list")
            lines.append(
                f"{capitalized(short_name(coil))}: {show(left, Kind.LENGTH, plan.job.units)} is "
                "more than can be left if all its panels were cut: on paper it is "
                f"{said}. Measure again, or see which panels are still to "
                "be cut.")
    return lines


def longer_words(
    plan: Plan, coils: Sequence[RunCoil], measured: Mapping[str, float],
    came: Mapping[str, ArrivalReport],
) -> str:
    """Of which coils more is measured than they ever were; empty for none."""
    said, units = [], plan.job.units
    for coil in coils:
        left, one = measured.get(coil.key), came.get(coil.key)
        most = None if left is None else exceeded_length(plan, coil, one, left)
        if left is not None and most is not None:
            own = short_name(coil) if one is None or not one.arrival.is_tagged else (
                escape_controls(one.arrival.tag))
            length = show(most, Kind.LENGTH, units)
            at_most = "" if length == show(coil.length.value, Kind.LENGTH, units) else "at most "
            said.append(f"{show(left, Kind.LENGTH, units)} is more than {own} was "
                        f"({at_most}{length}).")
    return " ".join(said)


def out_lines(out: Sequence[RunCoil], job: Job) -> list[str]:
    """Why nothing is asked of these coils: on hold in Receiving, gone again, or not there."""
    by_reason: dict[str, list[str]] = {}
    for coil in out:
        by_reason.setdefault(_why_out(coil, job), []).append(coil.title)
    return [f"{escape_controls(capitalized('; '.join(names)))}: {why}."
            for why, names in by_reason.items()]


def _why_out(coil: RunCoil, job: Job) -> str:
    if coil.came:
        return "ON HOLD in Receiving, so nothing of it goes to stock before that is settled"
    if coil.gone:
        return (f"{coil.gone[-1].verdict}, and nothing has come in its place, so nothing of it "
                "goes to stock")
    if not is_on_its_way(job):
        return "not come, by Receiving, so nothing of it goes to stock"
    return ("still on its way, as the order is not marked delivered and nothing of it is in "
            "Receiving, so nothing of it goes to stock. Enter there what came (Coils step), or "
            "mark it delivered (l on the Summary, then n)")


def nothing_came(job: Job) -> str:
    """That nothing of an order that is here is entered in Receiving, or that none was sent; empty
    for any other."""
    match job.life.state:
        case OrderState.DELIVERED | OrderState.RUN:
            return "" if job.arrived else (
                "Nothing of the order is entered in Receiving: a coil that has not come has "
                "nothing to put back.")
        case OrderState.DRAFT | OrderState.OUT:
            return "" if job.arrived else (
                "No order of this job was sent, by its life: only coils that did come have "
                "anything to put back.")
        case OrderState.ORDERED:
            return ""
        case _:
            assert_never(job.life.state)


def short_name(coil: RunCoil) -> str:
    """A coil in the room beside a box: one on hand by its tag, a new one by its number; by its tag
    and lot where it came as several."""
    number = coil.order_number
    if coil.is_part and (own := coil_name(None, coil.came[0].arrival)):
        return escape_controls(own)
    return escape_controls(coil.name)[:24] if number is None else coil_name(number)


def on_paper(coil: RunCoil, plan: Plan) -> str:
    """What is left of a new coil on paper: by the length of what came, else as ordered."""
    if coil.is_part and not coil.batches:
        return "Its list could not be shared out to what came: on paper nothing is known of it."
    if len(coil.came) > 1:
        return "On paper it goes by the length of the coil that was run."
    own = coil_name(None, *(one.arrival for one in coil.came if one.arrival.is_tagged))
    words = paper_words(coil, next(iter(coil.came), None), plan)
    return f"{escape_controls(own[:1].upper() + own[1:])}. {words}" if own else words


def paper_words(coil: RunCoil, came: ArrivalReport | None, plan: Plan) -> str:
    """What is left on paper of a coil, or how far it is short of its list, and by what."""
    left = left_of(coil, came)
    if came is None or came.counted is None or left is None:
        left, by = coil.left, "by the order"
    else:
        by = came.counted.name
    if (lacks := lacks_of_list(left)) is not None:
        short = show(lacks, Kind.LENGTH, plan.job.units)
        return f"On paper it is {short} short of its list, {by}."
    return f"On paper {left.text(plan.job.units)} is left, {by}."
