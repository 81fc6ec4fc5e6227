"""What a job takes from the shop, and what the shop keeps of a job: machine, rig, order head."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator
from typing import Any

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.job import JobKey
from coilwright.job.answers.machine import MACHINE, MachineKey
from coilwright.job.answers.spec import marked_key
from coilwright.job.delivery import same_place_again
from coilwright.job.edit import give
from coilwright.job.fields import LONGEST_NAME
from coilwright.job.haul import HaulSection
from coilwright.job.job import Job
from coilwright.job.machine import Machine
from coilwright.job.order import Order
from coilwright.job.plain_name import plain_name
from coilwright.job.sending import request_of
from coilwright.job.shop import (
    BUYER_FIELDS,
    Buyer,
    KeptMachine,
    Rig,
    Shop,
    Supplier,
    find,
    put,
)
from coilwright.values.keys import LIFT_PLACES, LiftPart, LiftPlace, lift_key
from coilwright.values.standing import Standing

UNNAMED = "Supplier"
"""What a supplier is called until somebody types the name."""
MACHINE_KEYS: tuple[str, ...] = tuple(answer.key for answer in MACHINE)
_BY_METAL = frozenset((MachineKey.THINNEST, MachineKey.THICKEST))
_BY_PROFILE = frozenset((
    MachineKey.PROFILE_NARROWEST, MachineKey.PROFILE_WIDEST, MachineKey.PROFILE_TAKE_UP,
    MachineKey.PROFILE_LOWEST_PITCH,
))

ROAD_KEYS: tuple[str, ...] = (
    HaulKey.TRAILER_GVWR, HaulKey.AXLES, HaulKey.AXLE_RATING, HaulKey.HITCH,
    HaulKey.HITCH_RATING, HaulKey.TONGUE_WEIGHT_RATING, HaulKey.TOW_WEIGHT, HaulKey.TOW_GVWR,
    HaulKey.TOW_PULL, HaulKey.GCWR, HaulKey.HITCH_TO_AXLES,
    HaulKey.EMPTY_TONGUE_WEIGHT, HaulKey.RACK_AT, HaulKey.GEAR_AT, HaulKey.TIE_OVER_LIMIT,
    HaulKey.TIE_DIRECT_LIMIT,
)
"""What is on the plates and tags of trailer, tow vehicle and tie-downs."""
_GEAR: tuple[LiftPart, ...] = (
    "by", "fork_capacity", "operating_capacity", "tipping_load", "fork_center", "face_to_axle",
    "at_face", "legs", "sling_hitch", "hitch_limit", "by_factors", "leg_rating", "sling_length",
    "attachment",
)
"""What is on the plates and tags of lifting gear, and whether it takes a coil against its fork
face; distances and angles belong to one load."""
_SEEN_ANEW = frozenset(lift_key(place, "at_face") for place in LIFT_PLACES)
"""What is habit and no plate: a guess on every job until somebody sees the coil so."""
GEAR_KEYS: dict[LiftPlace, tuple[str, ...]] = {
    place: tuple(lift_key(place, name) for name in _GEAR) for place in LIFT_PLACES
}
RIG_KEYS: tuple[str, ...] = (*ROAD_KEYS, *GEAR_KEYS["site"], *GEAR_KEYS["shop"])
"""The answers that belong to a rig, whatever it carries."""


def start(job: Job, shop: Shop) -> Job:
    """A new job as the shop has it: the head of its order, the currency of its prices, and machine
    and rig where there is one alone to choose."""
    job = with_buyer(job, shop.buyer)
    if shop.buyer.currency:
        job = give(job, JobKey.CURRENCY, shop.buyer.currency)
    if len(shop.machines) == 1:
        job = with_machine(job, shop.machines[0])
    if len(shop.rigs) == 1:
        job = with_rig(job, shop.rigs[0])
    return job


# -- the head of the order -----------------------------------------------------------------


def with_head(job: Job, shop: Shop) -> Job:
    """The job with what the shop knows of an order's head: the buyer, and whom to call at the
    supplier that it goes to. What stands there already is kept."""
    return with_supplier_known(with_buyer(job, shop.buyer), shop)


def with_supplier_known(job: Job, shop: Shop) -> Job:
    """The job with whom to call at the supplier that its order goes to, where the shop knows it;
    what stands there already is kept."""
    order, supplier = job.order, find(shop.suppliers, job.order.supplier)
    if supplier is None:
        return job
    return dataclasses.replace(job, order=dataclasses.replace(
        order, attention=order.attention or supplier.contact,
        supplier_phone=order.supplier_phone or supplier.phone))


def with_their_contact(job: Job, before: Order, shop: Shop) -> Job:
    """The job whose order goes to another supplier than before, with that one's person and phone,
    as the job or the shop knows them, and else with none: nobody is called at the other's number.

    What was typed since, and is not known to be another's, stays as it is.
    """
    order = job.order
    if not before.supplier.strip() or plain_name(before.supplier) == plain_name(order.supplier):
        return job
    others = {plain_name(name) for name in (
        before.supplier, *(one.name for one in shop.suppliers),
        *(one.supplier for one in job.requests),
        *(one.supplier for one in job.quotes.received))}
    others.discard(plain_name(order.supplier))
    new = {}
    for name, said in contacts_known(job, shop, order.supplier).items():
        theirs = getattr(order, name) == getattr(before, name) or any(
            getattr(order, name) in contacts_known(job, shop, other)[name] for other in others)
        if theirs:
            new[name] = next(iter(said), "")
    made: Order = dataclasses.replace(order, **new)  # type: ignore[arg-type]
    return dataclasses.replace(job, order=made)


def contacts_known(job: Job, shop: Shop, supplier: str) -> dict[str, tuple[str, ...]]:
    """The persons and phones that a job's papers and the shop know of a supplier, by their line in
    the order's head, the best known first."""
    known = [one for one in (request_of(job, supplier), find(shop.suppliers, supplier))
             if one is not None]
    quoted = (one.by for one in job.quotes.received
              if plain_name(one.supplier) == plain_name(supplier))
    return {"attention": tuple(filter(None, (*quoted, *(one.contact for one in known)))),
            "supplier_phone": tuple(filter(None, (one.phone for one in known)))}


def with_buyer(job: Job, buyer: Buyer) -> Job:
    """The job with the buyer at the head of its order; what stands there already is kept."""
    ours = {
        "buyer": buyer.company, "contact": buyer.contact, "phone": buyer.phone,
        "email": buyer.email, "bill_to": buyer.bill_to, "ship_to": buyer.ship_to,
        "hours": buyer.hours, "unloading": buyer.unloading,
    }
    empty = {name: text for name, text in ours.items() if not getattr(job.order, name)}
    order: Order = dataclasses.replace(job.order, **empty)  # type: ignore[arg-type]
    return dataclasses.replace(job, order=order)


_HEAD_FIELDS = {
    "company": "buyer", "contact": "contact", "phone": "phone", "email": "email",
    "bill_to": "bill_to", "ship_to": "ship_to", "hours": "hours", "unloading": "unloading",
}
"""The fields of the buyer, and what they are called at the head of an order."""


def with_head_kept(shop: Shop, job: Job) -> Shop:
    """The shop with what it lacks of a job's papers: buyer, place, suppliers. What it has stays.

    A place at the job's own site is no place of the shop.
    """
    place = same_place_again(job, shop)
    new = {field: text for field, name in _HEAD_FIELDS.items()
           if (text := getattr(job.order, name).strip()) and not getattr(shop.buyer, field)
           and (place or field not in ("ship_to", "hours", "unloading"))}
    buyer = dataclasses.replace(shop.buyer, **new)
    suppliers = shop.suppliers
    for one in _suppliers(job):
        if find(suppliers, one.name) is None:
            suppliers = put(suppliers, one)
    return dataclasses.replace(shop, buyer=buyer, suppliers=suppliers)


def _suppliers(job: Job) -> Iterator[Supplier]:
    """Whom a job asked, who quoted, and who has its order; what is known of each first."""
    order = job.order
    found = [*(Supplier(name=one.supplier, contact=one.contact, email=one.email,
                        phone=one.phone)
               for one in job.requests),
             *(Supplier(name=one.supplier, contact=one.by) for one in job.quotes.received)]
    if order.supplier.strip() and len(order.supplier) <= LONGEST_NAME:
        found.append(Supplier(name=order.supplier, contact=order.attention,
                              phone=order.supplier_phone))
    yield from (one for one in found if one.name.strip() and one.name != UNNAMED)


def lacks_of_head(shop: Shop, job: Job) -> list[str]:
    """What the shop lacks of a job's papers, by what it is called; empty for nothing."""
    kept = with_head_kept(shop, job)
    fields = [label.lower() for field, label in BUYER_FIELDS.items()
              if getattr(kept.buyer, field) != getattr(shop.buyer, field)]
    return [*fields, *(one.name for one in kept.suppliers[len(shop.suppliers):])]


# -- machines ------------------------------------------------------------------------------


def with_machine(job: Job, kept: KeptMachine) -> Job:
    """The job with a machine; a value that nobody held against the plate is a guess."""
    return take_machine(job, kept.named, kept.sure)


def take_machine(job: Job, machine: Machine, sure: Iterable[str] = ()) -> Job:
    """The job with a machine; its values are guesses, but those sure.

    What it says of metals and profiles that the job does not have yet is marked too, so that it is
    as sure as it was kept once the job has them. Its name is no value to be held against a plate.
    """
    sure = {*sure, MachineKey.NAME}
    gone = frozenset(MACHINE_KEYS)
    made = dataclasses.replace(
        job, machine=machine, typed={k: v for k, v in job.typed.items() if k not in gone},
        standing={k: v for k, v in job.standing.items() if marked_key(k)[0] not in gone},
    )
    several = _BY_METAL | _BY_PROFILE
    marks = {key: Standing.GUESS for key in MACHINE_KEYS if key not in sure
             and (key in several or ANSWERS[key].value(made) is not None)}
    marks.update({entry: Standing.SURE for entry in sorted(sure)
                  if entry not in gone and marked_key(entry)[0] in several})
    return dataclasses.replace(made, standing={**made.standing, **marks})


def keep_machine(job: Job, name: str, machines: Iterable[KeptMachine] = ()) -> KeptMachine:
    """The job's machine to be kept under a name, with what of it is sure.

    machines: those kept before; what was sure of the one of this name for other metals and
    profiles stays so while its values do.
    """
    machine = dataclasses.replace(job.machine, name=name)
    here = {ANSWERS[key].mark(job) for key in MACHINE_KEYS}
    sure = {
        ANSWERS[key].mark(job) for key in MACHINE_KEYS
        if ANSWERS[key].standing(job) is Standing.SURE
    } | {mark for mark, standing in job.standing.items()
         if marked_key(mark)[0] in _BY_METAL | _BY_PROFILE and standing is Standing.SURE}
    old = find(machines, name)
    if old is not None:
        sure |= {entry for entry in old.sure if entry not in here and
                 _entry_value(old.machine, entry) == _entry_value(machine, entry)}
    return KeptMachine(name=name, machine=machine, sure=tuple(sorted(sure)))


def _entry_value(machine: Machine, entry: str) -> Any:
    """The value that such an entry is of; None where the machine has none."""
    key, of = marked_key(entry)
    name = key.removeprefix("machine.")
    if key in _BY_METAL:
        return next((getattr(f, name) for metal, f in machine.forms.items() if metal == of), None)
    if key in _BY_PROFILE:
        name = name.removeprefix("profile_")
        return next((getattr(p, name) for p in machine.profiles if f"{p.seam}, {p.leg}" == of),
                    None)
    return getattr(machine, name, None)


# -- rigs ----------------------------------------------------------------------------------


def with_rig(job: Job, rig: Rig) -> Job:
    """The job with a rig; a value that nobody held against the plate is a guess.

    Trailer and tow vehicle, the gear at the site and that in the shop are each taken whole, where
    the rig has any of it: what it lacks leaves the job's as it is.
    """
    theirs = Job(haul=rig.haul)
    for keys in (ROAD_KEYS, GEAR_KEYS["site"], GEAR_KEYS["shop"]):
        if all(ANSWERS[key].value(theirs) is None for key in keys):
            continue
        job = _unmarked(job, keys)
        for key in keys:
            job = ANSWERS[key].put(job, ANSWERS[key].value(theirs))
        job = _guessed(job, (key for key in keys if key not in rig.sure or key in _SEEN_ANEW))
    return job


def keep_rig(job: Job, name: str, about: str = "") -> Rig:
    """The job's rig to be kept under a name, with what of it is sure; nothing of its load."""
    kept = Job()
    for key in RIG_KEYS:
        kept = ANSWERS[key].put(kept, ANSWERS[key].value(job))
    sure = (key for key in RIG_KEYS if ANSWERS[key].standing(job) is Standing.SURE)
    return Rig(name=name, about=about, haul=kept.haul, sure=tuple(sure))


def rig_is_given(job: Job) -> bool:
    """Whether anything of a rig was said."""
    return keep_rig(job, "rig").haul != HaulSection()


# -- marks ---------------------------------------------------------------------------------


def _unmarked(job: Job, keys: Iterable[str]) -> Job:
    gone = frozenset(keys)
    return dataclasses.replace(
        job,
        standing={k: v for k, v in job.standing.items() if k not in gone},
        typed={k: v for k, v in job.typed.items() if k not in gone},
    )


def _guessed(job: Job, keys: Iterable[str]) -> Job:
    marks = {key: Standing.GUESS for key in keys if ANSWERS[key].value(job) is not None}
    return dataclasses.replace(job, standing={**job.standing, **marks})
