"""The lists of my shop: buyer, machines, rigs, suppliers; what is asked of each. No screens."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from coilwright.calc.metal import name_metals
from coilwright.job.answers import ANSWERS, Answer, Form
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.answers.money import CurrencyAnswer
from coilwright.job.from_shop import MACHINE_KEYS, RIG_KEYS
from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.shop import BUYER_FIELDS, Buyer, KeptMachine, Rig, Supplier
from coilwright.plan.haul.plausible import LOOK_AGAIN, implausible
from coilwright.sheets.machine import about_machine
from coilwright.units import System
from coilwright.wizard.lists.form import Action, EntryView, Line, ListView, Part, RowForm
from coilwright.wizard.lists.job_rows import JobRows
from coilwright.wizard.lists.measure import Measure
from coilwright.wizard.lists.typed import NameAnswer, text_line
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import BUYER, MACHINES, RIGS, SUPPLIERS, shop_of
from coilwright.wizard.widgets.columns import fit, pad
from coilwright.words import words
from coilwright.words.counting import counted

Row = TypeVar("Row")
_UNDO = Action(name="undo", keys="u,ctrl+z", label="Undo", tooltip="Take the last change back",
               word="u undo")
_UNDO_TYPED = Action(name="undo", keys="ctrl+z", label="Undo", tooltip="Take the last change back")


def _name(help_line: str) -> Measure[Any]:
    return Measure(name="name", label="Name", form=Form.TEXT, spec=NameAnswer, needed=True,
                   empty="Unnamed", help=help_line)


def _actions(one: str) -> tuple[Action, ...]:
    return (
        Action(name="add", keys="a,insert", label="Add", tooltip=f"One more {one}", word="a add"),
        Action(name="open", keys="", label="Change", tooltip=f"Change the {one}",
               word="Enter change"),
        Action(name="copy", keys="c", label="Copy", tooltip=f"One more {one} like this one",
               word="c copy"),
        Action(name="delete", keys="d,delete", label="Delete", word="d delete",
               tooltip=f"Take the {one} out of the shop; u brings it back"),
        _UNDO,
    )


def _lines(rows: Callable[[Job], Sequence[Any]]) -> Callable[[Any], list[Line]]:
    def lines(opened: JobRows) -> list[Line]:
        return [Line(index, index, row.name, row)
                for index, row in enumerate(rows(opened.session.job))]

    return lines


def _show(
    said: Callable[[Any, System], str]
) -> Callable[[Any, Sequence[Line], int], list[Sequence[Part]]]:
    def show(opened: Any, lines: Sequence[Line], width: int) -> list[Sequence[Part]]:
        units = opened.session.job.units
        return [(f" {pad(escape_controls(line.name), 24)} ",
                 (fit(escape_controls(said(line.row, units)), max(8, width - 27)), "dim"))
                for line in lines]

    return show


def _form(
    key: str, one: str, place: Any, rows: Callable[[Job], Sequence[Any]],
    measures: tuple[Measure[Any], ...], new: Callable[[Job], Any],
    said: Callable[[Any, System], str], about: Callable[[Any, System], Sequence[str]], hint: str,
    follows: Callable[[Any, System], Sequence[str]] | None = None,
) -> RowForm[Any]:
    """One of the lists: all differ only in what a row is. follows: said below a row's boxes."""
    many = f"{one}s"

    def said_below(opened: Any, index: int, _width: int) -> list[str]:
        assert follows is not None
        job = opened.session.job
        return [escape_controls(text) for text in follows(rows(job)[index], job.units)]

    return RowForm(
        key=key, place=place, measures=measures, lines=_lines(rows), show=_show(said),
        actions=_actions(one), name=lambda job, index: str(rows(job)[index].name), new=new,
        added=f"{one.capitalize()} added", copied="{name} copied",
        deleted="{name} is out of the shop; u brings it back",
        empty=f"   none yet: a adds one; {hint}", no_row=f"There is no {one} yet; a adds one.",
        view=ListView(
            title=lambda _opened: f"My {many}",
            hint=lambda _opened: "Kept across jobs; each job keeps its own copy. Escape closes",
            about=lambda opened, line, _width: [] if line is None
            else [escape_controls(text) for text in about(line.row, opened.session.job.units)],
            scrolls=True,
        ),
        entry=EntryView(
            title=lambda opened, index: escape_controls(rows(opened.session.job)[index].name),
            label_width=27, keys=(_UNDO_TYPED,), about=None if follows is None else said_below,
            hint="All is kept as you type; Ctrl+Z undoes; Escape closes",
        ),
    )


# -- machines and rigs ---------------------------------------------------------------------


def _of_answers(
    keys: Sequence[str], always: frozenset[str], job_of: Callable[[Any], Job],
    changed: Callable[[Any, Job], Any],
) -> tuple[Measure[Any], ...]:
    """The answers of a step, asked of a row of the shop. What is typed here is sure."""

    def measure(key: str) -> Measure[Any]:
        answer = ANSWERS[key]

        def put(row: Any, value: Any) -> Any:
            sure = {*row.sure, key} if value is not None else {*row.sure} - {key}
            made = changed(row, answer.put(job_of(row), value))
            return dataclasses.replace(made, sure=tuple(sorted(sure)))

        return Measure(
            name=key.partition(".")[2], label=answer.label, help=words(key).help,
            form=answer.form, kind=answer.kind, bare=answer.bare, choices=answer.choices,
            zero=answer.zero, negative=answer.negative, low=answer.low, high=answer.high,
            get=lambda row: answer.value(job_of(row)), put=put,
            applies=None if key in always else lambda _job, row, _key: (
                row is not None and answer.asked(job_of(row))),
            offered=lambda _job, row, _key: row is not None and answer.offered(job_of(row)),
            unasked=name_metals(words(key).unasked),
        )

    return tuple(measure(key) for key in keys)


_PLATE = tuple(
    key for key in MACHINE_KEYS if hasattr(Machine(), key.partition(".")[2])
    and key != MachineKey.NAME
)
"""What holds for a machine whatever it forms; thicknesses and profiles are saved from a job."""


def _machine_text(kept: KeptMachine, _system: System) -> str:
    """How sure it is, which its facts do not say."""
    given = [key for key in _PLATE if ANSWERS[key].value(Job(machine=kept.machine)) is not None]
    guessed = sum(key not in kept.sure for key in given)
    if guessed:
        return f"{counted(guessed, 'value')} nobody held against the plate yet."
    return "All values that are there are sure." if given else "Nothing of it is known yet."


def _rig_text(rig: Rig, system: System) -> str:
    job = Job(haul=rig.haul)
    parts = [
        f"{_in_a_row(ANSWERS[key].label)} {ANSWERS[key].shown(value, system)}"
        for key in (HaulKey.TRAILER_GVWR, HaulKey.HITCH, HaulKey.TOW_GVWR, HaulKey.SHOP_BY,
                    HaulKey.SITE_BY)
        if (value := ANSWERS[key].value(job)) is not None
    ]
    return ", ".join(filter(None, (rig.about, *parts)))


def _in_a_row(label: str) -> str:
    """A label within a line: in small letters, but for letters that are a name, such as ID."""
    return " ".join(word if word.isupper() else word.lower() for word in label.split())


def _rig_about(rig: Rig, system: System) -> list[str]:
    job = Job(haul=rig.haul)
    return [
        f"{ANSWERS[key].label}: {ANSWERS[key].shown(value, system)}"
        + ("" if key in rig.sure else ", a guess")
        for key in RIG_KEYS if (value := ANSWERS[key].value(job)) is not None
    ] or ["Nothing of it is known yet; Enter opens it."]


def _rig_implausible(rig: Rig, system: System) -> list[str]:
    """What of it no plate of its kind says: told where it is typed, before a job rests on it."""
    found = tuple(implausible(Job(units=system, haul=rig.haul)))
    if not found:
        return []
    also = "; ".join(ANSWERS[one.key].label for one in found[1:])
    return [f"CARE {found[0].what} {f'Also odd: {also}. ' if also else ''}{LOOK_AGAIN}"]


MY_MACHINES: RowForm[KeptMachine] = _form(
    "my-machine", "machine", MACHINES, lambda job: shop_of(job).machines,
    (_name("What it is called here; a job picks it by this name."),
     *_of_answers(_PLATE, frozenset(_PLATE), lambda row: Job(machine=row.machine),
                  lambda row, job: dataclasses.replace(row, machine=job.machine))),
    lambda _job: KeptMachine(name="New machine"),
    _machine_text, lambda kept, system: about_machine(kept.machine, system),
    "a machine typed in a job is saved from its Machine step (Ctrl+S), with metals and profiles",
)
_ALWAYS = frozenset((HaulKey.TIE_OVER_LIMIT, HaulKey.TIE_DIRECT_LIMIT))
MY_RIGS: RowForm[Rig] = _form(
    "my-rig", "rig", RIGS, lambda job: shop_of(job).rigs,
    (_name("What it is called here; a job picks it by this name."),
     text_line("about", "About", "A word on it, such as which trailer and which truck."),
     *_of_answers(RIG_KEYS, _ALWAYS, lambda row: Job(haul=row.haul),
                  lambda row, job: dataclasses.replace(row, haul=job.haul))),
    lambda _job: Rig(name="New rig"), _rig_text, _rig_about,
    "a rig typed in a job is saved from its Haul step (Ctrl+S)", _rig_implausible,
)


# -- suppliers and the buyer ---------------------------------------------------------------


def _supplier_about(one: Supplier, _system: System) -> list[str]:
    return [f"{label}: {text}" for label, text in (
        ("Contact", one.contact), ("E-mail", one.email), ("Phone", one.phone),
        ("Supplies", one.supplies)) if text]


MY_SUPPLIERS: RowForm[Supplier] = _form(
    "my-supplier", "supplier", SUPPLIERS, lambda job: shop_of(job).suppliers,
    (_name("The company, as it stands on a request and an order."),
     text_line("contact", "Contact", "The person you talk to."),
     text_line("email", "E-mail", "Where a request for a quote is sent."),
     text_line("phone", "Phone", "With its extension."),
     text_line("supplies", "What they supply", "Metals, colors, slitting, from where.")),
    lambda _job: Supplier(name="New supplier"),
    lambda one, _system: ", ".join(filter(None, (one.supplies, one.contact, one.phone))),
    _supplier_about,
    "suppliers here are picked for requests and orders",
)
_BUYER_HELP = {
    "company": "Who buys, as it stands on an order.",
    "contact": "The person a supplier asks for.",
    "phone": "Where that person is reached.",
    "email": "Where quotes and confirmations are sent.",
    "bill_to": "Where the bill goes, on one line; empty where it is the same.",
    "ship_to": "Where coils are delivered, on one line; a job can name another place.",
    "hours": "When somebody is there to receive them, such as Mon to Fri, 7 to 3.",
    "unloading": "What takes a coil off a delivery truck there, and how much it lifts.",
    "currency": "What new jobs have prices in, by its code, such as EUR; empty for US dollars.",
}
MY_BUYER: RowForm[Buyer] = RowForm(
    key="my-buyer", place=BUYER,
    measures=tuple(
        text_line(name, label, _BUYER_HELP[name],
                  CurrencyAnswer if name == "currency" else Answer)
        for name, label in BUYER_FIELDS.items()),
    lines=lambda opened: [Line(0, 0, "Buyer", shop_of(opened.session.job).buyer)],
    show=_show(lambda row, _system: row.company), actions=(_UNDO,),
    name=lambda _job, _index: "Buyer", empty="", no_row="",
    entry=EntryView(
        title=lambda _opened, _index: "Who buys, and where it is delivered", keys=(_UNDO_TYPED,),
        hint="All is kept as you type; new jobs start with it; Escape closes",
    ),
)
"""The lists of the shop; the buyer is a list of one."""
